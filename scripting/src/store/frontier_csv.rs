//! The intervals of a frontier as CSV: a line for each interval, or one without an interval for a
//! line that holds nowhere.

use super::columns::value;
use crate::record::FrontierRecord;
use railproof_engine::attribution::CauseShare;
use railproof_engine::frontier::{Certificate, FrontierLine, Interval, IntervalEnd, Sheet};
use railproof_engine::sweep::Input;
use std::io::{self, Write};

/// Columns of one end, after its name.
const END: [&str; 5] = ["holds_at", "breaks_at", "breaks", "verdict_beyond", "why"];

/// Writes the whole table.
pub(super) fn write(front: &FrontierRecord, out: &mut dyn Write) -> io::Result<()> {
    let mut writer = csv::Writer::from_writer(out);
    let (along, across) = (front.search.along, front.search.across.map(|across| across.input));
    let axes = front.plan.axes();
    let fixed = axes.iter().filter(|axis| axis.input != along && Some(axis.input) != across);
    let along_name = along.column();
    let mut columns: Vec<String> =
        ["sheet", "line", "looked"].map(str::to_owned).into_iter().collect();
    columns.extend(fixed.map(|axis| axis.input.column()));
    columns.push("rule".to_owned());
    columns.extend(across.map(Input::column));
    columns.extend(["part", "interval"].map(str::to_owned));
    for end in ["low", "high"] {
        columns.extend(END.iter().map(|column| match *column {
            "holds_at" | "breaks_at" => format!("{end}_{column}_{along_name}"),
            other => format!("{end}_{other}"),
        }));
    }
    columns.push(format!("most_room_at_{along_name}"));
    columns.push("most_room_m".to_owned());
    columns.push(format!("flagged_from_{along_name}"));
    columns.push(format!("flagged_to_{along_name}"));
    columns.push(format!("widest_gap_{along_name}"));
    writer.write_record(&columns)?;
    for (sheet_number, sheet) in front.found.sheets.iter().enumerate() {
        for (line_number, line) in sheet.lines.iter().enumerate() {
            let mut fields = vec![sheet_number.to_string(), line_number.to_string()];
            fields.push(match line.looked {
                Certificate::Searched { .. } => "searched".to_owned(),
                Certificate::Followed => "followed".to_owned(),
            });
            for (axis, digit) in sheet.digits.iter().enumerate() {
                let input = axes[axis].input;
                if input != along && Some(input) != across {
                    fields.push(value(&front.plan, axis, *digit));
                }
            }
            let rule = front.rules.get(sheet.rule).map(|rule| rule.name.clone());
            fields.push(rule.unwrap_or_default());
            fields.extend(line.across.map(|across| across.to_string()));
            if line.intervals.is_empty() {
                writer.write_record(nowhere(fields.clone(), line))?;
            }
            for (number, interval) in line.intervals.iter().enumerate() {
                let mut fields = fields.clone();
                fields.push(
                    part(sheet, line_number, number)
                        .map_or_else(String::new, |part| part.to_string()),
                );
                fields.push(number.to_string());
                holding(&mut fields, line, interval);
                fields.push(line.widest_gap().map_or_else(String::new, |gap| gap.to_string()));
                writer.write_record(&fields)?;
            }
        }
    }
    writer.flush()
}

/// A line that holds nowhere: the place nearest to holding stands for it.
fn nowhere(mut fields: Vec<String>, line: &FrontierLine) -> Vec<String> {
    fields.extend(std::iter::repeat_n(String::new(), 2 + 2 * END.len()));
    let (at, outcome) =
        line.nearest.map_or((None, None), |(at, outcome)| (Some(at), Some(outcome)));
    fields.push(number(at));
    fields.push(number(outcome.and_then(|outcome| outcome.clearance_m())));
    fields.extend([String::new(), String::new()]);
    fields.push(number(line.widest_gap()));
    fields
}

fn holding(fields: &mut Vec<String>, line: &FrontierLine, interval: &Interval) {
    for end in [&interval.low, &interval.high] {
        fields.extend(told(end));
    }
    // Of a line on which only edges were followed, nothing further in is known.
    let (at, outcome) = interval.best;
    let flagged = interval.flagged.filter(|_| line.is_searched());
    fields.push(number(line.is_searched().then_some(at)));
    fields.push(number(outcome.clearance_m().filter(|_| line.is_searched())));
    fields.push(number(flagged.map(|(from, _)| from)));
    fields.push(number(flagged.map(|(_, to)| to)));
}

fn told(end: &IntervalEnd) -> [String; END.len()] {
    let holds_at = end.holding.to_string();
    let Some(breaking) = &end.breaking else {
        return [holds_at, String::new(), String::new(), String::new(), String::new()];
    };
    let why: Vec<String> =
        breaking.why.iter().flat_map(|why| &why.shares).filter_map(cause).collect();
    [
        holds_at,
        breaking.at.to_string(),
        end.way().map_or_else(String::new, |way| way.name().to_owned()),
        breaking.outcome.verdict().name().to_owned(),
        why.join("; "),
    ]
}

/// A cause, its SI value at the edge and at the place of most room, and its share of the change of
/// the miss.
fn cause(share: &CauseShare) -> Option<String> {
    let CauseShare { cause, actual, reference, share_m } = share;
    (*share_m != 0.0).then(|| {
        format!(
            "{} {actual:.6} at the edge, {reference:.6} at most room, share {:.3} mm",
            cause.name(),
            1e3 * share_m
        )
    })
}

fn number(value: Option<f64>) -> String {
    value.map_or_else(String::new, |value| value.to_string())
}

fn part(sheet: &Sheet, line: usize, interval: usize) -> Option<usize> {
    let here = |strip: &&railproof_engine::frontier::Strip| {
        line.checked_sub(strip.first_line).and_then(|at| strip.intervals.get(at)) == Some(&interval)
    };
    sheet.strips.iter().find(here).map(|strip| strip.part)
}
