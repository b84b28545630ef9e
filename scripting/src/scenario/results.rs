//! Results as pictures and expectations see them: rows over axes, each with an outcome's word and a
//! miss, whatever played them.

use super::inputs::same;
use super::session::fault_here;
use crate::fault::Fault;
use crate::fields::Writing;
use crate::lua::quantity::shown;
use crate::telling::{AskedUnits, FindingAxis};
use mlua::Lua;

/// The most rows that `rows` gives at once.
const MOST_ROWS: usize = 10_000;

/// Refuses more rows than `rows` gives at once; `instead` is what else could be done.
pub fn few_enough(lua: &Lua, count: usize, instead: &str) -> Result<(), Fault> {
    if count <= MOST_ROWS {
        return Ok(());
    }
    let message = format!("there are {count} rows; `rows` gives at most {MOST_ROWS}");
    Err(fault_here(lua, "rows", message).with_hint(format!("select fewer with `where`{instead}")))
}

/// The values of an axis that are kept, in the rows' order.
#[derive(Debug, Clone)]
pub enum AxisValues {
    /// SI units.
    Numbers(Vec<f64>),
    Words(Vec<String>),
}

/// A thing that varies, or might. Every list has an entry for each kept value.
#[derive(Debug, Clone)]
pub struct ResultAxis {
    pub name: String,
    pub values: AxisValues,
    /// Its title in a picture.
    pub title: String,
    /// Its unit in a picture; empty for words and plain numbers.
    pub unit: String,
    /// The symbol of its unit in a script; empty for words and plain numbers.
    pub symbol: &'static str,
    /// The numbers in the unit that they were written in; none for words.
    pub amounts: Vec<f64>,
    /// The values without the unit: `12`.
    pub ticks: Vec<String>,
    /// The values in words: `12 in off the rail`.
    pub labels: Vec<String>,
    /// Its numbers were given by words, such as stun.
    pub by_word: bool,
}

impl ResultAxis {
    /// A value as a script writes it: `"stun"`, `inches(5)`.
    pub fn written(&self, at: usize) -> String {
        match (&self.values, self.amounts.get(at)) {
            (AxisValues::Words(words), _) => Writing::Lua.word(&words[at]),
            (_, Some(_)) if self.by_word => Writing::Lua.word(&self.ticks[at]),
            (_, Some(amount)) if self.symbol.is_empty() => shown(*amount),
            (_, Some(amount)) => Writing::Lua.quantity(*amount, self.symbol),
            (AxisValues::Numbers(_), None) => self.ticks[at].clone(),
        }
    }

    /// The axis as a finding is told along it.
    pub fn to_finding(&self) -> FindingAxis {
        FindingAxis {
            name: self.name.clone(),
            amounts: self.amounts.clone(),
            ticks: self.ticks.clone(),
            labels: self.labels.clone(),
            by_word: self.by_word,
        }
    }
}

/// Rows over axes.
pub trait ResultTable {
    /// The values kept of each axis; the last axis varies fastest.
    fn axes(&self) -> Vec<ResultAxis>;
    /// The place among the axes of the one that a script names.
    ///
    /// # Errors
    /// A message and a hint.
    fn axis(&self, name: &str) -> Result<usize, (String, String)>;
    /// Indices of the kept rows: one for each way to take a value of every axis.
    fn rows(&self) -> Vec<usize>;
}

/// Rows that something played.
pub trait Results: ResultTable {
    /// The selection, to begin a sentence with.
    fn subject(&self) -> String;
    /// The word for one row: `bank`, `shot`.
    fn noun(&self) -> &'static str;
    /// Every word for an outcome that a row may have.
    fn outcomes(&self) -> &'static [&'static str];
    fn outcome(&self, row: usize) -> &'static str;
    /// The miss of the pocket's middle, m; none for what never comes to the pocket.
    fn miss_m(&self, row: usize) -> Option<f64>;
    /// Whether double kisses are looked for.
    fn sees_kisses(&self) -> bool;
    /// Whether there was a double kiss; nothing for a row that was not played.
    fn kissed(&self, row: usize) -> Option<bool>;
    /// A row's values in words; empty for a row that needs no name.
    fn label(&self, row: usize) -> String;
    /// The outcome of a row.
    fn sentence(&self, row: usize) -> String;
    /// The units in which people are told of the results.
    fn units(&self) -> AskedUnits;
}

