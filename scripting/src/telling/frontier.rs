//! A frontier in plain sentences.

use super::amounts::grouped;
use super::asked_units::AskedUnits;
use super::caution::{Cautions, FLAGGED};
use super::edge::{because, breaks_at};
use super::input_format::InputFormat;
use super::wording::capital;
use crate::lua::quantity::shown;
use railproof_engine::bank::BankVerdict;
use railproof_engine::frontier::{Frontier, FrontierLine, IntervalEnd, Search};

/// Lines that are told; further ones are in the files.
const MOST_LINES: usize = 60;

/// Lines of a frontier with all that their sentences name.
pub struct FrontierTelling<'a> {
    /// The inputs searched, and the tolerances.
    pub search: &'a Search,
    /// The edges, and the looks that found them.
    pub found: &'a Frontier,
    /// Each line with its values in words; no words for the only line.
    pub lines: Vec<(String, &'a FrontierLine)>,
    /// The title of the input searched along, and the format of its values.
    pub along: (&'static str, InputFormat),
    /// The same of the input traced over.
    pub over: Option<(&'static str, InputFormat)>,
    /// The cautions where these lines hold.
    pub cautions: Cautions,
    /// The units of lengths.
    pub units: AskedUnits,
    /// The one line by both readings; nothing where there are several.
    pub readings: Option<String>,
}

impl FrontierTelling<'_> {
    /// A sentence for each line, and one about the places looked at.
    pub fn sentences(&self) -> String {
        let measured = self.along.1;
        let told = |(label, line): &(String, &FrontierLine)| {
            let told = told(line, measured, self.ends(), self.units);
            if label.is_empty() {
                capital(&format!("{told}."))
            } else {
                capital(&format!("{label}: {told}."))
            }
        };
        let mut sentences: Vec<String> = self.lines.iter().take(MOST_LINES).map(told).collect();
        let more = self.lines.len().saturating_sub(MOST_LINES);
        if more > 0 {
            sentences.push(format!("… and {more} more lines."));
        }
        sentences.extend(self.readings.iter().map(|told| format!("{}.", capital(told))));
        let mut intervals = self.lines.iter().flat_map(|(_, line)| &line.intervals);
        if intervals
            .clone()
            .any(|it| because(&it.low, self.units).or(because(&it.high, self.units)).is_some())
        {
            sentences.push("In parentheses: the same at the place with the most room.".to_owned());
        }
        if intervals.any(|interval| interval.flagged.is_some()) {
            sentences.push(format!("Flagged: {FLAGGED}."));
        }
        sentences.extend(self.cautions.lines());
        sentences.push(self.certificate());
        sentences.join("\n")
    }

    /// The range searched along.
    fn ends(&self) -> (f64, f64) {
        let probes = &self.found.probes;
        (probes.first().copied().unwrap_or(f64::NAN), probes.last().copied().unwrap_or(f64::NAN))
    }

    /// The places looked at, the widths that may have been missed, and the cost of a grid as fine.
    pub fn certificate(&self) -> String {
        let (found, (along, measured)) = (self.found, self.along);
        let probes = found.probes.len();
        let mut parts = vec![format!(
            "Edges to {} along {along}, from {probes} probes a line; what is narrower than {} and shows in \
             no clearance may be missed",
            measured.apart(self.search.tolerance),
            measured.apart(found.widest_gap())
        )];
        if found.unsettled() > 0 {
            parts.push(format!("{} stretches stay unsettled", found.unsettled()));
        }
        if let (Some(across), Some((name, over))) = (self.search.across, self.over) {
            parts.push(format!(
                "traced over {name}, turning points to {}",
                over.apart(across.tolerance)
            ));
        }
        let saving = found.saving();
        let times =
            shown(if saving < 10.0 { (10.0 * saving).round() / 10.0 } else { saving.round() });
        parts.push(format!(
            "{} banks played, where a grid as fine takes {}: {times} times as many",
            grouped(found.banks_played()),
            grouped(found.dense_banks)
        ));
        format!("{}.", parts.join("; "))
    }
}

fn told(
    line: &FrontierLine,
    measured: InputFormat,
    (from, to): (f64, f64),
    units: AskedUnits,
) -> String {
    let [first, ..] = line.intervals.as_slice() else {
        return nowhere(line, measured, (from, to), units);
    };
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
    let why =
        |end: &IntervalEnd| because(end, units).map_or_else(String::new, |why| format!(": {why}"));
    if let Some(breaks) = breaks_at(&first.low) {
        parts.push(format!("below that {breaks}{}", why(&first.low)));
    }
    for pair in line.intervals.windows(2) {
        let (lower, upper) = (&pair[0].high, &pair[1].low);
        let (Some(one), Some(other)) = (breaks_at(lower), breaks_at(upper)) else { continue };
        let ways = if one == other { one } else { format!("first {one}, then {other}") };
        parts.push(format!("between these {ways}{}", why(lower)));
    }
    if let Some(last) = line.intervals.last()
        && let Some(breaks) = breaks_at(&last.high)
    {
        parts.push(format!("above that {breaks}{}", why(&last.high)));
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

fn nowhere(
    line: &FrontierLine,
    measured: InputFormat,
    (from, to): (f64, f64),
    units: AskedUnits,
) -> String {
    let range = format!("it holds nowhere from {} to {}", measured.say(from), measured.say(to));
    let Some((at, outcome)) = &line.nearest else { return range };
    let missing = outcome.clearance_m().map(|room| units.length(-room));
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
