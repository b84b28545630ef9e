//! Pictures of a fit, with invented numbers.

use super::super::{
    BankPanel, BankRow, DrawnInterval, FitBody, FitPicture, NumberStrip, PairAxis, PairPanel,
    PictureError, PictureLook, RailNumbers, SeenMark, SheetRow,
};
use super::{assert_tidy, page_size, shown, words};

fn interval(middle: f64, half: f64, ninety: f64) -> DrawnInterval {
    DrawnInterval {
        middle,
        half: (middle - half, middle + half),
        ninety: (middle - ninety, middle + ninety),
    }
}

const SEEN: [(SeenMark, &str); 5] = [
    (SeenMark::At { along_m: -0.2, read_to_m: 0.02 }, "short 0.58"),
    (SeenMark::InMouth, "holds"),
    (SeenMark::Short, "short"),
    (SeenMark::Long, "long"),
    (SeenMark::Stopped, "stopped on its way"),
];

/// Banks of every kind in turn; each seventh is a slip.
pub(super) fn panel(rows: usize) -> BankPanel {
    let row = |index: usize| {
        let (seen, words) = SEEN[index % SEEN.len()];
        let is_slip = index % 7 == 6;
        BankRow {
            label: format!(
                "line {}: contact 3.25 from 6.5, 12.25 in off, medium, head-right",
                index + 5
            ),
            expected: (index % 11 != 10)
                .then(|| interval(-0.4 + 0.05 * (index % 20) as f64, 0.06, 0.15)),
            seen,
            seen_words: if is_slip { format!("{words}; a slip (98 %)") } else { words.to_owned() },
            is_slip,
        }
    };
    BankPanel {
        caption: String::new(),
        mouth_m: (-0.08, 0.08),
        short: RailNumbers { zero_m: 0.03, diamond_m: -0.3175 },
        long: RailNumbers { zero_m: -0.03, diamond_m: 0.3175 },
        rows: (0..rows).map(row).collect(),
    }
}

fn picture(body: FitBody) -> FitPicture {
    FitPicture {
        title: "These 12 banks pin down 5 of 13 numbers".into(),
        subtitles: vec!["What do they tell?".into(), "Lantern Hall, invented".into()],
        body,
        notes: vec!["A note".into()],
        look: PictureLook::default(),
    }
}

pub(super) fn banks(rows: usize) -> FitPicture {
    picture(FitBody::Banks(if rows == 0 { Vec::new() } else { vec![panel(rows)] }))
}

pub(super) fn numbers(count: usize) -> FitPicture {
    let strip = |index: usize| {
        let is_told = index % 3 != 2;
        NumberStrip {
            label: format!("number {index} of the table (m/s)"),
            before: interval(1.0, 0.3, 0.5),
            before_ends: ("0.500".into(), "1.500".into()),
            after: if is_told { interval(1.2, 0.05, 0.1) } else { interval(1.02, 0.3, 0.52) },
            words: if is_told { "1.20, from 1.10 to 1.30".into() } else { "not determined".into() },
            is_told,
        }
    };
    picture(FitBody::Numbers((0..count).map(strip).collect()))
}

pub(super) fn pairs(count: usize) -> FitPicture {
    let axis = |title: &str| PairAxis { title: title.into(), ninety: (0.2, 0.8) };
    let panel = |index: usize| PairPanel {
        caption: format!("correlation −0.{index}"),
        x: axis("nose height (of the ball's diameter)"),
        y: axis("friction at the nose"),
        points: (0..200)
            .map(|k| (0.005 * f64::from(k), 1.0 - 0.001 * f64::from(k * k % 97)))
            .collect(),
    };
    picture(FitBody::Pairs((0..count).map(panel).collect()))
}

pub(super) fn sheet(rows: usize) -> FitPicture {
    let row = |index: usize| SheetRow {
        line: "contact 3.125 from 6.25, 12.25 in off".into(),
        sent: "medium, into head-right".into(),
        worth: format!("leaves {} % of the doubt", 97 - index),
        way: [(0.8, 1.0), (0.6, 0.4), (0.4, 0.0), (0.0, 1.0)],
    };
    picture(FitBody::Sheet((0..rows).map(row).collect()))
}

