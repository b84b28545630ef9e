//! The number of lanes at once, chosen at run time by the instructions that the processor has.

use super::block::play_blocks;
use super::inputs::Inputs;
use super::outcomes::{ColumnChoice, Outcomes};
use super::table::LaneTable;
use crate::bank::Bank;

/// The width of the instructions. The bits are the same at every width.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Width {
    /// The instructions that every processor of the kind has: two lanes on x86-64.
    Plain,
    /// Four lanes.
    Four,
    /// Eight lanes.
    Eight,
}

impl Width {
    /// All widths, narrowest first.
    pub const ALL: [Self; 3] = [Self::Plain, Self::Four, Self::Eight];

    /// True when this processor has it.
    pub fn is_there(self) -> bool {
        match self {
            Self::Plain => true,
            #[cfg(target_arch = "x86_64")]
            Self::Four => is_x86_feature_detected!("avx2"),
            #[cfg(target_arch = "x86_64")]
            Self::Eight => {
                is_x86_feature_detected!("avx512f")
                    && is_x86_feature_detected!("avx512dq")
                    && is_x86_feature_detected!("avx512bw")
                    && is_x86_feature_detected!("avx512vl")
            }
            #[cfg(not(target_arch = "x86_64"))]
            Self::Four | Self::Eight => false,
        }
    }

    /// The widest that this processor has.
    pub fn widest() -> Self {
        Self::ALL.into_iter().rev().find(|width| width.is_there()).unwrap_or(Self::Plain)
    }
}

/// Plays the blocks at a width, or at the plain one where the processor lacks it.
pub(super) fn play_blocks_at(
    width: Width,
    bank: &Bank,
    table: &LaneTable,
    inputs: &Inputs,
    wanted: ColumnChoice,
    outcomes: &mut Outcomes,
) {
    #[cfg(target_arch = "x86_64")]
    #[expect(unsafe_code, reason = "each is called only where the processor has been asked for it")]
    if width != Width::Plain && width.is_there() {
        return match width {
            // SAFETY: `is_there` asked the processor for every feature the function is built with.
            Width::Eight => unsafe { eight(bank, table, inputs, wanted, outcomes) },
            // SAFETY: as above.
            _ => unsafe { four(bank, table, inputs, wanted, outcomes) },
        };
    }
    let _ = width;
    play_blocks(bank, table, inputs, wanted, outcomes);
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx2")]
fn four(
    bank: &Bank,
    table: &LaneTable,
    inputs: &Inputs,
    wanted: ColumnChoice,
    outcomes: &mut Outcomes,
) {
    play_blocks(bank, table, inputs, wanted, outcomes);
}

#[cfg(target_arch = "x86_64")]
#[target_feature(enable = "avx512f,avx512dq,avx512bw,avx512vl")]
fn eight(
    bank: &Bank,
    table: &LaneTable,
    inputs: &Inputs,
    wanted: ColumnChoice,
    outcomes: &mut Outcomes,
) {
    play_blocks(bank, table, inputs, wanted, outcomes);
}
