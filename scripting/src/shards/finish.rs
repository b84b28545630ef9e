//! Files made of all shards together: the map, and the manifest that says the sweep is whole.

use super::cells::Cells;
use super::cells_file::{cells_file, read_cells};
use super::count::Reasons;
use super::folder::{Folder, Inventory, MANIFEST_FILE, MAP_FILE, cannot, failed_name};
use super::notes::plan_notes;
use crate::answer;
use crate::called;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::ordinary;
use crate::files::{Disk, publish};
use crate::plan::{Keep, SweepPlan, Swept, sha256};
use crate::telling::caution::Cautions;
use railproof_engine::sweep::Tally;
use serde_json::{Value, json};
use std::fmt::Write;

/// Grows when the meaning of a key changes.
const FORMAT: u32 = 1;

/// A whole sweep.
#[derive(Debug, Clone)]
pub struct SweepTotals {
    /// Counts by rule, in the plan's order.
    pub tallies: Vec<Tally>,
    /// Bytes of all shards.
    pub bytes: u64,
    /// Rows of all shards.
    pub rows: u64,
    /// Why points could not be played.
    pub reasons: Reasons,
    /// The cautions that apply to any of it.
    pub cautions: Cautions,
}

impl SweepTotals {
    /// Banks that could not be played.
    pub fn failed(&self) -> u64 {
        self.tallies.iter().map(|tally| tally.failed).sum()
    }

    /// True when most banks could not be played.
    pub fn mostly_failed(&self) -> bool {
        let played: u64 = self.tallies.iter().map(Tally::played).sum();
        self.failed() > played
    }
}

/// The shards of a plan that are not there, as runs of numbers (`3, 7–9`); nothing when all are.
pub fn missing(plan: &SweepPlan, is_there: &dyn Fn(u64) -> bool) -> Option<String> {
    let mut text = String::new();
    let mut run: Option<(u64, u64)> = None;
    let mut tell = |(first, last): (u64, u64)| {
        let comma = if text.is_empty() { "" } else { ", " };
        let _ = match last - first {
            0 => write!(text, "{comma}{first}"),
            _ => write!(text, "{comma}{first}–{last}"),
        };
    };
    for shard in (0..plan.shards()).filter(|shard| !is_there(*shard)) {
        run = match run {
            Some((first, last)) if last + 1 == shard => Some((first, shard)),
            before => {
                if let Some(ended) = before {
                    tell(ended);
                }
                Some((shard, shard))
            }
        };
    }
    tell(run?);
    Some(text)
}

/// Makes the map and the manifest of a sweep whose shards are all there and counted
/// ([`Folder::inventory`]). Doing it again changes nothing.
///
/// # Errors
/// [`Exit::NotWhole`] for shards that are missing or damaged; files that do not belong there; the disk.
pub fn finish(
    plan: &SweepPlan,
    folder: &Folder,
    inventory: &Inventory,
    disk: &dyn Disk,
) -> Result<SweepTotals, Fault> {
    inventory.refuse_foreign(folder)?;
    if let Some((name, why)) = inventory.damaged.first() {
        let more = inventory.damaged.len() - 1;
        let others = if more == 0 { String::new() } else { format!(", and {more} more") };
        return Err(Fault::new(Exit::NotWhole, format!("`{name}` is damaged: {why}{others}"))
            .with_hint(again(folder, "plays damaged and missing shards again")));
    }
    if let Some(missing) = missing(plan, &|shard| inventory.found.contains_key(&shard)) {
        let there = inventory.found.len();
        return Err(Fault::new(
            Exit::NotWhole,
            format!("{there} of {} shards are there; missing: {missing}", plan.shards()),
        )
        .with_hint(again(folder, "plays the missing ones")));
    }
    folder.tidy()?;
    let SweepFiles { whole, map, manifest } = make_whole(plan, folder, inventory)?;
    let write = |name: &str, bytes: &[u8]| {
        publish(disk, folder.path(), name, &mut |out| out.write_all(bytes))
            .map_err(|error| cannot("write", &folder.path().join(name), &error))
    };
    if let Some(bytes) = map {
        write(MAP_FILE, &bytes)?;
    }
    write(MANIFEST_FILE, manifest.as_bytes())?;
    Ok(whole)
}

/// The files made of all shards together.
pub(super) struct SweepFiles {
    pub whole: SweepTotals,
    pub map: Option<Vec<u8>>,
    pub manifest: String,
}

