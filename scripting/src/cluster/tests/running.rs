//! The text as bash runs it, with stand-ins for Slurm's commands and for the program.

use super::super::Jobs;
use super::text::jobs;
use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A folder whose name a shell would trip over, with stand-ins in `bin`.
struct Stage {
    _kept: tempfile::TempDir,
    folder: PathBuf,
}

/// `sbatch` keeps what it is given, numbered by its calls, and answers as with several clusters.
const SBATCH: &str = r#"#!/usr/bin/env bash
number=1
while [[ -e $KEPT/job-$number ]]; do number=$((number + 1)); done
cat >"$KEPT/job-$number"
printf '%s\n' "$@" >"$KEPT/options-$number"
echo "4$number;hall"
"#;

/// `scontrol` keeps what it is asked.
const SCONTROL: &str = r#"#!/usr/bin/env bash
printf '%s\n' "$*" >>"$KEPT/asked"
"#;

/// Ends as told; told `wait`, it waits for SIGTERM and ends interrupted; `unready`, SIGTERM ends it.
const PROGRAM: &str = r#"#!/usr/bin/env bash
printf '%s\n' "$@" >"$KEPT/arguments"
case $END in
  wait | unready)
    if [[ $END == wait ]]; then trap 'exit 5' TERM; fi
    : >"$KEPT/waiting"
    while :; do sleep 0.02; done
    ;;
  kill) kill -KILL $$ ;;
  *) exit "$END" ;;
esac
"#;

impl Stage {
    fn new() -> Self {
        let kept = tempfile::tempdir().unwrap();
        let folder = kept.path().join("it's $HOME `id` \"50%\" \\ & more");
        fs::create_dir_all(folder.join("bin")).unwrap();
        for (name, text) in [("sbatch", SBATCH), ("scontrol", SCONTROL), ("program", PROGRAM)] {
            let path = folder.join("bin").join(name);
            fs::write(&path, text).unwrap();
            fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
        }
        // Sleeping a minute after a requeue is for Slurm, which ends it.
        let sleep = folder.join("bin/sleep");
        fs::write(&sleep, "#!/bin/sh\n[ \"$1\" = 60 ] || exec /bin/sleep \"$1\"\n").unwrap();
        fs::set_permissions(&sleep, fs::Permissions::from_mode(0o755)).unwrap();
        Self { _kept: kept, folder }
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.at(name)).unwrap_or_default()
    }

    fn bash(&self) -> Command {
        let mut bash = Command::new("bash");
        let path = std::env::var("PATH").unwrap();
        bash.env("PATH", format!("{}:{path}", self.at("bin").display()))
            .env("KEPT", &self.folder)
            .env_remove("SLURM_RESTART_COUNT");
        bash
    }

    /// Submits the jobs, which leaves `job-1` and `job-2` with their options.
    fn submit(&self) -> Output {
        let (program, plan) = (self.at("bin/program"), self.at("night.json"));
        let (into, logs) = (self.at("night"), self.at("logs"));
        let jobs = Jobs { program: &program, plan: &plan, into: &into, logs: &logs, ..jobs() };
        fs::write(self.at("submit.sh"), jobs.text().unwrap()).unwrap();
        let output = self.bash().arg(self.at("submit.sh")).output().unwrap();
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        output
    }

    /// Task 3 of the array, with how the program is to end and how often Slurm has restarted it.
    fn task(&self, end: &str, restarts: u32) -> Command {
        let mut bash = self.bash();
        bash.arg(self.at("job-1"))
            .env("END", end)
            .env("SLURM_ARRAY_TASK_ID", "3")
            .env("SLURM_JOB_ID", "77");
        if restarts > 0 {
            bash.env("SLURM_RESTART_COUNT", restarts.to_string());
        }
        bash
    }

    fn end_of_task(&self, end: &str, restarts: u32) -> (Option<i32>, String) {
        let _ = fs::remove_file(self.at("asked"));
        let output = self.task(end, restarts).output().unwrap();
        (output.status.code(), self.read("asked"))
    }
}

fn lines(path: &Path) -> Vec<String> {
    fs::read_to_string(path).unwrap().lines().map(str::to_owned).collect()
}

#[test]
fn both_jobs_are_submitted_and_the_merge_waits() {
    let stage = Stage::new();
    let output = stage.submit();
    let logs = format!("--chdir={}", stage.at("logs").display());
    assert_eq!(lines(&stage.at("options-1")), ["--parsable", &logs]);
    assert_eq!(
        lines(&stage.at("options-2")),
        ["--parsable", &logs, "--dependency=afterok:41", "--kill-on-invalid-dep=yes"]
    );
    assert!(stage.at("logs").is_dir());
    let said = String::from_utf8(output.stdout).unwrap();
    assert!(said.starts_with("sweep: job 41, 4 tasks; merge: job 42; logs in "), "{said}");
    for job in ["job-1", "job-2"] {
        assert!(stage.read(job).starts_with("#!/usr/bin/env bash\n#SBATCH "));
    }
}

#[test]
fn the_program_gets_paths_as_they_are() {
    let stage = Stage::new();
    stage.submit();
    assert_eq!(stage.end_of_task("0", 0), (Some(0), String::new()));
    let (plan, into) = (stage.at("night.json"), stage.at("night"));
    let (plan, into) = (plan.to_str().unwrap(), into.to_str().unwrap());
    assert_eq!(
        lines(&stage.at("arguments")),
        ["sweep", plan, "--shard", "3/4", "--into", into, "--threads", "2"]
    );
    let merge = stage.bash().arg(stage.at("job-2")).env("END", "3").status().unwrap();
    assert_eq!(merge.code(), Some(3));
    assert_eq!(lines(&stage.at("arguments")), ["merge", into]);
}

/// Only what another try can put right is tried again, and not for ever.
#[test]
fn a_killed_task_goes_back_in_the_queue() {
    let stage = Stage::new();
    stage.submit();
    let asked = "requeue 77\n".to_owned();
    assert_eq!(stage.end_of_task("kill", 0), (Some(137), asked.clone()));
    assert_eq!(stage.end_of_task("kill", 4), (Some(137), asked));
    assert_eq!(stage.end_of_task("kill", 5), (Some(137), String::new()));
    for end in [1, 2, 3, 5] {
        assert_eq!(stage.end_of_task(&end.to_string(), 0), (Some(end), String::new()));
    }
}

/// Slurm's notice before the limit ends the sweep in good order and asks for another try; being
/// cancelled does not.
#[test]
fn signals_reach_the_sweep() {
    for (end, signal, code, asked) in [
        ("wait", "USR1", 5, "requeue 77\n"),
        ("unready", "USR1", 143, "requeue 77\n"),
        ("wait", "TERM", 5, ""),
        ("unready", "TERM", 143, ""),
    ] {
        let stage = Stage::new();
        stage.submit();
        let mut task = stage.task(end, 0).spawn().unwrap();
        let since = std::time::Instant::now();
        while !stage.at("waiting").exists() {
            assert!(since.elapsed().as_secs() < 120, "{end} {signal}: it never waited");
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        let kill = Command::new("bash")
            .args(["-c", "kill -s \"$0\" \"$1\"", signal, &task.id().to_string()])
            .status();
        assert!(kill.unwrap().success());
        assert_eq!(task.wait().unwrap().code(), Some(code), "{end} {signal}");
        assert_eq!(stage.read("asked"), asked, "{end} {signal}");
    }
}
