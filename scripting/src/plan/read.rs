//! Reading a plan's file.

use super::consequence::Consequence;
use super::document::FORMAT;
use super::json::{JsonFault, key_at, place_of};
use super::repeats::check_distinct;
use super::rules::NamedRuleEntry;
use super::shot_axes::ShotAxisEntry;
use super::shots::ShotsPlan;
use super::{EQUIPMENT, Keep, SweepPlan, Swept, Unplayable};
use crate::called;
use crate::fault::{Fault, Place};
use crate::fields::{Within, check_kept_name};
use crate::files::ordinary;
use crate::lua::WorkerFunction;
use crate::lua::worker::{CallLimits, FunctionKind};
use crate::profile::check_parts;
use railproof_engine::equipment::Equipment;
use railproof_engine::rule::NamedRule;
use railproof_engine::sample::Sampling;
use railproof_engine::sweep::{Axis, Plan, PlanError, Values};
use serde::{Deserialize, Deserializer};
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;
use std::sync::Arc;

/// The longest file that is read, bytes.
const LONGEST: u64 = 64 << 20;
/// So many bytes of a line are shown before what is wrong with it.
const SHOWN: usize = 60;
/// The most rules.
const MOST_RULES: usize = 1_000;
/// Keys of the file that defects are told of.
const AXES: &str = "axes";
const RULES: &str = "rules";
const LAYOUT: &str = "layout";
const SHOT: &str = "shot";
const OVER: &str = "over";

/// True for a file that is to be read as a plan, not as a script.
pub fn is_plan_file(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("json"))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Document {
    railproof_plan: u32,
    engine: String,
    #[serde(default)]
    plan_sha256: Option<String>,
    #[serde(default)]
    name: String,
    // These follow from the rest and are told for people.
    #[serde(default, deserialize_with = "Consequence::present")]
    points: Option<Consequence>,
    #[serde(default, deserialize_with = "Consequence::present")]
    banks: Option<Consequence>,
    #[serde(default, deserialize_with = "Consequence::present")]
    shards: Option<Consequence>,
    #[serde(default, deserialize_with = "Consequence::present")]
    units: Option<Consequence>,
    shard_points: u64,
    keep: Keep,
    #[serde(default)]
    details: bool,
    #[serde(default)]
    sample: Option<SampleEntry>,
    // Of banks.
    #[serde(default, deserialize_with = "present")]
    axes: Option<Vec<Axis>>,
    #[serde(default, deserialize_with = "present")]
    rules: Option<Vec<NamedRuleEntry>>,
    // Of whole shots.
    #[serde(default, deserialize_with = "present")]
    layout: Option<String>,
    #[serde(default, deserialize_with = "present")]
    shot: Option<String>,
    #[serde(default, deserialize_with = "present")]
    equipment: Option<BTreeMap<String, Equipment>>,
    #[serde(default, deserialize_with = "present")]
    over: Option<Vec<ShotAxisEntry>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SampleEntry {
    how: Sampling,
    points: u64,
    seed: u64,
}

/// A field that may be left out, and is no null where it is there.
fn present<'de, D: Deserializer<'de>, T: Deserialize<'de>>(
    reader: D,
) -> Result<Option<T>, D::Error> {
    T::deserialize(reader).map(Some)
}

/// Reads and checks a plan.
///
/// # Errors
/// The fault with its place in the file: the plan can't be read, is no plan, was written by another version
/// of the engine, or does not match its own digest.
pub fn read_plan(path: &Path) -> Result<SweepPlan, Fault> {
    plan_of_text(&path.display().to_string(), &text_of(path)?)
}

