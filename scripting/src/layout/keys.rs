//! Every key of a layout, what it means and what it accepts: the one place where they stand.

use railproof_engine::equipment::Parameter;
use railproof_engine::rail::{Pocket, Rail, RailChoice};
use railproof_engine::units::Dimension;

/// Accepted coordinates of a ball's centre; the table limits them further.
pub const POSITION: Parameter = Parameter::new("position", Dimension::Length, -4.0, 4.0, "m");
/// Accepted velocity components; the same limit holds for the speed.
pub const VELOCITY: Parameter = Parameter::new("velocity", Dimension::Speed, -50.0, 50.0, "m/s");
/// Accepted spin components; the same limit holds for the whole spin.
pub const SPIN: Parameter = Parameter::new("spin", Dimension::SpinRate, -5000.0, 5000.0, "rad/s");
/// Side of a ball that is sent off: the spin about z times the radius over the speed.
pub(crate) const SPIN_SIDE: Parameter =
    Parameter::new("spin_side", Dimension::Ratio, -3.0, 3.0, "");
/// Accepted end times.
pub const UNTIL: Parameter = Parameter::new("until", Dimension::Time, 0.0, 3600.0, "s");

pub(crate) const NUMBER: Parameter = rail_number("number");
pub(crate) const CONTACT: Parameter = rail_number("contact");
pub(crate) const START: Parameter = rail_number("start");
pub(crate) const OFF_RAIL: Parameter = Parameter::new("off_rail", Dimension::Length, 0.0, 4.0, "m");
pub(crate) const SHARE: Parameter = Parameter::new("share", Dimension::Ratio, 0.0, 1.0, "");
pub(crate) const GAP: Parameter = Parameter::new("gap", Dimension::Length, 0.0, 4.0, "m");
pub(crate) const ANGLE: Parameter = Parameter::new("angle", Dimension::Angle, -360.0, 360.0, "deg");
pub(crate) const AIM: Parameter = Parameter::new("aim", Dimension::Angle, -360.0, 360.0, "deg");
pub(crate) const TIP_SIDE: Parameter = Parameter::new("tip_side", Dimension::Ratio, -1.0, 1.0, "");
pub(crate) const TIP_HEIGHT: Parameter =
    Parameter::new("tip_height", Dimension::Ratio, -1.0, 1.0, "");
pub(crate) const MIDDLE: Parameter = Parameter::new("middle", Dimension::Length, -4.0, 4.0, "m");
pub(crate) const CORNERS: Parameter = Parameter::new("corners", Dimension::Length, -4.0, 4.0, "m");
pub(crate) const LENGTH: Parameter = Parameter::new("length", Dimension::Length, 0.001, 4.0, "m");
pub(crate) const WIDTH: Parameter = Parameter::new("width", Dimension::Length, 0.001, 4.0, "m");
pub(crate) const TURNED: Parameter =
    Parameter::new("turned", Dimension::Angle, -360.0, 360.0, "deg");

/// Past a rail's end numbers go on; a long rail has eight.
const fn rail_number(name: &'static str) -> Parameter {
    Parameter::new(name, Dimension::Ratio, -20.0, 20.0, "")
}

pub(crate) const RAILS: [&str; Rail::ALL.len()] = {
    let mut names = [""; Rail::ALL.len()];
    let mut at = 0;
    while at < names.len() {
        names[at] = Rail::ALL[at].name();
        at += 1;
    }
    names
};

pub(crate) const RAIL_CHOICES: [&str; RailChoice::ALL.len()] = {
    let mut names = [""; RailChoice::ALL.len()];
    let mut at = 0;
    while at < names.len() {
        names[at] = RailChoice::ALL[at].name();
        at += 1;
    }
    names
};

pub(crate) const POCKETS: [&str; Pocket::ALL.len()] = {
    let mut names = [""; Pocket::ALL.len()];
    let mut at = 0;
    while at < names.len() {
        names[at] = Pocket::ALL[at].name();
        at += 1;
    }
    names
};

/// The word for an elevation that is left to the cue's room.
pub(crate) const LEAST: &str = "least";

/// A key, and what it means.
pub(crate) type Key = (&'static str, &'static str);

pub(crate) const TOP: [Key; 7] = [
    ("equipment", "a shipped profile's name, a profile's path, or the profile itself"),
    ("target", "what the shot is for; may be left out"),
    (
        "balls",
        "each ball by a name of your own: where it lies, and how it moves if it is not struck",
    ),
    ("stroke", "the cue's stroke; may be left out"),
    ("obstacles", "things laid on the table, each by a name of your own; may be left out"),
    (
        "engine",
        "event, or stepped: a second opinion on rigid bodies, planar and slow; when left out: event",
    ),
    ("until", "when to stop watching; when left out: when every ball rests"),
];

pub(crate) const TARGET: [Key; 2] = [
    ("pocket", "the pocket meant; rail numbers are counted from it too"),
    ("ball", "the ball meant for it; when left out: the only ball that is not struck"),
];

