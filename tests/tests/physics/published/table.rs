//! The equipment that these checks vary.

use railproof::profile::{parse_profile, shipped_text};
use railproof_engine::equipment::Equipment;

/// The shipped nine-foot profile.
pub fn nine_foot() -> Equipment {
    let text = shipped_text("nine-foot").expect("it ships");
    parse_profile(text, "nine-foot").unwrap_or_else(|fault| panic!("{fault}"))
}
