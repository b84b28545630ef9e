//! The conditions of a whole picture, in words.

use crate::scenario::axis_text::AxisText;
use crate::scenario::picked::{AxisOrRules, Picked};
use crate::store::model_about;
use crate::telling::caution::Cautions;
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::sweep::{Input, Values};
use std::fmt::Write as _;

/// The conditions that do not vary: the table first, then how the ball is sent.
pub fn subtitles(picked: &Picked) -> Vec<String> {
    let fixed = |at: &usize| picked.kept[*at].len() == 1;
    let say = |at: usize| picked.text(at).say(picked.kept[at][0]);
    // Defaults come last in a plan, but people expect the table before what happens on it.
    let mut axes: Vec<usize> = (0..picked.kept.len()).collect();
    axes.sort_by_key(|at| picked.text(*at).input);
    let mut table = Vec::new();
    let mut ball = Vec::new();
    for at in axes.into_iter().filter(fixed) {
        let text = picked.text(at);
        match text.input {
            Input::RailModel => {}
            Input::RunningSide | Input::AimError if is_zero(text, picked.kept[at][0]) => {}
            Input::Equipment | Input::Pocket => table.push(say(at)),
            Input::Rail => table.push(format!("off the {}", say(at))),
            input if !input.is_launch() => table.push(say(at)),
            _ => ball.push(say(at)),
        }
    }
    [table, ball].into_iter().filter(|line| !line.is_empty()).map(|line| line.join(", ")).collect()
}

fn is_zero(text: &AxisText, place: usize) -> bool {
    text.amounts.get(place).is_some_and(|amount| *amount == 0.0)
}

fn equipment(picked: &Picked) -> Vec<&Equipment> {
    match values(picked, Input::Equipment) {
        Some((Values::Equipment(all), kept)) => {
            kept.iter().filter_map(|place| all.get(*place)).collect()
        }
        _ => Vec::new(),
    }
}

fn models(picked: &Picked) -> Vec<RailModel> {
    let mut models: Vec<RailModel> = match values(picked, Input::RailModel) {
        Some((Values::Models(all), kept)) => {
            kept.iter().filter_map(|place| all.get(*place).copied()).collect()
        }
        _ => equipment(picked).iter().map(|one| one.cushion.rail_model).collect(),
    };
    models.dedup();
    models
}

/// The rail models in use and, when it is one, the cushion's numbers.
pub fn model(picked: &Picked) -> String {
    let (equipment, models) = (equipment(picked), models(picked));
    let names: Vec<&str> = models.iter().map(|model| model.name()).collect();
    let mut words = format!("{} rail", names.join(", "));
    let shown = ["restitution", "restitution_loss", "nose_friction", "contact_time"];
    let swept = picked.plan().axes().iter().any(|axis| shown.contains(&axis.input.name()));
    if let ([one], false) = (equipment.as_slice(), swept) {
        let cushion = &one.cushion;
        let _ = write!(
            words,
            "; restitution {} less {} for each m/s square to the rail, nose friction {}, \
             contact {} ms",
            cushion.restitution,
            cushion.restitution_loss_s_m,
            cushion.nose_friction,
            // To the microsecond.
            (1e6 * cushion.contact_time_s).round() / 1e3
        );
    }
    words
}

fn values(picked: &Picked, input: Input) -> Option<(&Values, &[usize])> {
    let at = picked.place_of(input)?;
    Some((&picked.plan().axes()[at].values, &picked.kept[at]))
}

/// The one rule in use; empty when there are several or none.
pub fn rule(picked: &Picked) -> String {
    match picked.kept_rules.as_slice() {
        [only] => picked.say(AxisOrRules::Rules, *only),
        _ => String::new(),
    }
}

/// The rule, if it is one, and the model, each as a line, then the footnotes.
pub fn footer(picked: &Picked) -> Vec<String> {
    let rule = rule(picked);
    let mut lines = if rule.is_empty() { Vec::new() } else { vec![format!("Rule: {rule}")] };
    lines.push(format!("Model: {}", model(picked)));
    lines.extend(notes(picked));
    lines
}

/// Footnotes that belong under any picture of these banks.
pub fn notes(picked: &Picked) -> Vec<String> {
    let mut notes = Vec::new();
    if models(picked).contains(&RailModel::Compliant) {
        let about = model_about(RailModel::Compliant);
        notes.push(format!("The compliant rail is {about}."));
    }
    if picked
        .place_of(Input::OffRail)
        .is_some_and(|at| picked.kept[at].iter().any(|place| !is_zero(picked.text(at), *place)))
    {
        notes.push(
            "Distances off the rail are square to it, from the ball's centre to the groove."
                .to_owned(),
        );
    }
    if picked
        .place_of(Input::RunningSide)
        .is_some_and(|at| picked.kept[at].iter().any(|place| !is_zero(picked.text(at), *place)))
    {
        notes.push(
            "Side spin is given as the speed of the ball's equator over its own speed; running side adds to the travel along the rail."
                .to_owned(),
        );
    }
    let kept = |axis: usize, place: usize| picked.kept[axis].contains(&place);
    notes.extend(Cautions::of_part(picked.plan(), kept).lines());
    notes
}
