//! Whether a stored sweep is what its plan says, found out without writing anything.

use super::finish::{SweepFiles, make_whole, missing};
use super::folder::{
    Folder, Inventory, MANIFEST_FILE, MAP_FILE, PLAN_FILE, SHARDS, cannot, foreign_line,
};
use super::names::parse;
use crate::called;
use crate::fault::Fault;
use crate::files::ordinary;
use crate::plan::SweepPlan;
use crate::telling::grouped_count;
use std::collections::BTreeSet;
use std::io;

/// The faults of a folder, a line each; none when it is whole.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FolderDefects {
    /// The files to be taken away.
    pub foreign: Vec<String>,
    /// Everything else.
    pub others: Vec<String>,
    /// Shards that are missing, of which one line tells.
    missing: u64,
    /// Shards are to be played, or files made from them, again.
    again: bool,
}

impl FolderDefects {
    /// Of things that have no business there: path from the sweep's folder, and why.
    pub fn foreign(found: &[(String, String)]) -> Self {
        let line = |(name, why): &(String, String)| foreign_line(name, name, why);
        Self { foreign: found.iter().map(line).collect(), ..Self::default() }
    }

    /// Every line.
    pub fn lines(&self) -> impl Iterator<Item = &String> {
        self.foreign.iter().chain(&self.others)
    }

    /// The number of faults, kind by kind.
    pub fn counted(&self) -> String {
        let kinds = [
            (self.missing, "shard is missing", "shards are missing"),
            (self.foreign.len() as u64, "file does not belong there", "files do not belong there"),
            (
                self.others.len() as u64 - u64::from(self.missing > 0),
                "file is wrong",
                "other faults",
            ),
        ];
        let told = kinds.into_iter().filter(|(number, ..)| *number > 0);
        let told = told.map(|(number, one, many)| grouped_count(number, one, many));
        told.collect::<Vec<_>>().join(", ")
    }

    /// The way out, in the folder called `shown`.
    pub fn way_on(&self, shown: &str) -> String {
        let again = called::command(&format!(
            "sweep {shown}/{PLAN_FILE} --into {shown} plays damaged and missing shards again"
        ));
        match (self.foreign.is_empty(), self.again) {
            (true, _) => again,
            (false, false) => "remove what does not belong there".to_owned(),
            (false, true) => format!("remove what does not belong there; then {again}"),
        }
    }
}

/// The faults of a folder.
///
/// # Errors
/// A folder that can't be read.
pub fn verify(plan: &SweepPlan, folder: &Folder) -> Result<FolderDefects, Fault> {
    let inventory = folder.inventory(plan)?;
    let mut wrong = FolderDefects::foreign(&inventory.foreign);
    for (name, why) in &inventory.damaged {
        wrong.others.push(format!("`{SHARDS}/{name}` is damaged: {why}"));
    }
    let absent = missing(plan, &|shard| inventory.found.contains_key(&shard)).is_some();
    let told = told_by_name(&inventory);
    let is_told = |shard| inventory.found.contains_key(&shard) || told.contains(&shard);
    let untold = missing(plan, &is_told);
    if let Some(shards) = &untold {
        wrong.missing = (0..plan.shards()).filter(|shard| !is_told(*shard)).count() as u64;
        wrong.others.push(format!("of {} shards these are missing: {shards}", plan.shards()));
    }
    if !absent {
        compare_files(plan, folder, &inventory, &mut wrong)?;
    } else if untold.is_some() {
        for name in [MAP_FILE, MANIFEST_FILE] {
            if stored(folder, name)?.is_some() {
                wrong.others.push(format!("`{name}` is there, although shards are missing"));
            }
        }
    }
    wrong.again = absent || !wrong.others.is_empty();
    Ok(wrong)
}

/// The shards whose files are there, damaged or something else.
fn told_by_name(inventory: &Inventory) -> BTreeSet<u64> {
    let damaged = inventory.damaged.iter().map(|(name, _)| name.as_str());
    let foreign = inventory.foreign.iter().filter_map(|(path, _)| Some(path.rsplit_once('/')?.1));
    damaged.chain(foreign).filter_map(|name| Some(parse(name)?.0)).collect()
}

/// Holds the map and the manifest to what the shards come to.
fn compare_files(
    plan: &SweepPlan,
    folder: &Folder,
    inventory: &Inventory,
    wrong: &mut FolderDefects,
) -> Result<(), Fault> {
    let SweepFiles { map, manifest, .. } = make_whole(plan, folder, inventory)?;
    let files = [(MAP_FILE, map.as_deref()), (MANIFEST_FILE, Some(manifest.as_bytes()))];
    for (name, expected) in files {
        match (stored(folder, name)?, expected) {
            (Some(there), Some(expected)) if there != expected => {
                wrong.others.push(format!("`{name}` is not what the shards come to"));
            }
            (None, Some(_)) => {
                wrong.others.push(format!("`{name}` is missing: the sweep was not finished"));
            }
            (Some(_), None) => {
                wrong
                    .foreign
                    .push(format!("`{name}` does not belong there: the plan keeps no map"));
            }
            _ => {}
        }
    }
    Ok(())
}

fn stored(folder: &Folder, name: &str) -> Result<Option<Vec<u8>>, Fault> {
    let path = folder.path().join(name);
    match ordinary::read(&path) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(cannot("read", &path, &error)),
    }
}
