//! A line's numbers by both readings.

use super::wording::capital;
use railproof_engine::rail::{BankGeometry, Line, Reading};
use railproof_engine::rule::Rule;
use railproof_engine::sweep::{Input, Plan};
use railproof_engine::units::short_number;

/// After a number that no diamond has.
const PAST_END: &str = " (past the last diamond)";
/// On a page of many numbers.
pub(super) const PAST_END_NOTE: &str = "A number past the rail's end has no diamond.";

/// `contact 2 from 4.4 across the grooves; through the diamonds that is 1.76 from 4.64`.
pub fn line_readings(line: Line, geometry: &BankGeometry) -> String {
    format!(
        "contact {} from {} across the grooves; through the diamonds that is {}",
        short_number(line.contact, 3),
        short_number(line.start, 3),
        through_the_diamonds(line, geometry)
    )
}

/// A line across the grooves, as it is read through the diamonds: `1.76 from 4.64`.
pub(super) fn through_the_diamonds(line: Line, geometry: &BankGeometry) -> String {
    let read = line.read_as(Reading::Sight, geometry);
    let [contact, start] = [read.contact, read.start].map(|number| short_number(number, 2));
    let past = if is_past_end(read.contact, geometry) { PAST_END } else { "" };
    format!("{contact}{past} from {start}{}", past_end(read.start, line, geometry))
}

/// What is told through the diamonds, where no room is for notes.
pub(super) fn without_notes(told: &str) -> String {
    let mut parts = told.split(" (");
    let first = parts.next().unwrap_or_default().to_owned();
    first + &parts.filter_map(|part| Some(part.split_once(')')?.1)).collect::<String>()
}

/// A note on a start number that no diamond has: over which mark its line, told across the grooves, begins.
pub(super) fn past_end(start: f64, line: Line, geometry: &BankGeometry) -> String {
    if !is_past_end(start, geometry) {
        return String::new();
    }
    match line.over_rail_beside(geometry) {
        Some((rail, number)) => {
            let number = short_number(number, 1);
            let diamonds = if number == "1" { "diamond" } else { "diamonds" };
            format!(" (over the {} rail, {number} {diamonds} from the corner)", rail.name())
        }
        None => PAST_END.to_owned(),
    }
}

/// Whether no diamond has this number.
fn is_past_end(number: f64, geometry: &BankGeometry) -> bool {
    // A side pocket's zero is in the middle of the rail.
    let (least, most) = match (geometry.rail.is_end(), geometry.pocket.is_side()) {
        (true, _) => (0.0, 4.0),
        (false, true) => (-4.0, 4.0),
        (false, false) => (0.0, 8.0),
    };
    !(least..=most).contains(&number)
}

/// Before the other reading of a line.
pub const THROUGH_THE_DIAMONDS: &str = "through the diamonds ";
/// Tables whose readings are held to each other; of more, none is told.
const MOST_TABLES: usize = 100;

/// The lines of some of the banks of a sweep.
pub struct PlayedLines<'a> {
    /// The sweep.
    pub plan: &'a Plan,
    /// Places of the kept values, axis by axis.
    pub kept: &'a [Vec<usize>],
}

impl PlayedLines<'_> {
    /// The first and the last line by both readings: `Contact 1.25 from 2.75 across the grooves is 1.1 from 2.9 through
    /// the diamonds; contact 3.5 from 7.7 is 3.08 from 8.12.` Nothing where tables on which they read differently are
    /// played together.
    pub fn sentence(&self, rule: Option<&Rule>) -> Option<String> {
        let mut parts: Vec<String> = Vec::new();
        for (line, sights) in self.ends(rule)? {
            let words = [" across the grooves", " through the diamonds"];
            let [across, through] = if parts.is_empty() { words } else { [""; 2] };
            let [contact, start] = [line.contact, line.start].map(|it| short_number(it, 3));
            parts.push(format!("contact {contact} from {start}{across} is {sights}{through}"));
        }
        Some(format!("{}.", capital(&parts.join("; "))))
    }

    /// The same in few words: `Contact 1.25 from 2.75 (diamonds 1.1 from 2.9) to 3.5 from 7.7 (3.08 from 8.12).`
    pub fn brief(&self, rule: Option<&Rule>) -> Option<String> {
        let mut parts: Vec<String> = Vec::new();
        for (line, sights) in self.ends(rule)? {
            let word = if parts.is_empty() { "diamonds " } else { "" };
            let sights = without_notes(&sights);
            let [contact, start] = [line.contact, line.start].map(|it| short_number(it, 3));
            parts.push(format!("{contact} from {start} ({word}{sights})"));
        }
        Some(format!("Contact {}.", parts.join(" to ")))
    }

    /// The line and its reading through the diamonds, where it is the only one.
    pub(super) fn only(&self, rule: Option<&Rule>) -> Option<(Line, String)> {
        self.ends(rule).filter(|ends| ends.len() == 1)?.pop()
    }

    /// The lines with the least and with the greatest numbers, each with its reading through the diamonds.
    fn ends(&self, rule: Option<&Rule>) -> Option<Vec<(Line, String)>> {
        let axes = || self.plan.axes().iter().zip(self.kept);
        let first: Vec<usize> = axes().filter_map(|(_, kept)| kept.first().copied()).collect();
        let tables: Vec<(usize, usize)> = axes()
            .enumerate()
            .filter(|(_, (axis, _))| !axis.input.is_launch())
            .flat_map(|(at, (_, kept))| kept.iter().skip(1).map(move |place| (at, *place)))
            .take(MOST_TABLES + 1)
            .collect();
        if tables.len() > MOST_TABLES {
            return None;
        }
        let on = |digits: &[usize]| {
            let bank = self.plan.bank(digits).ok()?;
            let geometry = bank.geometry();
            let (least, most) = self.least_and_most(Input::Contact)?;
            let lines = match rule {
                Some(rule) => {
                    [least, most].map(|contact| rule.line_for_contact(contact, geometry).ok())
                }
                None => {
                    let (from, to) = self.least_and_most(Input::Start)?;
                    [Some(Line::new(least, from)), Some(Line::new(most, to))]
                }
            };
            let mut told: Vec<(Line, String)> = Vec::new();
            for line in lines {
                let line = line.filter(|line| line.is_finite())?;
                if told.iter().all(|(known, _)| *known != line) {
                    told.push((line, through_the_diamonds(line, geometry)));
                }
            }
            Some(told)
        };
        let told = on(&first)?;
        let same = |(at, place): &(usize, usize)| {
            let mut digits = first.clone();
            digits[*at] = *place;
            on(&digits).as_ref() == Some(&told)
        };
        tables.iter().all(same).then_some(told)
    }

    /// The least and the greatest of the kept values of an input.
    fn least_and_most(&self, input: Input) -> Option<(f64, f64)> {
        let at = self.plan.axes().iter().position(|axis| axis.input == input)?;
        let values = &self.plan.axes()[at].values;
        let numbers = || self.kept[at].iter().filter_map(|place| values.number(*place));
        Some((numbers().reduce(f64::min)?, numbers().reduce(f64::max)?))
    }
}
