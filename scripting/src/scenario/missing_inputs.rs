//! Inputs that every grid needs and one lacks. Something usual is played in their place and told so, since a
//! picture helps more than none.

use super::axis_text;
use super::inputs::WrittenNumber;
use super::session::Session;
use crate::lua::options::Options;
use crate::telling::AxisText;
use mlua::Lua;
use railproof_engine::equipment::SpokenSpeeds;
use railproof_engine::sweep::{Axis, Input, Values};
use railproof_engine::units::{SpeedWord, short_number};

/// Contact numbers that lie on every rail.
const CONTACTS: [f64; 4] = [1.5, 2.0, 2.5, 3.0];

/// The line to put back for an input.
pub fn line_to_put_back(input: &str) -> Option<&'static str> {
    match input {
        "equipment" => {
            Some("put a line back in the braces, such as: equipment = equipment \"nine-foot\",")
        }
        "contact" => {
            Some("put a line back in the braces, such as: contact = span(1.25, 3.5, 0.25),")
        }
        "speed" => {
            Some("put a line back in the braces, such as: speed = span(mps(2), mps(6), mps(0.25)),")
        }
        "off_rail" => Some(
            "put a line back in the braces of grid, such as: off_rail = { inches(0), inches(12) },",
        ),
        "spin" | "roll" => {
            Some("put a line back in the braces of grid, such as: spin = { \"stun\", \"roll\" },")
        }
        _ => None,
    }
}

/// Adds usual values for each input that is needed and missing. A plan is made of what is asked only.
pub fn stand_in(
    lua: &Lua,
    options: &Options,
    axes: &mut Vec<Axis>,
    written: &mut Vec<AxisText>,
) -> mlua::Result<()> {
    let session = Session::of(lua)?;
    if session.plans() {
        return Ok(());
    }
    let lacks =
        |axes: &[Axis], inputs: &[Input]| axes.iter().all(|axis| !inputs.contains(&axis.input));
    let leave_out = |input: Input, stands_in: &str| {
        let name = input.name();
        let fault = options.complain_of_call(format!("`{name}` is missing; {stands_in}"));
        session.leave_out(match line_to_put_back(name) {
            Some(hint) => fault.with_hint(hint),
            None => fault,
        });
    };
    if lacks(axes, &[Input::Equipment])
        && let Some(table) = session.only_table()
    {
        leave_out(Input::Equipment, &format!("{} stands in", table.name));
        axes.push(Axis { input: Input::Equipment, values: Values::Equipment(vec![table]) });
    }
    if lacks(axes, &[Input::Contact]) {
        let values = CONTACTS.map(WrittenNumber::plain);
        leave_out(Input::Contact, "1.5, 2, 2.5 and 3 stand in");
        add(Input::Contact, &values, axes, written);
    }
    if lacks(axes, &[Input::Speed, Input::Lag])
        && let Some(values) = spoken(axes)
    {
        if let Some((one, other)) = alike(&values) {
            let message = format!(
                "`speed` is missing, and {one} and {other}, which would stand in, are one and the same speed here"
            );
            let hint = "give `speed`, or each word a speed of its own in the profile's `speeds`";
            return Err(options.complain_of_call(message).with_hint(hint).into());
        }
        let [soft, medium, firm] = values.map(|value| short_number(value.si, 2));
        leave_out(
            Input::Speed,
            &format!("soft, medium and firm stand in ({soft}, {medium} and {firm} m/s)"),
        );
        add(Input::Speed, &values, axes, written);
    }
    Ok(())
}

/// Adds the values of an input to a plan's axes, and to their texts.
pub(super) fn add(
    input: Input,
    values: &[WrittenNumber],
    axes: &mut Vec<Axis>,
    written: &mut Vec<AxisText>,
) {
    written.push(axis_text::written(input, values));
    axes.push(Axis {
        input,
        values: Values::Numbers(values.iter().map(|value| value.si).collect()),
    });
}

/// Two words for one and the same speed.
fn alike(values: &[WrittenNumber; 3]) -> Option<(&'static str, &'static str)> {
    let mut pairs = [(0, 1), (1, 2), (0, 2)].into_iter();
    let (one, other) = pairs.find(|(a, b)| values[*a].si == values[*b].si)?;
    values[one].word.zip(values[other].word)
}

/// The speeds that have words, where all tables agree on them.
fn spoken(axes: &[Axis]) -> Option<[WrittenNumber; 3]> {
    let tables = axes.iter().find_map(|axis| match &axis.values {
        Values::Equipment(tables) => Some(tables),
        _ => None,
    })?;
    let speeds = super::inputs::agreed_speeds(tables.iter())?;
    Some(SpeedWord::ALL.map(|word| of_word(word, &speeds)))
}

/// A speed by its word.
pub(super) fn of_word(word: SpeedWord, speeds: &SpokenSpeeds) -> WrittenNumber {
    let m_s = speeds.m_s(word);
    WrittenNumber { unit: "m/s", word: Some(word.name()), ..WrittenNumber::plain(m_s) }
}
