//! Equipment profiles: YAML files that describe a table, its ball, cloth and cushions.
//!
//! A complete profile makes an [`Equipment`]; a partial one, such as a cushion alone, is laid over
//! another. Every quantity is written with its unit and checked against the range that stands
//! beside its field in the engine. What the ranges are is decided there, not here.

mod checks;
mod fields;
mod lost_field;
mod partial;
mod sections;
mod shipped;
mod written;

pub use partial::Partial;
pub use shipped::{shipped_names, shipped_text};
pub use written::profile_text;
pub(crate) use written::quoted;

pub(crate) use checks::{PartsConflict, check_parts};
pub(crate) use fields::{INLINE_PROFILE, PROFILE, SECTIONS};
pub(crate) use partial::assemble;
pub(crate) use sections::{Sections, sections};

use crate::fault::{Fault, nearest};
use crate::renamed;
use crate::yaml::InputText;
use railproof_engine::equipment::Equipment;
use std::path::Path;

/// The table of a folder of one's own, beside its scenario.
pub const OWN_TABLE: &str = "my-table.yaml";

/// Reads a complete profile from a file.
///
/// # Errors
/// A [`Fault`] with its place: the file is missing, not an ordinary file, over 1 MiB, not UTF-8,
/// not YAML, lacks a section or a field, has one that is unknown or twice, or a value without its
/// unit, of another kind, or out of range.
pub fn load_profile(path: &Path) -> Result<Equipment, Fault> {
    Partial::read(&InputText::open(path)?)?.complete()
}

/// Reads a complete profile from text; `label` is what messages call it.
///
/// # Errors
/// As [`load_profile`].
pub fn parse_profile(text: &str, label: &str) -> Result<Equipment, Fault> {
    Partial::read(&InputText::new(label, text)?)?.complete()
}

/// Reads a profile with any of the sections from a file, to be laid over a complete one.
///
/// # Errors
/// As [`load_profile`], except that sections may be left out, though not all of them.
pub fn load_partial(path: &Path) -> Result<Partial, Fault> {
    Partial::read(&InputText::open(path)?)?.not_empty()
}

/// Reads a profile with any of the sections from text; `label` is what messages call it.
///
/// # Errors
/// As [`load_partial`].
pub fn parse_partial(text: &str, label: &str) -> Result<Partial, Fault> {
    Partial::read(&InputText::new(label, text)?)?.not_empty()
}

/// The profile that a person names: a shipped one by its bare name, or else a file, relative to
/// `folder`.
///
/// # Errors
/// As [`load_profile`]; an unknown bare name is answered with the shipped ones.
pub fn find_profile(reference: &str, folder: &Path) -> Result<Equipment, Fault> {
    Partial::read(&find(reference, folder, true)?)?.complete()
}

/// Whether a profile that a person names gives its lengths in inches; nothing where it has none or can't be
/// read.
pub fn in_inches(reference: &str, folder: &Path) -> Option<bool> {
    find(reference, folder, true).ok()?.in_inches()
}

/// As [`find_profile`], for profiles that may leave sections out.
///
/// # Errors
/// As [`load_partial`]; an unknown bare name is answered with the shipped ones.
pub fn find_partial(reference: &str, folder: &Path) -> Result<Partial, Fault> {
    Partial::read(&find(reference, folder, false)?)?.not_empty()
}

/// A profile's text; `whole` when it is to be a table and not a part of one.
fn find(reference: &str, folder: &Path, whole: bool) -> Result<InputText, Fault> {
    if let Some(text) = shipped_text(reference) {
        return InputText::new(&format!("{reference} (shipped)"), text);
    }
    let path = folder.join(reference);
    let is_bare = !reference.contains(['/', '\\', '.']);
    if is_bare && !path.exists() {
        let fault = Fault::bad_input(format!(
            "there is no shipped profile and no file named `{reference}`"
        ));
        let in_a_folder = shipped_names().find(|name| {
            name.rsplit_once('/')
                .is_some_and(|(_, last)| reference.len() > 3 && last.contains(reference))
        });
        let last = |name: &'static str| name.rsplit('/').next().unwrap_or(name);
        let near = || nearest(reference, shipped_names().map(last));
        let part = || in_a_folder.or_else(|| shipped_names().find(|it| Some(last(it)) == near()));
        let known = shipped_names().filter(|name| !(whole && name.contains('/')));
        let hint = renamed::hint(reference, known.clone())
            .or_else(|| {
                let near = part()?;
                Some(if known.clone().any(|name| name == near) {
                    format!("did you mean `{near}`?")
                } else {
                    format!(
                        "`{near}` is a cushion, laid over a table: `--cushion {near}`, or in a \
                         scenario cushion \"{near}\""
                    )
                })
            })
            .unwrap_or_else(|| renamed::hint_or_all(reference, known, "shipped profiles"));
        return Err(fault.with_hint(hint));
    }
    InputText::open(&path)
}
