//! The stroke: the ball struck, the direction, and the motion off the tip.

use super::cue_room::{self, NoCueRoom, ThingNames};
use super::draft::{AimDraft, Draft, SpotDraft, StrokeDraft};
use super::model::CUE;
use super::names::Names;
use super::parts::{AskedWay, LayoutBall, LayoutStroke};
use super::places::lay_fault;
use crate::fault::Fault;
use crate::fields::FEWER_LENGTHS;
use railproof_engine::aim::{NoAim, Sending};
use railproof_engine::bank::speed_on;
use railproof_engine::lay::{angle_rad, direction, place};
use railproof_engine::rail::Pocket;
use railproof_engine::stroke::{Stroke, StrokeError};
use railproof_engine::vector::Vec2;
use railproof_engine::world::World;

pub(super) fn stroke(
    names: &mut Names<'_>,
    draft: &Draft,
    world: &World,
    balls: &[LayoutBall],
) -> Result<Option<LayoutStroke>, Fault> {
    let Some(stroke) = &draft.stroke else { return Ok(None) };
    let ball = whom(names, stroke)?;
    let drafted = &draft.balls[ball];
    for (key, given) in [
        ("velocity", drafted.velocity.is_some()),
        ("spin", drafted.spin.is_some()),
        ("launch", drafted.launch.is_some()),
    ] {
        if given {
            return Err(names
                .fault(
                    &["balls", &drafted.name, key],
                    format!("the ball `{}` has a `{key}` and is struck", drafted.name),
                )
                .with_hint("a ball moves by one or the other: take one of them out"));
        }
    }
    let level = Stroke {
        speed_m_s: speed_on(stroke.speed, world.equipment()),
        aim_rad: 0.0,
        side_offset: stroke.tip_side,
        height_offset: stroke.tip_height,
        elevation_rad: stroke.elevation_rad.unwrap_or(0.0),
        least_elevation: stroke.elevation_rad.is_none(),
        allow_miscue: stroke.allow_miscue,
    };
    // Refused before any aim is solved with it.
    let (size, cue) = (balls[ball].ball, &world.equipment().cue);
    level.strike(&size, cue).map_err(|error| stroke_fault(names, stroke, &error))?;
    let aim = AimSolver { names, draft, world, balls, ball };
    let (solved, ghost, asked) = aim.solved(stroke, &level)?;
    let (solved, room) = cue_room::raised(world, balls, ball, &solved)
        .map_err(|cramped| room_fault(names, stroke, &cramped))?;
    let struck = solved.strike(&size, cue).map_err(|error| stroke_fault(names, stroke, &error))?;
    Ok(Some(LayoutStroke { ball, stroke: solved, struck, room, ghost, asked }))
}

fn whom(names: &Names<'_>, stroke: &StrokeDraft) -> Result<usize, Fault> {
    let path = ["stroke", "ball"];
    match &stroke.ball {
        Some(name) => names.ball(name, &path),
        None => names.balls.iter().position(|ball| ball.name == CUE).ok_or_else(|| {
            names
                .fault(&["stroke"], "which ball is struck?")
                .with_hint(
                    "no ball is called `cue`: lay one, such as cue: {position: [10 in, -18 in]}, or name the ball \
                     that is struck, `ball: white`",
                )
        }),
    }
}

/// A stroke for which the cue has no room, at the key to change.
fn room_fault(names: &Names<'_>, stroke: &StrokeDraft, cramped: &NoCueRoom) -> Fault {
    let key = if cramped.given { "elevation" } else { stroke.aim_key };
    names.fault(&["stroke", key], cramped.message.as_str()).with_hint(cramped.hint.as_str())
}

/// The change that may help where no aim does it.
const fn aim_hint(error: &NoAim) -> Option<&'static str> {
    Some(match error {
        NoAim::NoArrival { .. } | NoAim::Jump { .. } => {
            "write `ghost` in place of `overcut` to see where the ball goes and what it lacks, such as speed"
        }
        NoAim::TooSoft { .. } => "give it more `speed`",
        NoAim::BehindTheBall { .. } => {
            "move the cue ball to the other side of the ball, or send the ball another way"
        }
        NoAim::TooMuchSide { .. } => "`overcut` in place of `gear` makes the shot by the cut alone",
        _ => return None,
    })
}

