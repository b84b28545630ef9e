//! The world as the centre of a ball sees it: every surface moved towards the table by the ball's
//! reach, so that touching one is crossing a line or a circle.
//!
//! The four grooves bound a rectangle. Inside it stand only obstacles; jaws and drop lines lie
//! outside it, behind a pocket's opening. So a path that leaves the rectangle meets a nose at once
//! or enters an opening, and only that pocket's few surfaces need be looked at.

use super::jaws::{DropLine, PocketWorld};
use super::surface::{Owner, Shape, Surface};
use crate::contact::{Arc, JOIN_SLACK_M, Line};
use crate::motion::{Path, Segment};
use crate::rail::{Outline, Pocket, Rail};
use crate::vector::Vec2;

/// A surface moved towards the table by a ball's reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boundary {
    /// Whose it is.
    pub owner: Owner,
    /// Where it is.
    pub place: Place,
}

/// A boundary as contact times see it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Place {
    /// A straight one.
    Line(Line),
    /// A round one.
    Arc(Arc),
}

/// A pocket for the centre of a ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrownPocket {
    /// Which one.
    pub pocket: Pocket,
    /// The middle of its mouth, m.
    pub mouth: Vec2,
    /// Point and facing of the first jaw, then of the second.
    pub jaws: [Boundary; 4],
    /// Where a ball falls.
    pub drop: DropLine,
}

/// What a ball on its way meets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Meeting {
    /// A surface.
    Touch(Boundary),
    /// A pocket's drop line.
    Drop(Pocket),
}

/// The world for one size of ball.
#[derive(Debug, Clone, PartialEq)]
pub struct Grown {
    /// Distance from a nose to the centre of a ball that touches it, m.
    pub groove_m: f64,
    half_x_m: f64,
    half_y_m: f64,
    noses: [Boundary; 6],
    pockets: [GrownPocket; 6],
    obstacles: Vec<(Boundary, [Vec2; 2])>,
}

/// A line crosses a parabola and the straight line that goes on from it at most four times.
const MOST_CROSSINGS: usize = 4;
/// A centre no further than this past a boundary is on it by rounding, m.
pub(crate) const ROUNDING_M: f64 = 1e-9;

