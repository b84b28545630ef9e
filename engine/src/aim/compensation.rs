//! Two ways to make throw and transferred side harmless: side that gears, and overcutting.

use super::hit::first_hit;
use super::line::{HitDirection, solve};
use super::window::{AimWindow, aims_that_make};
use super::{Aim, NoAim, OBJECT, Setup};
use crate::root::bracketed_root;
use crate::stroke::Stroke;
use crate::vector::Vec2;
use crate::verdict::{PocketArrival, ShotVerdict, arrival};

/// A stroke that brings the object ball through the middle of the mouth, and its compensation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compensation {
    /// The stroke.
    pub stroke: Stroke,
    /// The angle from the aim that puts the line of centres on the wanted line to this aim, rad;
    /// positive towards a thinner hit.
    pub overcut_rad: f64,
    /// The same at the object ball, m: the distance by which the cue ball's way passes it further out.
    pub overcut_at_ball_m: f64,
    /// The outcome of the whole shot.
    pub verdict: ShotVerdict,
}

/// The tip offset to the side with which the surfaces do not slip over each other in the table's
/// plane, so that the object ball is neither thrown nor given side: it leaves along the line of
/// centres. The offset is looked for up to the cue's limit; height and speed are as given.
///
/// # Errors
/// [`NoAim::TooMuchSide`] when the limit does not do, and as [`super::aim_along`].
pub fn gear(setup: &Setup<'_>, stroke: &Stroke, direction: Vec2) -> Result<Aim, NoAim> {
    let limit = setup.world.equipment().cue.miscue_offset;
    let height = stroke.height_offset;
    let most = (limit * limit - height * height).max(0.0).sqrt();
    let aimed = |side_offset: f64| {
        solve(setup, &Stroke { side_offset, ..*stroke }, direction, HitDirection::Centres)
    };
    let slip =
        |side_offset: f64| -> Result<f64, NoAim> { Ok(aimed(side_offset)?.hit.slip_across_m_s) };
    let here = slip(0.0)?;
    if here == 0.0 {
        return aimed(0.0);
    }
    for end in [most, -most] {
        let there = slip(end)?;
        if (there > 0.0) != (here > 0.0) {
            let (low, high) =
                if end > 0.0 { ((0.0, here), (end, there)) } else { ((end, there), (0.0, here)) };
            let (side_offset, _) = bracketed_root(slip, low, high)?;
            return aimed(side_offset);
        }
    }
    // How much it would take if the slip went on falling as it does.
    let nearer = if slip(most)?.abs() < slip(-most)?.abs() { most } else { -most };
    let per_offset = (slip(nearer)? - here) / nearer;
    Err(NoAim::TooMuchSide { needed: (here / per_offset).abs(), limit: most })
}

/// The aim, side and height as given, that brings the object ball through the middle of the mouth:
/// throw, the side it takes over and everything else on the way made up for by the cut alone.
/// `direction` is the line wanted by geometry, against which the overcut is counted: along a bank, or
/// straight to the pocket.
///
/// # Errors
/// [`NoAim`] when no aim near that line does it.
pub fn overcut(setup: &Setup<'_>, stroke: &Stroke, direction: Vec2) -> Result<Compensation, NoAim> {
    let geometric = solve(setup, stroke, direction, HitDirection::Centres)?;
    let arrives = |aim_rad: f64| -> Result<Option<PocketArrival>, NoAim> {
        let shot = setup.play(&Stroke { aim_rad, ..*stroke })?;
        Ok(arrival(setup.world, &shot, OBJECT, setup.pocket))
    };
    // The line itself says whether the ball is to come off a rail or straight from the hit.
    let banks = arrives(geometric.stroke.aim_rad)?.is_some_and(|it| it.last_rail.is_some());
    let miss = |aim_rad: f64| -> Result<f64, NoAim> {
        arrives(aim_rad)?
            .filter(|arrival| arrival.last_rail.is_some() == banks)
            .map(|arrival| arrival.miss_m)
            .ok_or(NoAim::NoArrival { why: "it never comes to the pocket that way" })
    };
    let aim_rad = through_middle(miss, geometric.stroke.aim_rad)?;
    let stroke = setup.raised(&Stroke { aim_rad, ..*stroke })?;
    let (_, verdict) = setup.judge(&stroke)?;
    let turn = aim_rad - geometric.stroke.aim_rad;
    let thinner = if geometric.hit.cut_rad() > 0.0 { -1.0 } else { 1.0 };
    let apart = (setup.object.state.position - setup.cue.state.position).norm();
    let overcut_rad = thinner * turn;
    Ok(Compensation { stroke, overcut_rad, overcut_at_ball_m: overcut_rad * apart, verdict })
}

