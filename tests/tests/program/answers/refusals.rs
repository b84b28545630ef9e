//! Flags and numbers that are refused.

use super::support::{Line, bank, bank_json};
use clap::Parser;

#[test]
fn wrong_flags_are_named_and_helped() {
    let base = ["--contact", "2", "--speed", "3 m/s"];
    let cases: &[(&str, &str, &str, &str)] = &[
        ("--speed", "nan m/s", "`--speed` must be finite", "none"),
        ("--speed", "inf m/s", "`--speed` must be finite", "none"),
        ("--speed", "-3 m/s", "`--speed` is -3 m/s; it must be from 0.01 m/s to 20 m/s", ""),
        ("--speed", "0 m/s", "`--speed` is 0 m/s", ""),
        ("--speed", "1e30 m/s", "`--speed` is", ""),
        ("--speed", "3", "`--speed` needs a unit", "write `3 m/s`"),
        ("--speed", "3 knots", "must be a speed, not `3 knots`", ""),
        ("--speed", "3 mhp", "must be a speed, not `3 mhp`", "did you mean `mph`?"),
        ("--speed", "1000 lengths", "in table lengths", ""),
        ("--contact", "nan", "`--contact` must be finite", "none"),
        ("--contact", "2 m", "`--contact` must be a plain number", "it takes no unit"),
        ("--contact", "1e9", "`--contact` is", "none"),
        (
            "--contact",
            "-2",
            "`--contact` is -2, which is not on the left rail",
            "from 0.09 to 7.91",
        ),
        (
            "--contact",
            "12",
            "`--contact` is 12, which is not on the left rail",
            "from 0.09 to 7.91",
        ),
        ("--speed", "frim", "must be a speed", "did you mean `firm`?"),
        ("--speed", "hard", "must be a speed", "did you mean `firm`?"),
        ("--speed", "brisk", "must be a speed", "soft, medium or firm"),
        ("--off-rail", "-1 in", "`--off-rail` is", "none"),
        ("--off-rail", "2 m", "`--off-rail` is 2 m, which is not on the table", "1.215 m"),
        ("--off-rail", "2 kg", "must be a length, not `2 kg`", "its unit is one of: m,"),
        ("--roll", "7", "`--roll` is 7", "none"),
        ("--running-side", "x", "`--running-side` must be a plain number", "such as `0.3`"),
        ("--aim-error", "1 rad", "`--aim-error` is", "none"),
        ("--slope", "1e300", "the start number that the rule gives", "--slope"),
        ("--slope", "inf", "`--slope` must be finite", "none"),
        ("--reading", "sigt", "must be `groove` or `sight`", "did you mean `sight`?"),
        ("--rail", "lnog", "`--rail` must be `long`, `end`", "did you mean `long`?"),
        ("--pocket", "middle", "`--pocket` must be `corner`, `side`", "none"),
        ("--pocket", "side", "", ""),
        ("--rail-model", "plannar", "must be `nose-and-cloth`", "did you mean `planar`?"),
        (
            "--equipment",
            "nine-feet",
            "`--equipment`: there is no shipped profile",
            "did you mean `nine-foot`?",
        ),
        ("--cushion", "gone", "`--cushion`: there is no shipped profile", "shipped profiles"),
    ];
    for &(flag, value, message, hint) in cases {
        let mut given = base.to_vec();
        match given.iter().position(|other| *other == flag) {
            Some(place) => given[place + 1] = value,
            None => given.extend([flag, value]),
        }
        if message.is_empty() {
            bank(&given);
            continue;
        }
        let fault = bank_json(&given).expect_err(value);
        assert_eq!(fault.exit.code(), 2);
        assert!(fault.message.contains(message), "{given:?}: {fault}");
        let helped = fault.hint.as_deref().unwrap_or("none");
        assert!(hint.is_empty() || helped.contains(hint), "{given:?}: {fault}");
    }
    let fault = bank_json(&[
        "--contact",
        "2",
        "--speed",
        "3 m/s",
        "--rail",
        "left",
        "--pocket",
        "foot-left",
    ]);
    let fault = fault.expect_err("it opens into that rail");
    assert!(fault.message.contains("`--rail` and `--pocket`"), "{fault}");
    let both = ["bank", "--contact", "2", "--speed", "3 m/s", "--start", "4", "--slope", "2"];
    assert!(Line::try_parse_from(both).is_err());
}

#[test]
fn extreme_numbers_are_refused_in_few_words() {
    for value in ["1e308", "-1e308"] {
        let fault = bank_json(&["--contact", value, "--speed", "3 m/s"]).unwrap_err();
        assert!(fault.message.len() < 100, "{fault}");
        assert!(fault.message.contains("1e308"), "{fault}");
    }
}
