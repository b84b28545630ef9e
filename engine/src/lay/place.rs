//! Places by rail numbers, and places that touch.

use super::{LayError, LineSpot};
use crate::equipment::{Ball, Equipment};
use crate::rail::{BankGeometry, Line, Pocket, Rail};
use crate::shot::groove_m;
use crate::vector::Vec2;

/// Where the centre of a ball is, `off_rail_m` from its groove at a number: the inverse of
/// [`number_along`](crate::verdict::number_along).
pub(super) fn on_rail(
    equipment: &Equipment,
    ball: &Ball,
    rail: Rail,
    number: f64,
    counted_from: Pocket,
    off_rail_m: f64,
) -> Vec2 {
    let table = &equipment.table;
    let half = 0.5 * if rail.is_end() { table.length_m } else { table.width_m };
    // As the world has it, so that a frozen ball is on the groove to the bit.
    let groove = half - groove_m(equipment, ball);
    let across = rail.outward() * if off_rail_m == 0.0 { groove } else { groove - off_rail_m };
    let (sign_x, sign_y) = counted_from.signs();
    let along = if rail.is_end() {
        Vec2::new(0.0, sign_y * (0.5 * table.width_m - number * table.end_rail_diamond_m()))
    } else if sign_x == 0.0 {
        Vec2::new(-number * table.long_rail_diamond_m(), 0.0)
    } else {
        Vec2::new(sign_x * (0.5 * table.length_m - number * table.long_rail_diamond_m()), 0.0)
    };
    Vec2::new(across.x + along.x, across.y + along.y)
}

/// The direction of a line, and where a ball on it is, `off_rail_m` from its groove.
pub(super) fn on_line(
    equipment: &Equipment,
    (of, ball): (usize, &Ball),
    at: &LineSpot,
    off_rail_m: f64,
) -> Result<(Vec2, Vec2), LayError> {
    let geometry = BankGeometry::new(equipment, at.rail, at.pocket)
        .map_err(|error| LayError::Geometry { ball: of, error })?;
    let (contacts, LineSpot { rail, line: Line { contact, .. }, .. }) = (geometry.contacts(), *at);
    if contact < contacts.0 || contact > contacts.1 {
        return Err(LayError::NotOnRail { ball: of, rail, contact, contacts });
    }
    let run_m = (at.line.start - at.line.contact) * geometry.diamond_m;
    let number =
        at.line.contact + (at.line.start - at.line.contact) * (off_rail_m / geometry.span_m);
    let place = on_rail(equipment, ball, at.rail, number, at.pocket, off_rail_m);
    let along = Vec2::new(-run_m, geometry.span_m).unit_or_zero();
    Ok((geometry.direction_to_table(along), place))
}

/// The place `distance_m` from `centre` along a unit vector, and not a bit nearer.
pub(super) fn at_least(centre: Vec2, along: Vec2, distance_m: f64) -> Vec2 {
    let mut reach_m = distance_m;
    let mut place = centre + along * reach_m;
    // Rounding takes away a few parts in 1e16 of the coordinates.
    for step in 1..=16 {
        if (place - centre).norm() >= distance_m {
            break;
        }
        reach_m = distance_m + f64::from(step) * f64::EPSILON * (distance_m + centre.norm());
        place = centre + along * reach_m;
    }
    place
}
