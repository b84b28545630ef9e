//! A fit of measured banks in sentences.

use super::amounts::grouped;
use super::caution::Cautions;
use super::film::film_sentences;
use super::next_banks::next_banks_sentences;
use super::seen_place::{place_words, seen_words};
use super::set_up::set_up_words;
use super::wording::{count, percent};
use crate::fitting::{FitFindings, FitQuestion, NumberFindings, NumberUnit, PredictedBank};
use railproof_engine::ask::{CredibleInterval, TiedNumbers};
use railproof_engine::ensemble::Ensemble;
use railproof_engine::evidence::LIKELY_SLIP;
use railproof_engine::misfit::Misfit;
use railproof_engine::narrow::NarrowSettings;
use railproof_engine::rail::BankGeometry;
use railproof_engine::units::short_number;
use std::fmt::Write;

/// Fewer members are too few for intervals.
const FEW_MEMBERS: usize = 1000;
/// Fewer banks say little.
const FEW_BANKS: usize = 4;

/// What a fit found, the answer first; in full with the numbers that are known together and the size of the sample.
pub fn fit_sentences(question: &FitQuestion, found: &FitFindings, full: bool) -> String {
    let banks = found.predicted.len() + found.films.len();
    let mut parts = vec![slope(question, found)];
    if banks > 0 {
        parts.extend((!found.predicted.is_empty()).then(|| each_bank(question, found)));
        parts.extend(found.misfit.as_ref().map(misfit));
        parts.extend((!found.films.is_empty()).then(|| film_sentences(question, found)));
        parts.push(numbers(found, full));
    }
    parts.push(next_banks_sentences(&found.known, &found.told.next));
    parts.push(conditions(found, full));
    parts.extend(Cautions::of_fit(found).lines().into_iter().map(|line| line + "\n"));
    parts.join("\n")
}

fn slope(question: &FitQuestion, found: &FitFindings) -> String {
    let (slope, banks) = (&found.told.slope, found.predicted.len() + found.films.len());
    let (after, before) = (&slope.after, &slope.before);
    let mut text = format!(
        "On this table a frozen ball that slides follows start = {} x contact; nine times in ten the number \
         is from {}.\n",
        slope.unit.told(after.middle),
        span(after, slope.unit)
    );
    if banks == 0 {
        text += "No bank was measured: this is what is known of any table.\n";
    } else {
        let _ = writeln!(
            text,
            "Without the {} it is {}, from {}.",
            if banks == 1 { "bank" } else { "banks" },
            slope.unit.told(before.middle),
            span(before, slope.unit)
        );
    }
    if (1..FEW_BANKS).contains(&banks) {
        let few = count(banks as u64, "bank says", "banks say");
        let _ = writeln!(text, "{few} little: measure six.");
    }
    let slips = found.predicted.iter().filter(|bank| bank.is_likely_slip()).count()
        + found.films.iter().filter(|film| film.slip > LIKELY_SLIP).count();
    if slips > 0 && 2 * slips >= banks {
        text += "Half of the banks or more fit no possible table: look for a wrong column, a wrong pocket or a wrong \
                 unit before you believe anything here.\n";
    }
    let open = question.measurements.open_rows;
    if open > 0 {
        let rows =
            count(open as u64, "row has no result yet and is", "rows have no result yet and are");
        let _ = writeln!(text, "{rows} left out.");
    }
    text
}

fn numbers(found: &FitFindings, full: bool) -> String {
    let (told, untold): (Vec<_>, Vec<_>) =
        found.told.numbers.iter().partition(|number| number.is_determined());
    let mut text = String::new();
    if !told.is_empty() {
        text += "What these banks pin down: the middle of each number, and its range nine times in ten (a table file \
                 holds one whole table near all of these, so its numbers differ a little):\n";
        for number in told {
            let _ = writeln!(text, "  {}", number_row(number));
        }
    }
    if !untold.is_empty() {
        let names: Vec<&str> = untold.iter().map(|number| number.title.as_ref()).collect();
        let _ = writeln!(text, "Not determined by these banks: {}.", names.join(", "));
    }
    if full && !found.told.tied.is_empty() {
        text += "Known together much better than apart:\n";
        for tied in &found.told.tied {
            let _ = writeln!(text, "  {}", tied_words(tied));
        }
    }
    text
}

/// Numbers that go together on the tables that could be, in words.
pub fn tied_words(tied: &TiedNumbers) -> String {
    let Some((first, others)) = tied.parts.split_first() else { return String::new() };
    let with = |sign: f64, word: &str| {
        let names = others.iter().filter(|part| part.weight * sign > 0.0);
        let names: Vec<&str> = names.map(|part| part.number.title()).collect();
        (!names.is_empty()).then(|| format!("{word} {}", names.join(" and ")))
    };
    // What adds up to something known goes down where the first goes up.
    let goes: Vec<String> = [with(-1.0, "more"), with(1.0, "less")].into_iter().flatten().collect();
    let alone = tied.parts.iter().map(|part| part.left).fold(f64::INFINITY, f64::min);
    format!(
        "a table with more {} has {}: {} of the width is left of them together, {} or more of each alone",
        first.number.title(),
        goes.join(" or "),
        percent(tied.left),
        percent(alone)
    )
}

