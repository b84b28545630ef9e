//! The world as the centre of a ball sees it: every surface moved towards the table by the ball's
//! reach, so that touching one is crossing a line or a circle.
//!
//! The four grooves bound a rectangle. Inside it stand only obstacles; jaws and drop lines lie
//! outside it, behind a pocket's opening. So a path that leaves the rectangle meets a nose at once
//! or enters an opening, and only that pocket's few surfaces need be looked at.

use super::boundary::{Boundary, ROUNDING_M};
use super::jaws::{DropLine, PocketWorld};
use super::surface::{Owner, Shape, Surface};
use crate::motion::{Path, Segment};
use crate::rail::{Outline, Pocket, Rail};
use crate::vector::Vec2;

/// A pocket for the centre of a ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PocketBoundaries {
    /// Which one.
    pub pocket: Pocket,
    /// The middle of its mouth, m.
    pub mouth: Vec2,
    /// Point and facing of the first jaw, then of the second.
    pub jaws: [Boundary; 4],
    /// Where a ball falls.
    pub drop: DropLine,
}

/// The thing that a ball on its way meets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meeting {
    /// A surface.
    Touch(Boundary),
    /// A pocket's drop line.
    Drop(Pocket),
}

/// The world for one size of ball.
#[derive(Debug, Clone, PartialEq)]
pub struct CentreBoundaries {
    /// Distance from a nose to the centre of a ball that touches it, m.
    pub groove_m: f64,
    pub(super) half_x_m: f64,
    pub(super) half_y_m: f64,
    pub(super) noses: [Boundary; 6],
    pub(super) pockets: [PocketBoundaries; 6],
    pub(super) obstacles: Vec<(Boundary, [Vec2; 2])>,
}

/// A line crosses a parabola and the straight line that goes on from it at most four times.
const MOST_CROSSINGS: usize = 4;

impl CentreBoundaries {
    pub(super) fn new(
        outline: &Outline,
        noses: &[Surface; 6],
        pockets: &[PocketWorld; 6],
        obstacles: &[Surface],
        groove_m: f64,
        radius_m: f64,
    ) -> Self {
        let pocket = |it: &PocketWorld| {
            let [a, b] = outline.mouth_points(it.pocket);
            PocketBoundaries {
                pocket: it.pocket,
                mouth: (a + b) * 0.5,
                jaws: it.jaws.map(|surface| Boundary::new(&surface, groove_m)),
                drop: it.drop,
            }
        };
        Self {
            groove_m,
            half_x_m: outline.half_length_m - groove_m,
            half_y_m: outline.half_width_m - groove_m,
            noses: noses.map(|surface| Boundary::new(&surface, groove_m)),
            pockets: [0, 1, 2, 3, 4, 5].map(|index: usize| pocket(&pockets[index])),
            obstacles: obstacles
                .iter()
                .map(|surface| {
                    let shape = surface.shape.grown(radius_m);
                    (Boundary::new(surface, radius_m), box_of(&shape))
                })
                .collect(),
        }
    }

    /// Distance of a rail's groove from the table's centre, m.
    pub fn groove_offset_m(&self, rail: Rail) -> f64 {
        if rail.is_end() { self.half_x_m } else { self.half_y_m }
    }

    /// The pockets, in [`Pocket::ALL`]'s order.
    pub fn pockets(&self) -> &[PocketBoundaries; 6] {
        &self.pockets
    }

    /// Every boundary.
    pub fn boundaries(&self) -> impl Iterator<Item = &Boundary> {
        let jaws = self.pockets.iter().flat_map(|pocket| pocket.jaws.iter());
        self.noses.iter().chain(jaws).chain(self.obstacles.iter().map(|(boundary, _)| boundary))
    }

    /// The boundaries that the centre is on, to within rounding.
    pub fn touched(&self, centre: Vec2) -> impl Iterator<Item = &Boundary> {
        let at = [centre, centre];
        let obstacles = self.obstacles.iter().filter(move |(_, about)| boxes_meet(about, &at));
        self.noses
            .iter()
            .chain(&self.pocket_near(centre).jaws)
            .chain(obstacles.map(|(boundary, _)| boundary))
            .filter(move |it| it.is_on(centre))
    }

