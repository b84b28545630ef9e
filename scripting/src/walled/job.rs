//! What a worker is to do.

use crate::files::folder_of;
use crate::report::PageStyle;
use crate::store::TableCells;
use crate::walls::Walls;
use serde::{Deserialize, Serialize};
use std::ffi::OsString;
use std::path::PathBuf;

/// The only argument of a worker.
pub const MARK: &str = "--inside-walls";

/// A job, and the walls within which it is done.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Job {
    /// The work.
    pub work: JobWork,
    /// The walls.
    pub walls: Walls,
}

/// JobWork.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub enum JobWork {
    /// A scenario, told in records.
    Scenario(ScenarioJob),
    /// A whole command, which speaks on its own streams; the arguments as they were typed.
    Command(Vec<OsString>),
}

/// A scenario to be played.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct ScenarioJob {
    /// Its file.
    #[serde(with = "crate::files::told_path::one")]
    pub file: PathBuf,
    /// What is done with the results.
    pub manner: Manner,
    /// Store maps that have moved.
    pub accept: bool,
    /// Also where another expectation failed.
    pub accept_despite_failures: bool,
    /// The look of text.
    pub look: PageStyle,
    /// Whether faults may have colour.
    pub color_of_faults: bool,
}

impl ScenarioJob {
    /// The folders that its scenario may read, and those it may write.
    pub(super) fn sees(&self) -> (Vec<PathBuf>, Vec<PathBuf>) {
        let writes = match &self.manner {
            Manner::Run { folder, .. } => vec![folder.clone()],
            Manner::Test { into } => into.iter().cloned().collect(),
        };
        // Its file itself, should it be a link to another folder.
        (vec![folder_of(&self.file), self.file.clone()], writes)
    }

    /// Where answers of many tables are kept between runs: beside its results.
    pub fn kept(&self) -> Option<PathBuf> {
        match &self.manner {
            // A link would lead what is kept to somewhere else.
            Manner::Run { folder, .. } => {
                Some(folder.join("kept")).filter(|kept| !kept.is_symlink())
            }
            Manner::Test { .. } => None,
        }
    }
}

/// What is done with the results of a scenario.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub enum Manner {
    /// They are shown and written to a folder.
    Run {
        /// The folder.
        #[serde(with = "crate::files::told_path::one")]
        folder: PathBuf,
        /// Only failures are shown.
        quiet: bool,
        /// Everything is shown.
        full: bool,
        /// The cells of tables.
        cells: TableCells,
    },
    /// What failed is shown.
    Test {
        /// The folder where its pictures and rows are kept, if anywhere.
        #[serde(with = "crate::files::told_path::maybe")]
        into: Option<PathBuf>,
    },
}
