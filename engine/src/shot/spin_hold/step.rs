//! One short step of a held ball, and what the surfaces have made of it at its end.

use super::contacts::heading;
use super::holders::{Holder, Holds};
use super::pressure::{Press, pressing};
use crate::equipment::RailModel;
use crate::motion::{BallState, ClothMotion, Path};
use crate::shot::ball_kinds::BallKind;
use crate::shot::response::{act_dead, gliding, with_speed_into, without_spin_into};
use crate::shot::trajectory::{Leg, LegKind, tidy};
use crate::vector::{Vec2, Vec3};
use crate::world::{Boundary, World};

/// Longest step of a held ball, s, unless its slide is long.
const STEP_S: f64 = 0.25e-3;
/// A long slide is taken in so many steps.
const STEPS_IN_A_SLIDE: f64 = 1000.0;
/// Longest way along a straight surface in one step, m.
const STEP_M: f64 = 1e-3;
/// And along a round one: the way is a parabola there, and so short a one keeps to the circle.
const ROUND_STEP_M: f64 = 0.25e-3;
/// Slip into the surface below this counts as none, m/s.
const LEAST_SLIP_M_S: f64 = 1e-9;
/// So often friction and what presses are matched to each other between two surfaces.
const TURNS_BETWEEN: usize = 4;
/// A step that ends this near to the end of its surface ends there, m.
const AT_THE_END_M: f64 = 1e-10;

/// One step of a ball held against `boundary` from `time_s`: the leg, or the state in which the
/// surface lets it go at once.
pub(super) fn along(
    boundary: &Boundary,
    state: BallState,
    time_s: f64,
    cloth: ClothMotion,
) -> Result<Leg, BallState> {
    let into = boundary.normal_at(state.position);
    let let_go = || tidy(gliding(into, without_spin_into(into, state)));
    // Along a surface the slip into it dies ever more slowly and never quite.
    if into.dot(state.cloth_slip(cloth.radius_m)).abs() <= LEAST_SLIP_M_S {
        return Err(let_go());
    }
    let driven = Path::new(state, cloth);
    let drive = driven.slide().acceleration;
    // The surface takes what drives the ball into it; what is left goes along it.
    let along = drive - into * into.dot(drive);
    let state = with_speed_into(into, state, 0.0);
    let curvature_1_m = boundary.curvature_1_m();
    let longest_m = if curvature_1_m > 0.0 { ROUND_STEP_M } else { STEP_M };
    let speed = state.velocity.norm();
    let heading = heading(into, state.velocity, drive);
    let ahead_m = if heading == Vec2::ZERO {
        f64::INFINITY
    } else {
        boundary.ahead_m(state.position, heading)
    };
    let gains = along.dot(heading.unit_or_zero());
    let step_s = usual_s(&driven)
        .min(longest_m / speed.max(f64::MIN_POSITIVE))
        .min(time_over(ahead_m, speed, gains));
    if time_s + step_s <= time_s {
        return Err(let_go());
    }
    let mut acceleration = along;
    if curvature_1_m > 0.0 {
        // A parabola that leaves the circle as its tangent and ends on it.
        let radius = 1.0 / curvature_1_m;
        let gone = speed * step_s + 0.5 * gains * step_s * step_s;
        let deep = gone * gone / (radius + (radius * radius - gone * gone).max(0.0).sqrt());
        acceleration += into * (2.0 * deep / (step_s * step_s));
    }
    let path = Path::prescribed(state, acceleration, cloth.radius_m);
    let kind = LegKind::Held { by: Holds::Along(*boundary), until_s: time_s + step_s };
    Ok(Leg { time_s, path, kind })
}

/// One step of a ball that two surfaces hold, as [`along`].
pub(super) fn between(
    two: [Holder; 2],
    state: BallState,
    time_s: f64,
    cloth: ClothMotion,
) -> Result<Leg, BallState> {
    let still = BallState { velocity: Vec2::ZERO, ..state };
    let let_go = || tidy(BallState { spin: Vec3::new(0.0, 0.0, state.spin.z), ..still });
    if still.cloth_slip(cloth.radius_m).norm() <= LEAST_SLIP_M_S {
        return Err(let_go());
    }
    let step_s = usual_s(&Path::new(still, cloth));
    if time_s + step_s <= time_s {
        return Err(let_go());
    }
    let path = Path::prescribed(still, Vec2::ZERO, cloth.radius_m);
    let kind = LegKind::Held { by: Holds::Between(two), until_s: time_s + step_s };
    Ok(Leg { time_s, path, kind })
}

/// The length of a step where nothing else ends it.
fn usual_s(driven: &Path) -> f64 {
    let slide_s = driven.rolls_from_s();
    STEP_S.max(slide_s / STEPS_IN_A_SLIDE).min(slide_s)
}

/// When a way of that length is gone over, from that speed with that gain of it, s.
fn time_over(way_m: f64, speed: f64, gain: f64) -> f64 {
    let ends = speed * speed + 2.0 * gain * way_m;
    if way_m.is_infinite() || ends < 0.0 {
        return f64::INFINITY;
    }
    let sum = speed + ends.sqrt();
    if sum > 0.0 { 2.0 * way_m / sum } else { f64::INFINITY }
}