    /// True when a ball there is well inside the grooves of a table without obstacles, so that it
    /// touches nothing and is inside nothing.
    pub fn surely_free(&self, centre: Vec2) -> bool {
        self.obstacles.is_empty() && self.within_grooves(centre)
    }

    /// True when a ball there is on no boundary: well inside the grooves and near no side or corner of
    /// an obstacle.
    pub fn surely_untouched(&self, centre: Vec2) -> bool {
        self.within_grooves(centre)
            && !self.obstacles.iter().any(|(_, about)| boxes_meet(about, &[centre, centre]))
    }

    fn within_grooves(&self, centre: Vec2) -> bool {
        centre.x.abs() < self.half_x_m - ROUNDING_M && centre.y.abs() < self.half_y_m - ROUNDING_M
    }

    /// True when the centre is beyond a groove: in a pocket's opening, or in the wood.
    fn beyond_groove(&self, centre: Vec2) -> bool {
        centre.x.abs() > self.half_x_m + ROUNDING_M || centre.y.abs() > self.half_y_m + ROUNDING_M
    }

    /// The pocket whose opening is nearest.
    pub(super) fn pocket_near(&self, centre: Vec2) -> &PocketBoundaries {
        let mut nearest = &self.pockets[0];
        let distance = |pocket: &PocketBoundaries| {
            let apart = pocket.mouth - centre;
            apart.dot(apart)
        };
        for pocket in &self.pockets[1..] {
            if distance(pocket) < distance(nearest) {
                nearest = pocket;
            }
        }
        nearest
    }

    /// The first thing that a path meets, and the time to it, s; 0 for a ball that touches something and
    /// moves into it. Of meetings at the same time noses come first, then jaws, drop lines and
    /// obstacles, and end rails before long rails: mirror images have the same order.
    pub fn first_met(&self, path: &Path) -> Option<(f64, Meeting)> {
        self.first_met_but(path, &[])
    }

    /// As [`CentreBoundaries::first_met`], passing over these boundaries.
    pub fn first_met_but(&self, path: &Path, but: &[&Boundary]) -> Option<(f64, Meeting)> {
        let mut best: Option<(f64, Meeting)> = None;
        let mut note = |found: Option<(f64, Meeting)>| {
            if let Some((time_s, what)) = found
                && best.is_none_or(|(earliest, _)| time_s < earliest)
            {
                best = Some((time_s, what));
            }
        };
        let start = path.first_stretch().position;
        let mut seen = [false; 6];
        if self.beyond_groove(start) {
            let pocket = self.pocket_near(start);
            seen[index_of(pocket.pocket)] = true;
            note(pocket.first_met(path, but));
        }
        let mut after_s = None;
        // Each side can be left as often as a line can be crossed.
        for _ in 0..4 * MOST_CROSSINGS {
            let Some((time_s, rail)) = self.exit(path, after_s) else { break };
            if best.is_some_and(|(earliest, _)| earliest <= time_s) {
                break;
            }
            let place = path.position_at(time_s);
            // Off the end of a nose that is passed over lies an opening.
            if let Some(nose) = self.nose_at(rail, place)
                && !but.contains(&nose)
            {
                best = Some((time_s, Meeting::Touch(*nose)));
                break;
            }
            let pocket = self.pocket_near(place);
            let index = index_of(pocket.pocket);
            if !seen[index] {
                seen[index] = true;
                let found = pocket.first_met(path, but);
                if let Some((met_s, _)) = found
                    && best.is_none_or(|(earliest, _)| met_s < earliest)
                {
                    best = found;
                }
            }
            after_s = Some(time_s);
        }
        if !self.obstacles.is_empty() {
            let reach = path.box_until(best.map_or(f64::INFINITY, |(time_s, _)| time_s));
            for (boundary, about) in &self.obstacles {
                if boxes_meet(&reach, about)
                    && !but.contains(&boundary)
                    && let Some(time_s) = boundary.first_contact(path)
                    && best.is_none_or(|(earliest, _)| time_s < earliest)
                {
                    best = Some((time_s, Meeting::Touch(*boundary)));
                }
            }
        }
        best
    }

