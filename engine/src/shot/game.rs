//! The event loop.

use super::ball_in_play::{BallInPlay, Change, NO_CHANGE, own_changes};
use super::ball_kinds::{BallKind, Kinds};
use super::spin_hold;
use super::start::{ROUNDING_M, checked, touching_m};
use super::trajectory::{Leg, LegKind, tidy};
use super::{End, Ending, Event, EventKind, Shot, ShotBall, ShotError};
use crate::contact::first_between;
use crate::equipment::{BallContact, RailModel};
use crate::motion::{BallState, Path};
use crate::vector::{Vec2, Vec3};
use crate::world::{Meeting, World};

/// A shot ends when it has had so many events.
pub const MAX_EVENTS: usize = 50_000;
/// Steps of held balls are no events, but the number of all turns of a shot is bounded too, and with it
/// the memory that its legs take.
const MAX_TURNS: usize = 200_000;
/// Contacts within so short a time of each other count as simultaneous, s.
pub const TOGETHER_S: f64 = 1e-12;

/// Plays balls from their start until all rest or are pocketed, or until `until_s`, by the rail model
/// of the world's equipment.
///
/// A ball frozen to a surface or to another ball may move into it: their first contact is at time 0. A
/// ball that its spin holds against a cushion stays on it (see [`HELD_BELOW_M_S`](super::HELD_BELOW_M_S)).
/// After [`MAX_EVENTS`] events the shot is given up.
///
/// # Errors
/// [`ShotError`] for a start that is not on the table, not finite or with balls in one another, an end
/// time that is negative or a NaN, and the compliant rail model.
pub fn play(world: &World, balls: &[ShotBall], until_s: Option<f64>) -> Result<Shot, ShotError> {
    let balls = checked(world, balls, until_s)?;
    Ok(played(world, &balls, until_s.unwrap_or(f64::INFINITY), None))
}

/// As [`play`], but over once the given ball has come to rest or dropped: what the others do after
/// that is cut off there.
///
/// # Errors
/// As [`play`].
pub fn play_for(world: &World, balls: &[ShotBall], ball: usize) -> Result<Shot, ShotError> {
    let balls = checked(world, balls, None)?;
    Ok(played(world, &balls, f64::INFINITY, Some(ball)))
}

fn played(world: &World, balls: &[ShotBall], until_s: f64, watched: Option<usize>) -> Shot {
    let kinds = Kinds::new(world, balls);
    let mut game = ShotGame::new(world, &kinds, balls, until_s);
    let ending = game.run(watched);
    game.finished(ending)
}

/// The next thing to happen.
#[derive(Debug, Clone, Copy, PartialEq)]
enum NextEvent {
    Pair,
    Meeting(usize),
    Change(usize),
    Nothing,
}

/// A shot being played.
pub(super) struct ShotGame<'w> {
    pub(super) world: &'w World,
    kinds: &'w [BallKind<'w>],
    pub(super) model: RailModel,
    pub(super) ball_contact: BallContact,
    until_s: f64,
    pub(super) now_s: f64,
    pub(super) players: Vec<BallInPlay>,
    /// When each pair meets: `players.len()` to a row, the lower index first.
    pub(super) pair_s: Vec<f64>,
    pub(super) events: Vec<Event>,
    legs: Vec<Vec<Leg>>,
    turns: usize,
}

impl<'w> ShotGame<'w> {
    fn new(world: &'w World, kinds: &'w Kinds<'w>, balls: &[ShotBall], until_s: f64) -> Self {
        let equipment = world.equipment();
        let count = balls.len();
        let mut game = Self {
            world,
            kinds: &kinds.kinds,
            model: equipment.cushion.rail_model,
            ball_contact: equipment.ball_contact,
            until_s,
            now_s: 0.0,
            players: Vec::with_capacity(count),
            pair_s: vec![f64::INFINITY; count * count],
            events: Vec::with_capacity(16),
            legs: vec![Vec::with_capacity(8); count],
            turns: 0,
        };
        for (index, start) in balls.iter().enumerate() {
            let path = Path::new(start.state, kinds.kinds[kinds.of_ball[index]].cloth);
            let leg = Leg { time_s: 0.0, path, kind: LegKind::Free };
            game.players.push(BallInPlay::new(start.ball, kinds.of_ball[index], &leg));
            game.record(EventKind::Start, index, start.state, start.state);
        }
        for (index, start) in balls.iter().enumerate() {
            game.begin(index, start.state);
        }
        for index in 1..count {
            game.foresee_pairs(index, 0..index);
        }
        game
    }

    pub(super) fn kind(&self, index: usize) -> &'w BallKind<'w> {
        &self.kinds[self.players[index].kind]
    }

