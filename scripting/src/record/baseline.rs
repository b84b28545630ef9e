//! The comparison of a map with a stored one.

use serde::{Deserialize, Serialize};
use std::path::PathBuf;

/// The comparison of a map with a stored one.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub struct BaselineReport {
    /// The baseline file.
    #[serde(with = "crate::files::told_path::one")]
    pub path: PathBuf,
    /// The differences, in words, a line each: first the parameters, then the rows that moved; empty when nothing
    /// moved.
    pub moved: Vec<String>,
    /// The inputs, numbers of the table and parts of the rule that are not as stored, also where nothing moved.
    pub parameters: Vec<MovedParameter>,
    /// Rows whose verdict changed at an edge, in words, a line each.
    pub warnings: Vec<String>,
    /// What should be known although nothing moved.
    pub notes: Vec<String>,
    /// The text the file would have if the map as it is were accepted.
    pub text: String,
    /// Whether the map as it is was accepted: the file is rewritten once what moved has been
    /// shown.
    pub accepted: bool,
    /// Why the map as it is was not accepted although the user asked for that.
    pub refused: Option<String>,
    /// The name of the picture of before, after and the difference, where there is one.
    pub picture: Option<String>,
}

/// A parameter that is not as stored.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct MovedParameter {
    /// Its name in scripts and files, such as `restitution`.
    pub name: String,
    /// Its stored value, with its unit.
    pub was: String,
    /// Its value now.
    pub is: String,
    /// The change in a sentence.
    pub words: String,
}
