//! One member: a table and a player that could be yours.

use super::MemberNumber;
use crate::equipment::Equipment;

/// A point of the unit cube, a coordinate for each number: the share of its spread that lies below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Member {
    /// The coordinates, each in [0, 1), in the order of [`MemberNumber::all`].
    pub place: [f64; MemberNumber::COUNT],
}

impl Member {
    /// The value of one of its numbers.
    pub fn value(&self, number: MemberNumber) -> f64 {
        number.spread().value_at(self.place[number.place()])
    }

    /// A table of this size and with this ball, with the member's cloth, cushions and speed words.
    pub fn equipment(&self, table: &Equipment) -> Equipment {
        let mut equipment = table.clone();
        for number in MemberNumber::all() {
            number.set(&mut equipment, self.value(number));
        }
        equipment
    }
}
