//! The verdict on a shot.

use super::arrival::{arrival, near};
use crate::rail::Pocket;
use crate::shot::{Ending, EventKind, Shot};
use crate::vector::Vec2;
use crate::world::{JawPart, JawSide, World};

/// The purpose of a shot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Target {
    /// The ball that is meant for the pocket.
    pub ball: usize,
    /// The pocket.
    pub pocket: Pocket,
    /// The cue ball, which is to stay on the table.
    pub cue: Option<usize>,
}

/// On which side a ball missed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Miss {
    /// Past the pocket, away from where it left the last rail.
    Long,
    /// Before the pocket.
    Short,
    /// A ball that came off no rail: to the left, seen along its way.
    Left,
    /// A ball that came off no rail: to the right.
    Right,
}

/// The outcome for a ball at its pocket.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PocketVerdict {
    /// It dropped without touching a jaw of the pocket.
    Clean,
    /// It dropped off a jaw.
    OffJaw,
    /// It was in the mouth and came out again.
    RattledOut,
    /// It passed the pocket.
    Missed(Miss),
    /// It dropped into another pocket.
    OtherPocket(Pocket),
    /// It stopped before it came to the pocket, or never went there.
    NotReached,
    /// The cue ball dropped, whatever the other did.
    Scratched,
    /// The shot was given up before it was decided.
    GivenUp,
}

/// A shot's verdict.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShotVerdict {
    /// The outcome for the ball.
    pub pocket: PocketVerdict,
    /// When there was a double kiss, s: the cue ball and the ball met, the ball came off one rail
    /// and nothing else, and the two met again. A meeting after a second rail, a jaw or an obstacle
    /// is none; touches of one rail in a row count as one.
    pub kissed_at_s: Option<f64>,
    /// When the two first met again after the ball had come off anything, s, a double kiss or not.
    pub met_again_s: Option<f64>,
    /// Miss of the mouth's middle and room to its points, where the way leads there at all.
    pub arrival: Option<super::PocketArrival>,
}

impl PocketVerdict {
    /// One of every kind, in the order in which they are listed and counted.
    pub const ALL: [Self; 11] = [
        Self::Clean,
        Self::OffJaw,
        Self::RattledOut,
        Self::Missed(Miss::Long),
        Self::Missed(Miss::Short),
        Self::Missed(Miss::Left),
        Self::Missed(Miss::Right),
        // Any pocket: all are one kind.
        Self::OtherPocket(Pocket::FootRight),
        Self::NotReached,
        Self::Scratched,
        Self::GivenUp,
    ];

    /// The number of the first kinds in [`Self::ALL`] that drop where they should.
    pub const MADE: usize = 2;

    /// The place of its kind in [`Self::ALL`].
    pub const fn place(self) -> usize {
        match self {
            Self::Clean => 0,
            Self::OffJaw => 1,
            Self::RattledOut => 2,
            Self::Missed(Miss::Long) => 3,
            Self::Missed(Miss::Short) => 4,
            Self::Missed(Miss::Left) => 5,
            Self::Missed(Miss::Right) => 6,
            Self::OtherPocket(_) => 7,
            Self::NotReached => 8,
            Self::Scratched => 9,
            Self::GivenUp => 10,
        }
    }

    /// The names of every kind, in order.
    pub const NAMES: [&str; Self::ALL.len()] = {
        let mut names = [""; Self::ALL.len()];
        let mut at = 0;
        while at < names.len() {
            names[at] = Self::ALL[at].name();
            at += 1;
        }
        names
    };

    /// The name used in scripts and files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Clean => "dropped-clean",
            Self::OffJaw => "dropped-off-a-jaw",
            Self::RattledOut => "rattled-out",
            Self::Missed(Miss::Long) => "missed-long",
            Self::Missed(Miss::Short) => "missed-short",
            Self::Missed(Miss::Left) => "missed-left",
            Self::Missed(Miss::Right) => "missed-right",
            Self::OtherPocket(_) => "dropped-in-another-pocket",
            Self::NotReached => "not-reached",
            Self::Scratched => "scratched",
            Self::GivenUp => Ending::GivenUp.name(),
        }
    }

    /// True when the ball dropped where it should and the cue ball stayed up.
    pub const fn is_made(self) -> bool {
        matches!(self, Self::Clean | Self::OffJaw)
    }
}

impl ShotVerdict {
    /// True when the ball dropped where it should and the cue ball stayed up.
    pub const fn is_made(&self) -> bool {
        self.pocket.is_made()
    }
}

