//! The words that a layout has for its picture.

use crate::fields::{FieldValue, GroupValues};

/// The words for the size of a picture, and how much each enlarges it.
pub const PICTURE_SIZES: &[(&str, f64)] = &[("small", 0.6), ("medium", 1.0), ("large", 1.5)];

/// The keys of a layout that say something of its picture only.
pub(crate) const PICTURE_KEYS: [&str; 4] = ["title", "subtitle", "legend", "size"];

/// Title and look of a layout's picture, as far as it says them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PictureWords {
    /// The title.
    pub title: Option<String>,
    /// The line under it.
    pub subtitle: Option<String>,
    /// Whether lines and signs are explained.
    pub legend: Option<bool>,
    /// How much it is enlarged.
    pub size: Option<f64>,
}

/// The words of a layout.
pub(super) fn picture_words(values: &GroupValues) -> PictureWords {
    let text = |key: &str| values.text(key).map(str::to_owned);
    let size = match values.get("size") {
        Some(FieldValue::Word(word)) => PICTURE_SIZES.iter().find(|(known, _)| known == word),
        _ => None,
    };
    PictureWords {
        title: text("title"),
        subtitle: text("subtitle"),
        legend: values.has("legend").then(|| values.flag("legend")),
        size: size.map(|(_, size)| *size),
    }
}
