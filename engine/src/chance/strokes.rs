//! Strokes drawn about one that is meant, for shots with a cue ball.

use super::drawn::{Draw, over_replicates, quantile};
use super::nodes::LEAST_RATIO;
use super::{Chance, Skill};
use crate::sample::{Sample, Sampling};
use crate::stroke::Stroke;

/// How far a person's strokes fall from one that is meant: standard deviations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrokeSpread {
    /// Of the way the cue points, rad.
    pub turn_rad: f64,
    /// Of the speed, as a share of it.
    pub speed: f64,
    /// Of the tip's place to the right or left, as a share of the ball's radius.
    pub tip: f64,
}

/// Side per tip: a ball struck b radii beside its centre turns with R·wz/v = (5/2)·b, squirt aside.
const SIDE_PER_TIP: f64 = 2.5;

/// Turn, speed, tip and all that is read.
const CAUSES: usize = 4;

/// One stroke's errors, in standard deviations.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct StrokeErrors {
    /// Of the way the cue points.
    pub turn: f64,
    /// Of the speed.
    pub speed: f64,
    /// Of the tip's place.
    pub tip: f64,
    /// Of the line that is judged.
    pub read: f64,
}

impl StrokeErrors {
    /// One replicate's, each a function of its place alone.
    pub fn drawn(draw: Draw, replicate: usize) -> impl Iterator<Item = Self> {
        let seed = draw.seed.wrapping_add(1 + replicate as u64);
        let sample = Sample { how: Sampling::Sobol, points: draw.shots, seed, dimensions: CAUSES };
        (0..draw.shots).map(move |shot| {
            let mut point = [0.0; CAUSES];
            sample.point(shot, &mut point);
            let [turn, speed, tip, read] = point.map(quantile);
            Self { turn, speed, tip, read }
        })
    }
}

impl StrokeSpread {
    /// Of a person whose cue ball, of this radius, meets the next one `away_m` from where it lies; `None` where it
    /// meets none.
    ///
    /// The person sends the next ball with the errors of [`Skill::with_cue_ball`]: met full from a distance d, a
    /// ball of the same size is turned d/2R times as far as the cue.
    pub fn of(skill: &Skill, radius_m: f64, away_m: Option<f64>) -> Self {
        let turn_rad = match away_m {
            Some(away_m) => {
                let turns = (2.0 * radius_m / away_m).min(1.0);
                skill.with_cue_ball(away_m).aim_rad * turns
            }
            None => skill.aim_rad,
        };
        Self { turn_rad, speed: skill.speed, tip: skill.side / SIDE_PER_TIP }
    }

    /// One replicate's strokes, each a function of its place alone.
    pub fn strokes(
        self,
        meant: &Stroke,
        draw: Draw,
        replicate: usize,
    ) -> impl Iterator<Item = Stroke> {
        let meant = *meant;
        StrokeErrors::drawn(draw, replicate).map(move |errors| self.stroke(&meant, errors))
    }

    /// The stroke that is meant, with errors.
    pub fn stroke(self, meant: &Stroke, errors: StrokeErrors) -> Stroke {
        Stroke {
            aim_rad: meant.aim_rad + self.turn_rad * errors.turn,
            speed_m_s: meant.speed_m_s * (1.0 + self.speed * errors.speed).max(LEAST_RATIO),
            side_offset: meant.side_offset + self.tip * errors.tip,
            // The tip that slips is a miss of its own, which this person is spared.
            allow_miscue: true,
            ..*meant
        }
    }

    /// The chance of something from its share in every replicate.
    pub fn chance(shares: &[f64]) -> Chance {
        let (chance, error) = over_replicates(shares);
        Chance { chance, error }
    }
}
