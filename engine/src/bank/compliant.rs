//! A bank by the compliant model: stepped on the rigid-body solver instead of solved.

use super::arrival::{after_rebound, met, on_mouth_line, target_opening_at};
use super::departure::CushionStretch;
use super::{AtRail, Bank, BankEnding, Outcome, RailRebound};
use crate::motion::{BallState, Path};
use crate::rail::Side;
use crate::stepped::bank::{CompliantBank, CompliantEnd, CompliantSettings, StopLine, step_bank};
use crate::vector::Vec2;

/// Steps the ball to the rail, off it and to the first groove or the mouth line. The last bit, from
/// an opening's groove line to the mouth, and the extension past a rail that is met first, are
/// solved in closed form.
pub(super) fn play(bank: &Bank, ball: BallState) -> Outcome {
    let geometry = bank.geometry();
    let sides = [
        (Side::Banked, Vec2::new(0.0, 1.0), geometry.span_m, false),
        (Side::Opposite, Vec2::new(0.0, -1.0), 0.0, false),
        (Side::Low, Vec2::new(-1.0, 0.0), -geometry.low_groove_m, true),
        (Side::High, Vec2::new(1.0, 0.0), geometry.high_groove_m, true),
    ];
    let mut lines: Vec<StopLine> = sides
        .iter()
        .map(|&(_, normal, offset_m, before_departure)| StopLine {
            normal,
            offset_m,
            before_departure,
        })
        .collect();
    let normal = geometry.mouth.outward;
    let offset_m = normal.dot(geometry.mouth.midpoint);
    lines.push(StopLine { normal, offset_m, before_departure: false });
    let CompliantBank { impact, end, .. } =
        step_bank(bank.equipment(), ball, geometry.span_m, &lines, &CompliantSettings::default());
    let mut outcome = Outcome::before_rail(ball, geometry.mouth.midpoint, BankEnding::NoRoom);
    let Some(impact) = impact else {
        outcome.ending = match end {
            CompliantEnd::Crossed { line, state, .. } if line < sides.len() => {
                met(geometry, sides[line].0, state.position)
            }
            _ => BankEnding::StoppedBeforeRail(ball.position),
        };
        return outcome;
    };
    let cushion = match CushionStretch::around(geometry, impact.arrival.position) {
        Ok(cushion) => cushion,
        Err(ending) => {
            outcome.ending = ending;
            return outcome;
        }
    };
    outcome.at_rail = Some(AtRail {
        time_s: impact.contact_began_s,
        state: impact.arrival,
        contact: impact.arrival.position.x / geometry.diamond_m,
    });
    let left = impact.departure.position.x;
    if let Some(ending) = cushion.runs_past(geometry, left) {
        outcome.ending = ending;
        return outcome;
    }
    let off = Path::new(impact.departure, bank.cloth());
    outcome.rebound = Some(RailRebound {
        state: impact.departure,
        held_s: impact.contact_time_s,
        departure: left / geometry.diamond_m,
        restitution: impact.restitution,
        outside_checked_speed: impact.arrival.velocity.y
            > bank.equipment().cushion.checked_speed_m_s,
        hop: false,
        rolls_after_s: off.rolls_from_s(),
        rolling_velocity: off.roll().velocity,
    });
    match end {
        CompliantEnd::Crossed { line, time_s, state } => {
            let path = Path::new(state, bank.cloth());
            let (ending, arrival) = match sides.get(line) {
                None => {
                    let (ending, arrival) = on_mouth_line(geometry, &path);
                    (ending, Some(arrival))
                }
                Some((side, ..)) if target_opening_at(geometry, *side, state.position) => {
                    after_rebound(geometry, &path)
                }
                Some((side, ..)) => {
                    let (_, arrival) = after_rebound(geometry, &path);
                    (met(geometry, *side, state.position), arrival)
                }
            };
            outcome.ending = ending;
            outcome.arrival = arrival.map(|mut arrival| {
                arrival.time_s += time_s - impact.contact_began_s;
                arrival
            });
        }
        // A ball so slow that its steps were given up goes on in closed form.
        CompliantEnd::TimeLimit { time_s, state } => {
            let (ending, arrival) = after_rebound(geometry, &Path::new(state, bank.cloth()));
            outcome.ending = ending;
            outcome.arrival = arrival.map(|mut arrival| {
                arrival.time_s += time_s - impact.contact_began_s;
                arrival
            });
        }
        CompliantEnd::Rested { state, .. } | CompliantEnd::Held { state, .. } => {
            outcome.ending = BankEnding::StoppedBeforeMouth(state.position);
        }
        CompliantEnd::NotFinite | CompliantEnd::ShortContact { .. } => {
            outcome.ending = BankEnding::StoppedBeforeMouth(impact.departure.position);
        }
    }
    outcome
}
