//! `where { … }`: narrows a map, a selection or a list of starts; a condition that matches nothing is an error.

use super::inputs::{Keys, NumberOf, SpeedOf, SpinWord, WrittenNumber, input_keys, spoken_on};
use super::kept_values::KeptValues;
use super::missing_inputs::line_to_put_back;
use super::point_selection::{AxisOrRules, PointSelection};
use super::value_choice::{EquipmentName, RuleName, WantedOf, Word};
use crate::fault::Fault;
use crate::lua::options::{Kind, Options, one_or_many};
use crate::renamed;
use crate::telling::AxisText;
use mlua::{Lua, Value};
use railproof_engine::sweep::Input;

static KEYS: Keys = Keys::new(|| input_keys(&["rule"]));

/// Applies the options of a call of `call` to what is picked.
pub fn narrowed(
    lua: &Lua,
    call: &'static str,
    picked: &PointSelection,
    argument: &Value,
) -> Result<PointSelection, Fault> {
    let options = Options::open(lua, call, argument, &KEYS)?;
    let mut narrower = picked.clone();
    let mut conditions = 0;
    for key in KEYS.iter().copied().filter(|key| options.has(key)) {
        conditions += 1;
        if key == "rule" {
            select_rules(&options, &mut narrower)?;
        } else {
            select_values(&options, key, &mut narrower)?;
        }
    }
    if conditions == 0 {
        return Err(options.complain_of_call(format!("{call} needs at least one condition")));
    }
    Ok(narrower)
}

fn select_values(
    options: &Options,
    key: &'static str,
    picked: &mut PointSelection,
) -> Result<(), Fault> {
    let found = picked.dimension(key);
    let Ok(AxisOrRules::Axis(at)) = found else {
        let (message, hint) = found.err().unwrap_or_default();
        return Err(options.complain(key, message).with_hint(hint));
    };
    let back = line_to_put_back(key).filter(|_| picked.is_usual(at));
    let nowhere = |fault: &Fault| fault.hint.as_ref().is_some_and(|it| it.starts_with("played: "));
    let chosen = asked_for(options, key, picked, at).map_err(|fault| match back {
        Some(hint) if nowhere(&fault) => fault.with_hint(hint),
        _ => fault,
    })?;
    let (kept, text) = (&picked.kept[at], picked.text(at));
    if chosen.len() < kept.len() || chosen.len() == 1 {
        let said = said(text, &chosen);
        picked.said.push(said);
    }
    picked.kept[at] = chosen;
    Ok(())
}

/// The kept places of an axis that were asked for.
fn asked_for(
    options: &Options,
    key: &'static str,
    picked: &PointSelection,
    at: usize,
) -> Result<Vec<usize>, Fault> {
    let kept = &picked.kept[at];
    let text = picked.text(at);
    match text.input {
        Input::Equipment => by_word(options, key, EquipmentName, kept, text),
        Input::Rail | Input::Pocket | Input::RailModel => by_word(options, key, Word, kept, text),
        Input::Roll if key == "spin" => by_number(options, key, SpinWord, picked, at),
        Input::Lag | Input::Speed => {
            let speeds = spoken_on(picked.plan());
            by_number(options, key, SpeedOf(text.input, speeds), picked, at)
        }
        other => match other.parameter() {
            Some(parameter) => by_number(options, key, NumberOf(parameter), picked, at),
            None => Ok(kept.clone()),
        },
    }
}

fn said(text: &AxisText, chosen: &[usize]) -> String {
    match chosen {
        [only] => text.say(*only),
        [first, .., last] if chosen.len() > 3 => {
            format!("{} to {}", text.say(*first), text.tick_with_unit(*last))
        }
        several => several.iter().map(|at| text.say(*at)).collect::<Vec<_>>().join(" or "),
    }
}

/// The kept places that were asked for, in the axis' order.
fn by_number<K: Kind<Output = WrittenNumber> + Copy>(
    options: &Options,
    key: &'static str,
    kind: K,
    picked: &PointSelection,
    at: usize,
) -> Result<Vec<usize>, Fault> {
    let Some(wanted) = options.optional(key, WantedOf(kind))? else { return Ok(Vec::new()) };
    let text = picked.text(at);
    let values = &picked.plan().axes()[at].values;
    let measure = text.input == Input::Lag;
    let alike = |written: &WrittenNumber| {
        !matches!(text.input, Input::Lag | Input::Speed) || written.in_lengths == measure
    };
    let si = |place: usize| values.number(place).unwrap_or(f64::NAN);
    let kept = KeptValues {
        kept: &picked.kept[at],
        tick: &|at| ticks_of(text, at),
        unit: text.shared_unit(),
    };
    kept.by_number(&wanted, si, alike).map_err(|why| options.mismatched(key, why))
}

/// A value as a list of them has it, with its unit where they do not share one.
fn ticks_of(text: &AxisText, at: usize) -> String {
    if text.shared_unit().is_empty() { text.tick_with_unit(at) } else { text.ticks[at].clone() }
}

fn by_word<K: Kind<Output = String> + Copy>(
    options: &Options,
    key: &'static str,
    kind: K,
    kept: &[usize],
    text: &AxisText,
) -> Result<Vec<usize>, Fault> {
    let wanted = options.optional(key, one_or_many(kind))?.unwrap_or_default();
    let kept = KeptValues { kept, tick: &|at| ticks_of(text, at), unit: text.shared_unit() };
    kept.by_word(&wanted).map_err(|why| options.mismatched(key, why))
}

fn select_rules(options: &Options, picked: &mut PointSelection) -> Result<(), Fault> {
    let wanted = options.optional("rule", one_or_many(RuleName))?.unwrap_or_default();
    picked.kept_rules = rules_named(options, "rule", picked, &wanted)?;
    picked.said.push(wanted.join(" or "));
    Ok(())
}

/// The kept places of the rules with these names.
pub fn rules_named(
    options: &Options,
    key: &'static str,
    picked: &PointSelection,
    wanted: &[String],
) -> Result<Vec<usize>, Fault> {
    if picked.rules.is_empty() {
        return Err(options.complain(key, "these banks are aimed by start numbers, not by a rule"));
    }
    let name = |place: usize| picked.rule_name(place);
    for (item, wanted) in wanted.iter().enumerate() {
        if !picked.kept_rules.iter().any(|place| name(*place) == wanted) {
            let known: Vec<&str> = picked.kept_rules.iter().map(|place| name(*place)).collect();
            let hint = renamed::quoted_hint(wanted, known.iter().copied());
            let hint = hint.unwrap_or_else(|| format!("the rules: {}", known.join("; ")));
            return Err(options
                .complain_of_item(key, item + 1, format!("no rule is called \"{wanted}\" here"))
                .with_hint(hint));
        }
    }
    let asked = |place: &usize| wanted.iter().any(|wanted| wanted == name(*place));
    Ok(picked.kept_rules.iter().copied().filter(asked).collect())
}