#[test]
fn a_sheet_has_a_box_for_every_word_and_a_number_of_each_bank() {
    for rows in [0, 1, 6, 12] {
        let svg = sheet(rows).to_svg().unwrap();
        assert_tidy(&svg, &format!("{rows} banks"));
        let said = words(&svg);
        assert!(!said.contains('…'), "{rows}: {said}");
        for word in ["holds", "touches", "long", "short", "stops"] {
            assert_eq!(shown(&svg).iter().filter(|it| it.text == word).count(), rows, "{word}");
        }
        assert_eq!(said.matches("into head-right").count(), rows);
    }
}

#[test]
fn words_stay_apart_with_one_bank_and_with_many() {
    for rows in [0, 1, 2, 12, 48] {
        let svg = banks(rows).to_svg().unwrap();
        assert_tidy(&svg, &format!("{rows} banks"));
        assert_eq!(words(&svg).matches("contact 3.25 from 6.5").count(), rows);
        assert!(!words(&svg).contains('…'), "{rows}: {}", words(&svg));
        assert_eq!(words(&svg).contains("No bank was measured"), rows == 0);
    }
    for count in [1, 2, 4, 7] {
        let svg = pairs(count).to_svg().unwrap();
        assert_tidy(&svg, &format!("{count} pairs"));
        assert!(!words(&svg).contains('…'), "{count}: {}", words(&svg));
    }
    for count in [1, 14] {
        let svg = numbers(count).to_svg().unwrap();
        assert_tidy(&svg, &format!("{count} numbers"));
        assert!(!words(&svg).contains('…'), "{count}: {}", words(&svg));
    }
}

#[test]
fn numbers_stand_on_both_sides_of_the_mouth_and_none_inside_it() {
    let mut picture = banks(3);
    let FitBody::Banks(panels) = &mut picture.body else { unreachable!() };
    let mouth = panels[0].mouth_m;
    for (low, high) in [(-0.3, 0.3), (-1.2, 0.1), (-0.1, 2.4), (-0.11, 0.12)] {
        let FitBody::Banks(panels) = &mut picture.body else { unreachable!() };
        let ends = DrawnInterval { middle: 0.0, half: (low, high), ninety: (low, high) };
        for row in &mut panels[0].rows {
            (row.expected, row.seen) = (Some(ends), SeenMark::InMouth);
        }
        let svg = picture.to_svg().unwrap();
        assert_tidy(&svg, &format!("{low} to {high}"));
        let all = shown(&svg);
        let x = |text: &str| {
            let it = all.iter().find(|it| it.text == text).unwrap_or_else(|| panic!("{text}"));
            f64::midpoint(it.extent[0], it.extent[2])
        };
        let is_tick = |text: &str| !text.is_empty() && text.parse::<f64>().is_ok();
        let ticks = || all.iter().filter(|it| is_tick(&it.text));
        let middle = |extent: [f64; 4]| f64::midpoint(extent[0], extent[2]);
        let on_left = ticks().filter(|it| middle(it.extent) < x("mouth")).count();
        assert!(on_left > 0 && ticks().count() > on_left, "{low} to {high}: {all:?}");
        // Numbers grow away from the mouth on both sides.
        for is_left in [true, false] {
            let mut side: Vec<(f64, f64)> = ticks()
                .map(|it| (middle(it.extent) - x("mouth"), it.text.parse().unwrap()))
                .filter(|(away, _)| (*away < 0.0) == is_left)
                .map(|(away, number): (f64, f64)| (away.abs(), number))
                .collect();
            side.sort_by(|a, b| a.0.total_cmp(&b.0));
            assert!(side.windows(2).all(|pair| pair[0].1 < pair[1].1), "{side:?}");
            // A mouth of 0.16 m takes the first (0.08 + 0.03)/0.3175 of a diamond away.
            let least = (mouth.1 + 0.03) / 0.3175;
            assert!(side.iter().all(|(_, number)| *number >= least), "{side:?}");
        }
    }
}

