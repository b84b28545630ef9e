//! The stepping loop.

use super::clearance::{DEEP_M, Look, SLOW_M_S, TOUCH_M, clearance, first_touch, touches};
use super::hold::{Hold, Material, Stage};
use super::pair::Pair;
use super::samples::Samples;
use super::solver::Balls;
use super::{ContactWith, SteppedContact, SteppedError, SteppedSettings, SteppedShot};
use crate::compliant::Softness;
use crate::compliant::cloth::{self, ClothPush};
use crate::equipment::Equipment;
use crate::motion::{BallState, ClothMotion};
use crate::rail::Pocket;
use crate::shot::{End, Ending, ShotBall, groove_m, laid_out, touching_m};
use crate::vector::{Vec2, Vec3};
use crate::world::{Boundary, DropLine, Owner, World};

/// A shot is given up after so many contacts.
pub const MOST_CONTACTS: usize = 10_000;
/// A shot is given up after so many steps.
pub const MOST_STEPS: usize = 5_000_000;
/// A contact that lasts more than this many of its times is stepped coarsely: nothing bounces in it.
const HELD: f64 = 20.0;
/// Steps in a contact time then.
const HELD_STEPS: f64 = 16.0;

/// Plays balls from their start until all rest or are pocketed, or until `until_s`.
///
/// Any rail model is accepted and none is used: see [the room](super).
///
/// # Errors
/// [`SteppedError`] for a layout that no engine plays, a cushion whose contact is too short to be
/// resolved, and settings out of range.
pub fn play(
    world: &World,
    balls: &[ShotBall],
    until_s: Option<f64>,
    settings: &SteppedSettings,
) -> Result<SteppedShot, SteppedError> {
    let contact_time_s = world.equipment().cushion.contact_time_s;
    if !(SteppedSettings::LEAST_CONTACT_TIME_S..).contains(&contact_time_s) {
        return Err(SteppedError::ContactTime { contact_time_s });
    }
    let accepted =
        SteppedSettings::LEAST_BALL_CONTACT_TIME_S..=SteppedSettings::MOST_BALL_CONTACT_TIME_S;
    if !accepted.contains(&settings.ball_contact_time_s) {
        return Err(SteppedError::Setting {
            name: "ball_contact_time_s",
            value_s: settings.ball_contact_time_s,
            accepted: "1e-6 to 5e-3",
        });
    }
    if !(settings.time_limit_s > 0.0 && settings.time_limit_s.is_finite()) {
        return Err(SteppedError::Setting {
            name: "time_limit_s",
            value_s: settings.time_limit_s,
            accepted: "positive",
        });
    }
    if !settings.step_s.is_finite() {
        return Err(SteppedError::Setting {
            name: "step_s",
            value_s: settings.step_s,
            accepted: "finite",
        });
    }
    let balls = laid_out(world, balls, until_s)?;
    let mut game = Game::new(world, &balls, settings);
    let ending = game.run(until_s.unwrap_or(f64::INFINITY).min(settings.time_limit_s));
    Ok(game.finished(ending))
}

/// What a ball meets and how it moves.
struct Kind {
    cloth: ClothMotion,
    boundaries: Vec<Boundary>,
    /// Between these no nose, jaw or drop line is near, m.
    free_m: Vec2,
    obstacles: bool,
}

impl Kind {
    fn new(world: &World, start: &ShotBall) -> Self {
        let equipment = world.equipment();
        let (groove_m, radius_m) = (groove_m(equipment, &start.ball), start.ball.radius_m());
        let grown = world.grown_for(groove_m, radius_m);
        let outline = world.outline();
        Self {
            cloth: ClothMotion { radius_m, ..ClothMotion::new(equipment) },
            boundaries: grown.boundaries().copied().collect(),
            free_m: Vec2::new(outline.half_length_m - groove_m, outline.half_width_m - groove_m),
            obstacles: !world.obstacles().is_empty(),
        }
    }

    /// True when a centre that goes no further than `reach_m` touches and drops into nothing.
    fn is_free(&self, centre: Vec2, reach_m: f64) -> bool {
        !self.obstacles
            && centre.x.abs() + reach_m < self.free_m.x
            && centre.y.abs() + reach_m < self.free_m.y
    }
}

