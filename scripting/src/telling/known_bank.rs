//! A bank on every table that measured banks allow, in sentences.

use super::asked_units::AskedUnits;
use super::wording::{capital, count};
use crate::fitting::{MeasuredTable, TableOrigin};
use crate::playing::KnownAdvice;
use railproof_engine::ask::{Agreement, KnownBank, MemberShare};
use railproof_engine::bank::{BankVerdict, Direction};
use railproof_engine::units::short_number;

/// How sure the answer is, with the start that is advised in the words `aim from 4.24`, which `asked` stands beside.
pub(super) fn known_headline(
    (found, known): (&KnownBank, &MeasuredTable),
    better: Option<(String, MemberShare)>,
    asked: &str,
) -> String {
    let (tables, holds) = (known_tables(known), found.holds());
    let share = |share: MemberShare| format!("{} of 100", whole(share.share));
    if holds.agreement() == Agreement::All {
        return format!("It holds on nearly all {tables}.");
    }
    let better = better.filter(|(_, there)| there.share > holds.share + 2.0 * holds.error);
    if let Some((aim, there)) = better {
        let (aim, there, here) = (capital(&aim), share(there), share(holds));
        return format!(
            "{aim} instead of {asked}: it holds on {there} {tables}, as asked on {here}."
        );
    }
    match (holds.agreement(), &found.start) {
        (Agreement::None, None) => format!("It misses on nearly all {tables}, from every start."),
        (Agreement::None, Some(_)) => format!("It misses on nearly all {tables}."),
        _ => format!("It depends on your table: it holds on {} {tables}.", share(holds)),
    }
}

/// Every outcome's share, the start with its interval, and what another speed would do.
pub(super) fn known_sentences(
    (found, known): (&KnownBank, &MeasuredTable),
    advice: Option<KnownAdvice>,
    units: AskedUnits,
) -> Vec<String> {
    let tables = known_tables(known);
    let shares: Vec<String> = found
        .verdicts
        .iter()
        .map(|(verdict, share)| format!("{} {}", words(*verdict), of_hundred(*share)))
        .collect();
    let mut lines = vec![format!("As asked, of a hundred {tables}: {}.", shares.join(", "))];
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
    if let Some((speed_m_s, share)) = advice.and_then(|advice| advice.speed)
        && found.holds().agreement() != Agreement::All
    {
        lines.push(format!(
            "Sent along the line as asked at {}, it holds on {}.",
            units.speed(speed_m_s, f64::round),
            of_hundred(share)
        ));
    }
    lines
}

/// The tables of which an answer is told.
pub fn known_tables(known: &MeasuredTable) -> String {
    match known.origin {
        TableOrigin::Banks(0) | TableOrigin::Wide => {
            "tables within the published ranges".to_owned()
        }
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
