//! `railproof plan`: a scenario's sweep as plain data.

use super::budget::BudgetFlags;
use super::{print, remark};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::fault::visible_json;
use crate::files::{apart_from, check_free_for_file, write_whole};
use crate::plan::{Keep, SweepPlan, is_plan_file, plan_of_text, read_plan};
use crate::scenario::{RunOptions, remarked_plan};
use std::path::{Path, PathBuf};

/// Flags of `railproof plan`.
#[derive(Debug, clap::Args)]
pub struct PlanArgs {
    /// A scenario, or a plan to be checked.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// Which plan of it.
    #[command(flatten)]
    pub choice: PlanChoice,
    /// Write the plan to this file instead of showing it.
    #[arg(long, value_name = "PLAN.json")]
    pub out: Option<PathBuf>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// The plan, and the rows that it keeps.
#[derive(Debug, Clone, Copy, clap::Args)]
pub struct PlanChoice {
    /// Which of the scenario's plans, counted over its `plan` and `compare` calls; the first unless given.
    #[arg(long, value_name = "K", value_parser = clap::value_parser!(u16).range(1..))]
    pub which: Option<u16>,
    /// Results to keep: every bank, counts over each pair of inputs, or the banks that do not hold.
    #[arg(long, value_enum)]
    pub keep: Option<Keep>,
    /// Rows tell every measure of a bank, as `run` does; playing takes about twice as long.
    #[arg(long)]
    pub details: bool,
}

/// Shows or writes the plan.
///
/// # Errors
/// A scenario or plan that can't be read, or that has no such plan.
pub fn run(args: &PlanArgs) -> Result<Exit, Fault> {
    if let Some(path) = &args.out {
        apart_from(path, [args.file.as_path()])?;
        check_free_for_file(path)?;
    }
    let plan = load(&args.file, args.choice)?;
    let text = plan.text();
    match &args.out {
        Some(path) => write_whole(path, |out| out.write_all(text.as_bytes()))?,
        None => print(&visible_json(&text))?,
    }
    Ok(Exit::Held)
}

/// The plan of a file. One from a scenario is taken through its text, so that the same plan is
/// played whether it was stored between or not.
///
/// # Errors
/// As [`run`].
pub fn load(file: &Path, choice: PlanChoice) -> Result<SweepPlan, Fault> {
    let plan = if is_plan_file(file) {
        if choice.which.is_some() {
            return Err(Fault::bad_input(format!(
                "`--which` chooses among a scenario's plans, and `{}` is one plan",
                file.display()
            ))
            .with_hint("take out --which, or give the scenario"));
        }
        read_plan(file)?
    } else {
        let which = choice.which.unwrap_or(1).into();
        let (plan, remarks) = remarked_plan(file, which, &RunOptions::default())?;
        for words in &remarks {
            remark(words);
        }
        plan
    };
    let keep = choice.keep.unwrap_or(plan.keep);
    let mut plan = plan.keeping(keep);
    plan.details |= choice.details;
    plan_of_text(&file.display().to_string(), &plan.text())
}