/// How a ball moves in the step to come if nothing touches it.
#[derive(Debug, Clone, Copy)]
struct Course {
    state: BallState,
    acceleration: Vec2,
}

impl Course {
    fn at(&self, time_s: f64) -> (Vec2, Vec2) {
        let velocity = self.state.velocity + self.acceleration * time_s;
        let mean = self.state.velocity + self.acceleration * (0.5 * time_s);
        (self.state.position + mean * time_s, velocity)
    }

    fn fastest(&self, time_s: f64) -> f64 {
        self.state.velocity.norm() + self.acceleration.norm() * time_s
    }
}

struct Game<'w> {
    world: &'w World,
    balls: &'w [ShotBall],
    kinds: Vec<Kind>,
    drops: Vec<(Pocket, DropLine)>,
    steps_in_contact: f64,
    free_step_s: f64,
    ball_contact_time_s: f64,
    solver: Balls,
    states: Vec<BallState>,
    on_table: Vec<bool>,
    rests: Vec<bool>,
    ends: Vec<Option<End>>,
    holds: Vec<Hold>,
    pairs: Vec<Pair>,
    contacts: Vec<SteppedContact>,
    samples: Vec<Samples>,
    now_s: f64,
    steps: usize,
}

impl<'w> Game<'w> {
    fn new(world: &'w World, balls: &'w [ShotBall], settings: &SteppedSettings) -> Self {
        let equipment: &Equipment = world.equipment();
        let softness =
            Softness::new(equipment.ball_contact.restitution, settings.ball_contact_time_s);
        let states: Vec<BallState> = balls.iter().map(|it| it.state).collect();
        Self {
            world,
            balls,
            kinds: balls.iter().map(|it| Kind::new(world, it)).collect(),
            drops: world.pockets().iter().map(|it| (it.pocket, it.drop)).collect(),
            steps_in_contact: settings.steps(),
            free_step_s: settings.free_step_s(),
            ball_contact_time_s: settings.ball_contact_time_s,
            solver: Balls::new(balls, softness),
            on_table: vec![true; balls.len()],
            rests: vec![false; balls.len()],
            ends: vec![None; balls.len()],
            holds: Vec::new(),
            pairs: Vec::new(),
            contacts: Vec::new(),
            samples: states.iter().map(|state| Samples::new(*state)).collect(),
            states,
            now_s: 0.0,
            steps: 0,
        }
    }

    fn run(&mut self, until_s: f64) -> Ending {
        loop {
            self.take_over();
            self.begin_contacts();
            self.note_rest();
            if self.rests.iter().zip(&self.on_table).all(|(rests, on_table)| *rests || !on_table)
                && self.pairs.is_empty()
            {
                return Ending::Stopped;
            }
            let left_s = until_s - self.now_s;
            if left_s <= 0.0 {
                return Ending::Until;
            }
            if self.steps >= MOST_STEPS || self.contacts.len() >= MOST_CONTACTS {
                return Ending::TooManyEvents;
            }
            let wanted_s = self.step_length_s();
            if !wanted_s.is_finite() {
                return Ending::Unending;
            }
            let longest_s = wanted_s.min(left_s);
            let courses = self.courses(longest_s);
            let step_s = self.first_touch_within(&courses, longest_s).unwrap_or(longest_s);
            // A touch that is due at once has been begun, or is none.
            let step_s = step_s.max(1e-9_f64.min(longest_s));
            self.step(step_s);
            self.drop_balls();
        }
    }

    /// True while something pushes a ball.
    fn is_touched(&self, ball: usize) -> bool {
        self.pairs.iter().any(|pair| pair.balls.contains(&ball))
            || self.holds.iter().any(|hold| hold.ball == ball && hold.pushes())
    }

    fn plays(&self, ball: usize) -> bool {
        self.on_table[ball]
    }

