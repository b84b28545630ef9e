//! Questions asked of an ensemble: shares of its members and where they change, rankings, and intervals of its
//! members' numbers, alone and tied together.

mod band;
mod bank;
mod interval;
mod ranking;
mod share;
mod slope;
mod starts;
mod tied;
mod weighted_mean;

pub use band::{AgreementStretch, BandLine, ShareCrossing, ShareLevel, ShareLook, search_band};
pub use bank::{KnownBank, holding_shares, holding_tables};
pub use interval::CredibleInterval;
pub use ranking::{EnsembleStanding, PairedDifference, rank_on_tables};
pub use share::{Agreement, MemberShare};
pub use slope::{SlopeAnswer, best_slopes};
pub use starts::{EnsembleStarts, StartOnTables};
pub use tied::{TiedNumbers, TiedPart};
pub(crate) use weighted_mean::weighted_mean;
