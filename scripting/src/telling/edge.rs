//! The reasons why a rule breaks at an edge, in words.

use super::asked_units::AskedUnits;
use crate::lua::quantity::shown;
use railproof_engine::attribution::{Cause, CauseShare};
use railproof_engine::bank::BankEnding;
use railproof_engine::frontier::{BreakKind, IntervalEnd};
use railproof_engine::rail::Side;
use railproof_engine::units::DEGREE_RAD;

/// An edge's one or two causes, each with its share of the change of the miss: `+14 mm
/// since it meets the rail with 27 % of natural roll (21 %)`.
pub fn because(end: &IntervalEnd, units: AskedUnits) -> Option<String> {
    let breaking = end.breaking.as_ref()?;
    let causes = breaking.why.as_ref()?.main_causes();
    let told: Vec<String> = causes
        .iter()
        .map(|share| format!("{} since {}", units.signed(share.share_m), cause(share, units)))
        .collect();
    (!told.is_empty()).then(|| told.join(", and "))
}

/// The way it breaks, as the end of a sentence.
pub const fn breaks(way: BreakKind) -> &'static str {
    match way {
        BreakKind::Long => "it goes long",
        BreakKind::Short => "it goes short",
        BreakKind::Stops => "the ball stops on its way",
        BreakKind::Elsewhere => "it meets another rail or pocket first",
    }
}

/// The same at an end, with the rail or pocket that it meets; nothing where it holds on.
pub(super) fn breaks_at(end: &IntervalEnd) -> Option<String> {
    let ending = end.breaking.as_ref()?.outcome.ending;
    Some(match (end.way()?, ending) {
        (BreakKind::Elsewhere, BankEnding::OtherRail(side, _)) => {
            format!("it meets the {} first", side_words(side))
        }
        (BreakKind::Elsewhere, BankEnding::OtherPocket(pocket, _)) => {
            format!("it goes into the {} pocket", pocket.name())
        }
        (way, _) => breaks(way).to_owned(),
    })
}

/// A rail by its place beside the bank.
const fn side_words(side: Side) -> &'static str {
    match side {
        Side::Banked => "banked rail again",
        Side::Opposite => "rail across from the banked one",
        Side::Low => "rail at the pocket's end",
        Side::High => "rail at the other end",
    }
}

/// A cause; in parentheses what it is where there is most room.
fn cause(share: &CauseShare, units: AskedUnits) -> String {
    let (at_edge, inside) = (share.actual, share.reference);
    match share.cause {
        Cause::Roll => {
            let inside = match (at_edge < 0.0, inside < 0.0) {
                _ if inside == 0.0 => "none".to_owned(),
                (same, other) if same == other => percent_of(inside.abs(), at_edge.abs()),
                _ => roll(inside, at_edge),
            };
            format!("it meets the rail with {} ({inside})", roll(at_edge, share.reference))
        }
        Cause::Side => format!("it meets the rail with {} ({})", side(at_edge), side(inside)),
        Cause::Restitution => format!(
            "the cushion gives back {} of the speed square to it ({})",
            percent_of(at_edge, inside),
            percent_of(inside, at_edge)
        ),
        Cause::Carry => format!(
            "the rail carries it {} along ({})",
            units.length(at_edge),
            units.length(inside)
        ),
        Cause::Bend => {
            let bends = if at_edge < inside { "sooner" } else { "later" };
            format!(
                "it leaves the rail at {} m/s ({} m/s), so its path bends {bends}",
                digits(at_edge, 2),
                digits(inside, 2)
            )
        }
        Cause::Line => {
            let degrees = |angle: f64| format!("{}°", digits(angle / DEGREE_RAD, 1));
            format!("it meets the rail {} from square ({})", degrees(at_edge), degrees(inside))
        }
        Cause::Table => "the table itself is different".to_owned(),
        Cause::Aim | Cause::Squirt | Cause::Throw => share.cause.name().to_owned(),
    }
}

fn roll(share: f64, beside: f64) -> String {
    let percent = percent_of(share.abs(), beside.abs());
    if share < 0.0 { format!("{percent} of draw") } else { format!("{percent} of natural roll") }
}

fn side(side: f64) -> String {
    let word = if side < 0.0 { "reverse" } else { "running" };
    match digits(side.abs(), 2).as_str() {
        "0" => "no side".to_owned(),
        amount => format!("{amount} {word} side"),
    }
}

/// In whole per cent, unless that would not tell it from the one beside it.
fn percent_of(share: f64, beside: f64) -> String {
    let decimals = usize::from((share - beside).abs() < 0.01);
    format!("{} %", digits(100.0 * share, decimals))
}

fn digits(value: f64, decimals: usize) -> String {
    shown(format!("{value:.decimals$}").parse().unwrap_or(value))
}
