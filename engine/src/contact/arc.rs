//! The first contact with a round corner.

use super::distance::first_accepted;
use super::{DEEPEST_TOUCH_M, JOIN_SLACK_M};
use crate::motion::Segment;
use crate::vector::Vec2;

/// The part of a circle, met from outside, that is seen from its centre between two directions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    /// The circle's centre, m.
    pub centre: Vec2,
    /// Its radius, m: that of the corner and that of the ball together.
    pub radius_m: f64,
    /// Unit vector from the centre to one end.
    pub from: Vec2,
    /// Unit vector from the centre to the other end, less than half a turn away on either side; the
    /// arc is the shorter way between them.
    pub to: Vec2,
}

impl Arc {
    /// The distance of a ball's centre from the circle, m; negative inside. The ends do not count here.
    pub fn gap(&self, centre: Vec2) -> f64 {
        (centre - self.centre).norm() - self.radius_m
    }

    /// Unit vector from a ball's centre there into what it meets: towards the circle's centre.
    pub fn normal_at(&self, centre: Vec2) -> Vec2 {
        (self.centre - centre).unit_or_zero()
    }

    /// True when that point lies in the directions between the ends, with
    /// [`JOIN_SLACK_M`] to spare.
    pub fn faces(&self, centre: Vec2) -> bool {
        let r = centre - self.centre;
        let turn = if self.from.cross(self.to) < 0.0 { -1.0 } else { 1.0 };
        turn * self.from.cross(r) >= -JOIN_SLACK_M
            && turn * r.cross(self.to) >= -JOIN_SLACK_M
            && r.dot(self.from + self.to) > 0.0
    }

    /// The first contact of a centre on that stretch, at a time of the stretch in [0, `until_s`] and
    /// within its duration, s; see [the module](super) for the meaning of a contact.
    ///
    /// Contacts with the circle outside the arc, or deeper inside it than [`DEEPEST_TOUCH_M`], are
    /// passed over for later ones.
    pub fn first_contact(&self, segment: &Segment, until_s: f64) -> Option<f64> {
        let until_s = until_s.min(segment.duration_s);
        if self.never_nears(segment, until_s) {
            return None;
        }
        let r = segment.position - self.centre;
        let (v, a) = (segment.velocity, segment.acceleration);
        first_accepted(r, v, a, self.radius_m, until_s, |time| {
            let centre = segment.position_at(time);
            self.faces(centre) && self.gap(centre) >= -DEEPEST_TOUCH_M
        })
    }

    /// True when the velocity leads away from both ends' normals all the time, and so from all normals
    /// between.
    fn never_nears(&self, segment: &Segment, until_s: f64) -> bool {
        [self.from, self.to].into_iter().all(|normal| {
            let (speed, change) = (normal.dot(segment.velocity), normal.dot(segment.acceleration));
            speed >= 0.0 && (change >= 0.0 || speed + change * until_s >= 0.0)
        })
    }
}
