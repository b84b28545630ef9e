//! Plans of invented banks, and ways to play them in this process.

use super::Place;
use railproof::fault::Fault;
use railproof::files::{Disk, RealDisk};
use railproof::plan::{Keep, SweepPlan, plan_of_text};
use railproof::scenario::FunctionShots;
use railproof::scenario::{RunOptions, plan_of_scenario};
use railproof::shards::{Folder, PlayOptions, SweepWatch, finish, play_shards};
use railproof_engine::sweep::Tally;
use std::path::Path;
use std::sync::atomic::AtomicBool;

/// The ingredients of a plan.
#[derive(Clone)]
pub struct Recipe {
    /// The points, as Lua.
    pub banks: String,
    /// The rules, as Lua.
    pub rules: String,
    pub keep: Keep,
    /// Points in a shard.
    pub shard_points: u64,
}

/// Two rules over a grid in the invented hall: 7 × 5 × 6 × 4 points.
pub const GRID: &str = r#"grid {
  equipment = equipment "harbour-hall", pocket = "corner",
  contact = span(1, 4, 0.5), off_rail = span(inches(0), inches(20), inches(5)),
  speed = span(mps(1.5), mps(4), mps(0.5)), roll = { 0, 0.3, 0.6, 1 }, name = "grid",
}"#;
const RULES: &str =
    r#"rule.linear { slope = 2.2, name = "2.2 to 1" }, rule.mirror { name = "mirror" }"#;
/// One rule more, which has no answer from contact 3 on.
const WITH_FAILURES: &str = r#"rule.linear { slope = 2.2, name = "2.2 to 1" },
  rule.func { name = "bent", start = function(contact)
    if contact >= 3 then error("no answer so far up") end
    return contact * (2.3 - 0.02 * contact)
  end }"#;

impl Recipe {
    /// 840 points by two rules in 14 shards.
    pub fn grid() -> Self {
        Self { banks: GRID.into(), rules: RULES.into(), keep: Keep::Rows, shard_points: 64 }
    }

    /// The same, where some points can't be played.
    pub fn with_failures() -> Self {
        Self { rules: WITH_FAILURES.into(), ..Self::grid() }
    }

    /// A sample of many points, in shards of some milliseconds.
    pub fn long(points: u64, shard_points: u64) -> Self {
        let banks = format!(
            r#"sample {{ equipment = equipment "harbour-hall", pocket = "corner", seed = 5,
  points = {points}, contact = from_to(1, 4), off_rail = from_to(inches(0), inches(20)),
  speed = from_to(mps(1.5), mps(6)), roll = from_to(0, 1), name = "long" }}"#
        );
        Self { banks, shard_points, ..Self::with_failures() }
    }

    pub fn keeping(self, keep: Keep) -> Self {
        Self { keep, ..self }
    }

    /// The scenario's text.
    pub fn scenario(&self) -> String {
        format!("local banks = {}\nplan(banks, {})\n", self.banks, self.rules)
    }

    /// The plan.
    pub fn plan(&self) -> SweepPlan {
        let place = Place::new();
        let path = place.write("plan.lua", self.scenario());
        let plan = plan_of_scenario(&path, 1, &RunOptions::default()).unwrap();
        let plan = SweepPlan { shard_points: self.shard_points, ..plan.keeping(self.keep) };
        // Through its text, as the program does it.
        plan_of_text("plan.json", &plan.text()).unwrap()
    }

    /// The plan as a file beside its results.
    pub fn placed(&self) -> Planned {
        let (place, plan) = (Place::new(), self.plan());
        place.write("plan.json", plan.text());
        Planned { place, plan }
    }
}

/// A plan whose file lies in a folder, where it can be swept.
pub struct Planned {
    pub place: Place,
    pub plan: SweepPlan,
}

struct Quiet;

impl SweepWatch for Quiet {
    fn played(&self, _: &Tally) {}
    fn kept(&self, _: u64) {}
}

/// Options to play without saying anything.
pub fn quiet<'a>(disk: &'a dyn Disk, stop: &'a AtomicBool) -> PlayOptions<'a> {
    PlayOptions { disk, maker: &FunctionShots, watch: &Quiet, stop, stop_on_error: false }
}

/// Opens the folder and plays these shards into it.
pub fn play(plan: &SweepPlan, shards: &[u64], into: &Path, disk: &dyn Disk) -> Result<(), Fault> {
    let folder = Folder::new(into);
    folder.open(plan, disk)?;
    play_shards(plan, shards, &folder, quiet(disk, &AtomicBool::new(false)))?;
    Ok(())
}

/// Plays everything that a folder lacks, as `railproof sweep` does.
pub fn play_all(plan: &SweepPlan, into: &Path, disk: &dyn Disk) -> Result<(), Fault> {
    let folder = Folder::new(into);
    folder.open(plan, disk)?;
    folder.remove_unfinished(&|_| true)?;
    let there = folder.inventory(plan)?.found;
    let todo: Vec<u64> = (0..plan.shards()).filter(|shard| !there.contains_key(shard)).collect();
    play_shards(plan, &todo, &folder, quiet(disk, &AtomicBool::new(false)))?;
    finish(plan, &folder, &folder.inventory(plan)?, disk)?;
    Ok(())
}

impl Planned {
    /// Plays it all in this process, without a break.
    pub fn uninterrupted(&self, into: &str) -> super::Digests {
        let path = self.place.path(into);
        play_all(&self.plan, &path, &RealDisk).unwrap();
        super::digests(&path)
    }
}