/// Makes the map and the manifest in memory, from shards that are all there and counted.
pub(super) fn make_whole(
    plan: &SweepPlan,
    folder: &Folder,
    inventory: &Inventory,
) -> Result<SweepFiles, Fault> {
    let mut whole = SweepTotals {
        tallies: vec![Tally::default(); plan.rules().len().max(1)],
        bytes: 0,
        rows: 0,
        reasons: Reasons::default(),
        cautions: Cautions::of_sweep(plan),
    };
    for found in inventory.found.values() {
        for (total, tally) in whole.tallies.iter_mut().zip(&found.note.tallies) {
            total.merge(tally);
        }
        whole.bytes += found.bytes;
        whole.rows += found.note.rows;
        whole.reasons.merge(&found.reasons);
        whole.cautions.add(&found.note.cautions);
    }
    let without_answer = plan.without_answer().0.replace('-', "_");
    let mut entries = Vec::new();
    let mut map = match plan.keep {
        Keep::Map => Some(Cells::new(plan).map_err(Fault::bad_input)?),
        Keep::Rows | Keep::Failures => None,
    };
    for (shard, found) in &inventory.found {
        let points = plan.shard(*shard);
        entries.push(json!({
            "file": format!("{}/{}", super::SHARDS, found.name),
            "sha256": found.sha256,
            "bytes": found.bytes,
            "rows": found.note.rows,
            "first_point": points.start,
            "points": points.end - points.start,
            without_answer.as_str(): found.note.tallies.iter().map(|tally| tally.failed).sum::<u64>(),
            "failed_file": found.note.failed_file.as_ref()
                .map(|digest| format!("{}/{}", super::FAILED, failed_name(*shard, digest))),
        }));
        if let Some(map) = &mut map {
            let path = folder.shards().join(&found.name);
            let bytes = ordinary::read(&path).map_err(|error| cannot("read", &path, &error))?;
            let wrong = |why: String| {
                Fault::new(Exit::CouldNotFinish, format!("`{}`: {why}", path.display()))
            };
            if sha256(&bytes) != found.sha256 {
                return Err(wrong("it changed while it was read".to_owned()));
            }
            let cells = read_cells(plan, bytes.into()).map_err(|error| wrong(error.to_string()))?;
            map.merge(&cells).map_err(wrong)?;
        }
    }
    let map = map.map(|map| {
        let cells: Vec<_> = map.filled().collect();
        cells_file(plan, &cells, plan_notes(plan)).map_err(|error| {
            Fault::new(Exit::CouldNotFinish, format!("the map can't be put in a file: {error}"))
        })
    });
    let map = map.transpose()?;
    let manifest = manifest(plan, &whole, &entries);
    Ok(SweepFiles { whole, map, manifest })
}

fn again(folder: &Folder, does: &str) -> String {
    let path = folder.path().display();
    called::command(&format!("sweep {path}/plan.json --into {path} {does}"))
}

/// JSON, a shard a line.
fn manifest(plan: &SweepPlan, whole: &SweepTotals, entries: &[Value]) -> String {
    let rules: Value = whole
        .tallies
        .iter()
        .enumerate()
        .map(|(at, tally)| {
            tally_entry(plan, plan.rules().get(at).map(|rule| rule.name.as_str()), tally)
        })
        .collect();
    let head = json!({
        "format": FORMAT,
        "railproof": env!("CARGO_PKG_VERSION"),
        "engine": railproof_engine::VERSION,
        "plan_sha256": plan.sha256(),
        "keep": plan.keep,
        "points": plan.points(),
        plan.noun(): plan.bank_count(),
        "rows": whole.rows,
        "bytes": whole.bytes,
        "rules": rules,
        "cautions": whole.cautions,
    });
    let mut text = String::from("{\n");
    for (key, value) in head.as_object().into_iter().flatten() {
        let _ = writeln!(text, "  {}: {value},", json!(key));
    }
    let shards: Vec<String> = entries.iter().map(|entry| format!("\n    {entry}")).collect();
    let _ = writeln!(text, "  \"shards\": [{}\n  ]\n}}", shards.join(","));
    text
}

fn tally_entry(plan: &SweepPlan, rule: Option<&str>, tally: &Tally) -> Value {
    let mut entry = match &plan.played {
        Swept::Banks { .. } => answer::bank_tally(tally),
        Swept::Shots(_) => answer::shot_tally(tally),
    };
    entry["rule"] = rule.into();
    entry
}