/// As [`read_plan`], from a text that messages call `label`.
///
/// # Errors
/// As [`read_plan`].
pub fn plan_of_text(label: &str, text: &str) -> Result<SweepPlan, Fault> {
    let source: Arc<str> = Arc::from(text);
    let placed = |at: Range<usize>| Place::new(label, Arc::clone(&source), at);
    let document: Document = serde_json::from_str(text).map_err(|error| {
        let at = place_of(text, error.line(), error.column());
        let JsonFault { message, hint } = JsonFault::of(&error);
        let hint =
            hint.unwrap_or_else(|| called::command("plan SCENARIO --out PLAN.json writes one"));
        Fault::bad_input(format!("this is not a plan: {message}{}", near(text, at)))
            .at(placed(at..at + 1))
            .with_hint(hint)
    })?;
    plan_of(document, label).map_err(|PlanDefect { fault, within }| match fault.place {
        Some(_) => fault,
        None => fault.at(placed(key_at(text, &within).unwrap_or_default())),
    })
}

/// Why a document is no plan that can be played.
struct PlanDefect {
    fault: Fault,
    /// The steps to the key that is to blame.
    within: Box<[Within]>,
}

impl PlanDefect {
    /// A defect at one of the document's own keys.
    fn new(key: &str, why: impl Into<String>) -> Self {
        Self::of(key, Fault::bad_input(why))
    }

    fn of(key: &str, fault: Fault) -> Self {
        Self { fault, within: [Within::Key(key.to_owned())].into() }
    }

    /// A defect of an entry, counted from 0, of the list at a key; `name` is the entry's first word.
    fn of_entry(list: &str, at: usize, name: &str, why: impl Into<String>) -> Self {
        let key = |key: &str| Within::Key(key.to_owned());
        let within = [key(list), Within::Item(at + 1), key(name)].into();
        Self { fault: Fault::bad_input(why), within }
    }

    fn with_hint(mut self, hint: &str) -> Self {
        self.fault = self.fault.with_hint(hint);
        self
    }
}

/// The banks of a document: its points, and the rules they are played by.
fn banks_of(
    axes: Vec<Axis>,
    rules: Vec<NamedRuleEntry>,
    sample: Option<&SampleEntry>,
    label: &str,
) -> Result<Swept, PlanDefect> {
    for (at, axis) in axes.iter().enumerate() {
        let blamed = |why: String| PlanDefect::of_entry(AXES, at, "input", why);
        axis.check().map_err(|error| blamed(error.to_string()))?;
        if let Values::Equipment(all) = &axis.values {
            let names = all.iter().map(|one| check_kept_name(&one.name));
            names
                .collect::<Result<(), _>>()
                .map_err(|it| blamed(format!("the equipment's name {}", it.message)))?;
            all.iter().try_for_each(check_parts).map_err(|conflict| blamed(conflict.message))?;
        }
        check_distinct(axis).map_err(blamed)?;
        // As a grid's axis a range would be one value, its lower end.
        if sample.is_none() && matches!(axis.values, Values::Range(_)) {
            let name = axis.input.name();
            return Err(blamed(format!("{name} is a range, which only a plan with a sample has")));
        }
    }
    let banks = match sample {
        Some(SampleEntry { how, points, seed }) => Plan::sampled(axes, *how, *points, *seed),
        None => Plan::new(axes),
    }
    .map_err(|error| {
        let key = if matches!(error, PlanError::Sample(_)) { "sample" } else { AXES };
        PlanDefect::new(key, error.to_string())
    })?;
    if rules.len() > MOST_RULES {
        let why = format!("{} rules; at most {MOST_RULES} are read", rules.len());
        return Err(PlanDefect::new(RULES, why));
    }
    let mut read: Vec<NamedRule> = Vec::with_capacity(rules.len());
    for (at, entry) in rules.into_iter().enumerate() {
        let blamed = |why: String| PlanDefect::of_entry(RULES, at, "name", why);
        let rule = entry.rule(label).map_err(blamed)?;
        if read.iter().any(|other| other.name == rule.name) {
            return Err(blamed(format!("two rules are called \"{}\"", rule.name)));
        }
        read.push(rule);
    }
    Ok(Swept::Banks { banks, rules: read })
}

