//! The end of a run of the program.

use std::process::Output;

/// The end of a run.
#[derive(Debug)]
pub struct ProgramRun {
    /// The exit code; none after a signal.
    pub code: Option<i32>,
    /// Its standard output.
    pub out: String,
    /// Its standard error.
    pub err: String,
}

impl From<Output> for ProgramRun {
    fn from(output: Output) -> Self {
        let text = |bytes| String::from_utf8(bytes).unwrap_or_else(|error| panic!("{error}"));
        Self { code: output.status.code(), out: text(output.stdout), err: text(output.stderr) }
    }
}

#[expect(clippy::return_self_not_must_use, reason = "a check may be the last of a chain")]
impl ProgramRun {
    /// Checks the exit code, and that nothing panicked.
    ///
    /// # Panics
    /// When either is not so.
    #[track_caller]
    pub fn code(self, code: i32) -> Self {
        assert_eq!(self.code, Some(code), "{self:#?}");
        assert!(!self.err.contains("panicked"), "{self:#?}");
        self
    }

    /// Checks that the message says this.
    ///
    /// # Panics
    /// When it does not.
    #[track_caller]
    pub fn says(self, words: &str) -> Self {
        assert!(self.err.contains(words), "`{words}` is not said: {self:#?}");
        self
    }
}
