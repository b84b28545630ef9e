//! Rankings and fits in text.

use crate::record::{MapRecord, StartsRecord};
use crate::telling::{count, degrees, share_of};
use railproof_engine::sweep::{fit_through_origin, fit_with_offset, rank};
use railproof_engine::units::short_number as short;

/// Rules in a table; more are counted.
const MOST_RULES: usize = 20;
const LONGEST_RULE_NAME: usize = 40;

/// The meaning of a ranking's last column.
pub(super) const HOLDS_OVER: &str =
    "holds over: the widest stretch of angles into the rail without a miss";

/// The rules of a map, best first; nothing for one rule or none.
pub(super) fn ranking(map: &MapRecord) -> Vec<String> {
    if map.rules.len() < 2 {
        return Vec::new();
    }
    let units = map.units;
    let standings = rank(&map.rows, map.rules.len());
    let mut rows =
        vec![["", "rule", "holds", "worst miss", "rms", "holds over"].map(str::to_owned)];
    for (place, standing) in standings.iter().take(MOST_RULES).enumerate() {
        let tally = &standing.tally;
        let told = |number: Option<String>| number.unwrap_or_else(|| "-".to_owned());
        let worst = told(tally.worst_miss_m.map(|miss_m| units.miss(miss_m)));
        let rms = told(tally.rms_miss_m().map(|rms_m| units.tenth(rms_m)));
        rows.push([
            format!("{}.", place + 1),
            cut(map.rules.get(standing.rule).map_or("", |rule| rule.name.as_str())),
            share_of(tally.holds(), tally.played()),
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

/// The best rule of several in a sentence; nothing for one rule or none.
pub(super) fn best(map: &MapRecord) -> Option<String> {
    if map.rules.len() < 2 {
        return None;
    }
    let standings = rank(&map.rows, map.rules.len());
    let holds = standings.first()?.tally.holds();
    let alike = standings.iter().take_while(|standing| standing.tally.holds() == holds);
    let names = alike.map(|it| map.rules.get(it.rule).map_or("", |rule| rule.name.as_str()));
    let names: Vec<String> = names.map(cut).collect();
    let (count, share) = (map.rules.len(), share_of(holds, standings[0].tally.played()));
    Some(match names.as_slice() {
        [one] => format!("Of {count} rules, {one} holds most often ({share})."),
        several => {
            format!("Of {count} rules, these tie for most often ({share}): {}.", several.join("; "))
        }
    })
}

/// The straight lines nearest to exact start numbers.
pub(super) fn fits(starts: &StartsRecord) -> Vec<String> {
    let pairs = starts.pairs();
    let all = starts.rows.len() as u64;
    let mut lines = vec![format!(
        "an exact start was found for {} of {}",
        pairs.len(),
        count(all, "point", "points")
    )];
    if let Some(fit) = fit_through_origin(&pairs) {
        lines.push(format!(
            "start = {} × contact across the grooves (off by at most {} diamonds, root mean square {})",
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
            "start = {} × contact {sign} {offset} across the grooves (off by at most {} diamonds, root mean square {})",
            short(fit.slope, 3),
            short(fit.worst.abs(), 3),
            short(fit.rms, 3)
        ));
    }
    if let Some(why) = starts.rows.iter().find_map(|row| row.start.as_ref().err()) {
        lines.push(format!("the first without one: {why}"));
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
