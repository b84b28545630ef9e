//! Why a bank missed, in sentences.

use super::asked_units::AskedUnits;
use super::caution::Cautions;
use super::seen_place::{place_words, seen_words};
use super::set_up::set_up_words;
use super::wording::{capital, uncapital};
use crate::fitting::MissFindings;
use railproof_engine::column::SetUp;
use railproof_engine::equipment::Equipment;
use railproof_engine::missed::{CauseOdds, MissCause, NoOdds, ToldApart};
use railproof_engine::rail::BankGeometry;
use railproof_engine::units::{Speed, short_number};
use std::fmt::Write;

/// Causes with smaller odds are told together.
const SMALL_ODDS: f64 = 0.05;

/// Why a bank missed: its likeliest cause first.
pub fn missed_sentences(table: &Equipment, missed: &MissFindings, units: AskedUnits) -> String {
    let MissFindings { bank, odds } = missed;
    let words = set_up_words(&bank.set_up);
    let Ok(geometry) = BankGeometry::new(table, bank.set_up.rail, bank.set_up.pocket) else {
        return String::new();
    };
    let odds = match odds {
        Ok(odds) => odds,
        Err(why) => {
            let text = format!("{}: {}\n", capital(&words), no_odds(*why));
            return text + &cautions([bank.set_up.speed].into_iter(), table);
        }
    };
    let mut causes = odds.causes.clone();
    causes.sort_by(|a, b| b.odds.total_cmp(&a.odds));
    let place = |along_m: f64| place_words(table, &geometry, along_m);
    let main = causes[0];
    let is_rather_a_slip = odds.slip > (1.0 - odds.slip) * main.odds;
    let mut text = if is_rather_a_slip {
        format!(
            "Most likely a slip of the pen or another ball: {}. If it is none, {}: {}.\n",
            in_a_hundred(odds.slip),
            uncapital(most_likely(main.cause)),
            in_a_hundred(main.odds)
        )
    } else {
        format!("{}: {}.\n", most_likely(main.cause), in_a_hundred(main.odds))
    };
    let (from, to) = (place(odds.exact_m.ninety.0), place(odds.exact_m.ninety.1));
    let range = if from == to { from } else { format!("{from} to {to}") };
    let _ = writeln!(
        text,
        "{}, seen: {}. Sent exactly, this line ends {} on the middle one of the tables that could be yours, and on nine in ten of them {range}.",
        capital(&words),
        seen_words(table, &geometry, bank.seen),
        place(odds.exact_m.middle)
    );
    text += "Odds that each is the main cause, and how much of the miss it usually makes, along the rails where it ends (+ long, - short):\n";
    let (told, small): (Vec<&CauseOdds>, Vec<&CauseOdds>) =
        causes.iter().partition(|cause| cause.odds >= SMALL_ODDS);
    for cause in &told {
        let _ = writeln!(
            text,
            "  {}: {} ({})",
            name(cause.cause),
            in_a_hundred(cause.odds),
            part(cause.part_m, units)
        );
    }
    if !small.is_empty() {
        let all = small.iter().map(|cause| cause.odds).sum::<f64>();
        let _ = writeln!(text, "  the others together: {}", in_a_hundred(all));
    }
    if odds.slip > SMALL_ODDS && !is_rather_a_slip {
        let _ = writeln!(
            text,
            "Apart from these odds, it may be a slip of the pen or another ball: {}.",
            in_a_hundred(odds.slip)
        );
    }
    let _ = writeln!(
        text,
        "To find out, shoot the same bank again. Two times in three one shot differs from the next by at most {}; a \
         miss that comes again is due to the line, the table or your stroke.",
        units.length(odds.again_m)
    );
    if let Some(apart) = &odds.apart {
        let _ = writeln!(text, "{}", apart_sentence(table, &bank.set_up, apart));
    }
    let next = odds.apart.and_then(|apart| apart.by).map(|by| by.set_up.speed);
    let speeds = next.into_iter().chain([bank.set_up.speed]);
    text + &cautions(speeds, table)
}

