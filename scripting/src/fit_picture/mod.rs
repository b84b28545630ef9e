//! A fit's findings as pictures: the title is the finding, the first line under it the question. Nothing is
//! computed about the table here.

mod banks;
mod numbers;
mod page;
mod pairs;

pub use banks::banks_picture;
pub use numbers::numbers_picture;
pub use pairs::pairs_picture;

use crate::fitting::FitFindings;
use crate::picture::FitPicture;

/// Every picture of a fit, by the name of its file.
pub fn fit_pictures(found: &FitFindings) -> [(&'static str, FitPicture); 3] {
    [
        ("banks", banks_picture(found)),
        ("numbers", numbers_picture(found)),
        ("pairs", pairs_picture(found)),
    ]
}
