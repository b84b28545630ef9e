//! A folder in which something hostile is run, and what lies around it.

use railproof_tests::program_in;
use std::collections::BTreeMap;
use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Stands in every file outside; no output may hold it.
pub const SECRET: &str = "wolverine-7141";

/// A folder `work`, in which things are run, and a folder `outside` beside it.
pub struct HostilePlace(tempfile::TempDir);

impl HostilePlace {
    pub fn new() -> Self {
        let place = Self(tempfile::tempdir().unwrap());
        for (name, text) in [
            ("outside/secret.yaml", format!("{SECRET}: {SECRET}\n")),
            ("outside/secret.csv", format!("{SECRET},{SECRET}\n1,2\n")),
            ("outside/secret.baseline", format!("{SECRET}\n")),
            ("outside/secret.json", format!("{{\"{SECRET}\": 1}}\n")),
            ("outside/secret.lua", format!("{SECRET} {SECRET}\n")),
            ("outside/secret", format!("{SECRET}\n")),
            ("inside/clean.lua", CLEAN.to_owned()),
        ] {
            place.write(name, text.as_bytes());
        }
        place
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn write(&self, name: &str, bytes: &[u8]) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }

    /// The program, in `work`.
    pub fn command(&self) -> Command {
        program_in(&self.path("inside"))
    }

    /// Everything that lies there but the output: its kind, and its bytes or where it leads.
    pub fn listing(&self) -> BTreeMap<PathBuf, String> {
        let mut listed = BTreeMap::new();
        list(self.0.path(), &self.path("inside/out"), &mut listed);
        listed
    }

    /// Every file of the output.
    pub fn output(&self) -> Vec<(PathBuf, Vec<u8>)> {
        let mut found = Vec::new();
        files(&self.path("inside/out"), &mut found);
        found
    }

    /// A scenario that harms nobody: what it says and writes.
    pub fn clean_run(&self) -> (String, BTreeMap<String, Vec<u8>>) {
        let ran = self.command().args(["run", "clean.lua", "--into", "clean"]).output().unwrap();
        assert_eq!(ran.status.code(), Some(0), "{ran:?}");
        let mut found = Vec::new();
        files(&self.path("inside/clean"), &mut found);
        fs::remove_dir_all(self.path("inside/clean")).unwrap();
        let name = |path: &Path| path.file_name().unwrap().to_string_lossy().into_owned();
        let files = found.into_iter().map(|(path, bytes)| (name(&path), bytes)).collect();
        (String::from_utf8(ran.stdout).unwrap(), files)
    }
}

const CLEAN: &str = r#"
local banks = grid {
  equipment = equipment "nine-foot", contact = { 2, 3 }, off_rail = inches(0), speed = { mps(2), mps(4) }, spin = "stun",
}
local map = compare(banks, rule.linear { slope = 2.2, reading = "groove" })
map:draw { x = "speed", y = "contact" }
expect(map):share_at_least(0.5)
print(math.random(), tostring({}) ~= nil, #"text", math.floor(2.5))
"#;

fn list(folder: &Path, but: &Path, listed: &mut BTreeMap<PathBuf, String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path == but {
            continue;
        }
        let about = fs::symlink_metadata(&path).unwrap();
        let kind = about.file_type();
        let told = if kind.is_dir() {
            list(&path, but, listed);
            "folder".to_owned()
        } else if kind.is_symlink() {
            format!("link to {}", fs::read_link(&path).unwrap().display())
        } else if kind.is_file() && about.len() < 1 << 20 {
            format!("file {:?}", fs::read(&path).unwrap_or_default())
        } else {
            format!("{} bytes, mode {:o}", about.len(), about.mode())
        };
        listed.insert(path, told);
    }
}

fn files(folder: &Path, found: &mut Vec<(PathBuf, Vec<u8>)>) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries {
        let path = entry.unwrap().path();
        let about = fs::symlink_metadata(&path).unwrap();
        if about.is_dir() {
            files(&path, found);
        } else if about.is_file() {
            found.push((path.clone(), fs::read(&path).unwrap_or_default()));
        }
    }
}
