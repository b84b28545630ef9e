//! Groups of fields that people write, in Lua or in YAML alike: every field with its name, kind, range,
//! default and meaning.
//!
//! The tables themselves stand with the things that they describe, in [`crate::profile`] and
//! [`crate::layout`]. Each language has a front end that takes a table and a written value and makes
//! [`GroupValues`] of them; ranges, words and messages are decided here for both.

mod amounts;
mod group;
mod guide;
mod read;
mod refusal;
mod scalar;
mod text;
mod values;
mod words;
mod writing;

/// The hint at a lag that no stroke rolls.
pub(crate) const FEWER_LENGTHS: &str = "take fewer lengths, or give the speed in m/s";

pub(crate) use amounts::{everyday_unit, signed_hint};
pub(crate) use group::{Field, FieldKind, Group, Without, listed, quantity_expected, shortened};
pub(crate) use guide::guide;
pub(crate) use read::{check_kept_name, check_name, in_range, is_frozen, place_among};
pub use refusal::Within;
pub(crate) use refusal::{Refusal, subject};
pub use scalar::Mismatch;
pub(crate) use scalar::Scalar;
pub(crate) use text::{LIKE, WrittenText};
pub(crate) use values::{FieldValue, GroupValues};
pub(crate) use words::{Worded, words};
pub use writing::plain_shown;
pub(crate) use writing::{CONSTRUCTORS, Example, Writing};
