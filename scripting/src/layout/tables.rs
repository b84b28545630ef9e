//! Every field of a layout, what it means and what it accepts: the one place where they stand.

use super::engine::EngineChoice;
use super::picture_words::PICTURE_SIZES;
use crate::fields::{Example, Field, FieldKind, Group, Without, words};
use crate::profile::INLINE_PROFILE;
use railproof_engine::bank::Launch;
use railproof_engine::equipment::{Ball, Parameter};
use railproof_engine::rail::{Line, Pocket, Rail, RailChoice, Reading};
use railproof_engine::shot::MOST_BALLS;
use railproof_engine::stroke::Stroke;
use railproof_engine::units::Dimension;
use railproof_engine::world::Obstacle;

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
pub(crate) const CONTACT: Parameter = Line::CONTACT;
pub(crate) const START: Parameter = Line::START;
pub(crate) const OFF_RAIL: Parameter = Parameter::new("off_rail", Dimension::Length, 0.0, 4.0, "m");
pub(crate) const SHARE: Parameter = Parameter::new("share", Dimension::Ratio, 0.0, 1.0, "");
pub(crate) const GAP: Parameter = Parameter::new("gap", Dimension::Length, 0.0, 4.0, "m");
pub(crate) const ANGLE: Parameter = Parameter::new("angle", Dimension::Angle, -360.0, 360.0, "deg");
pub(crate) const AIM: Parameter = Parameter::new("aim", Dimension::Angle, -360.0, 360.0, "deg");
pub(crate) const TIP_SIDE: Parameter = tip_offset("tip_side");
pub(crate) const TIP_HEIGHT: Parameter = tip_offset("tip_height");
pub(crate) const MIDDLE: Parameter = Parameter::new("middle", Dimension::Length, -4.0, 4.0, "m");
pub(crate) const CORNERS: Parameter = Parameter::new("corners", Dimension::Length, -4.0, 4.0, "m");
pub(crate) const LENGTH: Parameter = Parameter::new("length", Dimension::Length, 0.001, 4.0, "m");
pub(crate) const WIDTH: Parameter = Parameter::new("width", Dimension::Length, 0.001, 4.0, "m");
pub(crate) const TURNED: Parameter =
    Parameter::new("turned", Dimension::Angle, -360.0, 360.0, "deg");

/// The ball ends at 1, where the tip passes it.
const fn tip_offset(name: &'static str) -> Parameter {
    Parameter::new(name, Dimension::Ratio, -0.999, 0.999, "")
}

/// Past a rail's end numbers go on; a long rail has eight.
const fn rail_number(name: &'static str) -> Parameter {
    Parameter::new(name, Dimension::Ratio, -20.0, 20.0, "")
}

/// The unit of the plain numbers at a key of a layout: rail numbers are in diamonds, others have none.
pub(crate) fn unit_of_plain(key: &str) -> &'static str {
    let name = key.rsplit('.').next().unwrap_or(key);
    if [NUMBER, CONTACT, START].iter().any(|rail| rail.name == name) { "diamonds" } else { "" }
}

/// The word for an elevation that is left to the cue's room.
pub(crate) const LEAST: &str = "least";

/// The example that most headings are shown by.
pub(super) const TO_POCKET: Example =
    Example::Fields(&[("to", Example::Fields(&[("pocket", Example::Word("foot-right"))]))]);
const ALONG_LINE: Example = Example::Fields(&[(
    "line",
    Example::Fields(&[("contact", Example::Number(2.0)), ("start", Example::Number(4.4))]),
)]);

const ZERO: Without = Without::Number(0.0);
const HEADING_KIND: FieldKind = FieldKind::Group(&HEADING);
const LINE_KIND: FieldKind = FieldKind::Group(&LINE);
/// A place: a ball's name or values that say where.
pub(crate) const PLACE_KIND: FieldKind = FieldKind::NameOr("a ball's name or a place", || &PLACE);
const POCKET_KIND: FieldKind = FieldKind::Word(words::<Pocket>);
const COUNTED_FROM: Field = Field::new(
    "counted_from",
    POCKET_KIND,
    "with rail numbers: the pocket from which they are counted",
)
.or(Without::Says("the target's"));

