//! Outcomes as a bank played alone gives them: lanes bring the balls to the rail and off it, which is
//! nearly all of the work, and each goes on alone from there.

use super::alone::play_one;
use super::impact::Rebounds;
use super::inputs::Inputs;
use super::lane::BLOCK;
use super::outcomes::{ColumnChoice, Outcomes};
use super::table::LaneTable;
use super::to_rail::BlockBalls;
use crate::bank::{AtRail, Bank};
use crate::impact::Rebound;
use crate::motion::BallState;
use crate::vector::{Vec2, Vec3};
use std::ops::Range;

/// Ends the banks of a block, whose places among the inputs are given.
pub(super) fn finish(
    bank: &Bank,
    table: &LaneTable,
    inputs: &Inputs,
    block: Range<usize>,
    (balls, rebounds): (&BlockBalls, &Rebounds),
    outcomes: &mut Outcomes,
) {
    for (i, index) in block.enumerate().take(BLOCK) {
        let x = balls.x[i];
        // A way across the rail's line beyond the rail's own ends may end before.
        if !balls.usual[i] || x < table.low_groove_m || x > table.high_groove_m {
            play_one(bank, inputs, index, ColumnChoice::Whole, outcomes);
            continue;
        }
        let line = inputs.line(index);
        let outcome = bank.by_mirror(line, |line| {
            let state = BallState {
                position: Vec2::new(x, table.span_m),
                velocity: Vec2::new(balls.vx[i], balls.vy[i]),
                spin: Vec3::new(balls.wx[i], balls.wy[i], balls.wz[i]),
            };
            let at_rail = AtRail { time_s: balls.time_s[i], state, contact: x / table.diamond_m };
            let rebound = Rebound {
                velocity: Vec2::new(rebounds.vx[i], rebounds.vy[i]),
                spin: Vec3::new(rebounds.wx[i], rebounds.wy[i], rebounds.wz[i]),
                restitution: rebounds.restitution[i],
                outside_checked_speed: rebounds.outside_checked_speed[i],
                hop: rebounds.hop[i],
            };
            bank.off_the_rail(bank.launched(line, inputs.launch(index)), at_rail, || rebound)
        });
        outcomes.put(index, Some(&outcome), ColumnChoice::Whole, table.radius_m);
    }
}
