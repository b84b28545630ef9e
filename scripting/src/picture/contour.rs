//! Lines, parabolas and arcs in one run, kept exact.

use std::f64::consts::{PI, TAU};
use std::fmt::Write as _;

/// A place on the page, y downwards.
pub(super) type PagePoint = (f64, f64);

/// The greatest distance of a flattened curve from the true one, in points.
const FLATNESS: f64 = 0.02;

/// Most chords that stand for one piece.
const MOST_CHORDS: f64 = 4000.0;

/// One piece of a curve; it begins where the piece before it ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum ContourPiece {
    /// A straight line.
    Line { to: PagePoint },
    /// A quadratic Bézier curve, which is an arc of a parabola.
    Parabola { control: PagePoint, to: PagePoint },
    /// An arc of a circle, from an angle on by `sweep`; angles grow clockwise on the page.
    Arc { centre: PagePoint, radius: f64, from: f64, sweep: f64 },
}

impl ContourPiece {
    fn end(&self) -> PagePoint {
        match *self {
            Self::Line { to } | Self::Parabola { to, .. } => to,
            Self::Arc { centre, radius, from, sweep } => on_circle(centre, radius, from + sweep),
        }
    }
}

/// Pieces in one run.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Contour {
    pub(super) start: PagePoint,
    pub(super) pieces: Vec<ContourPiece>,
    pub(super) closed: bool,
}

impl Contour {
    /// Straight lines through these points.
    pub(super) fn through(points: &[PagePoint], closed: bool) -> Self {
        let start = points.first().copied().unwrap_or_default();
        let pieces = points.iter().skip(1).map(|&to| ContourPiece::Line { to }).collect();
        Self { start, pieces, closed }
    }

    /// A level box.
    pub(super) fn rectangle((x, y): PagePoint, (w, h): (f64, f64)) -> Self {
        Self::through(&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)], true)
    }

    /// An arc alone.
    pub(super) fn arc(centre: PagePoint, radius: f64, from: f64, sweep: f64) -> Self {
        Self {
            start: on_circle(centre, radius, from),
            pieces: vec![ContourPiece::Arc { centre, radius, from, sweep }],
            closed: false,
        }
    }

    /// A whole circle.
    pub(super) fn circle(centre: PagePoint, radius: f64) -> Self {
        Self { closed: true, ..Self::arc(centre, radius, 0.0, TAU) }
    }

    /// A box with round corners.
    pub(super) fn rounded_box((x, y): PagePoint, (w, h): (f64, f64), radius: f64) -> Self {
        let r = radius.min(w / 2.0).min(h / 2.0);
        let corner = |centre, quarter: f64| ContourPiece::Arc {
            centre,
            radius: r,
            from: quarter * PI / 2.0,
            sweep: PI / 2.0,
        };
        Self {
            start: (x + r, y),
            pieces: vec![
                ContourPiece::Line { to: (x + w - r, y) },
                corner((x + w - r, y + r), -1.0),
                ContourPiece::Line { to: (x + w, y + h - r) },
                corner((x + w - r, y + h - r), 0.0),
                ContourPiece::Line { to: (x + r, y + h) },
                corner((x + r, y + h - r), 1.0),
                ContourPiece::Line { to: (x, y + r) },
                corner((x + r, y + r), 2.0),
            ],
            closed: true,
        }
    }

    /// Where the curve ends.
    pub(super) fn end(&self) -> PagePoint {
        self.pieces.last().map_or(self.start, ContourPiece::end)
    }

    /// Points along the curve whose chords lie within [`FLATNESS`] of it; a closed curve comes back
    /// to its start.
    pub(super) fn flattened(&self) -> Vec<PagePoint> {
        let mut out = vec![self.start];
        let mut here = self.start;
        for piece in &self.pieces {
            let chords = match *piece {
                ContourPiece::Line { .. } => 1.0,
                // A chord over the share h of the parameter strays by h²/4·|p0 − 2·p1 + p2|.
                ContourPiece::Parabola { control, to } => {
                    let bend =
                        (here.0 - 2.0 * control.0 + to.0).hypot(here.1 - 2.0 * control.1 + to.1);
                    (bend / (4.0 * FLATNESS)).sqrt()
                }
                // A chord over the angle a strays by r·(1 − cos(a/2)), at most r·a²/8.
                ContourPiece::Arc { radius, sweep, .. } => {
                    sweep.abs() * (radius / (8.0 * FLATNESS)).sqrt()
                }
            };
            let chords = chords.ceil().clamp(1.0, MOST_CHORDS);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "clamped just above"
            )]
            let count = chords as u32;
            for i in 1..=count {
                let share = f64::from(i) / chords;
                out.push(match *piece {
                    _ if i == count => piece.end(),
                    ContourPiece::Line { to } => to,
                    ContourPiece::Parabola { control, to } => bezier(here, control, to, share),
                    ContourPiece::Arc { centre, radius, from, sweep } => {
                        on_circle(centre, radius, from + share * sweep)
                    }
                });
            }
            here = piece.end();
        }
        if self.closed && here != self.start {
            out.push(self.start);
        }
        out
    }

    /// Adds the curve to the data of an SVG path, in which lines, parabolas and arcs stay what they
    /// are.
    pub(super) fn write_path(&self, out: &mut String) {
        let mut here = (short(self.start.0), short(self.start.1));
        let _ = write!(out, "M{} {}", here.0, here.1);
        for piece in &self.pieces {
            let end = piece.end();
            let to = (short(end.0), short(end.1));
            let _ = match *piece {
                ContourPiece::Line { .. } if to.1 == here.1 => write!(out, "H{}", to.0),
                ContourPiece::Line { .. } if to.0 == here.0 => write!(out, "V{}", to.1),
                ContourPiece::Line { .. } => write!(out, "L{} {}", to.0, to.1),
                ContourPiece::Parabola { control, .. } => {
                    write!(out, "Q{} {} {} {}", short(control.0), short(control.1), to.0, to.1)
                }
                ContourPiece::Arc { centre, radius, from, sweep } => {
                    // An arc that comes back to its start would vanish, so a long one goes in two.
                    let parts: u32 = if sweep.abs() > 0.75 * TAU { 2 } else { 1 };
                    let large = u8::from(sweep.abs() / f64::from(parts) > PI);
                    let clockwise = u8::from(sweep > 0.0);
                    (1..=parts).try_for_each(|part| {
                        let angle = from + sweep * f64::from(part) / f64::from(parts);
                        let (x, y) = on_circle(centre, radius, angle);
                        let (radius, x, y) = (short(radius), short(x), short(y));
                        write!(out, "A{radius} {radius} 0 {large} {clockwise} {x} {y}")
                    })
                }
            };
            here = to;
        }
        if self.closed {
            out.push('Z');
        }
    }
}

