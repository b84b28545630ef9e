//! The speeds and the starts at which a line holds, in sentences.

use super::asked_units::AskedUnits;
use super::detail::Detail;
use crate::playing::{HARD_M_S, HARDEST_M_S};
use railproof_engine::bank::{HoldingInterval, HoldingSpeeds, SEARCHED_SPEEDS_M_S};
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::Reading;
use railproof_engine::units::{SpeedWord, short_number};

/// An edge below this is as good as none: nobody sends a bank so softly. Chosen, m/s.
const SOFTEST_M_S: f64 = 0.3;
/// A stretch whose sure part ends within this ratio of its beginning is as good as unsure.
const NEARLY: f64 = 1.1;
/// A speed at which it holds with less to spare is no advice, m. Chosen.
const LEAST_CLEARANCE_M: f64 = 3e-3;
/// Speeds that lie within this share of one are told as one. Chosen: nobody meters finer.
const SAME_SPEED: f64 = 0.1;

/// Every stretch of speeds that holds, with the most comfortable one and its room: `From 4.4 it holds from 3.3
/// m/s on, where it just drops, with most room at 4.4 m/s (1 1/8 in to spare).` In full beyond the hardest stroke too.
pub(super) fn speeds_sentence(
    line: &str,
    holding: Option<&HoldingSpeeds>,
    (asked_m_s, as_roomy): (f64, Option<(f64, f64)>),
    units: AskedUnits,
    detail: Detail,
) -> String {
    let nearest = |m_s| units.speed(m_s, f64::round);
    let within = holding.map_or_else(Vec::new, |found| within_reach(&found.intervals, detail));
    let (Some(holding), false) = (holding, within.is_empty()) else {
        let (slowest, fastest) = SEARCHED_SPEEDS_M_S;
        let fastest = if detail.is_full() { fastest } else { HARDEST_M_S };
        return format!(
            "{line} it holds at none of the speeds from {} to {}.",
            nearest(slowest),
            nearest(fastest)
        );
    };
    let best = holding.most_room;
    let stretches: Vec<String> = within.iter().map(|it| stretch(it, units, detail)).collect();
    let greatest_m_s = within.iter().map(|it| it.to_m_s).fold(0.0, f64::max);
    let less_sure = less_sure(holding, greatest_m_s, units).unwrap_or_default();
    // Nearer than this they are one.
    let span = as_roomy.filter(|(least, most)| most - least > SAME_SPEED * best.speed_m_s);
    let comfortable = match span {
        Some((least, most)) => {
            format!("from {} to {}", units.speed(least, f64::ceil), units.speed(most, f64::floor))
        }
        None if let Some(near) =
            within.iter().find(|it| needs_hundredths(best.speed_m_s, it, units)) =>
        {
            // Rounded into the stretch, as its ends are.
            let is_low = best.speed_m_s < 0.5 * (near.from_m_s + near.to_m_s);
            let inwards = if is_low { f64::ceil } else { f64::floor };
            format!("at {}", units.speed_to(best.speed_m_s, 2, inwards))
        }
        // Told alike, the two would have two rooms.
        None if best.speed_m_s != asked_m_s && nearest(best.speed_m_s) == nearest(asked_m_s) => {
            format!("at {}", units.speed_to(best.speed_m_s, 2, f64::round))
        }
        None => format!("at {}", nearest(best.speed_m_s)),
    };
    let room = units.length(best.clearance_m);
    format!(
        "{line} it holds {}{less_sure}, with most room {comfortable} ({room} to spare).",
        stretches.join(", and ")
    )
}

