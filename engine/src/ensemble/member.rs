//! One member: a table and a player that could be yours.

use super::MemberNumber;
use crate::equipment::Equipment;

/// A point of the unit cube, a coordinate for each number: the share of its spread that lies below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Member {
    /// The coordinates, each in [0, 1), in the order of [`MemberNumber::all`].
    pub place: [f64; MemberNumber::COUNT],
}

/// What a player always does, whatever shot is meant.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Habit {
    /// The aim error that they always have, rad; positive turns the line towards the pocket's end of the rail.
    pub aim_rad: f64,
    /// The side that they always give, as R·wz/v; positive to the right of the ball's middle.
    pub right_side: f64,
}

impl Member {
    /// What its player always does.
    pub fn habit(&self) -> Habit {
        Habit {
            aim_rad: self.value(MemberNumber::AimBias),
            right_side: self.value(MemberNumber::SideBias),
        }
    }

    /// The value of one of its numbers.
    pub fn value(&self, number: MemberNumber) -> f64 {
        number.spread().value_at(self.place[number.place()])
    }

    /// The same player on the same cloth, with this equipment's cushion. A number outside its spread has a
    /// coordinate outside [0, 1).
    #[must_use]
    pub fn with_cushion_of(mut self, equipment: &Equipment) -> Self {
        for number in MemberNumber::CUSHION {
            if let Some(value) = number.value_on(equipment) {
                self.place[number.place()] = number.spread().share_of(value);
            }
        }
        self
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ensemble::Ensemble;

    #[test]
    fn a_member_takes_the_cushion_of_another_and_keeps_cloth_and_player() {
        let wide = Ensemble::wide(64, 1);
        let (one, other) = (wide.members()[5], wide.members()[40]);
        let mut table = Equipment::unset();
        table.ball.diameter_m = 0.05715;
        let table = other.equipment(&table);
        let mixed = one.with_cushion_of(&table);
        for number in MemberNumber::all() {
            let from = if MemberNumber::CUSHION.contains(&number) { other } else { one };
            let off = (mixed.value(number) - from.value(number)).abs();
            assert!(off < 1e-12, "{}: {off}", number.name());
        }
    }
}
