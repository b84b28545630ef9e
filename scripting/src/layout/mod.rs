//! Layouts: YAML files that put balls on a table, for a single shot.
//!
//! A layout names or holds its equipment and gives each ball its place, velocity and spin in the
//! table frame: origin at the table's centre, x along the long side, y along the short side, z up.
//! What happens to the balls is not decided here.

mod balls;
mod checks;
mod entries;

pub use balls::{POSITION, SPIN, UNTIL, VELOCITY};

use crate::fault::Fault;
use crate::profile::{Sections, assemble, find_profile};
use crate::yaml::{Mapping, Reader, Source};
use railproof_engine::equipment::Equipment;
use railproof_engine::motion::BallState;
use std::path::Path;

/// Balls on a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// What they are played with.
    pub equipment: Equipment,
    /// The balls by name, in the file's order; at least one.
    pub balls: Vec<(String, BallState)>,
    /// When to stop, s; `None` when everything has come to rest.
    pub until_s: Option<f64>,
}

/// Where a layout's equipment comes from.
pub(crate) enum EquipmentSource {
    /// A shipped profile's name or a path.
    Named(String),
    /// Written out in the layout.
    Inline(Box<Sections>),
}

/// Reads a layout from a file; a profile's path in it is relative to the file.
///
/// # Errors
/// A [`Fault`] with its place: whatever is wrong with the file or its profile, a ball off the
/// table, two balls in one place, or a speed or spin out of range.
pub fn load_layout(path: &Path) -> Result<Layout, Fault> {
    let folder = path.parent().unwrap_or(Path::new(""));
    read(&Source::open(path)?, folder)
}

/// Reads a layout from text; `label` is what messages call it, and a profile's path in it is
/// relative to `folder`.
///
/// # Errors
/// As [`load_layout`].
pub fn parse_layout(text: &str, label: &str, folder: &Path) -> Result<Layout, Fault> {
    read(&Source::new(label, text)?, folder)
}

fn read(source: &Source, folder: &Path) -> Result<Layout, Fault> {
    let reader = Reader::default();
    let entries = entries::LayoutEntries::default();
    let draft = reader.read(source, Mapping { reader: &reader, entries })?;
    let within = ["equipment".to_owned()];
    let equipment = match draft.equipment {
        EquipmentSource::Inline(sections) => assemble(&sections, source, &within)?,
        EquipmentSource::Named(reference) => {
            // A fault inside the profile keeps its place there.
            find_profile(&reference, folder).map_err(|fault| match fault.place {
                Some(_) => fault,
                None => fault.at(source.place_of(&within)),
            })?
        }
    };
    let mut balls = draft.balls;
    checks::check_places(&mut balls, &equipment, source)?;
    Ok(Layout { equipment, balls, until_s: draft.until_s })
}
