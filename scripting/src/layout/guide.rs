//! Every key of a layout as a text for people.

use super::keys::{
    AIMS, BALL, HEADING, Key, LAUNCH, LINE, OBSTACLE, PLACE_ONLY, SEND, SPOT, STRUCK, TARGET, TIP,
    TOP,
};
use std::fmt::Write;

/// Every key of a layout with what it means.
pub fn layout_guide() -> String {
    let mut out = String::from("A layout, in YAML. Quantities carry their units: 12 in, 3 m/s.\n");
    let sections: [(&str, &[&[Key]]); 11] = [
        ("the layout", &[&TOP]),
        ("target", &[&TARGET]),
        ("a ball, and any place", &[&SPOT]),
        ("a ball besides", &[&BALL]),
        ("launch", &[&LAUNCH]),
        ("a place besides, where it is not a ball's own", &[&PLACE_ONLY]),
        ("a line of rail numbers", &[&LINE]),
        ("heading, one of", &[&HEADING]),
        ("stroke, with one of aim, aim_at, send and ghost", &[&STRUCK, &AIMS, &TIP]),
        ("send and ghost", &[&SEND]),
        ("an obstacle", &[&OBSTACLE]),
    ];
    for (title, groups) in sections {
        let _ = writeln!(out, "{title}:");
        for (key, meaning) in groups.iter().copied().flatten() {
            let _ = writeln!(out, "  {key}: {meaning}");
        }
    }
    out
}
