//! The inputs of a bank as options: their keys, and each value read with the unit it was written in.

use crate::fields::{self, FEWER_LENGTHS, Writing};
use crate::lua::options::{Kind, Mismatch, number, quantity};
use crate::lua::quantity as quantities;
use crate::lua::quantity::{Quantity, QuantityKind, shown};
pub(crate) use crate::plan::same;
use mlua::Value;
use railproof_engine::bank::speed_on;
use railproof_engine::equipment::{Equipment, Parameter, SpokenSpeeds};
use railproof_engine::sweep::{Input, Plan, Values};
use railproof_engine::units::{Dimension, NO_SUCH_LAG, Speed, SpeedWord};
use std::sync::LazyLock;

/// Option keys that are worked out from a table.
pub type Keys = LazyLock<Vec<&'static str>>;

/// The keys of every input, with the word for a spin, and further ones.
pub fn input_keys(further: &[&'static str]) -> Vec<&'static str> {
    let inputs = Input::all().map(Input::name);
    inputs.chain(["spin"]).chain(further.iter().copied()).collect()
}

/// Words for a fraction of natural roll.
pub const SPINS: &[(&str, f64)] = &[("stun", 0.0), ("roll", 1.0), ("draw", -1.0)];

/// A number as it was written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WrittenNumber {
    /// The SI value; a count of table lengths for a lag.
    pub si: f64,
    /// The amount in its unit.
    pub amount: f64,
    /// The unit's symbol, empty for a plain number.
    pub unit: &'static str,
    /// A word that stood for it.
    pub word: Option<&'static str>,
    /// A speed in table lengths.
    pub in_lengths: bool,
}

impl WrittenNumber {
    /// A plain number.
    pub const fn plain(number: f64) -> Self {
        Self { si: number, amount: number, unit: "", word: None, in_lengths: false }
    }

    /// A quantity and its SI value.
    pub fn of(quantity: Quantity, si: f64) -> Self {
        let in_lengths = quantity.kind() == QuantityKind::TableLengths;
        Self { si, amount: quantity.amount(), unit: quantity.symbol(), word: None, in_lengths }
    }

    /// As it was written.
    pub fn shown(&self) -> String {
        match self.word {
            Some(word) => word.to_owned(),
            None => format!("{} {}", shown(self.amount), self.unit).trim_end().to_owned(),
        }
    }
}

fn in_range(parameter: &Parameter, written: WrittenNumber) -> Result<WrittenNumber, Mismatch> {
    fields::in_range(parameter, written.si, &written.shown()).map(|_| written)
}

/// A number of a parameter, with its unit when the parameter has one.
#[derive(Debug, Clone, Copy)]
pub struct NumberOf(pub Parameter);

impl Kind for NumberOf {
    type Output = WrittenNumber;

    fn expected(&self) -> String {
        fields::quantity_expected(self.0.dimension)
    }

    fn read(&self, value: &Value) -> Result<WrittenNumber, Mismatch> {
        let text = value.as_string().map(mlua::LuaString::to_string_lossy);
        let written = match self.0.dimension {
            _ if fields::is_frozen(&self.0, text.as_deref()) => WrittenNumber::plain(0.0),
            Dimension::Ratio => {
                let hint = text.and_then(|it| fields::signed_hint(self.0.name, &it, Writing::Lua));
                WrittenNumber::plain(number().read(value).map_err(|mismatch| match hint {
                    Some(hint) => mismatch.with_hint(hint),
                    None => mismatch,
                })?)
            }
            dimension => {
                let si = quantity(dimension).read(value)?;
                quantities::of_value(value)
                    .map_or(WrittenNumber::plain(si), |found| WrittenNumber::of(found, si))
            }
        };
        in_range(&self.0, written)
    }
}

/// The speeds that words stand for, where all tables agree on them.
pub fn agreed_speeds<'a>(mut tables: impl Iterator<Item = &'a Equipment>) -> Option<SpokenSpeeds> {
    let first = tables.next()?.speeds;
    tables.all(|one| one.speeds == first).then_some(first)
}

/// A speed in units, in table lengths, or by a word where it is known how fast that is; `lag` also takes a
/// plain number of lengths.
#[derive(Debug, Clone, Copy)]
pub struct SpeedOf(pub Input, pub Option<SpokenSpeeds>);

impl SpeedOf {
    /// A speed by a word.
    fn spoken(self, value: &Value) -> Option<Result<WrittenNumber, Mismatch>> {
        let (Input::Speed, Value::String(text)) = (self.0, value) else { return None };
        let text = text.to_string_lossy();
        let word = SpeedWord::ALL.into_iter().find(|word| word.name() == text)?;
        let Some(speeds) = self.1 else {
            let message =
                format!("can't be \"{text}\" here, where no one table says how fast that is");
            return Some(Err(Mismatch::content(message).with_hint("write the speed in m/s")));
        };
        let plain = WrittenNumber::plain(speeds.m_s(word));
        Some(Ok(WrittenNumber { unit: "m/s", word: Some(word.name()), ..plain }))
    }
}

