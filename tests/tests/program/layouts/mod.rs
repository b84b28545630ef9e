//! Layouts that say where balls lie as people do: what they mean, and the shots that are
//! played from them.

mod cue_room;
mod pictures;
mod places;
mod shots;
mod strokes;

use railproof::fault::Fault;
use railproof::layout::{Layout, LayoutBall, parse_layout};
use std::path::Path;

/// A bank with the cue ball straight behind the object ball; invented.
const BANK: &str = "\
equipment: nine-foot
target: {pocket: foot-right, ball: object}
balls:
  cue: {behind: object, heading: {line: {contact: 2, start: 4.4}}, gap: 30 cm}
  object: {on_line: {contact: 2, start: 4.4}, off_rail: 12 in}
stroke:
  speed: 3 m/s
  aim_at: {behind: object, heading: {line: {contact: 2, start: 4.4}}}
";

fn read(text: &str) -> Result<Layout, Fault> {
    parse_layout(text, "shot.yaml", Path::new("/nowhere"))
}

fn good(text: &str) -> Layout {
    read(text).unwrap_or_else(|fault| panic!("{fault}\n{text}"))
}

/// A layout of these balls, counted from the foot right pocket.
fn of_balls(balls: &str) -> String {
    format!("equipment: nine-foot\ntarget: {{pocket: foot-right, ball: object}}\nballs:\n{balls}")
}

fn ball<'a>(layout: &'a Layout, name: &str) -> &'a LayoutBall {
    let found = layout.balls.iter().find(|ball| ball.name == name);
    found.unwrap_or_else(|| panic!("no ball `{name}`"))
}

/// The text with one stretch replaced.
fn with(text: &str, from: &str, to: &str) -> String {
    assert_eq!(text.matches(from).count(), 1, "`{from}` must be in the layout once:\n{text}");
    text.replace(from, to)
}
