//! Pictures that an earlier run left.

use crate::fault::tame;
use std::path::PathBuf;

/// A line that tells of pictures which would pass as those of a run that left none; empty without any.
pub fn of_an_earlier_run(pictures: &[PathBuf]) -> String {
    const WHOSE: &str = "nothing was drawn now; from an earlier run";
    match pictures {
        [] => String::new(),
        [first] => format!("{WHOSE}: {}\n", tame(&first.display().to_string())),
        [first, others @ ..] => format!(
            "{WHOSE}: {} and {} beside it\n",
            tame(&first.display().to_string()),
            others.len()
        ),
    }
}
