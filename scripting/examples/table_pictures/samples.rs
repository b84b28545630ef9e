//! The samples: invented layouts in an invented hall.

use super::motion::Run;
use super::table::{LENGTH, RADIUS, WIDTH, nine_foot, numbers_from_the_left};
use railproof::picture::{
    BallTrack, Ghost, Guide, Mark, MarkKind, Motion, Obstacle, SpinMark, TablePicture, TablePoint,
    TrackEnd, TrackPath, TrackPiece,
};

const GROOVE: f64 = 0.0277;

pub fn all() -> Vec<(&'static str, TablePicture)> {
    vec![
        ("table-bank", bank()),
        ("table-sixteen", sixteen()),
        ("table-side-pocket", side_pocket()),
        ("table-short-paths", short_paths()),
        ("table-empty", empty()),
    ]
}

fn inside((x, y): TablePoint) -> bool {
    x.abs() < LENGTH / 2.0 - GROOVE && y.abs() < WIDTH / 2.0 - GROOVE
}

fn picture(title: &str, subtitle: &str, verdict: &str) -> TablePicture {
    TablePicture {
        title: title.into(),
        subtitle: subtitle.into(),
        verdict: verdict.into(),
        table: nine_foot(usize::MAX, &[]),
        obstacles: Vec::new(),
        guides: Vec::new(),
        balls: Vec::new(),
        ghosts: Vec::new(),
        marks: Vec::new(),
        spins: Vec::new(),
        notes: vec!["Invented layout, to try the drawing.".into()],
    }
}

fn ball(name: &str, start: TablePoint, pieces: Vec<TrackPiece>, end: TrackEnd) -> BallTrack {
    BallTrack { name: name.into(), radius_m: RADIUS, is_cue: name == "cue", start, pieces, end }
}

fn scaled((x, y): (f64, f64), by: f64) -> (f64, f64) {
    (x * by, y * by)
}

fn toward(from: TablePoint, to: TablePoint) -> (f64, f64) {
    let d = (to.0 - from.0, to.1 - from.1);
    scaled(d, 1.0 / d.0.hypot(d.1))
}

fn bank() -> TablePicture {
    let mut out = picture(
        "A cut bank with running side, off the top rail into the lower left corner",
        "Lantern Hall (invented), nine-foot table, 1.8 m/s at the start, tip 0.2 R to the left",
        "The object ball drops in the lower left corner, 6 mm to the long side of its middle; \
         the cue ball follows to the middle of the table.",
    );
    out.table = nine_foot(0, &numbers_from_the_left());
    let object = (0.66, 0.17);
    let contact = (0.19, WIDTH / 2.0 - GROOVE);
    let way = toward(object, contact);
    let ghost = (object.0 - 2.0 * RADIUS * way.0, object.1 - 2.0 * RADIUS * way.1);
    let cue = (1.10, -0.05);

    let mut cue_pieces = Vec::new();
    let aim = toward(cue, ghost);
    let mut run = Run { at: cue, velocity: scaled(aim, 1.8), rolling: scaled(aim, 0.4) };
    let far = (ghost.0 - cue.0).hypot(ghost.1 - cue.1);
    run.until(&mut cue_pieces, |p| (p.0 - cue.0).hypot(p.1 - cue.1) >= far);
    // What stays with the cue ball lies square to the line of centres.
    let along = run.velocity.0 * way.0 + run.velocity.1 * way.1;
    let hit = run.at;
    run.velocity = (run.velocity.0 - 0.95 * along * way.0, run.velocity.1 - 0.95 * along * way.1);
    run.rolling = scaled(aim, 0.3);
    run.until(&mut cue_pieces, |p| !inside(p));

    let mut object_pieces = Vec::new();
    let mut run = Run { at: object, velocity: scaled(way, 1.75), rolling: (0.0, 0.0) };
    run.until(&mut object_pieces, |p| p.1 >= contact.1);
    let left = (run.at.0 - 0.004, run.at.1);
    object_pieces.push(TrackPiece {
        path: TrackPath::Line { from: run.at, to: left },
        motion: Motion::Cushion,
    });
    let first = run.at;
    let mouth = (-LENGTH / 2.0 + 0.012, -WIDTH / 2.0 + 0.012);
    let back = toward(left, mouth);
    // The heading at which the slide brings the ball to the mouth.
    let (mut low, mut high) = (-0.6, 0.6);
    let leaving = |turn: f64| Run {
        at: left,
        velocity: (
            1.55 * (back.0 * turn.cos() - back.1 * turn.sin()),
            1.55 * (back.0 * turn.sin() + back.1 * turn.cos()),
        ),
        rolling: (-0.9, 0.9),
    };
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        let mut trial = leaving(middle);
        trial.until(&mut Vec::new(), |p| p.1 <= mouth.1 || p.0 <= mouth.0 - 0.3);
        if trial.at.0 < mouth.0 { low = middle } else { high = middle }
    }
    leaving(low).until(&mut object_pieces, |p| p.1 <= mouth.1);

    out.guides = vec![Guide {
        from: (LENGTH / 2.0 - 1.5 * LENGTH / 8.0, -WIDTH / 2.0 - 0.094),
        to: (0.16, WIDTH / 2.0 + 0.094),
        label: "rule: start 6.5, contact 4.5".into(),
    }];
    out.spins = vec![
        spin(cue, aim, 0.5, 0.2, "tip left"),
        spin(hit, aim, 0.42, 0.55, "before the hit"),
        spin(object, way, -0.06, 0.0, "0.06 right"),
        spin(first, back, 0.12, -0.3, "off the rail"),
    ];
    out.ghosts = vec![Ghost { at: ghost, radius_m: RADIUS, label: String::new() }];
    out.marks = vec![
        rail_mark(first, (first.0, WIDTH / 2.0), "contact 4.6"),
        Mark {
            kind: MarkKind::BallHit,
            at: (object.0 - RADIUS * way.0, object.1 - RADIUS * way.1),
            label: String::new(),
        },
    ];
    out.balls = vec![
        ball("cue", cue, cue_pieces, TrackEnd::Rest),
        ball("object", object, object_pieces, TrackEnd::Drop),
    ];
    out
}

