//! Balls, people and tables that the tests share.

use railproof::player::find_player;
use railproof_engine::chance::{Condition, PossibleTables, Skill};
use railproof_engine::ensemble::Ensemble;
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::{Pocket, Rail};
use railproof_engine::units::{Speed, SpeedWord};
use std::path::Path;
use std::sync::LazyLock;

/// The shipped player of the middle sort, invented.
pub static CLUB: LazyLock<Skill> =
    LazyLock::new(|| find_player("club", Path::new("")).expect("it is shipped").skill);

/// A ball off the left rail into the foot right corner.
pub fn ball(number: f64, off_rail_m: f64, speed: SpeedWord) -> Condition {
    Condition {
        rail: Rail::Left,
        pocket: Pocket::FootRight,
        number,
        off_rail_m,
        speed: Speed::Word(speed),
        roll: 0.0,
        side: 0.0,
    }
}

/// Balls over the table: six numbers, three distances, three speeds, sliding and rolling.
pub fn balls() -> Vec<Condition> {
    let mut balls = Vec::new();
    for number in [0.7, 1.3, 2.0, 2.6, 3.3, 3.9] {
        for off_rail_m in [0.0, 0.1, 0.3] {
            for speed in SpeedWord::ALL {
                for roll in [0.0, 1.0] {
                    balls.push(Condition { roll, ..ball(number, off_rail_m, speed) });
                }
            }
        }
    }
    balls
}

/// Tables that could be yours.
pub fn wide(table: &Equipment, count: usize) -> PossibleTables {
    PossibleTables::of(table, &Ensemble::wide(count, 3))
}
