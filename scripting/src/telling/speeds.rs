//! The sentence about the speeds at which a line holds.

use super::wording::millimetres;
use railproof_engine::bank::{HoldingInterval, HoldingSpeeds, SEARCHED_SPEEDS_M_S};

/// Every stretch that was found and the speed with the most room. `asked_m_s` is the speed that was
/// asked about: where it holds the rounded stretches hold it too.
pub(super) fn speeds_sentence(holding: Option<&HoldingSpeeds>, asked_m_s: f64) -> String {
    let Some(holding) = holding else {
        let (slowest, fastest) = SEARCHED_SPEEDS_M_S;
        return format!("The line holds at no speed from {slowest} to {fastest} m/s.");
    };
    let stretches: Vec<String> =
        holding.intervals.iter().map(|interval| stretch(interval, asked_m_s)).collect();
    let best = holding.most_room;
    format!(
        "The line holds {}. It has the most room at {:.2} m/s: {} to the nearer point.",
        stretches.join(", and "),
        best.speed_m_s,
        millimetres(best.clearance_m)
    )
}

fn stretch(found: &HoldingInterval, asked_m_s: f64) -> String {
    let inside = (asked_m_s >= found.from_m_s && asked_m_s <= found.to_m_s).then_some(asked_m_s);
    let from = rounded(found.from_m_s, f64::ceil, |least| inside.is_none_or(|v| v >= least));
    let to = rounded(found.to_m_s, f64::floor, |most| inside.is_none_or(|v| v <= most));
    match (found.breaks_below, found.breaks_above) {
        (false, false) => format!("at every speed that was searched, {from} to {to} m/s"),
        (true, false) => format!("from {from} m/s as far as was searched, {to} m/s"),
        (false, true) => format!("from {from} m/s, the slowest that was searched, up to {to} m/s"),
        (true, true) if from > to => format!("close to {:.2} m/s", found.from_m_s),
        (true, true) => format!("from {from} to {to} m/s"),
    }
}

/// Rounded into the stretch, to as few decimals as leave `keeps` true, one at least.
fn rounded(m_s: f64, inwards: fn(f64) -> f64, keeps: impl Fn(f64) -> bool) -> f64 {
    // An edge is known to 1e-7 of itself; a round one is left as it is.
    let to = |scale: f64| {
        let nearest = (scale * m_s).round();
        let scaled = scale * m_s;
        (if (scaled - nearest).abs() < 1e-5 { nearest } else { inwards(scaled) }) / scale
    };
    [10.0, 100.0, 1000.0].into_iter().map(to).find(|value| keeps(*value)).unwrap_or(m_s)
}

#[cfg(test)]
mod tests {
    use super::*;
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
            searched_m_s: SEARCHED_SPEEDS_M_S,
            spacing: 1.04,
        }
    }

    #[test]
    fn both_ends_are_told_and_where_the_search_ends() {
        let said = |intervals, asked| speeds_sentence(Some(&holding(intervals)), asked);
        let room = ". It has the most room at 5.04 m/s: 12 mm to the nearer point.";
        assert_eq!(
            said(&[(3.42, 8.07, true, true)], 9.0),
            format!("The line holds from 3.5 to 8 m/s{room}")
        );
        assert_eq!(
            said(&[(3.42, 14.0, true, false)], 3.45),
            format!("The line holds from 3.42 m/s as far as was searched, 14 m/s{room}")
        );
        assert_eq!(
            said(&[(0.2, 1.23, false, true), (4.71, 4.72, true, true)], 2.0),
            format!(
                "The line holds from 0.2 m/s, the slowest that was searched, up to 1.2 m/s, and \
                 close to 4.71 m/s{room}"
            )
        );
        assert_eq!(
            said(&[(0.2, 14.0, false, false)], 2.0),
            format!("The line holds at every speed that was searched, 0.2 to 14 m/s{room}")
        );
        assert_eq!(speeds_sentence(None, 2.0), "The line holds at no speed from 0.2 to 14 m/s.");
    }
}
