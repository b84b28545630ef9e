//! Every flag with a value of a wrong kind: its help, obeyed, works.

use super::support::Place;

/// A value that the help of a refusal gives: in back quotes, after a colon, or in a list of words.
fn advised(flag: &str, wrong: &str, err: &str) -> String {
    let help = err.lines().find_map(|line| {
        let line = line.trim();
        line.strip_prefix("Help: ").or(line.strip_prefix("[possible values: "))
    });
    // Without help of its own, the message lists the words.
    let text =
        help.map_or_else(|| err.split(" must be ").nth(1).unwrap_or(err).to_owned(), str::to_owned);
    if let Some(units) = text.strip_prefix("its unit is one of: ") {
        let number: String = wrong.chars().take_while(|letter| !letter.is_alphabetic()).collect();
        return format!("{} {}", number.trim(), units.split(',').next().unwrap_or_default());
    }
    let quoted = text.split('`').nth(1).map(str::to_owned);
    let listed = || text.rsplit(": ").next().and_then(|list| list.split([',', ']']).next());
    quoted.or_else(|| listed().map(str::to_owned)).unwrap_or_else(|| panic!("{flag}: {err}"))
}

/// Gives a flag each wrong value, and then the one that the refusal advises.
#[track_caller]
fn obeyed(place: &Place, command: &[&str], flag: &str, wrong: &[&str]) {
    for wrong in wrong {
        let ask = |value: &str| place.run(&[command, &[flag, value]].concat());
        let refusal = ask(wrong).code(2);
        assert!(refusal.err.contains(flag), "{flag} {wrong}: {refusal:#?}");
        let value = advised(flag, wrong, &refusal.err);
        let ended = ask(&value);
        assert_eq!(ended.code, Some(0), "{flag} {wrong}, then {value}: {refusal:#?} {ended:#?}");
    }
}

#[test]
fn every_flag_of_a_bank_is_helped() {
    let place = Place::new();
    let bank = ["bank", "--contact", "2", "--speed", "3 m/s"];
    for flag in ["--start", "--slope", "--offset", "--roll", "--running-side"] {
        obeyed(&place, &bank, flag, &["running", "0.3 kg", "0.3x"]);
    }
    for flag in ["--off-rail", "--aim-error"] {
        obeyed(&place, &bank, flag, &["far", "0.2", "0.2 kg"]);
    }
    for flag in ["--equipment", "--cushion", "--rail", "--pocket", "--rail-model", "--reading"] {
        obeyed(&place, &bank, flag, &["quick"]);
    }
    obeyed(&place, &["bank", "--speed", "firm"], "--contact", &["two", "2 in", "2x"]);
    obeyed(&place, &["bank", "--contact", "2"], "--speed", &["quick", "3", "3 kg", "firmly"]);
}

#[test]
fn every_flag_of_the_other_commands_is_helped() {
    let place = Place::with("print(1)\n");
    place.write("all/one.lua", "print(1)\n");
    place.run(&["new", "mine"]).code(0);
    obeyed(&place, &["shot", "mine/shot.yaml"], "--friction-law", &["slick"]);
    for command in [&["run", "bank.lua"][..], &["test", "all"]] {
        for wrong in ["quick", "0", "2.5"] {
            let err = place.run(&[command, &["--threads", wrong]].concat()).code(2).err;
            assert!(err.contains("give a whole number from 1 to 1024, such as 2"), "{err}");
        }
        place.run(&[command, &["--threads", "2"]].concat()).code(0);
        obeyed(&place, command, "--color", &["blue"]);
    }
    let err = place.run(&["new", "other", "--equipment", "my"]).code(2).err;
    let table = err.split("the tables are: ").nth(1).unwrap().split(',').next().unwrap();
    place.run(&["new", "other", "--equipment", table]).code(0);
}

#[test]
fn files_and_folders_in_each_others_place_are_bad_input() {
    let place = Place::with("print(1)\n");
    place.write("all/one.lua", "print(1)\n");
    place.run(&["new", "mine"]).code(0);
    place.write("file", "mine");
    for command in [
        &["run", "bank.lua", "--into", "file"][..],
        &["run", "bank.lua", "--into", "file/below"],
        &["bank", "--contact", "2", "--into", "file"],
        &["shot", "mine/shot.yaml", "--into", "file"],
        &["new", "file"],
    ] {
        let ended = place.run(command).code(2);
        assert!(ended.err.contains("`file` is a file, where a folder should be"), "{ended:#?}");
        assert_eq!(place.read("file"), "mine");
    }
    let ended = place.run(&["test", "all", "--junit", "all"]).code(2);
    assert!(ended.err.contains("`all` is a folder, where a file should be written"), "{ended:#?}");
    for (command, wanted) in [
        (&["run", "bank"][..], "did you mean `bank.lua`?"),
        (&["run", "all"], "railproof test all"),
        (&["test", "al"], "that folder has `all`"),
    ] {
        let ended = place.run(command).code(2);
        assert!(ended.err.contains(wanted), "{ended:#?}");
    }
}
