//! A ball that was sent off in a whole shot, as the launch of a bank.

use super::{Bank, Launch};
use crate::motion::BallState;
use crate::rail::Line;

impl Launch {
    /// Of a ball, in the bank frame in which it is played, just after it was sent off along a line; `None` for a ball at
    /// rest. Spin about its way is left out.
    pub(crate) fn of_sent(
        line: Line,
        sent: &BallState,
        span_m: f64,
        radius_m: f64,
    ) -> Option<Self> {
        let speed_m_s = sent.velocity.norm();
        // Running side turns a ball that comes from higher numbers with the clock.
        let runs = if line.start < line.contact { 1.0 } else { -1.0 };
        Some(Self {
            off_rail_m: (span_m - sent.position.y).max(0.0),
            speed_m_s,
            roll: sent.natural_roll_fraction(radius_m)?,
            side: runs * sent.spin.z * radius_m / speed_m_s,
            aim_error_rad: 0.0,
        })
    }
}

impl Bank {
    /// The launch from a ball's state on the table, just after it was sent off towards the rail along a line; `None` for
    /// a ball at rest. Spin about its way is left out.
    pub fn launch_of(&self, line: Line, sent: &BallState) -> Option<Launch> {
        let own = self.geometry().state_from_table(sent);
        let (line, own) = if self.mirrors(line) {
            (Line::new(-line.contact, -line.start), own.mirrored())
        } else {
            (line, own)
        };
        Launch::of_sent(line, &own, self.geometry().span_m, self.cloth().radius_m)
    }
}

#[cfg(test)]
mod tests {
    use crate::bank::{Bank, Launch};
    use crate::equipment::RailModel;
    use crate::rail::testing::nine_foot;
    use crate::rail::{Line, Pocket, Rail};

    #[test]
    fn a_launch_is_read_back_from_the_state_that_it_gives() {
        let launch =
            Launch { off_rail_m: 0.25, speed_m_s: 3.0, roll: 0.4, side: -0.3, aim_error_rad: 0.0 };
        let banks = [
            (Rail::Left, Pocket::FootRight, Line::new(2.0, 4.4)),
            (Rail::Right, Pocket::HeadLeft, Line::new(1.5, 3.3)),
            (Rail::Left, Pocket::SideRight, Line::new(-1.0, -2.2)),
        ];
        for (rail, pocket, line) in banks {
            let bank = Bank::new(&nine_foot(), rail, pocket, RailModel::NoseAndCloth).unwrap();
            let outcome = bank.play(line, launch).unwrap();
            let sent = bank.geometry().state_to_table(&outcome.launch);
            let read = bank.launch_of(line, &sent).unwrap();
            let pairs = [
                (read.off_rail_m, launch.off_rail_m),
                (read.speed_m_s, launch.speed_m_s),
                (read.roll, launch.roll),
                (read.side, launch.side),
            ];
            for (got, wanted) in pairs {
                assert!((got - wanted).abs() < 1e-12, "{rail:?} {pocket:?}: {got} {wanted}");
            }
        }
    }
}
