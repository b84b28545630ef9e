//! Expectations about the size and sign of misses.

use super::verdicts::{all_rows, length};
use super::{Expected, Found};
use mlua::{Lua, Value};
use railproof_engine::sweep::Row;
use std::fmt::Write as _;

fn by(
    lua: &Lua,
    this: &Expected,
    call: &str,
    value: &Value,
    (what, expected): (&str, &str),
    passes: fn(f64, f64) -> bool,
) -> mlua::Result<Expected> {
    let (metres, shown) = length(lua, call, value)?;
    // A bank without a miss never came to the mouth: it can't pass.
    let row_passes = |row: &Row| row.outcome.miss_m().is_some_and(|miss| passes(miss, metres));
    let mut found = all_rows(&this.0, what, row_passes);
    let summary = this.0.summary();
    if summary.with_miss > 0 && summary.count > 1 {
        let _ = write!(found.words, "; the worst is {:.1} mm", 1e3 * summary.worst_miss_m);
    }
    this.record(lua, call, &format!("{expected} {shown}"), found)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn within(lua: &Lua, this: &Expected, most: Value) -> mlua::Result<Expected> {
    by(lua, this, "misses_within", &most, ("are as near", "misses by at most"), |miss, most| {
        miss.abs() <= most
    })
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn long_by_at_least(lua: &Lua, this: &Expected, least: Value) -> mlua::Result<Expected> {
    let words = ("are as long", "is long of the middle by at least");
    by(lua, this, "misses_long_by_at_least", &least, words, |miss, least| miss >= least)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn short_by_at_least(lua: &Lua, this: &Expected, least: Value) -> mlua::Result<Expected> {
    let words = ("are as short", "is short of the middle by at least");
    by(lua, this, "misses_short_by_at_least", &least, words, |miss, least| -miss >= least)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn spread_within(lua: &Lua, this: &Expected, most: Value) -> mlua::Result<Expected> {
    const CALL: &str = "spread_within";
    let (metres, shown) = length(lua, CALL, &most)?;
    let summary = this.0.summary();
    let without = summary.count - summary.with_miss;
    let found = match this.0.spread_m() {
        Some(spread) if without == 0 => Found {
            held: spread <= metres,
            words: format!("largest less smallest miss is {:.1} mm", 1e3 * spread),
        },
        _ => Found {
            held: false,
            words: format!("{without} of {} banks never come to the mouth", summary.count),
        },
    };
    this.record(lua, CALL, &format!("misses lie within {shown} of each other"), found)
}
