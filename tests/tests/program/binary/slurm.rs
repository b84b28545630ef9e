//! `railproof slurm`: the text, where it goes, and what is refused. What the text does is tested with
//! stand-ins beside it, and on a real cluster by `tests/cluster/slurm.sh`.

use super::support::{Place, scenario};
use std::process::Command;

/// A folder with a plan in it.
fn place() -> Place {
    let planned = scenario("2.2", "").replace("local map = compare(", "plan(");
    let place = Place::with(&planned);
    place.run(&["plan", "bank.lua", "--out", "the plan.json"]).code(0);
    place
}

#[test]
fn the_text_names_everything_from_the_root() {
    let place = place();
    let shown =
        place.run(&["slurm", "the plan.json", "--into", "out/night", "--tasks", "3"]).code(0);
    for (name, file) in
        [("plan", "the plan.json"), ("into", "out/night"), ("logs", "out/night.logs")]
    {
        let line = format!("{name}='{}'", place.path(file).display());
        assert!(shown.out.lines().any(|other| other == line), "{line}\n{}", shown.out);
    }
    // Twelve points are one shard, which is one task.
    assert!(shown.out.contains("\n#SBATCH --array=1-1\n"), "{}", shown.out);
    // Writing it makes no folders; running it does.
    assert!(!place.path("out").exists());

    let said = place
        .run(&["slurm", "the plan.json", "--into", "out/night", "--tasks", "3", "--script", "s.sh"])
        .code(0);
    assert!(said.out.starts_with("1 task of about "), "{}", said.out);
    assert!(said.out.contains("bash s.sh"), "{}", said.out);
    let untimed = |text: &str| -> Vec<String> {
        text.lines().filter(|line| !line.contains("minutes")).map(str::to_owned).collect()
    };
    assert_eq!(untimed(&place.read("s.sh")), untimed(&shown.out));
    let read = Command::new("bash").arg("-n").arg(place.path("s.sh")).status().unwrap();
    assert!(read.success());
}

#[test]
fn what_cannot_be_submitted_is_refused() {
    let place = place();
    for (wrong, why) in [
        (&["bank.lua", "--into", "out"][..], "this is not a plan"),
        (&["the plan.json", "--into", "a\nb"], "line break"),
        (&["the plan.json", "--into", "out", "--extra", "--array=1-9"], "--array"),
        (&["the plan.json", "--into", "out", "--extra", "hall"], "not an option"),
        (&["the plan.json", "--into", "out", "--partition", "two words"], "--partition"),
        (&["the plan.json", "--into", "out", "--minutes", "0"], "minutes"),
        (&["the plan.json", "--into", "out", "--minutes", "5", "--tasks", "2"], "--tasks"),
        (&["the plan.json", "--into", "out", "--tasks", "1001"], "1000"),
        (&["the plan.json", "--into", "/"], "--logs"),
    ] {
        let mut arguments = vec!["slurm"];
        arguments.extend(wrong);
        let ended = place.run(&arguments).code(2);
        assert!(ended.err.contains(why), "{wrong:?}: {}", ended.err);
        assert_eq!(ended.out, "");
    }
}

/// Noticed before a night in the queue, not after.
#[test]
fn a_folder_of_another_plan_is_refused() {
    let place = place();
    place.run(&["sweep", "the plan.json", "--into", "out"]).code(0);
    place.run(&["slurm", "the plan.json", "--into", "out"]).code(0);
    let other = scenario("2.3", "").replace("local map = compare(", "plan(");
    place.write("bank.lua", &other);
    place.run(&["plan", "bank.lua", "--out", "other.json"]).code(0);
    let refused = place.run(&["slurm", "other.json", "--into", "out"]).code(2);
    assert!(refused.err.contains("another sweep"), "{}", refused.err);
}
