//! A ball's place, speed and roll, before it is known by which rule it is aimed.

use crate::bank::{Launch, speed_on};
use crate::equipment::Equipment;
use crate::rail::{BankGeometry, Line, Pocket, Rail};
use crate::units::Speed;
use crate::vector::Vec2;

/// A ball to be banked. Its place is fixed: rules turn the line about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Condition {
    /// The rail that it is banked off.
    pub rail: Rail,
    /// The target.
    pub pocket: Pocket,
    /// Its place along the rail, diamonds from the target's zero.
    pub number: f64,
    /// Its distance off the rail, centre to groove, m.
    pub off_rail_m: f64,
    /// The speed that is meant.
    pub speed: Speed,
    /// The fraction of natural roll.
    pub roll: f64,
    /// The side that is meant, as R·wz/v; positive runs.
    pub side: f64,
}

impl Condition {
    /// Its places on a table.
    pub fn on(&self, geometry: &BankGeometry) -> BallLines {
        BallLines {
            number: self.number,
            beyond_m: geometry.span_m - self.off_rail_m,
            off_rail_m: self.off_rail_m,
            diamond_m: geometry.diamond_m,
        }
    }

    /// The ball in the bank frame, m.
    pub fn ball_m(&self, geometry: &BankGeometry) -> Vec2 {
        Vec2::new(self.number * geometry.diamond_m, geometry.span_m - self.off_rail_m)
    }

    /// Its launch on a table, as it is meant.
    pub fn launch(&self, equipment: &Equipment) -> Launch {
        Launch {
            off_rail_m: self.off_rail_m,
            speed_m_s: speed_on(self.speed, equipment),
            roll: self.roll,
            side: self.side,
            aim_error_rad: 0.0,
        }
    }
}

/// The lines through a ball, by the start number at which each begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BallLines {
    /// The ball's number along the rail, diamonds.
    pub number: f64,
    /// From the ball to the opposite groove, square to the rail, m.
    pub beyond_m: f64,
    /// From the ball to the rail's groove, m.
    pub off_rail_m: f64,
    /// One diamond, m.
    pub diamond_m: f64,
}

impl BallLines {
    /// The line through the ball from a start number, groove reading.
    pub fn line(&self, start: f64) -> Line {
        let contact = self.number - (start - self.number) * (self.off_rail_m / self.beyond_m);
        Line::new(contact, start)
    }

    /// The angle of that line from square to the rail, rad; it grows with the start number.
    pub fn angle_rad(&self, start: f64) -> f64 {
        libm::atan((start - self.number) * self.diamond_m / self.beyond_m)
    }

    /// The start number of the line at that angle.
    pub fn start_at(&self, angle_rad: f64) -> f64 {
        self.number + libm::tan(angle_rad) * self.beyond_m / self.diamond_m
    }

    /// The growth of the start number as the line turns, diamonds a radian.
    pub fn start_per_rad(&self, start: f64) -> f64 {
        let across = (start - self.number) * self.diamond_m / self.beyond_m;
        (1.0 + across * across) * self.beyond_m / self.diamond_m
    }

    /// The start number of the line from a mark that is read `outside_m` beyond the opposite groove.
    pub fn start_of_mark(&self, mark: f64, outside_m: f64) -> f64 {
        self.number + (mark - self.number) * self.start_per_mark(outside_m)
    }

    /// The growth of the start number with such a mark.
    pub fn start_per_mark(&self, outside_m: f64) -> f64 {
        self.beyond_m / (self.beyond_m + outside_m)
    }

    /// How much the start number moves as the line turns towards another contact that is read `outside_m` beyond the
    /// rail's groove; infinite for a ball that lies there.
    pub fn start_per_contact(&self, outside_m: f64) -> f64 {
        self.beyond_m / (self.off_rail_m + outside_m)
    }
}
