//! From the rebound to the mouth, or to whatever comes first.

use super::{Arrival, BankEnding};
use crate::motion::{Path, Segment};
use crate::rail::{BankGeometry, Mouth, Side};
use crate::vector::Vec2;

/// Follows the path off the rail: where it ends, and where it crosses the mouth line (extended past
/// any rail it meets first).
pub(super) fn after_rebound(geometry: &BankGeometry, path: &Path) -> (BankEnding, Option<Arrival>) {
    let Mouth { outward, midpoint, .. } = geometry.mouth;
    let crossing_s = path.first_crossing(outward, outward.dot(midpoint), 0.0);
    let arrival = crossing_s.map(|time_s| arrival_at(geometry, path, time_s));
    let until_s = crossing_s.unwrap_or_else(|| path.centre_rests_from_s());
    if let Some((side, place)) = first_side(geometry, path, until_s) {
        return (met(geometry, side, place), arrival);
    }
    if let Some(arrival) = arrival {
        return (ending_on_mouth_line(geometry, &arrival), Some(arrival));
    }
    (at_rest(geometry, path, BankEnding::StoppedBeforeMouth), None)
}

/// The end of a way that never comes to the rail it was meant for.
pub(super) fn short_of_rail(geometry: &BankGeometry, path: &Path) -> BankEnding {
    let Mouth { outward, midpoint, .. } = geometry.mouth;
    let crossing_s = path.first_crossing(outward, outward.dot(midpoint), 0.0);
    let until_s = crossing_s.unwrap_or_else(|| path.centre_rests_from_s());
    if let Some((side, place)) = first_side(geometry, path, until_s) {
        return met(geometry, side, place);
    }
    match crossing_s {
        // Drawn back into the target itself: no bank.
        Some(time_s) => BankEnding::OtherPocket(geometry.pocket, position_at(path, time_s)),
        None => at_rest(geometry, path, BankEnding::StoppedBeforeRail),
    }
}

/// The end of a way that would cross the rail's line beyond the rail's own ends, at `until_s`.
pub(super) fn way_to_corner(
    geometry: &BankGeometry,
    path: &Path,
    until_s: f64,
) -> Option<BankEnding> {
    first_side(geometry, path, until_s).map(|(side, place)| met(geometry, side, place))
}

