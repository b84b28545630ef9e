//! How often a player makes a whole shot: strokes drawn about the one that is meant, each played in the layout.

use super::PlayedShot;
use crate::fault::Fault;
use crate::player::PlayerProfile;
use railproof_engine::chance::drawn::Draw;
use railproof_engine::chance::{Chance, StrokeSpread};
use railproof_engine::motion::BallState;
use railproof_engine::shot::{EventKind, play};
use railproof_engine::stroke::Stroke;
use railproof_engine::verdict::{PocketVerdict, verdict};
use rayon::prelude::*;

/// A player's chance of a shot.
#[derive(Debug, Clone)]
pub struct ShotChance {
    /// Made, clean or off a jaw, with the cue ball on the table.
    pub made: Chance,
    /// The share of every verdict, in the order of [`PocketVerdict::ALL`].
    pub shares: Vec<f64>,
    /// How many strokes were played.
    pub strokes: u64,
}

/// Enough for one in a hundred.
const DRAW: Draw = Draw { replicates: 16, shots: 64, seed: 1 };

impl PlayedShot<'_> {
    /// How often this player makes it.
    ///
    /// # Errors
    /// A [`Fault`] for a layout without a stroke or a target.
    pub fn chance(&self, player: &PlayerProfile) -> Result<ShotChance, Fault> {
        let layout = self.layout;
        let (Some(struck), Some(_)) = (layout.stroke, layout.verdict_target()) else {
            return Err(Fault::bad_input("a chance needs a stroke and a ball with a `pocket`")
                .with_hint("give the layout a `stroke`, and a `target` with its pocket"));
        };
        let radius_m = layout.balls[struck.ball].ball.radius_m();
        let spread = StrokeSpread::of(&player.skill, radius_m, self.first_meeting_m(struck.ball));
        let replicates: Vec<Vec<f64>> = (0..DRAW.replicates)
            .into_par_iter()
            .map(|replicate| {
                let mut counts = vec![0.0; PocketVerdict::ALL.len()];
                for stroke in spread.strokes(&struck.stroke, DRAW, replicate) {
                    counts[self.verdict_of(struck.ball, &stroke).place()] += 1.0;
                }
                counts.into_iter().map(|count| count / DRAW.shots as f64).collect()
            })
            .collect();
        let made: Vec<f64> =
            replicates.iter().map(|shares| shares.iter().take(PocketVerdict::MADE).sum()).collect();
        let share = |kind: usize| {
            replicates.iter().map(|shares| shares[kind]).sum::<f64>() / replicates.len() as f64
        };
        Ok(ShotChance {
            made: StrokeSpread::chance(&made),
            shares: (0..PocketVerdict::ALL.len()).map(share).collect(),
            strokes: DRAW.shots * DRAW.replicates as u64,
        })
    }

    /// How far the struck ball goes before it meets another, m.
    fn first_meeting_m(&self, ball: usize) -> Option<f64> {
        let from = self.layout.balls[ball].state.position;
        self.shot.events_of(ball).find(|event| matches!(event.kind, EventKind::Ball(_))).map(
            |event| {
                let away_m = (event.before.position - from).norm();
                // Told of the other ball, whose centre is a ball further on.
                let radius_m = self.layout.balls[ball].ball.radius_m();
                if event.ball == ball { away_m } else { away_m - 2.0 * radius_m }
            },
        )
    }

    /// The verdict on the layout with another stroke; one that can't be played reaches nothing.
    fn verdict_of(&self, ball: usize, stroke: &Stroke) -> PocketVerdict {
        let layout = self.layout;
        let mut balls = layout.shot_balls();
        let struck = &mut balls[ball];
        let (Ok(off), Some(target)) =
            (stroke.strike(&struck.ball, &layout.equipment.cue), layout.verdict_target())
        else {
            return PocketVerdict::NotReached;
        };
        struck.state =
            BallState { position: struck.state.position, velocity: off.velocity, spin: off.spin };
        play(&self.world, &balls, layout.until_s)
            .map_or(PocketVerdict::GivenUp, |shot| verdict(&self.world, &shot, target).pocket)
    }
}
