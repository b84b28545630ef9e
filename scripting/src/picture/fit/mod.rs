//! A fit of measured banks: banks as expected and as seen, numbers before and after, pairs of numbers, a sheet for
//! the next banks.

mod banks;
mod interval;
mod key;
mod numbers;
mod pairs;
mod sheet;

pub use banks::{BankPanel, BankRow, RailNumbers, SeenMark};
pub use interval::DrawnInterval;
pub use numbers::NumberStrip;
pub use pairs::{PairAxis, PairPanel};
pub use sheet::SheetRow;

use super::canvas::Canvas;
use super::error::PictureError;
use super::font;
use super::look::PictureLook;
use super::page::{self, MARGIN};

/// The body of a picture of a fit.
#[derive(Debug, Clone, PartialEq)]
pub enum FitBody {
    /// Each bank as expected and as seen, a panel for each kind of pocket.
    Banks(Vec<BankPanel>),
    /// Each number before and after the banks.
    Numbers(Vec<NumberStrip>),
    /// Pairs of numbers over the members.
    Pairs(Vec<PairPanel>),
    /// Banks to be measured, with boxes for a pencil.
    Sheet(Vec<SheetRow>),
}

/// A picture of a fit.
#[derive(Debug, Clone, PartialEq)]
pub struct FitPicture {
    /// Title of the picture.
    pub title: String,
    /// The question and the conditions in words, one line each.
    pub subtitles: Vec<String>,
    /// What is drawn.
    pub body: FitBody,
    /// Footnotes.
    pub notes: Vec<String>,
    /// Its look.
    pub look: PictureLook,
}

impl FitPicture {
    pub(super) fn canvas(&self) -> Result<Canvas, PictureError> {
        let mut canvas = Canvas::new(font::clean(&self.title), self.description());
        let width = match &self.body {
            FitBody::Banks(panels) => banks::width(panels),
            FitBody::Numbers(strips) => numbers::width(strips),
            FitBody::Pairs(panels) => pairs::width(panels),
            FitBody::Sheet(_) => sheet::width(),
        };
        canvas.width = width + 2.0 * MARGIN;
        let top = page::header(&mut canvas, &self.title, &self.subtitles);
        let bottom = match &self.body {
            FitBody::Banks(panels) => banks::draw(&mut canvas, panels, top)?,
            FitBody::Numbers(strips) => numbers::draw(&mut canvas, strips, top),
            FitBody::Pairs(panels) => pairs::draw(&mut canvas, panels, top)?,
            FitBody::Sheet(rows) => sheet::draw(&mut canvas, rows, top),
        };
        let bottom = if self.look.legend {
            let entries = match &self.body {
                FitBody::Banks(panels) => banks::key(panels),
                FitBody::Numbers(strips) => numbers::key(strips),
                FitBody::Pairs(panels) => pairs::key(panels),
                FitBody::Sheet(_) => Vec::new(),
            };
            key::draw(&mut canvas, &entries, bottom + 18.0)
        } else {
            bottom
        };
        let notes: Vec<String> = self.notes.iter().map(|note| font::clean(note)).collect();
        page::footer(&mut canvas, &notes, bottom + 22.0);
        Ok(canvas)
    }

    fn description(&self) -> String {
        let (axes, rest) = match &self.body {
            FitBody::Banks(panels) => ((banks::ALONG, "a row for each bank"), banks::said(panels)),
            FitBody::Numbers(strips) => {
                (("from low to high", "a row for each number"), numbers::said(strips))
            }
            FitBody::Pairs(panels) => (("one number of a pair", "the other"), pairs::said(panels)),
            FitBody::Sheet(rows) => {
                (("set-up and boxes", "a row for each bank"), sheet::said(rows))
            }
        };
        let rest = rest.into_iter().map(|text| font::clean(&text));
        page::description(&self.subtitles, axes, rest)
    }
}
