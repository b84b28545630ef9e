//! One hostile input, and what contains it.

use super::place::{HostilePlace, SECRET};
use railproof::exit::Exit;
use std::ffi::OsString;
use std::io::Read;
use std::path::Path;
use std::process::{Child, Stdio};
use std::thread;
use std::time::{Duration, Instant};

/// Past the budget, until everything has ended.
const GRACE: Duration = Duration::from_secs(1);
/// More than any of this could need: what runs longer is ended by the test.
const PATIENCE: Duration = Duration::from_mins(1);

/// A hostile input.
pub struct Case {
    pub name: &'static str,
    pub budget: Duration,
    files: Vec<(String, Vec<u8>)>,
    prepare: Vec<fn(&Path)>,
    arguments: Vec<OsString>,
    codes: Vec<Exit>,
    says: Vec<&'static str>,
}

impl Case {
    /// A command in the folder `work`, within a second.
    pub fn command(name: &'static str, arguments: &[&str], codes: &[Exit]) -> Self {
        Self {
            name,
            budget: Duration::from_secs(1),
            files: Vec::new(),
            prepare: Vec::new(),
            arguments: arguments.iter().map(OsString::from).collect(),
            codes: codes.to_vec(),
            says: Vec::new(),
        }
    }

    /// A scenario that is run, within half a second and 256 MiB.
    pub fn script(name: &'static str, text: &str, codes: &[Exit]) -> Self {
        let run = ["run", "case.lua", "--into", "out", "--time", "500 ms", "--memory", "256 MiB"];
        let case = Self::command(name, &run, codes).file("case.lua", text);
        Self { budget: Duration::from_millis(500), ..case }
    }

    /// Work that may take no longer than a budget of its own, without being stopped for it.
    pub fn within(mut self, seconds: u64) -> Self {
        self.budget = Duration::from_secs(seconds);
        for word in &mut self.arguments {
            if word == "1 s" || word == "500 ms" {
                *word = format!("{seconds} s").into();
            }
        }
        self
    }

    pub fn file(self, name: &str, bytes: impl AsRef<[u8]>) -> Self {
        let mut case = self;
        case.files.push((format!("inside/{name}"), bytes.as_ref().to_vec()));
        case
    }

    /// Something that is no plain file, made in `work`.
    pub fn prepared(mut self, prepare: fn(&Path)) -> Self {
        self.prepare.push(prepare);
        self
    }

    pub fn argument(mut self, argument: OsString) -> Self {
        self.arguments.push(argument);
        self
    }

    pub fn may_end_with(mut self, exit: Exit) -> Self {
        self.codes.push(exit);
        self
    }

    /// Words that must be shown.
    pub fn says(mut self, words: &'static str) -> Self {
        self.says.push(words);
        self
    }

    /// Runs it, and tells how long it took.
    pub fn contained(&self, place: &HostilePlace) -> Result<Duration, String> {
        for (name, bytes) in &self.files {
            place.write(name, bytes);
        }
        let work = place.path("inside");
        self.prepare.iter().for_each(|prepare| prepare(&work));
        let before = place.listing();
        let began = Instant::now();
        let mut command = place.command();
        command.args(&self.arguments).stdin(Stdio::null());
        command.stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = command.spawn().map_err(|error| error.to_string())?;
        let out = gather(child.stdout.take());
        let err = gather(child.stderr.take());
        let code = ended(&mut child).ok_or("it did not end in a minute")?;
        let took = began.elapsed();
        let (out, err) = (out.join().unwrap_or_default(), err.join().unwrap_or_default());
        let shown = String::from_utf8_lossy(&out).into_owned() + &String::from_utf8_lossy(&err);
        if took > self.budget + GRACE {
            return Err(format!("it took {:.2} s", took.as_secs_f64()));
        }
        if !self.codes.iter().any(|exit| i32::from(exit.code()) == code) {
            return Err(format!("it ended with {code}, not {:?}: {shown}", self.codes));
        }
        if place.listing() != before {
            return Err("something outside the output folder has changed".to_owned());
        }
        for words in &self.says {
            if !shown.contains(words) {
                return Err(format!("`{words}` is not said: {shown}"));
            }
        }
        clean_text(&shown)?;
        for (path, bytes) in place.output() {
            if holds(&bytes, SECRET.as_bytes()) {
                return Err(format!("{} holds what lies outside", path.display()));
            }
            if path.to_string_lossy().contains(".unfinished-") {
                return Err(format!("{} was left behind", path.display()));
            }
        }
        Ok(took)
    }
}

/// What a terminal or a build server may be shown.
fn clean_text(shown: &str) -> Result<(), String> {
    if shown.contains(SECRET) {
        return Err(format!("it shows what lies outside: {shown}"));
    }
    if shown.contains("panicked") {
        return Err(format!("it panicked: {shown}"));
    }
    if shown.contains(['\u{1b}', '\u{7}', '\u{202e}', '\u{2066}', '\u{200b}']) {
        return Err(format!("it shows control characters: {shown:?}"));
    }
    // Some servers trim a line, and some look for theirs anywhere in it.
    let obeyed = |line: &&str| {
        line.trim_start().starts_with("::") || line.contains("##[") || line.contains("##vso[")
    };
    let is_source = |line: &&str| line.contains('│');
    match shown.lines().filter(|line| !is_source(line)).find(obeyed) {
        Some(line) => Err(format!("a build server would obey: {line}")),
        None => Ok(()),
    }
}

fn holds(bytes: &[u8], wanted: &[u8]) -> bool {
    bytes.windows(wanted.len()).any(|window| window == wanted)
}

fn gather(pipe: Option<impl Read + Send + 'static>) -> thread::JoinHandle<Vec<u8>> {
    thread::spawn(move || {
        let mut bytes = Vec::new();
        if let Some(pipe) = pipe {
            let _ = pipe.take(64 << 20).read_to_end(&mut bytes);
        }
        bytes
    })
}

/// The exit code; -1 after a signal.
fn ended(child: &mut Child) -> Option<i32> {
    let began = Instant::now();
    while began.elapsed() < PATIENCE {
        if let Ok(Some(status)) = child.try_wait() {
            return Some(status.code().unwrap_or(-1));
        }
        thread::sleep(Duration::from_millis(2));
    }
    let _ = child.kill();
    None
}
