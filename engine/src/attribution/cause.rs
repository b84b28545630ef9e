//! Causes of a miss, and the result of an attribution.

use thiserror::Error;

/// Something of a bank that may be other than its reference.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Cause {
    /// The way the ball is sent, against the rule's line, rad; positive further along the rail.
    Aim,
    /// The angle by which squirt turned the object ball's way, rad; its sign is that of the aim.
    Squirt,
    /// The angle by which the cue ball's friction turned it off the line of centres, rad; its sign is that
    /// of the aim.
    Throw,
    /// Where and at which angle the ball met the rail: the angle from the rail's normal, rad.
    Line,
    /// Roll at the rail, as a fraction of natural roll; negative is draw.
    Roll,
    /// Side at the rail over the speed, positive running.
    Side,
    /// The restitution that acted.
    Restitution,
    /// The distance that the ball went along the rail while the rail held it, m.
    Carry,
    /// The speed off the rail, m/s, by which the ball slides on, and its path bends, later.
    Bend,
    /// Every other difference between two tables; it has no number.
    Table,
}

impl Cause {
    /// All of them, in the order in which they act.
    pub const ALL: [Self; 10] = [
        Self::Aim,
        Self::Squirt,
        Self::Throw,
        Self::Line,
        Self::Roll,
        Self::Side,
        Self::Restitution,
        Self::Carry,
        Self::Bend,
        Self::Table,
    ];

    /// True for what decides on which way the ball is sent off.
    pub const fn sends_off(self) -> bool {
        matches!(self, Self::Aim | Self::Squirt | Self::Throw)
    }

    /// The name used in files and scripts.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Aim => "aim",
            Self::Squirt => "squirt",
            Self::Throw => "throw",
            Self::Line => "line",
            Self::Roll => "roll",
            Self::Side => "side",
            Self::Restitution => "restitution",
            Self::Carry => "carry",
            Self::Bend => "bend",
            Self::Table => "table",
        }
    }
}

/// The effect of one cause on the miss.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CauseShare {
    /// The cause.
    pub cause: Cause,
    /// Its value, in the unit that [`Cause`] names.
    pub actual: f64,
    /// Its value at the reference.
    pub reference: f64,
    /// Its share of the miss, m; positive is long.
    pub share_m: f64,
}

/// A miss as a sum.
#[derive(Debug, Clone, PartialEq)]
pub struct Attribution {
    /// The miss, m; positive is long.
    pub miss_m: f64,
    /// The miss with every cause at its reference, m: that of the line itself, or of the bank that
    /// this one is compared with.
    pub remainder_m: f64,
    /// The share of each cause, in the order in which the causes act; the remainder and the shares add up
    /// to the miss.
    pub shares: Vec<CauseShare>,
}

/// A part of a miss.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part {
    /// The miss of the line itself, m.
    Itself(f64),
    /// A cause.
    Cause(CauseShare),
    /// The way it was sent off, m: causes of that which work against each other, taken together.
    SentOff(f64),
}

impl Part {
    /// Its part of the miss, m.
    pub const fn share_m(&self) -> f64 {
        match self {
            Self::Itself(share_m) | Self::SentOff(share_m) => *share_m,
            Self::Cause(share) => share.share_m,
        }
    }
}

/// Shares below this are not worth naming, m.
const LEAST_NAMED_M: f64 = 1e-3;
/// The second strongest part is named when it is at least this share of the strongest.
const LEAST_OF_STRONGEST: f64 = 0.4;

impl Attribution {
    /// The one or two parts that make the miss: the strongest that go its way, the line itself among
    /// them. An aim that allows for squirt and throw is no part of its own.
    pub fn main_parts(&self) -> Vec<Part> {
        let together_m = self.sent_off_m();
        let causes = self.shares.iter().copied();
        let causes = causes.filter(|share| together_m.is_none() || !share.cause.sends_off());
        let itself = std::iter::once(Part::Itself(self.remainder_m));
        let together = together_m.map(Part::SentOff);
        strongest(self.miss_m, itself.chain(together).chain(causes.map(Part::Cause)))
    }

    /// The sum of aim, squirt and throw, m, where one works against another.
    pub fn sent_off_m(&self) -> Option<f64> {
        let sending = || self.shares.iter().filter(|share| share.cause.sends_off());
        let goes = |sign: f64| sending().any(|share| sign * share.share_m >= LEAST_NAMED_M);
        (goes(1.0) && goes(-1.0)).then(|| sending().map(|share| share.share_m).sum())
    }