const fn point(each: Parameter) -> FieldKind {
    FieldKind::Vector { each, count: 2, whole: false }
}

/// A layout in a file.
pub(crate) static LAYOUT: Group = Group {
    title: "the layout",
    parts: &[&[
        Field::needed(
            "equipment",
            FieldKind::NameOr("a profile's name, its path, or the profile itself", || {
                &INLINE_PROFILE
            }),
            "a shipped profile's name, a profile's path, or the profile itself",
        ),
        Field::new("target", FieldKind::Group(&TARGET), "what the shot is for"),
        Field::needed(
            "balls",
            BALLS,
            "each ball by a name of your own: where it lies, and how it moves if it is not struck",
        ),
        Field::new("stroke", FieldKind::Group(&STROKE), "the cue's stroke"),
        Field::new("obstacles", OBSTACLES, "things laid on the table, each by a name of your own"),
        Field::new(
            "engine",
            FieldKind::Word(words::<EngineChoice>),
            "stepped: a second opinion on rigid bodies, planar and slow",
        )
        .or(Without::Word(EngineChoice::Event.name())),
        Field::number(UNTIL, "when to stop watching").or(Without::Says("when every ball rests")),
        Field::new("title", FieldKind::Text, "title of the picture")
            .or(Without::Says("how the shot ended")),
        Field::new("subtitle", FieldKind::Text, "the line under the title")
            .or(Without::Says("the conditions of the shot")),
        Field::new("legend", FieldKind::Flag, "whether the picture explains its lines and signs")
            .or(Without::Flag(true)),
        Field::new(
            "size",
            FieldKind::Word(|| PICTURE_SIZES.iter().map(|(word, _)| *word).collect()),
            "size of the picture; medium fits a printed page",
        )
        .or(Without::Word("medium")),
    ]],
    example: Some(Example::Fields(&[
        ("equipment", Example::Word("nine-foot")),
        (
            "balls",
            Example::Fields(&[(
                "cue",
                Example::Fields(&[(
                    "position",
                    Example::List(&[Example::Quantity(0.1, "m"), Example::Quantity(-0.2, "m")]),
                )]),
            )]),
        ),
    ])),
};

/// Balls by their names.
pub(crate) const BALLS: FieldKind =
    FieldKind::Each { thing: "ball", group: &BALL, most: MOST_BALLS };

/// Obstacles by their names.
pub(crate) const OBSTACLES: FieldKind =
    FieldKind::Each { thing: "obstacle", group: &OBSTACLE, most: Obstacle::MOST };

/// The purpose of a shot.
pub(crate) static TARGET: Group = Group {
    title: "",
    parts: &[&[
        Field::needed(
            "pocket",
            POCKET_KIND,
            "the pocket meant; rail numbers are counted from it too",
        ),
        Field::new("ball", FieldKind::Name, "the ball meant for it")
            .or(Without::Says("the only ball that is not struck")),
    ]],
    example: Some(Example::Fields(&[("pocket", Example::Word("foot-right"))])),
};

/// Where a ball lies: exactly one of the places, with what belongs to it.
const SPOT: [Field; 12] = [
    Field::new(
        "position",
        point(POSITION),
        "x and y from the table's middle: x towards the foot rail, y towards the left rail",
    ),
    Field::new("on_rail", FieldKind::Word(words::<Rail>), "it lies beside this rail"),
    Field::number(NUMBER, "with on_rail: at this number, in diamonds, where the centre is"),
    COUNTED_FROM,
    Field::number(OFF_RAIL, "with on_rail or on_line: how far off the rail, square to it").or(ZERO),
    Field::new("on_line", LINE_KIND, "it lies on this line of rail numbers"),
    Field::new(
        "between",
        FieldKind::Two(&PLACE_KIND),
        "it lies between two places; a ball's name is a place too",
    ),
    Field::number(SHARE, "with between: how far from the one to the other")
        .or(Without::Number(0.5)),
    Field::new(
        "behind",
        FieldKind::Name,
        "it lies behind this ball, looking the way that ball is to go",
    ),
    Field::new(
        "in_front_of",
        FieldKind::Name,
        "it lies in front of this ball, looking the way that ball is to go",
    ),
    Field::new("heading", HEADING_KIND, "with behind or in_front_of: the way that ball is to go"),
    Field::number(GAP, "with behind or in_front_of: room between the two").or(ZERO),
];

