//! The font inside the program: cleaning, measuring and wrapping text, and the outlines of its letters.

use super::contour::PagePoint;
use crate::telling::unbroken;
use ab_glyph::{Font as _, FontRef, OutlineCurve, Point};
use std::sync::LazyLock;

/// The bytes of the regular face.
pub(super) static REGULAR: &[u8] = include_bytes!("../../assets/fonts/DejaVuSans-subset.ttf");
/// The bytes of the bold face.
pub(super) static BOLD: &[u8] = include_bytes!("../../assets/fonts/DejaVuSans-Bold-subset.ttf");

/// Longest text, in characters, that is laid out; the rest is cut before any work is done on it.
const LONGEST_TEXT: usize = 2000;

/// A face of the font.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Weight {
    Regular,
    Bold,
}

fn face(weight: Weight) -> &'static FontRef<'static> {
    static FACES: LazyLock<[FontRef<'static>; 2]> = LazyLock::new(|| {
        [REGULAR, BOLD].map(|bytes| {
            FontRef::try_from_slice(bytes).expect("the embedded font is part of the program")
        })
    });
    &FACES[usize::from(weight == Weight::Bold)]
}

/// Text as it can be laid out on one line: white space folded, nothing that XML forbids or that
/// turns the direction of writing, and no longer than [`LONGEST_TEXT`].
pub(super) fn clean(text: &str) -> String {
    let mut out = String::new();
    let mut gap = false;
    for c in text.chars().take(LONGEST_TEXT) {
        let invisible = matches!(c,
            '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}'
            | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}' | '\u{FFF0}'..='\u{FFFF}');
        if c.is_whitespace() {
            gap = !out.is_empty();
        } else if !c.is_control() && !invisible {
            if gap {
                out.push(' ');
            }
            gap = false;
            out.push(c);
        }
    }
    if text.chars().nth(LONGEST_TEXT).is_some() {
        out.push('…');
    }
    true_minus(&out)
}

/// The text with a minus sign before negative numbers instead of a hyphen.
pub fn true_minus(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut before = None;
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        let begins = before.is_none_or(|last: char| last.is_whitespace() || last == '(');
        let negative = c == '-' && begins && rest.peek().is_some_and(char::is_ascii_digit);
        out.push(if negative { '−' } else { c });
        before = Some(c);
    }
    out
}

/// Width of a line of text whose em is `em` long, in the same unit.
pub(super) fn width(text: &str, em: f64, weight: Weight) -> f64 {
    let face = face(weight);
    let units = face.units_per_em().unwrap_or(1000.0);
    let advance: f32 = text.chars().map(|c| face.h_advance_unscaled(face.glyph_id(c))).sum();
    f64::from(advance / units) * em
}

/// The text, or as much of it as fits into `room` with an ellipsis.
pub(super) fn fit(text: &str, em: f64, weight: Weight, room: f64) -> String {
    if width(text, em, weight) <= room {
        return text.to_owned();
    }
    let room = room - width("…", em, weight);
    let mut used = 0.0;
    let mut out = String::new();
    for c in text.chars() {
        used += width(c.encode_utf8(&mut [0; 4]), em, weight);
        if used > room {
            break;
        }
        out.push(c);
    }
    out.truncate(out.trim_end().len());
    out.push('…');
    out
}

/// The text in at most `most` lines no wider than `room`; an ellipsis stands for the rest.
pub(super) fn wrap(text: &str, em: f64, weight: Weight, room: f64, most: usize) -> Vec<String> {
    let mut lines = filled(text, em, weight, room, most);
    // No word stands alone under the others where one of theirs can come down to it.
    if let [.., above, last] = lines.as_mut_slice()
        && unbroken(last).len() == 1
        && let [_, .., down] = unbroken(above).as_slice()
        && width(&format!("{down} {last}"), em, weight) <= room
    {
        *last = format!("{down} {last}");
        let kept = above.len() - down.len();
        above.truncate(kept);
        above.truncate(above.trim_end().len());
    }
    lines
}

