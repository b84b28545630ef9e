//! `shots:where { … }`: fewer rows; a condition that matches none is an error.

use super::axes::{tick, unit};
use super::set::ShotsObject;
use crate::lua::options::{Kind, Mismatch, Options, Within, number, one_or_many};
use crate::lua::quantity::{Quantity, of_value};
use crate::plan::{ShotValues, si_of};
use crate::renamed;
use crate::scenario::inputs::WrittenNumber;
use crate::scenario::kept_values::KeptValues;
use crate::scenario::value_choice::{WantedOf, Word};
use mlua::{Lua, Value};

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn narrowed(
    lua: &Lua,
    this: &ShotsObject,
    argument: Value,
) -> mlua::Result<ShotsObject> {
    let (options, conditions) = Options::open_named(lua, "where", &argument)?;
    if conditions.is_empty() {
        return Err(options.complain_of_call("where needs at least one condition").into());
    }
    let mut narrower = this.clone();
    for (name, wanted) in conditions {
        let within = [Within::Key(name.clone())];
        let names = || this.record.axes.iter().map(|axis| axis.name.as_str());
        let Some(at) = names().position(|known| known == name) else {
            let fault =
                options.complain_within(&within, format!("nothing here varies as `{name}`"));
            let hint = renamed::hint_or_all(&name, names(), "what varies");
            return Err(fault.with_hint(hint).into());
        };
        let axis = &this.record.axes[at];
        narrower.kept[at] = asked_for(&axis.values, &this.kept[at], &wanted)
            .map_err(|why| options.mismatched(&name, why))?;
    }
    Ok(narrower)
}

/// The kept places that a condition asks for.
fn asked_for(values: &ShotValues, kept: &[usize], wanted: &Value) -> Result<Vec<usize>, Mismatch> {
    let kept = KeptValues { kept, tick: &|at| tick(values, at), unit: unit(values) };
    match values {
        ShotValues::Words(_) => kept.by_word(&one_or_many(Word).read(wanted)?),
        ShotValues::Numbers { si, unit, .. } => {
            let wanted = WantedOf(NumberIn(unit)).read(wanted)?;
            kept.by_number(&wanted, |place| si[place], |_| true)
        }
    }
}

/// A number of the kind of a unit's; a plain one without.
#[derive(Debug, Clone, Copy)]
struct NumberIn(&'static str);

impl Kind for NumberIn {
    type Output = WrittenNumber;

    fn expected(&self) -> String {
        match Quantity::new(1.0, self.0) {
            Ok(unit) => unit.kind().described().to_owned(),
            Err(_) => number().expected(),
        }
    }

    fn read(&self, value: &Value) -> Result<WrittenNumber, Mismatch> {
        let Ok(unit) = Quantity::new(1.0, self.0) else {
            return number().read(value).map(WrittenNumber::plain);
        };
        let given = of_value(value).filter(|given| unit.amount_of(*given).is_some());
        given
            .map(|given| WrittenNumber::of(given, si_of(given)))
            .ok_or_else(|| Mismatch::other_sort(&self.expected(), value))
    }
}