fn number_row(number: &NumberFindings) -> String {
    let unit = number.unit;
    let symbol = if unit.symbol.is_empty() { String::new() } else { format!(" {}", unit.symbol) };
    format!(
        "{}: {}{symbol}, from {} ({} narrower than before)",
        number.title,
        unit.told(number.after.middle),
        span(&number.after, unit),
        percent(1.0 - number.left())
    )
}

/// From where to where nine times in ten.
pub fn span(interval: &CredibleInterval, unit: NumberUnit) -> String {
    format!("{} to {}", unit.told(interval.ninety.0), unit.told(interval.ninety.1))
}

fn each_bank(question: &FitQuestion, found: &FitFindings) -> String {
    let mut text = String::from(
        "Each bank as seen, and as the other banks lead one to expect, nine times in ten (number on the rail that a \
         miss meets first, counted from the pocket):\n",
    );
    for bank in &found.predicted {
        let _ = writeln!(text, "  {}", bank_row(question, bank));
    }
    text
}

/// Whether the banks agree with any table that could be, and what they could have shown.
fn misfit(misfit: &Misfit) -> String {
    let numbers = count(misfit.numbers as u64, "number", "numbers");
    let shown = format!(
        "a model that is off by {} times the scatter of one reading would mostly show in them",
        short_number(misfit.smallest_shown, 1)
    );
    if misfit.is_doubtful() {
        format!(
            "The {numbers} that were read fit every possible table badly: chance alone would do this in {} ({shown}). \
             Look at the rows that lie outside what was expected, then at another rail model \
             (`--compare-rail-models`).\n",
            percent(misfit.chance)
        )
    } else {
        format!("The {numbers} that were read fit possible tables; {shown}.\n")
    }
}

fn bank_row(question: &FitQuestion, bank: &PredictedBank) -> String {
    let set_up = &bank.bank.set_up;
    let Ok(geometry) = BankGeometry::new(&question.table, set_up.rail, set_up.pocket) else {
        return String::new();
    };
    let place = |along_m| place_words(&question.table, &geometry, along_m);
    let seen = seen_words(&question.table, &geometry, bank.bank.seen);
    let expected = bank.expected_m.map_or_else(
        || "never beside its pocket".to_owned(),
        |expected| {
            let (from, to) = (place(expected.ninety.0), place(expected.ninety.1));
            if from == to { from } else { format!("{from} to {to}") }
        },
    );
    let slip = if bank.is_likely_slip() {
        format!("; likely a slip ({}): measure it again", percent(bank.slip))
    } else {
        String::new()
    };
    format!("line {}: {}: seen {seen}, expected {expected}{slip}", bank.line, set_up_words(set_up))
}

/// The conditions of a fit, parted by semicolons.
pub fn fit_conditions(found: &FitFindings) -> String {
    format!(
        "{}; {}; {} members in {}; {} rail model",
        found.known.table.name,
        banks_and_films(found),
        grouped(found.known.ensemble.len() as u64),
        count(found.narrowed.stages as u64, "stage", "stages"),
        found.known.model.name()
    )
}

fn banks_and_films(found: &FitFindings) -> String {
    let (banks, films) = (found.predicted.len() as u64, found.films.len() as u64);
    let told = [(banks, "bank", "banks"), (films, "film", "films")];
    let told = told.into_iter().filter(|(number, ..)| *number > 0 || banks + films == 0);
    told.map(|(number, one, more)| count(number, one, more)).collect::<Vec<_>>().join(", ")
}

/// What to do with the slope: a line to paste.
pub fn slope_step(found: &FitFindings) -> String {
    let slope = &found.told.slope;
    format!(
        "Next, in your mine.lua: local ratio = rule.linear {{ slope = {} }}\n",
        slope.unit.told(slope.after.middle)
    )
}

fn conditions(found: &FitFindings, full: bool) -> String {
    let mut text = if full {
        format!("({}.)\n", fit_conditions(found))
    } else {
        format!("({}; {}; --full tells more.)\n", found.known.table.name, banks_and_films(found))
    };
    if found.narrowed.distinct < FEW_MEMBERS {
        let _ = writeln!(
            text,
            "Only {} members differ, so the intervals are rough: ask for more, such as `--members {}`.",
            grouped(found.narrowed.distinct as u64),
            (4 * found.known.ensemble.len()).clamp(NarrowSettings::SHIPPED.members, Ensemble::MOST)
        );
    }
    text
}
