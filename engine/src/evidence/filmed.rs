//! One filmed impact: the motion before and after a rail as a film tells it.

use nalgebra::{Cholesky, SMatrix};

/// The amounts of a filmed impact.
pub const FILMED_AMOUNTS: usize = 6;

/// One filmed impact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilmedImpact {
    /// Speed before, m/s; angle before from the rail's normal, rad; speed after, m/s; angle after, rad, positive on the
    /// way along the rail that the ball came; the time between its coming to the groove and its leaving it, s; slowing
    /// before the rail, m/s².
    pub told: [f64; FILMED_AMOUNTS],
    /// The covariance of their errors.
    pub covariance: [[f64; FILMED_AMOUNTS]; FILMED_AMOUNTS],
    /// Whether the last two are known: contact time and slowing.
    pub is_told: [bool; 2],
    /// The motion before the rail.
    pub way: BeforeRail,
    /// The time from the hit to the rail, s.
    pub run_s: f64,
    /// The ball goes to the right along the rail, seen by a person who faces it.
    pub is_to_the_right: bool,
    /// The scatter of the roll with which such balls are sent, as a fraction of natural roll.
    pub roll_scatter: f64,
    /// The scatter of the side with which such balls are sent, as R·wz/v.
    pub side_scatter: f64,
    /// The share of such results that are wrong altogether.
    pub wrong: f64,
}

impl FilmedImpact {
    /// Which of the amounts behind those before the rail a fit takes: speed and angle after, contact time, slowing.
    pub const fn is_taken(&self) -> [bool; 4] {
        let [held, slowing] = self.is_told;
        [true, true, held, slowing]
    }

    /// True for a covariance that errors can have.
    pub fn is_covariance(of: &[[f64; FILMED_AMOUNTS]; FILMED_AMOUNTS]) -> bool {
        let matrix = SMatrix::<f64, FILMED_AMOUNTS, FILMED_AMOUNTS>::from_fn(|row, column| {
            of[row][column] / (of[row][row] * of[column][column]).sqrt()
        });
        Cholesky::new(matrix).is_some()
    }
}

/// The motion of a filmed ball before the rail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BeforeRail {
    /// It was sent without roll: it slid, or began to roll on the way where that was long enough.
    Slides,
    /// It rolled as it came to the rail.
    Rolls,
    /// Neither is known: sent without roll, with some, or rolling; its slowing tells with each member.
    Unknown,
}
