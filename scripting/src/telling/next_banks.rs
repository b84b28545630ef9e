//! The next banks worth measuring, in sentences.

use super::seen_place::place_words;
use super::set_up::set_up_words;
use super::wording::percent;
use crate::fitting::{MeasuredTable, NextBanks, NextPurpose};
use railproof_engine::planning::{PlannedBank, chance_of_the_right_one};
use railproof_engine::rail::BankGeometry;
use railproof_engine::units::short_number;
use std::fmt::Write;

/// The banks, a row each.
pub fn next_banks_sentences(known: &MeasuredTable, next: &NextBanks) -> String {
    if next.banks.is_empty() {
        return "No bank is worth measuring next: none of those that a person can set up can be read.\n"
            .to_owned();
    }
    let mut text = format!("{}:\n", purpose_words(known, next));
    for (set_up, plan) in &next.banks {
        let misses = if plan.readable < SURE_TO_MISS {
            format!(
                " (misses {} times in 10; a ball that drops can't be read)",
                short_number((10.0 * plan.readable).round(), 0)
            )
        } else {
            String::new()
        };
        let _ = writeln!(text, "  {}: {}{misses}", set_up_words(set_up), share(next, plan));
    }
    text + "Alternate the corners: side that you always put on without meaning to then shows up. A ball hit hard can \
            leave the table: mind people nearby and the house's rules.\n"
}

/// A bank that misses less often is told.
const SURE_TO_MISS: f64 = 0.95;

/// What the banks are for, and what stands behind each.
pub fn purpose_words(known: &MeasuredTable, next: &NextBanks) -> String {
    const LEFT: &str = "in this order; after each, the share of today's doubt that would be left";
    match &next.purpose {
        NextPurpose::Usual => format!("Measure next, {LEFT}"),
        NextPurpose::Settle(bank) => {
            let geometry = BankGeometry::new(&known.table, bank.rail, bank.pocket).ok();
            let today = next.today_m.zip(geometry).map(|(today_m, geometry)| {
                let place = |along_m| place_words(&known.table, &geometry, along_m);
                let (from, to) = (place(today_m.ninety.0), place(today_m.ninety.1));
                if from == to {
                    format!(" (today, nine times in ten, {from})")
                } else {
                    format!(" (today, nine times in ten, from {from} to {to})")
                }
            });
            let today = today.unwrap_or_default();
            format!("Measure next, to settle where {} comes to{today}, {LEFT}", set_up_words(bank))
        }
        NextPurpose::TellApart(cushions) => {
            let [one, other] = &cushions.names;
            format!(
                "Measure next, to tell {one} and {other} apart if the table has one of the two, in this order; after \
                 each, the chance of naming the right one"
            )
        }
    }
}

/// What a bank is worth, in words that stand alone.
pub fn worth_words(next: &NextBanks, plan: &PlannedBank) -> String {
    let share = share(next, plan);
    match next.purpose {
        NextPurpose::Usual | NextPurpose::Settle(_) => format!("leaves {share} of the doubt"),
        NextPurpose::TellApart(_) => format!("{share} sure of the right one"),
    }
}

fn share(next: &NextBanks, plan: &PlannedBank) -> String {
    match next.purpose {
        NextPurpose::Usual | NextPurpose::Settle(_) => percent(plan.left),
        NextPurpose::TellApart(_) => match chance_of_the_right_one(plan.left) {
            // The law of the tails is not known so well.
            chance if chance > SURE => format!("more than {}", percent(SURE)),
            chance => percent(chance),
        },
    }
}

/// A chance above it is not told to the hundredth.
const SURE: f64 = 0.99;
