//! A surface as the centre of a ball sees it: a line or an arc.

use super::surface::{Owner, Shape, Surface};
use crate::contact::{Arc, JOIN_SLACK_M, StraightEdge};
use crate::motion::{Path, Segment};
use crate::vector::Vec2;

/// A centre no further than this past a boundary is on it by rounding, m.
pub(crate) const ROUNDING_M: f64 = 1e-9;

/// A surface moved towards the table by a ball's reach.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boundary {
    /// Whose it is.
    pub owner: Owner,
    /// Where it is.
    pub place: BoundaryShape,
}

/// A boundary as contact times see it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BoundaryShape {
    /// A straight one.
    Line(StraightEdge),
    /// A round one.
    Arc(Arc),
}

impl Boundary {
    pub(super) fn new(surface: &Surface, reach_m: f64) -> Self {
        let place = match surface.shape.grown(reach_m) {
            Shape::Straight { from, to, into } => {
                BoundaryShape::Line(StraightEdge::between(into, from, to))
            }
            Shape::Round { centre, radius_m, from, to } => {
                BoundaryShape::Arc(Arc { centre, radius_m, from, to })
            }
        };
        Self { owner: surface.owner, place }
    }

    /// Distance of a centre from this boundary, negative past it; `None` where the centre is not
    /// over its length.
    pub fn gap(&self, centre: Vec2) -> Option<f64> {
        self.spans(centre).then(|| match &self.place {
            BoundaryShape::Line(line) => line.gap(centre),
            BoundaryShape::Arc(arc) => arc.gap(centre),
        })
    }

    /// True when a centre is on the boundary, to within rounding.
    pub(super) fn is_on(&self, centre: Vec2) -> bool {
        let gap = match &self.place {
            BoundaryShape::Line(line) => line.gap(centre),
            BoundaryShape::Arc(arc) => arc.gap(centre),
        };
        gap.abs() <= ROUNDING_M && self.spans(centre)
    }

    /// True when a centre is over the boundary's length, on either side of it.
    pub fn spans(&self, centre: Vec2) -> bool {
        match &self.place {
            BoundaryShape::Line(line) => {
                let along = line.along(centre);
                along >= line.from_m - JOIN_SLACK_M && along <= line.to_m + JOIN_SLACK_M
            }
            BoundaryShape::Arc(arc) => arc.faces(centre),
        }
    }

    /// Unit vector into the solid, where a centre is near the boundary.
    pub fn normal_at(&self, centre: Vec2) -> Vec2 {
        match &self.place {
            BoundaryShape::Line(line) => line.normal,
            BoundaryShape::Arc(arc) => arc.normal_at(centre),
        }
    }

    /// The nearest place on the boundary.
    #[must_use]
    pub fn pinned(&self, centre: Vec2) -> Vec2 {
        match &self.place {
            BoundaryShape::Line(line) => centre + line.normal * line.gap(centre),
            BoundaryShape::Arc(arc) => arc.centre - arc.normal_at(centre) * arc.radius_m,
        }
    }

    /// One over the radius of the way around it, 1/m; 0 of a straight one.
    pub fn curvature_1_m(&self) -> f64 {
        match &self.place {
            BoundaryShape::Line(_) => 0.0,
            BoundaryShape::Arc(arc) => 1.0 / arc.radius_m,
        }
    }

    /// The distance of a centre on the boundary from the end that it heads for, m, along its tangent
    /// there; no more than a radius on a round one.
    pub fn ahead_m(&self, centre: Vec2, heading: Vec2) -> f64 {
        match &self.place {
            BoundaryShape::Line(line) => {
                let tangent = Vec2::new(-line.normal.y, line.normal.x);
                let along = line.along(centre);
                if tangent.dot(heading) > 0.0 { line.to_m - along } else { along - line.from_m }
            }
            BoundaryShape::Arc(arc) => {
                let out = -arc.normal_at(centre);
                let side = out.cross(heading);
                let ends = [arc.from, arc.to].map(|end| {
                    let turn = out.cross(end);
                    if out.dot(end) > 0.0 { turn } else { libm::copysign(1.0, turn) }
                });
                let ahead = if side > 0.0 { ends[0].max(ends[1]) } else { -ends[0].min(ends[1]) };
                ahead * arc.radius_m
            }
        }
    }

    /// The end of the boundary that is no further than `within_m` from a centre on it.
    pub fn end_within(&self, centre: Vec2, within_m: f64) -> Option<Vec2> {
        let ends = match &self.place {
            BoundaryShape::Line(line) => {
                let tangent = Vec2::new(-line.normal.y, line.normal.x);
                [line.from_m, line.to_m].map(|along| line.normal * line.offset_m + tangent * along)
            }
            BoundaryShape::Arc(arc) => {
                [arc.from, arc.to].map(|end| arc.centre + end * arc.radius_m)
            }
        };
        ends.into_iter().find(|end| (*end - centre).norm() <= within_m)
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
            BoundaryShape::Line(line) => line.first_contact(segment, segment.duration_s),
            BoundaryShape::Arc(arc) => arc.first_contact(segment, segment.duration_s),
        }
    }
}
