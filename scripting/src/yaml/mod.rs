//! Small YAML files read so that every refusal knows its exact place.
//!
//! Checks run inside serde's visitors, because that is the only moment at which the YAML reader
//! knows line and column. What the equipment or a layout consists of is said by tables of fields.

mod extent;
mod group;
mod input;
mod locate;
mod reader;
mod screen;
mod slips;

pub(crate) use extent::extent;
pub(crate) use input::{InputText, LARGEST_FILE, mostly_inches};
pub(crate) use locate::KeyFinder;
pub(crate) use reader::found_in_words;
