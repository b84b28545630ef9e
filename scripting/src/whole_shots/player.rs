//! The points of a plan of whole shots, played.

use super::ShotRow;
use crate::fault::Fault;
use crate::layout::Layout;
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
    /// Tables, the last used last, each with its equipment as rows share it.
    worlds: Vec<(Arc<World>, Arc<Equipment>)>,
}

impl<'a> ShotPlayer<'a> {
    /// Gets ready.
    pub const fn new(plan: &'a ShotsPlan) -> Self {
        Self { plan, worlds: Vec::new() }
    }

    /// The row of a point. Where there is no such shot, it says why.
    pub fn row(&mut self, point: u64) -> ShotRow {
        let known = self.worlds.last().map(|(world, _)| Arc::clone(world));
        match self.plan.layout(point, known.as_ref()) {
            Ok((layout, world)) => {
                let (world, equipment) = self.remembered(world);
                row_of(&layout, &world, equipment)
            }
            Err(fault) => ShotRow {
                equipment: None,
                cue: None,
                object: None,
                stroke: None,
                cautions: Cautions::default(),
                outcome: Err(fault.message),
            },
        }
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
