//! `railproof shot`: balls on a table, from a file to rest.

mod answer;
mod timeline;

pub use answer::{EventAnswer, ShotAnswer};

use super::output::{print, to_json};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::layout::{Layout, load_layout};
use railproof_engine::equipment::RailModel;
use railproof_engine::shot::{Shot, ShotBall, ShotError, play};
use railproof_engine::world::World;
use std::path::PathBuf;

/// Play the balls of a YAML file until they rest.
#[derive(Debug, clap::Args)]
pub struct ShotArgs {
    /// A YAML file with `equipment`, `balls` and, if wanted, `until`.
    pub file: PathBuf,
    /// Answer with JSON for other programs: every event, and every parameter in use.
    #[arg(long)]
    pub json: bool,
}

/// Plays the balls and prints what happened to them.
///
/// # Errors
/// A [`Fault`] at its place in the file, a start the engine refuses, or an output that can't be
/// written.
pub fn run(args: &ShotArgs) -> Result<Exit, Fault> {
    let layout = load_layout(&args.file)?;
    let played = PlayedShot::new(&layout)?;
    let text = if args.json { to_json(&played.answer())? } else { played.told() };
    print(&text)?;
    Ok(Exit::Held)
}

/// A shot and what it was played with.
#[derive(Debug)]
pub struct PlayedShot<'a> {
    layout: &'a Layout,
    world: World,
    /// What happened.
    pub shot: Shot,
}

impl<'a> PlayedShot<'a> {
    /// Plays a layout.
    ///
    /// # Errors
    /// A table that can't be, or a start the engine refuses.
    pub fn new(layout: &'a Layout) -> Result<Self, Fault> {
        let world = World::new(&layout.equipment, &[])
            .map_err(|error| Fault::bad_input(format!("there is no such table: {error}")))?;
        let balls: Vec<ShotBall> =
            layout.balls.iter().map(|(_, state)| ShotBall::of(&layout.equipment, *state)).collect();
        let shot = play(&world, &balls, layout.until_s).map_err(|error| {
            let fault = Fault::bad_input(format!("the shot can't be played: {error}"));
            match error {
                ShotError::Compliant => fault.with_hint(
                    "`railproof bank` takes `--rail-model compliant`; for a shot set the cushion's \
                     `model` to nose-and-cloth, nose-only or planar",
                ),
                _ => fault,
            }
        })?;
        Ok(Self { layout, world, shot })
    }

    fn name(&self, ball: usize) -> &'a str {
        self.layout.balls.get(ball).map_or("", |(name, _)| name.as_str())
    }

    fn rail_model(&self) -> RailModel {
        self.layout.equipment.cushion.model
    }

    fn cautions(&self) -> Vec<String> {
        let touches = || self.shot.events.iter().filter_map(|event| event.kind.touch());
        let fastest =
            self.layout.balls.iter().map(|(_, start)| start.velocity.norm()).fold(0.0, f64::max);
        super::caution::cautions(
            touches().any(|touch| touch.outside_checked_speed),
            touches().any(|touch| touch.hop),
            self.world.equipment().cushion.checked_speed_m_s,
            fastest,
        )
    }
}