    /// When the path next goes out over a groove, and which; `None` as `after_s` also counts a ball
    /// that is on a groove now and moves out.
    fn exit(&self, path: &Path, after_s: Option<f64>) -> Option<(f64, Rail)> {
        let first = path.first_stretch();
        let mut best: Option<(f64, Rail)> = None;
        // End rails first.
        for rail in [Rail::Head, Rail::Foot, Rail::Left, Rail::Right] {
            let (outward, offset) = (rail.outward(), self.groove_offset_m(rail));
            let past = outward.dot(first.position) - offset;
            let on_it = after_s.is_none() && (0.0..=ROUNDING_M).contains(&past);
            let leaves_s = if on_it { leaves_from(first, outward, past) } else { None };
            let time_s =
                leaves_s.or_else(|| path.first_crossing(outward, offset, after_s.unwrap_or(0.0)));
            if let Some(time_s) = time_s
                && best.is_none_or(|(earliest, _)| time_s < earliest)
            {
                best = Some((time_s, rail));
            }
        }
        best
    }

    /// The nose of a rail that stands where the centre crosses its groove.
    fn nose_at(&self, rail: Rail, place: Vec2) -> Option<&Boundary> {
        self.noses.iter().find(|nose| nose.owner == Owner::Nose(rail) && nose.spans(place))
    }
}

/// When a point that starts `past` a line, by rounding, moves along `normal`: at once, or when it turns
/// back before it has come clear of the line.
fn leaves_from(segment: &Segment, normal: Vec2, past: f64) -> Option<f64> {
    let (speed, gain) = (normal.dot(segment.velocity), normal.dot(segment.acceleration));
    if speed > 0.0 || (speed == 0.0 && gain > 0.0) {
        return Some(0.0);
    }
    if gain <= 0.0 {
        return None;
    }
    let turns_s = -speed / gain;
    (past + 0.5 * speed * turns_s >= 0.0 && turns_s <= segment.duration_s).then_some(turns_s)
}

impl PocketBoundaries {
    /// The part of this pocket that a path meets first.
    fn first_met(&self, path: &Path, but: &[&Boundary]) -> Option<(f64, Meeting)> {
        let mut best: Option<(f64, Meeting)> = None;
        for boundary in &self.jaws {
            if !but.contains(&boundary)
                && let Some(time_s) = boundary.first_contact(path)
                && best.is_none_or(|(earliest, _)| time_s < earliest)
            {
                best = Some((time_s, Meeting::Touch(*boundary)));
            }
        }
        if let Some(time_s) = self.falls_at(path)
            && best.is_none_or(|(earliest, _)| time_s < earliest)
        {
            best = Some((time_s, Meeting::Drop(self.pocket)));
        }
        best
    }
}

impl PocketBoundaries {
    /// When a centre falls: it crosses the drop line between the facings.
    fn falls_at(&self, path: &Path) -> Option<f64> {
        let DropLine { normal, offset_m, middle, half_width_m } = self.drop;
        let mut after_s = -1.0;
        for _ in 0..MOST_CROSSINGS {
            let time_s = path.first_crossing(normal, offset_m, after_s)?;
            let across = normal.cross(path.position_at(time_s) - middle);
            if across.abs() <= half_width_m {
                return Some(time_s);
            }
            after_s = time_s;
        }
        None
    }
}

fn index_of(pocket: Pocket) -> usize {
    Pocket::ALL.iter().position(|it| *it == pocket).unwrap_or_default()
}

fn box_of(shape: &Shape) -> [Vec2; 2] {
    let (low, high) = match *shape {
        Shape::Straight { from, to, .. } => (
            Vec2::new(from.x.min(to.x), from.y.min(to.y)),
            Vec2::new(from.x.max(to.x), from.y.max(to.y)),
        ),
        Shape::Round { centre, radius_m, .. } => {
            let reach = Vec2::new(radius_m, radius_m);
            (centre - reach, centre + reach)
        }
    };
    let slack = Vec2::new(ROUNDING_M, ROUNDING_M);
    [low - slack, high + slack]
}

fn boxes_meet(one: &[Vec2; 2], other: &[Vec2; 2]) -> bool {
    one[0].x <= other[1].x
        && other[0].x <= one[1].x
        && one[0].y <= other[1].y
        && other[0].y <= one[1].y
}
