//! A bank off a film in sentences, the answer first.

use super::wording::{count, millimetres};
use railproof_engine::equipment::Equipment;
use railproof_engine::track::{RollAtRail, TrackAmount, TrackedBank};
use railproof_engine::units::{DEGREE_RAD, short_number};
use std::fmt::Write;

/// So many marks fit every plane map.
const UNCHECKED_MARKS: usize = 4;
/// Marks that fit worse, m, are looked at again. Chosen: a careful click on a table filmed whole.
const POOR_MARK_M: f64 = 0.01;

/// An amount's unit in sentences.
#[derive(Clone, Copy)]
enum AmountUnit {
    Speed,
    Angle,
    Share,
    Slowing,
}

impl AmountUnit {
    fn told(self, value: f64) -> String {
        let text = match self {
            Self::Speed | Self::Share | Self::Slowing => format!("{value:.2}"),
            Self::Angle => format!("{:.1}", value / DEGREE_RAD),
        };
        // Not "-0.0".
        if text.trim_start_matches(['-', '0', '.']).is_empty() {
            text.trim_start_matches('-').to_owned()
        } else {
            text
        }
    }

    const fn name(self) -> &'static str {
        match self {
            Self::Speed => " m/s",
            Self::Angle => "°",
            Self::Share => "",
            Self::Slowing => " m/s²",
        }
    }

    fn span(self, (from, to): (f64, f64)) -> String {
        format!("{} to {}{}", self.told(from), self.told(to), self.name())
    }

    fn with_span(self, amount: &TrackAmount) -> String {
        format!("{}{} ({})", self.told(amount.middle), self.name(), self.span(amount.ninety))
    }
}

/// All that a film tells.
pub fn track_sentences(bank: &TrackedBank, table: &Equipment) -> String {
    use AmountUnit as Unit;
    let mut text = poor_mark(bank);
    let _ = writeln!(
        text,
        "The ball came to the {} rail at {}, {} from square to it, and left at {}, {} from square.",
        bank.rail.name(),
        Unit::Speed.with_span(&bank.speed_before),
        Unit::Angle.with_span(&bank.angle_before),
        Unit::Speed.with_span(&bank.speed_after),
        Unit::Angle.with_span(&bank.angle_after),
    );
    let _ = write!(
        text,
        "Of its speed square to the rail it kept {}",
        Unit::Share.with_span(&bank.restitution)
    );
    match &bank.along_kept {
        Some(along) => {
            let _ = writeln!(text, ", of that along the rail {}.", Unit::Share.with_span(along));
        }
        None => text += "; it came too squarely to tell what it kept along the rail.\n",
    }
    text += &roll(bank, table);
    text += "In brackets: the range in which the truth lies nine times in ten.\n\n";
    text += &ranges(bank);
    text += &conditions(bank);
    text
}

/// A remark on a mark that lies off its place, before anything is read from it.
fn poor_mark(bank: &TrackedBank) -> String {
    if bank.worst_mark_m <= POOR_MARK_M {
        return String::new();
    }
    let off = millimetres(bank.worst_mark_m);
    format!(
        "Look for a slip in the marks first: mark {} lies {off} off its place by the others.\n",
        bank.worst_mark + 1
    )
}

fn roll(bank: &TrackedBank, table: &Equipment) -> String {
    let slowing = AmountUnit::Slowing.with_span(&bank.slowing);
    match bank.roll {
        RollAtRail::Rolls => {
            format!("It rolled as it came to the rail (roll 1): it slowed by {slowing}.\n")
        }
        RollAtRail::Slides { gained } => format!(
            "It still slid as it came to the rail: it slowed by {slowing}. Its roll there was {gained:.2} or more, \
             less if it was sent with draw.\n"
        ),
        RollAtRail::NotDetermined => format!(
            "Its roll at the rail is not determined: it slowed by {slowing}, and this table slows a ball that slides \
             by {:.2} and one that rolls by {:.2}. A longer film before the rail tells more.\n",
            table.cloth.sliding_friction * table.gravity_m_s2,
            table.cloth.rolling_resistance * table.gravity_m_s2
        ),
    }
}

fn ranges(bank: &TrackedBank) -> String {
    use AmountUnit as Unit;
    let mut rows = vec![
        ("speed before", Unit::Speed, bank.speed_before),
        ("angle before", Unit::Angle, bank.angle_before),
        ("speed after", Unit::Speed, bank.speed_after),
        ("angle after", Unit::Angle, bank.angle_after),
        ("kept square to it", Unit::Share, bank.restitution),
    ];
    rows.extend(bank.along_kept.map(|along| ("kept along it", Unit::Share, along)));
    let mut text = format!("{:19}{:22}nine times in ten\n", "", "half the time");
    for (name, unit, amount) in rows {
        let _ =
            writeln!(text, "{name:19}{:22}{}", unit.span(amount.fifty), unit.span(amount.ninety));
    }
    text
}

fn conditions(bank: &TrackedBank) -> String {
    let (before, after) = bank.fitted;
    let mut text = format!(
        "\nRead from {} before the rail and {after} after it, which scatter by {}.\n",
        count(before as u64, "point", "points"),
        millimetres(bank.scatter_m)
    );
    if bank.marks == UNCHECKED_MARKS {
        text += "Four marks fit every camera, so they don't check one another: a fifth would show a slip.\n";
    }
    let lens = match &bank.lens_k1 {
        None => "a lens that bends straight lines (`--lens find` undoes it), ",
        Some(k1) => {
            let (from, to) = (lens_number(k1.ninety.0), lens_number(k1.ninety.1));
            let middle = lens_number(k1.middle);
            let range = if from == to {
                format!("{middle}, as it was given")
            } else {
                format!("{middle} ({from} to {to}), as the marks tell it")
            };
            let _ = writeln!(text, "The lens is undone: its coefficient k1 is {range}.");
            ""
        }
    };
    let _ = writeln!(
        text,
        "These ranges allow for the scatter of clicks and marks, but not for {lens}a phone that moved, or marks that lie \
         higher than the cloth."
    );
    text
}

fn lens_number(k1: f64) -> String {
    short_number(k1, 4)
}
