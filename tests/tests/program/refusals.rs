//! Files that must be refused: `tests/refusals/` holds one fault to a file, and below it, in
//! comments, where the fault stands with the text that is underlined there, the message, the hint,
//! and what the program ends with where that is not 2.
//!
//! A new file is played without a change here. `RAILPROOF_ACCEPT=1` writes the comments anew from
//! what is said today; look at the difference before you commit it.

use railproof::exit::Exit;
use railproof::fault::{Fault, Style};
use railproof::layout::parse_layout;
use railproof::measured::{parse_films, parse_measurements, parse_track};
use railproof::player::parse_player;
use railproof::profile::parse_profile;
use railproof::scenario::{RunOptions, run_scenario};
use railproof_engine::track::LensKnown;
use railproof_tests::shipped_equipment;
use rayon::prelude::*;
use std::fmt::Write;
use std::path::{Path, PathBuf};

/// Reads or runs a text under a file's name.
type Read = fn(text: &str, name: &str) -> Result<(), Fault>;

fn scenario(text: &str, name: &str) -> Result<(), Fault> {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join(name);
    std::fs::write(&path, text).expect("it can be written");
    let own = format!("{}/", folder.path().display());
    run_scenario(&path, &RunOptions::default())
        .and_then(railproof::record::Record::whole)
        .map(drop)
        .map_err(|mut fault| {
            fault.message = fault.message.replace(&own, "");
            fault
        })
}

fn layout(text: &str, name: &str) -> Result<(), Fault> {
    parse_layout(text, name, Path::new("/nowhere")).map(drop)
}

fn profile(text: &str, name: &str) -> Result<(), Fault> {
    parse_profile(text, name).map(drop)
}

fn player(text: &str, name: &str) -> Result<(), Fault> {
    parse_player(text, name).map(drop)
}

fn measured(text: &str, name: &str) -> Result<(), Fault> {
    parse_measurements(text, name, &shipped_equipment("nine-foot")).map(drop)
}

fn track(text: &str, name: &str) -> Result<(), Fault> {
    parse_track(text, name)?.bank(&shipped_equipment("nine-foot"), LensKnown::Straight).map(drop)
}

fn filmed(text: &str, name: &str) -> Result<(), Fault> {
    parse_films(text, name).map(drop)
}

/// The words of a refusal, in lines of comment.
fn told(fault: &Fault, comment: &str) -> String {
    let shown = fault.render(Style::PLAIN);
    assert!(!shown.contains('\u{1b}'), "colour codes in {shown}");
    let mut lines = String::from("refused");
    if let Some(place) = &fault.place {
        let (line, column) = place.line_column();
        assert!(shown.contains(&format!(":{line}:{column}")), "{shown}");
        let mut underlined = place.source()[place.span()].lines();
        write!(lines, " at {line}:{column}").expect("a string takes it");
        if let Some(first) = underlined.next() {
            let more = if underlined.next().is_some() { " …" } else { "" };
            write!(lines, " `{first}`{more}").expect("a string takes it");
        }
    }
    write!(lines, "\n{}", fault.message).expect("a string takes it");
    if let Some(hint) = &fault.hint {
        write!(lines, "\nhint: {hint}").expect("a string takes it");
    }
    if fault.exit != Exit::BadInput {
        write!(lines, "\nends with {}", fault.exit.code()).expect("a string takes it");
    }
    lines.lines().map(|line| format!("{comment} {line}") + "\n").collect()
}

/// All files below a folder, in order.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut entries: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
        .map(|entry| entry.expect("an entry").path())
        .collect();
    entries.sort();
    let below = |path: PathBuf| if path.is_dir() { files(&path) } else { vec![path] };
    entries.into_iter().flat_map(below).collect()
}

/// The difference between a fixture's comments and today's refusal, if there is one.
fn difference(path: &Path, comment: &str, read: Read) -> Option<String> {
    let text = std::fs::read_to_string(path).expect("a fixture is text");
    let begins = format!("\n{comment} refused");
    let body = text.rfind(&begins).map_or(text.len(), |at| at + 1);
    let (body, expected) = text.split_at(body);
    let name = path.file_name().and_then(|name| name.to_str()).expect("a plain name");
    let found = match read(body, name) {
        Err(fault) => told(&fault, comment),
        Ok(()) => return Some(format!("{} is not refused", path.display())),
    };
    if found == expected {
        return None;
    }
    if std::env::var_os("RAILPROOF_ACCEPT").is_some() {
        std::fs::write(path, format!("{body}{found}")).expect("it can be written");
        return None;
    }
    Some(format!("{}\nexpected:\n{expected}found:\n{found}", path.display()))
}

/// Holds every file of a folder to its own comments.
fn hold(folder: &str, comment: &str, read: Read) {
    let all = files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("refusals").join(folder));
    assert!(!all.is_empty(), "no fixture in {folder}");
    let differ: Vec<String> =
        all.par_iter().filter_map(|path| difference(path, comment, read)).collect();
    assert!(
        differ.is_empty(),
        "{} of {} differ (RAILPROOF_ACCEPT=1 takes what is said today):\n\n{}",
        differ.len(),
        all.len(),
        differ.join("\n")
    );
}

#[test]
fn scenarios_are_refused_where_and_as_their_comments_say() {
    hold("scenarios", "--", scenario);
}

#[test]
fn layouts_are_refused_where_and_as_their_comments_say() {
    hold("layouts", "#", layout);
}

#[test]
fn profiles_are_refused_where_and_as_their_comments_say() {
    hold("profiles", "#", profile);
}

#[test]
fn players_are_refused_where_and_as_their_comments_say() {
    hold("players", "#", player);
}

#[test]
fn measured_banks_are_refused_where_and_as_their_comments_say() {
    hold("measured", "#", measured);
}

#[test]
fn films_are_refused_where_and_as_their_comments_say() {
    hold("tracks", "#", track);
}

#[test]
fn rows_of_films_are_refused_where_and_as_their_comments_say() {
    hold("films", "#", filmed);
}

/// Else a fixture would lie there and never be played.
#[test]
fn every_fixture_lies_in_a_folder_that_is_played() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("refusals");
    for path in files(&folder) {
        let below = path.strip_prefix(&folder).expect("it is below");
        let kind = below.iter().next().and_then(|name| name.to_str()).unwrap_or_default();
        let wanted = match kind {
            "scenarios" => "lua",
            "layouts" | "players" | "profiles" => "yaml",
            "films" | "measured" | "tracks" => "csv",
            _ => panic!("{} is in no folder of a kind", path.display()),
        };
        assert_eq!(path.extension().and_then(|it| it.to_str()), Some(wanted), "{below:?}");
    }
}
