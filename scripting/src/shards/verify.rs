//! Whether a stored sweep is what its plan says, found out without writing anything.

use super::finish::{Made, make_whole, missing};
use super::folder::{Folder, MANIFEST_FILE, MAP_FILE};
use crate::fault::Fault;
use crate::plan::SweepPlan;
use std::fs;
use std::io;

/// What is wrong with a folder, a line each; nothing when it is whole.
///
/// # Errors
/// A folder that can't be read.
pub fn verify(plan: &SweepPlan, folder: &Folder) -> Result<Vec<String>, Fault> {
    let inventory = folder.inventory(plan)?;
    let mut wrong = Vec::new();
    for (name, why) in &inventory.foreign {
        wrong.push(format!("`{name}` does not belong there: {why}"));
    }
    for (name, why) in &inventory.damaged {
        wrong.push(format!("`{}/{name}` is damaged: {why}", super::SHARDS));
    }
    let absent = missing(plan, &inventory);
    if let Some(shards) = &absent {
        wrong.push(format!("of {} shards these are missing: {shards}", plan.shards()));
    }
    let stored = |name: &str| match fs::read(folder.path().join(name)) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(super::folder::cannot("read", &folder.path().join(name), &error)),
    };
    let made = match absent {
        None => Some(make_whole(plan, folder, &inventory)?),
        Some(_) => None,
    };
    let files = match &made {
        Some(Made { map, manifest, .. }) => {
            [(MAP_FILE, map.as_deref()), (MANIFEST_FILE, Some(manifest.as_bytes()))]
        }
        None => [(MAP_FILE, None), (MANIFEST_FILE, None)],
    };
    for (name, expected) in files {
        match (stored(name)?, expected) {
            (Some(there), Some(expected)) if there != expected => {
                wrong.push(format!("`{name}` is not what the shards come to"));
            }
            (None, Some(_)) => {
                wrong.push(format!("`{name}` is missing: the sweep was not finished"));
            }
            (Some(_), None) if made.is_some() => {
                wrong.push(format!("`{name}` does not belong there: the plan keeps no map"));
            }
            (Some(_), None) => {
                wrong.push(format!("`{name}` is there, although shards are missing"));
            }
            _ => {}
        }
    }
    Ok(wrong)
}
