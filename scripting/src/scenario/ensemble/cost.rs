//! What a question to many tables costs, told before it is asked.

use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::scenario::session::Session;
use crate::telling::amounts::grouped;
use railproof_engine::ask::holding_shares;
use railproof_engine::column::SetUp;
use railproof_engine::ensemble::Ensemble;
use std::time::Instant;

/// The most banks that one question plays.
pub const MOST_BANKS: usize = 40_000_000;
/// Shorter work is not told of, s.
const PATIENCE_S: f64 = 10.0;
/// Members and set-ups whose banks are timed first; fewer banks than this many of them are never told of.
const TIMED: (usize, usize) = (16, 64);
const WORTH_TIMING: usize = 100;
const TIMES: usize = 3;

/// Refuses more banks than a question may play; `each` is the banks that one cell takes on one table.
pub fn check(
    known: &MeasuredTable,
    (cells, each): (usize, usize),
    complain: impl Fn(String) -> Fault,
) -> Result<(), Fault> {
    let tables = known.ensemble.len();
    if cells.saturating_mul(each).saturating_mul(tables) <= MOST_BANKS {
        return Ok(());
    }
    let most = MOST_BANKS / tables / each;
    Err(complain(format!(
        "{} banks on {} tables each are too many",
        grouped(cells as u64),
        grouped(tables as u64)
    ))
    .with_hint(format!(
        "take coarser steps or fewer rules: at most {} banks",
        grouped(most as u64)
    )))
}

/// Tells those who wait how many banks are played and about how long, where it is long. Some of the banks are
/// timed for it.
pub fn tell(session: &Session, known: &MeasuredTable, set_ups: &[SetUp], each: usize) {
    let tables = known.ensemble.len();
    let banks = set_ups.len() * tables * each;
    let few: Vec<SetUp> =
        set_ups.iter().step_by((set_ups.len() / TIMED.1).max(1)).take(TIMED.1).copied().collect();
    let members: Vec<_> = known.ensemble.members().iter().take(TIMED.0).copied().collect();
    let timed = few.len() * members.len();
    if banks <= WORTH_TIMING * timed {
        return;
    }
    let some = Ensemble::even(members);
    // The quickest of a few: the others had to wait for the machine.
    let mut quickest_s = f64::INFINITY;
    for _ in 0..TIMES {
        let since = Instant::now();
        if holding_shares(&known.table, known.model, &some, &few, &|| ()).is_err() {
            return;
        }
        quickest_s = quickest_s.min(since.elapsed().as_secs_f64());
    }
    let seconds = quickest_s * banks as f64 / timed as f64;
    if seconds > PATIENCE_S {
        session.say(&format!(
            "{} banks on {} tables each: {} in all, about {:.0} s",
            grouped((set_ups.len() * each) as u64),
            grouped(tables as u64),
            grouped(banks as u64),
            seconds
        ));
    }
}
