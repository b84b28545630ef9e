//! Layouts: YAML files that put balls on a table, for a single shot.
//!
//! A layout names or holds its equipment and says where each ball lies: by coordinates in the table
//! frame (origin at the table's centre, x along the long side towards the foot rail, y towards the
//! left rail, z up), by rail numbers, between places, behind other balls. A ball moves because it is
//! given a velocity, or because the cue strikes it. What happens then is not decided here.

mod aim;
pub(crate) mod cue_room;
pub(crate) mod draft;
mod engine;
mod guide;
mod model;
pub(crate) mod names;
pub(crate) mod obstacle;
mod parts;
mod picture_words;
pub(crate) mod places;
pub(crate) mod read;
pub(crate) mod resolve;
pub(crate) mod spot;
pub(crate) mod tables;
mod varied;

pub use engine::EngineChoice;
pub use guide::layout_guide;
pub(crate) use guide::{GROUPS, NamedGroup};
pub use model::Layout;
pub(crate) use model::{CUE, OBJECT, SPEED_UNIT};
pub use parts::{AskedWay, LayoutBall, LayoutStroke, LayoutTarget};
pub(crate) use picture_words::PICTURE_KEYS;
pub use picture_words::{PICTURE_SIZES, PictureWords};
pub(crate) use tables::unit_of_plain;
pub use tables::{POSITION, SPIN, UNTIL, VELOCITY};
pub(crate) use varied::VariedLayout;

use draft::{Draft, EquipmentSource};

use crate::fault::Fault;
use crate::profile::{assemble, find_profile};
use crate::yaml::InputText;
use railproof_engine::equipment::Equipment;
use railproof_engine::world::World;
use std::path::Path;
use std::sync::Arc;

/// Reads a layout from a file; a profile's path in it is relative to the file.
///
/// # Errors
/// A [`Fault`] with its place: whatever is wrong with the file or its profile, a ball or an obstacle
/// that can't lie where it is said to, a stroke that can't be played, or a speed or spin out of range.
pub fn load_layout(path: &Path) -> Result<Layout, Fault> {
    let folder = path.parent().unwrap_or(Path::new(""));
    of_source(&InputText::open(path)?, folder)
}

/// Reads a layout from text; `label` is what messages call it, and a profile's path in it is
/// relative to `folder`.
///
/// # Errors
/// As [`load_layout`].
pub fn parse_layout(text: &str, label: &str, folder: &Path) -> Result<Layout, Fault> {
    of_source(&InputText::new(label, text)?, folder)
}

fn of_source(source: &InputText, folder: &Path) -> Result<Layout, Fault> {
    // A fault inside the profile keeps its place there.
    let named = |reference: &str| find_profile(reference, folder);
    read_with(source, &named, None).map(|(layout, _)| layout)
}

/// Refuses a value that its key can't take, whatever the equipment and the places of the balls.
///
/// # Errors
/// The first such value, with its place.
pub(crate) fn check_values(source: &InputText) -> Result<(), Fault> {
    draft_of(source).map(drop)
}

fn draft_of(source: &InputText) -> Result<Draft, Fault> {
    let values = source.read(&tables::LAYOUT)?;
    read::layout(&values).map_err(|refusal| source.refused(&refusal, &[]))
}

/// A layout from its text, whose equipment `named` finds by its name, and its table: the known one where
/// it is the same.
///
/// # Errors
/// As [`load_layout`].
pub(crate) fn read_with(
    source: &InputText,
    named: &dyn Fn(&str) -> Result<Equipment, Fault>,
    known: Option<&Arc<World>>,
) -> Result<(Layout, Arc<World>), Fault> {
    let mut draft = draft_of(source)?;
    let within = ["equipment"];
    let nothing = EquipmentSource::Named(String::new());
    let equipment = match std::mem::replace(&mut draft.equipment, nothing) {
        EquipmentSource::Inline(sections) => assemble(&sections, source, &within)?,
        EquipmentSource::Named(reference) => {
            named(&reference).map_err(|fault| match fault.place {
                Some(_) => fault,
                None => fault.at(source.place_of(&within)),
            })?
        }
    };
    resolve::resolved(equipment, draft, source, known)
}
