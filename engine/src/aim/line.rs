//! The aim that sends the object ball along a line.

use super::hit::{FirstHit, angle, cloth_of, first_hit};
use super::{NoAim, Setup};
use crate::motion::Path;
use crate::root::bracketed_root;
use crate::stroke::Stroke;
use crate::vector::Vec2;
use core::f64::consts::FRAC_PI_2;

/// A solved aim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// The stroke with its aim.
    pub stroke: Stroke,
    /// The hit that follows.
    pub hit: FirstHit,
    /// The aim from the cue ball's centre at the place where its centre must be to touch the object
    /// ball on the line's far side, rad: the aim by geometry alone.
    pub geometric_aim_rad: f64,
    /// Angle from the object ball's line to its way, rad: the rest, at most rounding.
    pub off_rad: f64,
}

impl Aim {
    /// The angle from the geometric aim to this one, against the clock, rad.
    pub fn correction_rad(&self) -> f64 {
        let turn = self.stroke.aim_rad - self.geometric_aim_rad;
        libm::atan2(libm::sin(turn), libm::cos(turn))
    }
}

/// Which of the hit's directions is to lie along the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum HitDirection {
    /// The object ball's way.
    Way,
    /// The line of centres.
    Centres,
}

/// Angles off the line below this are rounding, rad.
const SETTLED_RAD: f64 = 1e-9;
/// The aims that hit the object ball are looked at in so many steps either side of the geometric one.
const STEPS: i32 = 40;

/// The aim that sends the object ball off along `direction` (unit, table frame), with throw, squirt and
/// swerve in it; the rest of the stroke is as given. What lies in the way is not looked at.
///
/// # Errors
/// [`NoAim`] when the line would need a cut past 90°, the cue ball stops short, or no aim that hits
/// the object ball does it.
pub fn aim_along(setup: &Setup<'_>, stroke: &Stroke, direction: Vec2) -> Result<Aim, NoAim> {
    solve(setup, stroke, direction, HitDirection::Way)
}

/// The aim that sends the object ball off along a line near that of a solved one: by the secant rule from there, and
/// as [`aim_along`] where that does not settle. The cue keeps its elevation.
///
/// # Errors
/// As [`aim_along`].
pub fn aim_again(setup: &Setup<'_>, solved: &Aim, direction: Vec2) -> Result<Aim, NoAim> {
    const STEPS: usize = 10;
    // A ball met full from a distance d turns 1 − d/2R times as far as the aim, at a cut more.
    let apart_m = (setup.object.state.position - setup.cue.state.position).norm();
    let turns = 1.0 - apart_m / (setup.contact_m() * libm::cos(solved.hit.cut_rad()));
    let mut last = (solved.stroke.aim_rad, angle(direction, solved.hit.object_after.velocity));
    let mut aim_rad = last.0 - last.1 / turns;
    for _ in 0..STEPS {
        let stroke = Stroke { aim_rad, ..solved.stroke };
        let Some(hit) = first_hit(setup, &stroke)? else { break };
        let here = angle(direction, hit.object_after.velocity);
        if here.abs() <= SETTLED_RAD {
            let (geometric_aim_rad, _) = setup.ghost(direction);
            return Ok(Aim { stroke, hit, geometric_aim_rad, off_rad: here });
        }
        let slope = (here - last.1) / (aim_rad - last.0);
        last = (aim_rad, here);
        aim_rad -= here / slope;
        if !aim_rad.is_finite() {
            break;
        }
    }
    aim_along(setup, &solved.stroke, direction)
}

pub(super) fn solve(
    setup: &Setup<'_>,
    stroke: &Stroke,
    direction: Vec2,
    along: HitDirection,
) -> Result<Aim, NoAim> {
    let (geometric, distance_m) = setup.ghost(direction);
    let apart = setup.object.state.position - setup.cue.state.position;
    let cut_rad = angle(
        if distance_m > 1e-9 {
            Vec2::new(libm::cos(geometric), libm::sin(geometric))
        } else {
            direction
        },
        direction,
    );
    if cut_rad.abs() >= FRAC_PI_2 {
        return Err(NoAim::BehindTheBall { cut_rad });
    }
    let off = |aim_rad: f64| -> Result<Option<(f64, FirstHit)>, NoAim> {
        let hit = first_hit(setup, &Stroke { aim_rad, ..*stroke })?;
        Ok(hit.map(|hit| {
            let way = match along {
                HitDirection::Way => hit.object_after.velocity,
                HitDirection::Centres => hit.normal,
            };
            (angle(direction, way), hit)
        }))
    };
    let squirt = stroke.strike(&setup.cue.ball, &setup.world.equipment().cue)?.squirt_rad;
    let middle = geometric - squirt;
    // Half the window of aims that hit the ball at all, and a little more for swerve.
    let reach = libm::asin((setup.contact_m() / apart.norm()).min(1.0)) * 1.2;
    let step = reach / f64::from(STEPS);
    let mut looked: Vec<(f64, f64)> = Vec::new();
    let mut found: Option<((f64, f64), (f64, f64))> = None;
    // From the middle outwards, so that the nearest aim is found.
    'search: for ring in 0..=2 * STEPS {
        for side in [1.0, -1.0] {
            let aim = middle + side * step * f64::from(ring);
            if let Some((angle_off, _)) = off(aim)?
                && angle_off.abs() < FRAC_PI_2
            {
                let here = (aim, angle_off);
                // A hit that only just grazes has no neighbour on its other side.
                if angle_off.abs() <= SETTLED_RAD {
                    found = Some((here, here));
                    break 'search;
                }
                let neighbour = looked.iter().find(|(other, value)| {
                    (other - aim).abs() < 1.5 * step && (*value > 0.0) != (angle_off > 0.0)
                });
                if let Some(there) = neighbour {
                    found = Some(if there.0 < here.0 { (*there, here) } else { (here, *there) });
                    break 'search;
                }
                looked.push(here);
            }
            if ring == 0 {
                break;
            }
        }
    }
    let Some((low, high)) = found else {
        return Err(unreached(setup, stroke, &looked));
    };
    let (aim_rad, off_rad) = if low.1.abs() <= SETTLED_RAD {
        low
    } else {
        bracketed_root(
            |aim: f64| -> Result<f64, NoAim> { Ok(off(aim)?.map_or(f64::NAN, |(value, _)| value)) },
            low,
            high,
        )?
    };
    let Some((_, hit)) = off(aim_rad)? else {
        return Err(unreached(setup, stroke, &looked));
    };
    if off_rad.abs() > SETTLED_RAD || off_rad.is_nan() {
        return Err(NoAim::OutOfReach { off_mrad: off_rad.abs() * 1e3 });
    }
    let stroke = setup.raised(&Stroke { aim_rad, ..*stroke })?;
    Ok(Aim { stroke, hit, geometric_aim_rad: geometric, off_rad })
}

fn unreached(setup: &Setup<'_>, stroke: &Stroke, looked: &[(f64, f64)]) -> NoAim {
    let nearest = looked.iter().map(|(_, off)| off.abs()).fold(f64::INFINITY, f64::min);
    if nearest.is_finite() {
        return NoAim::OutOfReach { off_mrad: nearest * 1e3 };
    }
    match setup.cue_after(stroke) {
        Ok(start) => {
            let path = Path::new(start, cloth_of(setup));
            let end = path.position_at(path.centre_rests_from_s());
            let reach_m = (end - start.position).norm();
            NoAim::TooSoft { reach_m }
        }
        Err(error) => error,
    }
}
