//! A fit's findings as pictures: the title is the finding, the first line under it the question. Nothing is
//! computed about the table here.

mod banks;
mod numbers;
mod page;
mod pairs;
mod sheet;

pub use banks::banks_picture;
pub use numbers::numbers_picture;
pub use pairs::pairs_picture;
pub use sheet::sheet_picture;

use crate::fitting::FitFindings;
use crate::picture::FitPicture;

/// Every picture of a fit, by the name of its file.
pub fn fit_pictures(found: &FitFindings) -> [(&'static str, FitPicture); 4] {
    [
        ("banks", banks_picture(found)),
        ("numbers", numbers_picture(found)),
        ("pairs", pairs_picture(found)),
        ("next", sheet_picture(&found.known, &found.told.next)),
    ]
}
