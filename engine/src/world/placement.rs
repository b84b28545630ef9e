//! Whether a ball can lie at a place.

use super::boundary::BoundaryShape;
use super::centre_boundaries::{CentreBoundaries, Meeting, PocketBoundaries};
use super::surface::Owner;
use crate::vector::Vec2;

impl CentreBoundaries {
    /// The thing in the way of a ball placed at `centre`, with the depth of the centre past its boundary, or
    /// a drop line behind which the ball would be; the largest overlap first.
    pub fn obstructed(&self, centre: Vec2) -> Option<(f64, Meeting)> {
        let mut worst: Option<(f64, Meeting)> = None;
        let mut note = |past_m: f64, what: Meeting| {
            if past_m > 0.0 && worst.is_none_or(|(most, _)| past_m > most) {
                worst = Some((past_m, what));
            }
        };
        // A side pocket's line, drawn on, passes behind the corners' mouths.
        let PocketBoundaries { pocket, drop, .. } = self.pocket_near(centre);
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

    /// The obstacles whose grown outline the centre is inside of, with the depths.
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
                    BoundaryShape::Line(line) => {
                        let gap = line.gap(centre);
                        behind_all &= gap < 0.0;
                        shallowest = shallowest.min(-gap);
                    }
                    BoundaryShape::Arc(_) => {
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
            .any(|(it, _)| matches!(it.place, BoundaryShape::Arc(_)) && it.gap(centre).is_some())
    }
}
