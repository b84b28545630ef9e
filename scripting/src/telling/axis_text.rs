//! An axis of a sweep in people's words: its title, its unit as written, its values.

use crate::lua::quantity::{shown, with_unit};
use railproof_engine::sweep::{Axis, Input, Values};
use std::collections::BTreeSet;

/// The look of an axis. It stands beside the plan's axis and has one tick for each of its values.
#[derive(Debug, Clone, PartialEq)]
pub struct AxisText {
    /// Which input.
    pub input: Input,
    /// Its title.
    pub title: &'static str,
    /// The unit its first value was written in; empty for plain numbers and words.
    pub unit: &'static str,
    /// Each value in that unit, or its word.
    pub ticks: Vec<String>,
    /// Each value in that unit; empty for values that are no numbers.
    pub amounts: Vec<f64>,
    /// The words that stood for numbers, such as stun, one for each value or nothing; empty for values
    /// that are no numbers.
    pub words: Vec<Option<&'static str>>,
    /// Its values were written in several units; each tick has its own.
    pub mixed: bool,
}

impl AxisText {
    /// For numbers in one unit. `words` are those that stood for some of them.
    pub fn of_numbers(
        input: Input,
        unit: &'static str,
        amounts: Vec<f64>,
        words: Vec<Option<&'static str>>,
    ) -> Self {
        let ticks = short_numbers(&amounts);
        let title = input.title();
        let text = Self { input, title, unit, ticks: Vec::new(), amounts, words, mixed: false };
        Self { ticks: text.worded(ticks), ..text }
    }

    /// Ticks with the words that stand for some of them.
    fn worded(&self, ticks: Vec<String>) -> Vec<String> {
        let words = self.words.iter().copied();
        let tick = |(tick, word): (String, Option<&str>)| word.map_or(tick, str::to_owned);
        ticks.into_iter().zip(words).map(tick).collect()
    }

    /// For an axis that was not written, such as a default.
    pub fn of(axis: &Axis) -> Self {
        let count = axis.values.len();
        if let Values::Numbers(numbers) = &axis.values {
            let unit = axis.input.parameter().map_or("", |kind| kind.dimension.si_symbol());
            return Self::of_numbers(axis.input, unit, numbers.clone(), vec![None; count]);
        }
        let ticks = (0..count).map(|at| axis.values.word(at).unwrap_or_default().to_owned());
        Self {
            input: axis.input,
            title: axis.input.title(),
            unit: "",
            ticks: ticks.collect(),
            amounts: Vec::new(),
            words: Vec::new(),
            mixed: false,
        }
    }

    /// The same with ticks as short as a picture needs them; words stay.
    #[must_use]
    pub fn shortened(&self) -> Self {
        if self.by_word() || self.mixed || self.amounts.is_empty() {
            return self.clone();
        }
        let ticks = self.worded(short_ticks(&self.amounts));
        Self { ticks, ..self.clone() }
    }

    /// True when words stood for all its numbers.
    pub fn by_word(&self) -> bool {
        !self.words.is_empty() && self.words.iter().all(Option::is_some)
    }

    /// Its key in a script.
    pub fn name(&self) -> &'static str {
        if self.input == Input::Roll && self.by_word() { "spin" } else { self.input.name() }
    }

    /// The unit as a picture's axis shows it: rail numbers say that they are diamonds.
    pub fn picture_unit(&self) -> String {
        match self.input {
            Input::Contact | Input::Start => "diamonds, groove".to_owned(),
            Input::Lag => "table lengths".to_owned(),
            _ if self.by_word() || self.mixed => String::new(),
            Input::Roll => "of natural roll; below 0 is draw".to_owned(),
            Input::RunningSide => "above 0 is running, below reverse".to_owned(),
            _ => self.unit.to_owned(),
        }
    }

    /// A value and its unit: `12 in`.
    pub fn tick_with_unit(&self, at: usize) -> String {
        let tick = self.ticks.get(at).map_or("", String::as_str);
        let spoken = self.words.get(at).is_some_and(Option::is_some);
        with_unit(tick, if spoken || self.mixed { "" } else { self.unit })
    }

    /// The unit that its ticks share; empty where a word or several units stand among them.
    pub fn shared_unit(&self) -> &'static str {
        let spoken = self.words.iter().any(Option::is_some);
        if spoken || self.mixed { "" } else { self.unit }
    }

    /// A value in words: `12 in off the rail`.
    pub fn say(&self, at: usize) -> String {
        let tick = self.tick_with_unit(at);
        let amount = self.amounts.get(at).copied().unwrap_or(f64::NAN);
        match self.input {
            Input::Contact => format!("contact {tick}"),
            Input::Start => format!("start {tick}"),
            Input::OffRail if amount == 0.0 => "frozen to the rail".to_owned(),
            Input::OffRail => format!("{tick} off the rail"),
            Input::Equipment | Input::Speed => tick,
            Input::Lag => with_unit(&shown(amount), "table lengths"),
            Input::Rail | Input::RailModel => format!("{tick} rail"),
            Input::Pocket => format!("{tick} pocket"),
            Input::Roll if self.by_word() && tick == "draw" => "full draw".to_owned(),
            Input::Roll if self.by_word() && tick == "roll" => "natural roll".to_owned(),
            Input::Roll if amount == 0.0 => "stun".to_owned(),
            Input::Roll if amount > 0.0 => format!("{tick} of natural roll"),
            Input::Roll => format!("{} of full draw", shown(-amount)),
            Input::RunningSide if amount == 0.0 => "no side".to_owned(),
            Input::RunningSide if amount > 0.0 => format!("running side {tick}"),
            Input::RunningSide => format!("reverse side {}", shown(-amount)),
            Input::AimError => format!("aim error {tick}"),
            Input::Number(number) => format!("{} {tick}", number.meaning()),
        }
    }
}

