//! One block of banks: lanes for those that go the usual way, one by one for the others.

use super::alone::play_one;
use super::angle::arctan2;
use super::block_outcomes::{BasicOutcomes, FurtherOutcomes};
use super::impact::{Rebounds, rebound};
use super::inputs::Inputs;
use super::lane::{BLOCK, Column, select};
use super::outcomes::{ColumnChoice, Outcomes};
use super::sides::{self, CUSHION, POCKET, Pairs};
use super::table::LaneTable;
use super::to_mouth;
use super::to_rail::{self, BlockBalls, BlockInputs};
use super::ways::LaneWays;
use super::whole;
use crate::bank::{Bank, BankVerdict, Direction};

/// All that is known about a block while it is played.
struct Scratch {
    balls: BlockBalls,
    rebounds: Rebounds,
    ways: LaneWays,
    pairs: Pairs,
    short: BasicOutcomes,
    extra: FurtherOutcomes,
}

impl Scratch {
    const NONE: Self = Self {
        balls: BlockBalls::NONE,
        rebounds: Rebounds::NONE,
        ways: LaneWays::NONE,
        pairs: Pairs::NONE,
        short: BasicOutcomes {
            verdict: [BankVerdict::NoRoom; BLOCK],
            flagged: [false; BLOCK],
            numbers: [[0.0; BLOCK]; 3],
        },
        extra: FurtherOutcomes {
            hop: [false; BLOCK],
            outside_checked_speed: [false; BLOCK],
            numbers: [[0.0; BLOCK]; 11],
        },
    };
}

/// Plays all banks, block by block; the columns are as long as they must be.
#[inline(always)]
pub(super) fn play_blocks(
    bank: &Bank,
    table: &LaneTable,
    inputs: &Inputs,
    wanted: ColumnChoice,
    outcomes: &mut Outcomes,
) {
    let mut scratch = Scratch::NONE;
    let len = inputs.len();
    let columns = inputs.columns();
    let mut at = 0;
    while at < len {
        let count = BLOCK.min(len - at);
        let mut padded = [[0.0; BLOCK]; 7];
        let mut given: BlockInputs<'_> = [&[0.0; BLOCK]; 7];
        if count == BLOCK {
            for (block, column) in given.iter_mut().zip(columns) {
                if let Some(whole) = column[at..].first_chunk() {
                    *block = whole;
                }
            }
        } else {
            for (block, column) in padded.iter_mut().zip(columns) {
                block[..count].copy_from_slice(&column[at..at + count]);
            }
            given = padded.each_ref();
        }
        lanes(table, &given, &mut scratch, wanted);
        if wanted == ColumnChoice::Whole {
            let gone = (&scratch.balls, &scratch.rebounds);
            whole::finish(bank, table, inputs, at..at + count, gone, outcomes);
            at += count;
            continue;
        }
        sum_up(&scratch.rebounds, &scratch.ways, &mut scratch.short);
        outcomes.put_short(at, count, &scratch.short);
        if wanted == ColumnChoice::Everything {
            let Scratch { balls, rebounds, ways, extra, .. } = &mut scratch;
            tell(table, given[0], balls, rebounds, ways, extra);
            outcomes.put_extra(at, count, extra);
        }
        for i in 0..count {
            if !scratch.balls.usual[i] {
                play_one(bank, inputs, at + i, wanted, outcomes);
            }
        }
        at += count;
    }
}

#[inline(always)]
fn lanes(table: &LaneTable, given: &BlockInputs<'_>, scratch: &mut Scratch, wanted: ColumnChoice) {
    let Scratch { balls, rebounds, ways, pairs, .. } = scratch;
    to_rail::launch(table, given, balls);
    if !to_rail::all_frozen(table, balls) {
        to_rail::travel(table, balls);
    }
    rebound(table, balls, rebounds);
    if wanted == ColumnChoice::Whole {
        return;
    }
    to_mouth::travel(table, balls, rebounds, ways);
    sides::first_of_several(table, balls, rebounds, ways, pairs);
}

