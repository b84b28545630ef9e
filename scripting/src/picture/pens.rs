//! How the drawing library is told the look of lines and text.

use super::canvas::{Anchor, Lettering, STEPS_PER_UNIT};
use super::colours::Rgb;
use super::font::{self, Weight};
use plotters_backend::text_anchor::{HPos, Pos, VPos};
use plotters_backend::{
    BackendColor, BackendStyle, BackendTextStyle, FontFamily, FontStyle, FontTransform,
};

/// The family that text asks for; the embedded face comes first under this name.
const FAMILY: &str = "DejaVu Sans, sans-serif";

/// The drawing library puts a text's baseline this many ems under its top, and shrinks a size by
/// this divisor to get the em.
pub(super) const TOP_TO_BASELINE_EM: f64 = 0.76;
const SIZE_TO_EM: f64 = 1.24;

pub(super) fn paint((r, g, b): Rgb, opacity: f64) -> BackendColor {
    BackendColor { alpha: opacity, rgb: (r, g, b) }
}

pub(super) struct Pen {
    pub(super) colour: Rgb,
    pub(super) opacity: f64,
    pub(super) width: u32,
}

impl Pen {
    pub(super) fn new(colour: Rgb, opacity: f64, width: u32) -> Self {
        Self { colour, opacity, width }
    }
}

impl BackendStyle for Pen {
    fn color(&self) -> BackendColor {
        paint(self.colour, self.opacity)
    }

    fn stroke_width(&self) -> u32 {
        self.width
    }
}

/// Text in the embedded font, placed alike by both backends. The drawing library's own text
/// leaves out each glyph's bearing, which sets letters unevenly.
pub(super) struct Style {
    pub(super) anchor: Anchor,
    pub(super) turned: bool,
    pub(super) lettering: Lettering,
}

impl Style {
    fn em_in_steps(&self) -> f64 {
        self.lettering.em * f64::from(STEPS_PER_UNIT)
    }
}

impl BackendTextStyle for Style {
    type FontError = std::convert::Infallible;

    fn color(&self) -> BackendColor {
        paint(self.lettering.colour, 1.0)
    }

    fn size(&self) -> f64 {
        // Whole hundredths keep the numbers in the SVG short.
        (self.em_in_steps() * SIZE_TO_EM * 100.0).round() / 100.0
    }

    fn transform(&self) -> FontTransform {
        if self.turned { FontTransform::Rotate270 } else { FontTransform::None }
    }

    fn style(&self) -> FontStyle {
        match self.lettering.weight {
            Weight::Regular => FontStyle::Normal,
            Weight::Bold => FontStyle::Bold,
        }
    }

    fn anchor(&self) -> Pos {
        let h_pos = match self.anchor {
            Anchor::Start => HPos::Left,
            Anchor::Middle => HPos::Center,
            Anchor::End => HPos::Right,
        };
        Pos { h_pos, v_pos: VPos::Top }
    }

    fn family(&self) -> FontFamily<'_> {
        FontFamily::Name(FAMILY)
    }

    fn layout_box(&self, text: &str) -> Result<((i32, i32), (i32, i32)), Self::FontError> {
        let long = font::width(text, self.em_in_steps(), self.lettering.weight);
        #[expect(clippy::cast_possible_truncation, reason = "text is cut to the page before")]
        Ok(((0, 0), (long.round() as i32, self.em_in_steps().round() as i32)))
    }

    fn draw<E, DrawFunc: FnMut(i32, i32, BackendColor) -> Result<(), E>>(
        &self,
        text: &str,
        (x, y): (i32, i32),
        mut draw: DrawFunc,
    ) -> Result<Result<(), E>, Self::FontError> {
        let em = self.em_in_steps();
        #[expect(clippy::cast_possible_truncation, reason = "an em is some tens of steps")]
        let baseline = y + (TOP_TO_BASELINE_EM * em).round() as i32;
        Ok(font::rasterise(text, em, self.lettering.weight, |dx, dy, coverage| {
            draw(x + dx, baseline + dy, paint(self.lettering.colour, f64::from(coverage)))
        }))
    }
}
