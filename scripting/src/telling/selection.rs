//! The conditions of selected banks, in words: the lines around a picture of them.

use super::axis_text::AxisText;
use super::caution::Cautions;
use super::models::model_about;
use super::readings::{PlayedLines, THROUGH_THE_DIAMONDS};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::{Input, Plan, Values};
use railproof_engine::units::short_number;
use std::fmt::Write as _;

/// A line so short goes on the one before it, letters.
const SHORT_LINE: usize = 40;

/// Some of the banks of a sweep.
#[derive(Debug)]
pub struct SelectedBanks<'a> {
    /// The sweep.
    pub plan: &'a Plan,
    /// One for each axis of the plan.
    pub texts: &'a [AxisText],
    /// Places of the kept values, axis by axis.
    pub kept: &'a [Vec<usize>],
    /// The rules in use; none when the sweep gives start numbers itself.
    pub rules: Vec<&'a NamedRule>,
}

impl SelectedBanks<'_> {
    /// The conditions that do not vary: the table first, then how the ball is sent.
    pub fn subtitles(&self) -> Vec<String> {
        let fixed = |at: &usize| self.kept[*at].len() == 1;
        let say = |at: usize| self.texts[at].say(self.kept[at][0]);
        // Defaults come last in a plan, but people expect the table before what happens on it.
        let mut axes: Vec<usize> = (0..self.kept.len()).collect();
        axes.sort_by_key(|at| self.texts[*at].input);
        let mut table = Vec::new();
        let mut ball = Vec::new();
        for at in axes.into_iter().filter(fixed) {
            let text = &self.texts[at];
            match text.input {
                Input::RailModel => {}
                // Nothing is not told, unless other banks of the sweep have something.
                Input::RunningSide | Input::AimError
                    if is_zero(text, self.kept[at][0]) && !self.varies(at) => {}
                Input::Equipment | Input::Pocket => table.push(say(at)),
                Input::Rail => table.push(format!("off the {}", say(at))),
                input if !input.is_launch() => table.push(say(at)),
                _ => ball.push(say(at)),
            }
        }
        let lines = PlayedLines { plan: self.plan, kept: self.kept };
        let rule = self.rules.first().map(|rule| &rule.rule);
        // Which of several rules a line is of would have to be said as well.
        let one = lines.only(rule).filter(|_| self.rules.len() < 2);
        if let Some((line, sights)) = &one {
            // The contact comes first.
            if let (Some(contact), Some(_)) = (ball.first_mut(), rule) {
                *contact = format!("{contact} from {}", short_number(line.start, 3));
            }
            ball.push(format!("{THROUGH_THE_DIAMONDS}{sights}"));
        }
        let told = [table, ball].into_iter().filter(|line| !line.is_empty());
        let mut told: Vec<String> = told.map(|line| line.join(", ")).collect();
        // A word alone is no line.
        if let [table, ball] = told.as_slice()
            && ball.len() <= SHORT_LINE
        {
            told = vec![format!("{table}; {ball}")];
        }
        if one.is_none() && self.rules.len() < 2 {
            told.extend(lines.sentence(rule));
        }
        told
    }

    /// Whether the whole sweep has several values of an axis.
    fn varies(&self, at: usize) -> bool {
        self.plan.axes()[at].values.len() > 1
    }

    /// The name of the one rule in use; empty when there are several or none.
    pub fn rule(&self) -> &str {
        match self.rules.as_slice() {
            [only] => &only.name,
            _ => "",
        }
    }

    /// The rail models in use and, when it is one, the cushion's numbers.
    pub fn model(&self) -> String {
        let (equipment, models) = (self.equipment(), self.models());
        let names: Vec<&str> = models.iter().map(|model| model.name()).collect();
        let mut words = format!("{} rail", names.join(", "));
        let shown = ["restitution", "restitution_loss", "nose_friction", "contact_time"];
        let swept = self.plan.axes().iter().any(|axis| shown.contains(&axis.input.name()));
        if let ([one], false) = (equipment.as_slice(), swept) {
            let cushion = &one.cushion;
            let _ = write!(
                words,
                "; restitution {} less {} for each m/s square to the rail, nose friction {}, \
                 contact {} ms",
                short_number(cushion.restitution, 4),
                short_number(cushion.restitution_loss_s_m, 4),
                short_number(cushion.nose_friction, 4),
                // To the microsecond.
                (1e6 * cushion.contact_time_s).round() / 1e3
            );
        }
        words
    }

    /// The rule, if it is one, and the model, each as a line, then the footnotes.
    pub fn footer(&self) -> Vec<String> {
        let mut lines = Vec::new();
        if !self.rule().is_empty() {
            lines.push(format!("Rule: {}", self.rule()));
        }
        lines.push(format!("Model: {}", self.model()));
        lines.extend(self.notes());
        lines
    }

    /// Footnotes that belong under any picture of these banks.
    pub fn notes(&self) -> Vec<String> {
        let mut notes = Vec::new();
        if self.models().contains(&RailModel::Compliant) {
            let about = model_about(RailModel::Compliant);
            notes.push(format!("The compliant rail is {about}."));
        }
        if self.any_but_zero(Input::OffRail) {
            notes.push(
                "Distances off the rail are square to it, from the ball's centre to the groove."
                    .to_owned(),
            );
        }
        if self.any_but_zero(Input::RunningSide) {
            notes.push(
                "Side spin is given as the speed of the ball's equator over its own speed; running side adds to the travel along the rail."
                    .to_owned(),
            );
        }
        let kept = |axis: usize, place: usize| self.kept[axis].contains(&place);
        notes.extend(Cautions::of_part(self.plan, kept).lines());
        notes
    }

    fn any_but_zero(&self, input: Input) -> bool {
        self.place_of(input)
            .is_some_and(|at| self.kept[at].iter().any(|place| !is_zero(&self.texts[at], *place)))
    }

    fn equipment(&self) -> Vec<&Equipment> {
        match self.values(Input::Equipment) {
            Some((Values::Equipment(all), kept)) => {
                kept.iter().filter_map(|place| all.get(*place)).collect()
            }
            _ => Vec::new(),
        }
    }

    fn models(&self) -> Vec<RailModel> {
        let mut models: Vec<RailModel> = match self.values(Input::RailModel) {
            Some((Values::Models(all), kept)) => {
                kept.iter().filter_map(|place| all.get(*place).copied()).collect()
            }
            _ => self.equipment().iter().map(|one| one.cushion.rail_model).collect(),
        };
        models.dedup();
        models
    }

    fn values(&self, input: Input) -> Option<(&Values, &[usize])> {
        let at = self.place_of(input)?;
        Some((&self.plan.axes()[at].values, &self.kept[at]))
    }

    fn place_of(&self, input: Input) -> Option<usize> {
        self.plan.axes().iter().position(|axis| axis.input == input)
    }
}

fn is_zero(text: &AxisText, place: usize) -> bool {
    text.amounts.get(place).is_some_and(|amount| *amount == 0.0)
}
