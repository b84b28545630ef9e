//! Place and motion of a ball, as a table with units.

use crate::lua::quantity::Quantity;
use mlua::{Lua, Table};
use railproof_engine::lay::angle_rad;
use railproof_engine::motion::BallState;
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::vector::Vec2;

/// Place, velocity and spin; not yet sealed. A ball that stands still has no direction, roll or side.
pub(super) fn state_table(lua: &Lua, state: &BallState, radius_m: f64) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    let quantity = |amount: f64, unit: &str| Quantity::new(amount + 0.0, unit);
    table.raw_set("x", quantity(state.position.x, "m")?)?;
    table.raw_set("y", quantity(state.position.y, "m")?)?;
    let speed = state.velocity.norm();
    table.raw_set("speed", quantity(speed, "m/s")?)?;
    if let Some(direction_rad) = angle_rad(Vec2::ZERO, state.velocity) {
        table.raw_set("direction", quantity(direction_rad / DEGREE_RAD, "deg")?)?;
        table.raw_set("spin_side", state.spin.z * radius_m / speed)?;
    }
    if let Some(roll) = state.natural_roll_fraction(radius_m) {
        table.raw_set("roll", roll)?;
    }
    table.raw_set("spin_x", quantity(state.spin.x, "rad/s")?)?;
    table.raw_set("spin_y", quantity(state.spin.y, "rad/s")?)?;
    table.raw_set("spin_z", quantity(state.spin.z, "rad/s")?)?;
    Ok(table)
}