fn spin(at: TablePoint, travel: (f64, f64), side: f64, along: f64, label: &str) -> SpinMark {
    SpinMark { at, radius_m: RADIUS, travel, side, along, label: label.into() }
}

fn rail_mark(at: TablePoint, nose: TablePoint, label: &str) -> Mark {
    Mark { kind: MarkKind::Rail { nose, radius_m: RADIUS }, at, label: label.into() }
}

/// Sixteen balls out of a rack, through each other as no balls run, to cross many paths.
fn sixteen() -> TablePicture {
    let mut out = picture(
        "Sixteen balls on the way at once",
        "Lantern Hall (invented), nine-foot table; every ball runs by itself",
        "",
    );
    let mut racked = vec![("cue".to_owned(), (-0.7, 0.08))];
    let names = ["a", "b", "c", "d", "e", "f", "g", "h", "i", "k", "l", "m", "n", "o", "p"];
    let mut next = names.iter();
    for row in 0..5_u32 {
        for place in 0..=row {
            let Some(name) = next.next() else { continue };
            let x = 0.635 + f64::from(row) * RADIUS * 1.735;
            let y = RADIUS * 2.002 * (f64::from(place) - f64::from(row) / 2.0);
            racked.push(((*name).to_owned(), (x, y)));
        }
    }
    for (index, (name, start)) in racked.into_iter().enumerate() {
        let turn = 2.399_963 * index as f64;
        let way = if index == 0 { (1.0, -0.02) } else { (turn.cos(), turn.sin()) };
        let speed = if index == 0 { 2.4 } else { 0.35 + 0.09 * index as f64 };
        let mut run = Run { at: start, velocity: scaled(way, speed), rolling: (0.0, 0.0) };
        let mut pieces = Vec::new();
        let mut end = TrackEnd::Rest;
        for bounce in 0..4 {
            run.until(&mut pieces, |p| !inside(p));
            if run.speed() < 0.02 {
                break;
            }
            let (x, y) = run.at;
            let near_corner = LENGTH / 2.0 - x.abs() < 0.16 && WIDTH / 2.0 - y.abs() < 0.16;
            let near_side = x.abs() < 0.05 && WIDTH / 2.0 - y.abs() < 0.05;
            if near_corner || near_side {
                end = TrackEnd::Drop;
                let to = if near_corner {
                    (x.signum() * LENGTH / 2.0, y.signum() * WIDTH / 2.0)
                } else {
                    (0.0, y.signum() * (WIDTH / 2.0 + 0.008))
                };
                pieces.push(TrackPiece {
                    path: TrackPath::Line { from: run.at, to },
                    motion: Motion::Roll,
                });
                break;
            }
            if index == 6 && bounce == 0 && y > 0.5 {
                end = TrackEnd::Gone;
                let to = (x + 0.05 * way.0, WIDTH / 2.0 + 0.12);
                pieces.push(TrackPiece {
                    path: TrackPath::Line { from: run.at, to },
                    motion: Motion::Hop,
                });
                break;
            }
            let level = LENGTH / 2.0 - x.abs() < WIDTH / 2.0 - y.abs();
            run.rolling = (0.3 * run.velocity.0, 0.3 * run.velocity.1);
            run.velocity = if level {
                (-0.75 * run.velocity.0, 0.85 * run.velocity.1)
            } else {
                (0.85 * run.velocity.0, -0.75 * run.velocity.1)
            };
            let pull = 1e-9;
            run.at = (x * (1.0 - pull), y * (1.0 - pull));
        }
        out.balls.push(ball(&name, start, pieces, end));
    }
    let count = |end: TrackEnd| out.balls.iter().filter(|ball| ball.end == end).count();
    let (rest, dropped, gone) =
        (count(TrackEnd::Rest), count(TrackEnd::Drop), count(TrackEnd::Gone));
    out.verdict =
        format!("Of sixteen balls, {rest} stay up; dropped: {dropped}; off the table: {gone}.");
    out
}