/// Numbers as they are if three decimals hold them, or else with as few decimals as put none off by more
/// than a fiftieth of the least gap between two of them: thirds of a diamond read 1.33 and 1.67.
pub fn short_ticks(amounts: &[f64]) -> Vec<String> {
    let mut sorted = amounts.to_vec();
    sorted.sort_by(f64::total_cmp);
    let gap = sorted.windows(2).map(|pair| pair[1] - pair[0]).fold(f64::INFINITY, f64::min);
    let rounded = |decimals: usize| -> Vec<String> {
        let number = |amount: &f64| format!("{amount:.decimals$}").parse().unwrap_or(*amount);
        amounts.iter().map(|amount| shown(number(amount))).collect()
    };
    let off = |decimals: usize| {
        let apart = |(tick, amount): (String, &f64)| {
            tick.parse::<f64>().map_or(f64::INFINITY, |tick| (tick - amount).abs())
        };
        rounded(decimals).into_iter().zip(amounts).map(apart).fold(0.0, f64::max)
    };
    let exact = |decimals: &usize| off(*decimals) <= 1e-9;
    let near = |decimals: &usize| off(*decimals) <= 0.02 * gap;
    let decimals = (0..=3).find(exact).or_else(|| (0..5).find(near).filter(|_| gap.is_finite()));
    decimals.map_or_else(|| short_numbers(amounts), rounded)
}

/// Values with their unit in a message; of many, the first and their count.
pub fn listed(ticks: impl ExactSizeIterator<Item = String>, unit: &str) -> String {
    const MOST: usize = 12;
    let count = ticks.len();
    let more = if count > MOST { format!(", … ({count} in all)") } else { String::new() };
    let ticks: Vec<String> = ticks.take(MOST).collect();
    format!("{}{more} {unit}", ticks.join(", ")).trim_end().to_owned()
}

/// Numbers to five digits, which is what fits beside a picture; as they are where that would make
/// two of them look alike.
fn short_numbers(amounts: &[f64]) -> Vec<String> {
    let short: Vec<String> = amounts.iter().map(|amount| shown(five_digits(*amount))).collect();
    let alike = short.iter().collect::<BTreeSet<_>>().len() < short.len();
    if alike { amounts.iter().map(|amount| shown(*amount)).collect() } else { short }
}

fn five_digits(value: f64) -> f64 {
    format!("{value:.4e}").parse().unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_short_and_stay_apart() {
        let thirds: Vec<f64> = (3..=6).map(|third| f64::from(third) / 3.0).collect();
        assert_eq!(short_ticks(&thirds), ["1", "1.33", "1.67", "2"]);
        assert_eq!(short_ticks(&[1.25, 1.5, 12.0]), ["1.25", "1.5", "12"]);
        assert_eq!(short_ticks(&[-0.1 - 0.2, 0.0]), ["-0.3", "0"]);
        assert_eq!(short_ticks(&[1.0 / 3.0]), ["0.33333"]);
        assert_eq!(short_ticks(&[1e-7, 3e-7]), ["0.0000001", "0.0000003"]);
        assert_eq!(short_ticks(&[1.000_01, 1.000_02]), ["1.00001", "1.00002"]);
    }
}
