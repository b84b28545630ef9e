//! Spin at the rail, frozen ball, contacts 1 to 3.5 at 2, 4 and 6 m/s. Common practice, no source.

use super::{Case, by_rule, cases, miss_mm, same, span};
use railproof_engine::bank::Launch;

/// The misses over the given spins, for each contact and speed, with words for messages.
fn misses(
    case: &Case,
    spins: &[f64],
    spin: impl Fn(Launch, f64) -> Launch,
) -> Vec<(String, Vec<f64>)> {
    let mut rows = Vec::new();
    for contact in span(1.0, 3.5, 0.5) {
        for speed in [2.0, 4.0, 6.0] {
            let at = format!("{}: contact {contact} at {speed} m/s", case.name);
            let launches = spins.iter().map(|s| spin(Launch::frozen_stun(speed), *s));
            let row = launches.map(|launch| miss_mm(&by_rule(&case.long, contact, launch)));
            rows.push((at, row.collect()));
        }
    }
    rows
}

fn grows(row: &[f64]) -> bool {
    row.windows(2).all(|pair| pair[1] > pair[0])
}

fn with_roll(launch: Launch, roll: f64) -> Launch {
    Launch { roll, ..launch }
}

/// Robust: any follow up to natural roll goes longer than stun, and more of it longer still up to
/// half of natural roll.
///
/// Not robust: that more follow always goes longer. Nearer natural roll the miss can dip again, at
/// 4 and 6 m/s and mostly at low contact numbers; the fraction of natural roll up to which each step
/// still goes longer at every contact and speed stands here (looked at up to 1).
#[test]
fn follow_at_the_rail_goes_longer() {
    let longer_up_to = [
        ("nine-foot", 0.625),
        ("cushions/steep-fading", 0.625),
        ("cushions/even-bounce", 0.625),
        ("cushions/grippy-nose", 0.5),
        ("cushions/slick-nose", 1.0),
    ];
    for case in cases() {
        let rolls: Vec<f64> = span(0.0, 1.0, 0.125).collect();
        let mut up_to: f64 = 1.0;
        for (at, row) in misses(&case, &rolls, with_roll) {
            assert!(row.iter().skip(1).all(|miss| *miss > row[0]), "{at}: {row:.1?}");
            let steps = row.windows(2).take_while(|pair| pair[1] > pair[0]).count();
            up_to = up_to.min(rolls[steps]);
        }
        assert!(up_to >= 0.5, "{}: only up to {up_to}", case.name);
        assert!(same(up_to, case.row(&longer_up_to)), "{}: up to {up_to}", case.name);
    }
}

/// Robust: any draw up to half of natural roll goes shorter than stun, and more of it shorter
/// still up to a quarter.
///
/// Not robust: that more draw always goes shorter. At 4 and 6 m/s strong draw can go longer again;
/// the fraction of natural roll down to which each step still goes shorter at every contact and
/// speed stands here (looked at down to -1).
#[test]
fn draw_at_the_rail_goes_shorter() {
    let shorter_down_to = [
        ("nine-foot", -0.5),
        ("cushions/steep-fading", -0.625),
        ("cushions/even-bounce", -0.5),
        ("cushions/grippy-nose", -0.5),
        ("cushions/slick-nose", -0.75),
    ];
    for case in cases() {
        let rolls: Vec<f64> = span(-1.0, 0.0, 0.125).collect();
        let rows = misses(&case, &rolls, with_roll);
        let mut down_to: f64 = -1.0;
        for (at, row) in rows {
            let stun = row[row.len() - 1];
            for (roll, miss) in rolls.iter().zip(&row) {
                assert!(!(-0.5..0.0).contains(roll) || *miss < stun, "{at}: {row:.1?}");
            }
            let grows_from = (0..row.len()).find(|from| grows(&row[*from..])).unwrap_or(0);
            down_to = down_to.max(rolls[grows_from]);
        }
        assert!(down_to <= -0.25, "{}: only down to {down_to}", case.name);
        assert!(same(down_to, case.row(&shorter_down_to)), "{}: down to {down_to}", case.name);
    }
}

/// Robust.
#[test]
fn running_side_goes_longer_and_reverse_shorter() {
    for case in cases() {
        let sides: Vec<f64> = span(-0.5, 0.5, 0.125).collect();
        for (at, row) in misses(&case, &sides, |launch, side| Launch { side, ..launch }) {
            assert!(grows(&row), "{at}: {row:.1?}");
        }
    }
}
