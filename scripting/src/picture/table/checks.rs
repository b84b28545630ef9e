//! What a picture of a table refuses to draw.

use super::super::PictureError;
use super::TablePicture;
use super::input::{CushionPiece, MarkKind, TablePoint, TrackPath};

/// Accepted playing lengths and widths, m.
const SIDE: (f64, f64) = (0.2, 20.0);
/// Accepted widths of a rail, m.
const RAIL: (f64, f64) = (0.0, 1.0);
/// Accepted radii of balls, m.
const RADIUS: (f64, f64) = (0.002, 0.25);
/// Accepted radii of rounded points, m.
const POINT: (f64, f64) = (0.0, 10.0);
/// Numbers beyond this are no places on a table, m.
const FAR_M: f64 = 1000.0;

/// Checks counts, sizes and places.
pub(super) fn check(picture: &TablePicture) -> Result<(), PictureError> {
    counts(picture)?;
    let table = &picture.table;
    size("the table's length", table.length_m, SIDE)?;
    size("the table's width", table.width_m, SIDE)?;
    size("the rail", table.rail_m, RAIL)?;
    let half = (0.5 * table.length_m + table.rail_m, 0.5 * table.width_m + table.rail_m);
    let place = |what, index, (x, y): TablePoint| on_table(what, index, (x, x), (y, y), half);
    for (index, cushion) in table.cushions.iter().enumerate() {
        for piece in &cushion.pieces {
            match *piece {
                CushionPiece::Line { from, to } => {
                    place("cushion", index, from)?;
                    place("cushion", index, to)?;
                }
                CushionPiece::Arc { centre, radius_m, from_rad, sweep_rad } => {
                    place("cushion", index, centre)?;
                    finite("cushion", index, &[radius_m, from_rad, sweep_rad])?;
                    size("a rounded point's radius", radius_m, POINT)?;
                    if sweep_rad.abs() > std::f64::consts::TAU {
                        return Err(PictureError::NotANumber {
                            what: "cushion",
                            number: index + 1,
                        });
                    }
                }
            }
        }
    }
    for (index, pocket) in table.pockets.iter().enumerate() {
        for at in pocket.mouth.into_iter().chain(pocket.drop) {
            place("pocket", index, at)?;
        }
    }
    for (index, sight) in table.sights.iter().enumerate() {
        place("sight", index, sight.at)?;
    }
    for (index, obstacle) in picture.obstacles.iter().enumerate() {
        for at in &obstacle.corners {
            place("obstacle", index, *at)?;
        }
    }
    for (index, guide) in picture.guides.iter().enumerate() {
        place("guide", index, guide.from)?;
        place("guide", index, guide.to)?;
    }
    for (index, ghost) in picture.ghosts.iter().enumerate() {
        place("ghost ball", index, ghost.at)?;
        size("a ghost ball's radius", ghost.radius_m, RADIUS)?;
    }
    for (index, mark) in picture.marks.iter().enumerate() {
        place("mark", index, mark.at)?;
        if let MarkKind::Rail { nose, radius_m } = mark.kind {
            place("mark", index, nose)?;
            size("a marked ball's radius", radius_m, RADIUS)?;
        }
    }
    for (index, spin) in picture.spins.iter().enumerate() {
        place("spin", index, spin.at)?;
        size("a spinning ball's radius", spin.radius_m, RADIUS)?;
        finite("spin", index, &[spin.travel.0, spin.travel.1, spin.side, spin.along])?;
    }
    tracks(picture, half)
}

fn counts(picture: &TablePicture) -> Result<(), PictureError> {
    let table = &picture.table;
    let corners = picture.obstacles.iter().map(|obstacle| obstacle.corners.len()).sum();
    let edges = table.cushions.iter().map(|cushion| cushion.pieces.len()).sum();
    let pieces = picture.balls.iter().map(|ball| ball.pieces.len()).sum();
    for (what, found, most) in [
        ("balls", picture.balls.len(), TablePicture::MOST_BALLS),
        ("stretches of path", pieces, TablePicture::MOST_PIECES),
        ("cushions", table.cushions.len(), TablePicture::MOST_MARKS),
        ("pieces of cushion", edges, TablePicture::MOST_CORNERS),
        ("pockets", table.pockets.len(), TablePicture::MOST_MARKS),
        ("sights", table.sights.len(), TablePicture::MOST_MARKS),
        ("obstacles", picture.obstacles.len(), TablePicture::MOST_MARKS),
        ("corners of obstacles", corners, TablePicture::MOST_CORNERS),
        ("guides", picture.guides.len(), TablePicture::MOST_MARKS),
        ("ghost balls", picture.ghosts.len(), TablePicture::MOST_MARKS),
        ("marks", picture.marks.len(), TablePicture::MOST_MARKS),
        ("spins", picture.spins.len(), TablePicture::MOST_MARKS),
    ] {
        if found > most {
            return Err(PictureError::TooMany { what, found, most });
        }
    }
    Ok(())
}

