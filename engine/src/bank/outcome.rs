//! The outcome of a bank.

use crate::motion::BallState;
use crate::rail::{BankGeometry, Pocket, Side};
use crate::vector::{Vec2, Vec3};

/// To which side of the pocket.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Direction {
    /// Past the pocket: it travelled too far along the rail.
    Long,
    /// Before the pocket.
    Short,
}

impl Direction {
    /// Both sides.
    pub const BOTH: [Self; 2] = [Self::Long, Self::Short];

    /// The word for it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Long => "long",
            Self::Short => "short",
        }
    }
}

/// The verdict on the rule, in one word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BankVerdict {
    /// The ball clears both mouth points.
    Holds,
    /// It comes to the mouth and touches the point on this side.
    TouchesPoint(Direction),
    /// It misses on the far side.
    Long,
    /// It misses on the near side.
    Short,
    /// It stopped before it came to the rail.
    StoppedBeforeRail,
    /// It stopped on its way from the rail to the mouth.
    StoppedBeforeMouth,
    /// It met another rail and would not have come to the mouth line at all.
    OtherRail,
    /// It left the cloth through another pocket.
    OtherPocket,
    /// The line has no room: the ball would start, or meet the rail, off the cloth.
    NoRoom,
}

impl BankVerdict {
    /// All kinds, in the order in which summaries list them.
    pub const ALL: [Self; 10] = [
        Self::Holds,
        Self::TouchesPoint(Direction::Long),
        Self::TouchesPoint(Direction::Short),
        Self::Long,
        Self::Short,
        Self::StoppedBeforeRail,
        Self::StoppedBeforeMouth,
        Self::OtherRail,
        Self::OtherPocket,
        Self::NoRoom,
    ];

    /// The names of all, in order.
    pub const NAMES: [&str; Self::ALL.len()] = {
        let mut names = [""; Self::ALL.len()];
        let mut at = 0;
        while at < names.len() {
            names[at] = Self::ALL[at].name();
            at += 1;
        }
        names
    };

    /// Its place in [`BankVerdict::ALL`].
    pub const fn place(self) -> usize {
        match self {
            Self::Holds => 0,
            Self::TouchesPoint(Direction::Long) => 1,
            Self::TouchesPoint(Direction::Short) => 2,
            Self::Long => 3,
            Self::Short => 4,
            Self::StoppedBeforeRail => 5,
            Self::StoppedBeforeMouth => 6,
            Self::OtherRail => 7,
            Self::OtherPocket => 8,
            Self::NoRoom => 9,
        }
    }

    /// The name used in files and scripts.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::TouchesPoint(Direction::Long) => "touches-long-point",
            Self::TouchesPoint(Direction::Short) => "touches-short-point",
            Self::Long => "long",
            Self::Short => "short",
            Self::StoppedBeforeRail => "stopped-before-rail",
            Self::StoppedBeforeMouth => "stopped-before-mouth",
            Self::OtherRail => "other-rail",
            Self::OtherPocket => "other-pocket",
            Self::NoRoom => "no-room",
        }
    }

    /// Long or short, for a ball that passed or touched one side.
    pub const fn direction(self) -> Option<Direction> {
        match self {
            Self::Long => Some(Direction::Long),
            Self::Short => Some(Direction::Short),
            Self::TouchesPoint(direction) => Some(direction),
            _ => None,
        }
    }
}

/// Where the ball's way ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BankEnding {
    /// Its centre crossed the mouth line between the mouth points.
    AtMouth,
    /// It met this side of the table (bank frame) first, here.
    OtherRail(Side, Vec2),
    /// It rolled into another pocket, here.
    OtherPocket(Pocket, Vec2),
    /// It stopped before the rail, here.
    StoppedBeforeRail(Vec2),
    /// It stopped before the mouth, here.
    StoppedBeforeMouth(Vec2),
    /// The line has no room: the ball would start, or meet the rail, off the cloth.
    NoRoom,
}

impl BankEnding {
    /// The name used in files and scripts.
    pub const fn name(self) -> &'static str {
        match self {
            Self::AtMouth => "at-mouth",
            Self::OtherRail(..) => "other-rail",
            Self::OtherPocket(..) => "other-pocket",
            Self::StoppedBeforeRail(_) => "stopped-before-rail",
            Self::StoppedBeforeMouth(_) => "stopped-before-mouth",
            Self::NoRoom => "no-room",
        }
    }

    /// The rail or pocket where it ended.
    pub fn at(self, geometry: &BankGeometry) -> Option<&'static str> {
        match self {
            Self::AtMouth => Some(geometry.pocket.name()),
            Self::OtherRail(side, _) => Some(geometry.rail_of(side).name()),
            Self::OtherPocket(pocket, _) => Some(pocket.name()),
            Self::StoppedBeforeRail(_) | Self::StoppedBeforeMouth(_) | Self::NoRoom => None,
        }
    }
}