    /// How long forces stay the same and contacts are resolved, s.
    fn step_length_s(&self) -> f64 {
        let held = |began_s: f64, contact_time_s: f64| {
            let steps = if self.now_s - began_s > HELD * contact_time_s {
                HELD_STEPS
            } else {
                self.steps_in_contact
            };
            contact_time_s / steps
        };
        let mut step_s = f64::INFINITY;
        for hold in &self.holds {
            step_s = step_s.min(held(hold.began_s, hold.contact_time_s()));
        }
        for pair in &self.pairs {
            step_s = step_s.min(held(pair.began_s, self.ball_contact_time_s));
        }
        let centres_rest = (0..self.states.len())
            .filter(|ball| self.plays(*ball))
            .all(|ball| self.states[ball].velocity == Vec2::ZERO && self.rolls_not(ball));
        if !centres_rest {
            step_s = step_s.min(self.free_step_s);
        }
        for ball in (0..self.states.len()).filter(|ball| self.plays(*ball)) {
            step_s = step_s.min(self.steady_time_s(ball));
        }
        step_s
    }

    /// True when nothing is left of a ball's spin about level axes.
    fn rolls_not(&self, ball: usize) -> bool {
        self.states[ball].spin.x == 0.0 && self.states[ball].spin.y == 0.0
    }

    /// Until when the cloth's push on a ball stays as it is, s.
    fn steady_time_s(&self, ball: usize) -> f64 {
        let (state, cloth) = (&self.states[ball], &self.kinds[ball].cloth);
        // In a contact slip comes and goes, and steps are short.
        if self.rests[ball] || self.is_touched(ball) {
            return f64::INFINITY;
        }
        let centre_rests = state.velocity == Vec2::ZERO && self.rolls_not(ball);
        let centre_s =
            if centre_rests { f64::INFINITY } else { cloth::steady_time_s(state, cloth) };
        let pivots = state.spin.z != 0.0 && cloth.pivot_deceleration_rad_s2 > 0.0;
        let pivot_s = if pivots {
            state.spin.z.abs() / cloth.pivot_deceleration_rad_s2
        } else {
            f64::INFINITY
        };
        // Where one is over but for rounding the other counts.
        [centre_s, pivot_s].into_iter().filter(|it| *it > 1e-12).fold(f64::INFINITY, f64::min)
    }

    fn push_of(&self, ball: usize, step_s: f64) -> ClothPush {
        cloth::push(&self.states[ball], &self.kinds[ball].cloth, step_s)
    }

    fn courses(&self, step_s: f64) -> Vec<Course> {
        let mut courses: Vec<Course> = (0..self.states.len())
            .map(|ball| {
                let state = self.states[ball];
                let moves = self.plays(ball) && !self.rests[ball];
                let acceleration = if moves {
                    self.push_of(ball, step_s).velocity * (1.0 / step_s)
                } else {
                    Vec2::ZERO
                };
                Course { state, acceleration }
            })
            .collect();
        for hold in self.holds.iter().filter(|hold| hold.pushes()) {
            let state = &self.states[hold.ball];
            let push = hold.acceleration(state).max(0.0);
            let into = hold.boundary.normal_at(state.position);
            let course = &mut courses[hold.ball];
            course.acceleration = course.acceleration - into * push;
        }
        courses
    }

    fn first_touch_within(&self, courses: &[Course], until_s: f64) -> Option<f64> {
        let mut until_s = until_s;
        let mut found = None;
        let mut note = |time_s: Option<f64>, until_s: &mut f64| {
            if let Some(time_s) = time_s {
                *until_s = time_s;
                found = Some(time_s);
            }
        };
        for ball in (0..courses.len()).filter(|ball| self.plays(*ball)) {
            let course = &courses[ball];
            let fastest = course.fastest(until_s);
            let kind = &self.kinds[ball];
            if fastest > 0.0 && !kind.is_free(course.state.position, fastest * until_s) {
                for boundary in &kind.boundaries {
                    let mut back_m = 0.0;
                    if let Some(hold) = self.hold_of(ball, boundary) {
                        if hold.pushes() {
                            continue;
                        }
                        back_m = hold.left_m();
                    }
                    let look = |time_s: f64| {
                        let (centre, velocity) = course.at(time_s);
                        let mut look = clearance(boundary, centre);
                        look.gap_m += back_m;
                        look.counts &= boundary.normal_at(centre).dot(velocity) > SLOW_M_S;
                        look
                    };
                    note(first_touch(look, fastest, until_s), &mut until_s);
                }
                for (_, drop) in &self.drops {
                    let look = |time_s: f64| {
                        let (centre, velocity) = course.at(time_s);
                        Look {
                            gap_m: drop.offset_m - drop.normal.dot(centre),
                            counts: drop.normal.dot(velocity) > 0.0,
                        }
                    };
                    note(first_touch(look, fastest, until_s), &mut until_s);
                }
            }
            for other in (ball + 1..courses.len()).filter(|other| self.plays(*other)) {
                if self.is_pair(ball, other) {
                    continue;
                }
                let with = &courses[other];
                let relative = Course {
                    state: BallState {
                        position: with.state.position - course.state.position,
                        velocity: with.state.velocity - course.state.velocity,
                        spin: Vec3::ZERO,
                    },
                    acceleration: with.acceleration - course.acceleration,
                };
                let touching_m = touching_m(&self.balls[ball].ball, &self.balls[other].ball);
                let look = |time_s: f64| {
                    let (apart, velocity) = relative.at(time_s);
                    let closing = -apart.unit_or_zero().dot(velocity);
                    Look { gap_m: apart.norm() - touching_m, counts: closing > SLOW_M_S }
                };
                note(first_touch(look, relative.fastest(until_s), until_s), &mut until_s);
            }
        }
        found
    }

