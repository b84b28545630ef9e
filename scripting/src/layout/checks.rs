//! Whether the balls can be where they are said to be.

use crate::fault::Fault;
use crate::yaml::Source;
use railproof_engine::equipment::Equipment;
use railproof_engine::motion::BallState;

/// A coordinate written to the micrometre can round past the groove, and two touching balls into
/// each other; this much is forgiven.
const ROUNDING_M: f64 = 1e-6;

/// Refuses balls beyond a groove or inside one another. A centre beyond a groove by no more than
/// the rounding is put on the groove.
pub(super) fn check_places(
    balls: &mut [(String, BallState)],
    equipment: &Equipment,
    source: &Source,
) -> Result<(), Fault> {
    let groove = equipment.groove_m();
    let limit_x = 0.5 * equipment.table.length_m - groove;
    let limit_y = 0.5 * equipment.table.width_m - groove;
    for index in 0..balls.len() {
        let (before, rest) = balls.split_at_mut(index);
        let Some((name, state)) = rest.first_mut() else { break };
        let place = |name: &str| {
            source.place_of(&["balls".to_owned(), name.to_owned(), "position".to_owned()])
        };
        for (axis, value, limit) in
            [("x", &mut state.position.x, limit_x), ("y", &mut state.position.y, limit_y)]
        {
            if value.abs() > limit + ROUNDING_M {
                return Err(Fault::bad_input(format!(
                    "the ball `{name}` is off the table: {axis} is {:.6} m",
                    *value
                ))
                .at(place(name))
                .with_hint(format!(
                    "on this table the centre has {axis} from {:.6} m to {limit:.6} m; the origin \
                     is the table's centre",
                    -limit
                )));
            }
            *value = value.clamp(-limit, limit);
        }
        for (other, other_state) in &*before {
            let gap = (state.position - other_state.position).norm() - equipment.ball.diameter_m;
            if gap < -ROUNDING_M {
                return Err(Fault::bad_input(format!(
                    "the balls `{other}` and `{name}` are inside one another by {:.3} mm",
                    -1e3 * gap
                ))
                .at(place(name)));
            }
        }
    }
    Ok(())
}