    pub(super) fn record(
        &mut self,
        kind: EventKind,
        ball: usize,
        before: BallState,
        after: BallState,
    ) {
        let (before, after) = (tidy(before), tidy(after));
        self.events.push(Event { time_s: self.now_s, kind, ball, before, after });
    }

    fn run(&mut self, watched: Option<usize>) -> Ending {
        loop {
            if watched.and_then(|ball| self.players.get(ball)).is_some_and(BallInPlay::is_over) {
                self.until_s = self.now_s;
                return Ending::TimeOver;
            }
            if self.events.len() >= MAX_EVENTS || self.turns >= MAX_TURNS {
                return Ending::GivenUp;
            }
            self.turns += 1;
            let (time_s, next) = self.next();
            if time_s > self.until_s {
                return Ending::TimeOver;
            }
            // Rounding must not turn time back.
            self.now_s = time_s.max(self.now_s);
            match next {
                NextEvent::Nothing => return Ending::Unending,
                NextEvent::Pair => self.meet_balls(),
                NextEvent::Meeting(index) => self.meet(index),
                NextEvent::Change(index) => self.change(index),
            }
            if self.players.iter().all(|player| player.ended.is_some() || !player.moves) {
                return Ending::AtRest;
            }
        }
    }

    /// The next thing to come; of things at the same time pairs, then meetings, then changes.
    fn next(&self) -> (f64, NextEvent) {
        let mut first = (f64::INFINITY, NextEvent::Nothing);
        for time_s in &self.pair_s {
            if *time_s < first.0 {
                first = (*time_s, NextEvent::Pair);
            }
        }
        for (index, player) in self.players.iter().enumerate() {
            if let Some((time_s, _)) = player.meeting
                && time_s < first.0
            {
                first = (time_s, NextEvent::Meeting(index));
            }
        }
        for (index, player) in self.players.iter().enumerate() {
            if let Some((time_s, _)) = player.changes.get(player.next_change)
                && *time_s < first.0
            {
                first = (*time_s, NextEvent::Change(index));
            }
        }
        first
    }

    /// The state of a ball now. A ball that a surface holds has the motion with which it will leave.
    pub(super) fn state_of(&self, index: usize) -> BallState {
        let leg = &self.players[index].leg;
        let state = leg.state_at(self.now_s);
        match leg.kind {
            LegKind::Free => state,
            LegKind::Against { departs, .. } => BallState { position: state.position, ..departs },
            LegKind::Held { .. } => {
                let driven = spin_hold::driven(leg, self.kind(index).cloth);
                let spin = driven.state_at(self.now_s - leg.time_s).spin;
                BallState { spin, ..state }
            }
        }
    }

    /// Lets a ball move on from a state.
    pub(super) fn begin(&mut self, index: usize, state: BallState) {
        let kind = self.kind(index);
        let patient = self.players[index].is_patient(self.now_s);
        let leg = spin_hold::onward(self.world, self.model, kind, tidy(state), self.now_s, patient);
        self.follow(index, &leg);
    }

    /// Puts a ball on a leg and works out its meeting and its changes there.
    pub(super) fn follow(&mut self, index: usize, leg: &Leg) {
        let kind = self.kind(index);
        let (begun_s, path) = (leg.time_s, leg.path);
        let meets = || {
            let grown = kind.grown();
            let passed = spin_hold::not_met(grown, leg);
            let met = grown.first_met_but(&path, &passed.all());
            passed.first_with_returns(met, &path, kind.cloth)
        };
        let mut changes = [NO_CHANGE; 3];
        let mut meeting = None;
        let mut moves = true;
        match leg.kind {
            LegKind::Free => {
                let rests_s = path.rests_from_s();
                moves = rests_s > 0.0;
                if moves {
                    meeting = meets();
                    let free_s = meeting.map_or(f64::INFINITY, |(time_s, _)| time_s);
                    changes = own_changes(&path, begun_s, free_s);
                }
            }
            LegKind::Against { until_s, .. } | LegKind::Held { until_s, .. } => {
                meeting = meets();
                changes[0] = (until_s, Change::LegEnds);
            }
        }
        debug_assert!(self.is_clear(index, leg), "ball {index} is inside a surface: {leg:?}");
        let player = &mut self.players[index];
        player.meeting = meeting.map(|(time_s, what)| (begun_s + time_s, what));
        player.changes = changes;
        player.next_change = 0;
        player.moves = moves;
        player.leg = *leg;
        self.legs[index].push(*leg);
    }

    /// True when a ball that begins this leg is inside nothing.
    fn is_clear(&self, index: usize, leg: &Leg) -> bool {
        let centre = leg.path.position_at(0.0);
        match self.kind(index).grown().obstructed(centre) {
            Some((past_m, Meeting::Touch(_))) => past_m <= ROUNDING_M,
            Some((_, Meeting::Drop(_))) | None => true,
        }
    }

