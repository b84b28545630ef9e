//! The files that a run leaves in its folder.

use super::support::{HOLDS, Place, ProgramRun, scenario};

const DRAWS: &str = r#"map:draw { x = "speed", y = "contact", panels = "off_rail", name = "holds" }
exact_starts(banks)"#;

fn drawing() -> Place {
    Place::with(&scenario("2.2", &format!("{DRAWS}\n{HOLDS}")))
}

#[test]
fn a_run_leaves_pictures_rows_and_how_they_came_about() {
    let place = drawing();
    let ended = place.run(&["run", "bank.lua"]).code(0);
    assert!(ended.out.contains("out/bank"), "{ended:#?}");
    let files = place.files("out/bank");
    let names: Vec<&str> = files.keys().map(String::as_str).collect();
    assert_eq!(names, ["holds.png", "holds.svg", "rows.csv", "run.json", "starts.csv"]);
    assert!(files["holds.png"].starts_with(b"\x89PNG\r\n"));
    roxmltree::Document::parse(&place.read("out/bank/holds.svg")).unwrap();
    // Three contacts, two distances, two speeds, and the header.
    assert_eq!(place.read("out/bank/rows.csv").lines().count(), 13);
    assert_eq!(place.read("out/bank/starts.csv").lines().count(), 13);
    let run: serde_json::Value = serde_json::from_str(&place.read("out/bank/run.json")).unwrap();
    assert_eq!(run["all_held"], true);
    assert_eq!(run["maps"][0]["rail_models"][0]["name"], "nose-and-cloth");
    assert_eq!(run["expectations"][0]["place"]["line"], 8);
    assert_eq!(run["versions"]["engine"], run["versions"]["railproof"]);
    let listed: Vec<&str> =
        run["files"].as_array().unwrap().iter().filter_map(serde_json::Value::as_str).collect();
    assert_eq!(listed.len(), 4);
    assert!(listed.iter().all(|name| files.contains_key(*name)), "{listed:?}");
}

#[test]
fn the_same_scenario_gives_the_same_bytes_again_and_on_any_number_of_threads() {
    let place = drawing();
    let ended = |into: &str, threads: Option<&str>, flags: &[&str]| {
        let arguments = [&["run", "bank.lua", "--into", into], flags].concat();
        let mut command = place.command(&arguments);
        if let Some(threads) = threads {
            command.env("RAYON_NUM_THREADS", threads);
        }
        let ended = ProgramRun::from(command.output().unwrap()).code(0);
        (ended.out.replace(into, "INTO"), place.files(into))
    };
    let first = ended("one", Some("1"), &[]);
    assert_eq!(first.1.len(), 5);
    assert_eq!(first, ended("two", Some("2"), &[]));
    assert_eq!(first, ended("three", None, &["--threads", "3"]));
    assert_eq!(first, ended("one", None, &[]), "over the same folder");
}

#[test]
fn where_the_scenario_is_called_from_changes_no_byte() {
    let place = drawing();
    place.run(&["run", "bank.lua", "--into", "near"]).code(0);
    let absolute = place.path("bank.lua");
    place.run(&["run", absolute.to_str().unwrap(), "--into", "far"]).code(0);
    assert_eq!(place.files("near"), place.files("far"));
}

#[test]
fn a_picture_that_is_gone_from_the_scenario_is_gone_from_the_folder() {
    let place = drawing();
    place.run(&["run", "bank.lua"]).code(0);
    place.write("out/bank/notes.txt", "mine");
    place.write("bank.lua", &scenario("2.2", HOLDS));
    place.run(&["run", "bank.lua"]).code(0);
    let names: Vec<String> = place.files("out/bank").into_keys().collect();
    assert_eq!(names, ["notes.txt", "rows.csv", "run.json"]);
}

#[test]
fn a_run_that_ends_early_keeps_what_it_made_and_one_without_results_the_last_whole_one() {
    let place = drawing();
    place.run(&["run", "bank.lua"]).code(0);
    let before = place.files("out/bank");
    place.write("bank.lua", "error('no')");
    place.run(&["run", "bank.lua"]).code(2);
    assert_eq!(place.files("out/bank"), before);
    place.write("bank.lua", &scenario("2.2", "error('no')"));
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert!(ended.out.contains("stopped: line 6: no"), "{ended:#?}");
    let names: Vec<String> = place.files("out/bank").into_keys().collect();
    assert_eq!(names, ["map.png", "map.svg", "rows.csv", "run.json"]);
    assert!(place.read("out/bank/run.json").contains("\"why\": \"no\""));
}

#[cfg(unix)]
#[test]
fn a_folder_that_can_not_be_written_is_named() {
    use std::os::unix::fs::PermissionsExt;
    let place = drawing();
    let locked = place.path("locked");
    std::fs::create_dir(&locked).unwrap();
    std::fs::set_permissions(&locked, std::fs::Permissions::from_mode(0o555)).unwrap();
    // A superuser may write anywhere; then only a folder of the kernel is closed.
    let into =
        if std::fs::write(locked.join("probe"), "").is_ok() { "/proc/none" } else { "locked" };
    let ended = place.run(&["run", "bank.lua", "--into", into]).code(3);
    assert!(ended.err.contains(into), "{ended:#?}");
}

/// A map over many tables is kept beside the results: asked again it is the same and quicker, and damage does it no harm.
#[test]
fn shares_of_tables_are_kept_beside_the_results() {
    let place = Place::new();
    place.write(
        "shares.lua",
        r#"scenario { shows = "shares" }
           local mine = practice_table(equipment "nine-foot")
           local banks = grid { equipment = mine, contact = span(1.5, 3.5, 0.5),
                                off_rail = span(inches(0), inches(12), inches(3)), speed = mps(3), spin = "stun" }
           local shares = mine:shares(banks, rule.linear { slope = 2.2, reading = "groove" })
           for _, at in ipairs { 1.5, 2, 2.5, 3, 3.5 } do
             print(shares:at { contact = at, off_rail = inches(6) }.share)
           end"#,
    );
    let run = |args: &[&str]| place.run(&[&["run", "shares.lua"], args].concat()).code(0).out;
    let first = run(&["--into", "out"]);
    let kept: Vec<_> = std::fs::read_dir(place.path("out/kept"))
        .expect("a folder")
        .map(|file| file.expect("a file").path())
        .collect();
    assert_eq!(kept.len(), 1, "{kept:?}");
    assert_eq!(run(&["--into", "out"]), first);
    let whole = std::fs::read(&kept[0]).expect("a file");
    let mut damaged = whole.clone();
    damaged[40] ^= 1;
    std::fs::write(&kept[0], damaged).expect("written");
    assert_eq!(run(&["--into", "out"]), first);
    assert_eq!(std::fs::read(&kept[0]).expect("a file"), whole);
    place.run(&["test", "shares.lua"]);
}