    fn hold_of(&self, ball: usize, boundary: &Boundary) -> Option<&Hold> {
        self.holds.iter().find(|hold| hold.ball == ball && hold.boundary == *boundary)
    }

    fn is_pair(&self, one: usize, other: usize) -> bool {
        self.pairs.iter().any(|pair| pair.balls == [one, other])
    }

    /// A surface that a ball has glided off hands it over to the next piece of the same solid, which
    /// goes on where it ends.
    fn take_over(&mut self) {
        for hold in &mut self.holds {
            let centre = self.states[hold.ball].position;
            if hold.boundary.spans(centre) {
                continue;
            }
            let normal = hold.boundary.normal_at(centre);
            let depth_m = hold.depth_m(centre);
            let next = self.kinds[hold.ball].boundaries.iter().find(|next| {
                next.gap(centre).is_some_and(|gap| (gap + depth_m).abs() < 1e-3)
                    && next.normal_at(centre).dot(normal) > 0.9
            });
            match next {
                Some(next) => hold.boundary = *next,
                // Its piece has ended and nothing goes on: so does the push.
                None => hold.stage = Stage::ComingBack(0.0),
            }
        }
    }

    fn material(&self, owner: Owner) -> Material {
        match owner {
            Owner::Nose(_) | Owner::Jaw { .. } => {
                Material::cushion(&self.world.equipment().cushion)
            }
            Owner::Obstacle(index) => {
                Material::obstacle(&self.world.obstacles()[index], self.ball_contact_time_s)
            }
        }
    }

    /// Begins the contacts of those that touch and approach each other.
    fn begin_contacts(&mut self) {
        for ball in 0..self.states.len() {
            let state = self.states[ball];
            if !self.on_table[ball] || self.kinds[ball].is_free(state.position, TOUCH_M) {
                continue;
            }
            for at in 0..self.kinds[ball].boundaries.len() {
                let boundary = self.kinds[ball].boundaries[at];
                let look = clearance(&boundary, state.position);
                let speed = boundary.normal_at(state.position).dot(state.velocity);
                let known =
                    self.holds.iter().position(|it| it.ball == ball && it.boundary == boundary);
                match known {
                    Some(known) => {
                        let hold = &self.holds[known];
                        let meets = look.gap_m + hold.left_m() <= TOUCH_M
                            && hold.acceleration(&state) > 0.0;
                        if hold.pushes() || !meets {
                            continue;
                        }
                        if speed <= 0.0 {
                            // It had not gone: the surface has caught up with it.
                            self.holds[known].stage = Stage::Pushing;
                        } else {
                            self.holds.swap_remove(known);
                            self.begin_hold(ball, boundary, state);
                        }
                    }
                    None => {
                        if look.counts && touches(look.gap_m, speed) {
                            self.begin_hold(ball, boundary, state);
                        }
                    }
                }
            }
        }
        for one in 0..self.states.len() {
            for other in one + 1..self.states.len() {
                if self.on_table[one] && self.on_table[other] && !self.is_pair(one, other) {
                    self.begin_pair(one, other);
                }
            }
        }
    }