fn side_pocket() -> TablePicture {
    let mut out = picture(
        "Around the box: off the long rail into the far side pocket",
        "Lantern Hall (invented), nine-foot table, 1.9 m/s, rolling, no side",
        "The bank clears the box by 21 mm and touches the right point of the side pocket before it \
         drops.",
    );
    let x = |i: f64| -LENGTH / 2.0 + LENGTH / 8.0 * i;
    let y = WIDTH / 2.0 + 0.094;
    let mut numbers = Vec::new();
    for i in 1..4 {
        let i = f64::from(i);
        numbers.push(((x(4.0 + i), -y), format!("{i:.0}")));
        numbers.push(((x(4.0 + i), y), format!("{i:.0}")));
    }
    out.table = nine_foot(5, &numbers);
    let start = (0.95, 0.1);
    let contact = (0.44, -WIDTH / 2.0 + GROOVE);
    let way = toward(start, contact);
    let mut pieces = Vec::new();
    let mut run = Run { at: start, velocity: scaled(way, 1.9), rolling: scaled(way, 1.9) };
    run.until(&mut pieces, |p| p.1 <= contact.1);
    let first = run.at;
    let left = (first.0 - 0.006, first.1);
    pieces.push(TrackPiece {
        path: TrackPath::Line { from: first, to: left },
        motion: Motion::Cushion,
    });
    // The heading at which the slide brings the ball to the right point of the pocket.
    let touch = (0.043, WIDTH / 2.0 - 0.018);
    let leaving = |across: f64| Run { at: left, velocity: (-across, 1.28), rolling: (-0.8, 0.2) };
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        let mut trial = leaving(middle);
        trial.until(&mut Vec::new(), |p| p.1 >= touch.1);
        if trial.at.0 > touch.0 { low = middle } else { high = middle }
    }
    leaving(low).until(&mut pieces, |p| p.1 >= touch.1);
    let jaw = touch;
    let to = (-0.012, WIDTH / 2.0 + 0.008);
    pieces.push(TrackPiece { path: TrackPath::Line { from: jaw, to }, motion: Motion::Roll });
    out.obstacles = vec![
        Obstacle {
            name: "chalk box".into(),
            corners: vec![(0.52, 0.02), (0.76, 0.06), (0.73, 0.24), (0.49, 0.20)],
        },
        Obstacle {
            name: "bridge head".into(),
            corners: vec![(-0.62, -0.2), (-0.5, -0.28), (-0.47, -0.2), (-0.52, -0.12)],
        },
    ];
    out.spins =
        vec![spin(start, way, 0.0, 1.0, "rolling"), spin(left, (-0.4, 1.0), -0.35, -0.2, "")];
    out.marks = vec![
        rail_mark(first, (first.0, -WIDTH / 2.0), "contact 1.39"),
        Mark {
            kind: MarkKind::Rail { nose: (0.0665, WIDTH / 2.0 + 0.001), radius_m: RADIUS },
            at: jaw,
            label: "touches the point".into(),
        },
        Mark { kind: MarkKind::Note, at: (0.49, 0.02), label: "21 mm clear".into() },
    ];
    out.balls = vec![
        ball("cue", start, pieces, TrackEnd::Drop),
        ball("blocker", (0.2, 0.35), Vec::new(), TrackEnd::Rest),
    ];
    out
}

fn short_paths() -> TablePicture {
    let mut out = picture(
        "A soft touch: three balls that barely move",
        "Lantern Hall (invented), nine-foot table, 0.2 m/s",
        "Nothing drops. The cue ball freezes to the object ball, which moves 24 mm.",
    );
    let start = (-0.1, 0.0);
    let mut pieces = Vec::new();
    let mut run = Run { at: start, velocity: (0.09, 0.02), rolling: (0.09, 0.02) };
    run.until(&mut pieces, |p| p.0 > start.0 + 0.045);
    let object = (start.0 + 0.045 + 2.0 * RADIUS * 0.98, 0.014);
    let mut moved = Vec::new();
    let mut run = Run { at: object, velocity: (0.075, 0.01), rolling: (0.0, 0.0) };
    run.until(&mut moved, |_| false);
    let nudge = (0.6, -WIDTH / 2.0 + GROOVE);
    let tiny = vec![TrackPiece {
        path: TrackPath::Line { from: nudge, to: (nudge.0 + 0.002, nudge.1) },
        motion: Motion::Roll,
    }];
    out.balls = vec![
        ball("cue", start, pieces, TrackEnd::Rest),
        ball("object", object, moved, TrackEnd::Rest),
        ball("frozen", nudge, tiny, TrackEnd::Rest),
        ball("k", (0.9, 0.3), Vec::new(), TrackEnd::Rest),
    ];
    out
}

fn empty() -> TablePicture {
    picture("An empty table", "Lantern Hall (invented), nine-foot table", "")
}
