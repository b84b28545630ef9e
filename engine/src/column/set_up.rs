//! A bank as a person sets it up.

use crate::bank::{Launch, speed_on};
use crate::ensemble::Member;
use crate::equipment::Equipment;
use crate::rail::{BankGeometry, Line, Pocket, Rail};
use crate::units::Speed;

/// A bank as a person sets it up, before it is known on whose table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SetUp {
    /// The rail that it is banked off.
    pub rail: Rail,
    /// The target.
    pub pocket: Pocket,
    /// Its line, groove reading.
    pub line: Line,
    /// Distance off the rail, centre to groove, m.
    pub off_rail_m: f64,
    /// The speed: a word is another speed for every player.
    pub speed: Speed,
    /// The speed that is sent, as a ratio to the one that is meant.
    pub speed_ratio: f64,
    /// The fraction of natural roll.
    pub roll: f64,
    /// Running side as R·wz/v.
    pub side: f64,
    /// Aim error, rad.
    pub aim_error_rad: f64,
}

impl SetUp {
    /// A ball that slides, sent without side.
    pub const fn stun(
        rail: Rail,
        pocket: Pocket,
        line: Line,
        off_rail_m: f64,
        speed: Speed,
    ) -> Self {
        Self {
            rail,
            pocket,
            line,
            off_rail_m,
            speed,
            speed_ratio: 1.0,
            roll: 0.0,
            side: 0.0,
            aim_error_rad: 0.0,
        }
    }

    /// Its start on this equipment.
    pub fn launch(&self, equipment: &Equipment) -> Launch {
        Launch {
            off_rail_m: self.off_rail_m,
            speed_m_s: speed_on(self.speed, equipment) * self.speed_ratio,
            roll: self.roll,
            side: self.side,
            aim_error_rad: self.aim_error_rad,
        }
    }

    /// The same sent by a member's player, with what that player always does.
    #[must_use]
    pub fn sent_by(mut self, member: &Member, geometry: &BankGeometry) -> Self {
        let habit = member.habit();
        self.aim_error_rad += habit.aim_rad;
        self.side += geometry.right_side_runs(self.line) * habit.right_side;
        self
    }
}
