//! The groups of fields of layouts, by the names under which help shows them.

use super::tables::{
    BALL, HEADING, LAUNCH, LAYOUT, LINE, OBSTACLE, PLACE, SCENARIO_STROKE, SEND, STROKE, TARGET,
};
use crate::fields::{Group, guide};

/// A group, its name and what it is.
pub(crate) type NamedGroup = (&'static str, &'static str, &'static Group);

/// Every group.
pub(crate) const GROUPS: [NamedGroup; 11] = [
    ("layout", "a layout in YAML; quantities carry their units: 12 in, 3 m/s", &LAYOUT),
    ("target", "what a shot is for", &TARGET),
    ("ball", "where a ball lies, by exactly one of the places, and how it moves", &BALL),
    ("launch", "a ball that is sent off without a stroke", &LAUNCH),
    ("place", "a place that is not a ball's own: exactly one of them", &PLACE),
    ("line", "a line of rail numbers", &LINE),
    ("heading", "a direction: exactly one of these", &HEADING),
    (
        "stroke",
        "a stroke in a layout, with one of aim, aim_at, send, gear, overcut and ghost",
        &STROKE,
    ),
    (
        "send",
        "which ball a stroke in a layout sends, by send, gear, overcut or ghost, and where",
        &SEND,
    ),
    (
        "scenario-stroke",
        "a stroke in a scenario: it strikes the ball named cue and sends the one meant for the pocket",
        &SCENARIO_STROKE,
    ),
    ("obstacle", "a thing laid on the table: a rectangle or corners", &OBSTACLE),
];

/// Every field of a layout as text for people.
pub fn layout_guide() -> String {
    let of_file = GROUPS.iter().filter(|(name, ..)| *name != "scenario-stroke");
    let shown = of_file.map(|(name, about, group)| format!("{name}: {about}\n{}", guide(group)));
    shown.collect::<Vec<_>>().join("\n")
}
