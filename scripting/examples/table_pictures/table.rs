//! A nine-foot table from plain numbers.

use railproof::picture::{CushionLine, CushionPiece, PocketShape, Sight, TablePoint, TableShape};
use std::f64::consts::PI;

pub const LENGTH: f64 = 2.54;
pub const WIDTH: f64 = 1.27;
pub const RADIUS: f64 = 0.028_575;

const CORNER_MOUTH: f64 = 0.117;
const SIDE_MOUTH: f64 = 0.130;
const CORNER_ANGLE: f64 = 142.0;
const SIDE_ANGLE: f64 = 104.0;
const POINT: f64 = 0.006;
const BACK: f64 = 0.05;
const CORNER_SHELF: f64 = 0.04;
const SIDE_SHELF: f64 = 0.008;
const SETBACK: f64 = 0.094;

/// The table with the pocket of this number as the target, and numbers at these sights.
pub fn nine_foot(target: usize, numbers: &[(TablePoint, String)]) -> TableShape {
    let (x, y) = (LENGTH / 2.0, WIDTH / 2.0);
    let c = CORNER_MOUTH * std::f64::consts::FRAC_1_SQRT_2;
    let s = SIDE_MOUTH / 2.0;
    let cushions = vec![
        cushion((-x + c, y), (-s, y), (0.0, 1.0), CORNER_ANGLE, SIDE_ANGLE),
        cushion((s, y), (x - c, y), (0.0, 1.0), SIDE_ANGLE, CORNER_ANGLE),
        cushion((-x + c, -y), (-s, -y), (0.0, -1.0), CORNER_ANGLE, SIDE_ANGLE),
        cushion((s, -y), (x - c, -y), (0.0, -1.0), SIDE_ANGLE, CORNER_ANGLE),
        cushion((x, -y + c), (x, y - c), (1.0, 0.0), CORNER_ANGLE, CORNER_ANGLE),
        cushion((-x, -y + c), (-x, y - c), (-1.0, 0.0), CORNER_ANGLE, CORNER_ANGLE),
    ];
    let mouths = [
        [(-x, -y + c), (-x + c, -y)],
        [(x - c, -y), (x, -y + c)],
        [(x, y - c), (x - c, y)],
        [(-x + c, y), (-x, y - c)],
        [(-s, -y), (s, -y)],
        [(s, y), (-s, y)],
    ];
    let pockets = mouths
        .into_iter()
        .enumerate()
        .map(|(index, mouth)| {
            let side = index > 3;
            let shelf = if side { SIDE_SHELF } else { CORNER_SHELF };
            let middle =
                (f64::midpoint(mouth[0].0, mouth[1].0), f64::midpoint(mouth[0].1, mouth[1].1));
            let out = if side {
                (0.0, middle.1.signum())
            } else {
                let half = std::f64::consts::FRAC_1_SQRT_2;
                (half * middle.0.signum(), half * middle.1.signum())
            };
            // The jaws narrow towards the drop line.
            let narrow = if side { 0.96 } else { 0.92 };
            let drop = mouth.map(|(px, py)| {
                (
                    middle.0 + narrow * (px - middle.0) + shelf * out.0,
                    middle.1 + narrow * (py - middle.1) + shelf * out.1,
                )
            });
            PocketShape { mouth, drop, target: index == target }
        })
        .collect();
    let mut sights = Vec::new();
    for side in [1.0, -1.0] {
        for i in 1..8 {
            if i != 4 {
                sights.push((-x + LENGTH / 8.0 * f64::from(i), side * (y + SETBACK)));
            }
        }
        for i in 1..4 {
            sights.push((side * (x + SETBACK), -y + WIDTH / 4.0 * f64::from(i)));
        }
    }
    let sights = sights
        .into_iter()
        .map(|at| {
            let near = |p: &TablePoint| (p.0 - at.0).hypot(p.1 - at.1) < 0.01;
            let number = numbers.iter().find(|(place, _)| near(place));
            Sight { at, number: number.map(|(_, text)| text.clone()).unwrap_or_default() }
        })
        .collect();
    TableShape { length_m: LENGTH, width_m: WIDTH, rail_m: 0.145, cushions, pockets, sights }
}

/// Numbers of the sights on both long rails, counted from the left.
pub fn numbers_from_the_left() -> Vec<(TablePoint, String)> {
    let y = WIDTH / 2.0 + SETBACK;
    (1..8_u32)
        .filter(|i| *i != 4)
        .flat_map(|i| {
            let x = -LENGTH / 2.0 + LENGTH / 8.0 * f64::from(i);
            [((x, y), i.to_string()), ((x, -y), i.to_string())]
        })
        .collect()
}

/// A cushion whose nose's edges meet the facings' at `a` and `b`, with rounded points.
fn cushion(
    a: TablePoint,
    b: TablePoint,
    out: (f64, f64),
    angle_a: f64,
    angle_b: f64,
) -> CushionLine {
    let length = (b.0 - a.0).hypot(b.1 - a.1);
    let along = ((b.0 - a.0) / length, (b.1 - a.1) / length);
    let at = |far: f64, deep: f64| {
        (a.0 + far * along.0 + deep * out.0, a.1 + far * along.1 + deep * out.1)
    };
    let rounded = |angle: f64| {
        let turn = PI - angle.to_radians();
        (POINT * (turn / 2.0).tan(), turn)
    };
    let (cut_a, turn_a) = rounded(angle_a);
    let (cut_b, turn_b) = rounded(angle_b);
    let facing = |turn: f64| (turn.cos(), turn.sin());
    let (fa, fb) = (facing(turn_a), facing(turn_b));
    let (back_a, back_b) = (BACK / fa.1, BACK / fb.1);
    let sense = (along.0 * out.1 - along.1 * out.0).signum();
    let arc = |centre: TablePoint, from: TablePoint, turn: f64| CushionPiece::Arc {
        centre,
        radius_m: POINT,
        from_rad: (from.1 - centre.1).atan2(from.0 - centre.0),
        sweep_rad: turn,
    };
    let a_out = at(-cut_a * fa.0, cut_a * fa.1);
    let b_in = at(length - cut_b, 0.0);
    CushionLine {
        pieces: vec![
            CushionPiece::Line { from: at(-back_a * fa.0, BACK), to: a_out },
            arc(at(cut_a, POINT), a_out, sense * turn_a),
            CushionPiece::Line { from: at(cut_a, 0.0), to: b_in },
            arc(at(length - cut_b, POINT), b_in, sense * turn_b),
            CushionPiece::Line {
                from: at(length + cut_b * fb.0, cut_b * fb.1),
                to: at(length + back_b * fb.0, BACK),
            },
        ],
    }
}