#[inline(always)]
fn sum_up(rebounds: &Rebounds, ways: &LaneWays, short: &mut BasicOutcomes) {
    for i in 0..BLOCK {
        let long = ways.miss_m[i] > 0.0;
        let past = if long { BankVerdict::Long } else { BankVerdict::Short };
        let touches =
            BankVerdict::TouchesPoint(if long { Direction::Long } else { Direction::Short });
        let clear = (ways.clearance_long_m[i] > 0.0) & (ways.clearance_short_m[i] > 0.0);
        short.verdict[i] = match ways.met[i] {
            POCKET => BankVerdict::OtherPocket,
            CUSHION if !ways.arrives[i] => BankVerdict::OtherRail,
            CUSHION => past,
            _ if !ways.arrives[i] => BankVerdict::StoppedBeforeMouth,
            _ if !ways.between[i] => past,
            _ if clear => BankVerdict::Holds,
            _ => touches,
        };
    }
    for i in 0..BLOCK {
        short.flagged[i] = rebounds.outside_checked_speed[i] | rebounds.hop[i];
    }
    short.numbers = [ways.miss_m, ways.clearance_long_m, ways.clearance_short_m];
}

#[inline(always)]
fn tell(
    table: &LaneTable,
    contact: &Column,
    balls: &BlockBalls,
    rebounds: &Rebounds,
    ways: &LaneWays,
    extra: &mut FurtherOutcomes,
) {
    extra.hop = rebounds.hop;
    extra.outside_checked_speed = rebounds.outside_checked_speed;
    let [
        at,
        time,
        speed,
        roll,
        incidence,
        departure,
        off_speed,
        off_angle,
        restitution,
        later,
        last,
    ] = &mut extra.numbers;
    for i in 0..BLOCK {
        let mirrored = table.mirrors & (contact[i] < 0.0);
        let turned = |number: f64| select(mirrored, -number, number);
        let (vx, vy) = (balls.vx[i], balls.vy[i]);
        let square = vx * vx + vy * vy;
        let along = balls.wy[i] * vx - balls.wx[i] * vy;
        at[i] = turned(balls.x[i]) / table.diamond_m;
        speed[i] = square.sqrt();
        roll[i] = select(square > 0.0, table.radius_m * along / square, f64::NAN);
        departure[i] = turned(ways.departure_m[i]) / table.diamond_m;
        let (off_x, off_y) = (rebounds.vx[i], rebounds.vy[i]);
        off_speed[i] = (off_x * off_x + off_y * off_y).sqrt();
    }
    for i in 0..BLOCK {
        incidence[i] = arctan2(balls.vx[i].abs(), balls.vy[i]);
    }
    for i in 0..BLOCK {
        let mirrored = table.mirrors & (contact[i] < 0.0);
        let turned = |number: f64| select(mirrored, -number, number);
        let off_x = turned(rebounds.vx[i]);
        let along = select(turned(balls.vx[i]) > 0.0, off_x, -off_x);
        off_angle[i] = arctan2(along, -rebounds.vy[i]);
    }
    *time = balls.time_s;
    *restitution = rebounds.restitution;
    *later = ways.time_s;
    *last = ways.speed_m_s;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::equipment::RailModel;
    use crate::rail::testing::nine_foot;
    use crate::rail::{Pocket, Rail};

    /// Lanes are worth their code only while few banks leave them.
    #[test]
    fn nearly_every_bank_of_a_map_goes_the_usual_way() {
        let pockets = [(Rail::Left, Pocket::FootRight), (Rail::Head, Pocket::FootRight)];
        for (rail, pocket) in pockets {
            let bank = Bank::new(&nine_foot(), rail, pocket, RailModel::Planar).unwrap();
            let table = LaneTable::new(&bank).unwrap();
            let mut scratch = Scratch::NONE;
            let (mut usual, mut all) = (0, 0);
            for block in 0..100 {
                let share = |i: usize, of: usize| ((i * 7 + block * 13) % of) as f64 / of as f64;
                let column = |low: f64, high: f64, of: usize| {
                    core::array::from_fn(|i| low + (high - low) * share(i, of))
                };
                let contact: Column = column(0.5, 3.5, 61);
                let start = contact.map(|contact| 2.2 * contact);
                let (off_rail, speed) = (column(0.0, 0.6, 59), column(1.0, 7.0, 53));
                let (roll, side) = (column(-1.0, 1.0, 47), column(-0.5, 0.5, 43));
                let aim_error = column(-0.01, 0.01, 41);
                let given = [&contact, &start, &off_rail, &speed, &roll, &side, &aim_error];
                lanes(&table, &given, &mut scratch, ColumnChoice::Verdicts);
                usual += scratch.balls.usual.iter().filter(|usual| **usual).count();
                all += BLOCK;
            }
            assert!(usual * 100 > all * 97, "{usual} of {all} off {rail:?} into {pocket:?}");
        }
    }
}
