//! A bank or a layout asked for as people ask, and its answer.

use clap::Parser;
use railproof::answer::BankAnswer;
use railproof::command::bank::BankArgs;
use railproof::command::to_json;
use railproof::fault::Fault;
use railproof::layout::{Layout, parse_layout};
use railproof::playing::{BankFindings, BankQuestion, PlayedShot};
use railproof::telling::{Detail, bank_sentences};
use serde_json::Value;
use std::path::Path;

#[derive(Parser)]
pub struct Line {
    #[command(flatten)]
    bank: BankArgs,
}

pub fn flags(flags: &[&str]) -> BankArgs {
    let line = Line::try_parse_from(std::iter::once("bank").chain(flags.iter().copied()));
    line.map_or_else(|error| panic!("{error}"), |line| line.bank)
}

pub fn asked(args: &BankArgs) -> Result<BankQuestion, Fault> {
    Ok(args.questions()?.remove(0))
}

pub fn bank_json(given: &[&str]) -> Result<Value, Fault> {
    let question = asked(&flags(given))?;
    let findings = BankFindings::of(&question)?;
    let text = to_json(&BankAnswer::new(&question, &findings))?;
    Ok(serde_json::from_str(&text).expect("it is JSON"))
}

pub fn told(args: &BankArgs) -> Result<String, Fault> {
    let question = asked(args)?;
    Ok(bank_sentences(&question, &BankFindings::of(&question)?, Detail::Full))
}

pub fn bank(given: &[&str]) -> Value {
    bank_json(given).unwrap_or_else(|fault| panic!("{given:?}: {fault}"))
}

pub fn layout(balls: &str, until: &str) -> Layout {
    let text = format!("equipment: nine-foot\nballs:\n{balls}{until}");
    parse_layout(&text, "shot.yaml", Path::new("")).unwrap_or_else(|fault| panic!("{fault}"))
}

pub const RED: &str = "  red:\n    position: [\"0.10 m\", \"-0.20 m\"]\n    velocity: [\"0.4 m/s\", \
                   \"2.0 m/s\"]\n";

pub fn shot_json(layout: &Layout) -> Value {
    let played = PlayedShot::new(layout).unwrap_or_else(|fault| panic!("{fault}"));
    let text = to_json(&played.answer()).expect("it has a form in JSON");
    assert!(!text.contains("-0.0,") && !text.contains("-0.0\n"), "a negative zero: {text}");
    serde_json::from_str(&text).expect("it is JSON")
}

pub fn keys(value: &Value) -> Vec<&str> {
    value.as_object().expect("an object").keys().map(String::as_str).collect()
}

pub fn number(value: &Value, path: &str) -> f64 {
    value.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("no number at {path}"))
}

pub const A_FOOT_OFF: [&str; 6] = ["--contact", "2", "--off-rail", "12 in", "--speed", "2 m/s"];
