//! Rail numbers of the places where a ball touched the rails, counted from a pocket.

use super::arrival::beside;
use crate::equipment::Equipment;
use crate::rail::{Pocket, Rail};
use crate::shot::{EventKind, Shot};
use crate::vector::Vec2;
use crate::world::World;

/// A touch of a rail by its number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailNumber {
    /// When, s since the start.
    pub time_s: f64,
    /// Which rail.
    pub rail: Rail,
    /// Where the centre was, in diamonds from the pocket's zero (groove reading).
    pub number: f64,
}

/// The number of a place along a rail, in diamonds, counted from `pocket`: from the nose line of the
/// rail next to the pocket that stands square to this one; for a side pocket on a long rail from the
/// pocket's centre line. Numbers run on past the rail's ends.
pub fn number_along(equipment: &Equipment, rail: Rail, pocket: Pocket, place: Vec2) -> f64 {
    let table = &equipment.table;
    let (sign_x, sign_y) = pocket.signs();
    if rail.is_end() {
        (0.5 * table.width_m - sign_y * place.y) / table.end_rail_diamond_m()
    } else if sign_x == 0.0 {
        // Either side of the zero line; positive towards the head, as everywhere.
        -place.x / table.long_rail_diamond_m()
    } else {
        (0.5 * table.length_m - sign_x * place.x) / table.long_rail_diamond_m()
    }
}

/// The rail that a ball met beside its pocket, where it came there before it came to the pocket itself.
pub fn number_beside(
    world: &World,
    shot: &Shot,
    ball: usize,
    pocket: Pocket,
) -> Option<RailNumber> {
    for event in shot.events_of(ball) {
        match event.kind {
            EventKind::Jaw { pocket: of, .. } | EventKind::Drop(of) if of == pocket => return None,
            EventKind::Cushion(touch)
                if beside(world, pocket, touch.rail, event.before.position) =>
            {
                let place = event.before.position;
                let number = number_along(world.equipment(), touch.rail, pocket, place);
                return Some(RailNumber { time_s: event.time_s, rail: touch.rail, number });
            }
            _ => {}
        }
    }
    None
}

/// Every touch of a straight nose by a ball, in order of time.
pub fn numbers(equipment: &Equipment, shot: &Shot, ball: usize, pocket: Pocket) -> Vec<RailNumber> {
    shot.events_of(ball)
        .filter_map(|event| match event.kind {
            EventKind::Cushion(touch) => Some(RailNumber {
                time_s: event.time_s,
                rail: touch.rail,
                number: number_along(equipment, touch.rail, pocket, event.before.position),
            }),
            _ => None,
        })
        .collect()
}
