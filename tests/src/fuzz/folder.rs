//! Parquet files of a sweep's folder.

use railproof::plan::SweepPlan;
use railproof::scenario::{RunOptions, plan_of_scenario};
use railproof::shards::{Folder, verify};
use sha2::{Digest, Sha256};
use std::cell::RefCell;
use std::fmt::Write;
use std::fs;
use std::path::PathBuf;

/// The plan that the corpus was swept by.
const PLAN: &str = r#"
plan(grid { equipment = equipment "nine-foot", contact = { 2, 3 }, off_rail = inches(0), speed = { mps(2), mps(3) }, spin = "stun", name = "rows" },
  rule.linear { slope = 2.2, reading = "groove" })
"#;

/// A folder into which one shard is put after another.
struct ShardPlace {
    plan: SweepPlan,
    folder: Folder,
    shards: PathBuf,
    _place: tempfile::TempDir,
}

thread_local! {
    static PLACE: RefCell<Option<ShardPlace>> = const { RefCell::new(None) };
}

fn place() -> ShardPlace {
    let place = tempfile::tempdir().expect("a folder can be made");
    let script = place.path().join("plan.lua");
    fs::write(&script, PLAN).expect("it can be written");
    let plan = plan_of_scenario(&script, 1, &RunOptions::default()).expect("it is a plan");
    let out = place.path().join("out");
    let shards = out.join("shards");
    fs::create_dir_all(&shards).expect("folders can be made");
    fs::write(out.join("plan.json"), plan.text()).expect("it can be written");
    ShardPlace { plan, folder: Folder::new(&out), shards, _place: place }
}

pub(super) fn folder(bytes: &[u8]) {
    shards_found(bytes);
}

/// Puts the bytes where a shard belongs, and tells how many whole shards are found: none or one.
///
/// # Panics
/// Where a reader does.
pub fn shards_found(bytes: &[u8]) -> usize {
    PLACE.with_borrow_mut(|kept| {
        let ShardPlace { plan, folder, shards, .. } = kept.get_or_insert_with(place);
        // Under the name that belongs to the bytes: else they are not looked into.
        let digest = Sha256::digest(bytes).iter().take(8).fold(String::new(), |mut text, byte| {
            let _ = write!(text, "{byte:02x}");
            text
        });
        let path = shards.join(format!("000000-{digest}.parquet"));
        fs::write(&path, bytes).expect("it can be written");
        // Whole, damaged or foreign; never a panic.
        let found = folder.inventory(plan).map_or(0, |inventory| inventory.found.len());
        assert!(found <= 1);
        let _ = verify(plan, folder);
        fs::remove_file(&path).expect("it is there");
        found
    })
}
