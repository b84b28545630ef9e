//! A lone ball's bank against its rule's line under the stated conditions.

use super::way::{AttributionSide, RailMeeting, RailValues, RailWays, attribute, scaled_cloth};
use super::{Attribution, Cause, NotAttributed, REFERENCE_SPEED_M_S};
use crate::bank::{Bank, Outcome};
use crate::equipment::RailModel;
use crate::motion::BallState;
use crate::rail::Line;
use crate::vector::Vec2;

/// The miss of a bank that was played on this table along `line` (groove reading) as a sum over its
/// causes: aim, roll, side, restitution, carry and bend.
///
/// The remainder is the miss of the line itself: of a stun ball frozen to the rail, at
/// [`REFERENCE_SPEED_M_S`].
///
/// # Errors
/// [`NotAttributed`] for a ball that never comes to the mouth line, by itself or with some causes at
/// their references, and for the compliant model.
pub fn of_bank(bank: &Bank, line: Line, outcome: &Outcome) -> Result<Attribution, NotAttributed> {
    if bank.model() == RailModel::Compliant {
        return Err(NotAttributed::Compliant);
    }
    let (Some(miss_m), Some(at_rail), Some(rebound)) =
        (outcome.miss_m(), outcome.at_rail, outcome.rebound)
    else {
        return Err(NotAttributed::NoMiss);
    };
    // A bank from the side pocket's other side is played as its mirror image.
    let mirrored = bank.mirrors(line);
    let own = |state: BallState| if mirrored { state.mirrored() } else { state };
    let line = if mirrored { Line::new(-line.contact, -line.start) } else { line };
    let (launch, state) = (own(outcome.launch), own(at_rail.state));
    let ruled = ruled(bank, line);
    let aimed = turn_between(ruled.way, launch.velocity);
    let sense = if ruled.way.x > 0.0 { -1.0 } else { 1.0 };
    let meeting = RailMeeting { along_m: state.position.x, way: state.velocity.unit_or_zero() };
    // Sent along the line itself it meets the rail where it does but for rounding.
    let differs = aimed.abs() > 1e-12;
    let ways = RailWays {
        turns: vec![(Cause::Aim, differs, [if differs { sense * aimed } else { 0.0 }, 0.0])],
        meeting: &|acting| Some(if acting.is_empty() { ruled } else { meeting }),
        tables: false,
    };
    let actual = AttributionSide {
        table: bank,
        values: RailValues::at_rail(bank, &state, rebound.restitution),
    };
    let reference = AttributionSide { table: bank, values: stated(bank, ruled) };
    attribute(miss_m, None, (&actual, &reference), state.velocity.norm(), &ways)
        .map(|(found, _)| found)
}

/// The line itself at the rail.
pub(super) fn ruled(bank: &Bank, line: Line) -> RailMeeting {
    let geometry = bank.geometry();
    let run = (line.start - line.contact) * geometry.diamond_m;
    RailMeeting {
        along_m: line.contact * geometry.diamond_m,
        way: Vec2::new(-run, geometry.span_m).unit_or_zero(),
    }
}

/// The values of a stun ball on that way at the rail, at the reference speed.
pub(super) fn stated(bank: &Bank, ruled: RailMeeting) -> RailValues {
    let normal_m_s = REFERENCE_SPEED_M_S * ruled.way.y;
    RailValues {
        roll: Vec2::ZERO,
        side: 0.0,
        restitution: bank.contact().restitution_at(normal_m_s),
        held_m: bank.equipment().cushion.contact_time_s * REFERENCE_SPEED_M_S,
        cloth: scaled_cloth(bank, REFERENCE_SPEED_M_S),
    }
}

/// The angle from one direction to another, against the clock, rad.
pub(super) fn turn_between(from: Vec2, to: Vec2) -> f64 {
    libm::atan2(from.cross(to), from.dot(to))
}
