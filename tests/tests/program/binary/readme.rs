//! The commands of the README, run as they are printed, in their order.

use super::support::{Place, words};

const README: &str = include_str!("../../../../README.md");
const RUN: &str = "cargo run --release -- ";

/// The lines between fences.
fn commands() -> Vec<&'static str> {
    README
        .split("```")
        .skip(1)
        .step_by(2)
        .flat_map(str::lines)
        .filter(|line| !line.is_empty())
        .collect()
}

#[cfg(unix)]
fn place() -> Place {
    let place = Place::new();
    let scenarios = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios");
    // A link would lead out of the folder that a scenario may read.
    place.copy_folder(scenarios, "scenarios");
    place
}

#[cfg(unix)]
#[test]
fn every_command_does_what_it_says() {
    let place = place();
    let mut run = 0;
    for command in commands() {
        let Some(arguments) = command.strip_prefix(RUN) else {
            // The test that runs this.
            assert_eq!(command, "cargo test --release --workspace");
            continue;
        };
        // The shell writes what is printed into a file.
        let (arguments, file) = match arguments.split_once(" > ") {
            Some((arguments, file)) => (arguments, Some(file)),
            None => (arguments, None),
        };
        let arguments = words(arguments);
        // Every scenario is played by a step of its own in `.ci/run`, with these words.
        if arguments[0] != "test" {
            let ended = place.run(&arguments.iter().map(String::as_str).collect::<Vec<_>>());
            let ended = ended.code(0);
            if let Some(file) = file {
                place.write(file, &ended.out);
            }
            run += 1;
        }
    }
    assert!(run >= 4, "{run}");
}

#[cfg(unix)]
#[test]
fn every_change_of_the_first_question_is_answered() {
    let place = place();
    let bank =
        commands().into_iter().find_map(|line| line.strip_prefix(RUN)?.strip_prefix("bank "));
    let bank = words(bank.unwrap());
    let mut asked = 0;
    for line in README.lines().filter_map(|line| line.strip_prefix("- `--")) {
        let change = words(&format!("--{}", line.split('`').next().unwrap()));
        let mut arguments = vec!["bank".to_owned()];
        for pair in bank.chunks(2).filter(|pair| pair[0] != change[0]) {
            arguments.extend_from_slice(pair);
        }
        arguments.extend(change);
        place.run(&arguments.iter().map(String::as_str).collect::<Vec<_>>()).code(0);
        asked += 1;
    }
    assert!(asked >= 3, "{asked}");
}
