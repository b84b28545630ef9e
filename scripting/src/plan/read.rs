//! Reading a plan's file.

use super::consequence::Consequence;
use super::document::FORMAT;
use super::rules::NamedRuleEntry;
use super::shot_axes::ShotAxisEntry;
use super::shots::ShotsPlan;
use super::{Keep, SweepPlan, Swept};
use crate::fault::{Fault, Place};
use crate::files::ordinary;
use crate::lua::WorkerFunction;
use crate::lua::worker::{CallLimits, FunctionKind};
use railproof_engine::equipment::Equipment;
use railproof_engine::sample::Sampling;
use railproof_engine::sweep::{Axis, Input, Plan, PlanError, Values};
use serde::{Deserialize, Deserializer};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

/// The longest file that is read, bytes.
const LONGEST: u64 = 64 << 20;
/// So many bytes of a line are shown before what is wrong with it.
const SHOWN: usize = 60;
/// The most rules.
const MOST_RULES: usize = 1_000;

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
    #[serde(default)]
    equipment: BTreeMap<String, Equipment>,
    #[serde(default)]
    over: Vec<ShotAxisEntry>,
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
    let document: Document = serde_json::from_str(text).map_err(|error| {
        let at = place_of(text, error.line(), error.column());
        let why = error.to_string();
        let why = why.rsplit_once(" at line ").map_or(why.as_str(), |(before, _)| before);
        Fault::bad_input(format!("this is no plan: {why}{}", near(text, at)))
            .at(Place::new(label, Arc::from(text), at..at + 1))
            .with_hint("railproof plan SCENARIO --out PLAN.json writes one")
    })?;
    let refused = |message: String| Fault::bad_input(format!("`{label}`: {message}"));
    if document.railproof_plan != FORMAT {
        return Err(refused(format!(
            "the plan is of format {}; this program reads format {FORMAT}",
            document.railproof_plan
        ))
        .with_hint("make the plan again from its scenario"));
    }
    if document.engine != railproof_engine::VERSION {
        return Err(refused(format!(
            "the plan was made for engine {}; this is engine {}, which may give other numbers",
            document.engine,
            railproof_engine::VERSION
        ))
        .with_hint("make the plan again from its scenario, or use that version"));
    }
    let placed = |PlanDefect { why, axis }: PlanDefect| {
        let fault = refused(why);
        match axis.and_then(|input| axis_at(text, input)) {
            Some(at) => fault.at(Place::new(label, Arc::from(text), at..at + 1)),
            None => fault,
        }
    };
    let (plan, unlike) = plan_of(document, label).map_err(placed)?;
    match unlike {
        None => Ok(plan),
        Some(given) => Err(refused(format!("the plan does not match its digest {given}"))
            .with_hint(
                "it was changed after it was made; if on purpose, take out its `plan_sha256` line",
            )),
    }
}

/// Why a document is no plan that can be played.
struct PlanDefect {
    why: String,
    /// The input whose values are to blame.
    axis: Option<Input>,
}

impl From<String> for PlanDefect {
    fn from(why: String) -> Self {
        Self { why, axis: None }
    }
}

/// The banks of a document: its points, and the rules they are played by.
fn banks_of(
    axes: Vec<Axis>,
    rules: Vec<NamedRuleEntry>,
    sample: Option<&SampleEntry>,
    label: &str,
) -> Result<Swept, PlanDefect> {
    for axis in &axes {
        let blame =
            |error: PlanError| PlanDefect { why: error.to_string(), axis: Some(axis.input) };
        axis.check().map_err(blame)?;
    }
    let banks = match sample {
        Some(SampleEntry { how, points, seed }) => Plan::sampled(axes, *how, *points, *seed),
        None => {
            // As a grid's axis a range would be one value, its lower end.
            if let Some(axis) = axes.iter().find(|axis| matches!(axis.values, Values::Range(_))) {
                let name = axis.input.name();
                return Err(
                    format!("{name} is a range, which only a plan with a sample has").into()
                );
            }
            Plan::new(axes)
        }
    }
    .map_err(|error| error.to_string())?;
    if rules.len() > MOST_RULES {
        return Err(format!("{} rules; at most {MOST_RULES} are read", rules.len()).into());
    }
    let rules: Result<Vec<_>, String> = rules.into_iter().map(|entry| entry.rule(label)).collect();
    let rules = rules?;
    if let Some(twice) =
        (1..rules.len()).find(|at| rules[..*at].iter().any(|other| other.name == rules[*at].name))
    {
        return Err(format!("two rules are called \"{}\"", rules[twice].name).into());
    }
    Ok(Swept::Banks { banks, rules })
}

