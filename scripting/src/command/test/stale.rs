//! Stored maps that no scenario holds a map to any more.

use super::find::{Found, is_scenario};
use crate::fault::tame;
use crate::files::ordinary;
use crate::walled::Trial;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The call that holds a map to a baseline.
const CALL: &[u8] = b"matches_baseline";
/// A script that is longer may call it anywhere.
const LONGEST: u64 = 1 << 20;

/// A baseline that no scenario that was run holds a map to.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct StaleBaseline {
    pub(super) path: PathBuf,
    /// The link by which it was found, to somewhere outside all that was tested: scenarios elsewhere may hold maps to
    /// it.
    pub(super) link: Option<PathBuf>,
}

impl StaleBaseline {
    /// In words.
    pub(super) fn words(&self) -> String {
        let path = tame(&self.path.display().to_string());
        match &self.link {
            None => format!(
                "no scenario holds a map to the baseline `{path}`; delete it, if nothing else needs it"
            ),
            Some(link) => format!(
                "no scenario that was tested holds a map to the baseline `{path}`; `{}` is a link to another folder, \
                 whose scenarios may",
                tame(&link.display().to_string())
            ),
        }
    }
}

/// Of the baselines that were found under these paths those that no scenario holds a map to. A baseline lies beside its
/// scenario or under it, so one is stale where every scenario in its folder and above has run whole and none named it; a
/// scenario that was not run may hold it, if its text holds any map to a baseline.
pub(super) fn baselines(found: &Found, paths: &[PathBuf], tested: &[Trial]) -> Vec<StaleBaseline> {
    let real = |path: &Path| fs::canonicalize(path).ok();
    let held: BTreeSet<PathBuf> =
        tested.iter().flat_map(|trial| &trial.baselines).filter_map(|it| real(&it.path)).collect();
    let whole: BTreeSet<PathBuf> =
        tested.iter().filter(|trial| is_whole(trial)).filter_map(|it| real(&it.file)).collect();
    let mut folders = BTreeMap::new();
    let roots: Vec<PathBuf> = paths.iter().filter_map(|it| real(it)).collect();
    let mut stale: Vec<StaleBaseline> = Vec::new();
    let mut seen = BTreeSet::new();
    for path in &found.baselines {
        let Some(file) = real(path).filter(|file| seen.insert(file.clone())) else { continue };
        // By a link it may lie elsewhere than its path says.
        let linked = path.parent().and_then(real);
        let above = file.parent().into_iter().chain(linked.as_deref()).flat_map(Path::ancestors);
        let mut unsure = false;
        for folder in above {
            unsure |= *folders.entry(folder.to_owned()).or_insert_with(|| may_hold(folder, &whole));
        }
        if !unsure && !held.contains(&file) {
            let is_inside = roots.iter().any(|root| file.starts_with(root));
            let mut by = path.ancestors().filter(|it| it.is_symlink());
            let link = by.next().filter(|_| !is_inside).map(Path::to_owned);
            stale.push(StaleBaseline { path: path.clone(), link });
        }
    }
    stale.sort();
    stale
}

/// Whether all that it expects is known.
fn is_whole(trial: &Trial) -> bool {
    trial.stopped.is_none() && trial.left_out.is_empty()
}

/// Whether a scenario of this folder that has not run whole may hold maps to baselines.
fn may_hold(folder: &Path, whole: &BTreeSet<PathBuf>) -> bool {
    let Ok(entries) = fs::read_dir(folder) else { return true };
    let scripts = entries.flatten().map(|entry| entry.path());
    let mut scripts = scripts.filter(|path| is_scenario(path));
    scripts.any(|path| {
        let is_run = fs::canonicalize(&path).is_ok_and(|real| whole.contains(&real));
        !is_run && calls(&path)
    })
}

fn calls(script: &Path) -> bool {
    let Ok(text) = ordinary::read_at_most(script, LONGEST) else { return true };
    text.len() as u64 >= LONGEST || text.windows(CALL.len()).any(|window| window == CALL)
}