/// The stretches, none of them beyond the hardest stroke; in full as they were found.
fn within_reach(found: &[HoldingInterval], detail: Detail) -> Vec<HoldingInterval> {
    if detail.is_full() {
        return found.to_vec();
    }
    let softer = found.iter().filter(|it| it.from_m_s <= HARDEST_M_S);
    let within = |it: &HoldingInterval| HoldingInterval {
        to_m_s: it.to_m_s.min(HARDEST_M_S),
        breaks_above: it.breaks_above && it.to_m_s < HARDEST_M_S,
        breaks_below: it.breaks_below && it.from_m_s > SOFTEST_M_S,
        ..*it
    };
    softer.map(within).collect()
}

/// From where on the model is less sure that it holds; nothing where it is sure.
fn less_sure(holding: &HoldingSpeeds, greatest_m_s: f64, units: AskedUnits) -> Option<String> {
    let from_m_s = holding.less_sure_from_m_s.filter(|from| *from < greatest_m_s)?;
    Some(if from_m_s <= NEARLY * holding.least_m_s() {
        " (less sure)".to_owned()
    } else {
        format!(" (less sure from {} on)", units.speed(from_m_s, f64::floor))
    })
}

/// The speed to hit it at instead of one that breaks: `at 3.7 m/s or harder`. Not the edge itself: `roomy` are the
/// speeds, around the one with the most room, that have a good part of it.
pub(super) fn better_speed(
    holding: &HoldingSpeeds,
    roomy: (f64, f64),
    asked_m_s: f64,
    units: AskedUnits,
) -> Option<String> {
    if holding.intervals.iter().any(|it| has(it, asked_m_s)) {
        return None;
    }
    let best_m_s = holding.most_room.speed_m_s;
    if holding.most_room.clearance_m < LEAST_CLEARANCE_M {
        return None;
    }
    let near = holding.intervals.iter().find(|it| has(it, best_m_s))?;
    let width_m_s = roomy.1 - roomy.0;
    if roomy.0 > HARDEST_M_S || width_m_s < SAME_SPEED * roomy.0 {
        // Nobody hits so hard, or meters so finely.
        return None;
    }
    let within = HoldingInterval { from_m_s: roomy.0, to_m_s: roomy.1, ..*near };
    let (from, to) = ends(&within, units);
    let harder = !near.breaks_above
        || near.to_m_s >= HARDEST_M_S
        || near.to_m_s >= HARD_M_S && near.from_m_s < HARD_M_S;
    let softer = !near.breaks_below || near.from_m_s <= SOFTEST_M_S;
    let unsure = holding.less_sure_at(NEARLY * within.from_m_s);
    let unsure = if unsure { " (less sure)" } else { "" };
    Some(match asked_m_s {
        asked if asked < near.from_m_s && harder => format!("at {from} or harder{unsure}"),
        asked if asked > near.to_m_s && softer => format!("at {to} or softer"),
        _ if from == to => format!("at {from}{unsure}"),
        _ => format!("between {from} and {to}{unsure}"),
    })
}

/// Its ends, each one number: rounded into the stretch.
fn ends(found: &HoldingInterval, units: AskedUnits) -> (String, String) {
    let width_m_s = found.to_m_s - found.from_m_s;
    if width_m_s < 0.02 {
        let middle = 0.5 * (found.from_m_s + found.to_m_s);
        let middle = units.speed_to(middle, 2, f64::round);
        return (middle.clone(), middle);
    }
    let told = |m_s, round| {
        if is_narrow(found, units) {
            units.speed_to(m_s, 2, round)
        } else {
            units.speed(m_s, round)
        }
    };
    (told(found.from_m_s, f64::ceil), told(found.to_m_s, f64::floor))
}

fn has(stretch: &HoldingInterval, m_s: f64) -> bool {
    (stretch.from_m_s..=stretch.to_m_s).contains(&m_s)
}

/// Whether tenths of the unit do not fit in.
fn is_narrow(found: &HoldingInterval, units: AskedUnits) -> bool {
    found.to_m_s - found.from_m_s < units.speed_parts(5.0)
}