/// Where a ball lies: exactly one of the places, with what belongs to it.
pub(crate) const SPOT: [Key; 12] = [
    (
        "position",
        "[x, y] from the table's middle: x towards the foot rail, y towards the left rail",
    ),
    ("on_rail", "head, foot, left or right: the ball lies beside this rail"),
    ("number", "with on_rail: at this number, in diamonds, where the centre is"),
    (
        "counted_from",
        "with on_rail or a line: counted from this pocket; when left out: the target's",
    ),
    (
        "off_rail",
        "with on_rail or on_line: so far off the rail, square to it; when left out: 0 in, frozen",
    ),
    ("on_line", "the ball lies on this line of rail numbers"),
    ("between", "[one, other]: the ball lies between two places; a ball's name is a place too"),
    ("share", "with between: how far from the one to the other; when left out: 0.5"),
    ("behind", "the ball lies behind this ball, seen the way that one is to go"),
    ("in_front_of", "the ball lies in front of this ball, seen the way that one is to go"),
    ("heading", "with behind or in_front_of: the way that ball is to go"),
    ("gap", "with behind or in_front_of: room between the two; when left out: 0 in, they touch"),
];

/// The further keys of a ball.
pub(crate) const BALL: [Key; 5] = [
    ("velocity", "[x, y]; when left out: at rest"),
    ("spin", "[x, y, z] by the right-hand rule, z up; when left out: none"),
    ("launch", "sent off without a stroke, instead of a velocity and a spin"),
    ("diameter", "when left out: the equipment's"),
    ("mass", "when left out: the equipment's"),
];

/// A ball that is sent off without a stroke.
pub(crate) const LAUNCH: [Key; 4] = [
    ("speed", "as it sets off"),
    ("heading", "the way it is to go"),
    ("roll", "a fraction of natural roll: 0 slides, 1 rolls; when left out: 0"),
    (
        "spin_side",
        "side spin times the radius over the speed, by the right-hand rule, z up; when left out: 0",
    ),
];

/// A place that is not a ball's own.
pub(crate) const PLACE_ONLY: [Key; 1] = [("pocket", "the middle of this pocket's mouth")];

pub(crate) const LINE: [Key; 5] = [
    ("contact", "contact number, in diamonds"),
    ("start", "start number, in diamonds"),
    ("rail", "the rail it banks off: head, foot, left, right, long or end; when left out: long"),
    ("counted_from", "the pocket; when left out: the target's"),
    ("reading", "groove or sight; when left out: groove"),
];

pub(crate) const HEADING: [Key; 3] = [
    ("to", "to a place"),
    ("line", "along a line of rail numbers, from its start to its contact"),
    ("angle", "an angle from x (0 deg) towards y (90 deg)"),
];

/// Whom a stroke strikes; a scenario's layout always strikes the one named cue.
pub(crate) const STRUCK: [Key; 1] =
    [("ball", "the ball that is struck; when left out: the one named cue")];

/// Where the cue points: exactly one of these.
pub(crate) const AIMS: [Key; 4] = [
    ("aim", "point the cue at an angle from x (0 deg) towards y (90 deg)"),
    ("aim_at", "point the cue at a place"),
    ("send", "point the cue so that a ball goes that way, with squirt, swerve and throw in it"),
    ("ghost", "point the cue at the ghost ball's place for a ball to go that way"),
];

/// The keys of the tip's place on the ball.
pub(crate) const TIP: [Key; 5] = [
    ("speed", "the ball's speed along the cue as it leaves the tip"),
    (
        "tip_side",
        "the tip right (+) or left (−) of the middle, as a share of the radius; when left out: 0",
    ),
    (
        "tip_height",
        "the tip above (+) or below (−) the middle, as a share of the radius; when left out: 0",
    ),
    (
        "elevation",
        "how far the cue points down, or least: as little as rails, balls and obstacles leave it room; \
         when left out: least",
    ),
    ("allow_miscue", "yes to play on where the tip would slip off; when left out: no"),
];

/// With `send` and `ghost`; in a scenario the ball is the one meant for the pocket.
pub(crate) const SEND: [Key; 2] =
    [("ball", "the ball to send"), ("heading", "the way it is to go")];

pub(crate) const OBSTACLE: [Key; 8] = [
    ("middle", "[x, y] of a rectangle"),
    ("length", "with middle: along the table, before it is turned"),
    ("width", "with middle: across the table, before it is turned"),
    ("turned", "with middle: turned so far from x towards y; when left out: 0 deg"),
    ("corners", "[[x, y], …] of any convex shape, in order; instead of middle"),
    ("height", "over the cloth, for a cue that passes over it; when left out: 6 cm"),
    ("restitution", "of a ball off it; when left out: 0.5"),
    ("friction", "of a ball against it; when left out: 0.2"),
];

/// The keys' own words.
pub(crate) fn words(keys: &'static [Key]) -> impl Iterator<Item = &'static str> + Clone {
    keys.iter().map(|(key, _)| *key)
}

/// The words of several groups of keys as one list.
pub(crate) const fn joined<const N: usize>(groups: &[&[Key]]) -> [&'static str; N] {
    let mut all = [""; N];
    let (mut at, mut group) = (0, 0);
    while group < groups.len() {
        let mut key = 0;
        while key < groups[group].len() {
            all[at] = groups[group][key].0;
            at += 1;
            key += 1;
        }
        group += 1;
    }
    assert!(at == N, "the list has another length than its groups");
    all
}
