//! Some of the points of a sweep, by the values kept of each axis, and some of the rules.

use super::grid::BankPlan;
use super::results::{AxisValues, ResultAxis, ResultTable};
use crate::renamed;
use crate::telling::count;
use crate::telling::{AxisText, SelectedBanks};
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::{Input, Plan};
use std::rc::Rc;

/// Points and rules of a sweep. Never empty.
#[derive(Debug, Clone)]
pub struct PointSelection {
    /// The sweep.
    pub swept: Rc<BankPlan>,
    /// All rules; none when the sweep gives start numbers itself.
    pub rules: Rc<Vec<NamedRule>>,
    /// Places of the kept values, axis by axis.
    pub kept: Vec<Vec<usize>>,
    /// Places of the kept rules; the one place 0 when there are none.
    pub kept_rules: Vec<usize>,
    /// The selection, in words.
    pub said: Vec<String>,
}

/// An axis or the choice of rules, which pictures treat alike.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AxisOrRules {
    /// The axis at this place of the plan.
    Axis(usize),
    /// The rules.
    Rules,
}

impl PointSelection {
    /// Everything.
    pub fn all(swept: &Rc<BankPlan>, rules: Vec<NamedRule>) -> Self {
        let kept = swept.plan.axes().iter().map(|axis| (0..axis.values.len()).collect()).collect();
        let kept_rules = (0..rules.len().max(1)).collect();
        Self { swept: Rc::clone(swept), rules: Rc::new(rules), kept, kept_rules, said: Vec::new() }
    }

    pub fn plan(&self) -> &Plan {
        &self.swept.plan
    }

    pub fn text(&self, axis: usize) -> &AxisText {
        &self.swept.texts[axis]
    }

    /// Whether an input was left out, which gave it its usual value.
    pub fn is_usual(&self, axis: usize) -> bool {
        !self.swept.written.contains(&self.text(axis).input)
    }

    /// The selection, for sentences about its conditions.
    pub fn telling(&self) -> SelectedBanks<'_> {
        let rules = self.kept_rules.iter().filter_map(|place| self.rules.get(*place)).collect();
        SelectedBanks { plan: self.plan(), texts: &self.swept.texts, kept: &self.kept, rules }
    }

    /// The name of a rule; empty where there is none.
    pub fn rule_name(&self, place: usize) -> &str {
        self.rules.get(place).map_or("", |rule| rule.name.as_str())
    }

    /// The place of an input's axis in the plan.
    pub fn place_of(&self, input: Input) -> Option<usize> {
        self.plan().axes().iter().position(|axis| axis.input == input)
    }

    /// Indices of the kept points, in the plan's order when no axis was put in another.
    pub fn points(&self) -> Vec<usize> {
        let mut points = vec![0];
        for (axis, kept) in self.plan().axes().iter().zip(&self.kept) {
            let count = axis.values.len();
            points = points
                .iter()
                .flat_map(|point| kept.iter().map(move |place| point * count + place))
                .collect();
        }
        points
    }

    /// Indices of the kept rows of a comparison: points, and rules within a point.
    pub fn rows(&self) -> Vec<usize> {
        let ways = self.rules.len().max(1);
        self.points()
            .into_iter()
            .flat_map(|point| self.kept_rules.iter().map(move |rule| point * ways + rule))
            .collect()
    }

    /// The number of rows kept.
    pub fn count(&self) -> usize {
        self.kept.iter().map(Vec::len).product::<usize>() * self.kept_rules.len()
    }

    /// The number of values kept along a dimension.
    pub fn count_along(&self, dimension: AxisOrRules) -> usize {
        match dimension {
            AxisOrRules::Axis(at) => self.kept[at].len(),
            AxisOrRules::Rules => self.kept_rules.len(),
        }
    }

    /// The dimensions that keep more than one value, axes first.
    pub fn varying(&self) -> Vec<AxisOrRules> {
        let axes = (0..self.kept.len()).map(AxisOrRules::Axis);
        axes.chain([AxisOrRules::Rules]).filter(|at| self.count_along(*at) > 1).collect()
    }

    /// The name of a dimension in a script.
    pub fn name_of(&self, dimension: AxisOrRules) -> &'static str {
        match dimension {
            AxisOrRules::Axis(at) => self.text(at).name(),
            AxisOrRules::Rules => "rule",
        }
    }

    /// The dimension of that name: an input, `spin` for roll, `speed` for a lag, or `rule`.
    ///
    /// # Errors
    /// A message and a hint.
    pub fn dimension(&self, name: &str) -> Result<AxisOrRules, (String, String)> {
        if name == "rule" && !self.rules.is_empty() {
            return Ok(AxisOrRules::Rules);
        }
        let input = match name {
            "spin" => Some(Input::Roll),
            "speed" if self.place_of(Input::Lag).is_some() => Some(Input::Lag),
            _ => Input::named(name),
        };
        if let Some(at) = input.and_then(|input| self.place_of(input)) {
            return Ok(AxisOrRules::Axis(at));
        }
        let known: Vec<&str> = (0..self.kept.len())
            .map(AxisOrRules::Axis)
            .chain([AxisOrRules::Rules])
            .filter(|at| self.count_along(*at) > 1)
            .map(|at| self.name_of(at))
            .collect();
        let hint = match renamed::hint(name, known.iter().copied()) {
            Some(hint) => hint,
            None if known.is_empty() => "nothing varies here".to_owned(),
            None => format!("what varies: {}", known.join(", ")),
        };
        Err((format!("there is no axis `{name}` here"), hint))
    }

    /// What stands at a place among the axes of the table: the rules come last.
    pub fn at(&self, axis: usize) -> AxisOrRules {
        if axis < self.kept.len() { AxisOrRules::Axis(axis) } else { AxisOrRules::Rules }
    }

    /// The same with one value along a dimension.
    #[must_use]
    pub fn only(&self, dimension: AxisOrRules, place: usize) -> Self {
        let mut picked = self.clone();
        match dimension {
            AxisOrRules::Axis(at) => picked.kept[at] = vec![place],
            AxisOrRules::Rules => picked.kept_rules = vec![place],
        }
        picked
    }

    /// The kept places along a dimension.
    pub fn places(&self, dimension: AxisOrRules) -> &[usize] {
        match dimension {
            AxisOrRules::Axis(at) => &self.kept[at],
            AxisOrRules::Rules => &self.kept_rules,
        }
    }

    /// A value of a dimension in words.
    pub fn say(&self, dimension: AxisOrRules, place: usize) -> String {
        match dimension {
            AxisOrRules::Axis(at) => self.text(at).say(place),
            AxisOrRules::Rules => self.rule_name(place).to_owned(),
        }
    }

    /// A row in words: its values along everything that varies in the sweep.
    pub fn say_row(&self, row: usize) -> String {
        let ways = self.rules.len().max(1);
        let digits = self.plan().digits(row / ways);
        let mut parts: Vec<String> = self
            .plan()
            .axes()
            .iter()
            .zip(&digits)
            .enumerate()
            .filter(|(_, (axis, _))| axis.values.len() > 1)
            .map(|(at, (_, place))| self.text(at).say(*place))
            .collect();
        if self.kept_rules.len() > 1 {
            parts.push(self.say(AxisOrRules::Rules, row % ways));
        }
        if parts.is_empty() { "the only bank".to_owned() } else { parts.join(", ") }
    }

    /// The selection in words, to begin a sentence with.
    pub fn subject(&self) -> String {
        let banks = count(self.count() as u64, "bank", "banks");
        if self.said.is_empty() {
            format!("all {banks}")
        } else {
            format!("{} ({banks})", self.said.join("; "))
        }
    }
}

