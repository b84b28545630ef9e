//! The banks as they were expected and as they were seen.

use super::page::{NO_BANK, drawn, picture};
use crate::fitting::{FitFindings, PredictedBank};
use crate::picture::{BankPanel, BankRow, FitBody, FitPicture, RailNumbers, SeenMark};
use crate::telling::{percent, seen_words, set_up_words};
use railproof_engine::equipment::Equipment;
use railproof_engine::evidence::Seen;
use railproof_engine::rail::BankGeometry;

/// Banks of one picture; of more, those that are likely slips and an even choice of the others are drawn.
const MOST_BANKS: usize = 48;

/// The picture of the banks.
pub fn banks_picture(found: &FitFindings) -> FitPicture {
    let all = &found.predicted;
    let chosen = chosen(all);
    let mut notes = Vec::new();
    if chosen.len() < all.len() {
        notes.push(format!(
            "{} of {} banks are drawn: likely slips first, then others evenly spread.",
            chosen.len(),
            all.len()
        ));
    }
    let asked = "Where was each bank expected, and where was it seen?";
    let body = FitBody::Banks(panels(&found.known.table, &chosen));
    picture(found, &title(found), asked, body, notes)
}

fn title(found: &FitFindings) -> String {
    let all = &found.predicted;
    let met = all.iter().filter(|bank| is_met(&found.known.table, bank)).count();
    let slips = all.iter().filter(|bank| bank.is_likely_slip()).count();
    let came = match (all.len(), met) {
        (0, _) => return NO_BANK.to_owned(),
        (1, 1) => "The bank came where it was expected".to_owned(),
        (1, _) => "The bank did not come where it was expected".to_owned(),
        (all, met) if met == all => {
            format!("All {all} banks came where they were expected")
        }
        (all, met) => format!("{met} of {all} banks came where they were expected"),
    };
    match slips {
        0 => came,
        1 => format!("{came}; one is likely a slip"),
        slips => format!("{came}; {slips} are likely slips"),
    }
}

/// Whether what was seen meets the places that were to be expected nine times in ten.
fn is_met(table: &Equipment, bank: &PredictedBank) -> bool {
    let Some((geometry, expected)) = geometry(table, bank).zip(bank.expected_m) else {
        return false;
    };
    let mouth = geometry.unrolled_mouth_m();
    let (from, to) = match mark(bank.bank.seen) {
        SeenMark::At { along_m, read_to_m } => (along_m - read_to_m, along_m + read_to_m),
        SeenMark::InMouth => mouth,
        SeenMark::Short => (f64::NEG_INFINITY, mouth.0),
        SeenMark::Long => (mouth.1, f64::INFINITY),
        SeenMark::Stopped => return !bank.is_likely_slip(),
    };
    from <= expected.ninety.1 && expected.ninety.0 <= to
}

fn geometry(table: &Equipment, bank: &PredictedBank) -> Option<BankGeometry> {
    BankGeometry::new(table, bank.bank.set_up.rail, bank.bank.set_up.pocket).ok()
}

fn mark(seen: Seen) -> SeenMark {
    match seen {
        Seen::At { along_m, read_to_m } => SeenMark::At { along_m, read_to_m },
        Seen::Holds | Seen::Touches => SeenMark::InMouth,
        Seen::Long => SeenMark::Long,
        Seen::Short => SeenMark::Short,
        Seen::Stops => SeenMark::Stopped,
    }
}

/// The banks that are drawn, in their order.
fn chosen(all: &[PredictedBank]) -> Vec<PredictedBank> {
    if all.len() <= MOST_BANKS {
        return all.to_vec();
    }
    let (mut taken, others): (Vec<usize>, Vec<usize>) =
        (0..all.len()).partition(|at| all[*at].is_likely_slip());
    taken.truncate(MOST_BANKS);
    let room = MOST_BANKS - taken.len();
    taken.extend((0..room.min(others.len())).map(|k| others[k * others.len() / room]));
    taken.sort_unstable();
    taken.into_iter().map(|at| all[at]).collect()
}

/// A panel for each kind of pocket: its mouth and numbers are its own.
fn panels(table: &Equipment, banks: &[PredictedBank]) -> Vec<BankPanel> {
    let kinds = [
        ((false, false), "Off a long rail to a corner"),
        ((false, true), "Off an end rail to a corner"),
        ((true, false), "Off a long rail to a side pocket"),
        ((true, true), "Off an end rail to a side pocket"),
    ];
    let mut panels: Vec<BankPanel> = kinds
        .into_iter()
        .filter_map(|(kind, caption)| {
            let of_kind = banks.iter().filter(|bank| {
                let set_up = &bank.bank.set_up;
                (set_up.pocket.is_side(), set_up.rail.is_end()) == kind
            });
            panel(table, caption, &of_kind.collect::<Vec<_>>())
        })
        .collect();
    if let [only] = panels.as_mut_slice() {
        only.caption.clear();
    }
    panels
}

fn panel(table: &Equipment, caption: &str, banks: &[&PredictedBank]) -> Option<BankPanel> {
    let geometry = geometry(table, banks.first()?)?;
    let numbers = |is_long| {
        let [zero_m, one_m] =
            [0.0, 1.0].map(|number| geometry.unrolled_of_number_m(&table.table, is_long, number));
        RailNumbers { zero_m, diamond_m: one_m - zero_m }
    };
    let row = |bank: &&PredictedBank| {
        let is_slip = bank.is_likely_slip();
        let seen = seen_words(table, &geometry, bank.bank.seen);
        BankRow {
            label: format!("line {}: {}", bank.line, set_up_words(&bank.bank.set_up)),
            expected: bank.expected_m.map(|expected| drawn(&expected, 1.0)),
            seen: mark(bank.bank.seen),
            seen_words: if is_slip {
                format!("{seen}; a slip ({})", percent(bank.slip))
            } else {
                seen
            },
            is_slip,
        }
    };
    Some(BankPanel {
        caption: caption.to_owned(),
        mouth_m: geometry.unrolled_mouth_m(),
        short: numbers(false),
        long: numbers(true),
        rows: banks.iter().map(row).collect(),
    })
}
