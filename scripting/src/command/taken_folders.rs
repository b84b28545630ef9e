//! No two scenarios of one command write to one folder.

use crate::fault::Fault;
use std::collections::BTreeMap;
use std::ffi::OsString;
use std::path::Path;

/// The folders that are taken, each with the file that takes it. Names that differ in case only would be one folder on
/// some systems.
#[derive(Debug, Default)]
pub(super) struct TakenFolders<'f>(BTreeMap<OsString, &'f Path>);

impl<'f> TakenFolders<'f> {
    /// Takes a folder for a file; `verb` is what the command does with files.
    ///
    /// # Errors
    /// Another file has taken it.
    pub(super) fn take(&mut self, folder: &Path, file: &'f Path, verb: &str) -> Result<(), Fault> {
        let Some(other) = self.0.insert(folder.as_os_str().to_ascii_lowercase(), file) else {
            return Ok(());
        };
        Err(Fault::bad_input(format!(
            "`{}` and `{}` would write to the same folder",
            other.display(),
            file.display()
        ))
        .with_hint(format!("{verb} them one at a time, each with its own --into")))
    }
}
