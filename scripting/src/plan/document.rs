//! The text of a plan's file.

use super::{ShotsPlan, SweepPlan, Swept, canonical, sha256};
use crate::lua::plain_source;
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::Plan;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fmt::Write;

/// Grows when the meaning of a key, or of the files stored under a plan, changes.
pub(super) const FORMAT: u32 = 2;

impl SweepPlan {
    /// SHA-256, in hexadecimal, of what decides the results: points, rules, what is kept, how it is
    /// cut into shards, and the engine's version. The plan's own name, the script and its comments
    /// do not count.
    pub fn sha256(&self) -> String {
        sha256(canonical(&self.decides()).as_bytes())
    }

    /// The data under the digest: those of [`Self::matters`], functions without comments and layout.
    pub fn decides(&self) -> Value {
        let mut matters = self.matters();
        without_layout(&mut matters);
        matters
    }

    /// Everything that decides the results, as JSON.
    pub fn matters(&self) -> Value {
        let mut matters = match &self.played {
            Swept::Banks { banks, rules } => {
                let axes: Value = banks.axes().iter().map(|axis| json!(axis)).collect();
                let rules: Value =
                    rules.iter().enumerate().map(|(at, rule)| rule_entry(at, rule)).collect();
                json!({
                    "sample": banks.sample().map(|sample| json!({
                        "how": sample.how,
                        "points": sample.points,
                        "seed": sample.seed,
                    })),
                    "axes": axes,
                    "rules": rules,
                })
            }
            Swept::Shots(shots) => shots.matters(),
        };
        matters["railproof_plan"] = json!(FORMAT);
        matters["engine"] = json!(railproof_engine::VERSION);
        matters["keep"] = json!(self.keep);
        matters["details"] = json!(self.details);
        matters["shard_points"] = json!(self.shard_points);
        matters
    }

    /// The units of the numbers, by input.
    pub(super) fn units(&self) -> BTreeMap<String, String> {
        let axes = self.banks().into_iter().flat_map(Plan::axes);
        axes.filter_map(|axis| {
            let unit = axis.input.unit();
            (!unit.is_empty()).then(|| (axis.input.name().to_owned(), unit.to_owned()))
        })
        .collect()
    }

    /// The file's text: JSON, an axis and a rule a line.
    pub fn text(&self) -> String {
        let matters = self.matters();
        let list = |key: &str| {
            let lines: Vec<String> = matters[key]
                .as_array()
                .into_iter()
                .flatten()
                .map(|entry| format!("\n    {entry}"))
                .collect();
            if lines.is_empty() { "[]".to_owned() } else { format!("[{}\n  ]", lines.join(",")) }
        };
        let mut text = String::from("{\n");
        let mut line = |key: &str, value: &dyn std::fmt::Display, more: &str| {
            let _ = writeln!(text, "  \"{key}\": {value}{more}");
        };
        line("railproof_plan", &matters["railproof_plan"], ",");
        line("engine", &matters["engine"], ",");
        line("plan_sha256", &json!(self.sha256()), ",");
        line("name", &json!(self.name), ",");
        line("points", &json!(self.points()), ",");
        if self.banks().is_some() {
            line("banks", &json!(self.bank_count()), ",");
        }
        line("shards", &json!(self.shards()), ",");
        line("shard_points", &matters["shard_points"], ",");
        line("keep", &matters["keep"], ",");
        line("details", &matters["details"], ",");
        if self.banks().is_some() {
            line("units", &json!(self.units()), ",");
            line("sample", &matters["sample"], ",");
            line("axes", &list("axes"), ",");
            line("rules", &list("rules"), "");
        } else {
            let key = self.shots().map_or("layout", ShotsPlan::source_key);
            line(key, &matters[key], ",");
            line("equipment", &matters["equipment"], ",");
            line("over", &list("over"), "");
        }
        text.push_str("}\n");
        text
    }
}

/// A function without a name of its own is called by its line in the script; lines may move, so
/// here it is called by its place among the rules.
fn rule_entry(at: usize, named: &NamedRule) -> Value {
    let mut entry = json!(named);
    if let Rule::Function(function) = &named.rule
        && function.function().name().starts_with(LINE_NAME)
    {
        let name = format!("function {}", at + 1);
        entry["rule"]["function"]["name"] = json!(name);
        if named.name.starts_with(LINE_NAME) {
            entry["name"] = json!(name);
        }
    }
    entry
}

/// The name of a function that has none of its own.
const LINE_NAME: &str = "the function at line";

/// Takes comments and layout out of the functions of a plan's JSON.
pub(crate) fn without_layout(plan: &mut Value) {
    if let Some(Value::String(source)) = plan.get_mut("shot") {
        *source = plain_source(source);
    }
    let rules = plan.get_mut("rules").and_then(Value::as_array_mut);
    for rule in rules.into_iter().flatten() {
        if let Some(Value::String(source)) = rule.pointer_mut("/rule/function/source") {
            *source = plain_source(source);
        }
    }
}
