//! The bank frame: one bank's rail, pocket and distances, laid out the same way for every rail.
//!
//! In this frame x runs along the rail, away from the target pocket (numbers grow with x), and y
//! from the opposite groove (y = 0) into the rail that is banked off (its groove is y = span). Rails
//! and pockets that are mirror images of each other share one frame, so their results are the same
//! to the bit; [`BankGeometry::to_table`] knows whether a mirror is needed on the way out.

use super::{GeometryError, Outline, Pocket, Rail, Reading};
use crate::equipment::Equipment;
use crate::motion::BallState;
use crate::vector::{Vec2, Vec3};

/// A pocket's mouth in the bank frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mouth {
    /// The mouth point past which a bank is long.
    pub long_point: Vec2,
    /// The mouth point past which a bank is short.
    pub short_point: Vec2,
    /// Midpoint between the two points, m.
    pub midpoint: Vec2,
    /// Distance between the two points, m.
    pub width_m: f64,
    /// Unit vector from the short to the long point.
    pub toward_long: Vec2,
    /// Unit vector square to the mouth line, out of the table.
    pub outward: Vec2,
}

impl Mouth {
    /// From its points and any place on the table's inner side of them.
    fn new(long_point: Vec2, short_point: Vec2, inner: Vec2) -> Self {
        let across = long_point - short_point;
        let toward_long = across.unit_or_zero();
        let midpoint = (long_point + short_point) * 0.5;
        let normal = Vec2::new(toward_long.y, -toward_long.x);
        let outward = if normal.dot(inner - midpoint) > 0.0 { -normal } else { normal };
        Self { long_point, short_point, midpoint, width_m: across.norm(), toward_long, outward }
    }
}

/// A side of the table as the bank frame sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Side {
    /// The rail that is banked off, y = span.
    Banked,
    /// The rail across from it, y = 0.
    Opposite,
    /// The rail square to both at low x.
    Low,
    /// The rail square to both at high x.
    High,
}

/// A stretch of a side without cushion, along that side, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// Which side.
    pub side: Side,
    /// Where it begins: x for banked and opposite, y for low and high.
    pub from_m: f64,
    /// Where it ends.
    pub to_m: f64,
    /// The pocket there.
    pub pocket: Pocket,
}

/// One bank's distances in the bank frame. Lengths in metres.
#[derive(Debug, Clone, PartialEq)]
pub struct BankGeometry {
    /// The rail that is banked off.
    pub rail: Rail,
    /// The target pocket.
    pub pocket: Pocket,
    /// One diamond along the rail.
    pub diamond_m: f64,
    /// Groove to groove, square to the rail.
    pub span_m: f64,
    /// Nose line to groove, R·cosθ.
    pub groove_m: f64,
    /// Sights' centres behind the nose.
    pub sight_setback_m: f64,
    /// Groove of the low side (its nose is `groove_m` further out).
    pub low_groove_m: f64,
    /// Groove of the high side.
    pub high_groove_m: f64,
    /// The target pocket's mouth, for a ball that comes back towards lower numbers. A side pocket
    /// straight across can also be played from negative numbers: mirror such a bank (change the
    /// signs of contact, start and side spin) and play it from the positive ones.
    pub mouth: Mouth,
    /// Where there is no cushion.
    pub openings: Vec<Opening>,
    origin: Vec2,
    along: Vec2,
    into: Vec2,
}

impl BankGeometry {
    /// The frame of the bank off `rail` into `pocket`.
    ///
    /// # Errors
    /// [`GeometryError`] when the pocket opens into that rail or no cushion is left on it.
    pub fn new(equipment: &Equipment, rail: Rail, pocket: Pocket) -> Result<Self, GeometryError> {
        let table = &equipment.table;
        let groove = equipment.groove_m();
        let (half_length, half_width) = (0.5 * table.length_m, 0.5 * table.width_m);
        let into = rail.outward();
        // Half the distance across, half the rail's own length, and its diamond.
        let (half_across, half_along, diamond) = if rail.is_end() {
            (half_length, half_width, table.end_rail_diamond_m())
        } else {
            (half_width, half_length, table.long_rail_diamond_m())
        };
        let (sign_x, sign_y) = pocket.signs();
        let place = Vec2::new(sign_x, sign_y);
        if place.dot(into) > 0.0 {
            return Err(GeometryError::PocketOnRail { rail, pocket });
        }
        // Away from the pocket along the rail. A side pocket straight across lies on the zero line
        // itself; its numbers grow towards the head.
        let toward = if rail.is_end() { sign_y } else { sign_x };
        let axis = if rail.is_end() { Vec2::new(0.0, 1.0) } else { Vec2::new(1.0, 0.0) };
        let along = if toward >= 0.0 { -axis } else { axis };
        let zero_from_centre = if toward == 0.0 { 0.0 } else { half_along };
        let origin = into * -(half_across - groove) + along * -zero_from_centre;
        let frame = Self {
            rail,
            pocket,
            diamond_m: diamond,
            span_m: 2.0 * (half_across - groove),
            groove_m: groove,
            sight_setback_m: table.sight_setback_m,
            low_groove_m: zero_from_centre - half_along + groove,
            high_groove_m: zero_from_centre + half_along - groove,
            mouth: Mouth::new(Vec2::ZERO, Vec2::ZERO, Vec2::ZERO),
            openings: Vec::new(),
            origin,
            along,
            into,
        };
        Ok(frame.with_pockets(&Outline::new(equipment)?))
    }

