//! Measures of results in a script's hands: their values, and which of them lines may show.

use crate::fault::Fault;
use crate::lua::options::{Options, text};
use crate::lua::quantity::Quantity;
use crate::picture::MissUnit;
use crate::renamed;
use mlua::{IntoLua, Lua, Value};
use railproof_engine::results::{DisplayUnit, Measure, MeasureReading, ResultKind};
use railproof_engine::units::Dimension;

/// Its value in the unit that people are shown; nothing where the result has none.
pub fn lua_value<K: ResultKind>(
    lua: &Lua,
    measure: &Measure<K>,
    result: &K::Result<'_>,
) -> mlua::Result<Value> {
    match measure.reading {
        MeasureReading::Word(of) => of(result).into_lua(lua),
        MeasureReading::Flag(of) => of(result).into_lua(lua),
        MeasureReading::Diamonds(_) | MeasureReading::Count(_) => {
            measure.number(result).into_lua(lua)
        }
        MeasureReading::Number(dimension, of) => match of(result).filter(|si| si.is_finite()) {
            Some(si) if dimension == Dimension::Ratio => Ok(Value::Number(si)),
            Some(si) => {
                let shown = measure.shown();
                Quantity::new(shown.of(si), shown.unit)?.into_lua(lua)
            }
            None => Ok(Value::Nil),
        },
    }
}

/// The unit of a picture's axis: of a length, the one in which the scenario's misses are shown.
pub fn picture_unit(shown: DisplayUnit, lengths: MissUnit) -> DisplayUnit {
    match (shown.unit, lengths) {
        ("mm", MissUnit::Inches) => {
            DisplayUnit { unit: lengths.symbol(), per_si: shown.per_si / lengths.mm() }
        }
        _ => shown,
    }
}

/// The number that `y` names; `what` is what has none of another name.
pub fn drawn<K: ResultKind>(
    options: &Options,
    list: &'static [Measure<K>],
    what: &str,
) -> Result<&'static Measure<K>, Fault> {
    let name = options.required("y", text())?;
    let numbers = || list.iter().filter(|measure| measure.is_number());
    numbers().find(|measure| measure.name == name).ok_or_else(|| {
        let names = || numbers().map(|measure| measure.name);
        let hint = renamed::hint(&name, names())
            .unwrap_or_else(|| format!("y is one of: {}", names().collect::<Vec<_>>().join(", ")));
        options.complain("y", format!("{what} has no \"{name}\" to draw")).with_hint(hint)
    })
}
