//! Other ways to make a bank whose natural line is blocked or kisses.

use super::window::{AimWindow, intervals};
use super::{NoAim, Setup, aim_along};
use crate::stroke::Stroke;
use crate::vector::Vec2;
use crate::verdict::ShotVerdict;

/// A way that makes the bank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Way {
    /// The stroke, in the middle of its aims.
    pub stroke: Stroke,
    /// The aims that make it, rad.
    pub aims: AimWindow,
    /// The outcome of the stroke.
    pub verdict: ShotVerdict,
}

/// Why a combination makes no bank.
#[derive(Debug, Clone, PartialEq)]
pub enum NoWay {
    /// No aim sends the object ball along the line.
    Aim(NoAim),
    /// There is a double kiss at every aim near the line that would make the bank.
    Kisses(Stroke),
    /// No aim near the line makes the bank; the outcome of the line itself.
    Fails(Stroke, ShotVerdict),
}

/// Looks at the aims of one combination.
const LOOKS: usize = 160;

/// Every combination of speed (m/s), tip offset to the side and tip height with which some aim within
/// `reach_rad` of that which sends the object ball along the line makes the bank without a double
/// kiss, and why each other one does not. In the order of the three lists, the last varying fastest.
/// Aims are looked at in 160 steps: a window narrower than a step can be missed.
pub fn ways(
    setup: &Setup<'_>,
    direction: Vec2,
    speeds_m_s: &[f64],
    sides: &[f64],
    heights: &[f64],
    reach_rad: f64,
) -> Vec<Result<Way, NoWay>> {
    let mut found = Vec::with_capacity(speeds_m_s.len() * sides.len() * heights.len());
    for speed_m_s in speeds_m_s {
        for side_offset in sides {
            for height_offset in heights {
                let stroke = Stroke {
                    side_offset: *side_offset,
                    height_offset: *height_offset,
                    ..Stroke::centre(*speed_m_s, 0.0)
                };
                found.push(way(setup, &stroke, direction, reach_rad));
            }
        }
    }
    found
}

#[expect(clippy::result_large_err, reason = "each combination is kept, made or not")]
fn way(setup: &Setup<'_>, stroke: &Stroke, direction: Vec2, reach_rad: f64) -> Result<Way, NoWay> {
    let natural = aim_along(setup, stroke, direction).map_err(NoWay::Aim)?.stroke;
    let at = |aim_rad: f64| Stroke { aim_rad, ..natural };
    let mut kisses = false;
    let made = |aim_rad: f64| -> Result<bool, NoAim> {
        let verdict = match setup.judge(&at(aim_rad)) {
            Err(error) if error.is_no_room() => return Ok(false),
            judged => judged?.1,
        };
        kisses |= verdict.kissed_at_s.is_some();
        Ok(verdict.is_made() && verdict.kissed_at_s.is_none())
    };
    let range = (natural.aim_rad - reach_rad, natural.aim_rad + reach_rad);
    let windows = intervals(made, range, LOOKS, false, 1e-7).map_err(NoWay::Aim)?;
    let widest = windows.into_iter().max_by(|a, b| a.width().total_cmp(&b.width()));
    let judged = |stroke: &Stroke| setup.judge(stroke).map(|it| it.1).map_err(NoWay::Aim);
    let Some(aims) = widest else {
        if kisses {
            return Err(NoWay::Kisses(natural));
        }
        return Err(NoWay::Fails(natural, judged(&natural)?));
    };
    let stroke = setup.raised(&at(0.5 * (aims.from + aims.to))).map_err(NoWay::Aim)?;
    Ok(Way { stroke, aims, verdict: judged(&stroke)? })
}