impl AxisValues {
    pub fn len(&self) -> usize {
        match self {
            Self::Numbers(numbers) => numbers.len(),
            Self::Words(words) => words.len(),
        }
    }

    fn alike(&self, at: usize, other: &Self, there: usize) -> bool {
        match (self, other) {
            (Self::Numbers(own), Self::Numbers(others)) => same(own[at], others[there]),
            (Self::Words(own), Self::Words(others)) => own[at] == others[there],
            _ => false,
        }
    }
}

/// The misses of rows that have one, and the number of rows without.
pub struct Misses {
    pub known_m: Vec<f64>,
    pub without: usize,
}

impl Misses {
    pub fn of(results: &dyn Results) -> Self {
        let rows = results.rows();
        let known_m: Vec<f64> = rows.iter().filter_map(|row| results.miss_m(*row)).collect();
        let without = rows.len() - known_m.len();
        Self { known_m, without }
    }

    /// The one furthest from the middle, m.
    pub fn worst_m(&self) -> Option<f64> {
        let further = |worst: f64, miss: f64| if miss.abs() > worst.abs() { miss } else { worst };
        self.known_m.iter().copied().reduce(further)
    }

    /// Largest less smallest, m.
    pub fn spread_m(&self) -> Option<f64> {
        let least = self.known_m.iter().copied().reduce(f64::min)?;
        Some(self.known_m.iter().copied().reduce(f64::max)? - least)
    }

    pub fn mean_m(&self) -> f64 {
        self.known_m.iter().sum::<f64>() / self.known_m.len() as f64
    }
}

/// For every value of everything else, the rows along an axis from its least number to its greatest;
/// nothing when it has fewer than two numbers.
pub fn lines(results: &dyn Results, axis: usize) -> Option<Vec<Vec<usize>>> {
    let axes = results.axes();
    let AxisValues::Numbers(numbers) = &axes[axis].values else { return None };
    let mut order: Vec<usize> = (0..numbers.len()).filter(|at| !numbers[*at].is_nan()).collect();
    if order.len() < 2 {
        return None;
    }
    order.sort_by(|a, b| numbers[*a].total_cmp(&numbers[*b]));
    let rows = results.rows();
    let stride: usize = axes[axis + 1..].iter().map(|axis| axis.values.len()).product();
    let block = stride * numbers.len();
    let firsts = (0..rows.len()).filter(|at| at % block < stride);
    Some(
        firsts
            .map(|first| order.iter().map(|place| rows[first + place * stride]).collect())
            .collect(),
    )
}

/// Rows of two selections that differ only in what was selected; nothing when the two do not vary
/// in the same things over the same values.
///
/// A thing varies when more than one of its values is kept. Each row of the one is paired with the
/// row of the other that has the same values of all that varies.
pub fn pairs(first: &dyn Results, second: &dyn Results) -> Option<Vec<(usize, usize)>> {
    let (mut a, mut b) = (first.axes(), second.axes());
    for axes in [&mut a, &mut b] {
        axes.retain(|axis| axis.values.len() > 1);
    }
    if a.len() != b.len() {
        return None;
    }
    // For each axis of the first, how far apart in the rows of the second its values lie.
    let mut reaches: Vec<Vec<usize>> = Vec::new();
    for axis in &a {
        let at = b.iter().position(|other| other.name == axis.name)?;
        let other = &b[at].values;
        if other.len() != axis.values.len() {
            return None;
        }
        let stride: usize = b[at + 1..].iter().map(|axis| axis.values.len()).product();
        let twin =
            |place: usize| (0..other.len()).find(|there| axis.values.alike(place, other, *there));
        let reach = (0..other.len()).map(|place| Some(twin(place)? * stride));
        reaches.push(reach.collect::<Option<_>>()?);
    }
    let mut places = vec![0];
    for reach in &reaches {
        places = places.iter().flat_map(|at| reach.iter().map(move |more| at + more)).collect();
    }
    let others = second.rows();
    Some(first.rows().into_iter().zip(places.into_iter().map(|at| others[at])).collect())
}
