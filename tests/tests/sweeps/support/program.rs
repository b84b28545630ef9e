//! The real program, run in a folder of its own.

pub use railproof_tests::ProgramRun;
use railproof_tests::{program, program_in};
use std::path::PathBuf;
use std::process::{Command, Stdio};
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
        let mut command = program_in(self.0.path());
        command.args(line.split_whitespace());
        command
    }

    pub fn run(&self, line: &str) -> ProgramRun {
        ProgramRun::from(self.command(line).output().unwrap())
    }

    /// The program, ended after so many seconds: what waits for ever fails its test only.
    pub fn run_within(&self, seconds: u64, line: &str) -> ProgramRun {
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
        ProgramRun::from(running.wait_with_output().unwrap())
    }

    /// The program through a shell that first does `before`, such as setting a limit.
    pub fn run_after(&self, before: &str, line: &str) -> ProgramRun {
        let mut shell = Command::new("sh");
        let script = format!("{before}; exec \"$0\" {line}");
        shell.arg("-c").arg(script).arg(program()).current_dir(self.0.path());
        ProgramRun::from(shell.output().unwrap())
    }
}
