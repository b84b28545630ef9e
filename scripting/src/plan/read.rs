//! Reading a plan's file.

use super::document::FORMAT;
use super::rules::NamedRuleEntry;
use super::{Keep, SweepPlan};
use crate::fault::{Fault, Place};
use railproof_engine::sample::Sampling;
use railproof_engine::sweep::{Axis, Plan, Values};
use serde::Deserialize;
use serde::de::IgnoredAny;
use std::io::Read;
use std::path::Path;
use std::sync::Arc;

/// The longest file that is read, bytes.
const LONGEST: u64 = 64 << 20;
/// The most rules.
const MOST_RULES: usize = 1_000;

/// True for a file that is to be read as a plan, not as a script.
pub fn is_plan_file(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("json"))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(dead_code, reason = "what follows from the rest is accepted and not read")]
struct Document {
    railproof_plan: u32,
    engine: String,
    #[serde(default)]
    plan_sha256: Option<String>,
    #[serde(default)]
    name: String,
    // These follow from the rest and are told for people.
    #[serde(default)]
    points: IgnoredAny,
    #[serde(default)]
    banks: IgnoredAny,
    #[serde(default)]
    shards: IgnoredAny,
    #[serde(default)]
    units: IgnoredAny,
    shard_points: u64,
    keep: Keep,
    #[serde(default)]
    details: bool,
    #[serde(default)]
    sample: Option<SampleEntry>,
    axes: Vec<Axis>,
    rules: Vec<NamedRuleEntry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SampleEntry {
    how: Sampling,
    points: u64,
    seed: u64,
}

/// Reads and checks a plan.
///
/// # Errors
/// What is wrong, with its place in the file: it can't be read, is no plan, was written by another
/// version of the engine, or does not match its own digest.
pub fn read_plan(path: &Path) -> Result<SweepPlan, Fault> {
    plan_of_text(&path.display().to_string(), &text_of(path)?)
}

/// As [`read_plan`], from a text that messages call `label`.
///
/// # Errors
/// As [`read_plan`].
pub fn plan_of_text(label: &str, text: &str) -> Result<SweepPlan, Fault> {
    let document: Document = serde_json::from_str(text).map_err(|error| {
        let place = place_of(label, text, error.line(), error.column());
        let why = error.to_string();
        let why = why.rsplit_once(" at line ").map_or(why.as_str(), |(before, _)| before);
        Fault::bad_input(format!("this is no plan: {why}"))
            .at(place)
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
    let (plan, unlike) = plan_of(document, label).map_err(refused)?;
    match unlike {
        None => Ok(plan),
        Some(given) => Err(refused(format!("the plan does not match its digest {given}"))
            .with_hint(
                "it was changed after it was made; if on purpose, take out its `plan_sha256` line",
            )),
    }
}

/// The plan, and the digest that it does not match.
fn plan_of(document: Document, label: &str) -> Result<(SweepPlan, Option<String>), String> {
    let axes = document.axes;
    let banks = match document.sample {
        Some(SampleEntry { how, points, seed }) => Plan::sampled(axes, how, points, seed),
        None => {
            // As a grid's axis a range would be one value, its lower end.
            if let Some(axis) = axes.iter().find(|axis| matches!(axis.values, Values::Range(_))) {
                let name = axis.input.name();
                return Err(format!("{name} is a range, which only a plan with a sample has"));
            }
            Plan::new(axes)
        }
    }
    .map_err(|error| error.to_string())?;
    if document.rules.len() > MOST_RULES {
        return Err(format!("{} rules; at most {MOST_RULES} are read", document.rules.len()));
    }
    let rules: Result<Vec<_>, String> =
        document.rules.into_iter().map(|entry| entry.rule(label)).collect();
    let rules = rules?;
    if let Some(twice) =
        (1..rules.len()).find(|at| rules[..*at].iter().any(|other| other.name == rules[*at].name))
    {
        return Err(format!("two rules are called \"{}\"", rules[twice].name));
    }
    let plan = SweepPlan {
        name: document.name,
        banks,
        rules,
        keep: document.keep,
        details: document.details,
        shard_points: document.shard_points,
    };
    plan.check()?;
    let unlike = document.plan_sha256.filter(|given| *given != plan.sha256());
    Ok((plan, unlike))
}

fn text_of(path: &Path) -> Result<String, Fault> {
    let cannot =
        |why: String| Fault::bad_input(format!("can't read the plan `{}`: {why}", path.display()));
    let file = std::fs::File::open(path).map_err(|error| cannot(error.to_string()))?;
    if !file.metadata().is_ok_and(|about| about.is_file()) {
        return Err(cannot("it is not an ordinary file".to_owned()));
    }
    let mut text = String::new();
    file.take(LONGEST + 1).read_to_string(&mut text).map_err(|error| cannot(error.to_string()))?;
    if text.len() as u64 > LONGEST {
        return Err(cannot(format!("it is longer than {LONGEST} bytes")));
    }
    Ok(text)
}

fn place_of(label: &str, text: &str, line: usize, column: usize) -> Place {
    let start =
        text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum::<usize>();
    let at = (start + column.saturating_sub(1)).min(text.len());
    // A line may be a whole axis of numbers; what is shown is the stretch around the place.
    let from = text.floor_char_boundary(at.saturating_sub(60).max(start));
    let rest = &text[from..];
    let shown: String = rest.split('\n').next().unwrap_or_default().chars().take(120).collect();
    let within = at - from;
    let padded = format!("{}{shown}", "\n".repeat(line.saturating_sub(1)));
    let offset = line.saturating_sub(1) + within;
    Place::new(label, Arc::from(padded), offset..offset + 1)
}
