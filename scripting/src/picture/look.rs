//! The look of any picture that its author chooses.

/// Whether a picture has a legend, and its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PictureLook {
    /// Whether it explains its colours and signs.
    pub legend: bool,
    /// Its size, 1 as it is laid out.
    pub size: f64,
}

impl Default for PictureLook {
    fn default() -> Self {
        Self { legend: true, size: 1.0 }
    }
}