impl ResultTable for PointSelection {
    fn axes(&self) -> Vec<ResultAxis> {
        (0..=self.kept.len()).map(|at| self.table_axis(self.at(at))).collect()
    }

    fn axis(&self, name: &str) -> Result<usize, (String, String)> {
        Ok(match self.dimension(name)? {
            AxisOrRules::Axis(at) => at,
            AxisOrRules::Rules => self.kept.len(),
        })
    }

    fn rows(&self) -> Vec<usize> {
        self.rows()
    }
}

impl PointSelection {
    fn table_axis(&self, dimension: AxisOrRules) -> ResultAxis {
        let places = self.places(dimension);
        let name = self.name_of(dimension).to_owned();
        let AxisOrRules::Axis(at) = dimension else {
            let labels: Vec<String> = places.iter().map(|it| self.say(dimension, *it)).collect();
            return ResultAxis {
                title: name.clone(),
                name,
                values: AxisValues::Words(labels.clone()),
                unit: String::new(),
                symbol: "",
                amounts: Vec::new(),
                ticks: labels.clone(),
                labels,
                by_word: false,
            };
        };
        let (text, values) = (self.text(at).shortened(), &self.plan().axes()[at].values);
        let numbers: Option<Vec<f64>> = places.iter().map(|it| values.number(*it)).collect();
        let words = || places.iter().map(|it| values.word(*it).unwrap_or_default().into());
        ResultAxis {
            name,
            values: numbers
                .map_or_else(|| AxisValues::Words(words().collect()), AxisValues::Numbers),
            title: text.title.to_owned(),
            unit: text.picture_unit(),
            symbol: text.unit,
            amounts: places.iter().filter_map(|it| text.amounts.get(*it).copied()).collect(),
            ticks: places.iter().map(|it| text.ticks[*it].clone()).collect(),
            labels: places.iter().map(|it| text.say(*it)).collect(),
            by_word: text.by_word(),
        }
    }
}