    /// The one or two causes that make the difference from the remainder.
    pub fn main_causes(&self) -> Vec<CauseShare> {
        let parts =
            strongest(self.miss_m - self.remainder_m, self.shares.iter().copied().map(Part::Cause));
        parts
            .into_iter()
            .filter_map(|part| match part {
                Part::Cause(share) => Some(share),
                Part::Itself(_) | Part::SentOff(_) => None,
            })
            .collect()
    }
}

fn strongest(total_m: f64, parts: impl Iterator<Item = Part>) -> Vec<Part> {
    let with =
        |part: &Part| part.share_m() * total_m > 0.0 && part.share_m().abs() >= LEAST_NAMED_M;
    let mut parts: Vec<Part> = parts.filter(with).collect();
    parts.sort_by(|a, b| b.share_m().abs().total_cmp(&a.share_m().abs()));
    let least = parts.first().map_or(0.0, |first| LEAST_OF_STRONGEST * first.share_m().abs());
    parts.retain(|part| part.share_m().abs() >= least);
    parts.truncate(2);
    parts
}

/// Why a miss is not attributed.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum NotAttributed {
    /// There is no miss.
    #[error("the ball never comes to the pocket's mouth line")]
    NoMiss,
    /// The compliant model's impact is stepped as a whole.
    #[error("the compliant rail model's impact can't be taken apart")]
    Compliant,
    /// One bank is by another model, or off another rail, than the other.
    #[error("the two banks are not off the same rail by the same rail model")]
    NotAlike,
    /// A set of causes leads elsewhere.
    #[error(
        "with {} as in the reference, the ball would never come to the pocket's mouth line",
        listed(.at_reference)
    )]
    Lost {
        /// The causes that are at their references.
        at_reference: Vec<Cause>,
    },
    /// The shot's ball comes off no rail, or off several.
    #[error("the ball does not come straight off one rail")]
    NotOneRail,
    /// It meets more than the cue ball and one rail on its way.
    #[error("the ball meets something else on its way")]
    MeetsMore,
    /// Without squirt the cue ball misses the object ball.
    #[error("without squirt the cue ball would not hit the object ball")]
    NoHit,
}

fn listed(causes: &[Cause]) -> String {
    let names: Vec<&str> = causes.iter().map(|cause| cause.name()).collect();
    match names.split_last() {
        Some((last, before)) if !before.is_empty() => format!("{} and {last}", before.join(", ")),
        _ => names.concat(),
    }
}

#[cfg(test)]
mod tests {
    use super::{Attribution, Cause, CauseShare, Part};

    fn missing(shares: &[(Cause, f64)]) -> Attribution {
        let shares: Vec<CauseShare> = shares
            .iter()
            .map(|&(cause, share_m)| CauseShare { cause, actual: 1.0, reference: 0.0, share_m })
            .collect();
        let miss_m = shares.iter().map(|share| share.share_m).sum();
        Attribution { miss_m, remainder_m: 0.0, shares }
    }

    #[test]
    fn causes_of_the_way_it_is_sent_off_that_cancel_are_taken_together() {
        let aim = [(Cause::Aim, -0.4), (Cause::Squirt, 0.5), (Cause::Throw, -0.08)];
        let causes = |why: &Attribution| -> Vec<Option<Cause>> {
            let parts = why.main_parts();
            let cause = |part: &Part| match part {
                Part::Cause(share) => Some(share.cause),
                _ => None,
            };
            parts.iter().map(cause).collect()
        };
        let solved = missing(&[aim.as_slice(), &[(Cause::Side, 0.2)]].concat());
        assert_eq!(causes(&solved), [Some(Cause::Side)]);
        assert!((solved.sent_off_m().unwrap() - 0.02).abs() < 1e-12);
        // With less side, what is left of the three stands beside it.
        let left = missing(&[aim.as_slice(), &[(Cause::Side, 0.03)]].concat());
        assert_eq!(causes(&left), [Some(Cause::Side), None]);
        let alike = missing(&[(Cause::Aim, 0.3), (Cause::Throw, 0.2), (Cause::Side, 0.01)]);
        assert_eq!(alike.sent_off_m(), None);
        assert_eq!(causes(&alike), [Some(Cause::Aim), Some(Cause::Throw)]);
    }
}
