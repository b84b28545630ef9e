//! Faults of profiles: line ends, a byte order mark, and how a fault is drawn.

use super::{assert_fault, nine_foot_with};
use railproof::fault::Style;
use railproof::profile::parse_profile;

#[test]
fn windows_line_ends_and_a_byte_order_mark_change_nothing() {
    let text = nine_foot_with("mass: 170 g", "mass: 17 g").replace('\n', "\r\n");
    let fault = parse_profile(&format!("\u{feff}{text}"), "table.yaml").expect_err("too light");
    assert_fault(&fault, &text, "17 g", "from 50 g", "");
}

#[test]
fn the_drawn_message_has_line_caret_and_hint() {
    let text = nine_foot_with("  restitution_loss:", "  restitution_los:");
    let fault = parse_profile(&text, "table.yaml").expect_err("there is no such field");
    let shown = fault.render(Style::PLAIN);
    assert!(shown.contains("restitution_los: 0.0075 s/m"), "{shown}");
    assert!(shown.contains("did you mean `restitution_loss`?"), "{shown}");
    assert!(shown.contains("table.yaml:"), "{shown}");
    assert!(shown.contains('┬'), "{shown}");
}