/// The length of a path of straight lines.
pub(super) fn length(path: &[PagePoint]) -> f64 {
    path.windows(2).map(|pair| distance(pair[0], pair[1])).sum()
}

pub(super) fn distance(a: PagePoint, b: PagePoint) -> f64 {
    (b.0 - a.0).hypot(b.1 - a.1)
}

/// The point at this share of a quadratic Bézier curve's parameter.
pub(super) fn bezier(from: PagePoint, control: PagePoint, to: PagePoint, share: f64) -> PagePoint {
    let (a, b, c) = ((1.0 - share) * (1.0 - share), 2.0 * share * (1.0 - share), share * share);
    (a * from.0 + b * control.0 + c * to.0, a * from.1 + b * control.1 + c * to.1)
}

pub(super) fn on_circle((x, y): PagePoint, radius: f64, angle: f64) -> PagePoint {
    (x + radius * libm::cos(angle), y + radius * libm::sin(angle))
}

/// A number to the thousandth, which is below any screen's grain.
pub(super) fn short(number: f64) -> f64 {
    // Adding zero turns −0 into 0.
    (number * 1000.0).round() / 1000.0 + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Distance from a point to the nearest chord.
    fn beside(path: &[PagePoint], point: PagePoint) -> f64 {
        path.windows(2)
            .map(|pair| {
                let (a, b) = (pair[0], pair[1]);
                let d = (b.0 - a.0, b.1 - a.1);
                let along = (point.0 - a.0) * d.0 + (point.1 - a.1) * d.1;
                let share = (along / (d.0 * d.0 + d.1 * d.1).max(1e-300)).clamp(0.0, 1.0);
                (a.0 + share * d.0 - point.0).hypot(a.1 + share * d.1 - point.1)
            })
            .fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn flattened_curves_stay_within_the_flatness() {
        let curve = Contour {
            start: (10.0, 20.0),
            pieces: vec![
                ContourPiece::Parabola { control: (400.0, -300.0), to: (900.0, 500.0) },
                ContourPiece::Arc {
                    centre: (900.0, 400.0),
                    radius: 100.0,
                    from: PI / 2.0,
                    sweep: -4.0,
                },
            ],
            closed: false,
        };
        let path = curve.flattened();
        for i in 0..=1000 {
            let share = f64::from(i) / 1000.0;
            let on_parabola = bezier((10.0, 20.0), (400.0, -300.0), (900.0, 500.0), share);
            let on_arc = on_circle((900.0, 400.0), 100.0, PI / 2.0 - 4.0 * share);
            for point in [on_parabola, on_arc] {
                let apart = beside(&path, point);
                assert!(apart <= FLATNESS * 1.001, "{point:?} is {apart} beside the chords");
            }
        }
    }

    #[test]
    fn path_data_says_arcs_and_parabolas_by_name() {
        let mut data = String::new();
        Contour {
            start: (0.0, 0.0),
            pieces: vec![
                ContourPiece::Line { to: (1.0, 0.0) },
                ContourPiece::Parabola { control: (2.0, 0.0), to: (2.0, 1.0) },
                ContourPiece::Arc {
                    centre: (2.0, 2.0),
                    radius: 1.0,
                    from: -PI / 2.0,
                    sweep: PI / 2.0,
                },
            ],
            closed: true,
        }
        .write_path(&mut data);
        assert_eq!(data, "M0 0H1Q2 0 2 1A1 1 0 0 1 3 2Z");
        // A circle is two halves, clockwise.
        let mut circle = String::new();
        Contour::circle((5.0, 5.0), 2.0).write_path(&mut circle);
        assert_eq!(circle, "M7 5A2 2 0 0 1 3 5A2 2 0 0 1 7 5Z");
    }
}
