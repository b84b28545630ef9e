//! Stored maps that no scenario holds a map to any more.

use crate::files::ordinary;
use crate::walled::Trial;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The call that holds a map to a baseline.
const CALL: &[u8] = b"matches_baseline";
/// A script that is longer may call it anywhere.
const LONGEST: u64 = 1 << 20;

/// Of these baselines those that no scenario holds a map to. A baseline lies beside its scenario or under it, so one is
/// stale where every scenario in its folder and above has run whole and none named it; a scenario
/// that was not run may hold it, if its text holds any map to a baseline.
pub(super) fn baselines(found: &[PathBuf], tested: &[Trial]) -> Vec<PathBuf> {
    let real = |path: &Path| fs::canonicalize(path).ok();
    let held: BTreeSet<PathBuf> =
        tested.iter().flat_map(|trial| &trial.baselines).filter_map(|it| real(&it.path)).collect();
    let whole: BTreeSet<PathBuf> =
        tested.iter().filter(|trial| is_whole(trial)).filter_map(|it| real(&it.file)).collect();
    let mut folders = BTreeMap::new();
    let mut stale: Vec<PathBuf> = Vec::new();
    let mut seen = BTreeSet::new();
    for path in found {
        let Some(file) = real(path).filter(|file| seen.insert(file.clone())) else { continue };
        // By a link it may lie elsewhere than its path says.
        let linked = path.parent().and_then(real);
        let above = file.parent().into_iter().chain(linked.as_deref()).flat_map(Path::ancestors);
        let mut unsure = false;
        for folder in above {
            unsure |= *folders.entry(folder.to_owned()).or_insert_with(|| may_hold(folder, &whole));
        }
        if !unsure && !held.contains(&file) {
            stale.push(path.clone());
        }
    }
    stale.sort();
    stale
}

/// The words for one.
pub(super) fn words(path: &Path) -> String {
    format!(
        "no scenario holds a map to the baseline `{}`; delete it, if nothing else needs it",
        path.display()
    )
}

/// Whether all that it expects is known.
fn is_whole(trial: &Trial) -> bool {
    trial.stopped.is_none() && trial.left_out.is_empty()
}

/// Whether a scenario of this folder that has not run whole may hold maps to baselines.
fn may_hold(folder: &Path, whole: &BTreeSet<PathBuf>) -> bool {
    let Ok(entries) = fs::read_dir(folder) else { return true };
    let scripts = entries.flatten().map(|entry| entry.path());
    let mut scripts = scripts.filter(|path| path.extension().is_some_and(|it| it == "lua"));
    scripts.any(|path| {
        let is_run = fs::canonicalize(&path).is_ok_and(|real| whole.contains(&real));
        !is_run && calls(&path)
    })
}

fn calls(script: &Path) -> bool {
    let Ok(text) = ordinary::read_at_most(script, LONGEST) else { return true };
    text.len() as u64 >= LONGEST || text.windows(CALL.len()).any(|window| window == CALL)
}
