//! The strokes of one way, counted.

use super::{BallWay, MeantLine};
use crate::aim::{CUE, OBJECT, Setup, aim_again};
use crate::ask::PairedDifference;
use crate::chance::drawn::Draw;
use crate::chance::{Chance, StrokeErrors, StrokeSpread};
use crate::motion::BallState;
use crate::shot::play;
use crate::stroke::Stroke;
use crate::verdict::{PocketVerdict, verdict};
use rayon::prelude::*;

/// How strokes end.
#[derive(Debug, Clone, PartialEq)]
pub struct ChoiceTally {
    /// The share that is made, a replicate each.
    made: Vec<f64>,
    /// The share of every verdict, in the order of [`PocketVerdict::ALL`].
    pub verdicts: Vec<f64>,
    /// The share in which the two balls meet again off the first rail.
    pub kissed: f64,
    /// The strokes that were played.
    pub strokes: u64,
}

#[derive(Debug, Clone, Default)]
struct Counted {
    verdicts: [u32; PocketVerdict::ALL.len()],
    kissed: u32,
}

/// Strokes whose number is as uncertain as chance makes it. Chosen.
const FEW: f64 = 4.0;

impl ChoiceTally {
    /// Plays strokes of a person about a meant line: the line is judged with an error, the aim for it solved again,
    /// and the stroke missed.
    pub fn play(
        setup: &Setup<'_>,
        way: BallWay,
        line: &MeantLine,
        spread: StrokeSpread,
        draw: Draw,
    ) -> Self {
        let setup = Setup { pocket: way.pocket(), ..setup.clone() };
        let counted: Vec<Counted> = (0..draw.replicates)
            .into_par_iter()
            .map(|replicate| {
                let mut counted = Counted::default();
                for errors in StrokeErrors::drawn(draw, replicate) {
                    let (verdict, kissed) = end(&setup, line, spread, errors);
                    counted.verdicts[verdict.place()] += 1;
                    counted.kissed += u32::from(kissed);
                }
                counted
            })
            .collect();
        let strokes = draw.shots * draw.replicates as u64;
        let share = |count: u32, of: u64| f64::from(count) / of.max(1) as f64;
        let made = counted
            .iter()
            .map(|it| share(it.verdicts.iter().take(PocketVerdict::MADE).sum(), draw.shots))
            .collect();
        let verdicts = (0..PocketVerdict::ALL.len())
            .map(|kind| share(counted.iter().map(|it| it.verdicts[kind]).sum(), strokes))
            .collect();
        let kissed = share(counted.iter().map(|it| it.kissed).sum(), strokes);
        Self { made, verdicts, kissed, strokes }
    }

    /// The chance that it is made, clean or off a jaw, with the cue ball on the table. A few strokes that happen to
    /// spread evenly over the replicates don't make it sure: the error is at least that of as many chance hits, of four
    /// at most (Poisson's √n).
    pub fn chance(&self) -> Chance {
        let Chance { chance, error } = StrokeSpread::chance(&self.made);
        let strokes = self.strokes as f64;
        let rarer = chance.min(1.0 - chance) * strokes;
        Chance { chance, error: error.max(rarer.clamp(0.0, FEW).sqrt() / strokes) }
    }

    /// The share in which the cue ball drops.
    pub fn scratched(&self) -> f64 {
        self.verdicts[PocketVerdict::Scratched.place()]
    }

    /// How much larger its chance is than another's of other strokes: their errors add up.
    pub fn less_apart(&self, other: &Self) -> PairedDifference {
        let (own, its) = (self.chance(), other.chance());
        PairedDifference {
            difference: own.chance - its.chance,
            error: libm::hypot(own.error, its.error),
        }
    }

    /// How much larger its chance is than another's of the same errors.
    pub fn less(&self, other: &Self) -> PairedDifference {
        let apart: Vec<f64> = self.made.iter().zip(&other.made).map(|(a, b)| a - b).collect();
        let Chance { chance, error } = StrokeSpread::chance(&apart);
        PairedDifference { difference: chance, error }
    }
}

/// The end of one stroke, and whether the balls kissed. A line that can't be aimed at is not reached.
fn end(
    setup: &Setup<'_>,
    line: &MeantLine,
    spread: StrokeSpread,
    errors: StrokeErrors,
) -> (PocketVerdict, bool) {
    let judged = line.direction(errors.read);
    let aim_rad = if line.is_misread() {
        match aim_again(setup, &line.aim, judged) {
            Ok(aim) => aim.stroke.aim_rad,
            Err(_) => return (PocketVerdict::NotReached, false),
        }
    } else {
        line.aim.stroke.aim_rad
    };
    let meant = Stroke { aim_rad, ..line.aim.stroke };
    let stroke = spread.stroke(&meant, errors);
    let Ok(struck) = stroke.strike(&setup.cue.ball, &setup.world.equipment().cue) else {
        return (PocketVerdict::NotReached, false);
    };
    let mut balls = Vec::with_capacity(2 + setup.others.len());
    balls.push(setup.cue);
    balls.push(setup.object);
    balls.extend_from_slice(&setup.others);
    balls[CUE].state = BallState {
        position: setup.cue.state.position,
        velocity: struck.velocity,
        spin: struck.spin,
    };
    debug_assert_eq!(OBJECT, 1, "the object ball follows the cue ball");
    match play(setup.world, &balls, None) {
        Ok(shot) => {
            let verdict = verdict(setup.world, &shot, setup.target());
            (verdict.pocket, verdict.kissed_at_s.is_some())
        }
        Err(_) => (PocketVerdict::GivenUp, false),
    }
}