    /// Works out when a ball meets the others.
    pub(super) fn foresee_pairs(&mut self, index: usize, others: impl IntoIterator<Item = usize>) {
        for other in others {
            if other == index {
                continue;
            }
            let time_s = self.pair_time(index.min(other), index.max(other));
            let slot = self.slot(index, other);
            self.pair_s[slot] = time_s;
        }
    }

    pub(super) fn foresee_all(&mut self, index: usize) {
        self.foresee_pairs(index, 0..self.players.len());
    }

    pub(super) fn slot(&self, one: usize, other: usize) -> usize {
        one.min(other) * self.players.len() + one.max(other)
    }

    fn pair_time(&self, one: usize, other: usize) -> f64 {
        let (a, b) = (&self.players[one], &self.players[other]);
        if a.ended.is_some_and(|end| end.ending != Ending::AtRest)
            || b.ended.is_some_and(|end| end.ending != Ending::AtRest)
            || !(a.moves || b.moves)
        {
            return f64::INFINITY;
        }
        let until_s = self.until_s.min(a.leg_ends_s()).min(b.leg_ends_s());
        first_between(
            &a.leg.path,
            &b.leg.path,
            a.leg.time_s,
            b.leg.time_s,
            self.now_s,
            touching_m(&a.ball, &b.ball),
            until_s,
        )
        .unwrap_or(f64::INFINITY)
    }

    /// A change that a ball's own motion brings.
    fn change(&mut self, index: usize) {
        let player = &mut self.players[index];
        let (_, change) = player.changes[player.next_change];
        player.next_change += 1;
        let leg = player.leg;
        match change {
            Change::Roll | Change::Pivot => {
                let state = leg.state_at(self.now_s);
                let kind = if change == Change::Roll { EventKind::Roll } else { EventKind::Pivot };
                self.record(kind, index, state, state);
            }
            Change::Stop => {
                let at_rest = leg.path.state_at(leg.path.rests_from_s());
                let state = BallState { velocity: Vec2::ZERO, spin: Vec3::ZERO, ..at_rest };
                self.players[index].moves = false;
                self.record(EventKind::Stop, index, state, state);
                self.end(index, Ending::AtRest, state);
            }
            Change::LegEnds => {
                let ends_s = self.players[index].leg_ends_s();
                let state = self.leave(index, ends_s);
                self.begin(index, state);
                self.stop_at_rest(index, state);
                self.foresee_all(index);
            }
            Change::Nothing => {}
        }
    }

    /// Ends a ball's leg at that time: the state in which it leaves it.
    pub(super) fn leave(&mut self, index: usize, at_s: f64) -> BallState {
        let leg = self.players[index].leg;
        match leg.kind {
            LegKind::Free => self.state_of(index),
            LegKind::Against { .. } => {
                let state = self.state_of(index);
                self.record(EventKind::Leave, index, state, state);
                state
            }
            LegKind::Held { by, .. } => {
                let step_s = at_s - leg.time_s;
                spin_hold::after_step(self.world, self.model, self.kind(index), &by, &leg, step_s)
            }
        }
    }

    /// Records the stop of a ball that what held or hit it leaves without any motion.
    pub(super) fn stop_at_rest(&mut self, index: usize, state: BallState) {
        if !self.players[index].moves {
            self.record(EventKind::Stop, index, state, state);
            self.end(index, Ending::AtRest, state);
        }
    }

    pub(super) fn end(&mut self, index: usize, ending: Ending, state: BallState) {
        let player = &mut self.players[index];
        player.ended = Some(End { ending, time_s: self.now_s, state: tidy(state) });
        player.moves = false;
        player.meeting = None;
        player.next_change = player.changes.len();
    }

    /// A ball that had stopped moves again.
    pub(super) fn wake(&mut self, index: usize) {
        self.players[index].ended = None;
    }

    pub(super) fn take_meeting(&mut self, index: usize) -> Option<Meeting> {
        self.players[index].meeting.take().map(|(_, what)| what)
    }

    fn finished(mut self, ending: Ending) -> Shot {
        if ending == Ending::TimeOver {
            self.now_s = self.until_s;
        }
        let ends = (0..self.players.len()).map(|index| self.end_of(index, ending)).collect();
        Shot { events: self.events, ends, legs: self.legs }
    }

    fn end_of(&self, index: usize, ending: Ending) -> End {
        let player = &self.players[index];
        if let Some(end) = player.ended {
            return end;
        }
        let last_s = player.leg.time_s;
        if !player.moves {
            // It has rested since its leg began.
            return End {
                ending: Ending::AtRest,
                time_s: last_s,
                state: player.leg.state_at(last_s),
            };
        }
        let time_s = if ending == Ending::Unending {
            last_s + player.leg.path.last_change_s()
        } else {
            self.now_s
        };
        End { ending, time_s, state: player.leg.state_at(time_s) }
    }
}