impl Kind for SpeedOf {
    type Output = WrittenNumber;

    fn expected(&self) -> String {
        match self.0 {
            Input::Lag => "a number of table lengths".to_owned(),
            _ => crate::lua::options::speed().expected(),
        }
    }

    fn read(&self, value: &Value) -> Result<WrittenNumber, Mismatch> {
        if let Some(spoken) = self.spoken(value) {
            return spoken;
        }
        let found = quantities::of_value(value);
        let lengths = found.filter(|found| found.kind() == QuantityKind::TableLengths);
        let written = match (self.0, lengths) {
            (_, Some(lengths)) => WrittenNumber::of(lengths, lengths.amount()),
            (Input::Lag, None) => {
                let amount = number().read(value).map_err(|mismatch| {
                    mismatch.with_hint("write lengths(2) or 2; other speeds go under `speed`")
                })?;
                WrittenNumber { unit: "lengths", in_lengths: true, ..WrittenNumber::plain(amount) }
            }
            (_, None) => {
                crate::lua::options::speed().read(value).map_err(|why| match value {
                    Value::String(_)
                        if why.hint.as_ref().is_none_or(|it| it.starts_with("write it like")) =>
                    {
                        let near = fields::place_among(value, &fields::words::<SpeedWord>());
                        let near = near.err().and_then(|mismatch| mismatch.hint);
                        why.with_hint(near.unwrap_or_else(|| {
                            "write mps(3), \"soft\", \"medium\" or \"firm\"".to_owned()
                        }))
                    }
                    _ => why,
                })?;
                let si = found.and_then(|found| found.si(Dimension::Speed)).unwrap_or_default();
                found.map_or(WrittenNumber::plain(si), |found| WrittenNumber::of(found, si))
            }
        };
        let input = if written.in_lengths { Input::Lag } else { Input::Speed };
        match input.parameter() {
            Some(parameter) => in_range(&parameter, written),
            None => Ok(written),
        }
    }
}

/// The speeds that words stand for on all tables of a plan, where they agree.
pub fn spoken_on(plan: &Plan) -> Option<SpokenSpeeds> {
    let tables = plan.axis(Input::Equipment).map(|axis| match &axis.values {
        Values::Equipment(all) => all.as_slice(),
        _ => &[],
    });
    agreed_speeds(tables.unwrap_or_default().iter())
}

/// A speed on a known table, m/s: in units, in table lengths, or by a word.
#[derive(Debug, Clone, Copy)]
pub struct SpeedOn<'a>(pub &'a Equipment);

impl Kind for SpeedOn<'_> {
    type Output = f64;

    fn expected(&self) -> String {
        SpeedOf(Input::Speed, None).expected()
    }

    fn read(&self, value: &Value) -> Result<f64, Mismatch> {
        let written = SpeedOf(Input::Speed, Some(self.0.speeds)).read(value)?;
        if !written.in_lengths {
            return Ok(written.si);
        }
        match speed_on(Speed::TableLengths(written.amount), self.0) {
            f64::INFINITY => {
                Err(Mismatch::message(format!("is too far: {NO_SUCH_LAG}"))
                    .with_hint(FEWER_LENGTHS))
            }
            m_s => Ok(m_s),
        }
    }
}

/// A fraction of natural roll as a word.
#[derive(Debug, Clone, Copy)]
pub struct SpinWord;

impl Kind for SpinWord {
    type Output = WrittenNumber;

    fn expected(&self) -> String {
        crate::lua::options::choice(SPINS).expected()
    }

    fn read(&self, value: &Value) -> Result<WrittenNumber, Mismatch> {
        let roll = crate::lua::options::choice(SPINS).read(value).map_err(|why| {
            let side = ["running", "reverse", "side", "left", "right"];
            match value {
                Value::String(word) if side.iter().any(|it| word.to_string_lossy().contains(it)) => why
                    .with_hint("spin is along the path: \"stun\", \"roll\" or \"draw\"; for side write running_side = 0.3, below 0 for reverse"),
                Value::String(word) if ["half", "part", "little", "some"].iter().any(|it| word.to_string_lossy().contains(it)) => {
                    why.with_hint("a part of natural roll is a number: roll = 0.5 in place of spin; below 0 is draw")
                }
                Value::Integer(_) | Value::Number(_) => {
                    why.with_hint("a part of natural roll is written roll = 0.5, in place of spin; below 0 is draw")
                }
                _ => why,
            }
        })?;
        let word = SPINS.iter().find(|(_, known)| same(*known, roll)).map(|(word, _)| *word);
        Ok(WrittenNumber { word, ..WrittenNumber::plain(roll) })
    }
}
