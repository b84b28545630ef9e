//! Whether the misses change one way along an axis: one treatment for every kind of result.

use super::subject::Finding;
use crate::telling::AskedUnits;
use std::fmt::Write as _;

/// A direction in which misses may change.
#[derive(Debug, Clone, Copy)]
pub struct Trend {
    /// As in `it rises`.
    pub verb: &'static str,
    /// As in `they rise`.
    pub plural: &'static str,
    rises: bool,
}

impl Trend {
    pub const RISES: Self = Self { verb: "rises", plural: "rise", rises: true };
    pub const FALLS: Self = Self { verb: "falls", plural: "fall", rises: false };

    fn keeps(self, before: f64, after: f64) -> bool {
        if self.rises { after > before } else { after < before }
    }
}

/// Looks along each line of rows, in the order of the axis. A row without a miss breaks its line: what
/// never comes to the pocket passes no expectation about a miss.
pub fn steady(
    lines: &[Vec<usize>],
    way: Trend,
    units: AskedUnits,
    miss_m: impl Fn(usize) -> Option<f64>,
    say_row: impl Fn(usize) -> String,
) -> Finding {
    let mut steady = 0;
    let mut first_break = None;
    for rows in lines {
        let broken = rows.windows(2).find(|pair| {
            !matches!((miss_m(pair[0]), miss_m(pair[1])), (Some(a), Some(b)) if way.keeps(a, b))
        });
        match broken {
            None => steady += 1,
            Some(pair) if first_break.is_none() => first_break = Some((pair[0], pair[1])),
            Some(_) => {}
        }
    }
    let shown = |row: usize| {
        let miss = miss_m(row).map_or_else(
            || "never comes to the pocket".to_owned(),
            |miss_m| format!("miss {}", units.hundredth(miss_m)),
        );
        format!("{}: {miss}", say_row(row))
    };
    let count = lines.len();
    let mut words = match lines {
        [only] if steady == 1 => {
            let [first, last] = [only.first(), only.last()]
                .map(|row| row.map_or_else(String::new, |row| shown(*row)));
            format!("it {}, from {first} to {last}", way.verb)
        }
        _ => format!("{steady} of {count} lines {} throughout", way.plural),
    };
    if let Some((before, after)) = first_break {
        let _ = write!(words, "; not from {} to {}", shown(before), shown(after));
    }
    Finding { held: count > 0 && steady == count, words }
}

/// The words for an axis with fewer than two numbers here.
pub fn too_few(name: &str, kept: usize) -> String {
    let has = if kept == 1 { "one value" } else { "no numbers" };
    format!("`{name}` has {has} here; a change along it needs two numbers or more")
}
