//! Reads the balls and the obstacles of a layout.

use super::spots::{components, heading, refused, si, spot};
use crate::fault::Fault;
use crate::layout::CUE;
use crate::layout::balls::check_motion;
use crate::layout::draft::{BallDraft, LaunchDraft};
use crate::layout::keys::{
    BALL, CORNERS, LAUNCH, LENGTH, MIDDLE, OBSTACLE, SPIN, SPIN_SIDE, SPOT, TURNED, VELOCITY,
    WIDTH, joined,
};
use crate::layout::obstacles::ObstacleEntries;
use crate::lua::options::{Options, Within, list, table};
use crate::scenario::inputs::NumberOf;
use crate::yaml::{Entries, check_name};
use mlua::Value;
use railproof_engine::bank::Launch;
use railproof_engine::equipment::Ball;
use railproof_engine::shot::MOST_BALLS;
use railproof_engine::vector::Vec2;
use railproof_engine::world::Obstacle;

const BALL_KEYS: &[&str] = &joined::<{ SPOT.len() + BALL.len() }>(&[&SPOT, &BALL]);
const LAUNCH_KEYS: &[&str] = &joined::<{ LAUNCH.len() }>(&[&LAUNCH]);
const OBSTACLE_KEYS: &[&str] = &joined::<{ OBSTACLE.len() }>(&[&OBSTACLE]);

/// The balls at a key, the cue ball first.
pub(super) fn balls(options: &Options, key: &'static str) -> Result<Vec<BallDraft>, Fault> {
    let describe = |name: &str| format!("the ball `{name}`");
    let Some(mut named) = options.named(key, BALL_KEYS, describe)? else { return Ok(Vec::new()) };
    if named.len() > MOST_BALLS {
        return Err(options.complain(key, format!("there are more than {MOST_BALLS} balls")));
    }
    // A Lua table has no order; people expect the cue ball and the object ball first.
    named.sort_by_key(|(name, _)| (name != CUE, name != super::OBJECT));
    let mut balls = Vec::with_capacity(named.len());
    for (name, inside) in named {
        check_name("the ball's name", &name)
            .map_err(|refusal| options.complain(key, refusal.message))?;
        let launch = launch(&inside)?;
        let (spot, spot_key) = spot(&inside)?;
        let velocity: Option<[f64; 2]> = components(&inside, "velocity", VELOCITY)?;
        let spin: Option<[f64; 3]> = components(&inside, "spin", SPIN)?;
        within(&inside, "velocity", velocity.as_ref().map(|it| &it[..]), VELOCITY.high, "m/s")?;
        within(&inside, "spin", spin.as_ref().map(|it| &it[..]), SPIN.high, "rad/s")?;
        let draft = BallDraft {
            spot,
            spot_key,
            velocity,
            spin,
            launch,
            diameter_m: si(&inside, "diameter", Ball::DIAMETER)?,
            mass_kg: si(&inside, "mass", Ball::MASS)?,
            name,
        };
        check_motion(&draft).map_err(|refusal| {
            let fault = inside.complain("launch", refusal.message);
            fault.with_hint(refusal.hint.unwrap_or_default())
        })?;
        balls.push(draft);
    }
    Ok(balls)
}

/// Refuses a vector that is too long although its components are not.
fn within(
    options: &Options,
    key: &'static str,
    numbers: Option<&[f64]>,
    most: f64,
    unit: &str,
) -> Result<(), Fault> {
    let length = numbers.map_or(0.0, |it| it.iter().map(|part| part * part).sum::<f64>().sqrt());
    if length <= most {
        return Ok(());
    }
    Err(options
        .complain(key, format!("`{key}` is {length:.3} {unit} in all; at most {most} {unit}")))
}

fn launch(options: &Options) -> Result<Option<LaunchDraft>, Fault> {
    let Some(inside) = options.nested("launch", LAUNCH_KEYS)? else { return Ok(None) };
    let speed_m_s = inside.required("speed", NumberOf(Launch::SPEED))?.si;
    let heading = heading(&inside, "heading")?.ok_or_else(|| {
        inside
            .complain_here("a launch needs a `heading`")
            .with_hint("for instance heading = { to = { pocket = \"foot-right\" } }")
    })?;
    let roll = si(&inside, "roll", Launch::ROLL)?.unwrap_or(0.0);
    let spin_side = si(&inside, "spin_side", SPIN_SIDE)?.unwrap_or(0.0);
    Ok(Some(LaunchDraft { speed_m_s, heading, roll, spin_side }))
}

/// The obstacles at `obstacles`.
pub(super) fn obstacles(options: &Options) -> Result<Vec<Obstacle>, Fault> {
    let describe = |name: &str| format!("the obstacle `{name}`");
    let named = options.named("obstacles", OBSTACLE_KEYS, describe)?.unwrap_or_default();
    if named.len() > Obstacle::MOST {
        let message = format!("there are more than {} obstacles", Obstacle::MOST);
        return Err(options.complain("obstacles", message));
    }
    let mut obstacles = Vec::with_capacity(named.len());
    for (name, inside) in named {
        check_name("the obstacle's name", &name)
            .map_err(|refusal| options.complain("obstacles", refusal.message))?;
        let entries = ObstacleEntries {
            name,
            middle: components(&inside, "middle", MIDDLE)?,
            length_m: si(&inside, "length", LENGTH)?,
            width_m: si(&inside, "width", WIDTH)?,
            turned_rad: si(&inside, "turned", TURNED)?,
            corners: corners(&inside)?,
            height_m: si(&inside, "height", Obstacle::HEIGHT)?,
            restitution: si(&inside, "restitution", Obstacle::RESTITUTION)?,
            friction: si(&inside, "friction", Obstacle::FRICTION)?,
        };
        let obstacle = entries.finish().map_err(|refusal| {
            let fault = refused(&inside, refusal);
            fault.with_hint(
                "give it `middle`, `length` and `width`, or `corners` = { { metres(0), metres(0) }, … }",
            )
        })?;
        obstacles.push(obstacle);
    }
    Ok(obstacles)
}

fn corners(options: &Options) -> Result<Option<Vec<Vec2>>, Fault> {
    let Some(points) = options.optional("corners", table())? else { return Ok(None) };
    if points.raw_len() > Obstacle::MOST_CORNERS {
        let message = format!("there are more than {} corners", Obstacle::MOST_CORNERS);
        return Err(options.complain("corners", message));
    }
    let mut corners = Vec::with_capacity(points.raw_len());
    for number in 1..=points.raw_len() {
        let within = [Within::Key("corners".to_owned()), Within::Item(number)];
        let point: Value = points.raw_get(number).unwrap_or(Value::Nil);
        let both = options.read_within(&within, &point, list(NumberOf(CORNERS)))?;
        let [x, y] = both.as_slice() else {
            return Err(options.complain_within(&within, "a corner has two coordinates"));
        };
        corners.push(Vec2::new(x.si, y.si));
    }
    Ok(Some(corners))
}
