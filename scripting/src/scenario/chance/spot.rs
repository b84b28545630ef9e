//! `one_spot { on, speed, contacts }`: the point behind the rail at which every ball may be aimed.

use super::tables::{AskedOf, OneOrManyTables};
use crate::lua::options::{Options, boolean, list, number, ranged};
use crate::lua::quantity::Quantity;
use crate::scenario::inputs::SpeedOf;
use crate::scenario::members;
use crate::scenario::rule_object::{RuleObject, ScriptRule};
use crate::scenario::session::Session;
use crate::telling::{SpotFindings, spot_sentence};
use mlua::{IntoLua, Lua, Table, Value};
use railproof_engine::ask::{CredibleInterval, EnsembleStarts};
use railproof_engine::bank::{Bank, Launch, exact_start};
use railproof_engine::column::SetUp;
use railproof_engine::rail::{BankGeometry, Line, Pocket, Rail};
use railproof_engine::rule::{AimSpot, NamedRule};
use railproof_engine::sweep::{Input, LineFit, fit_through_origin, fit_with_offset};
use railproof_engine::units::Speed;
use std::rc::Rc;

const CALL: &str = "one_spot";
const KEYS: &[&str] = &["on", "speed", "contacts", "aside"];
const SPOT: &[&str] = &[
    "behind",
    "number",
    "slope",
    "slope_from",
    "slope_to",
    "offset",
    "largest_error",
    "rule",
    "sentence",
];
const BANK: (Rail, Pocket) = (Rail::Left, Pocket::FootRight);
const CONTACTS: [f64; 5] = [1.5, 2.0, 2.5, 3.0, 3.5];
/// Unless another is said, m/s.
const SPEED_M_S: f64 = 4.0;

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(CALL, lua.create_function(one_spot)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn one_spot(lua: &Lua, argument: Value) -> mlua::Result<Table> {
    let options = Options::open(lua, CALL, &argument, KEYS)?;
    let asked = options.required("on", OneOrManyTables)?;
    let table = asked.table();
    let speed = options.optional("speed", SpeedOf(Input::Speed, Some(table.speeds)))?;
    let contacts = options.optional("contacts", list(ranged(number(), 0.2..=7.8, "")))?;
    let contacts = contacts.unwrap_or_else(|| CONTACTS.to_vec());
    let aside = options.optional("aside", boolean())?.unwrap_or(false);
    let complain = |message: &str| options.complain_of_call(message.to_owned());
    let speed_m_s = speed.map_or(SPEED_M_S, |speed| speed.si);
    let fit = if aside { fit_with_offset } else { fit_through_origin };
    let fitted = Session::of(lua)?.work(lua, 1, |_| fitted(&asked, &contacts, speed_m_s, fit))?;
    let (line, slopes, starts) = fitted.ok_or_else(|| {
        complain("a spot needs two contacts at least, each with an exact start on this table")
    })?;
    let geometry = BankGeometry::new(&table, BANK.0, BANK.1)
        .map_err(|error| options.complain("on", error.to_string()))?;
    let spot = AimSpot::of(line.slope, line.offset, &geometry)
        .ok_or_else(|| complain("these lines do not meet in one spot behind the rail"))?;
    let errors = contacts
        .iter()
        .zip(&starts)
        .map(|(contact, start)| (*contact, line.slope * contact + line.offset - start));
    let found = SpotFindings {
        spot,
        slope: line.slope,
        slopes,
        behind_nose_m: spot.behind_nose_m(&geometry),
        errors: errors.collect(),
        rail: BANK.0,
    };
    let units = Session::of(lua)?.units();
    let result = lua.create_table()?;
    let (amount, unit) = units.amount(found.behind_nose_m);
    result.raw_set("behind", Quantity::new(amount, unit)?)?;
    result.raw_set("number", spot.number)?;
    result.raw_set("slope", line.slope)?;
    if let Some(slopes) = found.slopes {
        result.raw_set("slope_from", slopes.ninety.0)?;
        result.raw_set("slope_to", slopes.ninety.1)?;
    }
    result.raw_set("offset", line.offset)?;
    result.raw_set("largest_error", found.largest_error())?;
    let rule = spot.rule(&geometry).map_err(|error| complain(&error.to_string()))?;
    let named = NamedRule { name: "the one spot".to_owned(), rule };
    result.raw_set(
        "rule",
        RuleObject(Rc::new(ScriptRule { named, function: None })).into_lua(lua)?,
    )?;
    result.raw_set("sentence", spot_sentence(&found, units))?;
    members::seal(lua, result, "a spot", SPOT)
}

/// A line through exact starts, over many tables its slope's interval, and the starts.
type FittedSpot = (LineFit, Option<CredibleInterval>, Vec<f64>);

fn fitted(
    asked: &AskedOf,
    contacts: &[f64],
    speed_m_s: f64,
    fit: fn(&[(f64, f64)]) -> Option<LineFit>,
) -> Option<FittedSpot> {
    let Some(known) = asked.known() else {
        let bank = Bank::new(&asked.table(), BANK.0, BANK.1, asked.model()).ok()?;
        let launch = Launch::frozen_stun(speed_m_s);
        let starts: Vec<f64> = contacts
            .iter()
            .filter_map(|contact| exact_start(&bank, *contact, launch).ok())
            .collect();
        let pairs: Vec<(f64, f64)> = contacts.iter().copied().zip(starts.iter().copied()).collect();
        if starts.len() < contacts.len().max(2) {
            return None;
        }
        return Some((fit(&pairs)?, None, starts));
    };
    let set_up = |contact: &f64| {
        let line = Line::new(*contact, *contact);
        SetUp::stun(BANK.0, BANK.1, line, 0.0, Speed::MetresPerSecond(speed_m_s))
    };
    let set_ups: Vec<SetUp> = contacts.iter().map(set_up).collect();
    let starts =
        EnsembleStarts::of(&known.table, known.model, &known.ensemble, &set_ups, &|| ()).ok()?;
    let every: Vec<usize> = (0..contacts.len()).collect();
    let lines = starts.lines(&every, fit);
    let middles: Option<Vec<f64>> =
        every.iter().map(|at| starts.start(*at).start.map(|start| start.middle)).collect();
    let middles = middles?;
    let pairs: Vec<(f64, f64)> = contacts.iter().copied().zip(middles.iter().copied()).collect();
    Some((fit(&pairs)?, starts.interval(&lines, |line| line.slope), middles))
}
