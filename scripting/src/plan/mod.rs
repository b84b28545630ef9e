//! A sweep as a file: plain data that says everything that decides its results, and a digest of it.
//!
//! A plan needs no script to be played. Where a rule is a function, its text is inside.

mod canonical;
mod consequence;
mod differences;
mod document;
mod map_size;
mod read;
mod repeats;
mod rules;

pub(crate) use canonical::{canonical, sha256};
pub use differences::differences;
pub(crate) use document::without_layout;
pub use map_size::map_cells;
pub(crate) use map_size::{MOST_BINS, bin_count, check_cells};
pub use read::{is_plan_file, plan_of_text, read_plan};
pub(crate) use repeats::same;

use railproof_engine::batch::ColumnChoice;
use railproof_engine::equipment::RailModel;
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::{Input, Plan, Player, Values};
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

/// A sweep ready to be played, here or elsewhere.
#[derive(Debug, Clone)]
pub struct SweepPlan {
    /// Its name; results do not depend on it.
    pub name: String,
    /// The points.
    pub banks: Plan,
    /// The rules each point is played by; none when the points give start numbers.
    pub rules: Vec<NamedRule>,
    /// The rows to keep.
    pub keep: Keep,
    /// Rows tell the ending, the hop and the spins too.
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
/// The most rows a shard may be given.
const MOST_SHARD_ROWS: u64 = 1 << 24;
/// The most points of a plan.
const MOST_POINTS: u64 = 1 << 40;
/// Points in a shard at least.
const FEWEST_SHARD_POINTS: u64 = 1024;
/// So many shards are enough to share out and to go on from.
const ENOUGH_SHARDS: u64 = 64;

impl SweepPlan {
    /// A plan with shards of a size that suits it.
    pub fn new(name: String, banks: Plan, rules: Vec<NamedRule>, keep: Keep) -> Self {
        let shard_points = suitable_shard(&banks, rules.len(), keep);
        Self { name, banks, rules, keep, details: false, shard_points }
    }

    /// The same plan keeping something else.
    #[must_use]
    pub fn keeping(self, keep: Keep) -> Self {
        if keep == self.keep {
            return self;
        }
        let details = self.details;
        Self { details, ..Self::new(self.name, self.banks, self.rules, keep) }
    }

    /// Refuses what can't be played.
    ///
    /// # Errors
    /// A value twice on an axis, no rule for points without start numbers, too many points or cells,
    /// or shards too large to be held, in words.
    pub fn check(&self) -> Result<(), String> {
        self.banks.axes().iter().try_for_each(repeats::check_distinct)?;
        Player::new(&self.banks, &self.rules, self.keep.wanted())
            .map_err(|error| error.to_string())?;
        let size = self.banks.size();
        if size > u128::from(MOST_POINTS) {
            return Err(format!("the plan has {size} points; at most {MOST_POINTS} are played"));
        }
        if self.details && self.keep == Keep::Map {
            return Err("a map keeps no rows, so it has no details of them".to_owned());
        }
        if self.keep == Keep::Map {
            check_cells(&self.banks, self.ways())?;
        }
        let rows = self.shard_points.saturating_mul(self.ways());
        if !(1..=MOST_SHARD_ROWS).contains(&rows) {
            return Err(format!("shards of {rows} rows; a shard holds 1 to {MOST_SHARD_ROWS}"));
        }
        Ok(())
    }

    /// The number of points.
    pub fn points(&self) -> u64 {
        u64::try_from(self.banks.size()).unwrap_or(u64::MAX)
    }

    /// Rows of a point.
    pub fn ways(&self) -> u64 {
        self.rules.len().max(1) as u64
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
fn suitable_shard(banks: &Plan, rules: usize, keep: Keep) -> u64 {
    let ways = rules.max(1) as u64;
    let (most_banks, fewest_banks) = if is_stepped(banks) {
        (MOST_STEPPED_BANKS, 1)
    } else if keep == Keep::Map {
        let fewest = map_cells(banks, ways).saturating_mul(BANKS_A_CELL).min(MOST_SHARD_ROWS / 2);
        (MOST_MAP_BANKS.max(fewest.next_power_of_two()), fewest)
    } else {
        (MOST_SHARD_BANKS, 1)
    };
    let most = (most_banks / ways).max(1);
    let points = u64::try_from(banks.size()).unwrap_or(u64::MAX);
    let wanted = (points / ENOUGH_SHARDS).max(fewest_banks / ways).max(1).next_power_of_two();
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
