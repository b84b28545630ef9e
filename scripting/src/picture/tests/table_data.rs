//! Invented shots on a table, to try the drawing.

use super::super::{
    BallTrack, CushionLine, CushionPiece, DrawnObstacle, Ghost, Guide, Mark, MarkKind, Motion,
    PictureLook, PocketShape, Sight, SpinMark, TablePicture, TableShape, TrackEnd, TrackPath,
    TrackPiece,
};
use std::f64::consts::{FRAC_PI_2, PI};

pub(super) const RADIUS: f64 = 0.028_575;

/// A table with one cushion on each side, four corner pockets and numbers on the upper rail.
pub(super) fn table() -> TableShape {
    let (x, y, cut) = (1.27, 0.635, 0.08);
    let line = |from, to| CushionPiece::Line { from, to };
    let level = |side: f64| {
        let out = |deep: f64| side * (y + deep);
        CushionLine {
            pieces: vec![
                line((-x + cut - 0.06, out(0.05)), (-x + cut, out(0.002))),
                CushionPiece::Arc {
                    centre: (-x + cut + 0.002, out(0.002)),
                    radius_m: 0.002,
                    from_rad: PI,
                    sweep_rad: side * FRAC_PI_2,
                },
                line((-x + cut + 0.002, out(0.0)), (x - cut, out(0.0))),
                line((x - cut, out(0.0)), (x - cut + 0.06, out(0.05))),
            ],
        }
    };
    let upright = |side: f64| CushionLine {
        pieces: vec![
            line((side * (x + 0.05), -y + cut - 0.06), (side * x, -y + cut)),
            line((side * x, -y + cut), (side * x, y - cut)),
            line((side * x, y - cut), (side * (x + 0.05), y - cut + 0.06)),
        ],
    };
    let pocket = |(sx, sy): (f64, f64)| {
        let mouth = [(sx * x, sy * (y - cut)), (sx * (x - cut), sy * y)];
        let drop = mouth.map(|(px, py)| (px + 0.03 * sx, py + 0.03 * sy));
        PocketShape { mouth, drop, target: sx < 0.0 && sy < 0.0 }
    };
    TableShape {
        length_m: 2.0 * x,
        width_m: 2.0 * y,
        rail_m: 0.14,
        cushions: vec![level(1.0), level(-1.0), upright(1.0), upright(-1.0)],
        pockets: [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)].map(pocket).to_vec(),
        sights: (1..8_u32)
            .map(|i| Sight { at: (-x + 0.3175 * f64::from(i), y + 0.094), number: i.to_string() })
            .collect(),
        named: true,
    }
}

pub(super) fn empty() -> TablePicture {
    TablePicture {
        title: "A bank in the Lantern Hall".into(),
        subtitle: "Lantern Hall, invented; stun".into(),
        verdict: "It drops in the lower left corner.".into(),
        table: table(),
        obstacles: Vec::new(),
        guides: Vec::new(),
        other_play: None,
        numbers: None,
        balls: Vec::new(),
        ghosts: Vec::new(),
        marks: Vec::new(),
        spins: Vec::new(),
        inset: None,
        notes: vec!["Invented numbers".into()],
        look: PictureLook::default(),
    }
}

pub(super) fn line(from: (f64, f64), to: (f64, f64), motion: Motion) -> TrackPiece {
    TrackPiece { path: TrackPath::Line { from, to }, motion }
}

pub(super) fn ball(name: &str, start: (f64, f64), pieces: Vec<TrackPiece>) -> BallTrack {
    BallTrack {
        name: name.into(),
        radius_m: RADIUS,
        is_cue: name == "cue",
        is_object: name == "object",
        start,
        pieces,
        end: TrackEnd::Rest,
    }
}

/// A bank in which everything occurs that a picture can show.
pub(super) fn bank() -> TablePicture {
    let mut out = empty();
    let slide = TrackPath::accelerated((0.0, 0.6), (-1.4, -1.3), (-0.6, 0.9), 0.5);
    let mut object = ball(
        "object",
        (0.5, 0.1),
        vec![
            line((0.5, 0.1), (0.006, 0.599), Motion::Roll),
            line((0.006, 0.599), (0.0, 0.6), Motion::Cushion),
            TrackPiece { path: slide, motion: Motion::Slide },
            line(slide.to(), (-1.22, -0.6), Motion::Roll),
        ],
    );
    object.end = TrackEnd::Drop;
    let mut high = ball("high", (0.9, 0.3), vec![line((0.9, 0.3), (1.3, 0.5), Motion::Hop)]);
    high.end = TrackEnd::Gone;
    let cue = ball(
        "cue",
        (0.9, -0.3),
        vec![
            line((0.9, -0.3), (0.54, 0.06), Motion::Slide),
            line((0.54, 0.06), (0.3, -0.2), Motion::Roll),
        ],
    );
    out.balls = vec![cue, object, high];
    out.obstacles = vec![DrawnObstacle {
        name: "box".into(),
        corners: vec![(-0.3, -0.4), (0.0, -0.4), (0.0, -0.2), (-0.3, -0.2)],
    }];
    out.guides = vec![Guide {
        from: (0.7, -0.7),
        to: (0.0, 0.7),
        labels: ["start 6".into(), "contact 4".into()],
    }];
    out.ghosts = vec![Ghost { at: (0.54, 0.06), radius_m: RADIUS, label: "ghost".into() }];
    out.marks = vec![
        Mark {
            kind: MarkKind::Rail { nose: (0.006, 0.635), radius_m: RADIUS },
            at: (0.006, 0.6),
            label: "contact 4".into(),
        },
        Mark { kind: MarkKind::BallHit, at: (0.52, 0.08), label: "hit".into() },
        Mark { kind: MarkKind::Note, at: (-0.6, 0.2), label: "look here".into() },
    ];
    out.spins = vec![SpinMark {
        at: (0.9, -0.3),
        radius_m: RADIUS,
        travel: (-1.0, 1.0),
        side: 0.4,
        along: 0.8,
        label: "left".into(),
    }];
    out
}

/// Balls in a tight rack, each with a path.
pub(super) fn rack() -> TablePicture {
    let mut out = empty();
    for row in 0..5_u32 {
        for place in 0..=row {
            let x = 0.6 + 0.05 * f64::from(row);
            let y = 0.0572 * (f64::from(place) - f64::from(row) / 2.0);
            let index = out.balls.len();
            let to = (-0.9 + 0.1 * index as f64, if index.is_multiple_of(2) { 0.5 } else { -0.5 });
            let name = if index.is_multiple_of(3) {
                format!("long name {index}")
            } else {
                index.to_string()
            };
            out.balls.push(ball(&name, (x, y), vec![line((x, y), to, Motion::Roll)]));
        }
    }
    out
}