#[test]
fn a_bar_lies_where_the_numbers_say() {
    // The only bank is expected from number 1 to number 2 on the long side, and seen at 2.
    let mut picture = banks(1);
    let FitBody::Banks(panels) = &mut picture.body else { unreachable!() };
    let at = |number: f64| -0.03 + 0.3175 * number;
    let row = &mut panels[0].rows[0];
    row.expected = Some(DrawnInterval {
        middle: at(1.5),
        half: (at(1.25), at(1.75)),
        ninety: (at(1.0), at(2.0)),
    });
    row.seen = SeenMark::At { along_m: at(2.0), read_to_m: 0.02 };
    let svg = picture.to_svg().unwrap();
    let all = shown(&svg);
    let tick = |text: &str| {
        let it = all.iter().rfind(|it| it.text == text).expect("a tick");
        f64::midpoint(it.extent[0], it.extent[2])
    };
    let bars: Vec<String> = svg
        .lines()
        .flat_map(|line| line.split('<'))
        .filter(|piece| piece.contains("#A0CBD6"))
        .map(str::to_owned)
        .collect();
    let numbers = |piece: &str| -> Vec<f64> {
        let path = piece.split(" d=\"").nth(1).expect("a path").split('"').next().unwrap();
        path.split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
            .filter_map(|text| text.parse().ok())
            .collect()
    };
    let found = numbers(&bars[0]);
    let wide = (tick("2.0") - tick("1.0")).abs();
    assert!((found[0] - tick("1.0")).abs() < 0.1, "{found:?} from {}", tick("1.0"));
    assert!(
        found.iter().any(|x| (x - tick("2.0")).abs() < 0.1 || (x - wide).abs() < 0.1),
        "{found:?}"
    );
}

#[test]
fn a_slip_and_an_undetermined_number_are_named() {
    let said = words(&banks(7).to_svg().unwrap());
    assert!(said.contains("a slip (98 %)") && said.contains("likely a slip"), "{said}");
    let said = words(&banks(5).to_svg().unwrap());
    assert!(!said.contains("slip;") && !said.contains("measure it again"), "{said}");
    assert!(said.contains("came to rest on its way"), "{said}");
    let said = words(&numbers(3).to_svg().unwrap());
    assert_eq!(said.matches("not determined").count(), 2, "once at its strip, once in the key");
    assert!(!words(&numbers(2).to_svg().unwrap()).contains("not determined"));
}

#[test]
fn panels_of_two_kinds_of_pocket_keep_their_own_numbers() {
    let mut picture = banks(2);
    let FitBody::Banks(panels) = &mut picture.body else { unreachable!() };
    let mut side = panel(3);
    side.caption = "Off a long rail to a side pocket".into();
    side.mouth_m = (-0.07, 0.07);
    panels[0].caption = "Off a long rail to a corner".into();
    panels.push(side);
    let svg = picture.to_svg().unwrap();
    assert_tidy(&svg, "two panels");
    for text in ["to a corner", "to a side pocket"] {
        assert!(words(&svg).contains(text));
    }
    assert_eq!(words(&svg).matches("number on the rail").count(), 2);
}

#[test]
fn numbers_that_are_none_are_not_drawn() {
    let nothing = DrawnInterval { middle: f64::NAN, half: (f64::NAN, 0.0), ninety: (0.0, 0.0) };
    let mut picture = numbers(2);
    let FitBody::Numbers(strips) = &mut picture.body else { unreachable!() };
    strips[0].after = nothing;
    strips[1].before = interval(1.0, 0.0, 0.0);
    assert!(!words(&picture.to_svg().unwrap()).contains("NaN"));
    let mut picture = banks(1);
    let FitBody::Banks(panels) = &mut picture.body else { unreachable!() };
    panels[0].rows[0].expected = Some(nothing);
    assert_tidy(&picture.to_svg().unwrap(), "nothing expected");
    panels_of(&mut picture)[0].mouth_m = (f64::NAN, f64::NAN);
    panels_of(&mut picture)[0].rows.clear();
    assert_eq!(picture.to_svg(), Err(PictureError::NothingToDraw));
    let mut picture = pairs(1);
    let FitBody::Pairs(panels) = &mut picture.body else { unreachable!() };
    panels[0].points = vec![(f64::NAN, 1.0)];
    assert_eq!(picture.to_svg(), Err(PictureError::NothingToDraw));
}

fn panels_of(picture: &mut FitPicture) -> &mut Vec<BankPanel> {
    match &mut picture.body {
        FitBody::Banks(panels) => panels,
        _ => unreachable!(),
    }
}

#[test]
fn without_its_key_a_picture_is_smaller() {
    for mut picture in [banks(3), numbers(3), pairs(2)] {
        let whole = page_size(&picture.to_svg().unwrap()).1;
        picture.look.legend = false;
        assert!(page_size(&picture.to_svg().unwrap()).1 < whole - 20.0);
    }
}