/// The whole shots of a document.
fn shots_of(
    source: &ShotText,
    equipment: BTreeMap<String, Equipment>,
    over: Vec<ShotAxisEntry>,
    label: &str,
) -> Result<Swept, PlanDefect> {
    if over.is_empty() {
        return Err(PlanDefect::new(OVER, "`over` names nothing that varies"));
    }
    for (name, one) in &equipment {
        let names = check_kept_name(name).and_then(|()| check_kept_name(&one.name));
        names.map_err(|it| {
            PlanDefect::new(EQUIPMENT, format!("the equipment's name {}", it.message))
        })?;
        let range = one.clone().validated().map(drop).map_err(|error| error.to_string());
        range.and_then(|()| check_parts(one).map_err(|conflict| conflict.message)).map_err(
            |why| PlanDefect {
                fault: Fault::bad_input(why),
                within: [Within::Key(EQUIPMENT.to_owned()), Within::Key(name.clone())].into(),
            },
        )?;
    }
    let of_axis = |at: usize, why: String| PlanDefect::of_entry(OVER, at, "name", why);
    let axis = match source {
        ShotText::Layout(_) => ShotAxisEntry::key,
        ShotText::Function(_) => ShotAxisEntry::name,
    };
    let axes = over.into_iter().enumerate();
    let axes = axes.map(|(at, entry)| axis(entry).map_err(|why| of_axis(at, why)));
    let axes = axes.collect::<Result<Vec<_>, PlanDefect>>()?;
    let plan = match source {
        ShotText::Layout(layout) => {
            let label = format!("{label}: layout");
            ShotsPlan::of_parts(&label, layout, equipment, axes).map_err(
                |(axis, fault)| match axis {
                    // Told of the axis, not of the layout's text.
                    Some(at) => {
                        let fault = Fault { place: None, ..fault };
                        PlanDefect { fault, ..of_axis(at, String::new()) }
                    }
                    None => PlanDefect::of(LAYOUT, fault),
                },
            )?
        }
        ShotText::Function(text) => {
            let limits = CallLimits::default();
            let function = WorkerFunction::of_text(label, text, limits, FunctionKind::Shot)
                .map_err(|fault| PlanDefect::new(SHOT, format!("shot: {}", fault.message)))?;
            ShotsPlan::of_function(function, equipment, axes)
                .map_err(|why| PlanDefect::new(OVER, why))?
        }
    };
    Ok(Swept::Shots(plan))
}

/// The text that makes a document's shots.
enum ShotText {
    Layout(String),
    Function(String),
}