    fn begin_hold(&mut self, ball: usize, boundary: Boundary, state: BallState) {
        let material = self.material(boundary.owner);
        let hold = Hold::new(ball, boundary, material, &state, self.contacts.len(), self.now_s);
        let with = ContactWith::Surface(boundary.owner);
        self.contacts.push(SteppedContact {
            ball,
            with,
            began_s: self.now_s,
            ended_s: None,
            depth_m: 0.0,
            approach_m_s: hold.approach_m_s,
            restitution: hold.restitution,
            impulse_n_s: 0.0,
            arrival: state,
            departure: state,
            other: None,
        });
        self.holds.push(hold);
        self.samples[ball].keep(self.now_s, state, true);
        self.rests[ball] = false;
    }

    fn begin_pair(&mut self, one: usize, other: usize) {
        let (a, b) = (self.states[one], self.states[other]);
        let apart = b.position - a.position;
        let kinds = [&self.balls[one].ball, &self.balls[other].ball];
        let gap_m = apart.norm() - touching_m(kinds[0], kinds[1]);
        let approach_m_s = (a.velocity - b.velocity).dot(apart.unit_or_zero());
        if !touches(gap_m, approach_m_s) {
            return;
        }
        let law = &self.world.equipment().ball_contact;
        let pair = Pair::new([one, other], kinds, [&a, &b], law, self.contacts.len(), self.now_s);
        self.contacts.push(SteppedContact {
            ball: one,
            with: ContactWith::Ball(other),
            began_s: self.now_s,
            ended_s: None,
            depth_m: 0.0,
            approach_m_s,
            restitution: law.restitution,
            impulse_n_s: 0.0,
            arrival: a,
            departure: a,
            other: Some([b, b]),
        });
        self.pairs.push(pair);
        for (ball, state) in [(one, a), (other, b)] {
            self.samples[ball].keep(self.now_s, state, true);
            self.rests[ball] = false;
        }
    }

    /// Which balls have come to rest, and which move again.
    fn note_rest(&mut self) {
        for ball in 0..self.states.len() {
            if !self.on_table[ball] {
                continue;
            }
            if self.leans_still(ball) {
                self.let_lean(ball);
            }
            let touched = self.is_touched(ball);
            let state = &mut self.states[ball];
            if !touched && cloth::rests(state, &self.kinds[ball].cloth) {
                state.velocity = Vec2::ZERO;
                state.spin.x = 0.0;
                state.spin.y = 0.0;
                if state.spin.z.abs() <= 1e-9 * self.kinds[ball].cloth.pivot_deceleration_rad_s2 {
                    state.spin.z = 0.0;
                }
            }
            let rests = !touched && state.velocity == Vec2::ZERO && state.spin == Vec3::ZERO;
            if rests && !self.rests[ball] {
                let state = *state;
                self.ends[ball] = Some(End { ending: Ending::Stopped, time_s: self.now_s, state });
                self.samples[ball].keep(self.now_s, state, true);
            }
            if !rests {
                self.ends[ball] = None;
            }
            self.rests[ball] = rests;
        }
    }

    /// True when surfaces push a ball that hardly moves by less than rolling resistance holds.
    fn leans_still(&self, ball: usize) -> bool {
        let (state, cloth) = (&self.states[ball], &self.kinds[ball].cloth);
        let slack_s = self.contact_time_s_of(ball) / HELD_STEPS;
        let holds = || self.holds.iter().filter(|hold| hold.ball == ball && hold.pushes());
        holds().next().is_some()
            && holds().all(|hold| hold.acceleration(state) <= cloth.rolling_deceleration_m_s2)
            && state.velocity.norm() <= cloth.rolling_deceleration_m_s2 * slack_s
            && state.cloth_slip(cloth.radius_m).norm() <= cloth.rolling_deceleration_m_s2 * slack_s
            && !self.pairs.iter().any(|pair| pair.balls.contains(&ball))
    }

    /// Longest contact time of the surfaces on a ball, s.
    fn contact_time_s_of(&self, ball: usize) -> f64 {
        let holds = self.holds.iter().filter(|hold| hold.ball == ball);
        holds.map(Hold::contact_time_s).fold(0.0, f64::max)
    }