/// Checks every path, and their length together.
fn tracks(picture: &TablePicture, half: (f64, f64)) -> Result<(), PictureError> {
    let mut long = 0.0;
    for (index, ball) in picture.balls.iter().enumerate() {
        size("a ball's radius", ball.radius_m, RADIUS)?;
        let (x, y) = ball.start;
        on_table("ball", index, (x, x), (y, y), half)?;
        for piece in &ball.pieces {
            let (from, to) = (piece.path.from(), piece.path.to());
            // No bend of a parabola: its control point lies between the ends.
            let control = match piece.path {
                TrackPath::Line { .. } => {
                    (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1))
                }
                TrackPath::Parabola { control, .. } => control,
            };
            let numbers = [from.0, from.1, control.0, control.1, to.0, to.1];
            finite("ball", index, &numbers)?;
            let across = extent(from.0, control.0, to.0);
            let up = extent(from.1, control.1, to.1);
            on_table("ball", index, across, up, half)?;
            // The control polygon is never shorter than the curve.
            long += (control.0 - from.0).hypot(control.1 - from.1)
                + (to.0 - control.0).hypot(to.1 - control.1);
        }
    }
    if long > TablePicture::LONGEST_PATH_M {
        return Err(PictureError::Size {
            what: "the path of all balls together",
            value: format!("{long:.0}"),
            low: "0".into(),
            high: format!("{}", TablePicture::LONGEST_PATH_M),
        });
    }
    Ok(())
}

/// Least and greatest value of a quadratic Bézier curve's coordinate.
fn extent(from: f64, control: f64, to: f64) -> (f64, f64) {
    let (mut low, mut high) = (from.min(to), from.max(to));
    let bend = from - 2.0 * control + to;
    let turn = (from - control) / bend;
    if turn > 0.0 && turn < 1.0 {
        let there = from + turn * (control - from);
        low = low.min(there);
        high = high.max(there);
    }
    (low, high)
}

fn on_table(
    what: &'static str,
    index: usize,
    across: (f64, f64),
    up: (f64, f64),
    half: (f64, f64),
) -> Result<(), PictureError> {
    let number = index + 1;
    finite(what, index, &[across.0, across.1, up.0, up.1])?;
    let slack = 1e-6;
    let inside = across.0 >= -half.0 - slack
        && across.1 <= half.0 + slack
        && up.0 >= -half.1 - slack
        && up.1 <= half.1 + slack;
    if inside { Ok(()) } else { Err(PictureError::OffTheTable { what, number }) }
}

fn finite(what: &'static str, index: usize, numbers: &[f64]) -> Result<(), PictureError> {
    // A comparison with what is no number is false.
    if numbers.iter().all(|number| number.abs() <= FAR_M) {
        return Ok(());
    }
    Err(PictureError::NotANumber { what, number: index + 1 })
}

fn size(what: &'static str, metres: f64, (low, high): (f64, f64)) -> Result<(), PictureError> {
    if metres >= low && metres <= high {
        return Ok(());
    }
    Err(PictureError::Size {
        what,
        value: format!("{metres:e}"),
        low: low.to_string(),
        high: high.to_string(),
    })
}

#[cfg(test)]
mod tests {
    use super::super::super::curve::bezier;
    use super::*;

    #[test]
    fn the_extent_of_a_parabola_is_that_of_its_points() {
        for (from, control, to) in
            [(0.0, 2.0, 1.0), (0.0, 0.5, 1.0), (3.0, -1.0, 3.0), (1.0, 1.0, 1.0)]
        {
            let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
            for i in 0..=10_000 {
                let share = f64::from(i) / 10_000.0;
                let at = bezier((from, 0.0), (control, 0.0), (to, 0.0), share).0;
                (low, high) = (low.min(at), high.max(at));
            }
            let found = extent(from, control, to);
            assert!((found.0 - low).abs() < 1e-7 && (found.1 - high).abs() < 1e-7, "{found:?}");
        }
    }
}