/// The points of a document, and how each is played.
fn played_of(document: &mut Document, label: &str) -> Result<Swept, PlanDefect> {
    let Document { axes, rules, layout, shot, over, equipment, sample, .. } = document;
    let of_banks = [(AXES, axes.is_some()), (RULES, rules.is_some()), ("sample", sample.is_some())];
    let of_shots = [
        (LAYOUT, layout.is_some()),
        (SHOT, shot.is_some()),
        (OVER, over.is_some()),
        (EQUIPMENT, equipment.is_some()),
    ];
    let first = |keys: &[(&'static str, bool)]| {
        keys.iter().find(|(_, is_there)| *is_there).map(|(key, _)| *key)
    };
    let refused = |key: &str, why: &str| PlanDefect::new(key, format!("this is not a plan: {why}"));
    if let (Some(bank), Some(shots)) = (first(&of_banks), first(&of_shots)) {
        let why = format!("`{bank}` is for banks and `{shots}` for whole shots");
        return Err(refused(shots, &why));
    }
    match (axes.take(), rules.take()) {
        (Some(axes), Some(rules)) => return banks_of(axes, rules, sample.as_ref(), label),
        (Some(_), None) => return Err(refused(AXES, "missing field `rules`")),
        (None, Some(_)) => return Err(refused(RULES, "missing field `axes`")),
        (None, None) => {}
    }
    let text = match (layout.take(), shot.take()) {
        (Some(layout), None) => ShotText::Layout(layout),
        (None, Some(shot)) => ShotText::Function(shot),
        (Some(_), Some(_)) => {
            return Err(refused(SHOT, "`layout` and `shot` both say what is played"));
        }
        (None, None) => {
            let why = "it has neither `axes` and `rules` for banks nor a `layout` or `shot` for whole shots";
            return Err(refused("railproof_plan", why));
        }
    };
    let Some(over) = over.take() else {
        let key = if matches!(text, ShotText::Layout(_)) { LAYOUT } else { SHOT };
        return Err(refused(key, "missing field `over`"));
    };
    shots_of(&text, equipment.take().unwrap_or_default(), over, label)
}

/// The plan.
fn plan_of(mut document: Document, label: &str) -> Result<SweepPlan, PlanDefect> {
    if document.railproof_plan != FORMAT {
        let given = document.railproof_plan;
        let why = format!("the plan is of format {given}; this program reads format {FORMAT}");
        return Err(PlanDefect::new("railproof_plan", why)
            .with_hint("make the plan again from its scenario"));
    }
    if document.engine != railproof_engine::VERSION {
        let why = format!(
            "the plan was made for engine {}; this is engine {}, which may give other numbers",
            document.engine,
            railproof_engine::VERSION
        );
        return Err(PlanDefect::new("engine", why)
            .with_hint("make the plan again from its scenario, or use that version"));
    }
    check_kept_name(&document.name)
        .map_err(|it| PlanDefect::new("name", format!("the plan's name {}", it.message)))?;
    let played = played_of(&mut document, label)?;
    let plan = SweepPlan {
        name: document.name,
        played,
        keep: document.keep,
        details: document.details,
        shard_points: document.shard_points,
    };
    plan.check().map_err(|Unplayable { why, key }| PlanDefect::new(key, why))?;
    let derived = [
        ("points", document.points, Consequence::Count(plan.points())),
        ("banks", document.banks, Consequence::Count(plan.bank_count())),
        ("shards", document.shards, Consequence::Count(plan.shards())),
        ("units", document.units, Consequence::Words(plan.units())),
    ];
    for (name, given, comes_to) in derived {
        if given.is_some_and(|given| given != comes_to) {
            let why = format!(
                "`{name}` does not agree with the rest of the plan: correct it or take it \
                 out"
            );
            return Err(PlanDefect::new(name, why));
        }
    }
    match document.plan_sha256.filter(|given| *given != plan.sha256()) {
        None => Ok(plan),
        Some(given) => Err(PlanDefect::new(
            "plan_sha256",
            format!("the plan does not match its digest {given}"),
        )
        .with_hint(
            "it was changed after it was made; if on purpose, take out its `plan_sha256` line",
        )),
    }
}

fn text_of(path: &Path) -> Result<String, Fault> {
    let cannot = |why: &dyn std::fmt::Display| {
        Fault::bad_input(format!("can't read the plan `{}`: {why}", path.display()))
    };
    let bytes = ordinary::read_at_most(path, LONGEST + 1).map_err(|error| cannot(&error))?;
    if bytes.len() as u64 > LONGEST {
        return Err(cannot(&format!("it is longer than {LONGEST} bytes")));
    }
    String::from_utf8(bytes).map_err(|error| cannot(&error))
}

/// The text of a long line up to a place: a line may be a whole axis, too wide to be shown.
fn near(text: &str, at: usize) -> String {
    let at = text.floor_char_boundary(at);
    let start = text[..at].rfind('\n').map_or(0, |end| end + 1);
    let from = text.ceil_char_boundary(at.saturating_sub(SHOWN).max(start));
    if at - start <= SHOWN { String::new() } else { format!(" after `{}`", &text[from..at]) }
}