/// The motion of the ball from the beginning of a held step if nothing held it.
pub(in crate::shot) fn driven(leg: &Leg, cloth: ClothMotion) -> Path {
    Path::new(leg.path.state_at(0.0), cloth)
}

/// The state at the end of a held step that lasted `step_s`.
pub(in crate::shot) fn after_step(
    world: &World,
    model: RailModel,
    kind: &BallKind<'_>,
    by: &Holds,
    leg: &Leg,
    step_s: f64,
) -> BallState {
    match by {
        Holds::Along(boundary) => after_along(world, model, kind, boundary, leg, step_s),
        Holds::Between(two) => after_between(world, model, kind, two, leg, step_s),
    }
}

fn after_along(
    world: &World,
    model: RailModel,
    kind: &BallKind<'_>,
    boundary: &Boundary,
    leg: &Leg,
    step_s: f64,
) -> BallState {
    let place = boundary.pinned(leg.path.position_at(step_s));
    let place = boundary.end_within(place, AT_THE_END_M).unwrap_or(place);
    let into = boundary.normal_at(place);
    let mut state = driven(leg, kind.cloth).state_at(step_s);
    if boundary.curvature_1_m() > 0.0 {
        // Around a corner the speed that it had keeps to the surface, but for what that takes to press
        // it there.
        let before = leg.path.state_at(0.0);
        let was_into = boundary.normal_at(before.position);
        let speed = before.velocity.dot(Vec2::new(was_into.y, -was_into.x));
        let turned = Vec2::new(into.y, -into.x) * speed;
        let bends = boundary.curvature_1_m() * speed * speed * step_s;
        state.velocity = turned + (state.velocity - before.velocity) - into * bends;
    }
    state.position = place;
    if into.dot(state.velocity) > 0.0 {
        state = act_dead(&kind.answer_of(world, model, boundary.owner), into, state);
    }
    tidy(BallState { position: place, ..with_speed_into(into, state, 0.0) })
}

/// Each of the two surfaces answers as if it took all of the ball's speed, twice what it takes; the ball
/// gets the mean of both. Friction that slides comes out as the sum of both, friction that grips as no
/// more than it takes: the energy of the mean is at most the mean of the energies.
///
/// Friction at one surface drives the ball into the other or out of it, so what each takes is found by
/// turns.
fn after_between(
    world: &World,
    model: RailModel,
    kind: &BallKind<'_>,
    two: &[Holder; 2],
    leg: &Leg,
    step_s: f64,
) -> BallState {
    let before = leg.path.state_at(0.0);
    let spun = BallState {
        spin: driven(leg, kind.cloth).state_at(step_s).spin,
        velocity: Vec2::ZERO,
        ..before
    };
    let normals = two.map(|it| it.normal);
    let laws = two.map(|it| kind.answer_of(world, model, it.owner));
    let drive = Path::new(before, kind.cloth).slide().acceleration * step_s;
    let mut takes_m_s = two.map(|it| it.takes_m_s2 * step_s);
    let mut after = spun;
    for _ in 0..TURNS_BETWEEN {
        let answers = [0, 1].map(|it: usize| {
            let coming = BallState { velocity: normals[it] * (2.0 * takes_m_s[it]), ..spun };
            with_speed_into(normals[it], act_dead(&laws[it], normals[it], coming), 0.0)
        });
        let [one, other] = answers.map(|answer| answer.spin);
        let half = |a: f64, b: f64| 0.5 * (a + b);
        after.spin = Vec3::new(half(one.x, other.x), half(one.y, other.y), half(one.z, other.z));
        let free = drive + (answers[0].velocity + answers[1].velocity) * 0.5;
        let into = [0, 1].map(|it: usize| (it, normals[it], normals[it].dot(free)));
        takes_m_s = [0.0; 2];
        after.velocity = match pressing(into.into_iter()) {
            Press::None => free,
            Press::One(it) => {
                takes_m_s[it] = into[it].2;
                free - normals[it] * into[it].2
            }
            Press::Two(takes) => {
                for (it, speed) in takes {
                    takes_m_s[it] = speed;
                }
                Vec2::ZERO
            }
        };
    }
    tidy(after)
}

/// The way along a surface that a contact of `contact_time_s` takes a ball, as a motion of its own.
pub(in crate::shot) fn along_while_touching(
    into: Vec2,
    before: BallState,
    after: BallState,
    radius_m: f64,
) -> Path {
    let mean = (before.velocity + after.velocity) * 0.5;
    let mut along = mean - into * into.dot(mean);
    if into.x != 0.0 && into.y != 0.0 {
        // Rounding must not lead it into the surface.
        along = along - into * (1e-15 * mean.norm());
    }
    let start = BallState { position: before.position, velocity: along, spin: after.spin };
    Path::prescribed(start, Vec2::ZERO, radius_m)
}
