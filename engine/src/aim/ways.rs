//! Other ways to make a bank whose natural line is blocked or kisses.

use super::{NoAim, Setup, overcut};
use crate::stroke::Stroke;
use crate::vector::Vec2;
use crate::verdict::Verdict;

/// A way that makes the bank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Way {
    /// The stroke.
    pub stroke: Stroke,
    /// What it comes to.
    pub verdict: Verdict,
}

/// Why a combination makes no bank.
#[derive(Debug, Clone, PartialEq)]
pub enum NoWay {
    /// No aim brings the object ball through the middle.
    Aim(NoAim),
    /// The balls meet again on the way.
    Kisses(Stroke),
    /// It goes through the middle of the mouth line, but something comes of it that is no bank made.
    Fails(Stroke, Verdict),
}

/// Every combination of speed (m/s), tip offset to the side and tip height with which some aim near
/// the line brings the object ball through the middle of the mouth and into the pocket without a
/// double kiss; and why each other one does not. In the order of the three lists, the last varying
/// fastest.
pub fn ways(
    setup: &Setup<'_>,
    direction: Vec2,
    speeds_m_s: &[f64],
    sides: &[f64],
    heights: &[f64],
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
                found.push(way(setup, &stroke, direction));
            }
        }
    }
    found
}

fn way(setup: &Setup<'_>, stroke: &Stroke, direction: Vec2) -> Result<Way, NoWay> {
    let aimed = overcut(setup, stroke, direction).map_err(NoWay::Aim)?;
    let (stroke, verdict) = (aimed.stroke, aimed.verdict);
    if verdict.kissed_s.is_some() {
        return Err(NoWay::Kisses(stroke));
    }
    if !verdict.is_made() {
        return Err(NoWay::Fails(stroke, verdict));
    }
    Ok(Way { stroke, verdict })
}
