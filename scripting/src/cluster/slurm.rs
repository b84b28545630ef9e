//! The text that submits a sweep to Slurm: an array of tasks and the merge that waits for them.
//!
//! Options of `sbatch` as its manual has them (Slurm 22.05): one text with both jobs, so that nothing
//! else needs to be kept beside it.

use super::grouping::Grouping;
use super::quote::{quoted, quoted_path};
use crate::fault::Fault;
use crate::telling::count;
use std::path::Path;

/// Options that this text depends on, so nobody else may set them.
const OURS: [&str; 10] = [
    "--array",
    "-a",
    "--dependency",
    "-d",
    "--signal",
    "--chdir",
    "-D",
    "--output",
    "-o",
    "--wrap",
];

/// Minutes the merge may take: it reads and writes what is there once.
const MERGE_LIMIT_MINUTES: u64 = 60;

/// The greatest number of times that a task asks to be put back in the queue.
const MOST_RESTARTS: u32 = 5;

/// Everything about the two jobs. Paths are given as the nodes see them.
#[derive(Debug, Clone)]
pub struct Jobs<'a> {
    /// The program.
    pub program: &'a Path,
    /// The plan's file.
    pub plan: &'a Path,
    /// The results folder, shared by the nodes.
    pub into: &'a Path,
    /// The folder for what the jobs print, shared by the nodes.
    pub logs: &'a Path,
    /// Tasks and their time.
    pub grouping: Grouping,
    /// Cores of a task.
    pub cores: u32,
    /// The most tasks that run at once.
    pub at_once: Option<u32>,
    /// The partition; the site's default unless given.
    pub partition: Option<&'a str>,
    /// More `#SBATCH` lines for both jobs, as from [`extra_line`].
    pub extra: &'a [String],
}

impl Jobs<'_> {
    /// The text for `bash`.
    ///
    /// # Errors
    /// For paths and names that can't stand in it.
    pub fn text(&self) -> Result<String, Fault> {
        let Grouping { tasks, most_shards, task_minutes, limit_minutes } = self.grouping;
        let program = quoted_path(self.program, "the program's path")?;
        let plan = quoted_path(self.plan, "the plan's path")?;
        let into = quoted_path(self.into, "the results folder")?;
        let logs = quoted_path(self.logs, "the folder for logs")?;
        let version = env!("CARGO_PKG_VERSION");
        let array = match self.at_once {
            Some(most) => format!("1-{tasks}%{most}"),
            None => format!("1-{tasks}"),
        };
        let mut both = String::new();
        if let Some(partition) = self.partition {
            both.push_str(&directive("--partition", partition)?);
        }
        for line in self.extra {
            both.push_str(line);
            both.push('\n');
        }
        let cores = self.cores;
        let (tasks_told, shards) =
            (count(tasks, "task", "tasks"), count(most_shards, "shard", "shards"));
        Ok(format!(
            r#"#!/usr/bin/env bash
# A sweep in {tasks_told} on Slurm, each up to {shards} or about {task_minutes:.1} minutes, and the
# merge that waits for them. Written by railproof {version}; submit both with: bash THIS_FILE
# Submitting again goes on from the shards that are there.
set -euo pipefail

logs={logs}

sweep_job() {{
  cat <<'END_OF_JOB'
#!/usr/bin/env bash
#SBATCH --job-name=railproof-sweep
#SBATCH --array={array}
#SBATCH --ntasks=1
#SBATCH --cpus-per-task={cores}
#SBATCH --time={limit_minutes}
#SBATCH --requeue
#SBATCH --signal=B:USR1@60
#SBATCH --output=sweep-%a.log
#SBATCH --open-mode=append
{both}set -u
program={program}
plan={plan}
into={into}

# The sweep runs beside this shell, so that the shell hears signals and passes them on. It then ends
# in good order, and what it has finished stays.
told= time_is_up= looks=0
trap 'time_is_up=yes told=yes' USR1 # Slurm's notice, a minute before the limit
trap told=yes TERM INT

"$program" sweep "$plan" --shard "$SLURM_ARRAY_TASK_ID/{tasks}" --into "$into" --threads {cores} &
sweep=$!
# Looking every second misses no signal, as a wait would that begins just after one. If it does not end, it is told again.
while kill -0 "$sweep" 2>/dev/null; do
  if [[ $told ]] && ((looks++ % 30 == 0)); then kill -TERM "$sweep" 2>/dev/null; fi
  sleep 1
done
wait "$sweep"
status=$?

# Killed (128 + 9), as a node does that runs out of memory, or ended (5, or 128 + 15 before it has begun)
# because time is up: go on in another try, but not for ever.
if [[ $status == 137 || ( $time_is_up && ( $status == 5 || $status == 143 ) ) ]]; then
  if ((${{SLURM_RESTART_COUNT:-0}} < {MOST_RESTARTS})) && scontrol requeue "$SLURM_JOB_ID"; then
    sleep 60 # until Slurm takes this try away
  fi
fi
exit "$status"
END_OF_JOB
}}

merge_job() {{
  cat <<'END_OF_JOB'
#!/usr/bin/env bash
#SBATCH --job-name=railproof-merge
#SBATCH --ntasks=1
#SBATCH --time={MERGE_LIMIT_MINUTES}
#SBATCH --requeue
#SBATCH --output=merge.log
#SBATCH --open-mode=append
{both}program={program}
into={into}

exec "$program" merge "$into"
END_OF_JOB
}}

mkdir -p -- "$logs"
sweep=$(sweep_job | sbatch --parsable --chdir="$logs")
sweep=${{sweep%%;*}}
# A task that fails for good takes the merge with it, which would otherwise wait for ever.
merge=$(merge_job | sbatch --parsable --chdir="$logs" \
  --dependency="afterok:$sweep" --kill-on-invalid-dep=yes)
echo "sweep: job $sweep, {tasks_told}; merge: job ${{merge%%;*}}; logs in $logs"
"#
        ))
    }
}

/// One line for the head of a job.
fn directive(option: &str, value: &str) -> Result<String, Fault> {
    // What names may hold at a site is its own affair; here they only must stay one word.
    if value.is_empty() || value.contains(|c: char| c.is_whitespace() || "\"'\\#".contains(c)) {
        return Err(Fault::bad_input(format!("{option} can't be {value:?}")));
    }
    quoted(value, option)?;
    Ok(format!("#SBATCH {option}={value}\n"))
}

/// A line for the head of a job from what a user wrote: an option of `sbatch`, with or without
/// `#SBATCH` in front.
///
/// # Errors
/// For what is no option or holds a line break, and for options that the jobs depend on.
pub fn extra_line(written: &str) -> Result<String, Fault> {
    let option = written.strip_prefix("#SBATCH").unwrap_or(written).trim();
    quoted(option, "an extra line")?;
    if !option.starts_with('-') {
        return Err(Fault::bad_input(format!("`{written}` is not an option of sbatch"))
            .with_hint("write it as --account=hall"));
    }
    let name = option.split(['=', ' ']).next().unwrap_or(option);
    // One-letter options may have their value right behind them.
    let name = match name.get(..2) {
        Some(short) if !short.ends_with('-') => short,
        _ => name,
    };
    // Slurm takes any start of a long option that no other option shares.
    let taken = |ours: &str| ours == name || (name.len() > 3 && ours.starts_with(name));
    if let Some(ours) = OURS.into_iter().find(|ours| taken(ours)) {
        return Err(Fault::bad_input(format!("{ours} can't be set: the jobs depend on it")));
    }
    Ok(format!("#SBATCH {option}"))
}
