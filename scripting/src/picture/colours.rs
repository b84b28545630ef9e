//! Every colour that the pictures use, by role.
//!
//! The map's verdicts step down in lightness, so that they read in grey: touches a point (a doubtful
//! yellow, lightest), holds (a good green), short (ochres), long (blues, darkest). They stay apart in each of
//! the three kinds of colour blindness; the tests beside this file compute it. States without a verdict
//! are neutral greys and are told apart by their texture. A colour has one meaning: neither the models of
//! a difference nor the target pocket take one of a verdict.

/// An opaque colour: red, green, blue.
pub(super) type Rgb = (u8, u8, u8);

/// The page.
pub(super) const PAPER: Rgb = (255, 255, 255);
/// Titles, captions and marks.
pub(super) const INK: Rgb = (20, 23, 27);
/// Text of second rank: subtitles, ticks, legend phrases, notes.
pub(super) const SOFT_INK: Rgb = (84, 91, 99);
/// Frames and axis lines.
pub(super) const FRAME: Rgb = (140, 147, 155);
/// Grid lines that must stay behind the data.
pub(super) const HAIRLINE: Rgb = (225, 228, 231);

/// A bank that holds.
pub(super) const HOLDS: Rgb = (155, 228, 172);
/// A bank that touches a point.
pub(super) const TOUCHES: Rgb = (252, 236, 150);
/// Short, deepening with the miss.
pub(super) const SHORT: [Rgb; STEPS] =
    [(227, 180, 103), (224, 162, 73), (221, 143, 46), (214, 122, 27), (203, 101, 21)];
/// Long, deepening with the miss.
pub(super) const LONG: [Rgb; STEPS] =
    [(53, 110, 163), (25, 93, 148), (0, 75, 129), (0, 58, 111), (0, 42, 93)];
/// A bank without a verdict that got past the rail, or met another.
pub(super) const NO_VERDICT_LIGHT: Rgb = (222, 225, 228);
/// A bank without a verdict that never got to the rail, or left the cloth.
pub(super) const NO_VERDICT_DARK: Rgb = (168, 172, 175);

/// A bank that holds on some of the tables that a table could be.
pub(super) const DEPENDS: Rgb = (118, 92, 160);
/// A bank that holds on hardly any of them.
pub(super) const SURE_TO_MISS: Rgb = (246, 244, 240);

/// A player's chance, the greatest first.
pub(super) const CHANCES: [Rgb; 5] =
    [(10, 62, 74), (36, 116, 120), (98, 168, 160), (176, 213, 200), (243, 243, 234)];

/// Bank or cut: the bank is better, the two can't be told apart, the cut is better; from dark to light.
pub(super) const BANK_IS_BETTER: Rgb = (112, 36, 62);
pub(super) const CANT_BE_TOLD: Rgb = (166, 160, 152);
pub(super) const CUT_IS_BETTER: Rgb = (196, 226, 242);

/// Both models say the same.
pub(super) const AGREE: Rgb = (241, 242, 242);
/// Only the first of two models says that the bank holds.
pub(super) const FIRST_ONLY: Rgb = (165, 140, 190);
/// Only the second of two models says that the bank holds.
pub(super) const SECOND_ONLY: Rgb = (90, 50, 30);
/// Neither says that it holds, and they differ in the way it misses.
pub(super) const DIFFERENT_MISS: Rgb = (205, 200, 195);

/// A band behind lines, such as a tolerance.
pub(super) const BAND: Rgb = (232, 239, 226);
/// A pocket's mouth along its rails.
pub(super) const MOUTH: Rgb = (216, 228, 202);
/// A number before any bank was measured.
pub(super) const BEFORE: Rgb = (229, 226, 219);
/// Where a thing lies nine times in ten, and half of the time.
pub(super) const EXPECTED_NINETY: Rgb = (160, 203, 214);
pub(super) const EXPECTED_HALF: Rgb = (42, 118, 134);
/// Lines, in the order in which they are handed out; each keeps a contrast of 3 to 1 with paper.
pub(super) const LINES: [Rgb; 6] =
    [(25, 78, 132), (184, 82, 16), (20, 23, 27), (20, 140, 100), (160, 50, 220), (90, 10, 0)];

/// Cloth inside the noses.
pub(super) const CLOTH: Rgb = (238, 243, 239);
/// Cushions, seen from above.
pub(super) const CUSHION: Rgb = (203, 216, 207);
/// The wood around the cushions, and its edge.
pub(super) const WOOD: Rgb = (233, 225, 213);
pub(super) const WOOD_EDGE: Rgb = (186, 172, 152);
/// The opening of a pocket.
pub(super) const HOLE: Rgb = (62, 68, 75);
/// A thing that lies on the table.
pub(super) const OBSTACLE: Rgb = (214, 208, 198);
/// The target pocket.
pub(super) const TARGET: Rgb = (150, 15, 235);
/// The cue ball's path and rim.
pub(super) const CUE: Rgb = INK;
/// Balls other than the cue ball, in the order in which they are handed out.
pub(super) const BALLS: [Rgb; 7] = [
    (34, 85, 177),
    (165, 131, 24),
    (145, 57, 100),
    (37, 159, 94),
    (143, 133, 185),
    (120, 4, 0),
    (75, 11, 91),
];

/// What was asked for, beside what is advised, which has [`TARGET`]'s colour.
pub(super) const AS_ASKED: Rgb = BALLS[0];

/// Steps of a shade that deepens with the miss.
pub(super) const STEPS: usize = 5;

/// Relative luminance of an sRGB colour, 0 to 1 (W3C, Web Content Accessibility Guidelines 2.1,
/// "relative luminance").
pub(super) fn relative_luminance(colour: Rgb) -> f64 {
    let [r, g, b] = linear(colour);
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// Contrast ratio of two colours, 1 to 21 (same source, "contrast ratio").
pub(super) fn contrast(a: Rgb, b: Rgb) -> f64 {
    let (a, b) = (relative_luminance(a), relative_luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Linear light of an sRGB colour (IEC 61966-2-1).
pub(super) fn linear((r, g, b): Rgb) -> [f64; 3] {
    [r, g, b].map(|channel| {
        let value = f64::from(channel) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { libm::pow((value + 0.055) / 1.055, 2.4) }
    })
}

/// Ink or paper, whichever reads better on `ground`.
pub(super) fn readable_on(ground: Rgb) -> Rgb {
    if contrast(INK, ground) >= contrast(PAPER, ground) { INK } else { PAPER }
}
