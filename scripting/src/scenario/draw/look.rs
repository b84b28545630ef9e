//! The options that every picture takes: its look, and its words.

use crate::fault::Fault;
use crate::layout::PICTURE_SIZES;
use crate::lua::options::{Options, boolean, choice, text};
use crate::picture::{PictureLook, true_minus};
use crate::telling::sureness_once;

/// Legend and size as the options give them, or else as they are.
pub fn picture_look(options: &Options, otherwise: PictureLook) -> Result<PictureLook, Fault> {
    Ok(PictureLook {
        legend: options.optional("legend", boolean())?.unwrap_or(otherwise.legend),
        size: options.optional("size", choice(PICTURE_SIZES))?.unwrap_or(otherwise.size),
    })
}

/// The title and the lines under it: as the options give them, or else the finding, with the question
/// first under it. The finding stands under a title of the script's own.
pub fn headline(
    options: &Options,
    found: &str,
    asked: String,
    conditions: Vec<String>,
) -> Result<(String, Vec<String>), Fault> {
    let found = &sureness_once(found);
    let title = options.optional("title", text())?;
    let subtitle = options.optional("subtitle", text())?;
    let mut subtitles = conditions;
    let title = match title {
        Some(title) => {
            let found = (!found.is_empty()).then(|| found.to_owned());
            subtitles.splice(0..0, subtitle.or(found));
            title
        }
        None if found.is_empty() => {
            subtitles.splice(0..0, subtitle);
            asked
        }
        None => {
            subtitles.insert(0, subtitle.unwrap_or(asked));
            true_minus(found)
        }
    };
    Ok((title, subtitles))
}
