//! One result: on any number of threads, in any order, from the scenario or the plan, in shares.

use super::support::{Planned, Recipe, digests, play, play_all, unfinished};
use railproof::files::RealDisk;
use railproof::plan::Keep;
use railproof::shards::{Folder, finish};

const KEEPS: [Keep; 3] = [Keep::Rows, Keep::Map, Keep::Failures];

fn each_keep() -> impl Iterator<Item = Planned> {
    KEEPS.into_iter().map(|keep| Recipe::with_failures().keeping(keep).placed())
}

#[test]
fn threads_change_no_byte() {
    for planned in each_keep() {
        let expected = planned.uninterrupted("whole");
        for threads in [1, 2, 3, 7, 16] {
            let out = planned.place.path(&format!("by-{threads}"));
            let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
            pool.install(|| play_all(&planned.plan, &out, &RealDisk)).unwrap();
            assert_eq!(digests(&out), expected, "{threads} threads");
            let into = format!("program-{threads}");
            let line = format!("sweep plan.json --into {into} --threads {threads} --quiet");
            planned.place.run(&line).code(0);
            assert_eq!(digests(&planned.place.path(&into)), expected, "{threads} threads");
        }
    }
}

#[test]
fn the_order_of_the_shards_changes_no_byte() {
    for planned in each_keep() {
        let expected = planned.uninterrupted("whole");
        let shards = planned.plan.shards();
        // Steps that share no factor with the number of shards go through all of them.
        for (from, step) in [(0, shards - 1), (5, 3), (2, 9)] {
            let order: Vec<u64> = (0..shards).map(|turn| (from + turn * step) % shards).collect();
            let mut sorted = order.clone();
            sorted.sort_unstable();
            assert_eq!(sorted, (0..shards).collect::<Vec<u64>>());
            let out = planned.place.path(&format!("order-{from}-{step}"));
            play(&planned.plan, &order, &out, &RealDisk).unwrap();
            let folder = Folder::new(&out);
            let there = folder.inventory(&planned.plan).unwrap();
            finish(&planned.plan, &folder, &there, &RealDisk).unwrap();
            assert_eq!(digests(&out), expected, "{order:?}");
        }
    }
}

#[test]
fn scenario_and_plan_file_give_the_same_bytes() {
    let recipe = Recipe::with_failures();
    for keep in KEEPS {
        let place = super::support::Place::new();
        place.write("bank.lua", recipe.scenario());
        let keeping = format!("--keep {}", keep.name());
        place.run(&format!("plan bank.lua {keeping} --out plan.json")).code(0);
        place.run(&format!("sweep bank.lua {keeping} --into by-script --quiet")).code(0);
        place.run("sweep plan.json --into by-plan --quiet").code(0);
        let by_plan = digests(&place.path("by-plan"));
        assert!(by_plan.contains_key("manifest.json"), "{by_plan:?}");
        assert_eq!(digests(&place.path("by-script")), by_plan);
        // The folder's own plan is a plan too.
        place.run("sweep by-plan/plan.json --into by-copy --quiet").code(0);
        assert_eq!(digests(&place.path("by-copy")), by_plan);
    }
}

#[test]
fn shares_put_together_are_the_whole() {
    for planned in each_keep() {
        let (place, expected) = (&planned.place, planned.uninterrupted("whole"));
        for shares in [1_usize, 4, 7] {
            let (mut one, mut apart) = (format!("one-{shares}"), String::new());
            // From the last to the first, and once more in the other order elsewhere.
            for share in (1..=shares).rev() {
                let into = format!("apart-{shares}-{share}");
                place.run(&share_line(share, shares, &into)).code(0);
                apart = format!("{apart} {into}");
            }
            for share in 1..=shares {
                place.run(&share_line(share, shares, &one)).code(0);
            }
            assert!(!digests(&place.path(&one)).contains_key("manifest.json"));
            place.run(&format!("merge {one} --quiet")).code(0);
            assert_eq!(digests(&place.path(&one)), expected, "{shares} shares in one folder");
            place.run(&format!("merge {one} --quiet")).code(0);
            assert_eq!(digests(&place.path(&one)), expected, "merged again");
            one = format!("put-{shares}");
            place.run(&format!("merge {one}{apart}")).code(0);
            assert_eq!(digests(&place.path(&one)), expected, "{shares} folders");
            place.run(&format!("merge {one}{apart} --quiet")).code(0);
            assert_eq!(digests(&place.path(&one)), expected, "merged again");
        }
    }
}

fn share_line(share: usize, of: usize, into: &str) -> String {
    format!("sweep plan.json --shard {share}/{of} --into {into} --quiet")
}

#[test]
fn merging_says_which_shards_are_missing() {
    let planned = Recipe::grid().placed();
    let place = &planned.place;
    for share in [1, 4] {
        place.run(&share_line(share, 4, "out")).code(0);
    }
    let before = digests(&place.path("out"));
    // Of 14 shards, every fourth from the first and from the last of four are there.
    place
        .run("merge out")
        .code(6)
        .says("7 of 14 shards are there; missing: 1–2, 5–6, 9–10, 13")
        .says("railproof sweep out/plan.json --into out");
    assert_eq!(digests(&place.path("out")), before, "nothing is written");
    // What the message says to do.
    place.run("sweep out/plan.json --into out --quiet").code(0);
    assert_eq!(digests(&place.path("out")), planned.uninterrupted("whole"));
}

#[test]
fn folders_of_different_plans_are_not_merged() {
    let planned = Recipe::grid().placed();
    planned.place.run("sweep plan.json --into out --quiet").code(0);
    let before = digests(&planned.place.path("out"));
    planned.place.run("sweep plan.json --keep failures --into other --quiet").code(0);
    planned.place.run("merge out other").code(2).says("keep").says("other");
    assert_eq!(digests(&planned.place.path("out")), before);
    planned.place.run("merge nowhere").code(2).says("nowhere").says("plan.json");
}

#[test]
fn of_two_sweeps_into_one_folder_at_once_one_is_whole_and_the_other_told() {
    for (turn, planned) in each_keep().chain(each_keep()).enumerate() {
        let expected = planned.uninterrupted("whole");
        let begin = || {
            let mut command =
                planned.place.command("sweep plan.json --into out --quiet --threads 2");
            command.stderr(std::process::Stdio::piped()).spawn().unwrap()
        };
        let first = begin();
        // The second comes while the first is at different places of its work.
        std::thread::sleep(std::time::Duration::from_millis(25 * turn as u64));
        let ended = [begin(), first]
            .map(|child| super::support::ProgramRun::from(child.wait_with_output().unwrap()));
        assert!(ended.iter().any(|it| it.code == Some(0)), "{ended:?}");
        // The one that comes too early is told; one that comes after the other finds all done.
        for refused in ended.into_iter().filter(|it| it.code != Some(0)) {
            refused.code(3).says("another run is writing to `out`");
        }
        let found = digests(&planned.place.path("out"));
        assert!(unfinished(&found).is_empty(), "{found:?}");
        assert_eq!(found, expected);
    }
}
