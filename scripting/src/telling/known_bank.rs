//! A bank on every table that measured banks allow, in sentences.

use super::wording::count;
use crate::fitting::{MeasuredTable, TableOrigin};
use railproof_engine::ask::{Agreement, KnownBank, MemberShare};
use railproof_engine::bank::{BankVerdict, Direction};
use railproof_engine::units::short_number;

/// How sure the answer is, and the start with its interval.
pub(super) fn known_sentences(found: &KnownBank, known: &MeasuredTable) -> Vec<String> {
    let measured = known_tables(known);
    let holds = found.holds();
    let sure = match holds.agreement() {
        Agreement::All => format!("Sure: it holds on nearly all {measured}"),
        Agreement::Depends => format!("It depends on your table: it holds on some {measured}"),
        Agreement::None => format!("Sure: it misses on nearly all {measured}"),
    };
    let shares: Vec<String> = found
        .verdicts
        .iter()
        .map(|(verdict, share)| format!("{} {}", words(*verdict), of_hundred(*share)))
        .collect();
    let mut lines = vec![format!("{sure}; of a hundred, {}.", shares.join(", "))];
    if let Some(start) = &found.start {
        let some = if found.has_start.share < 1.0 {
            format!(", where there is one ({} of 100 tables)", whole(found.has_start.share))
        } else {
            String::new()
        };
        lines.push(format!(
            "The start through the middle of the mouth: {}, nine times in ten from {} to {}{some}.",
            short_number(start.middle, 2),
            short_number(start.ninety.0, 2),
            short_number(start.ninety.1, 2)
        ));
    }
    lines
}

/// The tables of which an answer is told.
pub fn known_tables(known: &MeasuredTable) -> String {
    match known.origin {
        TableOrigin::Banks(0) | TableOrigin::Wide => "known tables".to_owned(),
        TableOrigin::Banks(banks) => {
            format!("tables that your {} allow", count(banks as u64, "bank", "banks"))
        }
        TableOrigin::Practice { .. } => "tables on which common practice comes true".to_owned(),
    }
}

fn whole(share: f64) -> String {
    short_number((100.0 * share).round(), 0)
}

/// A share with twice its error, in hundredths.
fn of_hundred(share: MemberShare) -> String {
    format!("{} (±{})", whole(share.share), short_number((200.0 * share.error).ceil(), 0))
}

const fn words(verdict: BankVerdict) -> &'static str {
    match verdict {
        BankVerdict::Holds => "hold",
        BankVerdict::TouchesPoint(Direction::Long) => "touch the long point",
        BankVerdict::TouchesPoint(Direction::Short) => "touch the short point",
        BankVerdict::Long => "go long",
        BankVerdict::Short => "fall short",
        BankVerdict::StoppedBeforeRail | BankVerdict::StoppedBeforeMouth => "stop on the way",
        BankVerdict::OtherRail => "never come to the pocket",
        BankVerdict::OtherPocket => "go into another pocket",
        BankVerdict::NoRoom => "would start off the cloth",
    }
}
