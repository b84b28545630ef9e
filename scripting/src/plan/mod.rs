//! A sweep as a file: plain data that says everything that decides its results, and a digest of it.
//!
//! A plan needs no script to be played. Where a rule is a function, its text is inside.

mod axis;
mod canonical;
mod consequence;
mod differences;
mod document;
mod json;
mod map_size;
mod read;
mod repeats;
mod rules;
mod shot_axes;
mod shots;

pub use axis::PlanAxis;
pub(crate) use canonical::{canonical, sha256};
pub use differences::differences;
pub(crate) use document::without_layout;
pub use map_size::map_cells;
pub(crate) use map_size::{MOST_BINS, bin_count, check_cells};
pub use read::{is_plan_file, plan_of_text, read_plan};
pub(crate) use repeats::same;
pub use shot_axes::{ShotAxis, ShotValues, digits};
pub(crate) use shot_axes::{si_of, si_unit_of, taken};
pub use shots::{AxisFault, ShotsPlan};

use railproof_engine::bank::BankVerdict;
use railproof_engine::batch::ColumnChoice;
use railproof_engine::equipment::RailModel;
use railproof_engine::results::NO_SHOT;
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::{Input, Plan, Player, Tally, Values};
use railproof_engine::verdict::PocketVerdict;
use serde::{Deserialize, Serialize};

/// Which rows of a sweep are kept.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize, clap::ValueEnum,
)]
#[serde(rename_all = "snake_case")]
pub enum Keep {
    /// Every bank.
    #[default]
    Rows,
    /// Counts and misses over each pair of inputs, no single banks.
    Map,
    /// The banks that do not hold.
    Failures,
}

impl Keep {
    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Rows => "rows",
            Self::Map => "map",
            Self::Failures => "failures",
        }
    }

    /// The columns that must be worked out for it.
    pub const fn wanted(self) -> ColumnChoice {
        match self {
            Self::Rows | Self::Failures => ColumnChoice::Everything,
            Self::Map => ColumnChoice::Verdicts,
        }
    }
}

/// The points of a sweep, and how each is played.
#[derive(Debug, Clone)]
pub enum Swept {
    /// Banks of a lone ball.
    Banks {
        /// The points.
        banks: Plan,
        /// The rules each point is played by; none when the points give start numbers.
        rules: Vec<NamedRule>,
    },
    /// Whole shots.
    Shots(ShotsPlan),
}

/// A sweep ready to be played, here or elsewhere.
#[derive(Debug, Clone)]
pub struct SweepPlan {
    /// Its name; results do not depend on it.
    pub name: String,
    /// The points, and how each is played.
    pub played: Swept,
    /// The rows to keep.
    pub keep: Keep,
    /// Rows tell every measure of a bank, also those that the batch core does not work out.
    pub details: bool,
    /// Points in a shard: the last may have fewer.
    pub shard_points: u64,
}

/// Banks for each cell of a map in a shard at least: a shard's file holds every cell once, and should
/// cost less than playing its banks.
const BANKS_A_CELL: u64 = 4;
/// Banks in a shard at most, whose rows are in memory together.
const MOST_SHARD_BANKS: u64 = 1 << 16;
/// The same where only counts are kept.
const MOST_MAP_BANKS: u64 = 1 << 20;
/// The same for the stepped cushion, which takes about a millisecond a bank.
const MOST_STEPPED_BANKS: u64 = 1 << 10;
/// The same for whole shots, of which one takes some tenths of a millisecond.
const MOST_SHARD_SHOTS: u64 = 1 << 12;
/// The most rows a shard may be given.
const MOST_SHARD_ROWS: u64 = 1 << 24;
/// The most points of a plan.
const MOST_POINTS: u64 = 1 << 40;
/// Points in a shard at least.
const FEWEST_SHARD_POINTS: u64 = 1024;
/// So many shards are enough to share out and to go on from.
const ENOUGH_SHARDS: u64 = 64;

