//! What to write instead of a command line that could not be read.

use crate::{called, renamed};
use clap::error::{ContextKind, ContextValue, ErrorKind};
use railproof_engine::units::leading_number;
use std::ffi::OsString;
use std::path::Path;

/// Puts hints of our own in the place of clap's, for the arguments of a program of these commands.
pub(super) fn add(error: &mut clap::Error, arguments: &[OsString], all: &clap::Command) {
    hint_of_flag(error, arguments, all);
    hint_of_missing(error, arguments);
    hint_of_negative(error, arguments);
}

fn suggest(error: &mut clap::Error, hint: String) {
    error.remove(ContextKind::SuggestedArg);
    error.insert(ContextKind::Suggested, ContextValue::StyledStrs(vec![hint.into()]));
}

/// A value that begins with a minus is no flag, and no hint says how it could be given as a file's name.
fn hint_of_negative(error: &mut clap::Error, arguments: &[OsString]) {
    let Some(ContextValue::String(flag)) = error.get(ContextKind::InvalidArg) else { return };
    let is_number = flag.strip_prefix('-').is_some_and(|rest| {
        rest.starts_with(|letter: char| letter.is_ascii_digit() || letter == '.')
    });
    let before = arguments.windows(2).find(|pair| {
        pair[1].to_str().is_some_and(|word| word == flag || word.starts_with(flag.as_str()))
    });
    let Some(before) = before.and_then(|pair| pair[0].to_str()) else { return };
    if error.kind() == ErrorKind::UnknownArgument && is_number && before.starts_with("--") {
        let hint = format!("`{before}` takes no negative value here");
        suggest(error, hint);
    }
}

/// A whole call for those commands that are called without what they need.
const INSTANCES: [(&str, &str); 6] = [
    ("bank", "bank --contact 2 --off-rail \"10 in\" --speed medium"),
    ("run", "run scenarios/first.lua"),
    ("test", "test scenarios"),
    ("shot", "shot scenarios/shots/corner-bank.yaml"),
    ("fit", "fit --template"),
    ("player", "player scenarios/measured/misses.csv --on harbour-hall"),
];

/// Puts a whole call under the complaint about a missing argument.
fn hint_of_missing(error: &mut clap::Error, arguments: &[OsString]) {
    let missing =
        [ErrorKind::MissingRequiredArgument, ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand];
    let first = arguments.get(1).and_then(|word| word.to_str());
    if error.kind() == ErrorKind::MissingRequiredArgument
        && let Some(ContextValue::Strings(lacks)) = error.get(ContextKind::InvalidArg)
        && let Some(hint) = hint_of_lacking(lacks, arguments)
    {
        suggest(error, hint);
        return;
    }
    let instance = INSTANCES.iter().find(|(name, _)| first == Some(*name));
    if let (true, Some((_, instance))) = (missing.contains(&error.kind()), instance) {
        let hint = format!("for instance: {}", called::command(instance));
        suggest(error, hint);
    }
}

/// The flags that others need beside them, each with what to write.
const NEEDED: [(&str, &str); 3] =
    [("--speed", "--speed medium"), ("--into", "--into out/bank"), ("--player", "--player club")];

/// What to add to a call that lacks one flag.
fn hint_of_lacking(lacks: &[String], arguments: &[OsString]) -> Option<String> {
    let [lacking] = lacks else { return None };
    let (_, written) = NEEDED.iter().find(|(flag, _)| lacking.starts_with(flag))?;
    let is_asked = arguments.len() > 2;
    is_asked.then(|| format!("add, for instance, `{written}`"))
}

/// Puts the hint for an unknown flag in the place of clap's own: its new name, or a near one.
fn hint_of_flag(error: &mut clap::Error, arguments: &[OsString], all: &clap::Command) {
    if error.kind() != ErrorKind::UnknownArgument {
        return;
    }
    let Some(ContextValue::String(flag)) = error.get(ContextKind::InvalidArg) else { return };
    let hint = hint_of_file(flag).or_else(|| hint_of_quotes(flag, arguments));
    if let Some(hint) = hint {
        suggest(error, hint);
        return;
    }
    let of = arguments.iter().skip(1).find_map(|word| all.find_subcommand(word)).unwrap_or(all);
    let flags: Vec<&str> = of.get_arguments().filter_map(clap::Arg::get_long).collect();
    let of_spin = ["--spin", "--draw", "--follow", "--stun", "--topspin", "--backspin"];
    let of_side = ["english", "side"].iter().any(|word| flag.ends_with(word)) && flag != "--side";
    let hint = if of_side && flags.contains(&"running-side") {
        Some(SIDE.to_owned())
    } else if of_spin.contains(&flag.as_str()) && flags.contains(&"roll") {
        Some(SPIN.to_owned())
    } else if flag == "--frozen" && flags.contains(&"off-rail") {
        Some("write `--off-rail 0`, or leave it out".to_owned())
    } else if flag == "--title" && of.get_name() == "shot" {
        Some("write it into the file: `title: …`".to_owned())
    } else {
        renamed::flag_hint(flag, &flags)
    };
    error.remove(ContextKind::SuggestedArg);
    if let Some(hint) = hint {
        suggest(error, hint);
    }
}

/// The call that takes a file of this kind.
fn hint_of_file(word: &str) -> Option<String> {
    if word.starts_with('-') {
        return None;
    }
    let shown = if word.contains(char::is_whitespace) { "FILE" } else { word };
    match Path::new(word).extension()?.to_str()? {
        "lua" => {
            Some(format!("a scenario is run by `{}`", called::command(&format!("run {shown}"))))
        }
        "yaml" | "yml" => Some(format!(
            "a layout is played by `{}`; a profile goes to `--equipment {shown}`",
            called::command(&format!("shot {shown}"))
        )),
        _ => None,
    }
}

/// A hint on the word for a spin that scenarios have.
const SPIN: &str = "write `--roll 1` for a ball that rolls, 0 for stun, -1 for full draw; side is `--running-side`";

/// A hint on the words for side, which is told by what it does at the rail.
const SIDE: &str = "write `--running-side 0.3` for side that lengthens the bank, `--reverse-side 0.3` for side that \
                    shortens it";

/// A hint on a flag's value of several words, the second of which the shell handed over as a word of its own.
fn hint_of_quotes(word: &str, arguments: &[OsString]) -> Option<String> {
    let words: Vec<&str> = arguments.iter().map(|it| it.to_str()).collect::<Option<_>>()?;
    let is_flag = |word: &str| word.starts_with("--");
    let at = (3..words.len()).find(|at| {
        words[*at] == word && is_flag(words[at - 2]) && !is_flag(words[at - 1]) && !is_flag(word)
    })?;
    let end = (at..words.len()).find(|at| is_flag(words[*at])).unwrap_or(words.len());
    let value = words[at - 1..end].join(" ");
    if words[at - 2] != "--speed" {
        leading_number(&value)?;
    }
    let mark = if value.contains('"') { '\'' } else { '"' };
    Some(format!("a value of several words goes in quotes: {} {mark}{value}{mark}", words[at - 2]))
}