/// A ball.
pub(crate) static BALL: Group = Group {
    title: "the ball",
    parts: &[
        &SPOT,
        &[
            Field::new(
                "velocity",
                FieldKind::Vector { each: VELOCITY, count: 2, whole: true },
                "along x and y",
            )
            .or(Without::Says("at rest")),
            Field::new(
                "spin",
                FieldKind::Vector { each: SPIN, count: 3, whole: true },
                "about x, y and z by the right-hand rule, z up",
            )
            .or(Without::Says("none")),
            Field::new(
                "launch",
                FieldKind::Group(&LAUNCH),
                "sent off without a stroke, instead of a velocity and a spin",
            ),
            Field::number(Ball::DIAMETER, "its diameter").or(Without::Says("the equipment's")),
            Field::number(Ball::MASS, "its mass").or(Without::Says("the equipment's")),
        ],
    ],
    example: None,
};

/// A place that is not a ball's own.
pub(crate) static PLACE: Group = Group {
    title: "the place",
    parts: &[&[Field::new("pocket", POCKET_KIND, "the middle of this pocket's mouth")], &SPOT],
    example: None,
};

/// A ball that is sent off without a stroke.
pub(crate) static LAUNCH: Group = Group {
    title: "",
    parts: &[&[
        Field::needed("speed", FieldKind::Speed(Launch::SPEED), "as it sets off"),
        Field::needed("heading", HEADING_KIND, "the way it is to go"),
        Field::number(Launch::ROLL, "a fraction of natural roll: 0 slides, 1 rolls").or(ZERO),
        Field::number(
            SPIN_SIDE,
            "side spin times the radius over the speed, by the right-hand rule, z up",
        )
        .or(ZERO),
    ]],
    example: Some(Example::Fields(&[
        ("speed", Example::Quantity(2.0, "m/s")),
        ("heading", TO_POCKET),
    ])),
};

/// A line of rail numbers.
pub(crate) static LINE: Group = Group {
    title: "the line",
    parts: &[&[
        Field::needed("contact", FieldKind::Number(CONTACT), "contact number, in diamonds"),
        Field::needed("start", FieldKind::Number(START), "start number, in diamonds"),
        Field::new("rail", FieldKind::Word(words::<RailChoice>), "the rail it banks off")
            .or(Without::Word(RailChoice::Long.name())),
        COUNTED_FROM,
        Field::new("reading", FieldKind::Word(words::<Reading>), "how its numbers are read")
            .or(Without::Word(Reading::Groove.name())),
    ]],
    example: Some(Example::Fields(&[
        ("contact", Example::Number(2.0)),
        ("start", Example::Number(4.4)),
    ])),
};

/// A direction: exactly one of these.
pub(crate) static HEADING: Group = Group {
    title: "",
    parts: &[&[
        Field::new("to", PLACE_KIND, "to a place"),
        Field::new(
            "line",
            LINE_KIND,
            "along a line of rail numbers, from its start to its contact",
        ),
        Field::number(ANGLE, "an angle from x (0 deg) towards y (90 deg)"),
    ]],
    example: Some(TO_POCKET),
};

/// Where the cue points by itself.
const POINTED: [Field; 2] = [
    Field::number(AIM, "point the cue at an angle from x (0 deg) towards y (90 deg)"),
    Field::new("aim_at", PLACE_KIND, "point the cue at a place"),
];

const SEND_MEANING: &str =
    "point the cue so that a ball goes that way, with squirt, swerve and throw in it";
const GEAR_MEANING: &str = "hit on the line for a ball to go that way, with the side that cancels throw; it finds `tip_side`";
const OVERCUT_MEANING: &str = "send a ball near that way, hit just thinner or fuller enough to come to the middle of \
    its pocket";
const GHOST_MEANING: &str = "point the cue at the ghost ball's place for a ball to go that way";

