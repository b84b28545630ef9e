//! The real program, run in a folder of its own.

use railproof_tests::program;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// A folder of its own for one test.
pub struct Place(tempfile::TempDir);

impl Place {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub fn write(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        std::fs::write(self.path(name), bytes).unwrap();
        self.path(name)
    }

    /// The program with arguments apart by spaces, in this folder.
    pub fn command(&self, line: &str) -> Command {
        let mut command = Command::new(program());
        command.args(line.split_whitespace()).current_dir(self.0.path());
        for name in ["NO_COLOR", "CLICOLOR_FORCE", "RAYON_NUM_THREADS"] {
            command.env_remove(name);
        }
        command
    }

    pub fn run(&self, line: &str) -> Ended {
        Ended::from(self.command(line).output().unwrap())
    }

    /// The program, ended after so many seconds: what waits for ever fails its test only.
    pub fn run_within(&self, seconds: u64, line: &str) -> Ended {
        let mut running = self.command(line);
        let mut running = running.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        let end = Instant::now() + Duration::from_secs(seconds);
        while running.try_wait().unwrap().is_none() {
            if Instant::now() > end {
                running.kill().unwrap();
                running.wait().unwrap();
                panic!("{line} still runs after {seconds} s");
            }
            sleep(Duration::from_millis(10));
        }
        Ended::from(running.wait_with_output().unwrap())
    }

    /// The program through a shell that first does `before`, such as setting a limit.
    pub fn run_after(&self, before: &str, line: &str) -> Ended {
        let mut shell = Command::new("sh");
        let script = format!("{before}; exec \"$0\" {line}");
        shell.arg("-c").arg(script).arg(program()).current_dir(self.0.path());
        Ended::from(shell.output().unwrap())
    }
}

/// How a run ended.
#[derive(Debug)]
pub struct Ended {
    pub code: Option<i32>,
    pub out: String,
    pub err: String,
}

impl From<Output> for Ended {
    fn from(output: Output) -> Self {
        Self {
            code: output.status.code(),
            out: String::from_utf8_lossy(&output.stdout).into_owned(),
            err: String::from_utf8_lossy(&output.stderr).into_owned(),
        }
    }
}

impl Ended {
    /// Checks the exit code, and that nothing panicked.
    #[track_caller]
    pub fn code(self, code: i32) -> Self {
        assert_eq!(self.code, Some(code), "{self:#?}");
        assert!(!self.err.contains("panicked"), "{self:#?}");
        self
    }

    /// Checks that the message says this.
    #[track_caller]
    pub fn says(self, words: &str) -> Self {
        assert!(self.err.contains(words), "`{words}` is not said: {self:#?}");
        self
    }
}
