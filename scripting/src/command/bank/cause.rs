//! What of the ball's spin at the rail made it miss, found by taking that spin away.

use railproof_engine::bank::{Bank, Launch, Outcome};
use railproof_engine::rail::Line;

/// Spin below these shares of the speed is not worth naming.
const LEAST_SHARE: f64 = 0.05;
/// A spin is named as the cause when without it at least this share of the miss is gone.
const LEAST_OF_MISS: f64 = 0.3;

/// A spin that made a bank miss.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cause {
    /// Roll at the rail, as a fraction of natural roll; negative is draw.
    Roll(f64),
    /// Side at the rail over the speed, positive running.
    Side(f64),
}

impl Cause {
    /// The spin whose absence changes the miss most, if it changes it enough. The ball is sent off
    /// again from the rail, where it met it, with the velocity it had there and one spin less.
    pub(super) fn of(bank: &Bank, outcome: &Outcome) -> Option<Self> {
        let miss = outcome.miss_m()?;
        let at_rail = outcome.at_rail?;
        let (state, geometry) = (at_rail.state, bank.geometry());
        let radius = bank.equipment().ball.radius_m();
        let roll = state.natural_roll_fraction(radius)?;
        let speed_m_s = state.velocity.norm();
        let sense = if state.velocity.x > 0.0 { 1.0 } else { -1.0 };
        let side = sense * radius * state.spin.z / speed_m_s;
        let back = geometry.span_m / geometry.diamond_m / state.velocity.y;
        let line = Line::new(at_rail.contact, at_rail.contact - state.velocity.x * back);
        let with = |roll: f64, side: f64| {
            let launch = Launch { off_rail_m: 0.0, speed_m_s, roll, side, aim_error_rad: 0.0 };
            bank.play(line, launch).ok().and_then(|outcome| outcome.miss_m())
        };
        let causes =
            [(Self::Roll(roll), roll, with(0.0, side)), (Self::Side(side), side, with(roll, 0.0))];
        causes
            .into_iter()
            .filter(|(_, share, _)| share.abs() >= LEAST_SHARE)
            .filter_map(|(cause, _, without)| Some((cause, (miss - without?) / miss)))
            .filter(|(_, share_of_miss)| *share_of_miss >= LEAST_OF_MISS)
            .max_by(|a, b| a.1.total_cmp(&b.1))
            .map(|(cause, _)| cause)
    }
}