/// The aim near `from` at which the miss is zero.
fn through_middle(
    mut miss: impl FnMut(f64) -> Result<f64, NoAim>,
    from: f64,
) -> Result<f64, NoAim> {
    const FIRST_STEP: f64 = 5e-4;
    const WIDEST: f64 = 0.15;
    let here = (from, miss(from)?);
    if here.1 == 0.0 {
        return Ok(from);
    }
    let mut ends = [Some(here), Some(here)];
    let mut step = FIRST_STEP;
    while step < WIDEST {
        for (end, side) in ends.iter_mut().zip([1.0, -1.0]) {
            let Some(last) = *end else { continue };
            let aim = from + side * step;
            let Ok(value) = miss(aim) else {
                *end = None;
                continue;
            };
            let next = (aim, value);
            if (value > 0.0) != (last.1 > 0.0) {
                let (low, high) = if last.0 < aim { (last, next) } else { (next, last) };
                let (aim, left) = bracketed_root(&mut miss, low, high)?;
                if left.abs() > 1e-6 {
                    return Err(NoAim::Jump { what: "what the ball meets on its way" });
                }
                return Ok(aim);
            }
            *end = Some(next);
        }
        step *= 1.5;
    }
    Err(NoAim::NoArrival { why: "no aim within 150 mrad brings it through the middle" })
}

/// A stroke, the aims around it that also make the bank, and the answer of the miss to small changes.
#[derive(Debug, Clone, PartialEq)]
pub struct StrokeStudy {
    /// The stroke.
    pub stroke: Stroke,
    /// Its outcome.
    pub verdict: ShotVerdict,
    /// The aims around it that make the bank, rad; `None` when it does not itself.
    pub aims: Option<AimWindow>,
    /// The change of the miss with the aim, m per rad; `None` where the way changes abruptly.
    pub miss_per_aim_m_rad: Option<f64>,
    /// The change of the miss with the speed, m per m/s.
    pub miss_per_speed_s: Option<f64>,
    /// The change of the miss with the tip's offset to the side, m per ball radius.
    pub miss_per_side_m: Option<f64>,
}

/// Overcutting beside gearing.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// Without side, overcut.
    pub overcut: Result<StrokeStudy, NoAim>,
    /// With the side that gears, the line of centres on the line.
    pub gearing: Result<StrokeStudy, NoAim>,
}

/// Compares overcutting without side with gearing along the same line, by margin and sensitivity.
pub fn compare(setup: &Setup<'_>, stroke: &Stroke, direction: Vec2) -> Comparison {
    let plain = Stroke { side_offset: 0.0, ..*stroke };
    let played = |stroke: Stroke| -> Result<StrokeStudy, NoAim> {
        let (_, verdict) = setup.judge(&stroke)?;
        let aims = if verdict.is_made() { aims_that_make(setup, &stroke, 0.05).ok() } else { None };
        let around = aims.and_then(|found| {
            found.into_iter().find(|it| it.from <= stroke.aim_rad && stroke.aim_rad <= it.to)
        });
        Ok(StrokeStudy {
            stroke,
            verdict,
            aims: around,
            miss_per_aim_m_rad: slope(setup, &stroke, 1e-6, |it, by| it.aim_rad += by),
            miss_per_speed_s: slope(setup, &stroke, 1e-5, |it, by| it.speed_m_s += by),
            miss_per_side_m: slope(setup, &stroke, 1e-6, |it, by| it.side_offset += by),
        })
    };
    Comparison {
        overcut: overcut(setup, &plain, direction).and_then(|it| played(it.stroke)),
        gearing: gear(setup, stroke, direction).and_then(|it| played(it.stroke)),
    }
}

/// Central difference of the miss.
fn slope(
    setup: &Setup<'_>,
    stroke: &Stroke,
    by: f64,
    change: impl Fn(&mut Stroke, f64),
) -> Option<f64> {
    let miss = |by: f64| {
        let mut changed = Stroke { allow_miscue: true, ..*stroke };
        change(&mut changed, by);
        first_hit(setup, &changed).ok()??;
        let shot = setup.play(&changed).ok()?;
        arrival(setup.world, &shot, OBJECT, setup.pocket).map(|it| it.miss_m)
    };
    Some((miss(by)? - miss(-by)?) / (2.0 * by))
}
