//! Why balls and obstacles can't lie where they are said to, in the file's own words.

use super::draft::{BallDraft, Draft};
use super::names::Names;
use crate::fault::Fault;
use railproof_engine::lay::LayError;
use railproof_engine::shot::ShotError;
use railproof_engine::units::{INCH_M, short_number};
use railproof_engine::world::{Owner, World, WorldError};

/// Why there is no such table. Profiles are known to make one without obstacles.
pub(crate) fn world_fault(names: &Names<'_>, error: &WorldError) -> Fault {
    let message = error.to_string();
    match error {
        WorldError::Obstacle { name, .. }
        | WorldError::OverPocket { name, .. }
        | WorldError::ObstacleValue { name, .. } => names.fault(&["obstacles", name], message),
        WorldError::TooManyObstacles { .. } => names.fault(&["obstacles"], message),
        _ => names.fault(&["equipment"], format!("there is no such table: {message}")),
    }
}

/// The contact numbers at which a ball touches a rail, in words.
pub(crate) fn touches_from_to(least: f64, most: f64) -> String {
    format!(
        "a ball touches that rail from {} to {}",
        short_number((100.0 * least).ceil() / 100.0, 2),
        short_number((100.0 * most).floor() / 100.0, 2)
    )
}

/// Why a ball can't be laid. `path` is where the place is said, unless a ball's own is at issue.
pub(crate) fn lay_fault(
    names: &Names<'_>,
    draft: &Draft,
    world: &World,
    path: Option<&[&str]>,
    error: &LayError,
) -> Fault {
    let ball = |index: usize| &draft.balls[index];
    let at = |index: usize, message: String| match path {
        Some(path) => names.fault(path, message),
        None => names.fault(&["balls", &ball(index).name, ball(index).spot_key], message),
    };
    match error {
        LayError::NoSuchBall { ball, .. } => at(*ball, error.to_string()),
        LayError::Circular { ball: first, through } => {
            let chain: Vec<&str> =
                through.iter().chain([first]).map(|index| ball(*index).name.as_str()).collect();
            at(
                *first,
                format!(
                    "where `{}` lies depends on itself: {}",
                    ball(*first).name,
                    chain.join(" → ")
                ),
            )
            .with_hint("give one of them a place of its own")
        }
        LayError::NoDirection { ball: index } => {
            at(*index, "this is not a direction: it leads from a place to the same place".to_owned())
        }
        LayError::NotFinite { ball } => {
            at(*ball, "this is not a place: its numbers are too large".to_owned())
        }
        LayError::Geometry { ball, error } => at(*ball, format!("the line makes no bank: {error}")),
        LayError::NotOnRail { ball, rail, contact, contacts: (least, most) } => at(
            *ball,
            format!("contact {} is not on the {} rail", short_number(*contact, 3), rail.name()),
        )
        .with_hint(touches_from_to(*least, *most)),
        LayError::NoCushion { ball, rail, number } => at(
            *ball,
            format!("at {number} the {} rail has no cushion to be frozen to", rail.name()),
        )
        .with_hint(
            "a pocket opens there, or the rail has ended; an `off_rail` takes the ball away from the rail",
        ),
        LayError::Start(error) => start_fault(names, &draft.balls, world, error, at),
    }
}

fn start_fault(
    names: &Names<'_>,
    balls: &[BallDraft],
    world: &World,
    error: &ShotError,
    at: impl Fn(usize, String) -> Fault,
) -> Fault {
    let name = |index: usize| balls[index].name.as_str();
    match error {
        ShotError::Inside { ball, owner: Owner::Nose(rail), past_m } => {
            let equipment = world.equipment();
            let (axis, half) = if rail.is_end() {
                ("x", 0.5 * equipment.table.length_m)
            } else {
                ("y", 0.5 * equipment.table.width_m)
            };
            let limit = world.grown().groove_offset_m(*rail);
            let sign = if rail.outward().x + rail.outward().y > 0.0 { 1.0 } else { -1.0 };
            let in_inches = names.source.has_inches();
            let told = |m: f64| {
                if in_inches { format!("{:.3} in", m / INCH_M) } else { format!("{m:.6} m") }
            };
            let usual = balls[*ball].diameter_m.is_none_or(|it| it == equipment.ball.diameter_m);
            let fault = at(
                *ball,
                format!(
                    "the ball `{}` is off the table: {axis} is {}",
                    name(*ball),
                    told(sign * (limit + past_m))
                ),
            );
            if usual {
                fault.with_hint(format!(
                    "on this table the centre has {axis} from {} to {}; the origin is the table's centre",
                    told(-limit),
                    told(limit)
                ))
            } else {
                fault.with_hint(format!(
                    "the {} rail's nose is at {}, and a ball's centre stays its groove's distance from it",
                    rail.name(),
                    told(sign * half)
                ))
            }
        }
        ShotError::Inside { ball, owner: Owner::Jaw { pocket, .. }, past_m } => at(
            *ball,
            format!(
                "the ball `{}` is {:.3} mm inside a jaw of the {} pocket",
                name(*ball),
                1e3 * past_m,
                pocket.name()
            ),
        ),
        ShotError::Inside { ball, owner: Owner::Obstacle(index), past_m } => at(
            *ball,
            format!(
                "the ball `{}` is {:.3} mm inside the obstacle `{}`",
                name(*ball),
                1e3 * past_m,
                world.obstacles().get(*index).map_or("", |it| it.name.as_str())
            ),
        ),
        ShotError::InPocket { ball, pocket, past_m } => at(
            *ball,
            format!(
                "the ball `{}` is {:.3} mm past the edge of the {} pocket",
                name(*ball),
                1e3 * past_m,
                pocket.name()
            ),
        )
        .with_hint("a ball that lies there has dropped"),
        ShotError::Overlap { one, other, deep_m } => at(
            *other,
            format!(
                "the balls `{}` and `{}` are inside one another by {:.3} mm",
                name(*one),
                name(*other),
                1e3 * deep_m
            ),
        ),
        ShotError::Ball { ball, error } => names.fault(
            &["balls", name(*ball), "diameter"],
            format!("the ball `{}` does not fit this table: {error}", name(*ball)),
        ),
        other => names.fault(&["balls"], other.to_string()),
    }
}