/// A stroke that is refused, at the key to change.
fn stroke_fault(names: &Names<'_>, stroke: &StrokeDraft, error: &StrokeError) -> Fault {
    let key = match error {
        StrokeError::Miscue { .. } | StrokeError::OutsideBall { .. } => {
            if stroke.tip_side.abs() >= stroke.tip_height.abs() { "tip_side" } else { "tip_height" }
        }
        _ => "speed",
    };
    let fault = names.fault(&["stroke", key], error.to_string());
    match error {
        StrokeError::NoSuchLag => fault.with_hint(FEWER_LENGTHS),
        StrokeError::Miscue { .. } => fault.with_hint(
            "put the tip nearer the middle, or write `allow_miscue: yes` to play on as if it did not slip",
        ),
        _ => fault,
    }
}

type Aimed = (Stroke, Option<Vec2>, Option<AskedWay>);

/// The things that an aim is solved with.
struct AimSolver<'n, 'a> {
    names: &'n mut Names<'a>,
    draft: &'n Draft,
    world: &'n World,
    balls: &'n [LayoutBall],
    ball: usize,
}

impl AimSolver<'_, '_> {
    /// The aimed stroke, the place of the ghost ball if one was aimed at, and the way that a ball is to go.
    fn solved(self, stroke: &StrokeDraft, level: &Stroke) -> Result<Aimed, Fault> {
        let path = ["stroke", stroke.aim_key];
        let from = self.balls[self.ball].state.position;
        let known: Vec<_> = self.balls.iter().map(|it| (it.ball, it.state.position)).collect();
        match &stroke.aim {
            AimDraft::Angle(angle_rad) => {
                Ok((Stroke { aim_rad: *angle_rad, ..*level }, None, None))
            }
            AimDraft::At(spot) => {
                let at = self.names.spot(spot, &path)?;
                let at = place(self.world, &known, self.ball, &at).map_err(|error| {
                    lay_fault(self.names, self.draft, self.world, Some(&path), &error)
                })?;
                let aim_rad = angle_rad(from, at).ok_or_else(|| {
                    self.names
                        .fault(&path, "the cue is pointed at the very place where the ball lies")
                })?;
                let is_ghost = matches!(spot, SpotDraft::Beside { gap_m, .. } if *gap_m == 0.0);
                let asked = match spot {
                    SpotDraft::Beside { ball, .. } if stroke.aim_key == "ghost" => {
                        let ball = self.names.ball(ball, &["stroke", "ghost", "ball"])?;
                        let way = (self.balls[ball].state.position - at).unit_or_zero();
                        Some(AskedWay { ball, way, by: None })
                    }
                    _ => None,
                };
                Ok((Stroke { aim_rad, ..*level }, is_ghost.then_some(at), asked))
            }
            AimDraft::Send { by, ball, heading } => {
                let object = self.names.ball(ball, &["stroke", stroke.aim_key, "ball"])?;
                if object == self.ball {
                    return Err(self
                        .names
                        .fault(
                            &["stroke", stroke.aim_key, "ball"],
                            "the ball that is struck can't be sent by itself",
                        )
                        .with_hint("point the cue with `aim_at` or `aim`"));
                }
                let heading = self.names.heading(heading, &path)?;
                let start = self.balls[object].state.position;
                let way =
                    direction(self.world, &known, object, start, &heading).map_err(|error| {
                        lay_fault(self.names, self.draft, self.world, Some(&path), &error)
                    })?;
                if *by == Sending::Overcut && self.draft.target.is_none() {
                    return Err(self
                        .names
                        .fault(&path, "which pocket is the ball to be overcut for?")
                        .with_hint("give the layout a `target`"));
                }
                // Else only the first hit is looked at.
                let pocket = self.names.target.unwrap_or(Pocket::FootRight);
                let (setup, order) =
                    cue_room::setup(self.world, self.balls, (self.ball, object), pocket);
                let (aimed, at) = by.solve(&setup, level, way).map_err(|error| {
                    let named = ThingNames { balls: self.balls, obstacles: self.world.obstacles() };
                    match cue_room::cramped(&error, named, &order) {
                        Some(cramped) => room_fault(self.names, stroke, &cramped),
                        None => {
                            let fault = self.names.fault(&path, error.to_string());
                            aim_hint(&error).into_iter().fold(fault, Fault::with_hint)
                        }
                    }
                })?;
                let asked = AskedWay { ball: object, way, by: Some(*by) };
                Ok((Stroke { elevation_rad: level.elevation_rad, ..aimed }, at, Some(asked)))
            }
        }
    }
}
