//! Shares and intervals in a few words.

use super::shares::state;
use crate::lua::quantity::shown;
use crate::telling::InputFormat;
use mlua::{Lua, Table};
use railproof_engine::ask::{
    Agreement, BandLine, CredibleInterval, MemberShare, ShareCrossing, ShareLevel,
};

/// A share in hundredths, with twice its error.
pub fn of_hundred(share: MemberShare) -> String {
    let tenth = |share: f64| shown((1000.0 * share).round() / 10.0);
    format!("{} ±{}", tenth(share.share), tenth(2.0 * share.error))
}

/// The fields of an interval.
pub const INTERVAL: &[&str] = &["middle", "from", "to", "half_from", "half_to"];

/// An interval as a table: the middle, nine times in ten from `from` to `to`, and every other time from
/// `half_from` to `half_to`.
pub fn interval(lua: &Lua, interval: CredibleInterval) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    let (half, ninety) = (interval.half, interval.ninety);
    let numbers = [interval.middle, ninety.0, ninety.1, half.0, half.1];
    for (name, number) in INTERVAL.iter().zip(numbers) {
        table.raw_set(*name, number)?;
    }
    Ok(table)
}

/// A line of a band in words: `sure to 3.1 in, depends to 5.6 in, misses beyond; half of the tables hold at
/// 4.2 in (3.9 in to 4.4 in)`.
pub fn line_words(line: &BandLine, along: InputFormat) -> String {
    let stretches = line.stretches();
    let told: Vec<String> = stretches
        .iter()
        .enumerate()
        .map(|(at, stretch)| {
            let word = match stretch.agreement {
                Agreement::All => "sure",
                agreement => state(agreement),
            };
            if at + 1 < stretches.len() {
                format!("{word} to {}", along.tick(stretch.to))
            } else if at == 0 {
                format!("{word} all the way")
            } else {
                format!("{word} beyond")
            }
        })
        .collect();
    let halves: Vec<String> =
        line.crossings_of(ShareLevel::Half).map(|crossing| place_words(crossing, along)).collect();
    let halves = if halves.is_empty() {
        String::new()
    } else {
        format!("; half of the tables hold at {}", halves.join(" and at "))
    };
    told.join(", ") + &halves
}

/// A crossing with the range in which it lies.
fn place_words(crossing: &ShareCrossing, along: InputFormat) -> String {
    let [from, to] = [crossing.range.0, crossing.range.1].map(|place| along.tick(place));
    format!("{} ({from} to {to})", along.tick(crossing.place))
}
