//! One scenario from its file to its record.

use super::draw::stand_ins::draw_undrawn;
use super::run_options::RunOptions;
use super::session::Session;
use super::unfinished::Unfinished;
use super::{
    bank, chance, compare, equipment, expect, frontier, grid, line, measured_table, mended_names,
    page, plan, range, rules, sample, shots, starts,
};
use crate::called;
use crate::fault::Fault;
use crate::fields::CONSTRUCTORS;
use crate::files::{near_name, ordinary};
use crate::lua::ScenarioVm;
use crate::lua::missing_value::UsualTable;
use crate::plan::SweepPlan;
use crate::profile::{OWN_TABLE, find_profile};
use crate::record::{Drawing, Picture, Record};
use crate::yaml::mostly_inches;
use mlua::Lua;
use railproof_engine::sweep::{Axis, Plan};
use std::path::Path;
use std::rc::Rc;

impl std::fmt::Debug for RunOptions {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("RunOptions")
            .field("limits", &self.limits)
            .field("accept_baselines", &self.accept_baselines)
            .field("plan", &self.plan)
            .field("stop", &self.stop)
            .finish_non_exhaustive()
    }
}

/// Runs a scenario on a fresh machine. A failed expectation, a thing that is left out and the error that
/// ended the script are part of the record, beside all that was made before.
///
/// # Errors
/// The file can't be read.
pub fn run_scenario(path: &Path, options: &RunOptions) -> Result<Record, Fault> {
    let text = read(path, options.limits.source_bytes)?;
    let session = Rc::new(Session::new(path, options.clone()));
    session.note_lengths(in_inches(&text));
    let vm = ScenarioVm::new(options.limits, |lua| register(lua, &session))?;
    vm.heed(&options.stop, options.budget);
    options.progress.began(Unfinished::new(session.shared_record(), vm.shared_printed()));
    let ran = vm.run_mended(&path.display().to_string(), &text, usual_table(session.folder()));
    let stopped = ran.err().map(|fault| match fault.place {
        Some(_) => fault,
        None => Fault { message: format!("`{}`: {}", path.display(), fault.message), ..fault },
    });
    if stopped.is_none() {
        session.leave_out_unclaimed();
    }
    let stand_ins = match (&stopped, session.lost_picture()) {
        (None, false) => Vec::new(),
        _ => draw_undrawn(vm.lua()),
    };
    let printed = vm.printed();
    let mut record = session.take_record();
    record.remarks = vm.remarks();
    record.remarks.extend(stand_ins);
    let asked = |it: &Drawing| !matches!(it.picture, Picture::BeforeAfter(_));
    if stopped.is_none() && !record.drawings.iter().any(asked) {
        record.remarks.extend(record.maps.first().map(|map| picture_to_ask_for(&map.plan)));
    }
    record.stopped = stopped;
    record.accept_only_whole();
    record.printed = printed.lines;
    record.printed_dropped = printed.dropped;
    Ok(record)
}

/// Runs a scenario as far as its `which`-th plan (counted from 1 over `plan` and `compare`) and
/// gives that.
///
/// # Errors
/// As [`run_scenario`]; a scenario that has no such plan.
pub fn plan_of_scenario(
    path: &Path,
    which: usize,
    options: &RunOptions,
) -> Result<SweepPlan, Fault> {
    remarked_plan(path, which, options).map(|(plan, _)| plan)
}

/// As [`plan_of_scenario`], with what should be known of the scenario although nothing is wrong.
///
/// # Errors
/// As [`plan_of_scenario`].
pub fn remarked_plan(
    path: &Path,
    which: usize,
    options: &RunOptions,
) -> Result<(SweepPlan, Vec<String>), Fault> {
    let options = RunOptions { plan: Some(which), ..options.clone() };
    let text = read(path, options.limits.source_bytes)?;
    let session = Rc::new(Session::new(path, options.clone()));
    let vm = ScenarioVm::new(options.limits, |lua| register(lua, &session))?;
    vm.heed(&options.stop, options.budget);
    vm.lua().set_app_data(usual_table(session.folder()));
    let ran = vm.run(&path.display().to_string(), &text);
    let mut plans = session.take_record().plans;
    if plans.len() >= which && which > 0 {
        return Ok((plans.swap_remove(which - 1).1, vm.remarks()));
    }
    ran?;
    let found = match plans.len() {
        0 => "has no plan".to_owned(),
        1 => "has one plan".to_owned(),
        more => format!("has {more} plans"),
    };
    Err(Fault::bad_input(format!("`{}` {found}", path.display())).with_hint(
        "plan(banks, rule) or compare(banks, rule) makes one; --which picks another than the first",
    ))
}

