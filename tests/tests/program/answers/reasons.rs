//! The reason of a miss, and its sum.

use super::support::{bank, flags, number, told};
use proptest::prelude::*;

/// Harder and harder, the reason grows as the miss does, and its parts are the miss.
#[test]
fn the_reason_adds_up_and_follows_the_trend() {
    let off = ["--equipment", "seven-foot", "--contact", "3.5", "--off-rail", "254 mm", "--speed"];
    let (mut last_miss, mut last_carry) = (0.0, 0.0);
    for speed in ["6 m/s", "8 m/s", "9 m/s", "10 m/s"] {
        let given = [&off[..], &[speed]].concat();
        let answer = bank(&given);
        let miss = 1e3 * number(&answer, "/verdict/miss_m");
        let shares = answer["why"]["shares"].as_array().expect("a list");
        let all: f64 = shares.iter().map(|share| 1e3 * number(share, "/share_m")).sum();
        assert!(
            (1e3 * number(&answer, "/why/line_itself_m") + all - miss).abs() < 1e-6,
            "{answer}"
        );
        let carry = shares.iter().find(|share| share["cause"] == "carry").expect("it is carried");
        let carry = 1e3 * number(carry, "/share_m");
        assert!(miss > last_miss && carry > last_carry, "{speed}: {miss} {carry}");
        (last_miss, last_carry) = (miss, carry);
        let text = told(&flags(&given)).expect("it plays");
        let why = text.lines().nth(1).unwrap_or_default();
        assert!(why.contains("the rail carries it further along than at 4 m/s (+"), "{text}");
        // The printed parts add up to the printed sum, in tenths.
        let sum = text.lines().nth(2).unwrap_or_default().replace('−', "-");
        let printed: Vec<f64> = sum
            .split([' ', ',', ';'])
            .filter_map(|word| word.trim_end_matches('.').parse().ok())
            .collect();
        let (total, parts) = printed.split_last().expect("a sum");
        assert!((parts.iter().sum::<f64>() - total).abs() < 1e-9, "{sum}");
        assert!((total - miss).abs() < 0.051, "{sum} {miss}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    /// Whatever is written after a flag, the answer is an answer or names a flag.
    #[test]
    fn no_text_after_a_flag_breaks_the_command(
        contact in "\\PC{0,8}",
        speed in "[-+0-9.e]{0,6} ?(m/s|mph|lengths|\\PC{0,3})",
        off_rail in "[-+0-9.e]{0,6} ?(in|m|\\PC{0,3})",
    ) {
        let args = flags(&["--contact", "2", "--speed", "3 m/s"]);
        for (name, value) in [(0, &contact), (1, &speed), (2, &off_rail)] {
            let mut one = args.clone();
            match name {
                0 => one.contact.clone_from(value),
                1 => one.speed = Some(value.clone()),
                _ => one.off_rail.clone_from(value),
            }
            if let Err(fault) = one.questions() {
                prop_assert_eq!(fault.exit.code(), 2);
                prop_assert!(fault.message.contains("`--"), "{}", fault);
            }
        }
    }
}

/// The reason for a miss goes the same way as the miss: never "goes long: comes off shorter".
#[test]
fn the_reason_for_a_miss_goes_the_way_of_the_miss() {
    for slow in ["3 lengths", "1.5 m/s", "4 m/s"] {
        for rail in ["long", "end"] {
            for off_rail in ["0 in", "12 in"] {
                let given =
                    ["--contact", "1", "--speed", slow, "--rail", rail, "--off-rail", off_rail];
                let told = told(&flags(&given)).unwrap_or_else(|fault| panic!("{fault}"));
                let first = told.lines().next().unwrap_or_default();
                let answer = told.lines().nth(1).unwrap_or_default();
                let (way, other) = if first.contains("goes long") {
                    ("(+", "(−")
                } else if first.contains("falls short") {
                    ("(−", "(+")
                } else {
                    continue;
                };
                assert!(answer.contains(way) && !answer.contains(other), "{answer}");
            }
        }
    }
}

#[test]
fn a_cause_never_runs_against_the_miss() {
    for start in ["3", "4.5"] {
        let flags =
            ["--contact", "2", "--start", start, "--speed", "3 m/s", "--rail", "head", "--pocket"];
        let said = told(&self::flags(&[&flags[..], &["side"]].concat()));
        let said = said.unwrap_or_else(|fault| panic!("{fault}"));
        assert!(said.contains("goes long"), "{said}");
        assert!(!said.lines().nth(1).unwrap_or_default().contains("(−"), "{said}");
    }
}
