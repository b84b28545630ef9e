//! `railproof slurm`: the text that plays a plan on a Slurm cluster.

use super::budget::BudgetFlags;
use super::print;
use crate::cluster::{Grouping, Jobs, MOST_TASKS, Work, extra_line};
use crate::exit::Exit;
use crate::fault::{Fault, tame};
use crate::files::{apart_from, check_free_for_file, write_whole};
use crate::plan::read_plan;
use crate::scenario::FunctionShots;
use crate::shards::{Folder, estimate};
use crate::telling::amounts::{bytes, duration};
use crate::telling::count;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The time for which banks are played to time them.
const PATIENCE: Duration = Duration::from_secs(2);

/// Flags of `railproof slurm`.
#[derive(Debug, clap::Args)]
pub struct SlurmArgs {
    /// The plan, from `railproof plan`, where the nodes see it too.
    #[arg(value_name = "PLAN.json")]
    pub plan: PathBuf,
    /// Folder of the results, where the nodes see it too.
    #[arg(long, value_name = "DIR")]
    pub into: PathBuf,
    /// Minutes that a task should take on nodes as fast as this machine.
    #[arg(long, value_name = "M", default_value_t = 10.0, value_parser = minutes)]
    pub minutes: f64,
    /// How many tasks, instead of how many minutes each should take.
    #[arg(long, value_name = "N", conflicts_with = "minutes",
          value_parser = clap::value_parser!(u64).range(1..=MOST_TASKS))]
    pub tasks: Option<u64>,
    /// Cores of a task.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..=1024))]
    pub cores: u32,
    /// The most tasks that run at once; as many as the cluster allows unless given.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..))]
    pub at_once: Option<u32>,
    /// The partition; the cluster's default unless given.
    #[arg(long, value_name = "NAME")]
    pub partition: Option<String>,
    /// One more option of sbatch for both jobs, such as --account=hall; may be given again.
    #[arg(long, value_name = "OPTION", allow_hyphen_values = true)]
    pub extra: Vec<String>,
    /// Folder for the output of the jobs, `DIR.logs` unless given.
    #[arg(long, value_name = "DIR")]
    pub logs: Option<PathBuf>,
    /// The program on the nodes, this one unless given; a name alone is looked up there.
    #[arg(long, value_name = "PATH")]
    pub program: Option<PathBuf>,
    /// Write the script to this file instead of showing it.
    #[arg(long, value_name = "FILE")]
    pub script: Option<PathBuf>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Times the plan's banks and writes or shows the text.
///
/// # Errors
/// A plan that can't be read or played, a folder that holds another plan, names that can't stand in
/// the text, a file that can't be written.
pub fn run(args: &SlurmArgs) -> Result<Exit, Fault> {
    if let Some(script) = &args.script {
        apart_from(script, [args.plan.as_path()])?;
        check_free_for_file(script)?;
    }
    let plan = read_plan(&args.plan)?;
    let into = absolute(&args.into)?;
    Folder::new(&into).check(&plan)?;
    let extra = args.extra.iter().map(|line| extra_line(line)).collect::<Result<Vec<_>, _>>()?;
    let cores = args.cores;
    let shards: Vec<u64> = (0..plan.shards()).collect();
    let alone = estimate(&plan, &shards, 1, PATIENCE, &FunctionShots).map_err(Fault::bad_input)?;
    let work = Work { shards: plan.shards(), thread_seconds: alone.time.as_secs_f64() };
    let grouping = match args.tasks {
        Some(tasks) => Grouping::of_tasks(work, cores, tasks),
        None => Grouping::of_minutes(work, cores, args.minutes),
    };
    let jobs = Jobs {
        program: &program(args.program.as_deref())?,
        plan: &absolute(&args.plan)?,
        into: &into,
        logs: &match &args.logs {
            Some(logs) => absolute(logs)?,
            None => beside(&into)?,
        },
        grouping,
        cores,
        at_once: args.at_once,
        partition: args.partition.as_deref(),
        extra: &extra,
    };
    let text = jobs.text()?;
    let Some(script) = &args.script else {
        print(&text)?;
        return Ok(Exit::Held);
    };
    write_whole(script, |out| out.write_all(text.as_bytes()))?;
    print(&format!(
        "{} of about {} on {}, ended after {} minutes at the latest; about {} of results\n\
         Submit the sweep and its merge with: bash {}\n",
        count(grouping.tasks, "task", "tasks"),
        duration(
            Duration::try_from_secs_f64(60.0 * grouping.task_minutes).unwrap_or(Duration::MAX)
        ),
        count(cores, "core", "cores"),
        grouping.limit_minutes,
        bytes(alone.disk),
        tame(&script.display().to_string()),
    ))?;
    Ok(Exit::Held)
}

/// A number of minutes above 0.
fn minutes(written: &str) -> Result<f64, String> {
    match written.parse() {
        Ok(minutes) if minutes > 0.0 && f64::is_finite(minutes) => Ok(minutes),
        _ => Err("a number of minutes above 0".to_owned()),
    }
}

fn absolute(path: &Path) -> Result<PathBuf, Fault> {
    std::path::absolute(path)
        .map_err(|error| Fault::bad_input(format!("`{}`: {error}", path.display())))
}

/// The program as the nodes find it.
fn program(given: Option<&Path>) -> Result<PathBuf, Fault> {
    match given {
        Some(name) if name.components().count() == 1 => Ok(name.to_owned()),
        Some(path) => absolute(path),
        None => std::env::current_exe().map_err(|error| {
            Fault::new(Exit::CouldNotFinish, format!("can't tell where this program is: {error}"))
                .with_hint("give it with --program")
        }),
    }
}

/// The folder for logs beside that of the results, in which only results may be.
fn beside(into: &Path) -> Result<PathBuf, Fault> {
    let Some(name) = into.file_name() else {
        return Err(Fault::bad_input(format!(
            "`{}` has no name to name the logs after",
            into.display()
        ))
        .with_hint("give a folder with --logs"));
    };
    let mut name = name.to_owned();
    name.push(".logs");
    Ok(into.with_file_name(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn logs_go_beside_the_results() {
        assert_eq!(beside(Path::new("/out/night")).unwrap(), Path::new("/out/night.logs"));
        assert_eq!(beside(Path::new("/")).unwrap_err().exit, Exit::BadInput);
    }

    #[test]
    fn a_program_is_found_from_everywhere() {
        assert_eq!(program(Some(Path::new("railproof"))).unwrap(), Path::new("railproof"));
        assert!(program(Some(Path::new("bin/railproof"))).unwrap().is_absolute());
        assert!(program(None).unwrap().is_absolute());
    }

    #[test]
    fn minutes_are_above_nothing() {
        assert_eq!(minutes("0.5"), Ok(0.5));
        for wrong in ["0", "-1", "nan", "inf", "ten"] {
            assert!(minutes(wrong).is_err(), "{wrong}");
        }
    }
}
