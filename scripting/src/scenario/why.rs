//! `outcome:why()` and `shot:why()`: a miss as a sum over its causes.

use super::members;
use crate::lua::quantity::Quantity;
use crate::telling::{AskedUnits, capital, line_readings, reason};
use mlua::{Lua, Table};
use railproof_engine::attribution::{Attribution, NotAttributed};
use railproof_engine::rail::{BankGeometry, Line};

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

/// A field for each cause and for the line itself, which add up to the miss; or why there are none. The
/// sentence of one bank has its line by both readings.
pub(super) fn why_table(
    lua: &Lua,
    why: &Result<Attribution, NotAttributed>,
    units: AskedUnits,
    line: Option<(Line, &BankGeometry)>,
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
            let mut sentence = reason::sum(why, units);
            if let Some((line, geometry)) = line {
                let readings = capital(&line_readings(line, geometry));
                sentence = format!("{sentence} {readings}.");
            }
            table.raw_set("sentence", sentence)?;
        }
        Err(error) => table.raw_set("why_not", error.to_string())?,
    }
    members::seal(lua, table, "a reason", FIELDS)
}
