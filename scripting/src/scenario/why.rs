//! `outcome:why()` and `shot:why()`: a miss as a sum over its causes.

use super::members;
use crate::lua::quantity::Quantity;
use crate::telling::{AskedUnits, reason};
use mlua::{Lua, Table};
use railproof_engine::attribution::{Attribution, NotAttributed};

const FIELDS: &[&str] = &[
    "miss",
    "line_itself",
    "aim",
    "squirt",
    "throw",
    "line",
    "roll",
    "side",
    "restitution",
    "carry",
    "bend",
    "table",
    "sentence",
    "why_not",
];

/// A field for each cause and for the line itself, which add up to the miss; or why there are none.
pub(super) fn why_table(
    lua: &Lua,
    why: &Result<Attribution, NotAttributed>,
    units: AskedUnits,
) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    match why {
        Ok(why) => {
            let length = |metres: f64| {
                let (amount, unit) = units.amount(metres);
                Quantity::new(amount, unit)
            };
            table.raw_set("miss", length(why.miss_m)?)?;
            table.raw_set("line_itself", length(why.remainder_m)?)?;
            for share in &why.shares {
                table.raw_set(share.cause.name(), length(share.share_m)?)?;
            }
            table.raw_set("sentence", reason::sum(why, units))?;
        }
        Err(error) => table.raw_set("why_not", error.to_string())?,
    }
    members::seal(lua, table, "a reason", FIELDS)
}
