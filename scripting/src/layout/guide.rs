//! Every key of a layout as a text for people.

use super::keys::{
    BALL, HEADING, Key, LINE, OBSTACLE, PLACE_ONLY, SEND, SPOT, STROKE, TARGET, TOP,
};
use std::fmt::Write;

/// Every key of a layout with what it means.
pub fn layout_guide() -> String {
    let mut out = String::from("A layout, in YAML. Quantities carry their units: 12 in, 3 m/s.\n");
    let sections: [(&str, &[&[Key]]); 9] = [
        ("the layout", &[&TOP]),
        ("target", &[&TARGET]),
        ("a ball, and any place", &[&SPOT]),
        ("a ball besides", &[&BALL]),
        ("a place besides, where it is not a ball's own", &[&PLACE_ONLY]),
        ("a line of rail numbers", &[&LINE]),
        ("heading, one of", &[&HEADING]),
        ("stroke, with one of aim_at, aim and send", &[&STROKE, &SEND]),
        ("an obstacle", &[&OBSTACLE]),
    ];
    for (title, groups) in sections {
        let _ = writeln!(out, "{title}:");
        for (index, keys) in groups.iter().enumerate() {
            let indent = if index == 0 { "  " } else { "    send: " };
            for (key, meaning) in *keys {
                let _ = writeln!(out, "{indent}{key}: {meaning}");
            }
        }
    }
    out
}