/// What a file is for that is no scenario by its name.
fn other_file(path: &Path) -> Option<Fault> {
    let ending = path.extension()?.to_str()?.to_ascii_lowercase();
    let (file, by) = (path.display(), called::name());
    let (kind, hint) = match ending.as_str() {
        "yaml" | "yml" if is_profile(path) => (
            "YAML",
            format!(
                "a table is asked by: {by} bank --contact 2 --equipment {file}, or loaded by a scenario"
            ),
        ),
        "yaml" | "yml" => ("YAML", format!("a layout of balls is played by: {by} shot {file}")),
        "csv" => ("CSV", format!("measured banks are fitted by: {by} fit {file} --on nine-foot")),
        "md" | "txt" | "json" | "png" | "svg" | "baseline" => {
            ("no script", "give the path of a file that ends with .lua".to_owned())
        }
        _ => return None,
    };
    Some(Fault::bad_input(format!("`{file}` is {kind}; a scenario is Lua")).with_hint(hint))
}

/// Whether a file reads as the profile of a table.
fn is_profile(path: &Path) -> bool {
    find_profile(&path.display().to_string(), Path::new("")).is_ok()
}

fn read(path: &Path, most: usize) -> Result<Vec<u8>, Fault> {
    if let Some(fault) = other_file(path) {
        return Err(fault);
    }
    let cannot = |why: std::io::Error| {
        let file = path.display();
        let fault = Fault::bad_input(format!("can't read the scenario `{file}`: {why}"));
        if path.is_dir() {
            return fault.with_hint(format!(
                "name one file in it, or play all: {} test {file}",
                called::name()
            ));
        }
        match near_name(path).filter(|_| why.kind() == std::io::ErrorKind::NotFound) {
            Some(near) => {
                fault.with_hint(format!("did you mean `{}`?", path.with_file_name(near).display()))
            }
            None => fault.with_hint("give the path of a file that ends with .lua"),
        }
    };
    // One byte more than is allowed is enough to see that it is too long.
    ordinary::read_at_most(path, most as u64 + 1).map_err(cannot)
}

/// Whether more of a script's lengths are in inches and feet than in metres and parts of it; nothing
/// without lengths.
fn in_inches(script: &[u8]) -> Option<bool> {
    let script = String::from_utf8_lossy(script);
    let lines = script.lines().map(|line| line.split("--").next().unwrap_or_default());
    let symbol = |name: &str| {
        CONSTRUCTORS.iter().find(|(known, _)| *known == name).map(|(_, symbol)| *symbol)
    };
    let mut units = Vec::new();
    for line in lines {
        let mut before = "";
        for word in line.split(|it: char| !it.is_ascii_alphanumeric()).filter(|it| !it.is_empty()) {
            // `in` is a word of the language too.
            let written = before.ends_with(|it: char| it.is_ascii_digit());
            units.extend(symbol(word).or(written.then_some(word)));
            before = word;
        }
    }
    mostly_inches(units.into_iter())
}

/// The words for a scenario that plays and draws nothing.
fn picture_to_ask_for(plan: &Plan) -> String {
    let mut axes: Vec<&Axis> = plan.axes().iter().filter(|axis| axis.values.len() > 1).collect();
    axes.sort_by_key(|axis| std::cmp::Reverse(axis.values.len()));
    let name = |at: usize, usual| axes.get(at).map_or(usual, |axis| axis.input.name());
    let (x, y) = (name(0, "speed"), name(1, "contact"));
    format!("no picture was asked for: map:draw {{ x = \"{x}\", y = \"{y}\" }} draws one")
}

/// The table that a scenario in a folder most likely plays on.
fn usual_table(folder: &Path) -> UsualTable {
    let own = folder.join(OWN_TABLE).is_file();
    UsualTable(if own { OWN_TABLE } else { "nine-foot" }.to_owned())
}

fn register(lua: &Lua, session: &Rc<Session>) -> mlua::Result<()> {
    lua.set_app_data(Rc::clone(session));
    let globals = lua.globals();
    globals.raw_set("scenario", lua.create_function(super::session::scenario)?)?;
    equipment::install(lua, &globals)?;
    rules::install(lua, &globals)?;
    grid::install(lua, &globals)?;
    range::install(lua, &globals)?;
    sample::install(lua, &globals)?;
    plan::install(lua, &globals)?;
    compare::install(lua, &globals)?;
    starts::install(lua, &globals)?;
    measured_table::install(lua, &globals)?;
    chance::install(lua, &globals)?;
    frontier::install(lua, &globals)?;
    bank::install(lua, &globals)?;
    page::install(lua, &globals)?;
    line::install(lua, &globals)?;
    mended_names::install(lua, &globals)?;
    shots::install(lua, &globals)?;
    expect::install(lua, &globals)
}