/// The whole shots of a document.
fn shots_of(
    layout: &str,
    equipment: BTreeMap<String, Equipment>,
    over: Vec<ShotAxisEntry>,
    label: &str,
) -> Result<Swept, PlanDefect> {
    let axes = over.into_iter().map(ShotAxisEntry::axis).collect::<Result<Vec<_>, String>>()?;
    let label = format!("{label}: layout");
    let plan = ShotsPlan::of_parts(&label, layout, equipment, axes);
    plan.map(Swept::Shots).map_err(|(_, fault)| fault.message.into())
}

/// The whole shots of a document whose function makes them.
fn made_shots_of(
    text: &str,
    equipment: BTreeMap<String, Equipment>,
    over: Vec<ShotAxisEntry>,
    label: &str,
) -> Result<Swept, PlanDefect> {
    let axes = over.into_iter().map(ShotAxisEntry::axis).collect::<Result<Vec<_>, String>>()?;
    let limits = CallLimits::default();
    let function = WorkerFunction::of_text(label, text, limits, FunctionKind::Shot)
        .map_err(|fault| format!("shot: {}", fault.message))?;
    Ok(Swept::Shots(ShotsPlan::of_function(function, equipment, axes)?))
}

/// The plan, and the digest that it does not match.
fn plan_of(document: Document, label: &str) -> Result<(SweepPlan, Option<String>), PlanDefect> {
    let played = match (document.axes, document.rules, document.layout, document.shot) {
        (Some(axes), Some(rules), None, None) => {
            banks_of(axes, rules, document.sample.as_ref(), label)?
        }
        (None, None, Some(layout), None) if document.sample.is_none() => {
            shots_of(&layout, document.equipment, document.over, label)?
        }
        (None, None, None, Some(shot)) if document.sample.is_none() => {
            made_shots_of(&shot, document.equipment, document.over, label)?
        }
        (Some(_), None, None, None) => {
            return Err("this is no plan: missing field `rules`".to_owned().into());
        }
        (None, Some(_), None, None) => {
            return Err("this is no plan: missing field `axes`".to_owned().into());
        }
        (None, None, None, None) => {
            return Err("this is no plan: it has neither `axes` and `rules` of banks nor a `layout` or `shot` of shots"
                .to_owned()
                .into());
        }
        _ => {
            return Err("this is no plan: it is of banks and of whole shots at once, or of a `layout` and a `shot`"
                .to_owned()
                .into());
        }
    };
    let plan = SweepPlan {
        name: document.name,
        played,
        keep: document.keep,
        details: document.details,
        shard_points: document.shard_points,
    };
    plan.check()?;
    let derived = [
        ("points", document.points, Consequence::Count(plan.points())),
        ("banks", document.banks, Consequence::Count(plan.bank_count())),
        ("shards", document.shards, Consequence::Count(plan.shards())),
        ("units", document.units, Consequence::Words(plan.units())),
    ];
    for (name, given, comes_to) in derived {
        if given.is_some_and(|given| given != comes_to) {
            return Err(format!(
                "`{name}` is not what the plan comes to; it follows from the rest: put it right or \
                 take it out"
            )
            .into());
        }
    }
    let unlike = document.plan_sha256.filter(|given| *given != plan.sha256());
    Ok((plan, unlike))
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

/// Where the axis of an input says which it is.
fn axis_at(text: &str, input: Input) -> Option<usize> {
    let wanted = serde_json::to_string(&input).ok()?;
    text.match_indices("\"input\"").map(|(at, key)| at + key.len()).find_map(|after| {
        let rest = text[after..].trim_start().strip_prefix(':')?.trim_start();
        rest.starts_with(&wanted).then(|| text.len() - rest.len())
    })
}

/// Where an error of the JSON reader stands, which counts lines and bytes from 1.
fn place_of(text: &str, line: usize, column: usize) -> usize {
    let before = text.split_inclusive('\n').take(line.saturating_sub(1));
    let start = before.map(str::len).sum::<usize>();
    (start + column.saturating_sub(1)).min(text.len())
}

/// The text of a long line up to a place: a line may be a whole axis, too wide to be shown.
fn near(text: &str, at: usize) -> String {
    let at = text.floor_char_boundary(at);
    let start = text[..at].rfind('\n').map_or(0, |end| end + 1);
    let from = text.ceil_char_boundary(at.saturating_sub(SHOWN).max(start));
    if at - start <= SHOWN { String::new() } else { format!(" after `{}`", &text[from..at]) }
}
