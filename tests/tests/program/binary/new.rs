//! A folder to begin with, and the commands that it advises.

use super::support::{Place, ProgramRun};

#[test]
fn the_advised_commands_play_the_new_folder_for_every_shipped_table() {
    for table in ["nine-foot", "eight-foot", "home-eight-foot", "seven-foot", "harbour-hall"] {
        let place = Place::new();
        let begun = place.run(&["new", "lesson", "--equipment", table]).code(0);
        let advised: Vec<Vec<&str>> = begun
            .out
            .lines()
            .filter_map(|line| line.strip_prefix("  railproof "))
            .map(|line| line.split(' ').collect())
            .collect();
        assert_eq!(advised.len(), 3, "{begun:?}");
        for command in advised {
            let ended = place.run(&command);
            // The first claim is common practice for a big table; on another it may fail.
            assert!(matches!(ended.code, Some(0 | 1)), "{table}: {ended:?}");
            assert!(ended.err.is_empty(), "{table}: {ended:?}");
            assert!(command[0] != "shot" || ended.out.contains("My table"), "{table}: {ended:?}");
        }
        assert!(place.read("lesson/out/mine/run.json").contains("My table"), "{table}");
        assert!(place.files("lesson/out/mine").contains_key("map.png"), "{table}");
        assert!(place.files("lesson/out/shot").contains_key("shot.png"), "{table}");
        let page = place.read("lesson/out/lesson/page.svg");
        for words in [
            "Where to start for contact 2",
            "A club player who reads contact and start by eye makes it",
            "not to scale",
        ] {
            assert!(page.contains(words), "{table}: no {words:?}");
        }
    }
}

/// Whoever runs the program by Cargo, or by its path, is told commands that begin so.
#[cfg(unix)]
#[test]
fn commands_are_told_as_the_program_was_called() {
    use std::os::unix::process::CommandExt;
    let place = Place::new();
    let called = |folder: &str, name: &str, by_cargo: bool| {
        let mut command = place.command(&["new", folder]);
        command.arg0(name);
        if by_cargo {
            command.env("CARGO_MANIFEST_DIR", "scripting");
        }
        let begun = ProgramRun::from(command.output().unwrap()).code(0);
        let note = place.read(&format!("{folder}/shot.yaml"));
        let mut wrong = place.command(&["shot", "mine.lua"]);
        wrong.arg0(name);
        if by_cargo {
            wrong.env("CARGO_MANIFEST_DIR", "scripting");
        }
        let wrong = ProgramRun::from(wrong.output().unwrap()).code(2);
        (begun.out, note, wrong.err)
    };
    for (folder, name, by_cargo, told) in [
        ("a", "target/release/railproof", true, "cargo run --release --"),
        ("b", "target/release/railproof", false, "target/release/railproof"),
        ("c", "railproof", false, "railproof"),
    ] {
        let (begun, note, wrong) = called(folder, name, by_cargo);
        assert!(begun.contains(&format!("  {told} run {folder}/mine.lua\n")), "{begun}");
        assert!(note.contains(&format!("`{told} words place` lists")), "{note}");
        assert!(wrong.contains(&format!(": {told} run mine.lua")), "{wrong}");
    }
}

#[test]
fn two_folders_keep_their_pictures_apart() {
    let place = Place::new();
    for folder in ["lesson", "tuesday"] {
        let begun = place.run(&["new", folder]).code(0);
        assert!(begun.out.contains(&format!(" --into {folder}/out/shot\n")), "{begun:?}");
    }
    place.run(&["run", "lesson/mine.lua", "tuesday/mine.lua"]).code(0);
    for folder in ["lesson/out/mine", "tuesday/out/mine"] {
        assert!(place.files(folder).contains_key("map.png"), "{folder}");
    }
    assert!(!place.path("out").exists());
}

#[test]
fn the_picture_of_a_bank_has_the_cautions_of_its_answer() {
    let place = Place::new();
    let asked =
        ["bank", "--contact", "2", "--off-rail", "12 in", "--roll", "0.5", "--speed", "3 m/s"];
    let ended = place.run(&[&asked[..], &["--into", "out"]].concat()).code(0);
    assert!(ended.out.contains("\nCaution: balls hit at 5 m/s (11 mph)"), "{ended:?}");
    assert!(place.read("out/bank.svg").contains("Caution: balls hit at 5 m/s (11 mph)"));
}

#[test]
fn a_new_folder_writes_over_nothing() {
    let place = Place::new();
    place.write("lesson/shot.yaml", "mine");
    let refused = place.run(&["new", "lesson"]).code(2);
    assert!(refused.err.contains("`lesson/shot.yaml` already exists"), "{refused:?}");
    assert_eq!(place.files("lesson").len(), 1);
    assert_eq!(place.read("lesson/shot.yaml"), "mine");
    let refused = place.run(&["new", "other", "--on", "cushions/slick-nose"]).code(2);
    assert!(refused.err.contains("there is no shipped table `cushions/slick-nose`"), "{refused:?}");
    assert!(!place.path("other").exists());
}

#[test]
fn advice_for_a_name_with_spaces_is_one_word_each() {
    let place = Place::new();
    let begun = place.run(&["new", "my lesson"]).code(0);
    assert!(begun.out.contains(" run 'my lesson/mine.lua'\n"), "{begun:?}");
}

/// A table of one's own of a strange size is cautioned about by every command that plays on it.
#[test]
fn an_own_table_of_a_strange_size_is_cautioned_about() {
    let place = Place::new();
    place.run(&["new", "lesson"]).code(0);
    let said = |command: &[&str]| place.run(command).out.contains("length is not about twice its");
    let commands: [&[&str]; 4] = [
        &["run", "lesson/mine.lua"],
        &["shot", "lesson/shot.yaml"],
        &["bank", "--contact", "2", "--equipment", "lesson/my-table.yaml", "--speed", "medium"],
        &[
            "bank",
            "--contact",
            "2",
            "--equipment",
            "lesson/my-table.yaml",
            "--json",
            "--speed",
            "3 m/s",
        ],
    ];
    assert!(commands.iter().all(|command| !said(command)));
    let table = place.read("lesson/my-table.yaml");
    assert!(table.contains("width: 50 in"), "{table}");
    place.write("lesson/my-table.yaml", &table.replace("width: 50 in", "width: 44 in"));
    for command in commands {
        assert!(said(command), "{command:?}");
    }
}