/// Where a ball comes to rest. One that nothing slows and that meets no side has gone into the
/// target's opening, but not through the mouth: what it meets there is the mouth point's rail.
fn at_rest(geometry: &BankGeometry, path: &Path, stopped: fn(Vec2) -> BankEnding) -> BankEnding {
    let rest = path.state_at(path.centre_rests_from_s()).position;
    if rest.is_finite() {
        return stopped(rest);
    }
    sides(geometry)
        .into_iter()
        .filter_map(|(side, normal, offset)| {
            path.first_crossing(normal, offset, 0.0).map(|time_s| (time_s, side))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map_or(BankEnding::NoRoom, |(time_s, side)| {
            BankEnding::OtherRail(side, position_at(path, time_s))
        })
}

/// The end of a way that crosses the mouth line before it meets any side.
fn ending_on_mouth_line(geometry: &BankGeometry, arrival: &Arrival) -> BankEnding {
    let mouth = &geometry.mouth;
    let place = arrival.state.position;
    if (place - mouth.midpoint).dot(mouth.toward_long).abs() <= 0.5 * mouth.width_m {
        return BankEnding::AtMouth;
    }
    // It slips past a mouth point without meeting the straight nose: the point is the rail.
    let side =
        if arrival.miss_m > 0.0 && !geometry.pocket.is_side() { Side::Low } else { Side::Opposite };
    BankEnding::OtherRail(side, place)
}

/// The end and the arrival of a ball that is on the mouth line now.
#[cfg(feature = "world")]
pub(super) fn on_mouth_line(geometry: &BankGeometry, path: &Path) -> (BankEnding, Arrival) {
    let arrival = arrival_at(geometry, path, 0.0);
    (ending_on_mouth_line(geometry, &arrival), arrival)
}

/// Miss and clearances where the path crosses the mouth line.
///
/// The path is taken as its tangent there: with ψ the angle between tangent and mouth line the
/// points stand ±(mouth/2)·sinψ from the midpoint, square to the path, and the ball touches a point
/// when its centre is R·cosθ from it (the points are as high as the nose).
fn arrival_at(geometry: &BankGeometry, path: &Path, time_s: f64) -> Arrival {
    let state = path.state_at(time_s);
    let mouth = &geometry.mouth;
    let (miss_m, squareness) = miss_and_squareness(mouth, state.position, state.velocity);
    let room = 0.5 * mouth.width_m * squareness - geometry.groove_m;
    Arrival {
        time_s,
        state,
        miss_m,
        clearance_long_m: room - miss_m,
        clearance_short_m: room + miss_m,
    }
}

/// The miss of a way off the rail where it crosses the mouth line, m: extended past whatever it meets
/// first, and straight on past where the ball would stop. `None` where it does not lead there.
pub(crate) fn miss_on_way(geometry: &BankGeometry, path: &Path) -> Option<f64> {
    let Mouth { outward, midpoint, .. } = geometry.mouth;
    let offset_m = outward.dot(midpoint);
    if let Some(time_s) = path.first_crossing(outward, offset_m, 0.0) {
        return Some(arrival_at(geometry, path, time_s).miss_m);
    }
    let roll = path.roll();
    let speed = outward.dot(roll.velocity);
    let left_m = offset_m - outward.dot(roll.position);
    if !(speed > 0.0 && left_m >= 0.0) {
        return None;
    }
    let place = roll.position + roll.velocity * (left_m / speed);
    let (miss_m, _) = miss_and_squareness(&geometry.mouth, place, roll.velocity);
    Some(miss_m).filter(|miss_m| miss_m.is_finite())
}

/// The miss of a straight way through a place on the mouth line, m, and the sine of their angle.
fn miss_and_squareness(mouth: &Mouth, place: Vec2, velocity: Vec2) -> (f64, f64) {
    let squareness = mouth.toward_long.cross(velocity.unit_or_zero()).abs();
    ((place - mouth.midpoint).dot(mouth.toward_long) * squareness, squareness)
}

/// True when neither component of the velocity changes sign before `until_s`: then a coordinate
/// that ends on the near side of a groove was never beyond it.
fn never_turns(path: &Path, until_s: f64) -> bool {
    let slide = path.slide();
    let last = slide.velocity_at(slide.duration_s.min(until_s));
    slide.velocity.x * last.x >= 0.0 && slide.velocity.y * last.y >= 0.0
}

/// The first side whose cushion, or whose pocket other than the target, the path meets.
fn first_side(geometry: &BankGeometry, path: &Path, until_s: f64) -> Option<(Side, Vec2)> {
    // A ball that nothing slows has no last place.
    let steady = until_s.is_finite() && never_turns(path, until_s);
    let last = position_at(path, until_s);
    sides(geometry)
        .into_iter()
        .filter(|(_, normal, offset)| !steady || normal.dot(last) > *offset)
        .filter_map(|(side, normal, offset)| {
            first_met(geometry, path, side, normal, offset, until_s)
                .map(|(time_s, place)| (time_s, side, place))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, side, place)| (side, place))
}

/// The four grooves: outward normal and offset.
fn sides(geometry: &BankGeometry) -> [(Side, Vec2, f64); 4] {
    [
        (Side::Banked, Vec2::new(0.0, 1.0), geometry.span_m),
        (Side::Opposite, Vec2::new(0.0, -1.0), 0.0),
        (Side::Low, Vec2::new(-1.0, 0.0), -geometry.low_groove_m),
        (Side::High, Vec2::new(1.0, 0.0), geometry.high_groove_m),
    ]
}

/// When the path first crosses this side's groove outside the target's opening.
fn first_met(
    geometry: &BankGeometry,
    path: &Path,
    side: Side,
    normal: Vec2,
    offset_m: f64,
    until_s: f64,
) -> Option<(f64, Vec2)> {
    let in_target = |place| opening_at(geometry, side, place) == Some(geometry.pocket);
    let first = path.first_stretch();
    if presses_on(first, normal, offset_m) && !in_target(first.position) {
        return Some((0.0, first.position));
    }
    let mut after_s = 0.0;
    // A line crosses a parabola and the straight line that goes on from it at most four times.
    for _ in 0..4 {
        let time_s = path.first_crossing(normal, offset_m, after_s)?;
        if time_s >= until_s {
            return None;
        }
        let place = position_at(path, time_s);
        if !in_target(place) {
            return Some((time_s, place));
        }
        after_s = time_s;
    }
    None
}

/// True for a ball that lies in the groove and is on its way into the cushion: it crosses nothing
/// later, it is there now.
fn presses_on(first: &Segment, normal: Vec2, offset_m: f64) -> bool {
    let speed = normal.dot(first.velocity);
    normal.dot(first.position) >= offset_m
        && (speed > 0.0 || (speed == 0.0 && normal.dot(first.acceleration) > 0.0))
}

fn position_at(path: &Path, time_s: f64) -> Vec2 {
    let slide: &Segment = path.slide();
    if time_s < slide.duration_s {
        slide.position_at(time_s)
    } else {
        path.roll().position_at(time_s - slide.duration_s)
    }
}

fn opening_at(geometry: &BankGeometry, side: Side, place: Vec2) -> Option<crate::rail::Pocket> {
    let along = match side {
        Side::Banked | Side::Opposite => place.x,
        Side::Low | Side::High => place.y,
    };
    geometry
        .openings
        .iter()
        .find(|opening| opening.side == side && along > opening.from_m && along < opening.to_m)
        .map(|opening| opening.pocket)
}

/// The end of a way that meets this side here.
pub(super) fn met(geometry: &BankGeometry, side: Side, place: Vec2) -> BankEnding {
    match opening_at(geometry, side, place) {
        Some(pocket) if pocket != geometry.pocket => BankEnding::OtherPocket(pocket, place),
        _ => BankEnding::OtherRail(side, place),
    }
}

/// True where this side has no cushion because the target pocket opens there.
#[cfg(feature = "world")]
pub(super) fn target_opening_at(geometry: &BankGeometry, side: Side, place: Vec2) -> bool {
    opening_at(geometry, side, place) == Some(geometry.pocket)
}
