//! Readers and solvers on bytes that nobody meant for them. Each target is an ordinary function that panics where a
//! promise is broken; a test runs it over its seeds and mutations of them, and `tests/fuzz` under a fuzzer.

mod folder;
mod mutate;
mod scripts;
mod solvers;
mod telling;
mod texts;

pub use folder::shards_found;
pub use mutate::{Mutations, seeds_of};

/// One thing to fuzz.
#[derive(Debug, Clone, Copy)]
pub struct FuzzTarget {
    /// Its name: that of its file and of its corpus under `tests/fuzz/`.
    pub name: &'static str,
    /// Files and folders besides whose bytes are worth mutating, from the folder of these tests.
    pub seeds: &'static [&'static str],
    /// Of a thousand mutations those that are its own: what costs more has fewer.
    pub share: u32,
    /// Takes the bytes, and panics where a promise is broken.
    pub body: fn(&[u8]),
}

/// All of them.
pub const FUZZ_TARGETS: [FuzzTarget; 11] = [
    FuzzTarget {
        name: "profiles",
        seeds: &["refusals/profiles", "../scenarios/profiles"],
        share: 150,
        body: texts::profile,
    },
    FuzzTarget {
        name: "layouts",
        seeds: &["refusals/layouts", "../scenarios/shots"],
        share: 120,
        body: texts::layout,
    },
    FuzzTarget { name: "plans", seeds: &[], share: 140, body: texts::plan },
    FuzzTarget {
        name: "players",
        seeds: &["refusals/players", "../scenarios/profiles/players"],
        share: 60,
        body: texts::player,
    },
    FuzzTarget {
        name: "measurements",
        seeds: &["refusals/measured", "../scenarios/measured/hall.csv"],
        share: 120,
        body: texts::measurements,
    },
    FuzzTarget {
        name: "tracks",
        seeds: &["refusals/tracks", "../scenarios/measured/track.csv"],
        share: 80,
        body: texts::track,
    },
    FuzzTarget { name: "baselines", seeds: &[], share: 120, body: texts::baseline },
    FuzzTarget {
        name: "scripts",
        seeds: &["refusals/scenarios"],
        share: 20,
        body: scripts::script,
    },
    FuzzTarget { name: "folders", seeds: &[], share: 40, body: folder::folder },
    FuzzTarget { name: "impacts", seeds: &[], share: 140, body: solvers::impact },
    FuzzTarget { name: "shots", seeds: &[], share: 10, body: solvers::shot },
];