    /// A ball that leans against surfaces comes to rest there.
    fn let_lean(&mut self, ball: usize) {
        self.states[ball].velocity = Vec2::ZERO;
        self.states[ball].spin.x = 0.0;
        self.states[ball].spin.y = 0.0;
        for hold in self.holds.iter().filter(|hold| hold.ball == ball && hold.pushes()) {
            let contact = &mut self.contacts[hold.contact];
            contact.ended_s = Some(self.now_s);
            contact.departure = self.states[ball];
        }
        self.holds.retain(|hold| hold.ball != ball);
    }

    fn step(&mut self, step_s: f64) {
        let half_s = 0.5 * step_s;
        let steady: Vec<bool> = (0..self.states.len())
            .map(|ball| self.plays(ball) && self.steady_time_s(ball) <= step_s * (1.0 + 1e-9))
            .collect();
        let pushes: Vec<Option<ClothPush>> = (0..self.states.len())
            .map(|ball| (self.plays(ball) && !self.rests[ball]).then(|| self.push_of(ball, step_s)))
            .collect();
        let before = self.begin_step(half_s, &pushes);
        self.solver.step(&mut self.states, &self.on_table, step_s);
        self.now_s += step_s;
        self.steps += 1;
        self.after_pairs(step_s);
        self.end_step(half_s, step_s, &pushes, &before);
        self.keep_samples(&steady);
    }

    /// The first halves of the pushes; returns how hard each hold pushed at the step's beginning.
    fn begin_step(&mut self, half_s: f64, pushes: &[Option<ClothPush>]) -> Vec<f64> {
        for (state, push) in self.states.iter_mut().zip(pushes) {
            half_of_cloth(state, push.as_ref());
        }
        let mut before = Vec::with_capacity(self.holds.len());
        for hold in &mut self.holds {
            let state = &mut self.states[hold.ball];
            before.push(0.0);
            if !hold.pushes() {
                continue;
            }
            hold.follow(state);
            let radius_m = self.balls[hold.ball].ball.radius_m();
            if let Some(push) = hold.push(state, radius_m, half_s, false) {
                if let Some(last) = before.last_mut() {
                    *last = push.speed_m_s / half_s;
                }
                *state = push.state;
                let contact = &mut self.contacts[hold.contact];
                contact.impulse_n_s += push.speed_m_s * self.balls[hold.ball].ball.mass_kg;
            }
        }
        self.solver.part_all();
        for pair in &self.pairs {
            let [one, other] = pair.balls;
            let kinds = [&self.balls[one].ball, &self.balls[other].ball];
            let states = [&self.states[one], &self.states[other]];
            let apart_m = (states[1].position - states[0].position).norm();
            if apart_m < touching_m(kinds[0], kinds[1]) {
                self.solver.join(pair.balls, pair.plane_friction(kinds, states));
            }
        }
        before
    }

    /// What the balls did to each other in the solver's step.
    fn after_pairs(&mut self, step_s: f64) {
        let mut at = 0;
        while at < self.pairs.len() {
            let pair = &mut self.pairs[at];
            let [one, other] = pair.balls;
            let kinds = [&self.balls[one].ball, &self.balls[other].ball];
            let impulse = self.solver.impulse_n_s(pair.balls);
            let contact = &mut self.contacts[pair.contact];
            if impulse > 0.0 {
                pair.pushed = true;
                let rolled =
                    pair.roll_over(kinds, [&self.states[one], &self.states[other]], impulse);
                [self.states[one], self.states[other]] = rolled;
                contact.impulse_n_s += impulse;
            }
            let (a, b) = (self.states[one], self.states[other]);
            let apart = b.position - a.position;
            let gap_m = apart.norm() - touching_m(kinds[0], kinds[1]);
            let approach = (a.velocity - b.velocity).dot(apart.unit_or_zero());
            contact.depth_m = contact.depth_m.max(-gap_m);
            contact.approach_m_s = contact.approach_m_s.max(approach);
            let apart = impulse <= 0.0 && approach <= 0.0 && (pair.pushed || gap_m > 0.0);
            // What is left between them is less than the cloth holds.
            let spent = approach.abs() <= SLOW_M_S
                && gap_m > -DEEP_M
                && (self.now_s - pair.began_s > HELD * self.ball_contact_time_s || impulse <= 0.0);
            let ended = apart || spent;
            contact.departure = a;
            contact.other = contact.other.map(|[arrival, _]| [arrival, b]);
            if ended {
                // The step that did not push any more is not part of it.
                let idle_s = if impulse > 0.0 { 0.0 } else { step_s };
                contact.ended_s = Some(self.now_s - idle_s);
                self.samples[one].keep(self.now_s, a, true);
                self.samples[other].keep(self.now_s, b, true);
                self.pairs.swap_remove(at);
            } else {
                at += 1;
            }
        }
    }