/// The keys of the tip's place on the ball.
const TIP: [Field; 5] = [
    Field::needed(
        "speed",
        FieldKind::Speed(Stroke::SPEED),
        "the ball's speed along the cue as it leaves the tip",
    ),
    Field::number(
        TIP_SIDE,
        "the tip right (+) or left (−) of the middle, as a share of the radius",
    )
    .or(ZERO),
    Field::number(
        TIP_HEIGHT,
        "the tip above (+) or below (−) the middle, as a share of the radius",
    )
    .or(ZERO),
    Field::new(
        "elevation",
        FieldKind::NumberOr(Stroke::ELEVATION, LEAST),
        "how far the cue points down; least: as little as rails, balls and obstacles allow",
    )
    .or(Without::Says(LEAST)),
    Field::new("allow_miscue", FieldKind::Flag, "whether to play on where the tip would slip off")
        .or(Without::Flag(false)),
];

/// A stroke in a file, with exactly one of the aims.
pub(crate) static STROKE: Group = Group {
    title: "",
    parts: &[
        &[Field::new("ball", FieldKind::Name, "the ball that is struck")
            .or(Without::Says("the one named cue"))],
        &POINTED,
        &[
            Field::new("send", FieldKind::Group(&SEND), SEND_MEANING),
            Field::new("gear", FieldKind::Group(&SEND), GEAR_MEANING),
            Field::new("overcut", FieldKind::Group(&SEND), OVERCUT_MEANING),
            Field::new("ghost", FieldKind::Group(&SEND), GHOST_MEANING),
        ],
        &TIP,
    ],
    example: Some(Example::Fields(&[
        ("speed", Example::Quantity(3.0, "m/s")),
        ("aim_at", Example::Word("object")),
    ])),
};

/// A stroke in a scenario: it strikes the ball named cue, and sends the one meant for the pocket.
pub(crate) static SCENARIO_STROKE: Group = Group {
    title: "the stroke",
    parts: &[
        &POINTED,
        &[
            Field::new("send", FieldKind::WordOr("line", &HEADING), SEND_MEANING),
            Field::new("gear", FieldKind::WordOr("line", &HEADING), GEAR_MEANING),
            Field::new("overcut", FieldKind::WordOr("line", &HEADING), OVERCUT_MEANING),
            Field::new("ghost", FieldKind::WordOr("line", &HEADING), GHOST_MEANING),
        ],
        &TIP,
    ],
    example: None,
};

/// The refusal of a side beside `gear`, and its hint.
pub(crate) const GEAR_FINDS_SIDE: (&str, &str) = (
    "`gear` and `tip_side` contradict each other",
    "`gear` finds the side itself; leave `tip_side` out, or aim with `overcut`",
);

/// The fields of which a stroke has exactly one.
pub(crate) const AIMS: [&str; 6] = ["aim", "aim_at", "send", "gear", "overcut", "ghost"];

/// A ball and the way it is to go.
pub(crate) static SEND: Group = Group {
    title: "",
    parts: &[&[
        Field::needed("ball", FieldKind::Name, "the ball to send"),
        Field::needed("heading", HEADING_KIND, "the way it is to go"),
    ]],
    example: Some(Example::Fields(&[("ball", Example::Word("object")), ("heading", ALONG_LINE)])),
};

/// A thing laid on the table: a rectangle or a convex shape.
pub(crate) static OBSTACLE: Group = Group {
    title: "the obstacle",
    parts: &[&[
        Field::new("middle", point(MIDDLE), "x and y of a rectangle"),
        Field::number(LENGTH, "with middle: along the table, before it is turned"),
        Field::number(WIDTH, "with middle: across the table, before it is turned"),
        Field::number(TURNED, "with middle: how far it is turned from x towards y").or(ZERO),
        Field::new(
            "corners",
            FieldKind::Points { each: CORNERS, most: Obstacle::MOST_CORNERS },
            "of any convex shape, in order; instead of middle",
        ),
        Field::number(Obstacle::HEIGHT, "over the cloth, for a cue that passes over it")
            .or(Without::Number(Obstacle::USUAL_HEIGHT_M)),
        Field::number(Obstacle::RESTITUTION, "of a ball off it")
            .or(Without::Number(Obstacle::USUAL_RESTITUTION)),
        Field::number(Obstacle::FRICTION, "of a ball against it")
            .or(Without::Number(Obstacle::USUAL_FRICTION)),
    ]],
    example: None,
};
