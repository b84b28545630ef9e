//! Why a ball misses, in a coach's words.

use super::asked_units::AskedUnits;
use super::wording::percent;
use railproof_engine::attribution::{
    Attribution, Cause, CauseShare, NotAttributed, Part, REFERENCE_SPEED_M_S,
};

/// The one or two parts that make the miss, and what all others leave: `the rail carries it further along than at
/// 4 m/s (+58 mm); all else −3 mm`. As they are told, they add up. Nothing where none stands out. `launch_roll` is
/// the roll with which the ball set out.
pub fn because(why: &Attribution, launch_roll: f64, units: AskedUnits) -> Option<String> {
    let main = why.main_parts();
    let parts: Vec<String> = main
        .iter()
        .map(|part| {
            format!("{} ({})", words(part, launch_roll, units), units.signed(part.share_m()))
        })
        .collect();
    if parts.is_empty() {
        return None;
    }
    let told_m: f64 = main.iter().map(|part| units.told_m(part.share_m())).sum();
    let else_m = units.told_m(why.miss_m) - told_m;
    let rest = if units.is_nothing(else_m) {
        String::new()
    } else {
        format!("; all else {}", units.signed_part(else_m))
    };
    Some(format!("{}{rest}", parts.join(", and ")))
}

/// The whole sum, a sentence: every part that is at least a tenth of a millimetre, or a hundredth of an
/// inch. They are rounded so that they add up. Where aim, squirt and throw work against each other, they stand in
/// brackets behind what they leave.
pub fn sum(why: &Attribution, units: AskedUnits) -> String {
    let (unit, count_m, decimals) = units.fine();
    let signed = |counts: i64| signed(counts, decimals);
    let metres = std::iter::once(why.remainder_m).chain(why.shares.iter().map(|it| it.share_m));
    let tenths = adding_up(&metres.map(|m| m / count_m).collect::<Vec<f64>>());
    let named: Vec<(Cause, i64)> = why
        .shares
        .iter()
        .zip(&tenths[1..])
        .filter(|(_, tenths)| **tenths != 0)
        .map(|(share, tenths)| (share.cause, *tenths))
        .collect();
    let listed = |sends_off: bool| -> Vec<String> {
        let of_kind = named.iter().filter(|(cause, _)| cause.sends_off() == sends_off);
        of_kind.map(|(cause, tenths)| format!("{} {}", spoken(*cause), signed(*tenths))).collect()
    };
    let mut parts = vec![format!("the line itself {}", signed(tenths[0]))];
    let sending = listed(true);
    if why.sent_off_m().is_some() {
        let of_kind = named.iter().filter(|(cause, _)| cause.sends_off());
        let left: i64 = of_kind.map(|(_, tenths)| tenths).sum();
        parts.push(format!("sent off {} ({})", signed(left), sending.join(", ")));
    } else {
        parts.extend(sending);
    }
    parts.extend(listed(false));
    format!("In {unit}: {}; together {}.", parts.join(", "), signed(tenths.iter().sum()))
}

/// A cause as a coach would say it.
const fn spoken(cause: Cause) -> &'static str {
    match cause {
        Cause::Line => "another line to the rail",
        Cause::Restitution => "the cushion's bounce",
        Cause::Carry => "carried along the rail",
        Cause::Bend => "the bend after the rail",
        other => other.name(),
    }
}

/// In place of a sum.
pub fn no_sum(why_not: &NotAttributed) -> String {
    format!("Its causes are not worked out: {why_not}.")
}

/// A count of the last decimal.
fn signed(counts: i64, decimals: usize) -> String {
    let sign = if counts < 0 { "−" } else { "+" };
    let ten = if decimals == 1 { 10 } else { 100 };
    let counts = counts.unsigned_abs();
    format!("{sign}{}.{:0decimals$}", counts / ten, counts % ten)
}

/// Whole numbers near these that add up to their rounded sum: all are rounded down, and those with the
/// largest rest are lifted.
fn adding_up(values: &[f64]) -> Vec<i64> {
    #[expect(clippy::cast_possible_truncation, reason = "tenths of a millimetre on a table")]
    let whole = |value: f64| value as i64;
    let mut rounded: Vec<i64> = values.iter().map(|value| whole(value.floor())).collect();
    let left = whole(values.iter().sum::<f64>().round()) - rounded.iter().sum::<i64>();
    let mut order: Vec<usize> = (0..values.len()).collect();
    let rest = |at: usize| values[at] - values[at].floor();
    order.sort_by(|a, b| rest(*b).total_cmp(&rest(*a)));
    for at in order.into_iter().take(usize::try_from(left).unwrap_or(0)) {
        rounded[at] += 1;
    }
    rounded
}

fn words(part: &Part, launch_roll: f64, units: AskedUnits) -> String {
    let usual = || units.speed(REFERENCE_SPEED_M_S, f64::round);
    let CauseShare { cause, actual, reference, .. } = match *part {
        Part::Cause(share) => share,
        Part::Itself(_) => {
            return format!("the line itself is off, even frozen and stun at {}", usual());
        }
        Part::SentOff(_) => {
            return "it sets off beside its line, aim, squirt and throw taken together".to_owned();
        }
    };
    let as_stated = |more: &str, less: &str| {
        let word = if actual > reference { more } else { less };
        word.replace("{}", &usual())
    };
    match cause {
        Cause::Aim => "the aim is off its line".to_owned(),
        Cause::Squirt => "squirt turns the cue ball off its line".to_owned(),
        Cause::Throw => "the cue ball throws it off the line of centres".to_owned(),
        Cause::Line => "it meets the rail on another line".to_owned(),
        Cause::Roll if actual < 0.0 => {
            format!("the ball still has draw at the rail, {} of full draw", percent(actual.abs()))
        }
        Cause::Roll if actual > launch_roll.max(0.0) => {
            format!("the ball has picked up {} of its roll by the rail", percent(actual.abs()))
        }
        Cause::Roll => {
            format!("the ball still has {} of its roll at the rail", percent(actual.abs()))
        }
        Cause::Side => {
            let kind = if actual > 0.0 { "running" } else { "reverse" };
            format!("it has {kind} side at the rail ({})", percent(actual.abs()))
        }
        Cause::Restitution => as_stated(
            "the cushion gives back more than at {}",
            "the cushion gives back less than at {}",
        ),
        Cause::Carry => as_stated(
            "the rail carries it further along than at {}",
            "the rail carries it less far along than at {}",
        ),
        Cause::Bend => as_stated(
            "it leaves the rail faster than at {}, so its path bends later",
            "it leaves the rail slower than at {}, so its path bends sooner",
        ),
        Cause::Table => "the table itself is different".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::{adding_up, signed};

    #[test]
    fn rounded_parts_add_up() {
        assert_eq!(adding_up(&[0.4, 0.4, 0.4]), [1, 0, 0]);
        assert_eq!(adding_up(&[-3.5, 10.25, -0.25, 0.0]), [-3, 10, 0, 0]);
        assert_eq!(adding_up(&[]), [0; 0]);
    }

    #[test]
    fn shares_are_said_with_their_sign() {
        assert_eq!((signed(-7, 1), signed(120, 1)), ("−0.7".to_owned(), "+12.0".to_owned()));
        assert_eq!(signed(-105, 2), "−1.05");
    }
}