impl Grown {
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
            GrownPocket {
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
    pub fn pockets(&self) -> &[GrownPocket; 6] {
        &self.pockets
    }

    /// Every boundary.
    pub fn boundaries(&self) -> impl Iterator<Item = &Boundary> {
        let jaws = self.pockets.iter().flat_map(|pocket| pocket.jaws.iter());
        self.noses.iter().chain(jaws).chain(self.obstacles.iter().map(|(boundary, _)| boundary))
    }

    /// The boundary, of those that the centre is on to within rounding, that lies most nearly in the
    /// direction `towards`, if any lies in it.
    pub fn touched_at(&self, centre: Vec2, towards: Vec2) -> Option<Boundary> {
        let mut best: Option<(f64, Boundary)> = None;
        for boundary in self.boundaries() {
            if boundary.gap(centre).is_some_and(|gap| gap.abs() <= ROUNDING_M) {
                let lies = boundary.normal_at(centre).dot(towards);
                if lies > 0.0 && best.is_none_or(|(most, _)| lies > most) {
                    best = Some((lies, *boundary));
                }
            }
        }
        best.map(|(_, boundary)| boundary)
    }

    /// True when a ball there is well inside the grooves of a table without obstacles, so that it
    /// touches nothing.
    pub fn surely_free(&self, centre: Vec2) -> bool {
        self.obstacles.is_empty()
            && centre.x.abs() < self.half_x_m - ROUNDING_M
            && centre.y.abs() < self.half_y_m - ROUNDING_M
    }

    /// True when the centre is beyond a groove: in a pocket's opening, or in the wood.
    fn beyond_groove(&self, centre: Vec2) -> bool {
        centre.x.abs() > self.half_x_m + ROUNDING_M || centre.y.abs() > self.half_y_m + ROUNDING_M
    }

    /// The pocket whose opening is nearest.
    fn pocket_near(&self, centre: Vec2) -> &GrownPocket {
        let mut nearest = &self.pockets[0];
        let distance = |pocket: &GrownPocket| {
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

    /// What stands in the way of a ball placed at `centre`: how deep its centre is past a boundary,
    /// or a drop line behind which it would be, with the largest overlap first.
    pub fn obstructed(&self, centre: Vec2) -> Option<(f64, Meeting)> {
        let mut worst: Option<(f64, Meeting)> = None;
        let mut note = |past_m: f64, what: Meeting| {
            if past_m > 0.0 && worst.is_none_or(|(most, _)| past_m > most) {
                worst = Some((past_m, what));
            }
        };
        // A side pocket's line, drawn on, passes behind the corners' mouths.
        let GrownPocket { pocket, drop, .. } = self.pocket_near(centre);
        note(drop.normal.dot(centre) - drop.offset_m, Meeting::Drop(*pocket));
        let fixed = self.noses.iter().chain(self.pockets.iter().flat_map(|it| it.jaws.iter()));
        for boundary in fixed {
            if let Some(gap) = boundary.gap(centre) {
                note(-gap, Meeting::Touch(*boundary));
            }
        }
        // Inside an obstacle's grown outline: past the line of every side and near its shape.
        for (index, depth) in self.inside_obstacles(centre) {
            // Of its sides and corners the one that it is least behind.
            let own = self.obstacles.iter().filter(|(it, _)| it.owner == Owner::Obstacle(index));
            let behind = own.map(|(it, _)| (it.gap(centre).map_or(f64::INFINITY, f64::abs), it));
            if let Some((_, boundary)) = behind.min_by(|one, other| one.0.total_cmp(&other.0)) {
                note(depth, Meeting::Touch(*boundary));
            }
        }
        worst
    }

    /// The obstacles whose grown outline the centre is inside of, and how deep.
    fn inside_obstacles(&self, centre: Vec2) -> Vec<(usize, f64)> {
        let mut found: Vec<(usize, f64)> = Vec::new();
        let mut at = 0;
        while at < self.obstacles.len() {
            let owner = self.obstacles[at].0.owner;
            let same = self.obstacles[at..].iter().take_while(|(it, _)| it.owner == owner);
            let (mut behind_all, mut shallowest, mut count) = (true, f64::INFINITY, 0);
            let mut in_corner: Option<f64> = None;
            for (boundary, _) in same {
                count += 1;
                match boundary.place {
                    Place::Line(line) => {
                        let gap = line.gap(centre);
                        behind_all &= gap < 0.0;
                        shallowest = shallowest.min(-gap);
                    }
                    Place::Arc(_) => {
                        if let Some(gap) = boundary.gap(centre)
                            && gap < 0.0
                        {
                            in_corner = Some(in_corner.unwrap_or(0.0).max(-gap));
                        }
                    }
                }
            }
            at += count;
            if let Owner::Obstacle(index) = owner {
                // Behind every grown side, but outside a corner's rounding, it is still free.
                let cornered = self.in_a_corner(owner, centre);
                match (behind_all, cornered, in_corner) {
                    (true, false, _) => found.push((index, shallowest)),
                    (true, true, Some(depth)) => found.push((index, depth)),
                    _ => {}
                }
            }
        }
        found
    }

    /// True when the centre lies in the sector of one of the obstacle's corners.
    fn in_a_corner(&self, owner: Owner, centre: Vec2) -> bool {
        self.obstacles
            .iter()
            .filter(|(it, _)| it.owner == owner)
            .any(|(it, _)| matches!(it.place, Place::Arc(_)) && it.gap(centre).is_some())
    }

    /// What a path meets first, and after how many seconds; 0 for a ball that touches something and
    /// moves into it. Of meetings at the same time noses come first, then jaws, drop lines and
    /// obstacles, and end rails before long rails: mirror images have the same order.
    pub fn first_met(&self, path: &Path) -> Option<(f64, Meeting)> {
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
            note(pocket.first_met(path));
        }
        let mut after_s = None;
        // Each side can be left as often as a line can be crossed.
        for _ in 0..4 * MOST_CROSSINGS {
            let Some((time_s, rail)) = self.exit(path, after_s) else { break };
            if best.is_some_and(|(earliest, _)| earliest <= time_s) {
                break;
            }
            let place = path.position_at(time_s);
            if let Some(nose) = self.nose_at(rail, place) {
                best = Some((time_s, Meeting::Touch(*nose)));
                break;
            }
            let pocket = self.pocket_near(place);
            let index = index_of(pocket.pocket);
            if !seen[index] {
                seen[index] = true;
                let found = pocket.first_met(path);
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
            let leaves_now = after_s.is_none()
                && (-ROUNDING_M..=ROUNDING_M).contains(&past)
                && past >= 0.0
                && closes(first, outward);
            let time_s = if leaves_now {
                Some(0.0)
            } else {
                path.first_crossing(outward, offset, after_s.unwrap_or(0.0))
            };
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

/// True when a point that starts so moves along `normal`, or is about to.
fn closes(segment: &Segment, normal: Vec2) -> bool {
    let speed = normal.dot(segment.velocity);
    speed > 0.0 || (speed == 0.0 && normal.dot(segment.acceleration) > 0.0)
}

impl GrownPocket {
    /// What of this pocket a path meets first.
    fn first_met(&self, path: &Path) -> Option<(f64, Meeting)> {
        let mut best: Option<(f64, Meeting)> = None;
        for boundary in &self.jaws {
            if let Some(time_s) = boundary.first_contact(path)
                && best.is_none_or(|(earliest, _)| time_s < earliest)
            {
                best = Some((time_s, Meeting::Touch(*boundary)));
            }
        }
        if let Some(time_s) = path.first_crossing(self.drop.normal, self.drop.offset_m, -1.0)
            && best.is_none_or(|(earliest, _)| time_s < earliest)
        {
            best = Some((time_s, Meeting::Drop(self.pocket)));
        }
        best
    }
}

impl Boundary {
    fn new(surface: &Surface, reach_m: f64) -> Self {
        let place = match surface.shape.grown(reach_m) {
            Shape::Straight { from, to, into } => Place::Line(Line::between(into, from, to)),
            Shape::Round { centre, radius_m, from, to } => {
                Place::Arc(Arc { centre, radius_m, from, to })
            }
        };
        Self { owner: surface.owner, place }
    }

    /// Distance of a centre from this boundary, negative past it; `None` where the centre is not
    /// over its length.
    pub fn gap(&self, centre: Vec2) -> Option<f64> {
        self.spans(centre).then(|| match &self.place {
            Place::Line(line) => line.gap(centre),
            Place::Arc(arc) => arc.gap(centre),
        })
    }

    /// True when a centre is over the boundary's length, on either side of it.
    pub fn spans(&self, centre: Vec2) -> bool {
        match &self.place {
            Place::Line(line) => {
                let along = line.along(centre);
                along >= line.from_m - JOIN_SLACK_M && along <= line.to_m + JOIN_SLACK_M
            }
            Place::Arc(arc) => arc.faces(centre),
        }
    }

    /// Unit vector into the solid, where a centre is near the boundary.
    pub fn normal_at(&self, centre: Vec2) -> Vec2 {
        match &self.place {
            Place::Line(line) => line.normal,
            Place::Arc(arc) => arc.normal_at(centre),
        }
    }

    /// The nearest place on the boundary.
    #[must_use]
    pub fn pinned(&self, centre: Vec2) -> Vec2 {
        match &self.place {
            Place::Line(line) => centre + line.normal * line.gap(centre),
            Place::Arc(arc) => arc.centre - arc.normal_at(centre) * arc.radius_m,
        }
    }

    /// When the path touches it on its way into it.
    pub fn first_contact(&self, path: &Path) -> Option<f64> {
        let slide = path.slide();
        if slide.duration_s > 0.0
            && let Some(time_s) = self.on_stretch(slide)
        {
            return Some(time_s);
        }
        if slide.duration_s.is_finite() {
            return self.on_stretch(path.roll()).map(|time_s| slide.duration_s + time_s);
        }
        None
    }

    fn on_stretch(&self, segment: &Segment) -> Option<f64> {
        match &self.place {
            Place::Line(line) => line.first_contact(segment, segment.duration_s),
            Place::Arc(arc) => arc.first_contact(segment, segment.duration_s),
        }
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
