//! The points of a plan of whole shots, played.

use super::{ShotMaker, ShotRow};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::layout::Layout;
use crate::lua::WorkerFunction;
use crate::plan::ShotsPlan;
use crate::playing::{shot_outcome, shot_result};
use crate::telling::caution::Cautions;
use railproof_engine::equipment::Equipment;
use railproof_engine::results::{ShotOutcome, ShotResult};
use railproof_engine::shot::play;
use railproof_engine::verdict::verdict;
use railproof_engine::world::World;
use std::sync::Arc;

/// Tables that are remembered; points on more of them build each again.
const MOST_WORLDS: usize = 16;

/// Plays points of a plan on one thread. A point's row depends on nothing that was played before.
#[derive(Debug)]
pub struct ShotPlayer<'a> {
    plan: &'a ShotsPlan,
    maker: &'a dyn ShotMaker,
    /// The equipment of the last shot that a function made.
    known: Option<Arc<Equipment>>,
    gave_up: Option<String>,
    /// Tables, the last used last, each with its equipment as rows share it.
    worlds: Vec<(Arc<World>, Arc<Equipment>)>,
}

impl<'a> ShotPlayer<'a> {
    /// Gets ready.
    pub const fn new(plan: &'a ShotsPlan, maker: &'a dyn ShotMaker) -> Self {
        Self { plan, maker, known: None, gave_up: None, worlds: Vec::new() }
    }

    /// The row of a point. Where there is no such shot, it says why.
    pub fn row(&mut self, point: u64) -> ShotRow {
        if let Some(function) = self.plan.function() {
            return self.made(function, point);
        }
        let known = self.worlds.last().map(|(world, _)| Arc::clone(world));
        match self.plan.layout(point, known.as_ref()) {
            Ok((layout, world)) => {
                let (world, equipment) = self.remembered(world);
                row_of(&layout, &world, equipment)
            }
            Err(fault) => ShotRow::without_layout(fault.message),
        }
    }

    /// The row of a point that the plan's function makes.
    fn made(&mut self, function: &WorkerFunction, point: u64) -> ShotRow {
        match self.maker.row(self.plan, function, point, self.known.as_ref()) {
            Ok(row) => {
                self.known.clone_from(&row.equipment);
                row
            }
            Err(fault) => {
                let row = ShotRow::without_layout(fault.message.clone());
                if fault.exit == Exit::OverBudget {
                    let message =
                        format!("the shot function gave up at point {point}: {}", fault.message);
                    self.gave_up = Some(message);
                }
                row
            }
        }
    }

    /// The reason why the plan's function is not asked again: it ran out of time or memory.
    pub fn gave_up(&self) -> Option<&str> {
        self.gave_up.as_deref()
    }

    /// The table as it is remembered.
    fn remembered(&mut self, world: Arc<World>) -> (Arc<World>, Arc<Equipment>) {
        let same = |(known, _): &(Arc<World>, Arc<Equipment>)| {
            Arc::ptr_eq(known, &world)
                || (known.equipment() == world.equipment()
                    && known.obstacles() == world.obstacles())
        };
        let entry = match self.worlds.iter().position(same) {
            Some(at) => self.worlds.remove(at),
            None => {
                if self.worlds.len() >= MOST_WORLDS {
                    self.worlds.remove(0);
                }
                let equipment = Arc::new(world.equipment().clone());
                (world, equipment)
            }
        };
        self.worlds.push(entry.clone());
        entry
    }
}

fn row_of(layout: &Layout, world: &World, equipment: Arc<Equipment>) -> ShotRow {
    let ShotResult { cue, object, stroke, .. } = shot_result(layout, None);
    let (cautions, outcome) = match played(layout, world) {
        Ok((cautions, outcome)) => (cautions, Ok(outcome)),
        Err(fault) => (Cautions::default(), Err(fault.message)),
    };
    ShotRow { equipment: Some(equipment), cue, object, stroke, cautions, outcome }
}

fn played(layout: &Layout, world: &World) -> Result<(Cautions, ShotOutcome), Fault> {
    let shot = play(world, &layout.shot_balls(), layout.until_s)
        .map_err(|error| Fault::bad_input(error.to_string()))?;
    let target = layout.verdict_target().ok_or_else(|| Fault::bad_input("it has no target"))?;
    let outcome = shot_outcome(layout, &shot, verdict(world, &shot, target));
    Ok((Cautions::of_shot(layout, &shot), outcome))
}