/// What to mind at these speeds, a line each.
fn cautions(speeds: impl Iterator<Item = Speed>, table: &Equipment) -> String {
    Cautions::of_speeds(speeds, table).lines().into_iter().map(|line| line + "\n").collect()
}

/// What tells the two likeliest causes apart.
fn apart_sentence(table: &Equipment, missed: &SetUp, apart: &ToldApart) -> String {
    let [first, second] = apart.causes.map(name);
    let Some(by) = apart.by else {
        return if apart.causes.iter().any(|cause| cause.is_lasting()) {
            format!("No single bank tells \"{first}\" from \"{second}\" well.")
        } else {
            format!(
                "\"{first}\" and \"{second}\" belong to a shot that is over: no other shot tells which it was."
            )
        };
    };
    let border = BankGeometry::new(table, by.set_up.rail, by.set_up.pocket)
        .map(|geometry| place_words(table, &geometry, by.border_m));
    let border = match border {
        Ok(border) if !border.contains("mouth") => {
            format!("if it comes longer than {border}")
        }
        _ => "if it comes to the long side".to_owned(),
    };
    let (longer, shorter) = if by.first_is_longer { (first, second) } else { (second, first) };
    let bank =
        if by.set_up == *missed { "the same bank".to_owned() } else { set_up_words(&by.set_up) };
    format!(
        "\"{first}\" or \"{second}\"? {} tells best: {border}, the likelier one is \"{longer}\", else \"{shorter}\"; \
         where both are equally likely, it names the right one {}.",
        capital(&bank),
        times_in_a_hundred(by.chance)
    )
}

/// Why there are no odds.
const fn no_odds(why: NoOdds) -> &'static str {
    match why {
        NoOdds::Came => "it came to the pocket, so there is nothing to explain.",
        NoOdds::Stopped => {
            "it stopped on its way, so it was too slow. Send it harder, then ask again."
        }
        NoOdds::NeverThere => {
            "no careful shot at this line sends a ball there, on any table that yours could be. It was aimed otherwise \
             than meant, or had side on it: shoot it again. If it is a row of a file, check the row."
        }
    }
}

fn in_a_hundred(share: f64) -> String {
    format!("{:.0} in 100", 100.0 * share)
}

fn times_in_a_hundred(share: f64) -> String {
    format!("{:.0} times in 100", 100.0 * share)
}

/// A part of a miss, which is known to the millimetre at best.
fn part(metres: f64, units: AskedUnits) -> String {
    if units.in_inches() {
        return if units.is_nothing(metres) { "0 in".to_owned() } else { units.signed(metres) };
    }
    let number = short_number((1e3 * metres.abs()).round(), 0);
    match number.as_str() {
        "0" => format!("{number} mm"),
        _ if metres < 0.0 => format!("-{number} mm"),
        _ => format!("+{number} mm"),
    }
}

const fn most_likely(cause: MissCause) -> &'static str {
    match cause {
        MissCause::Line => {
            "Most likely nothing is wrong with your stroke: sent as meant, this line misses here"
        }
        MissCause::Table => "Most likely the cushion or the cloth differs from what was expected",
        MissCause::AimAlways => "Most likely you always aim to one side",
        MissCause::SideAlways => "Most likely you always put side on it",
        MissCause::SpeedWord => "Most likely your speed word means another speed",
        MissCause::Aim => "Most likely the aim was off this time",
        MissCause::Speed => "Most likely the speed was off this time",
        MissCause::Side => "Most likely it had unwanted side this time",
        MissCause::Roll => "Most likely it had roll or draw at the hit",
        MissCause::Placement => "Most likely the contact or the start was not where it was marked",
    }
}

const fn name(cause: MissCause) -> &'static str {
    match cause {
        MissCause::Line => "this line, sent as meant",
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