/// Why a plan can't be played, and the key of its file that says so.
#[derive(Debug)]
pub struct Unplayable {
    /// The fault, in words.
    pub why: String,
    /// The key.
    pub key: &'static str,
}

/// The key of a plan or a layout that holds equipment or its name.
const EQUIPMENT: &str = "equipment";

impl SweepPlan {
    /// A plan of banks with shards of a size that suits it.
    pub fn new(name: String, banks: Plan, rules: Vec<NamedRule>, keep: Keep) -> Self {
        Self::of(name, Swept::Banks { banks, rules }, keep)
    }

    /// A plan with shards of a size that suits it.
    pub fn of(name: String, played: Swept, keep: Keep) -> Self {
        let mut plan = Self { name, played, keep, details: false, shard_points: 1 };
        plan.shard_points = suitable_shard(&plan);
        plan
    }

    /// The same plan keeping something else.
    #[must_use]
    pub fn keeping(self, keep: Keep) -> Self {
        if keep == self.keep {
            return self;
        }
        let details = self.details;
        Self { details, ..Self::of(self.name, self.played, keep) }
    }

    /// The points of banks; nothing for whole shots.
    pub const fn banks(&self) -> Option<&Plan> {
        match &self.played {
            Swept::Banks { banks, .. } => Some(banks),
            Swept::Shots(_) => None,
        }
    }

    /// The whole shots; nothing for banks.
    pub const fn shots(&self) -> Option<&ShotsPlan> {
        match &self.played {
            Swept::Banks { .. } => None,
            Swept::Shots(shots) => Some(shots),
        }
    }

    /// The rules each point is played by.
    pub fn rules(&self) -> &[NamedRule] {
        match &self.played {
            Swept::Banks { rules, .. } => rules,
            Swept::Shots(_) => &[],
        }
    }

