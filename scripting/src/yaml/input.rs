//! A text to be read: from a file, with its size bounded, or from memory.

use crate::exit::Exit;
use crate::fault::{Fault, Place};
use crate::files::{near_name, ordinary};
use railproof_engine::units::unit_symbol;
use std::io::ErrorKind;
use std::ops::Range;
use std::path::Path;
use std::sync::Arc;

/// Files over this many bytes are refused before they are read.
pub(crate) const LARGEST_FILE: u64 = 1 << 20;

/// A text and its name for people.
#[derive(Debug, Clone)]
pub(crate) struct InputText {
    pub(crate) label: Arc<str>,
    pub(crate) text: Arc<str>,
}

impl InputText {
    /// A text that is already in memory, without its byte order mark.
    pub(crate) fn new(label: &str, text: &str) -> Result<Self, Fault> {
        Self::within(LARGEST_FILE, label, text)
    }

    /// A text that is already in memory, of at most `most` bytes.
    pub(crate) fn within(most: u64, label: &str, text: &str) -> Result<Self, Fault> {
        if text.len() as u64 > most {
            return Err(too_large(most, label));
        }
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        Ok(Self { label: label.into(), text: text.into() })
    }

    /// An ordinary UTF-8 file of at most [`LARGEST_FILE`] bytes.
    pub(crate) fn open(path: &Path) -> Result<Self, Fault> {
        Self::open_within(LARGEST_FILE, path)
    }

    /// An ordinary UTF-8 file of at most `most` bytes.
    pub(crate) fn open_within(most: u64, path: &Path) -> Result<Self, Fault> {
        let label = path.display().to_string();
        let bytes =
            ordinary::read_at_most(path, most + 1).map_err(|error| cannot_read(path, &error))?;
        check_ending(path, &label)?;
        if bytes.len() as u64 > most {
            return Err(too_large(most, &label));
        }
        match std::str::from_utf8(&bytes) {
            Ok(text) => Self::within(most, &label, text),
            Err(error) => {
                let at = error.valid_up_to();
                let shown: Arc<str> = String::from_utf8_lossy(&bytes).into();
                Err(Fault::bad_input("this is not UTF-8 text")
                    .at(Place::new(label, shown, at..at + 1))
                    .with_hint("save the file as plain text in UTF-8"))
            }
        }
    }

    pub(crate) fn place(&self, span: Range<usize>) -> Place {
        Place::new(self.label.clone(), self.text.clone(), span)
    }

    /// A line, counted from 1.
    pub(crate) fn line(&self, line: usize) -> Place {
        Place::line(self.label.clone(), self.text.clone(), line)
    }

    /// Where the first line that says something stands, or the start of the file.
    pub(crate) fn beginning(&self) -> Place {
        let line = self.text.lines().position(says_something).unwrap_or(0);
        Place::line(self.label.clone(), self.text.clone(), line + 1)
    }

    /// Whether more of its lengths are in inches and feet than in metres and parts of it; nothing without
    /// lengths.
    pub(crate) fn in_inches(&self) -> Option<bool> {
        let lines = self.text.lines().map(|line| line.split('#').next().unwrap_or_default());
        let words = lines.flat_map(|line| line.split([' ', ',', '[', ']', '{', '}', '"', '\'']));
        let of_words = words
            .map(|word| word.trim_start_matches(|it: char| it.is_ascii_digit() || it == '.'))
            .map(unit_symbol);
        mostly_inches(of_words.chain(inch_signs(&self.text)))
    }

    pub(crate) fn is_blank(&self) -> bool {
        !self.text.lines().any(says_something)
    }
}

/// The unit of each number with the sign for inches behind it, of a text whose quotes are the others.
fn inch_signs(text: &str) -> impl Iterator<Item = &str> {
    let signs = |line: &str| {
        let digit = |(at, _): &(usize, &str)| line[..*at].ends_with(|it: char| it.is_ascii_digit());
        let all = line.matches('"').count();
        if all.is_multiple_of(2) { 0 } else { line.match_indices('"').filter(digit).count() }
    };
    let count = text.lines().map(signs).sum();
    std::iter::repeat_n("in", count)
}

/// Whether more of these units are inches and feet than metres and parts of it; nothing where none is a
/// length.
pub(crate) fn mostly_inches<'a>(units: impl Iterator<Item = &'a str>) -> Option<bool> {
    let (mut inches, mut metres) = (0, 0);
    for unit in units {
        match unit {
            "in" | "ft" => inches += 1,
            "mm" | "cm" | "m" => metres += 1,
            _ => {}
        }
    }
    (inches + metres > 0).then_some(inches > metres)
}

fn says_something(line: &str) -> bool {
    let line = line.trim();
    !(line.is_empty() || line.starts_with('#') || line == "---" || line == "...")
}

/// The endings of files that are read here.
const ENDINGS: [&str; 5] = ["yaml", "yml", "csv", "json", "baseline"];

/// Refuses other files: what stands in them is no business of a message.
fn check_ending(path: &Path, label: &str) -> Result<(), Fault> {
    let ending = path.extension().and_then(|it| it.to_str()).map(str::to_ascii_lowercase);
    if ending.is_some_and(|ending| ENDINGS.contains(&ending.as_str())) {
        return Ok(());
    }
    let endings = ENDINGS.map(|ending| format!(".{ending}")).join(", ");
    Err(Fault::bad_input(format!("`{label}` is not a kind of file that is read here"))
        .with_hint(format!("their names end in {endings}")))
}

fn too_large(most: u64, label: &str) -> Fault {
    Fault::bad_input(format!("`{label}` is larger than {} MiB", most >> 20))
        .with_hint("such files take a few kilobytes; is this the right one?")
}

fn cannot_read(path: &Path, error: &std::io::Error) -> Fault {
    let label = path.display();
    if error.kind() != ErrorKind::PermissionDenied
        && let Some(link) = ordinary::broken_link(path)
    {
        return Fault::bad_input(format!(
            "the link `{}` leads to no file: {error}",
            link.display()
        ));
    }
    match error.kind() {
        ErrorKind::NotFound => {
            let fault = Fault::bad_input(format!("there is no file `{label}`"));
            match near_name(path) {
                Some(name) => {
                    fault.with_hint(format!("that folder has `{name}`; did you mean that?"))
                }
                None => fault,
            }
        }
        ErrorKind::PermissionDenied => {
            let why = match error.get_ref() {
                Some(own) => own.to_string(),
                None => "permission denied".to_owned(),
            };
            Fault::bad_input(format!("`{label}` may not be read: {why}"))
        }
        ErrorKind::IsADirectory => {
            Fault::bad_input(format!("`{label}` is a folder, not an ordinary file"))
        }
        ErrorKind::Unsupported => Fault::bad_input(format!("`{label}` is not an ordinary file")),
        ErrorKind::NotADirectory | ErrorKind::InvalidInput | ErrorKind::InvalidFilename => {
            Fault::bad_input(format!("`{label}` cannot be a file: {error}"))
        }
        _ => Fault::new(Exit::CouldNotFinish, format!("`{label}` could not be read: {error}")),
    }
}