/// Whether a speed of the stretch, told in tenths, would seem to lie outside of it, or its ends are told so.
fn needs_hundredths(m_s: f64, found: &HoldingInterval, units: AskedUnits) -> bool {
    if !has(found, m_s) {
        return false;
    }
    let told = units.speed(m_s, f64::round);
    let is_only = |m_s, outer: fn(f64) -> f64, inner: fn(f64) -> f64| {
        told == units.speed(m_s, outer) && told != units.speed(m_s, inner)
    };
    is_narrow(found, units)
        || is_only(found.from_m_s, f64::floor, f64::ceil)
        || is_only(found.to_m_s, f64::ceil, f64::floor)
}

fn stretch(found: &HoldingInterval, units: AskedUnits, detail: Detail) -> String {
    let (from, to) = ends(found, units);
    let looked = |text: String| if detail.is_full() { text } else { String::new() };
    match (found.breaks_below, found.breaks_above) {
        (false, false) => {
            format!("at every speed{}", looked(format!(" looked at, {from} to {to}")))
        }
        (true, false) => {
            let looked = looked(format!(" (looked at up to {to})"));
            format!("from {from} on, where it just drops{looked}")
        }
        (false, true) => {
            format!("at {to} or softer{}", looked(format!(" (looked at down to {from})")))
        }
        (true, true) if from == to => format!("close to {from}"),
        (true, true) => format!("from {from} to {to}"),
    }
}

/// A remark on a table whose words for speeds are the wrong way round.
pub fn speeds_turned_round(equipment: &Equipment) -> Option<String> {
    let [one, other] = equipment.speeds.turned_round()?;
    let told = |word: SpeedWord| {
        let m_s = short_number(equipment.speeds.m_s(word), 2);
        format!("{} ({m_s} m/s)", word.name())
    };
    Some(format!(
        "on {}, {} is faster than {}: look at its `speeds`",
        equipment.name,
        told(one),
        told(other)
    ))
}