    /// The axes; the last varies fastest.
    pub fn axes(&self) -> Vec<PlanAxis<'_>> {
        match &self.played {
            Swept::Banks { banks, .. } => banks.axes().iter().map(PlanAxis::Input).collect(),
            Swept::Shots(shots) => shots.axes().iter().map(PlanAxis::Named).collect(),
        }
    }

    /// The words for what becomes of a point, those that succeed first.
    pub const fn verdicts(&self) -> &'static [&'static str] {
        match &self.played {
            Swept::Banks { .. } => &BankVerdict::NAMES,
            Swept::Shots(_) => &PocketVerdict::NAMES,
        }
    }

    /// The number of those that succeed: a bank holds, a shot drops where it should.
    pub const fn successes(&self) -> usize {
        match &self.played {
            Swept::Banks { .. } => 1,
            Swept::Shots(_) => PocketVerdict::MADE,
        }
    }

    /// The number of which the share that succeeds is told: banks that were played, shots that were asked
    /// for.
    pub fn counted(&self, tally: &Tally) -> u64 {
        match &self.played {
            Swept::Banks { .. } => tally.played(),
            Swept::Shots(_) => tally.played() + tally.failed,
        }
    }

    /// That share, 0 to 1; nothing for nothing.
    pub fn share(&self, tally: &Tally) -> Option<f64> {
        match &self.played {
            Swept::Banks { .. } => tally.share_holding(),
            Swept::Shots(_) => tally.share_made(),
        }
    }

    /// The verdict of what could not be played, and the column that says why.
    pub const fn without_answer(&self) -> (&'static str, &'static str) {
        match &self.played {
            Swept::Banks { .. } => ("failed", "failure"),
            Swept::Shots(_) => (NO_SHOT, "why_not"),
        }
    }

    /// The things that it plays.
    pub const fn noun(&self) -> &'static str {
        match &self.played {
            Swept::Banks { .. } => "banks",
            Swept::Shots(_) => "shots",
        }
    }

    /// Refuses what can't be played.
    ///
    /// # Errors
    /// A value twice on an axis, no rule for points without start numbers, too many points or cells,
    /// or shards too large to be held, in words.
    pub fn check(&self) -> Result<(), Unplayable> {
        let of = |key: &'static str| move |why: String| Unplayable { why, key };
        let (size, points) = match &self.played {
            Swept::Banks { banks, rules } => {
                banks.axes().iter().try_for_each(repeats::check_distinct).map_err(of("axes"))?;
                Player::new(banks, rules, self.keep.wanted())
                    .map_err(|error| of("axes")(error.to_string()))?;
                (banks.size(), if banks.sample().is_some() { "sample" } else { "axes" })
            }
            Swept::Shots(shots) => {
                if self.details {
                    let why = "the rows of whole shots have every measure already";
                    return Err(of("details")(why.to_owned()));
                }
                (shots.size(), "over")
            }
        };
        if size > u128::from(MOST_POINTS) {
            let why = format!("the plan has {size} points; at most {MOST_POINTS} are played");
            return Err(of(points)(why));
        }
        if self.details && self.keep == Keep::Map {
            let why = "a map keeps no rows, so it has no details of them";
            return Err(of("details")(why.to_owned()));
        }
        if self.keep == Keep::Map {
            check_cells(&self.axes(), self.ways()).map_err(of("keep"))?;
        }
        let rows = self.shard_points.saturating_mul(self.ways());
        if !(1..=MOST_SHARD_ROWS).contains(&rows) {
            let why = format!("shards of {rows} rows; a shard holds 1 to {MOST_SHARD_ROWS}");
            return Err(of("shard_points")(why));
        }
        Ok(())
    }

    /// The number of points.
    pub fn points(&self) -> u64 {
        let size = match &self.played {
            Swept::Banks { banks, .. } => banks.size(),
            Swept::Shots(shots) => shots.size(),
        };
        u64::try_from(size).unwrap_or(u64::MAX)
    }

    /// Rows of a point.
    pub fn ways(&self) -> u64 {
        self.rules().len().max(1) as u64
    }

    /// The number of banks to play.
    pub fn bank_count(&self) -> u64 {
        self.points().saturating_mul(self.ways())
    }

    /// The number of shards.
    pub fn shards(&self) -> u64 {
        self.points().div_ceil(self.shard_points)
    }

    /// The points of a shard.
    pub fn shard(&self, shard: u64) -> std::ops::Range<u64> {
        let from = shard * self.shard_points;
        from..(from + self.shard_points).min(self.points())
    }
}

/// A power of two, decided by the plan alone.
fn suitable_shard(plan: &SweepPlan) -> u64 {
    let ways = plan.ways();
    let (most_banks, fewest_banks) = if plan.banks().is_some_and(is_stepped) {
        (MOST_STEPPED_BANKS, 1)
    } else if plan.keep == Keep::Map {
        let cells = map_cells(&plan.axes(), ways).saturating_mul(BANKS_A_CELL);
        let fewest = cells.min(MOST_SHARD_ROWS / 2);
        let most = if plan.banks().is_some() { MOST_MAP_BANKS } else { MOST_SHARD_SHOTS };
        (most.max(fewest.next_power_of_two()), fewest)
    } else if plan.banks().is_some() {
        (MOST_SHARD_BANKS, 1)
    } else {
        (MOST_SHARD_SHOTS, 1)
    };
    let most = (most_banks / ways).max(1);
    let wanted =
        (plan.points() / ENOUGH_SHARDS).max(fewest_banks / ways).max(1).next_power_of_two();
    wanted.clamp(FEWEST_SHARD_POINTS.min(most), most)
}

fn is_stepped(banks: &Plan) -> bool {
    match (banks.axis(Input::RailModel), banks.axis(Input::Equipment)) {
        (Some(axis), _) => {
            matches!(&axis.values, Values::Models(all) if all.contains(&RailModel::Compliant))
        }
        (None, Some(axis)) => matches!(&axis.values, Values::Equipment(all)
            if all.iter().any(|table| table.cushion.rail_model == RailModel::Compliant)),
        (None, None) => false,
    }
}
