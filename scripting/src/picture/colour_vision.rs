//! Colours that are used together must stay apart in grey and for colour-blind readers.
//!
//! Published sources: sRGB, IEC 61966-2-1; L*a*b* and its distance, CIE 1976; contrast, W3C WCAG
//! 2.1; colour blindness, Machado, Oliveira and Fernandes 2009 ("A physiologically-based model
//! for simulation of color vision deficiency"), severity 1.0, matrices from memory and checked
//! below for keeping white white.

use super::colours::*;

const PROTANOPIA: [[f64; 3]; 3] = [
    [0.152_286, 1.052_583, -0.204_868],
    [0.114_503, 0.786_281, 0.099_216],
    [-0.003_882, -0.048_116, 1.051_998],
];
const DEUTERANOPIA: [[f64; 3]; 3] = [
    [0.367_322, 0.860_646, -0.227_968],
    [0.280_085, 0.672_501, 0.047_413],
    [-0.011_820, 0.042_940, 0.968_881],
];
const TRITANOPIA: [[f64; 3]; 3] = [
    [1.255_528, -0.076_749, -0.178_779],
    [-0.078_411, 0.930_809, 0.147_602],
    [0.004_733, 0.691_367, 0.303_900],
];
const FULL: [[f64; 3]; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
const VISIONS: [(&str, [[f64; 3]; 3]); 4] = [
    ("full colour vision", FULL),
    ("protanopia", PROTANOPIA),
    ("deuteranopia", DEUTERANOPIA),
    ("tritanopia", TRITANOPIA),
];

/// L*a*b* (D65) of a colour as seen by `vision`.
fn lab(colour: Rgb, vision: &[[f64; 3]; 3]) -> [f64; 3] {
    let seen = linear(colour);
    let light =
        vision.map(|row| (row[0] * seen[0] + row[1] * seen[1] + row[2] * seen[2]).clamp(0.0, 1.0));
    let dot = |a: f64, b: f64, c: f64| a * light[0] + b * light[1] + c * light[2];
    let curve =
        |t: f64| if t > 216.0 / 24389.0 { t.cbrt() } else { (24389.0 / 27.0 * t + 16.0) / 116.0 };
    let x = curve(dot(0.412_456_4, 0.357_576_1, 0.180_437_5) / 0.950_47);
    let y = curve(dot(0.212_672_9, 0.715_152_2, 0.072_175_0));
    let z = curve(dot(0.019_333_9, 0.119_192_0, 0.950_304_1) / 1.088_83);
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

fn distance(a: Rgb, b: Rgb, vision: &[[f64; 3]; 3]) -> f64 {
    let (a, b) = (lab(a, vision), lab(b, vision));
    a.iter().zip(b).map(|(p, q)| (p - q) * (p - q)).sum::<f64>().sqrt()
}

fn lightness(colour: Rgb) -> f64 {
    lab(colour, &FULL)[0]
}

/// Groups that share no texture and must be told apart by colour alone.
fn groups() -> Vec<(&'static str, Vec<Rgb>)> {
    vec![
        ("touches", vec![TOUCHES]),
        ("holds", vec![HOLDS]),
        ("short", SHORT.to_vec()),
        ("long", LONG.to_vec()),
    ]
}

#[test]
fn the_simulations_keep_white_white_and_confuse_what_they_should() {
    for (name, matrix) in VISIONS {
        for row in matrix {
            assert!((row.iter().sum::<f64>() - 1.0).abs() < 2e-6, "{name}: {row:?}");
        }
    }
    // A red and a green that a deuteranope confuses, told apart with ease otherwise: the
    // simulation would be of no use if it did not bring them together.
    let (red, green) = ((190, 80, 60), (112, 122, 50));
    assert!(distance(red, green, &DEUTERANOPIA) < 0.4 * distance(red, green, &FULL));
}

#[test]
fn verdicts_stay_apart_for_every_reader() {
    let groups = groups();
    let mut nearest = f64::INFINITY;
    for (name, vision) in VISIONS {
        for (i, (left, lefts)) in groups.iter().enumerate() {
            for (right, rights) in &groups[..i] {
                for a in lefts {
                    for b in rights {
                        let apart = distance(*a, *b, &vision);
                        nearest = nearest.min(apart);
                        // About 2.3 is just noticeable side by side.
                        assert!(apart >= 12.0, "{name}: {left} {a:?} and {right} {b:?}: {apart}");
                    }
                }
            }
        }
    }
    assert!(nearest.is_finite());
}

#[test]
fn long_and_short_stay_far_apart_for_every_reader() {
    for (name, vision) in VISIONS {
        for a in LONG {
            for b in SHORT {
                let apart = distance(a, b, &vision);
                assert!(apart >= 40.0, "{name}: {a:?} and {b:?}: {apart}");
            }
        }
    }
}

#[test]
fn verdicts_step_down_in_grey_without_overlap() {
    let order: Vec<(&str, f64)> = groups()
        .into_iter()
        .flat_map(|(name, shades)| shades.into_iter().map(move |s| (name, lightness(s))))
        .collect();
    for pair in order.windows(2) {
        let [(upper, light), (lower, dark)] = pair else { unreachable!() };
        let least = if upper == lower { 4.0 } else { 8.0 };
        assert!(light - dark >= least, "{upper} {light:.1} to {lower} {dark:.1}");
    }
}

#[test]
fn each_step_of_a_shade_can_be_seen() {
    for (name, vision) in VISIONS {
        for ramp in [LONG, SHORT] {
            for pair in ramp.windows(2) {
                let apart = distance(pair[0], pair[1], &vision);
                assert!(apart >= 5.0, "{name}: {pair:?}: {apart}");
            }
        }
    }
}

#[test]
fn bank_and_cut_and_neither_step_apart_in_grey_and_for_every_reader() {
    let roles = [CUT_IS_BETTER, CANT_BE_TOLD, BANK_IS_BETTER];
    for (name, vision) in VISIONS {
        for (i, a) in roles.iter().enumerate() {
            for b in &roles[..i] {
                let apart = distance(*a, *b, &vision);
                assert!(apart >= 20.0, "{name}: {a:?} and {b:?}: {apart}");
            }
        }
    }
    for pair in roles.windows(2) {
        assert!(lightness(pair[0]) - lightness(pair[1]) >= 15.0, "{pair:?}");
    }
}

#[test]
fn differences_stay_apart_for_every_reader() {
    let roles = [AGREE, FIRST_ONLY, SECOND_ONLY, DIFFERENT_MISS];
    for (name, vision) in VISIONS {
        for (i, a) in roles.iter().enumerate() {
            for b in &roles[..i] {
                let apart = distance(*a, *b, &vision);
                assert!(apart >= 12.0, "{name}: {a:?} and {b:?}: {apart}");
            }
        }
    }
}

/// The least distance of any two colours, for any reader, with the two and the reader.
fn nearest(colours: &[Rgb]) -> (f64, String) {
    let mut nearest = (f64::INFINITY, String::new());
    for (name, vision) in VISIONS {
        for (i, a) in colours.iter().enumerate() {
            for b in &colours[..i] {
                let apart = distance(*a, *b, &vision);
                if apart < nearest.0 {
                    nearest = (apart, format!("{name}: {a:?} and {b:?}"));
                }
            }
        }
    }
    nearest
}

#[test]
fn colours_used_together_stay_apart_for_every_reader() {
    let greys = [NO_VERDICT_LIGHT, NO_VERDICT_DARK];
    let verdicts = [PAPER, TOUCHES, HOLDS, SHORT[0], LONG[0]].into_iter().chain(greys).collect();
    let together: [(&str, Vec<Rgb>); 7] = [
        ("lines", LINES.to_vec()),
        // A stretch that holds, its edges, and the ground that was searched.
        ("tables that it could be", vec![HOLDS, DEPENDS, SURE_TO_MISS]),
        ("a player's chances", CHANCES.to_vec()),
        ("a frontier", vec![HOLDS, NO_VERDICT_LIGHT, PAPER, LONG[STEPS - 2], SHORT[STEPS - 1]]),
        ("a map", verdicts),
        ("banks of a fit", vec![PAPER, MOUTH, EXPECTED_NINETY, EXPECTED_HALF, INK]),
        ("numbers of a fit", vec![PAPER, BEFORE, EXPECTED_NINETY, EXPECTED_HALF]),
    ];
    for (name, colours) in together {
        let (apart, who) = nearest(&colours);
        let least = if name == "lines" { 20.0 } else { 10.0 };
        assert!(apart >= least, "{name}: {apart} by {who}");
    }
    for path in BALLS.into_iter().chain([CUE]) {
        let (apart, who) = nearest(&[path, TARGET]);
        assert!(apart >= 20.0, "the target: {apart} by {who}");
    }
}

#[test]
fn a_colour_has_one_meaning() {
    let verdicts = [HOLDS, TOUCHES].into_iter().chain(LONG).chain(SHORT);
    for verdict in verdicts {
        for other in [FIRST_ONLY, SECOND_ONLY, DIFFERENT_MISS, TARGET] {
            let apart = distance(verdict, other, &FULL);
            assert!(apart >= 20.0, "{verdict:?} and {other:?}: {apart}");
        }
    }
}

#[test]
fn balls_stay_apart_for_every_reader() {
    let paths: Vec<Rgb> = BALLS.into_iter().chain([CUE]).collect();
    for (name, vision) in VISIONS {
        for (i, a) in paths.iter().enumerate() {
            for b in &paths[..i] {
                let apart = distance(*a, *b, &vision);
                assert!(apart >= 25.0, "{name}: {a:?} and {b:?}: {apart}");
            }
        }
    }
    for path in paths {
        assert!(contrast(path, CLOTH) >= 3.0, "{path:?}");
        assert!(contrast(readable_on(path), path) >= 4.5, "{path:?}");
    }
}

#[test]
fn text_meets_the_contrast_of_the_guidelines() {
    // WCAG 2.1, success criterion 1.4.3: 4.5 to 1 for text; 1.4.11: 3 to 1 for graphics.
    for text in [INK, SOFT_INK] {
        assert!(contrast(text, PAPER) >= 4.5, "{text:?}");
    }
    assert!(contrast(SOFT_INK, BAND) >= 4.5);
    assert!(contrast(SOFT_INK, CLOTH) >= 4.5 && contrast(INK, OBSTACLE) >= 4.5);
    assert!(contrast(SOFT_INK, WOOD) >= 4.5, "the names of the rails");
    assert!(
        contrast(INK, HOLDS) >= 4.5 && contrast(INK, NO_VERDICT_LIGHT) >= 4.5,
        "words at edges"
    );
    for ground in LONG.into_iter().chain(SHORT).chain([
        HOLDS,
        TOUCHES,
        NO_VERDICT_LIGHT,
        NO_VERDICT_DARK,
        AGREE,
        FIRST_ONLY,
        SECOND_ONLY,
        DIFFERENT_MISS,
    ]) {
        assert!(contrast(readable_on(ground), ground) >= 4.5, "{ground:?}");
    }
    // The white line of a middle, the marks of what was seen.
    assert!(contrast(EXPECTED_HALF, PAPER) >= 3.0 && contrast(INK, EXPECTED_HALF) >= 3.0);
    for line in LINES {
        assert!(contrast(line, PAPER) >= 3.0 && contrast(line, BAND) >= 3.0, "{line:?}");
    }
    assert!(contrast(FRAME, PAPER) >= 3.0);
}
