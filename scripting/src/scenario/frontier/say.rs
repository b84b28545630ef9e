//! A frontier in plain sentences.

use super::front::Front;
use super::measure::InputFormat;
use super::why::{because, breaks};
use crate::lua::quantity::shown;
use crate::scenario::picked::AxisOrRules;
use crate::telling::amounts::grouped;
use crate::telling::caution::FLAGGED;
use railproof_engine::bank::BankVerdict;
use railproof_engine::frontier::{FrontierLine, IntervalEnd};

/// Lines that are told; further ones are in the files.
const MOST_LINES: usize = 60;

/// A sentence for each kept line, and one about what was looked at.
pub fn say(front: &Front) -> String {
    let measured = front.measured();
    let (from, to) = ends(front);
    let mut sentences: Vec<String> = front
        .lines()
        .take(MOST_LINES)
        .map(|(sheet, line, place)| {
            let told = told(line, measured, (from, to));
            let label = front.say_line(sheet, place);
            if label.is_empty() {
                capital(&format!("{told}."))
            } else {
                capital(&format!("{label}: {told}."))
            }
        })
        .collect();
    let more = front.lines().count().saturating_sub(MOST_LINES);
    if more > 0 {
        sentences.push(format!("… and {more} more lines."));
    }
    if front.lines().any(|(_, line, _)| {
        line.intervals
            .iter()
            .any(|interval| because(&interval.low).or(because(&interval.high)).is_some())
    }) {
        sentences.push("In parentheses: the same at the place with the most room.".to_owned());
    }
    if front.lines().any(|(_, line, _)| line.intervals.iter().any(|i| i.flagged.is_some())) {
        sentences.push(format!("Flagged: {FLAGGED}."));
    }
    sentences.extend(front.cautions().lines());
    sentences.push(certificate(front));
    sentences.join("\n")
}

/// The range searched along.
fn ends(front: &Front) -> (f64, f64) {
    let probes = &front.record.found.probes;
    (probes.first().copied().unwrap_or(f64::NAN), probes.last().copied().unwrap_or(f64::NAN))
}

fn told(line: &FrontierLine, measured: InputFormat, (from, to): (f64, f64)) -> String {
    let [first, ..] = line.intervals.as_slice() else { return nowhere(line, measured, (from, to)) };
    let stretch = |low: &IntervalEnd, high: &IntervalEnd| match (&low.breaking, &high.breaking) {
        (None, None) => {
            format!("all the way from {} to {}", measured.say(from), measured.say(to))
        }
        (Some(_), None) => format!("from {} up", measured.say(low.place())),
        (None, Some(_)) => format!("up to {}", measured.say(high.place())),
        (Some(_), Some(_)) => {
            format!("from {} up to {}", measured.say(low.place()), measured.say(high.place()))
        }
    };
    let stretches: Vec<String> =
        line.intervals.iter().map(|interval| stretch(&interval.low, &interval.high)).collect();
    let mut parts = vec![format!("it holds {}", stretches.join(" and "))];
    let why = |end: &IntervalEnd| because(end).map_or_else(String::new, |why| format!(": {why}"));
    if let Some(way) = first.low.way() {
        parts.push(format!("below that {}{}", breaks(way), why(&first.low)));
    }
    for pair in line.intervals.windows(2) {
        let (lower, upper) = (&pair[0].high, &pair[1].low);
        let (Some(one), Some(other)) = (lower.way(), upper.way()) else { continue };
        let ways = if one == other {
            breaks(one).to_owned()
        } else {
            format!("first {}, then {}", breaks(one), breaks(other))
        };
        parts.push(format!("between these {ways}{}", why(lower)));
    }
    if let Some(last) = line.intervals.last()
        && let Some(way) = last.high.way()
    {
        parts.push(format!("above that {}{}", breaks(way), why(&last.high)));
    }
    let flagged = line.intervals.iter().filter_map(|interval| interval.flagged);
    if let Some((from, to)) = flagged.reduce(|(from, _), (_, to)| (from, to)) {
        parts.push(format!(
            "flagged from about {} to about {}",
            measured.say(from),
            measured.say(to)
        ));
    }
    parts.join("; ")
}

fn nowhere(line: &FrontierLine, measured: InputFormat, (from, to): (f64, f64)) -> String {
    let range = format!("it holds nowhere from {} to {}", measured.say(from), measured.say(to));
    let Some((at, outcome)) = &line.nearest else { return range };
    let missing =
        outcome.clearance_m().map(|room| format!("{} mm", shown((-1e4 * room).round() / 10.0)));
    let Some(missing) = missing else {
        return format!("{range}; no ball comes to the mouth");
    };
    let how = match outcome.verdict() {
        BankVerdict::TouchesPoint(_) | BankVerdict::Long | BankVerdict::Short => {
            outcome.verdict().direction().map_or("", |direction| match direction {
                railproof_engine::bank::Direction::Long => " on the long side",
                railproof_engine::bank::Direction::Short => " on the short side",
            })
        }
        _ => "",
    };
    format!("{range}; it comes nearest at {}, where it lacks {missing}{how}", measured.say(*at))
}

/// The places looked at, the widths that may have been missed, and the cost of a grid as fine.
pub fn certificate(front: &Front) -> String {
    let (record, measured) = (&front.record, front.measured());
    let along = front.picked.name_of(AxisOrRules::Axis(front.along));
    let probes = record.found.probes.len();
    let mut parts = vec![format!(
        "Edges to {} along {along}, from {probes} probes a line; what is narrower than {} and shows in \
         no clearance may be missed",
        measured.apart(record.search.tolerance),
        measured.apart(record.widest_gap())
    )];
    if record.unsettled() > 0 {
        parts.push(format!("{} stretches stay unsettled", record.unsettled()));
    }
    if let (Some(across), Some(over), Some(place)) =
        (record.search.across, front.measured_over(), front.over)
    {
        let name = front.picked.name_of(AxisOrRules::Axis(place));
        parts.push(format!(
            "traced over {name}, turning points to {}",
            over.apart(across.tolerance)
        ));
    }
    let saving = record.found.saving();
    let times = shown(if saving < 10.0 { (10.0 * saving).round() / 10.0 } else { saving.round() });
    parts.push(format!(
        "{} banks played, where a grid as fine takes {}: {times} times as many",
        grouped(record.found.banks_played()),
        grouped(record.found.dense_banks)
    ));
    format!("{}.", parts.join("; "))
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}
