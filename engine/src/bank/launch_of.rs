//! A ball that was sent off in a whole shot, as the launch of a bank.

use super::{Bank, Launch};
use crate::motion::BallState;
use crate::rail::Line;

impl Bank {
    /// The launch from a ball's state on the table, just after it was sent off towards the rail along a line; `None` for
    /// a ball at rest. Spin about its way is left out.
    pub fn launch_of(&self, line: Line, sent: BallState) -> Option<Launch> {
        let geometry = self.geometry();
        let own = BallState {
            position: geometry.from_table(sent.position),
            velocity: geometry.direction_from_table(sent.velocity),
            spin: geometry.spin_from_table(sent.spin),
        };
        let own = if self.mirrors(line) { own.mirrored() } else { own };
        let (radius_m, speed_m_s) = (self.cloth().radius_m, own.velocity.norm());
        let running = if own.velocity.x > 0.0 { 1.0 } else { -1.0 };
        Some(Launch {
            off_rail_m: (geometry.span_m - own.position.y).max(0.0),
            speed_m_s,
            roll: own.natural_roll_fraction(radius_m)?,
            side: running * own.spin.z * radius_m / speed_m_s,
            aim_error_rad: 0.0,
        })
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
            let geometry = bank.geometry();
            let sent = crate::motion::BallState {
                position: geometry.to_table(outcome.launch.position),
                velocity: geometry.direction_to_table(outcome.launch.velocity),
                spin: geometry.spin_to_table(outcome.launch.spin),
            };
            let read = bank.launch_of(line, sent).unwrap();
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
