//! Answers of a rule to a script: a start number, a contact number, the aim for a ball anywhere.

use super::equipment::OneTable;
use super::members;
use super::rule_object::{RuleObject, ScriptRule};
use crate::fault::Fault;
use crate::lua::options::{Kind, Mismatch, Options, number, quantity, word};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::{kind_of, plain_number};
use crate::profile::{parse_profile, shipped_text};
use mlua::{Lua, Table, Value};
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::{BankGeometry, PocketChoice, RailChoice, Reading};
use railproof_engine::rule::{Rule, RuleError};
use railproof_engine::units::Dimension;
use railproof_engine::vector::Vec2;

/// The bank frame of a table; a long rail and a corner pocket unless said.
pub fn geometry(
    equipment: &Equipment,
    rail: Option<RailChoice>,
    pocket: Option<PocketChoice>,
) -> Result<BankGeometry, Fault> {
    let pocket = pocket.unwrap_or(PocketChoice::Corner);
    let rail = rail.unwrap_or(RailChoice::Long).facing(pocket);
    BankGeometry::new(equipment, rail, pocket.across_from(rail))
        .map_err(|error| Fault::bad_input(error.to_string()))
}

/// The bank frame that options with `on`, `rail` and `pocket` give.
pub fn geometry_of(options: &Options) -> Result<BankGeometry, Fault> {
    let on = options.required("equipment", OneTable)?;
    let rail = options.optional("rail", word::<RailChoice>())?;
    let pocket = options.optional("pocket", word::<PocketChoice>())?;
    geometry(&on.0, rail, pocket).map_err(|fault| {
        let key = if pocket.is_some() { "pocket" } else { "equipment" };
        fault.placed(options.complain(key, "").place)
    })
}

pub fn start(lua: &Lua, this: &RuleObject, (contact, on): (Value, Value)) -> mlua::Result<f64> {
    let contact = number_argument(lua, "start", &contact)?;
    let geometry = table_argument(lua, "start", this, &on)?;
    let line = this.0.named.rule.line_for_contact(contact, &geometry);
    Ok(line.map_err(|error| failed(&this.0, &error).placed(place::call(lua, Some("start"))))?.start)
}

pub fn contact(lua: &Lua, this: &RuleObject, (start, on): (Value, Value)) -> mlua::Result<f64> {
    let start = number_argument(lua, "contact", &start)?;
    let geometry = table_argument(lua, "contact", this, &on)?;
    let contact = this.0.named.rule.contact_for_start(start, &geometry);
    Ok(contact
        .map_err(|error| failed(&this.0, &error).placed(place::call(lua, Some("contact"))))?)
}

fn number_argument(lua: &Lua, call: &str, value: &Value) -> Result<f64, Fault> {
    plain_number(value).filter(|number| number.is_finite()).ok_or_else(|| {
        Fault::bad_input(format!("{call} takes a finite plain number, not {}", kind_of(value)))
            .placed(place::argument(lua, call, 1))
    })
}

fn table_argument(
    lua: &Lua,
    call: &str,
    this: &RuleObject,
    on: &Value,
) -> Result<BankGeometry, Fault> {
    let at = |number| place::argument(lua, call, number);
    if !on.is_nil() {
        let kind = OneTable;
        let on = kind.read(on).map_err(|mismatch| {
            Fault::bad_input(format!("the table {}", mismatch.message)).placed(at(2))
        })?;
        return geometry(&on.0, None, None).map_err(|fault| fault.placed(at(2)));
    }
    let rule = &this.0.named.rule;
    if matches!(rule, Rule::Mirror) || rule.reading() == Reading::Sight {
        return Err(Fault::bad_input(format!(
            "this rule depends on the table, and {call} names none"
        ))
        .with_hint(format!("write rule:{call}(…, hall)"))
        .placed(place::call(lua, Some(call))));
    }
    // Read in the groove the answer is the same on any table.
    let any = parse_profile(shipped_text("nine-foot").unwrap_or_default(), "nine-foot")?;
    geometry(&any, None, None)
}

/// A ball's place along the rail: a rail number, or a length from the pocket's zero.
#[derive(Debug, Clone, Copy)]
struct PlaceAlongRail;

enum RailPlace {
    Diamonds(f64),
    Metres(f64),
}

impl Kind for PlaceAlongRail {
    type Output = RailPlace;

    fn expected(&self) -> String {
        "a rail number or a length from the pocket's zero".to_owned()
    }

    fn read(&self, value: &Value) -> Result<RailPlace, Mismatch> {
        match plain_number(value) {
            Some(_) => number().read(value).map(RailPlace::Diamonds),
            None => quantity(Dimension::Length)
                .read(value)
                .map(RailPlace::Metres)
                .map_err(|_| Mismatch::other_sort(&self.expected(), value)),
        }
    }
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn aim(lua: &Lua, this: &RuleObject, argument: Value) -> mlua::Result<Table> {
    const KEYS: &[&str] = &["equipment", "contact", "x", "off_rail", "rail", "pocket"];
    let options = Options::open(lua, "aim", &argument, KEYS)?;
    let geometry = geometry_of(&options)?;
    let off_rail_m = options.optional("off_rail", quantity(Dimension::Length))?.unwrap_or(0.0);
    super::grid::contradiction(&options, "contact", "x")?;
    let rule = &this.0.named.rule;
    let refused =
        |key, error: &RuleError| failed(&this.0, error).placed(options.complain(key, "").place);
    let (key, x) =
        match (options.optional("contact", number())?, options.optional("x", PlaceAlongRail)?) {
            (Some(contact), _) => {
                let line = rule
                    .line_for_contact(contact, &geometry)
                    .map_err(|error| refused("contact", &error))?;
                let share = off_rail_m / geometry.span_m;
                let along = line.contact + (line.start - line.contact) * share;
                ("contact", along * geometry.diamond_m)
            }
            (None, Some(RailPlace::Diamonds(along))) => ("x", along * geometry.diamond_m),
            (None, Some(RailPlace::Metres(along))) => ("x", along),
            (None, None) => {
                return Err(options
                    .complain_of_call(
                        "aim needs `contact`, or where the ball is along the rail as `x`",
                    )
                    .into());
            }
        };
    let key = if off_rail_m >= 0.0 && off_rail_m < geometry.span_m { key } else { "off_rail" };
    let aim = rule
        .aim_from(Vec2::new(x, geometry.span_m - off_rail_m), &geometry)
        .map_err(|error| refused(key, &error))?;
    let table = lua.create_table()?;
    table.raw_set("contact", aim.line.contact)?;
    table.raw_set("start", aim.line.start)?;
    table.raw_set("contact_error_gain", aim.contact_error_gain)?;
    table.raw_set("lines_through_ball", aim.lines_through_ball)?;
    members::seal(
        lua,
        table,
        "an aim",
        &["contact", "start", "contact_error_gain", "lines_through_ball"],
    )
}

/// A rule's failure; that of a Lua function keeps its place in the scenario.
pub fn failed(rule: &ScriptRule, error: &RuleError) -> Fault {
    let own = match (error, &rule.function) {
        (
            RuleError::FunctionFailed { contact, .. }
            | RuleError::FunctionNotFinite { contact, .. },
            Some(function),
        ) => function.fault_at(*contact),
        _ => None,
    };
    own.unwrap_or_else(|| Fault::bad_input(error.to_string()))
}
