//! Strokes that make a shot, as changes of the one that was played.

use railproof_engine::stroke::Stroke;
use railproof_engine::units::short_number;

/// Other strokes that make it; one of them at least.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Remedy {
    /// Another hit; the rest of the stroke stays.
    pub hit: Option<HitChange>,
    /// The side with which the balls do not rub.
    pub gearing: Option<GearingSide>,
    /// Another speed; the aim is solved or pointed as it was.
    pub speed: Option<SpeedChange>,
    /// Another speed together with another hit, where neither makes it alone.
    pub both: Option<CombinedChange>,
    /// The ball drops, but off a jaw: no stroke was found with which it drops clean.
    pub off_jaw: bool,
}

/// Another speed and another hit at once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CombinedChange {
    /// The hit.
    pub hit: HitChange,
    /// The speed.
    pub speed: SpeedChange,
}

/// A hit beside the one that was played, to the size in which it is told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitChange {
    /// To which side.
    pub to: HitSide,
    /// The distance at the object ball from the cue ball's way as it was to its way now, m.
    pub by_m: f64,
    /// The stroke.
    pub stroke: Stroke,
    /// Its way of being written in a layout.
    pub written: WrittenAim,
    /// The side that was played is left out.
    pub without_side: bool,
}

/// A stroke's aim as a layout has it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WrittenAim {
    /// A key that solves it, in place of the one that the layout has.
    InPlaceOf(&'static str),
    /// An angle, degrees.
    Degrees(f64),
}

/// The side to which a hit is moved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HitSide {
    /// Further from the middle of the object ball.
    Thinner,
    /// Nearer to its middle.
    Fuller,
    /// Over its middle, to the left.
    Left,
    /// Over its middle, to the right.
    Right,
}

impl HitSide {
    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Thinner => "thinner",
            Self::Fuller => "fuller",
            Self::Left => "further left",
            Self::Right => "further right",
        }
    }
}

/// A tip's place to the side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GearingSide {
    /// The offset as a share of the radius, positive to the right.
    pub offset: f64,
    /// The same in widths of the tip.
    pub tips: f64,
    /// Away from the way that the object ball goes.
    pub outside: bool,
    /// The line of centres is as it was.
    pub as_full: bool,
    /// The stroke.
    pub stroke: Stroke,
    /// Its way of being written in a layout.
    pub written: WrittenAim,
}

/// Another speed, to the decimals in which it is told.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedChange {
    /// The speed in its unit.
    pub amount: f64,
    /// The unit in which the stroke's speed was written.
    pub unit: &'static str,
    /// More than it was.
    pub harder: bool,
    /// The stroke.
    pub stroke: Stroke,
}

impl SpeedChange {
    /// The word for it.
    pub const fn to(&self) -> &'static str {
        if self.harder { "harder" } else { "softer" }
    }

    /// The speed as a layout has it.
    pub fn written(&self) -> String {
        format!("{} {}", short_number(self.amount, 2), self.unit)
    }
}
