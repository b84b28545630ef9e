//! `railproof words`: what can be written in scenarios, layouts and profiles, field by field.

use super::output::print;
use super::test;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::fields::{Field, FieldKind, Group, guide, words};
use crate::layout::{GROUPS, NamedGroup};
use crate::player::PLAYER;
use crate::profile::{PROFILE, SECTIONS};
use crate::renamed;
use crate::scenario::BANK_SHOT;
use railproof_engine::equipment::{RailModel, Section};
use railproof_engine::rail::{PocketChoice, RailChoice};
use railproof_engine::sweep::Input;
use std::fmt::Write;
use std::sync::LazyLock;

/// Show every word of a group of fields with its kind, range, default and meaning.
#[derive(Debug, clap::Args)]
pub struct WordsArgs {
    /// The group; without one, all groups are listed.
    pub group: Option<String>,
}

/// Shows the groups, or the fields of one.
///
/// # Errors
/// A [`Fault`] when there is no such group.
pub fn run(args: &WordsArgs) -> Result<Exit, Fault> {
    let groups = groups();
    let Some(wanted) = &args.group else {
        let width = groups.iter().map(|(name, ..)| name.len()).max().unwrap_or_default();
        let mut out = String::new();
        for (name, about, _) in &groups {
            let _ = writeln!(out, "{name:width$}  {about}");
        }
        let _ =
            writeln!(out, "{OF_TESTS:width$}  the keys of the results that `test --json` shows");
        print(&out)?;
        return Ok(Exit::Held);
    };
    if wanted == OF_TESTS {
        let width = test::KEYS.iter().map(|(key, _)| key.len()).max().unwrap_or_default();
        let lines = test::KEYS.iter().map(|(key, meaning)| format!("{key:width$}  {meaning}\n"));
        print(&lines.collect::<String>())?;
        return Ok(Exit::Held);
    }
    let names = groups.iter().map(|(name, ..)| *name).chain([OF_TESTS]);
    let Some((_, _, group)) = groups.iter().find(|(name, ..)| name == wanted) else {
        let fault = Fault::bad_input(format!("there is no group `{wanted}`"));
        return Err(fault.with_hint(renamed::hint_or_all(wanted, names, "the groups are")));
    };
    print(&guide(group))?;
    Ok(Exit::Held)
}

/// The group of results of tests.
const OF_TESTS: &str = "test";

/// The groups by their names: those of layouts, then the profile and its sections.
fn groups() -> Vec<NamedGroup> {
    const SECTION_NAMES: [&str; Section::ALL.len()] = [
        "profile.table",
        "profile.ball",
        "profile.cloth",
        "profile.cushion",
        "profile.ball_contact",
        "profile.cue",
        "profile.speeds",
    ];
    let profile = ("profile", "equipment in YAML", &*PROFILE);
    let sections = SECTION_NAMES.into_iter().zip(SECTIONS.iter());
    let sections = sections.map(|(name, group)| (name, "a section of a profile", group));
    let of_banks = [
        ("inputs", "the inputs of banks in grids, samples and frontiers", &*INPUTS),
        ("bank_shot", "a bank shot in a scenario", &BANK_SHOT),
        ("player", "a player in YAML; in a scenario all of it may be left out", &*PLAYER),
    ];
    GROUPS.into_iter().chain([profile]).chain(sections).chain(of_banks).collect()
}

static INPUTS: LazyLock<Group> = LazyLock::new(|| {
    let fields: Vec<Field> = Input::all().map(input).collect();
    let parts: Vec<&'static [Field]> = vec![fields.leak()];
    Group { title: "the inputs", parts: parts.leak(), example: None }
});

fn input(input: Input) -> Field {
    let kind = match (input, input.parameter()) {
        (_, Some(parameter)) => FieldKind::Number(parameter),
        (Input::Rail, _) => FieldKind::Word(words::<RailChoice>),
        (Input::Pocket, _) => FieldKind::Word(words::<PocketChoice>),
        (Input::RailModel, _) => FieldKind::Word(words::<RailModel>),
        _ => FieldKind::NameOr("an equipment", || &PROFILE),
    };
    Field::new(input.name(), kind, input.meaning())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_group_that_a_reader_reaches_is_listed_with_each_of_its_fields() {
        let groups = groups();
        let listed = |group: &Group| {
            groups
                .iter()
                .any(|(_, _, known)| std::ptr::eq(*known, group) || known.title == group.title)
        };
        for (name, _, group) in &groups {
            let shown = guide(group);
            for field in group.all() {
                let line = format!("{} ", field.name);
                assert!(shown.lines().any(|shown| shown.starts_with(&line)), "{name}: {line}");
                assert!(!field.meaning.is_empty(), "{name}: {line}");
                let inside = match field.kind {
                    FieldKind::Each { group, .. } => Some(group),
                    kind => kind.group(),
                };
                assert!(inside.is_none_or(listed), "{name}: {line}");
            }
        }
    }

    #[test]
    fn the_sections_go_by_their_own_names() {
        for (section, name) in Section::ALL.into_iter().zip(groups().iter().skip(GROUPS.len() + 1))
        {
            assert_eq!(name.0, format!("profile.{}", section.name()));
        }
    }
}
