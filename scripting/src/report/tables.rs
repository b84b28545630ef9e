//! Counts of verdicts, rankings and fits in text.

use super::words::{count, degrees, miss, share, short};
use crate::record::{MapRecord, StartsRecord};
use crate::telling::caution::FLAGGED;
use railproof_engine::bank::{BankVerdict, Direction};
use railproof_engine::sweep::{Summary, fit_through_origin, fit_with_offset, rank};

/// Rules in a table; more are counted.
const MOST_RULES: usize = 20;
const LONGEST_RULE_NAME: usize = 40;

/// The counts of a map's outcomes, a line each.
pub(super) fn counts(summary: &Summary) -> Vec<String> {
    let mut lines = vec![format!(
        "{} of {} hold ({})",
        summary.holds,
        count(summary.count, "bank", "banks"),
        share(summary.holds, summary.count)
    )];
    let other: Vec<String> = [
        (BankVerdict::TouchesPoint(Direction::Long), "touch a point of the mouth"),
        (BankVerdict::Long, "go long"),
        (BankVerdict::Short, "fall short"),
        (BankVerdict::OtherRail, "meet another rail"),
        (BankVerdict::OtherPocket, "find another pocket"),
        (BankVerdict::NoRoom, "have no room for their line"),
        (BankVerdict::StoppedBeforeRail, "stop before the rail"),
    ]
    .into_iter()
    .filter(|(verdict, _)| summary.number_of(*verdict) > 0)
    .map(|(verdict, words)| format!("{} {words}", summary.number_of(verdict)))
    .collect();
    if !other.is_empty() {
        lines.push(other.join(", "));
    }
    if summary.stopped_before_mouth > 0 {
        lines.push(format!(
            "{} stop before the mouth ({})",
            summary.stopped_before_mouth,
            share(summary.stopped_before_mouth, summary.count)
        ));
    }
    if summary.with_miss > 0 {
        lines.push(format!(
            "miss: worst {}, root mean square {} mm, over the {} that come to the mouth line",
            miss(summary.worst_miss_m),
            short(1e3 * summary.rms_miss_m, 1),
            summary.with_miss
        ));
    }
    if summary.flagged > 0 {
        lines.push(format!(
            "{} flagged ({}): {FLAGGED}",
            summary.flagged,
            share(summary.flagged, summary.count)
        ));
    }
    lines
}

/// The meaning of a ranking's last column.
pub(super) const HOLDS_OVER: &str =
    "holds over: the widest stretch of angles into the rail without a miss";

/// The rules of a map, best first; nothing for one rule or none.
pub(super) fn ranking(map: &MapRecord) -> Vec<String> {
    if map.rules.len() < 2 {
        return Vec::new();
    }
    let standings = rank(&map.rows, map.rules.len());
    let mut rows =
        vec![["", "rule", "holds", "worst miss", "rms", "holds over"].map(str::to_owned)];
    for (place, standing) in standings.iter().take(MOST_RULES).enumerate() {
        let summary = &standing.summary;
        let (worst, rms) = if summary.with_miss == 0 {
            ("-".to_owned(), "-".to_owned())
        } else {
            (miss(summary.worst_miss_m), format!("{} mm", short(1e3 * summary.rms_miss_m, 1)))
        };
        rows.push([
            format!("{}.", place + 1),
            cut(map.rules.get(standing.rule).map_or("", |rule| rule.name.as_str())),
            share(summary.holds, summary.count),
            worst,
            rms,
            standing.holding_angles_rad.map_or_else(
                || "nowhere".to_owned(),
                |(from, to)| format!("{} to {} deg", degrees(from), degrees(to)),
            ),
        ]);
    }
    let mut lines = aligned(&rows);
    if standings.len() > MOST_RULES {
        lines.push(format!("and {} more", standings.len() - MOST_RULES));
    }
    lines
}

/// The straight lines nearest to exact start numbers.
pub(super) fn fits(starts: &StartsRecord) -> Vec<String> {
    let pairs = starts.pairs();
    let all = starts.rows.len();
    let mut lines = vec![format!(
        "an exact start was found for {} of {}",
        pairs.len(),
        count(all, "point", "points")
    )];
    if let Some(fit) = fit_through_origin(&pairs) {
        lines.push(format!(
            "start = {} × contact (off by at most {} diamonds, root mean square {})",
            short(fit.slope, 3),
            short(fit.worst.abs(), 3),
            short(fit.rms, 3)
        ));
    }
    if pairs.len() > 2
        && let Some(fit) = fit_with_offset(&pairs)
    {
        let offset = short(fit.offset.abs(), 3);
        let sign = if fit.offset < 0.0 && offset != "0" { "−" } else { "+" };
        lines.push(format!(
            "start = {} × contact {sign} {offset} (off by at most {} diamonds, root mean square {})",
            short(fit.slope, 3),
            short(fit.worst.abs(), 3),
            short(fit.rms, 3)
        ));
    }
    if let Some(why) = starts.rows.iter().find_map(|row| row.start.as_ref().err()) {
        lines.push(format!("without one, the first: {why}"));
    }
    lines
}

fn cut(name: &str) -> String {
    if name.chars().count() <= LONGEST_RULE_NAME {
        name.to_owned()
    } else {
        name.chars().take(LONGEST_RULE_NAME - 1).chain(['…']).collect()
    }
}

/// Columns under one another, to the left.
fn aligned<const N: usize>(rows: &[[String; N]]) -> Vec<String> {
    let width = |column: usize| rows.iter().map(|row| row[column].chars().count()).max();
    let widths: Vec<usize> = (0..N).map(|column| width(column).unwrap_or(0)).collect();
    rows.iter()
        .map(|row| {
            let cells = row.iter().zip(&widths).map(|(cell, width)| {
                format!("{cell}{}", " ".repeat(width.saturating_sub(cell.chars().count())))
            });
            cells.collect::<Vec<_>>().join("  ").trim_end().to_owned()
        })
        .collect()
}
