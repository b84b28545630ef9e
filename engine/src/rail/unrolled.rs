//! The rails on either side of the target, unrolled into one line.
//!
//! A ball that misses first meets a rail beside its pocket. Along this line that place is one number, which
//! passes through the pocket without a jump: metres from the corner of the two grooves, or from a side
//! pocket's centre line; positive is long.

use super::{BankGeometry, Line, Side};
use crate::equipment::Table;
use crate::vector::{Vec2, Vec3};

impl BankGeometry {
    /// A place in a groove along the unrolled rails, m; `None` on a rail that doesn't belong to them.
    pub fn unrolled_m(&self, side: Side, place: Vec2) -> Option<f64> {
        let low = self.low_groove_m;
        match (self.pocket.is_side(), self.rail.is_end(), side) {
            (false, _, Side::Opposite) => Some(low - place.x),
            (false, _, Side::Low) => Some(place.y),
            (true, false, Side::Opposite) => Some(-place.x),
            (true, false, Side::Low) => Some(place.y - low),
            (true, true, Side::Low) => Some(self.mouth.midpoint.y - place.y),
            (true, true, Side::Opposite) => Some(self.mouth.midpoint.y + place.x - low),
            (_, _, Side::Banked | Side::High) => None,
        }
    }

    /// The number along the unrolled rails where a straight way crosses the first of the two grooves, both
    /// extended, m; `None` for a way that leads away from both.
    pub fn unrolled_crossing_m(&self, from: Vec2, direction: Vec2) -> Option<f64> {
        let opposite = (direction.y < 0.0).then(|| (-from.y / direction.y, Side::Opposite));
        let low =
            (direction.x < 0.0).then(|| ((self.low_groove_m - from.x) / direction.x, Side::Low));
        let (time, side) = match (opposite, low) {
            (Some(a), Some(b)) => {
                if b.0 < a.0 {
                    b
                } else {
                    a
                }
            }
            (one, other) => one.or(other)?,
        };
        self.unrolled_m(side, from + direction * time)
    }

    /// The stretch of the unrolled rails that the target's mouth takes away, m.
    pub fn unrolled_mouth_m(&self) -> (f64, f64) {
        let ends = self
            .openings
            .iter()
            .filter(|opening| opening.pocket == self.pocket)
            .flat_map(|opening| {
                [opening.from_m, opening.to_m].map(|along| {
                    let place = match opening.side {
                        Side::Banked | Side::Opposite => Vec2::new(along, 0.0),
                        Side::Low | Side::High => Vec2::new(self.low_groove_m, along),
                    };
                    self.unrolled_m(opening.side, place)
                })
            })
            .flatten();
        ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(from, to), end| {
            (from.min(end), to.max(end))
        })
    }

    /// 1 where side to the right of the ball's middle runs off the rail along this line, −1 where it is
    /// reverse.
    pub fn right_side_runs(&self, line: Line) -> f64 {
        let to_the_right = self.spin_to_table(Vec3::new(0.0, 0.0, 1.0)).z;
        if line.start >= line.contact { -to_the_right } else { to_the_right }
    }

    /// The unrolled place of a rail number at which a ball that was long or short first met a rail, m.
    ///
    /// Numbers count from the target pocket along the rail that is met: for a corner the end beside it when the
    /// ball is long, the rail across when it is short; for a side pocket its own rail, from its centre line.
    pub fn unrolled_of_number_m(&self, table: &Table, is_long: bool, number: f64) -> f64 {
        if self.pocket.is_side() {
            let away_m = number.abs() * table.long_rail_diamond_m();
            return if is_long { away_m } else { -away_m };
        }
        if is_long {
            number * self.beside_diamond_m(table) - self.groove_m
        } else {
            self.low_groove_m - number * self.diamond_m
        }
    }

    /// The rail number of an unrolled place, and whether it is on the long side of the target.
    pub fn number_of_unrolled(&self, table: &Table, along_m: f64) -> (bool, f64) {
        if self.pocket.is_side() {
            return (along_m > 0.0, along_m.abs() / table.long_rail_diamond_m());
        }
        if along_m > 0.0 {
            (true, (along_m + self.groove_m) / self.beside_diamond_m(table))
        } else {
            (false, (self.low_groove_m - along_m) / self.diamond_m)
        }
    }

    /// A diamond along the rails square to the one that is banked off, m.
    fn beside_diamond_m(&self, table: &Table) -> f64 {
        if self.rail.is_end() { table.long_rail_diamond_m() } else { table.end_rail_diamond_m() }
    }
}
