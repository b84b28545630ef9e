//! Maps in text.

use super::super::{CellKind, text_map};
use super::{MapPicture, map};

/// Three rows: far and near misses, verdicts, and states without one.
fn small() -> MapPicture {
    use CellKind::{
        Empty, Holds, Long, NoRoom, OtherRail, Short, StoppedBeforeMouth, StoppedBeforeRail,
        TouchesPoint,
    };
    let mut picture = map(1, 4, 3);
    picture.x.ticks = ["2", "3", "4", "5"].map(String::from).to_vec();
    picture.y.ticks = ["1.5", "2", "12.5"].map(String::from).to_vec();
    let kinds = [
        (Long, 100.0, false),
        (Long, 30.0, false),
        (Holds, 1.0, false),
        (Holds, 1.0, true),
        (Short, 100.0, false),
        (Short, 30.0, false),
        (TouchesPoint, 20.0, false),
        (Empty, 0.0, true),
        (StoppedBeforeMouth, 0.0, false),
        (StoppedBeforeRail, 0.0, false),
        (OtherRail, 0.0, false),
        (NoRoom, 0.0, true),
    ];
    for (cell, (kind, miss, flagged)) in picture.panels[0].cells.iter_mut().zip(kinds) {
        (cell.kind, cell.miss_mm, cell.flagged) = (kind, Some(miss), flagged);
    }
    picture
}

#[test]
fn a_small_map_reads_from_the_bottom_row_up() {
    let text = text_map(&small(), 80, false);
    let panel = "\
0 hands off the rail: 2 of 11 hold
12.5 |M R X U!
   2 |S+S T
 1.5 |L+L H H!
      ‾‾‾‾‾‾‾‾
      2 3 4 5
";
    assert!(text.contains(panel), "{text}");
    for line in [
        "Where the tenfold rule holds",
        "across: speed at launch (m/s)",
        "up: contact number (diamonds)",
        "  H holds: clears both points of the pocket's mouth",
        "  + after a letter: by 40 mm or more",
        "  ! after a letter: outside the checked speeds",
    ] {
        assert!(text.lines().any(|shown| shown == line), "{line} is not in:\n{text}");
    }
}

#[test]
fn a_far_miss_that_is_flagged_says_both() {
    let mut picture = small();
    for cell in &mut picture.panels[0].cells {
        cell.flagged |= cell.kind == CellKind::Short;
    }
    let text = text_map(&picture, 80, false);
    assert!(text.contains("   2 |S#S!T\n"), "{text}");
    assert!(text.contains("  # after a letter: by 40 mm or more, and !\n"), "{text}");
}

#[test]
fn colour_changes_nothing_but_colour() {
    let picture = map(3, 20, 7);
    let plain = text_map(&picture, 80, false);
    let coloured = text_map(&picture, 80, true);
    assert!(!plain.contains('\u{1b}') && coloured.contains('\u{1b}'));
    let mut stripped = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, after)) = rest.split_once("\u{1b}[") {
        stripped.push_str(before);
        rest = after.split_once('m').unwrap().1;
    }
    stripped.push_str(rest);
    let trimmed = |text: &str| text.lines().map(str::trim_end).collect::<Vec<_>>().join("\n");
    assert_eq!(trimmed(&stripped), trimmed(&plain));
}

#[test]
fn each_kind_has_its_own_character() {
    let text = text_map(&map(1, 10, 1), 80, false);
    let row = text.lines().find(|line| line.starts_with("2.00 |")).unwrap();
    let characters: Vec<char> = row.chars().skip(6).step_by(2).collect();
    assert_eq!(characters.len(), 9, "the tenth is empty: {row:?}");
    let unique: std::collections::BTreeSet<&char> = characters.iter().collect();
    assert_eq!(unique.len(), 9, "{row:?}");
}

#[test]
fn one_letter_stands_for_one_thing_in_text_and_pictures() {
    let mut letters: Vec<&str> = CellKind::ALL.iter().map(|kind| kind.letter()).collect();
    assert!(letters.iter().all(|letter| letter.chars().count() <= 1), "{letters:?}");
    letters.sort_unstable();
    letters.dedup();
    assert_eq!(letters.len(), CellKind::ALL.len(), "two kinds share a letter");
    for kind in CellKind::ALL.into_iter().filter(|kind| *kind != CellKind::Empty) {
        let mut picture = map(1, 2, 1);
        picture.panels[0].cells.iter_mut().for_each(|cell| cell.kind = kind);
        let text = text_map(&picture, 80, false);
        let entry = format!("  {} {}: ", kind.letter(), kind.word());
        assert!(text.lines().any(|line| line.starts_with(&entry)), "{entry} is not in:\n{text}");
        let drawn: Vec<String> =
            super::shown(&picture.to_svg().unwrap()).into_iter().map(|shown| shown.text).collect();
        let others = CellKind::ALL.iter().filter(|other| **other != kind).map(|kind| kind.letter());
        for other in others.filter(|letter| !["", "L", "S"].contains(letter)) {
            assert!(drawn.iter().all(|text| text != other), "{kind:?} shows {other}");
        }
    }
}

#[test]
fn no_line_is_wider_than_asked() {
    for (columns, rows) in [(1, 1), (30, 5), (70, 5), (500, 200)] {
        for width in [0, 40, 79, 120, 200] {
            let text = text_map(&map(2, columns, rows), width, false);
            for line in text.lines() {
                let long = line.chars().count();
                assert!(long <= width.max(40), "{columns}, {width}: {long}: {line:?}");
            }
            assert!(text.lines().count() < 160);
        }
    }
    let thinned = text_map(&map(1, 500, 200), 80, false);
    assert!(thinned.contains("one in 7 is shown"), "{thinned}");
}
