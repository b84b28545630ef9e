//! All walls of a process, raised at once.

use super::{Budget, StopReason, calls, folders};
use crate::exit::Exit;
use crate::fault::Fault;
use bytesize::ByteSize;
use serde::{Deserialize, Serialize};
use std::path::PathBuf;

/// Folders and files that may be seen, and what may be taken.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Walls {
    /// May be read.
    #[serde(with = "crate::files::told_path::many")]
    pub reads: Vec<PathBuf>,
    /// May be read and written.
    #[serde(with = "crate::files::told_path::many")]
    pub writes: Vec<PathBuf>,
    /// The most that may be taken.
    pub budget: Budget,
    /// Threads that will work.
    pub threads: usize,
}

/// What the system holds the process to. The rest is left to the program's own checks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct WallsHeld {
    /// To its folders.
    pub folders: bool,
    /// To few calls.
    pub calls: bool,
    /// To its memory, output and time.
    pub limits: bool,
}

impl WallsHeld {
    /// The walls that this system lacks, in words; nothing where it has all.
    pub fn lacks(self) -> Option<String> {
        let parts = [
            (self.folders, "folders"),
            (self.calls, "calls to the system"),
            (self.limits, "memory and output"),
        ];
        let lacking: Vec<&str> =
            parts.iter().filter(|(held, _)| !held).map(|(_, name)| *name).collect();
        (!lacking.is_empty()).then(|| {
            format!(
                "this system does not hold scripts to their {}; the program's own checks do",
                lacking.join(" and ")
            )
        })
    }
}

/// Raises the walls around this thread and all that it will start. Call it before any other thread starts.
pub fn raise(walls: &Walls) -> WallsHeld {
    let limits = limit(walls);
    let folders = folders::confine(&walls.reads, &walls.writes);
    WallsHeld { folders, calls: calls::refuse(), limits }
}

/// Files that may be open at a time: a shard for each thread, and a few.
#[cfg(unix)]
const OPEN_FILES: u64 = 256;
/// Memory that the program takes for itself, above which the budget is counted.
#[cfg(unix)]
const OWN_BYTES: u64 = 512 << 20;
/// Of each thread: its stack.
#[cfg(unix)]
const BYTES_A_THREAD: u64 = 16 << 20;
/// Addresses that are set aside and never used: the allocator's, for each thread.
#[cfg(unix)]
const ADDRESSES_A_THREAD: u64 = 256 << 20;

/// Memory and addresses that a process may take for a budget, bytes.
#[cfg(unix)]
fn most_memory(budget: &Budget, threads: usize) -> (u64, u64) {
    let memory = budget.memory;
    let threads = threads as u64 + 4;
    let data =
        memory.saturating_add(memory / 4).saturating_add(OWN_BYTES + threads * BYTES_A_THREAD);
    (data, data.saturating_mul(2).saturating_add(threads * ADDRESSES_A_THREAD))
}

/// Limits of the system. They lie above the budget, which [`super::MemoryGauge`] holds more kindly: past them an
/// allocation fails.
#[cfg(unix)]
fn limit(walls: &Walls) -> bool {
    use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
    let lower = |resource, most: u64| {
        let there = getrlimit(resource);
        let least = |limit: Option<u64>| Some(limit.map_or(most, |limit| limit.min(most)));
        setrlimit(resource, Rlimit { current: least(there.current), maximum: least(there.maximum) })
            .is_ok()
    };
    let Budget { time, output, .. } = walls.budget;
    let threads = walls.threads as u64 + 4;
    let (data, addresses) = most_memory(&walls.budget, walls.threads);
    // A last resort, for a process whose parent can't stop it.
    let processor = time.map(|time| (time.as_secs() + 10).saturating_mul(threads));
    lower(Resource::Data, data)
        & lower(Resource::As, addresses)
        & lower(Resource::Fsize, output)
        & lower(Resource::Nofile, OPEN_FILES + 4 * threads)
        & lower(Resource::Core, 0)
        & processor.is_none_or(|seconds| lower(Resource::Cpu, seconds))
}

#[cfg(not(unix))]
fn limit(_: &Walls) -> bool {
    false
}

/// What the system allows a process that is less than its budget: limits that somebody set before this program was
/// started. A worker that meets one of them has gone over no budget.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct SystemLimits {
    /// Of memory, bytes.
    pub memory: Option<u64>,
    /// Of a file, bytes.
    pub output: Option<u64>,
    /// Of time on the processor, seconds.
    pub processor: Option<u64>,
}

impl SystemLimits {
    /// Those of this process, and of the workers that it starts.
    #[cfg(unix)]
    pub fn below(budget: &Budget, threads: usize) -> Self {
        use rustix::process::{Resource, getrlimit};
        let set = |resource, most: u64| getrlimit(resource).current.filter(|limit| *limit < most);
        let (data, addresses) = most_memory(budget, threads);
        let memory = [set(Resource::Data, data), set(Resource::As, addresses)];
        Self {
            memory: memory.into_iter().flatten().min(),
            output: set(Resource::Fsize, budget.output),
            processor: set(Resource::Cpu, u64::MAX),
        }
    }

    /// None are known.
    #[cfg(not(unix))]
    pub fn below(_: &Budget, _: usize) -> Self {
        Self::default()
    }

    /// The fault of a process that was ended for want of memory.
    pub fn memory_fault(&self, budget: &Budget) -> Fault {
        match self.memory {
            None => StopReason::Memory.fault(budget),
            Some(bytes) => Fault::new(
                Exit::CouldNotFinish,
                format!(
                    "the system lets a process take {} of memory, which was too little",
                    ByteSize::b(bytes).display().iec()
                ),
            )
            .with_hint("raise that limit (ulimit -d, ulimit -v), or take fewer --threads"),
        }
    }
}
