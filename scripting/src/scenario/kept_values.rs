//! The values that a selection keeps of one axis, and those of them that a condition asks for.

use super::inputs::{WrittenNumber, same};
use super::value_choice::ValueChoice;
use crate::lua::options::Mismatch;
use crate::renamed;
use crate::telling::listed;

/// The kept values of an axis.
pub struct KeptValues<'a> {
    /// Their places on the axis.
    pub kept: &'a [usize],
    /// A place's value without its unit.
    pub tick: &'a dyn Fn(usize) -> String,
    /// The unit as written; empty for plain numbers and words.
    pub unit: &'a str,
}

impl KeptValues<'_> {
    fn nowhere(&self, which: &str) -> Mismatch {
        let ticks = self.kept.iter().map(|place| (self.tick)(*place));
        let hint = format!(
            "played: {}; ask for one of them, or delete the line",
            listed(ticks, self.unit)
        );
        Mismatch::message(format!("asks for {which}, which is not played")).with_hint(hint)
    }

    /// The same of one of several values.
    fn nowhere_at(&self, at: usize, of: usize, which: &str) -> Mismatch {
        let item = (of > 1).then_some(at + 1);
        Mismatch { item, near: true, ..self.nowhere(which) }
    }

    /// The kept places that were asked for, in the axis' order. `si` gives a place's value; what is not
    /// `alike` stands nowhere on the axis.
    ///
    /// # Errors
    /// A value that stands nowhere here, and a range without a value.
    pub fn by_number(
        &self,
        wanted: &ValueChoice<WrittenNumber>,
        si: impl Fn(usize) -> f64,
        alike: impl Fn(&WrittenNumber) -> bool,
    ) -> Result<Vec<usize>, Mismatch> {
        let is = |place: usize, value: &WrittenNumber| same(si(place), value.si);
        match wanted {
            ValueChoice::These(wanted) => {
                let missing = |value: &WrittenNumber| {
                    !alike(value) || !self.kept.iter().any(|place| is(*place, value))
                };
                if let Some(at) = wanted.iter().position(missing) {
                    return Err(self.nowhere_at(at, wanted.len(), &wanted[at].shown()));
                }
                let asked = |place: &usize| wanted.iter().any(|value| is(*place, value));
                Ok(self.kept.iter().copied().filter(asked).collect())
            }
            ValueChoice::Range(from, to) => {
                let ends = || from.iter().chain(to);
                let inside = |place: &usize| {
                    let here = si(*place);
                    from.is_none_or(|end| here > end.si || same(here, end.si))
                        && to.is_none_or(|end| here < end.si || same(here, end.si))
                };
                let chosen: Vec<usize> = self.kept.iter().copied().filter(inside).collect();
                if chosen.is_empty() || !ends().all(alike) {
                    return Err(self.nowhere(&match (from, to) {
                        (Some(from), Some(to)) => {
                            format!("{} to {}", from.shown(), to.shown())
                        }
                        (Some(end), None) => format!("{} or above", end.shown()),
                        (None, Some(end)) => format!("{} or below", end.shown()),
                        (None, None) => String::new(),
                    }));
                }
                Ok(chosen)
            }
        }
    }

    /// The kept places whose words were asked for, in the axis' order.
    ///
    /// # Errors
    /// A word that stands nowhere here.
    pub fn by_word(&self, wanted: &[String]) -> Result<Vec<usize>, Mismatch> {
        let ticks: Vec<String> = self.kept.iter().map(|place| (self.tick)(*place)).collect();
        if let Some(at) = wanted.iter().position(|word| !ticks.contains(word)) {
            let mismatch = self.nowhere_at(at, wanted.len(), &format!("\"{}\"", wanted[at]));
            let hint = renamed::quoted_hint(&wanted[at], ticks.iter().map(String::as_str));
            return Err(match hint {
                Some(hint) => mismatch.with_hint(hint),
                None => mismatch,
            });
        }
        let kept = self.kept.iter().zip(&ticks);
        Ok(kept.filter(|(_, tick)| wanted.contains(tick)).map(|(place, _)| *place).collect())
    }
}
