//! Why a bank missed, in sentences.

use super::seen_place::place_words;
use super::set_up::set_up_words;
use super::wording::percent;
use crate::fitting::MissFindings;
use railproof_engine::equipment::Equipment;
use railproof_engine::missed::{CauseOdds, MissCause, NoOdds};
use railproof_engine::rail::BankGeometry;
use railproof_engine::units::short_number;
use std::fmt::Write;

/// Causes with smaller odds are told together.
const SMALL_ODDS: f64 = 0.05;

/// Why a bank missed: its likeliest cause first.
pub fn missed_sentences(table: &Equipment, missed: &MissFindings) -> String {
    let MissFindings { bank, odds } = missed;
    let words = set_up_words(&bank.set_up);
    let Ok(geometry) = BankGeometry::new(table, bank.set_up.rail, bank.set_up.pocket) else {
        return String::new();
    };
    let odds = match odds {
        Ok(odds) => odds,
        Err(NoOdds::Came) => {
            return format!("{words}: it came to the pocket, so there is nothing to explain.\n");
        }
        Err(NoOdds::Stopped) => {
            return format!(
                "{words}: it stopped on its way, so it was too slow. Send it harder, then ask again.\n"
            );
        }
        Err(NoOdds::NeverThere) => {
            return format!(
                "{words}: no possible table and no careful shot sends a ball to the place that was seen. Take it for a \
                 slip: check the row, or measure the bank again.\n"
            );
        }
    };
    let mut causes = odds.causes.clone();
    causes.sort_by(|a, b| b.odds.total_cmp(&a.odds));
    let place = |along_m: f64| place_words(table, &geometry, along_m);
    let mut text =
        format!("{words}: {} (odds {}).\n", most_likely(causes[0].cause), percent(causes[0].odds));
    let (from, to) = (place(odds.exact_m.ninety.0), place(odds.exact_m.ninety.1));
    let range = if from == to { from } else { format!("{from} to {to}") };
    let _ = writeln!(
        text,
        "Sent exactly, this line comes to {} on the tables that could be yours, nine times in ten {range}.",
        place(odds.exact_m.middle)
    );
    text += "Odds that each is the main cause, and how much of the miss it usually makes (+ long, - short):\n";
    let (told, small): (Vec<&CauseOdds>, Vec<&CauseOdds>) =
        causes.iter().partition(|cause| cause.odds >= SMALL_ODDS);
    for cause in &told {
        let _ = writeln!(
            text,
            "  {}: {} ({} mm)",
            name(cause.cause),
            percent(cause.odds),
            signed(1000.0 * cause.part_m)
        );
    }
    if !small.is_empty() {
        let all = small.iter().map(|cause| cause.odds).sum::<f64>();
        let _ = writeln!(text, "  the others together: {}", percent(all));
    }
    if odds.slip > SMALL_ODDS {
        let _ =
            writeln!(text, "It may be a slip of the pen or another ball: {}.", percent(odds.slip));
    }
    let _ = writeln!(
        text,
        "To find out, shoot the same bank again. Two times in three one shot differs from the next by at most {} mm; a \
         miss that comes again is due to the line, the table or your stroke.",
        short_number(1000.0 * odds.again_m, 0)
    );
    if let Some(next) = odds.next.filter(|next| *next != bank.set_up) {
        let _ =
            writeln!(text, "What best tells the table from your stroke: {}.", set_up_words(&next));
    }
    text
}

fn signed(mm: f64) -> String {
    let number = short_number(mm.abs().round(), 0);
    match number.as_str() {
        "0" => number,
        _ if mm < 0.0 => format!("-{number}"),
        _ => format!("+{number}"),
    }
}

const fn most_likely(cause: MissCause) -> &'static str {
    match cause {
        MissCause::Line => "most likely the line itself misses on this table",
        MissCause::Table => "most likely the cushion or the cloth differs from what was expected",
        MissCause::AimAlways => "most likely you always aim to one side",
        MissCause::SideAlways => "most likely you always put side on it",
        MissCause::SpeedWord => "most likely your speed word means another speed",
        MissCause::Aim => "most likely the aim was off this time",
        MissCause::Speed => "most likely the speed was off this time",
        MissCause::Side => "most likely it had unwanted side this time",
        MissCause::Roll => "most likely it had roll or draw at the hit",
        MissCause::Placement => "most likely the contact or the start was not where it was marked",
    }
}

const fn name(cause: MissCause) -> &'static str {
    match cause {
        MissCause::Line => "the line itself",
        MissCause::Table => "cushion and cloth",
        MissCause::AimAlways => "aim, always",
        MissCause::SideAlways => "side, always",
        MissCause::SpeedWord => "your speed word",
        MissCause::Aim => "aim or cut, this time",
        MissCause::Speed => "speed, this time",
        MissCause::Side => "side, this time",
        MissCause::Roll => "roll at the hit",
        MissCause::Placement => "contact and start as marked",
    }
}