/// The verdict on a shot.
pub fn verdict(world: &World, shot: &Shot, target: Target) -> ShotVerdict {
    let arrival = arrival(world, shot, target.ball, target.pocket);
    let pocket = pocket_verdict(world, shot, target, arrival.as_ref());
    let meetings = meetings(shot, target);
    let kissed = meetings.iter().find(|meeting| meeting.off_first_rail);
    ShotVerdict {
        pocket,
        kissed_at_s: kissed.map(|meeting| meeting.time_s),
        met_again_s: meetings.first().map(|meeting| meeting.time_s),
        arrival,
    }
}

fn pocket_verdict(
    world: &World,
    shot: &Shot,
    target: Target,
    arrival: Option<&super::PocketArrival>,
) -> PocketVerdict {
    let dropped = |ball: usize| match shot.ends.get(ball).map(|end| end.ending) {
        Some(Ending::Dropped(pocket)) => Some(pocket),
        _ => None,
    };
    if target.cue.is_some_and(|cue| cue != target.ball && dropped(cue).is_some()) {
        return PocketVerdict::Scratched;
    }
    let undecided = |ball: usize| shot.ends.get(ball).map(|it| it.ending) == Some(Ending::GivenUp);
    if undecided(target.ball) || target.cue.is_some_and(undecided) {
        return PocketVerdict::GivenUp;
    }
    let jaws: Vec<(JawSide, JawPart)> = shot
        .events_of(target.ball)
        .filter_map(|event| match event.kind {
            EventKind::Jaw { pocket, side, part, .. } if pocket == target.pocket => {
                Some((side, part))
            }
            _ => None,
        })
        .collect();
    match dropped(target.ball) {
        Some(pocket) if pocket == target.pocket && jaws.is_empty() => return PocketVerdict::Clean,
        Some(pocket) if pocket == target.pocket => return PocketVerdict::OffJaw,
        Some(pocket) if jaws.is_empty() && !arrives(world, shot, target) => {
            return PocketVerdict::OtherPocket(pocket);
        }
        _ => {}
    }
    let both = JawSide::BOTH.iter().all(|side| jaws.iter().any(|(it, _)| it == side));
    let inside = jaws.iter().any(|(_, part)| *part == JawPart::Facing);
    if both || inside || entered(world, shot, target) {
        return PocketVerdict::RattledOut;
    }
    let Some(arrival) = arrival else { return PocketVerdict::NotReached };
    if jaws.is_empty() && !arrives(world, shot, target) {
        return dropped(target.ball).map_or(PocketVerdict::NotReached, PocketVerdict::OtherPocket);
    }
    PocketVerdict::Missed(match (arrival.last_rail.is_some(), arrival.miss_m > 0.0) {
        (true, true) => Miss::Long,
        (true, false) => Miss::Short,
        (false, true) => Miss::Right,
        (false, false) => Miss::Left,
    })
}

/// True when the ball came at least as far as a rail that the pocket opens into, near the pocket: the
/// nearer half of it.
fn arrives(world: &World, shot: &Shot, target: Target) -> bool {
    let outline = world.outline();
    shot.events_of(target.ball).any(|event| match event.kind {
        EventKind::Cushion(touch) => {
            outline.gaps(target.pocket).any(|gap| gap.rail == touch.rail)
                && near(world, target.pocket, event.before.position)
        }
        _ => false,
    })
}

/// True when the centre came past the mouth line between the points.
fn entered(world: &World, shot: &Shot, target: Target) -> bool {
    let outline = world.outline();
    let (normal, reach) = outline.mouth_line(target.pocket);
    let past = |place: Vec2| normal.dot(place) > reach;
    shot.pieces(target.ball).iter().any(|piece| {
        let [from, _, to] = piece.curve();
        past(from) || past(to)
    })
}

/// A meeting of the cue ball and the ball after the ball had come off something.
struct BallMeeting {
    time_s: f64,
    /// It had come off one rail and nothing else since the two first met.
    off_first_rail: bool,
}

/// Every meeting of the two after their first, once the ball has come off a rail, jaw or obstacle.
fn meetings(shot: &Shot, target: Target) -> Vec<BallMeeting> {
    let Some(cue) = target.cue else { return Vec::new() };
    let mut meetings = Vec::new();
    let (mut met, mut first_rail, mut others) = (false, None, false);
    for event in &shot.events {
        match event.kind {
            EventKind::Cushion(touch) if met && event.ball == target.ball => {
                others |= *first_rail.get_or_insert(touch.rail) != touch.rail;
            }
            EventKind::Jaw { .. } | EventKind::Obstacle { .. }
                if met && event.ball == target.ball =>
            {
                others = true;
            }
            EventKind::Ball(touch) => {
                let pair = [event.ball, touch.other];
                if pair.contains(&cue) && pair.contains(&target.ball) {
                    if first_rail.is_some() || others {
                        let off_first_rail = first_rail.is_some() && !others;
                        meetings.push(BallMeeting { time_s: event.time_s, off_first_rail });
                    }
                    met = true;
                }
            }
            _ => {}
        }
    }
    meetings
}
