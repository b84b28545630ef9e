//! A folder with scenarios, and the real program run in it.

pub use railproof_tests::ProgramRun;
use railproof_tests::program_in;
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;
use std::process::Command;

/// A small sweep in the invented hall; `{}` stands for what is done with its map.
const SWEEP: &str = r#"local banks = grid {
  equipment = equipment "harbour-hall", pocket = "corner", spin = "stun",
  contact = { 1.5, 2, 2.5 }, off_rail = { inches(0), inches(10) }, speed = { mps(2), mps(4) },
}
local map = compare(banks, rule.linear { slope = SLOPE, reading = "groove" })
"#;

/// A scenario that sweeps by a linear rule of this slope, and then does what is given.
pub fn scenario(slope: &str, then: &str) -> String {
    format!("{}{then}\n", SWEEP.replace("SLOPE", slope))
}

/// An expectation that holds by its own meaning: some banks are slow enough to go long.
pub const HOLDS: &str =
    r#"expect(map:where { contact = 1.5, off_rail = inches(10), speed = mps(2) }):goes "long""#;
/// The opposite of it.
pub const FAILS: &str =
    r#"expect(map:where { contact = 1.5, off_rail = inches(10), speed = mps(2) }):goes "short""#;

/// A folder of its own for one test.
pub struct Place(tempfile::TempDir);

impl Place {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    /// With one scenario, `bank.lua`.
    pub fn with(text: &str) -> Self {
        let place = Self::new();
        place.write("bank.lua", text);
        place
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn write(&self, name: &str, text: &str) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    /// A copy of a folder and all in it.
    pub fn copy_folder(&self, from: &str, name: &str) {
        let to = self.path(name);
        let copied = Command::new("cp").arg("-r").arg(from).arg(to).status();
        assert!(copied.unwrap().success());
    }

    pub fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    /// The program with arguments, in this folder, without this process' wishes about colour.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = program_in(self.0.path());
        command.args(arguments);
        command
    }

    pub fn run(&self, arguments: &[&str]) -> ProgramRun {
        ProgramRun::from(self.command(arguments).output().unwrap())
    }

    /// Every file under a folder with its bytes.
    pub fn files(&self, folder: &str) -> BTreeMap<String, Vec<u8>> {
        let Ok(entries) = fs::read_dir(self.path(folder)) else { return BTreeMap::new() };
        entries
            .map(|entry| {
                let path = entry.unwrap().path();
                let name = path.file_name().unwrap().to_string_lossy().into_owned();
                (name, fs::read(&path).unwrap_or_default())
            })
            .collect()
    }
}

/// The words of a command, texts in quotes kept whole.
pub fn words(command: &str) -> Vec<String> {
    let pieces = command.split('"').enumerate();
    let words = pieces.flat_map(|(at, piece)| match at % 2 {
        1 => vec![piece.to_owned()],
        _ => piece.split_whitespace().map(str::to_owned).collect(),
    });
    words.collect()
}
