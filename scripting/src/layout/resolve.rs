//! From a draft to a layout: names, places, the stroke.

use super::aim;
use super::draft::{BallDraft, Draft};
use super::model::{Layout, SPEED_UNIT};
use super::names::{Locate as _, Names};
use super::parts::{LayoutBall, LayoutTarget};
use super::places::{lay_fault, world_fault};
use crate::fault::Fault;
use crate::fields::FEWER_LENGTHS;
use crate::yaml::InputText;
use railproof_engine::aim::SendOff;
use railproof_engine::bank::{Launch, speed_on};
use railproof_engine::equipment::{Ball, Equipment};
use railproof_engine::lay::{LaidBall, angle_rad, direction, lay};
use railproof_engine::motion::BallState;
use railproof_engine::units::{Dimension, NO_SUCH_LAG};
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::World;
use std::sync::Arc;

/// A layout, and its table: the known one where it is the same.
pub(crate) fn resolved(
    equipment: Equipment,
    draft: Draft,
    source: &InputText,
    known: Option<&Arc<World>>,
) -> Result<(Layout, Arc<World>), Fault> {
    let target = draft.target.as_ref().map(|target| target.pocket);
    let mut names =
        Names { source, equipment: &equipment, balls: &draft.balls, target, lines: Vec::new() };
    let is_known =
        |it: &&Arc<World>| *it.equipment() == equipment && it.obstacles() == draft.obstacles;
    let world = match known.filter(is_known) {
        Some(world) => Arc::clone(world),
        None => Arc::new(
            World::new(&equipment, &draft.obstacles)
                .map_err(|error| world_fault(&names, &error))?,
        ),
    };
    let mut balls = laid_balls(&mut names, &draft, &world)?;
    let laid_on = std::mem::take(&mut names.lines);
    let stroke = aim::stroke(&mut names, &draft, &world, &balls)?;
    if let Some(stroke) = &stroke {
        let state = &mut balls[stroke.ball].state;
        *state = BallState { velocity: stroke.struck.velocity, spin: stroke.struck.spin, ..*state };
    }
    let target = target_of(&names, &draft, stroke.map(|stroke| stroke.ball))?;
    // The line that is aimed along; without one, those on which something lies.
    let lines = if names.lines.is_empty() { laid_on } else { names.lines };
    let layout = Layout {
        target,
        balls,
        stroke,
        obstacles: draft.obstacles,
        lines,
        engine: draft.engine,
        until_s: draft.until_s,
        picture: draft.picture,
        in_inches: source.has_inches(),
        speed_unit: speed_unit(&source.text),
        equipment,
    };
    Ok((layout, world))
}

/// The unit in which the speed of the stroke is written.
fn speed_unit(text: &str) -> &'static str {
    let after = |text, key| str::split_once(text, key).map(|(_, after)| after);
    let speed = after(text, "stroke:").and_then(|stroke| after(stroke, "speed:"));
    let written = speed.and_then(|it| it.split([',', '}', '#', '\n']).next()).unwrap_or_default();
    let written = written.trim().trim_matches(['"', '\'']);
    let units = Dimension::Speed.units().iter().filter(|unit| written.ends_with(unit.symbol));
    // The longest: `cm/s` ends with `m/s` too.
    units.max_by_key(|unit| unit.symbol.len()).map_or(SPEED_UNIT, |unit| unit.symbol)
}

/// The balls on a table that is known.
pub(crate) fn laid_balls(
    names: &mut Names<'_>,
    draft: &Draft,
    world: &World,
) -> Result<Vec<LayoutBall>, Fault> {
    let mut laid = Vec::with_capacity(draft.balls.len());
    for ball in &draft.balls {
        let spot = names.spot(&ball.spot, &["balls", &ball.name, ball.spot_key])?;
        laid.push(LaidBall { ball: size_of(ball, names.equipment), spot });
    }
    let places = lay(world, &laid).map_err(|error| lay_fault(names, draft, world, None, &error))?;
    let known: Vec<_> = laid.iter().zip(places).map(|(laid, place)| (laid.ball, place)).collect();
    let mut balls = Vec::with_capacity(known.len());
    for (index, ball) in draft.balls.iter().enumerate() {
        let (size, place) = known[index];
        let mut state = given_state(ball, place);
        if let Some(launch) = &ball.launch {
            let path = ["balls", &ball.name, "launch"];
            let heading = names.heading(&launch.heading, &path)?;
            let way = direction(world, &known, index, place, &heading)
                .map_err(|error| lay_fault(names, draft, world, Some(&path), &error))?;
            let speed_m_s = speed_on(launch.speed, names.equipment);
            if speed_m_s == f64::INFINITY {
                return Err(names
                    .fault(&["balls", &ball.name, "launch", "speed"], NO_SUCH_LAG)
                    .with_hint(FEWER_LENGTHS));
            }
            Launch::SPEED.check(speed_m_s).map_err(|error| {
                let path = ["balls", &ball.name, "launch", "speed"];
                names.fault(&path, error.to_string())
            })?;
            let send = SendOff { speed_m_s, roll: launch.roll, side: launch.spin_side };
            let angle_rad = angle_rad(Vec2::ZERO, way).unwrap_or_default();
            state = send.state(place, angle_rad, size.radius_m());
        }
        balls.push(LayoutBall { name: ball.name.clone(), ball: size, state });
    }
    Ok(balls)
}

fn size_of(ball: &BallDraft, equipment: &Equipment) -> Ball {
    Ball {
        diameter_m: ball.diameter_m.unwrap_or(equipment.ball.diameter_m),
        mass_kg: ball.mass_kg.unwrap_or(equipment.ball.mass_kg),
    }
}

fn given_state(ball: &BallDraft, position: Vec2) -> BallState {
    let [vx, vy] = ball.velocity.unwrap_or_default();
    let [wx, wy, wz] = ball.spin.unwrap_or_default();
    BallState { position, velocity: Vec2::new(vx, vy), spin: Vec3::new(wx, wy, wz) }
}

/// The target's ball: the one named, or the only one that is not struck.
pub(crate) fn target_of(
    names: &Names<'_>,
    draft: &Draft,
    struck: Option<usize>,
) -> Result<Option<LayoutTarget>, Fault> {
    let Some(target) = &draft.target else { return Ok(None) };
    let pocket = target.pocket;
    if let Some(name) = &target.ball {
        return Ok(Some(LayoutTarget { ball: names.ball(name, &["target", "ball"])?, pocket }));
    }
    let mut others = (0..draft.balls.len()).filter(|ball| Some(*ball) != struck);
    match (others.next(), others.next(), struck) {
        (Some(ball), None, _) | (None, None, Some(ball)) => Ok(Some(LayoutTarget { ball, pocket })),
        _ => Err(names
            .fault(&["target"], "which ball is meant for the pocket?")
            .with_hint("name it with `ball`, or `ball: object` in a file")),
    }
}