/// The starts from which a contact number holds, and the one with the most room where that is told.
pub(super) fn starts_sentence(
    sent: &str,
    contact: f64,
    exact: Option<f64>,
    (low, high): (f64, f64),
    reading: Reading,
) -> String {
    // The line was asked for in the other reading.
    let across = if reading == Reading::Sight { " across the grooves" } else { "" };
    let least = (100.0 * low).ceil() / 100.0;
    let most = (100.0 * high).floor() / 100.0;
    let room = exact.map(|exact| format!(", with most room from {}", short_number(exact, 2)));
    format!(
        "{sent} contact {} holds from {} to {}{across}{}.",
        short_number(contact, 3),
        short_number(least, 2),
        short_number(most, 2),
        room.unwrap_or_default()
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::testing;
    use railproof_engine::bank::MostRoom;

    fn holding(intervals: &[(f64, f64, bool, bool)]) -> HoldingSpeeds {
        let interval = |&(from_m_s, to_m_s, breaks_below, breaks_above)| HoldingInterval {
            from_m_s,
            to_m_s,
            breaks_below,
            breaks_above,
        };
        HoldingSpeeds {
            intervals: intervals.iter().map(interval).collect(),
            most_room: MostRoom { speed_m_s: 5.04, clearance_m: 0.0123 },
            less_sure_from_m_s: None,
            searched_m_s: SEARCHED_SPEEDS_M_S,
            spacing: 1.04,
        }
    }

    const METRIC: AskedUnits = AskedUnits::METRIC;

    #[test]
    fn both_ends_are_told_and_in_full_where_the_search_ends() {
        let told = |intervals, detail| {
            speeds_sentence("From 4.4", Some(&holding(intervals)), (3.0, None), METRIC, detail)
        };
        let said = |intervals| told(intervals, Detail::Brief);
        let room = ", with most room at 5 m/s (12 mm to spare).";
        assert_eq!(
            said(&[(3.4123, 7.5799, true, true)]),
            format!("From 4.4 it holds from 3.5 m/s to 7.5 m/s{room}")
        );
        // Nobody hits harder than this.
        assert_eq!(
            said(&[(3.42, 10.0, true, true), (12.0, 13.0, true, true)]),
            format!("From 4.4 it holds from 3.5 m/s on, where it just drops{room}")
        );
        assert_eq!(
            said(&[(0.2, 1.2345, false, true), (4.711, 4.72, true, true)]),
            format!("From 4.4 it holds at 1.2 m/s or softer, and close to 4.72 m/s{room}")
        );
        assert_eq!(
            said(&[(0.2, 14.0, false, false)]),
            format!("From 4.4 it holds at every speed{room}")
        );
        assert_eq!(
            told(&[(3.42, 14.0, true, false)], Detail::Full),
            format!(
                "From 4.4 it holds from 3.5 m/s on, where it just drops (looked at up to 14 m/s){room}"
            )
        );
        assert_eq!(
            told(&[(0.2, 14.0, false, false)], Detail::Full),
            format!("From 4.4 it holds at every speed looked at, 0.2 m/s to 14 m/s{room}")
        );
        assert_eq!(
            said(&[(12.0, 13.0, true, true)]),
            "From 4.4 it holds at none of the speeds from 0.2 m/s to 8 m/s."
        );
        assert_eq!(
            speeds_sentence("From 4.4", None, (3.0, None), METRIC, Detail::Full),
            "From 4.4 it holds at none of the speeds from 0.2 m/s to 14 m/s."
        );
    }

    #[test]
    fn speeds_with_as_much_room_are_told_together() {
        let all = holding(&[(0.2, 14.0, false, false)]);
        let said = |span| {
            speeds_sentence("From 4.4", Some(&all), (3.0, Some(span)), METRIC, Detail::Brief)
        };
        assert!(said((4.201, 6.0)).contains("with most room from 4.3 m/s to 6 m/s ("));
        assert!(said((5.0, 5.1)).contains("with most room at 5 m/s ("));
    }

    #[test]
    fn words_the_wrong_way_round_are_remarked_on() {
        let mut table = Equipment { name: "mine".into(), ..testing::hall() };
        assert_eq!(speeds_turned_round(&table), None);
        table.speeds.soft_m_s = 6.0;
        let said = speeds_turned_round(&table).unwrap_or_default();
        assert_eq!(
            said,
            "on mine, soft (6 m/s) is faster than firm (4.5 m/s): look at its `speeds`"
        );
    }

    #[test]
    fn the_stretch_with_the_most_room_is_advised() {
        let better = |intervals: &[(f64, f64, bool, bool)], asked| {
            let mut found = holding(intervals);
            // The most room lies in the middle of the first stretch.
            let (from, to, ..) = intervals[0];
            found.most_room.speed_m_s = 0.5 * (from + to);
            better_speed(&found, (from, to), asked, METRIC)
        };
        assert_eq!(better(&[(3.3, 10.0, true, true)], 3.0), Some("at 3.3 m/s or harder".into()));
        assert_eq!(better(&[(0.2, 2.0, false, true)], 3.0), Some("at 2 m/s or softer".into()));
        assert_eq!(
            better(&[(3.3, 4.0, true, true), (9.0, 14.0, true, false)], 3.0),
            Some("between 3.3 m/s and 4 m/s".into())
        );
        assert_eq!(better(&[(5.35, 8.04, true, true)], 2.0), Some("at 5.4 m/s or harder".into()));
        assert_eq!(better(&[(3.3, 10.0, true, true)], 4.0), None);
        // Only the part of it with room is advised.
        let found = holding(&[(3.3, 10.0, true, true)]);
        assert_eq!(
            better_speed(&found, (3.72, 8.0), 3.0, METRIC),
            Some("at 3.8 m/s or harder".into())
        );
        // What nobody can hit is not advised.
        assert_eq!(better(&[(12.0, 14.0, true, false)], 3.0), None);
    }
}