    fn with_pockets(mut self, outline: &Outline) -> Self {
        for pocket in Pocket::ALL {
            for gap in outline.gaps(pocket) {
                let (a, b) = (self.from_table(gap.from), self.from_table(gap.to));
                let side = self.side_of(gap.rail);
                let (first, second) = match side {
                    Side::Banked | Side::Opposite => (a.x, b.x),
                    Side::Low | Side::High => (a.y, b.y),
                };
                self.openings.push(Opening {
                    side,
                    from_m: first.min(second),
                    to_m: first.max(second),
                    pocket,
                });
            }
        }
        let [a, b] = outline.mouth_points(self.pocket).map(|point| self.from_table(point));
        // Long is past the pocket: further along the rail, or, for a side pocket off an end rail,
        // further across the table.
        let a_is_long =
            if self.rail.is_end() && self.pocket.is_side() { a.y < b.y } else { a.x < b.x };
        let (long_point, short_point) = if a_is_long { (a, b) } else { (b, a) };
        let middle = 0.5 * (self.low_groove_m + self.high_groove_m);
        self.mouth = Mouth::new(long_point, short_point, Vec2::new(middle, self.span_m));
        self
    }

    /// The least and the greatest contact number at which a ball touches the rail, diamonds.
    pub fn contacts(&self) -> (f64, f64) {
        (self.low_groove_m / self.diamond_m, self.high_groove_m / self.diamond_m)
    }

    /// (setback + R·cosθ)/(groove to groove): the spread of a line to the sights, per diamond of
    /// difference between its two numbers.
    pub fn sight_spread(&self) -> f64 {
        self.read_outside_m(Reading::Sight) / self.span_m
    }

    /// The distance outside the two grooves at which a line is read, m: 0 in the groove, setback + R·cosθ
    /// through the sights.
    pub fn read_outside_m(&self, reading: Reading) -> f64 {
        match reading {
            Reading::Groove => 0.0,
            Reading::Sight => self.sight_setback_m + self.groove_m,
        }
    }

    /// The number at which the rails along the bank end, away from the target, diamonds.
    pub fn high_end_number(&self) -> f64 {
        (self.high_groove_m + self.groove_m) / self.diamond_m
    }

    /// Which side of the bank frame a rail of the table is.
    pub fn side_of(&self, rail: Rail) -> Side {
        let outward = rail.outward();
        let across = outward.dot(self.into);
        if across > 0.5 {
            Side::Banked
        } else if across < -0.5 {
            Side::Opposite
        } else if outward.dot(self.along) > 0.0 {
            Side::High
        } else {
            Side::Low
        }
    }

    /// Which rail of the table a side of the bank frame is.
    pub fn rail_of(&self, side: Side) -> Rail {
        Rail::ALL.into_iter().find(|rail| self.side_of(*rail) == side).unwrap_or(self.rail)
    }

    /// A point of the bank frame in the table frame.
    pub fn to_table(&self, point: Vec2) -> Vec2 {
        self.origin + self.direction_to_table(point)
    }

    /// A point of the table frame in the bank frame.
    pub fn from_table(&self, point: Vec2) -> Vec2 {
        let from_origin = point - self.origin;
        without_signed_zeros(Vec2::new(from_origin.dot(self.along), from_origin.dot(self.into)))
    }

    /// A velocity of the bank frame in the table frame.
    pub fn direction_to_table(&self, direction: Vec2) -> Vec2 {
        without_signed_zeros(self.along * direction.x + self.into * direction.y)
    }

    /// A velocity of the table frame in the bank frame.
    pub fn direction_from_table(&self, direction: Vec2) -> Vec2 {
        without_signed_zeros(Vec2::new(direction.dot(self.along), direction.dot(self.into)))
    }

    /// A spin of the table frame in the bank frame; see [`BankGeometry::spin_to_table`].
    pub fn spin_from_table(&self, spin: Vec3) -> Vec3 {
        let hand = self.along.cross(self.into);
        let level = self.direction_from_table(Vec2::new(spin.x, spin.y)) * hand;
        Vec3::new(level.x, level.y, spin.z * hand)
    }

    /// A spin of the bank frame in the table frame: an axial vector, so a mirrored frame turns it.
    pub fn spin_to_table(&self, spin: Vec3) -> Vec3 {
        let hand = self.along.cross(self.into);
        let level = self.direction_to_table(Vec2::new(spin.x, spin.y)) * hand;
        let level = without_signed_zeros(level);
        Vec3::new(level.x, level.y, spin.z * hand + 0.0)
    }

    /// A ball of the table frame in the bank frame.
    pub fn state_from_table(&self, state: &BallState) -> BallState {
        BallState {
            position: self.from_table(state.position),
            velocity: self.direction_from_table(state.velocity),
            spin: self.spin_from_table(state.spin),
        }
    }

    /// A ball of the bank frame in the table frame.
    pub fn state_to_table(&self, state: &BallState) -> BallState {
        BallState {
            position: self.to_table(state.position),
            velocity: self.direction_to_table(state.velocity),
            spin: self.spin_to_table(state.spin),
        }
    }
}

/// A mirror turns 0 into −0, which equals it but differs in its bits and in print.
fn without_signed_zeros(vector: Vec2) -> Vec2 {
    vector + Vec2::ZERO
}
