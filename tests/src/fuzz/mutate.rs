//! Bytes by small changes from other bytes; the same seed gives the same bytes everywhere.

use super::FuzzTarget;
use crate::random::SplitMix;
use std::fs;
use std::path::{Path, PathBuf};

/// Longer inputs are cut: what they hold more is more of the same.
const LONGEST: usize = 1 << 16;
/// Changes of one input at most.
const MOST_CHANGES: usize = 6;
/// Words that readers know, and numbers at the ends of what there is.
const WORDS: [&str; 32] = [
    "nan",
    "inf",
    "-inf",
    "1e300",
    "-1e300",
    "1e-320",
    "0",
    "-0",
    "1e999",
    "9007199254740993",
    "4294967296",
    "-1",
    "0.1",
    "\u{202e}",
    "\u{0}",
    "\n",
    "\r",
    "\t",
    "\"",
    "'",
    ",",
    ";",
    ":",
    "#",
    "[",
    "]",
    "{",
    "}",
    "- ",
    " m/s",
    " in",
    "\u{feff}",
];

/// The seeds of a target: its own corpus, and the other files that it names.
///
/// # Panics
/// A target without any, or a file that can't be read.
pub fn seeds_of(target: &FuzzTarget) -> Vec<Vec<u8>> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let own = here.join("fuzz/corpus").join(target.name);
    let named = target.seeds.iter().map(|name| here.join(name));
    let mut files = Vec::new();
    own.exists().then_some(own).into_iter().chain(named).for_each(|path| list(&path, &mut files));
    files.sort();
    assert!(!files.is_empty(), "{} has no seed", target.name);
    files.iter().map(|file| fs::read(file).expect("a seed can be read")).collect()
}

fn list(path: &Path, files: &mut Vec<PathBuf>) {
    if path.is_dir() {
        let entries = fs::read_dir(path).expect("a folder of seeds can be read");
        entries.flatten().for_each(|entry| list(&entry.path(), files));
    } else {
        files.push(path.to_owned());
    }
}

/// Mutations of some seeds, one after another without an end.
#[derive(Debug)]
pub struct Mutations {
    seeds: Vec<Vec<u8>>,
    draws: SplitMix,
}

impl Mutations {
    /// Of these seeds; `number` picks the sequence.
    pub fn new(seeds: Vec<Vec<u8>>, number: u64) -> Self {
        Self { seeds, draws: SplitMix(number) }
    }

    fn bits(&mut self) -> u64 {
        self.draws.bits()
    }

    fn byte(&mut self) -> u8 {
        self.bits().to_le_bytes()[7]
    }

    fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.bits() % count.max(1) as u64).unwrap_or(0)
    }

    /// A stretch of some bytes.
    fn stretch(&mut self, length: usize) -> std::ops::Range<usize> {
        let from = self.below(length + 1);
        let longest = if self.below(4) == 0 { length } else { 24 };
        from..(from + self.below(longest) + 1).min(length)
    }

    fn change(&mut self, bytes: &mut Vec<u8>) {
        let at = self.below(bytes.len() + 1);
        match self.below(9) {
            0 => bytes.insert(at, self.byte()),
            1 if at < bytes.len() => bytes[at] ^= 1 << self.below(8),
            2 if at < bytes.len() => bytes[at] = self.byte(),
            3 => {
                let gone = self.stretch(bytes.len());
                bytes.drain(gone);
            }
            4 => {
                let again = self.stretch(bytes.len());
                let again = bytes[again].to_vec();
                bytes.splice(at..at, again);
            }
            5 => {
                let word = WORDS[self.below(WORDS.len())];
                bytes.splice(at..at, word.bytes());
            }
            6 => self.put_number(bytes),
            7 => {
                let other = self.below(self.seeds.len());
                let part = self.stretch(self.seeds[other].len());
                let part = self.seeds[other][part].to_vec();
                let place = self.stretch(bytes.len());
                bytes.splice(place, part);
            }
            _ => {
                let line = self.stretch(bytes.len());
                bytes.extend_from_within(line);
            }
        }
    }

    /// Another number in the place of one that stands there.
    fn put_number(&mut self, bytes: &mut Vec<u8>) {
        let is_part = |byte: u8| byte.is_ascii_digit() || byte == b'.';
        let from = self.below(bytes.len() + 1);
        let Some(start) = (from..bytes.len()).find(|at| is_part(bytes[*at])) else { return };
        let end = (start..bytes.len()).find(|at| !is_part(bytes[*at])).unwrap_or(bytes.len());
        let number = match self.below(3) {
            0 => WORDS[self.below(13)].to_owned(),
            1 => f64::from_bits(self.bits()).to_string(),
            _ => format!("{:e}", f64::from_bits(self.bits())),
        };
        bytes.splice(start..end, number.bytes());
    }
}

impl Iterator for Mutations {
    type Item = Vec<u8>;

    fn next(&mut self) -> Option<Vec<u8>> {
        let seed = self.below(self.seeds.len());
        let mut bytes = self.seeds[seed].clone();
        for _ in 0..=self.below(MOST_CHANGES) {
            self.change(&mut bytes);
        }
        bytes.truncate(LONGEST);
        Some(bytes)
    }
}