/// Lines filled one after another.
fn filled(text: &str, em: f64, weight: Weight, room: f64, most: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    // What is too long for a line is broken after all.
    let parts = unbroken(text).into_iter().flat_map(|part| {
        let whole = width(part, em, weight) <= room;
        if whole { vec![part] } else { part.split_whitespace().collect() }
    });
    for word in parts {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if width(&longer, em, weight) <= room {
            line = longer;
            continue;
        }
        if lines.len() + 1 >= most {
            // The last line takes all that is left, and is cut.
            let start = word.as_ptr() as usize - text.as_ptr() as usize;
            let rest = format!("{line} {}", &text[start..]);
            lines.push(fit(rest.trim_start(), em, weight, room));
            return lines;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line.clear();
        for c in word.chars() {
            line.push(c);
            if width(&line, em, weight) > room && line.chars().count() > 1 {
                line.pop();
                if lines.len() + 1 >= most {
                    line.push('…');
                    lines.push(fit(&line, em, weight, room));
                    return lines;
                }
                lines.push(std::mem::replace(&mut line, c.to_string()));
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// A piece of a letter's outline; the places run on from piece to piece, y downwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum LetterPiece {
    /// A new contour begins here.
    Begin(PagePoint),
    Line(PagePoint),
    Parabola(PagePoint, PagePoint),
    Cubic(PagePoint, PagePoint, PagePoint),
}

/// Hands over the outlines of a line of text that starts at the origin, on its baseline.
pub(super) fn letters(text: &str, em: f64, weight: Weight, mut put: impl FnMut(LetterPiece)) {
    let face = face(weight);
    let scale = em / f64::from(face.units_per_em().unwrap_or(1000.0));
    let mut pen = 0.0;
    for c in text.chars() {
        let id = face.glyph_id(c);
        let at = |point: Point| (scale * (pen + f64::from(point.x)), -scale * f64::from(point.y));
        let mut last: Option<Point> = None;
        for curve in face.outline(id).into_iter().flat_map(|outline| outline.curves) {
            let (from, to, piece) = match curve {
                OutlineCurve::Line(from, to) => (from, to, LetterPiece::Line(at(to))),
                OutlineCurve::Quad(from, control, to) => {
                    (from, to, LetterPiece::Parabola(at(control), at(to)))
                }
                OutlineCurve::Cubic(from, first, second, to) => {
                    (from, to, LetterPiece::Cubic(at(first), at(second), at(to)))
                }
            };
            if last != Some(from) {
                put(LetterPiece::Begin(at(from)));
            }
            put(piece);
            last = Some(to);
        }
        pen += f64::from(face.h_advance_unscaled(id));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_font_has_what_the_pictures_write() {
        for weight in [Weight::Regular, Weight::Bold] {
            let text = "AZaz09 éüñ Ωθμ ×·−–—≤≥°√→←↑↓…±½ “”’ ■□▲▼◆◇○● Жя";
            for c in text.chars().filter(|c| !c.is_whitespace()) {
                assert_ne!(face(weight).glyph_id(c).0, 0, "{c} is missing in {weight:?}");
            }
        }
    }

    #[test]
    fn the_font_tables_are_read_by_the_same_measure_as_the_em() {
        // DejaVu Sans: 2048 units per em, ascent 1901, descent −483; a digit is 1303 wide.
        let measured = width("0", 2048.0, Weight::Regular);
        assert!((measured - 1303.0).abs() < 0.5, "{measured}");
        let mut right = 0.0_f64;
        letters("0", 2048.0, Weight::Regular, |piece| {
            if let LetterPiece::Begin((x, _)) | LetterPiece::Parabola(_, (x, _)) = piece {
                right = right.max(x);
            }
        });
        assert!((1150.0..1303.0).contains(&right), "{right}");
    }

    #[test]
    fn negative_numbers_have_a_minus_sign_and_words_keep_their_hyphens() {
        assert_eq!(
            true_minus("-2 to (-0.5): nine-foot, 3-5, - 4"),
            "−2 to (−0.5): nine-foot, 3-5, - 4"
        );
    }

    #[test]
    fn hostile_text_becomes_one_harmless_line() {
        assert_eq!(clean("a\n\tb\u{0}\u{1b}[31m \u{202e}c\u{ffff}"), "a b[31m c");
        assert_eq!(clean("  \r\n "), "");
        let long = clean(&"x".repeat(1_000_000));
        assert_eq!(long.chars().count(), LONGEST_TEXT + 1);
        assert!(long.ends_with('…'));
    }

    #[test]
    fn wrapped_lines_keep_every_word_and_the_width() {
        let text = "The quick cue ball runs along the rail and meets its pocket on the far side";
        let lines = wrap(text, 10.0, Weight::Regular, 120.0, 99);
        assert!(lines.len() > 2);
        assert_eq!(lines.join(" "), text);
        assert!(lines.iter().all(|line| width(line, 10.0, Weight::Regular) <= 120.0));
    }

    #[test]
    fn too_much_text_ends_in_an_ellipsis() {
        for text in ["word ".repeat(300), "w".repeat(1500), "🎱".repeat(300)] {
            let lines = wrap(&clean(&text), 10.0, Weight::Bold, 90.0, 3);
            assert_eq!(lines.len(), 3);
            assert!(lines[2].ends_with('…'), "{lines:?}");
            assert!(lines.iter().all(|line| width(line, 10.0, Weight::Bold) <= 90.0), "{lines:?}");
        }
    }
}