/// The ball when it meets the rail. Bank frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AtRail {
    /// Time since launch, s.
    pub time_s: f64,
    /// Its state.
    pub state: BallState,
    /// Where it met the rail, diamonds (groove reading).
    pub contact: f64,
}

/// The ball when it has come off the rail. Bank frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailRebound {
    /// Its state as it leaves.
    pub state: BallState,
    /// The contact time with the rail, s.
    pub held_s: f64,
    /// Where it left the rail, diamonds (groove reading).
    pub departure: f64,
    /// Restitution that acted.
    pub restitution: f64,
    /// The speed square to the rail was above the model's checked range.
    pub outside_checked_speed: bool,
    /// The cloth would have had to pull: a real ball would have hopped.
    pub hop: bool,
    /// Time from leaving the rail until it rolls, s; infinite when it never does.
    pub rolls_after_s: f64,
    /// Its velocity once it rolls, m/s.
    pub rolling_velocity: Vec2,
}

/// The ball's path where it crosses the mouth line. Bank frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arrival {
    /// Time since it met the rail, s: the contact and the way after it.
    pub time_s: f64,
    /// State there.
    pub state: BallState,
    /// Signed distance from the mouth's midpoint, square to the path, m; positive is long.
    pub miss_m: f64,
    /// Room between ball and the long mouth point, m; negative where they overlap.
    pub clearance_long_m: f64,
    /// Room between ball and the short mouth point, m.
    pub clearance_short_m: f64,
}

/// Everything about one bank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// The ball at launch. Bank frame.
    pub launch: BallState,
    /// At the rail, unless it stopped before.
    pub at_rail: Option<AtRail>,
    /// Off the rail, unless it never came off.
    pub rebound: Option<RailRebound>,
    /// Where the path crosses the mouth line, extended past any rail that was met first; `None`
    /// when it never would.
    pub arrival: Option<Arrival>,
    /// Where its way ended.
    pub ending: BankEnding,
    /// The mouth's midpoint, to which a rule implies the ball goes straight.
    pub target: Vec2,
}

impl Outcome {
    /// Of a ball that is not sent off: no room, and nowhere.
    pub(crate) const NOT_PLAYED: Self = Self {
        launch: BallState { position: Vec2::ZERO, velocity: Vec2::ZERO, spin: Vec3::ZERO },
        at_rail: None,
        rebound: None,
        arrival: None,
        ending: BankEnding::NoRoom,
        target: Vec2::ZERO,
    };

    /// A way that ends before the rail.
    pub(super) fn before_rail(launch: BallState, target: Vec2, ending: BankEnding) -> Self {
        Self { launch, at_rail: None, rebound: None, arrival: None, ending, target }
    }

    /// The verdict.
    pub fn verdict(&self) -> BankVerdict {
        match (self.ending, self.arrival) {
            (BankEnding::AtMouth, Some(arrival)) => arrival.verdict(),
            (BankEnding::OtherRail(..), Some(arrival)) => {
                if arrival.miss_m > 0.0 {
                    BankVerdict::Long
                } else {
                    BankVerdict::Short
                }
            }
            (BankEnding::OtherRail(..) | BankEnding::AtMouth, _) => BankVerdict::OtherRail,
            (BankEnding::OtherPocket(..), _) => BankVerdict::OtherPocket,
            (BankEnding::NoRoom, _) => BankVerdict::NoRoom,
            (BankEnding::StoppedBeforeRail(_), _) => BankVerdict::StoppedBeforeRail,
            (BankEnding::StoppedBeforeMouth(_), _) => BankVerdict::StoppedBeforeMouth,
        }
    }

