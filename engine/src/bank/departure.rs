//! Where the ball leaves the rail: a contact lasts, and meanwhile the ball goes on along the rail.

use super::Ending;
use crate::rail::{BankGeometry, Side};
use crate::vector::Vec2;

/// Where a ball leaves that met the rail at `met` and is held for `contact_time_s`: further along
/// the groove by the mean of its speeds along the rail before and after, times that.
///
/// The mean is exact for an impulse that is alike in both halves of the contact (the first half of
/// a spring's push mirrors the second); otherwise it errs by a share of the change of speed.
///
/// # Errors
/// The ending of a ball that runs off the cushion's end meanwhile, see [`runs_past`].
pub(super) fn departure(
    geometry: &BankGeometry,
    met: Vec2,
    before_m_s: f64,
    after_m_s: f64,
    contact_time_s: f64,
) -> Result<Vec2, Ending> {
    let place = Vec2::new(met.x + 0.5 * (before_m_s + after_m_s) * contact_time_s, met.y);
    match runs_past(geometry, met.x, place.x) {
        Some(ending) => Err(ending),
        None => Ok(place),
    }
}

/// What a ball meets that is held in the banked groove from `from_m` to `to_m`, if not cushion all
/// the way. Where a pocket opens into the rail it has lost the cushion and is still on its way in:
/// it goes into that pocket from the cushion's end. Past the rail's whole length it meets the rail
/// there.
pub(super) fn runs_past(geometry: &BankGeometry, from_m: f64, to_m: f64) -> Option<Ending> {
    let down = to_m < from_m;
    let (side, end_m) = if down {
        (Side::Low, geometry.low_groove_m)
    } else {
        (Side::High, geometry.high_groove_m)
    };
    let passes = |edge_m: f64| {
        if down { edge_m > to_m && edge_m <= from_m } else { edge_m < to_m && edge_m >= from_m }
    };
    let place = |along_m: f64| Vec2::new(along_m, geometry.span_m);
    let rail = passes(end_m).then(|| (end_m, Ending::OtherRail(side, place(end_m))));
    geometry
        .openings
        .iter()
        .filter(|opening| opening.side == Side::Banked)
        .map(|opening| (if down { opening.to_m } else { opening.from_m }, opening.pocket))
        .filter(|(edge_m, _)| passes(*edge_m))
        .map(|(edge_m, pocket)| (edge_m, Ending::OtherPocket(pocket, place(edge_m))))
        .chain(rail)
        .min_by(|a, b| (a.0 - from_m).abs().total_cmp(&(b.0 - from_m).abs()))
        .map(|(_, ending)| ending)
}