    /// The second halves of the pushes, and which of them are over.
    fn end_step(&mut self, half_s: f64, step_s: f64, pushes: &[Option<ClothPush>], before: &[f64]) {
        for (hold, began_with) in self.holds.iter_mut().zip(before) {
            let state = &mut self.states[hold.ball];
            if !hold.pushes() {
                hold.come_back(step_s);
                continue;
            }
            let radius_m = self.balls[hold.ball].ball.radius_m();
            let contact = &mut self.contacts[hold.contact];
            if let Some(push) = hold.push(state, radius_m, half_s, true) {
                *state = push.state;
                contact.impulse_n_s += push.speed_m_s * self.balls[hold.ball].ball.mass_kg;
            } else {
                // The push fell to nothing within the step, in proportion.
                let pull = -hold.acceleration(state);
                let sum = began_with + pull;
                let share = if sum > 0.0 { began_with / sum } else { 1.0 };
                contact.ended_s = Some(self.now_s - step_s * (1.0 - share));
                hold.let_go(state.position);
                self.samples[hold.ball].keep(self.now_s, *state, true);
            }
            contact.departure = *state;
            contact.depth_m = contact.depth_m.max(hold.depth_m(state.position));
            contact.approach_m_s = hold.approach_m_s;
            contact.restitution = hold.restitution;
        }
        for (state, push) in self.states.iter_mut().zip(pushes) {
            half_of_cloth(state, push.as_ref());
        }
        self.holds.retain(|hold| !hold.is_over());
    }

    fn keep_samples(&mut self, steady: &[bool]) {
        for ball in (0..self.states.len()).filter(|ball| self.on_table[*ball]) {
            let touched = self.is_touched(ball);
            let samples = &mut self.samples[ball];
            let due = self.now_s - samples.last_s() >= self.free_step_s * 0.999;
            if !self.rests[ball] && (touched || steady[ball] || due) {
                samples.keep(self.now_s, self.states[ball], steady[ball]);
            }
        }
    }

    fn drop_balls(&mut self) {
        for ball in 0..self.states.len() {
            let centre = self.states[ball].position;
            if !self.on_table[ball] || self.kinds[ball].is_free(centre, TOUCH_M) {
                continue;
            }
            let state = self.states[ball];
            let fallen = self.drops.iter().find(|(_, drop)| {
                drop.offset_m - drop.normal.dot(centre) <= TOUCH_M
                    && drop.normal.dot(state.velocity) > 0.0
            });
            if let Some((pocket, _)) = fallen {
                let ending = Ending::Pocketed(*pocket);
                self.ends[ball] = Some(End { ending, time_s: self.now_s, state });
                self.samples[ball].keep(self.now_s, state, true);
                self.on_table[ball] = false;
                self.rests[ball] = true;
                self.solver.remove(ball);
                self.holds.retain(|hold| hold.ball != ball);
                self.pairs.retain(|pair| !pair.balls.contains(&ball));
            }
        }
    }

    fn finished(self, ending: Ending) -> SteppedShot {
        let mut samples = self.samples;
        let mut ends = Vec::with_capacity(self.ends.len());
        for (ball, end) in self.ends.iter().enumerate() {
            let state = self.states[ball];
            samples[ball].keep(end.map_or(self.now_s, |end| end.time_s), state, true);
            ends.push(end.unwrap_or(End { ending, time_s: self.now_s, state }));
        }
        SteppedShot {
            ends,
            contacts: self.contacts,
            steps: self.steps,
            samples: samples.into_iter().map(Samples::finish).collect(),
        }
    }
}

fn half_of_cloth(state: &mut BallState, push: Option<&ClothPush>) {
    if let Some(push) = push {
        state.velocity += push.velocity * 0.5;
        state.spin.x += 0.5 * push.level_spin.x;
        state.spin.y += 0.5 * push.level_spin.y;
        state.spin.z += 0.5 * push.spin_z;
    }
}
