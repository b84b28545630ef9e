//! Another hit that makes the shot.

use super::RemedySearch;
use super::found::{HitChange, HitSide, WrittenAim};
use railproof_engine::aim::{Sending, overcut};
use railproof_engine::stroke::Stroke;
use railproof_engine::units::INCH_M;
use railproof_engine::vector::Vec2;

/// A hit that fails so little to either side at the object ball is no remedy, m. Chosen: nobody hits
/// finer.
const LEAST_ROOM_M: f64 = 2e-4;
/// Nearer to the middle of the object ball than this, a hit has no thinner side, m. Chosen.
const FULL_M: f64 = 5e-4;
/// Hits up to so far from the one that was played are looked at, m. Chosen: about half a ball.
const FURTHEST_M: f64 = 30e-3;
/// The distance between them, m: no room that is wide enough lies between two of them.
const STEP_M: f64 = 2.0 * LEAST_ROOM_M;
/// A hit is told in the first of these in which it still makes the shot, m.
const INCH_PARTS_M: [f64; 3] = [INCH_M / 8.0, INCH_M / 16.0, INCH_M / 32.0];
const METRIC_PARTS_M: [f64; 3] = [1e-3, 5e-4, 1e-4];

impl RemedySearch<'_> {
    /// Another hit.
    pub(super) fn hit(&self) -> Option<HitChange> {
        let geared = self.asked.is_some_and(|asked| asked.by == Some(Sending::Gear));
        let side_offset = if geared { 0.0 } else { self.stroke.side_offset };
        let base = Stroke { side_offset, ..self.stroke };
        let by_overcut = self.lines().find_map(|(line, asked)| {
            let stroke = overcut(&self.setup, &base, line).ok()?.stroke;
            Some((self.told(&stroke)?, asked && self.makes(&stroke)))
        });
        let (mut change, solved) =
            by_overcut.or_else(|| Some((self.told(&self.nearest(&base)?)?, false)))?;
        change.without_side = geared;
        if let (true, Some(asked)) = (solved, self.asked)
            && asked.by != Some(Sending::Overcut)
        {
            change.written = WrittenAim::InPlaceOf(asked.key());
        }
        Some(change)
    }

    /// The middle of the nearest room in which hits make the shot.
    fn nearest(&self, base: &Stroke) -> Option<Stroke> {
        let was_m = self.passes_m(base);
        let at = |step: i32| self.passing(base, was_m + STEP_M * f64::from(step));
        let makes = |step: i32| at(step).is_some_and(|stroke| self.makes(&stroke));
        #[expect(clippy::cast_possible_truncation, reason = "some dozens")]
        let most = (FURTHEST_M / STEP_M) as i32;
        let mut from = (1..=most).flat_map(|step| [step, -step]);
        let found = from.find(|step| makes(*step))?;
        let away = found.signum();
        let mut last = found;
        while last.abs() < 2 * most && makes(last + away) {
            last += away;
        }
        at(i32::midpoint(found, last))
    }

    /// A hit to the coarsest size in which it still makes the shot with a little to either side.
    pub(super) fn told(&self, better: &Stroke) -> Option<HitChange> {
        let (was_m, is_m) = (self.passes_m(&self.stroke), self.passes_m(better));
        let change_m = is_m - was_m;
        let parts = if self.in_inches { INCH_PARTS_M } else { METRIC_PARTS_M };
        let (by_m, stroke) = parts.into_iter().find_map(|part_m| {
            let by_m = (change_m.abs() / part_m).round() * part_m;
            let told_m = was_m + by_m.copysign(change_m);
            let roomy = [-LEAST_ROOM_M, 0.0, LEAST_ROOM_M].iter().all(|beside_m| {
                let stroke = self.passing(better, told_m + beside_m);
                stroke.is_some_and(|stroke| self.makes(&stroke))
            });
            let stroke = self.setup.raised(&self.passing(better, told_m)?).ok()?;
            (by_m > 0.0 && roomy).then_some((by_m, stroke))
        })?;
        let over = was_m * is_m <= 0.0 || was_m.abs() < FULL_M;
        let to = match (over, is_m.abs() > was_m.abs(), is_m > was_m) {
            (false, true, _) => HitSide::Thinner,
            (false, false, _) => HitSide::Fuller,
            (true, _, true) => HitSide::Right,
            (true, _, false) => HitSide::Left,
        };
        let written = WrittenAim::Degrees(self.written_aim(&stroke)?);
        Some(HitChange { to, by_m, stroke, written, without_side: false })
    }

    fn apart(&self) -> Vec2 {
        self.setup.object.state.position - self.setup.cue.state.position
    }

    /// How far to the right of the object ball's centre a stroke points, m.
    fn passes_m(&self, stroke: &Stroke) -> f64 {
        let (sin, cos) = libm::sincos(stroke.aim_rad);
        cos * self.apart().y - sin * self.apart().x
    }

    /// The stroke that points so far to the right of the object ball's centre; nothing where none does.
    fn passing(&self, stroke: &Stroke, right_m: f64) -> Option<Stroke> {
        let apart = self.apart();
        let share = right_m / apart.norm();
        let aim_rad = libm::atan2(apart.y, apart.x) - libm::asin(share);
        (share.abs() < 1.0).then_some(Stroke { aim_rad, ..*stroke })
    }
}
