//! The text of the two jobs, and the options that it refuses.

use super::super::{Grouping, Jobs, Work, extra_line};
use crate::exit::Exit;
use std::path::Path;

pub(super) fn jobs() -> Jobs<'static> {
    Jobs {
        program: Path::new("/opt/railproof"),
        plan: Path::new("/data/night.json"),
        into: Path::new("/data/night"),
        logs: Path::new("/data/night.logs"),
        grouping: Grouping::of_tasks(Work { shards: 30, thread_seconds: 9000.0 }, 2, 4),
        cores: 2,
        at_once: None,
        partition: None,
        extra: &[],
    }
}

fn count(text: &str, line: &str) -> usize {
    text.lines().filter(|other| *other == line).count()
}

#[test]
fn the_head_says_what_slurm_must_know() {
    let text = jobs().text().unwrap();
    for line in [
        "#SBATCH --array=1-4",
        "#SBATCH --cpus-per-task=2",
        // 8 shards of 300 s on two cores: 20 minutes; three times that and two.
        "#SBATCH --time=62",
        "#SBATCH --signal=B:USR1@60",
    ] {
        assert_eq!(count(&text, line), 1, "{line}\n{text}");
    }
    assert_eq!(count(&text, "#SBATCH --requeue"), 2);
}

#[test]
fn wishes_reach_both_jobs() {
    let extra = [extra_line("--account=hall").unwrap(), extra_line("#SBATCH -q long").unwrap()];
    let jobs = Jobs { partition: Some("night"), extra: &extra, at_once: Some(3), ..jobs() };
    let text = jobs.text().unwrap();
    assert_eq!(count(&text, "#SBATCH --array=1-4%3"), 1);
    for line in ["#SBATCH --partition=night", "#SBATCH --account=hall", "#SBATCH -q long"] {
        assert_eq!(count(&text, line), 2, "{line}\n{text}");
    }
}

#[test]
fn what_cannot_be_a_line_is_refused() {
    for wrong in [
        "account=hall",
        "",
        "#SBATCH",
        "--comment=a\nrm -rf /",
        "--comment=\u{7}",
        "--array=1-9",
        "--arr 1-9",
        "-a1-9",
        "-a 1-9",
        "#SBATCH --dependency=afterany:1",
        "-D/tmp",
        "--output=here.log",
        "--signal=TERM@10",
    ] {
        let fault = extra_line(wrong).unwrap_err();
        assert_eq!(fault.exit, Exit::BadInput, "{wrong}");
    }
    for fine in
        ["--account=hall", "-A hall", "--mem=4G", "--distribution=block", "--open-mode=append"]
    {
        assert_eq!(extra_line(fine).unwrap(), format!("#SBATCH {fine}"));
    }
}

#[test]
fn names_with_line_breaks_are_refused() {
    let broken = Path::new("/data/a\nb");
    for (jobs, what) in [
        (Jobs { program: broken, ..jobs() }, "program"),
        (Jobs { plan: broken, ..jobs() }, "plan"),
        (Jobs { into: broken, ..jobs() }, "results"),
        (Jobs { logs: broken, ..jobs() }, "logs"),
    ] {
        let fault = jobs.text().unwrap_err();
        assert_eq!(fault.exit, Exit::BadInput);
        assert!(fault.message.contains(what), "{fault}");
    }
    for wrong in ["", "two words", "a\nb", "a\"b", "a'b", "a#b"] {
        assert!(Jobs { partition: Some(wrong), ..jobs() }.text().is_err(), "{wrong:?}");
    }
}

#[cfg(unix)]
#[test]
fn paths_that_are_no_text_are_refused() {
    use std::os::unix::ffi::OsStrExt;
    let path = Path::new(std::ffi::OsStr::from_bytes(b"/data/\xff"));
    let fault = Jobs { into: path, ..jobs() }.text().unwrap_err();
    assert!(fault.message.contains("UTF-8"), "{fault}");
}
