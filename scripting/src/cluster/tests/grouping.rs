//! Shards grouped into tasks.

use super::super::{Grouping, MOST_TASKS, Work};

fn work(shards: u64, thread_seconds: f64) -> Work {
    Work { shards, thread_seconds }
}

/// Two hours on one core in tasks of ten minutes: twelve, of 5 shards and 10 minutes each, with
/// three times that and two minutes as the limit.
#[test]
fn tasks_take_the_minutes_asked_for() {
    let grouping = Grouping::of_minutes(work(60, 7200.0), 1, 10.0);
    let expected = Grouping { tasks: 12, most_shards: 5, task_minutes: 10.0, limit_minutes: 32 };
    assert_eq!(grouping, expected);
    // Four cores do it in three tasks of the same length.
    let on_four = Grouping::of_minutes(work(60, 7200.0), 4, 10.0);
    assert_eq!(on_four, Grouping { tasks: 3, most_shards: 20, ..expected });
}

#[test]
fn every_task_has_a_shard_and_every_shard_a_task() {
    for shards in [1, 2, 3, 7, 999, 1000, 1001, 123_456] {
        for minutes in [0.001, 0.1, 10.0, 1e6] {
            let grouping = Grouping::of_minutes(work(shards, 3600.0), 2, minutes);
            assert!((1..=shards.min(MOST_TASKS)).contains(&grouping.tasks));
            assert!(grouping.tasks * grouping.most_shards >= shards);
            assert!(grouping.tasks * (grouping.most_shards - 1) < shards);
        }
    }
}

#[test]
fn uneven_shares_are_timed_by_the_longest() {
    // Seven shards of a minute in three tasks: one task has three.
    let grouping = Grouping::of_tasks(work(7, 420.0), 1, 3);
    assert_eq!((grouping.most_shards, grouping.task_minutes), (3, 3.0));
}

#[test]
fn limits_are_never_too_short_nor_without_end() {
    assert_eq!(Grouping::of_tasks(work(4, 0.01), 1, 4).limit_minutes, 5);
    assert_eq!(Grouping::of_tasks(work(1, 1e300), 1, 1).limit_minutes, 366 * 24 * 60);
    assert_eq!(Grouping::of_minutes(work(5, f64::NAN), 1, 10.0).tasks, 1);
}

/// A node that takes 2.9 times the estimate still ends before the notice, which may come two
/// minutes early in the worst case.
#[test]
fn limits_leave_room_for_slow_nodes() {
    for minutes in [3.0, 10.0, 60.0, 600.0] {
        let grouping = Grouping::of_tasks(work(10, 600.0 * minutes), 1, 10);
        assert!(grouping.limit_minutes as f64 >= 3.0 * minutes + 2.0);
    }
}
