//! The side that gears, where it makes the shot.

use super::RemedySearch;
use super::found::{GearingSide, WrittenAim};
use railproof_engine::aim::{Sending, gear};
use railproof_engine::stroke::Stroke;

/// A tip's place that fails so little to either side is no remedy, in widths of the tip. Chosen.
const LEAST_ROOM_TIPS: f64 = 0.05;
/// Lines of centres nearer than this are one, rad. Chosen: nobody sees the difference.
const SAME_LINE_RAD: f64 = 0.01;

impl RemedySearch<'_> {
    /// The side with which the balls do not rub.
    pub(super) fn gearing(&self) -> Option<GearingSide> {
        if self.asked.is_some_and(|asked| asked.by == Some(Sending::Gear)) {
            return None;
        }
        let radius_m = self.setup.cue.ball.radius_m();
        let least_offset = LEAST_ROOM_TIPS * self.tip_m / radius_m;
        self.lines().find_map(|(line, asked)| {
            let aim = gear(&self.setup, &self.stroke, line).ok()?;
            let (stroke, hit) = (aim.stroke, aim.hit);
            let beside = |by: f64| Stroke { side_offset: stroke.side_offset + by, ..stroke };
            let roomy =
                [-least_offset, 0.0, least_offset].iter().all(|by| self.makes(&beside(*by)));
            let offset = stroke.side_offset;
            let written = match self.asked {
                Some(it) if asked => WrittenAim::InPlaceOf(it.key()),
                _ => WrittenAim::Degrees(self.written_aim(&stroke)?),
            };
            roomy.then(|| GearingSide {
                offset,
                tips: offset.abs() * radius_m / self.tip_m,
                outside: offset * hit.cut_rad() > 0.0,
                as_full: self.normal.is_some_and(|was| {
                    libm::atan2(was.cross(hit.normal), was.dot(hit.normal)).abs() < SAME_LINE_RAD
                }),
                stroke,
                written,
            })
        })
    }
}