    /// The same bank seen in a mirror square to the rail at x = 0.
    pub(super) fn mirrored(mut self, diamond_m: f64) -> Self {
        self.launch = self.launch.mirrored();
        if let Some(at_rail) = &mut self.at_rail {
            at_rail.state = at_rail.state.mirrored();
            at_rail.contact = at_rail.state.position.x / diamond_m;
        }
        if let Some(rebound) = &mut self.rebound {
            rebound.state = rebound.state.mirrored();
            rebound.departure = rebound.state.position.x / diamond_m;
            rebound.rolling_velocity = flip(rebound.rolling_velocity);
        }
        if let Some(arrival) = &mut self.arrival {
            arrival.state = arrival.state.mirrored();
        }
        self.target = flip(self.target);
        self.ending = match self.ending {
            BankEnding::OtherRail(side, place) => {
                BankEnding::OtherRail(other_end(side), flip(place))
            }
            BankEnding::OtherPocket(pocket, place) => {
                BankEnding::OtherPocket(pocket.mirrored_along(), flip(place))
            }
            BankEnding::StoppedBeforeRail(place) => BankEnding::StoppedBeforeRail(flip(place)),
            BankEnding::StoppedBeforeMouth(place) => BankEnding::StoppedBeforeMouth(flip(place)),
            BankEnding::AtMouth | BankEnding::NoRoom => self.ending,
        };
        self
    }

    /// Where its way ended, if it began; at the mouth, where the centre crosses the mouth line.
    /// Bank frame, m.
    pub fn ending_place(&self) -> Option<Vec2> {
        match self.ending {
            BankEnding::AtMouth => self.arrival.map(|arrival| arrival.state.position),
            BankEnding::OtherRail(_, place)
            | BankEnding::OtherPocket(_, place)
            | BankEnding::StoppedBeforeRail(place)
            | BankEnding::StoppedBeforeMouth(place) => Some(place),
            BankEnding::NoRoom => None,
        }
    }

    /// The miss, m; positive is long.
    pub fn miss_m(&self) -> Option<f64> {
        self.arrival.map(|arrival| arrival.miss_m)
    }

    /// The smaller of the two clearances, m.
    pub fn clearance_m(&self) -> Option<f64> {
        self.arrival.map(|arrival| arrival.clearance_long_m.min(arrival.clearance_short_m))
    }

    /// True when the model is outside its checked range or the ball would hop.
    pub fn flagged(&self) -> bool {
        self.rebound.is_some_and(|rebound| rebound.outside_checked_speed || rebound.hop)
    }

    /// Rebound angle minus the angle the rule implies (straight from the contact to the pocket),
    /// rad, both from the rail's normal towards the pocket; positive comes off longer.
    pub fn angle_difference_rad(&self) -> Option<f64> {
        let velocity = self.rebound?.state.velocity;
        let implied = self.target - self.at_rail?.state.position;
        Some(toward_pocket(velocity, implied) - toward_pocket(implied, implied))
    }
}

impl AtRail {
    /// Angle of the path from the rail's normal, rad.
    pub fn incidence_rad(&self) -> f64 {
        let velocity = self.state.velocity;
        libm::atan2(velocity.x.abs(), velocity.y)
    }
}

impl RailRebound {
    /// Angle of the path right off the cushion from the rail's normal, rad; negative when the ball
    /// goes back against the way it came along the rail (`incoming` is its velocity before).
    pub fn angle_rad(&self, incoming: Vec2) -> f64 {
        let velocity = self.state.velocity;
        let along = if incoming.x > 0.0 { velocity.x } else { -velocity.x };
        libm::atan2(along, -velocity.y)
    }

    /// The angle by which the path turns between the cushion and the roll, rad; positive is longer
    /// (further along the rail).
    pub fn bend_rad(&self, incoming: Vec2) -> f64 {
        let along = |v: Vec2| if incoming.x > 0.0 { v.x } else { -v.x };
        libm::atan2(along(self.rolling_velocity), -self.rolling_velocity.y)
            - self.angle_rad(incoming)
    }
}

impl Arrival {
    /// The verdict of a ball that came to the mouth.
    fn verdict(&self) -> BankVerdict {
        let nearer = if self.miss_m > 0.0 { Direction::Long } else { Direction::Short };
        if self.clearance_long_m > 0.0 && self.clearance_short_m > 0.0 {
            BankVerdict::Holds
        } else {
            BankVerdict::TouchesPoint(nearer)
        }
    }
}

/// Angle from the outward normal (−y), counted positive towards the side on which `pocket` lies.
fn toward_pocket(direction: Vec2, pocket: Vec2) -> f64 {
    let along = if pocket.x > 0.0 { direction.x } else { -direction.x };
    libm::atan2(along, -direction.y)
}

fn flip(v: Vec2) -> Vec2 {
    Vec2::new(-v.x, v.y)
}

const fn other_end(side: Side) -> Side {
    match side {
        Side::Low => Side::High,
        Side::High => Side::Low,
        Side::Banked | Side::Opposite => side,
    }
}
