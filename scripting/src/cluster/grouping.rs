//! The number of tasks, and the time that each may take.

/// Tasks of one array. Slurm's `MaxArraySize` is 1001 unless a site sets another, and the indices
/// must stay below it.
pub const MOST_TASKS: u64 = 1000;

/// A task is given this many times its estimate: nodes may be slower than the machine that measured,
/// and busy with other things. Common practice, no source.
const SAFETY: f64 = 3.0;

/// Minutes on top, for starting and for the minute's notice before the limit.
const ON_TOP_MINUTES: f64 = 2.0;

/// No task is given less, however short it is.
const SHORTEST_LIMIT_MINUTES: u64 = 5;

/// The longest limit that is asked for: a year.
const LONGEST_LIMIT_MINUTES: u64 = 366 * 24 * 60;

/// The work to do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Work {
    /// Shards of the sweep, at least one.
    pub shards: u64,
    /// Estimated seconds that one thread takes for all of them.
    pub thread_seconds: f64,
}

/// Shards grouped into the tasks of an array.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grouping {
    /// Tasks, at least one and no more than shards.
    pub tasks: u64,
    /// Shards of the longest task.
    pub most_shards: u64,
    /// Estimated minutes of the longest task.
    pub task_minutes: f64,
    /// The minutes after which a task is ended.
    pub limit_minutes: u64,
}

impl Grouping {
    /// Tasks of about so many minutes on so many cores each.
    pub fn of_minutes(work: Work, cores: u32, minutes: f64) -> Self {
        let tasks = (work.thread_seconds / 60.0 / f64::from(cores.max(1)) / minutes).ceil();
        Self::of_tasks(work, cores, whole(tasks))
    }

    /// So many tasks on so many cores each; fewer when there are not as many shards, or more than
    /// [`MOST_TASKS`] were asked for.
    pub fn of_tasks(work: Work, cores: u32, tasks: u64) -> Self {
        let shards = work.shards.max(1);
        let tasks = tasks.clamp(1, shards.min(MOST_TASKS));
        let most_shards = shards.div_ceil(tasks);
        let shard_seconds = work.thread_seconds / shards as f64 / f64::from(cores.max(1));
        let task_minutes = most_shards as f64 * shard_seconds / 60.0;
        let limit_minutes = whole((SAFETY * task_minutes + ON_TOP_MINUTES).ceil())
            .clamp(SHORTEST_LIMIT_MINUTES, LONGEST_LIMIT_MINUTES);
        Self { tasks, most_shards, task_minutes, limit_minutes }
    }
}

/// The nearest count; NaN gives none.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
fn whole(number: f64) -> u64 {
    number as u64
}
