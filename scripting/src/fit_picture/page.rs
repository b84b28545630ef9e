//! What the pictures of a fit have in common: the words around them, and intervals.

use crate::fitting::FitFindings;
use crate::picture::{DrawnInterval, FitBody, FitPicture, PictureLook, true_minus};
use crate::telling::caution::Cautions;
use crate::telling::fit_conditions;
use railproof_engine::ask::CredibleInterval;

/// The picture of these findings, with the cautions of the banks under it.
pub(super) fn picture(
    found: &FitFindings,
    title: &str,
    asked: &str,
    body: FitBody,
    mut notes: Vec<String>,
) -> FitPicture {
    notes.extend(Cautions::of_fit(found).lines());
    FitPicture {
        title: true_minus(title),
        subtitles: vec![asked.to_owned(), fit_conditions(found)],
        body,
        notes,
        look: PictureLook::default(),
    }
}

/// The title where there is nothing to find anything in.
pub(super) const NO_BANK: &str = "No bank was measured: this is what is known of any table";

/// An interval in another unit.
pub(super) fn drawn(interval: &CredibleInterval, si: f64) -> DrawnInterval {
    let both = |(from, to): (f64, f64)| (from / si, to / si);
    DrawnInterval {
        middle: interval.middle / si,
        half: both(interval.half),
        ninety: both(interval.ninety),
    }
}
