//! Why a ball misses, for other programs.

use railproof_engine::attribution::{Attribution, NotAttributed, REFERENCE_SPEED_M_S};
use serde::Serialize;

/// A miss as a sum, for other programs. The remainder and the shares make the miss.
#[derive(Debug, Clone, Serialize)]
pub struct ReasonAnswer {
    /// Null where the miss is attributed; else why it is not.
    pub why_not: Option<String>,
    /// The miss with every cause at its reference: that of the line itself (a stun ball frozen to the rail, at
    /// the reference speed).
    pub line_itself_m: Option<f64>,
    /// The speed of the references.
    pub reference_speed_m_s: f64,
    /// The share of each cause, positive long.
    pub shares: Vec<ShareAnswer>,
}

/// The share of one cause in a miss.
#[derive(Debug, Clone, Serialize)]
pub struct ShareAnswer {
    /// Its name.
    pub cause: &'static str,
    /// Its share, positive long.
    pub share_m: f64,
    /// As it was, in SI units or as a fraction.
    pub value: f64,
    /// The same at the reference.
    pub reference: f64,
}

impl ReasonAnswer {
    /// Of an attribution, or of the reason why there is none.
    pub fn of(why: &Result<Attribution, NotAttributed>) -> Self {
        let found = why.as_ref().ok();
        let shares = found.into_iter().flat_map(|why| &why.shares);
        Self {
            why_not: why.as_ref().err().map(ToString::to_string),
            line_itself_m: found.map(|why| why.remainder_m),
            reference_speed_m_s: REFERENCE_SPEED_M_S,
            shares: shares
                .map(|share| ShareAnswer {
                    cause: share.cause.name(),
                    share_m: share.share_m,
                    value: share.actual + 0.0,
                    reference: share.reference + 0.0,
                })
                .collect(),
        }
    }
}
