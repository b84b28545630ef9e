//! Maps and differences as SVG and PNG.

use super::super::colours::{self, Rgb};
use super::super::{CellKind, DifferencePicture, MOST_CELLS, MOST_PANELS, MissUnit, PictureError};
use super::{assert_tidy, decode, map, shown, svg_size, words};

#[test]
fn the_svg_says_everything_in_words() {
    let picture = map(2, 9, 4);
    let said = words(&picture.to_svg().unwrap());
    for text in [
        "Where the tenfold rule holds",
        "Lantern Hall, invented; stun",
        "speed at launch (m/s)",
        "contact number (diamonds)",
        "0 hands off the rail",
        "1 hands off the rail",
        "Rule: start = 2.2 × contact",
        "Model: nose-and-cloth rail",
        "outside the checked speeds",
        "Measured square to the rail",
        "4 of 33 hold",
        "number in a cell",
    ] {
        assert!(said.contains(text), "{text} is not in: {said}");
    }
    for kind in CellKind::OF_BANK {
        assert!(said.contains(kind.word()) && said.contains(kind.phrase()), "{kind:?}: {said}");
    }
    for tick in picture.x.ticks.iter().chain(&picture.y.ticks) {
        assert!(said.contains(tick), "{tick}");
    }
}

#[test]
fn a_legend_names_only_what_is_drawn() {
    let mut picture = map(1, 3, 1);
    for cell in &mut picture.panels[0].cells {
        cell.kind = CellKind::Holds;
        cell.flagged = false;
    }
    let said = words(&picture.to_svg().unwrap());
    for kind in CellKind::ALL {
        assert_eq!(said.contains(kind.phrase()), kind == CellKind::Holds, "{kind:?}");
    }
    assert!(!said.contains(&picture.flag_label));
    // Where every cell is flagged there is no line to explain.
    picture.panels[0].cells.iter_mut().for_each(|cell| cell.flagged = true);
    assert!(!words(&picture.to_svg().unwrap()).contains(&picture.flag_label));
    picture.panels[0].cells[0].flagged = false;
    assert!(words(&picture.to_svg().unwrap()).contains(&picture.flag_meaning));

    let same = DifferencePicture::between("t", ("a", &picture), ("b", &picture)).unwrap();
    let said = words(&same.to_svg().unwrap());
    assert!(said.contains("same answer") && !said.contains("another miss"), "{said}");
    assert!(!said.contains("holds in the"), "{said}");
}

#[test]
fn a_legend_that_is_much_higher_than_the_map_stands_under_it() {
    // Three rows under a legend of every kind: beside them it would leave most of the page blank.
    let mut picture = map(1, 12, 12);
    picture.panels[0].cells.iter_mut().for_each(|cell| cell.kind = CellKind::NoRoom);
    let (flat, tall) = (map(1, 40, 3).to_svg().unwrap(), picture.to_svg().unwrap());
    let at = |svg: &str, text: &str| {
        shown(svg).into_iter().find(|shown| shown.text == text).expect(text).extent
    };
    let axis = at(&flat, "speed at launch (m/s)");
    for kind in [CellKind::Holds, CellKind::NoRoom] {
        assert!(at(&flat, kind.word())[1] > axis[3], "{kind:?}");
    }
    let beside = at(&tall, CellKind::NoRoom.word());
    assert!(beside[0] > at(&tall, "speed at launch (m/s)")[2], "{beside:?}");
    // The page is as wide as the map, and no column is empty.
    let last_tick = shown(&flat).iter().map(|shown| shown.extent[2]).fold(0.0, f64::max);
    assert!(svg_size(&flat).0 < last_tick + 120.0, "{:?} {last_tick}", svg_size(&flat));
    assert!(svg_size(&flat).1 < 0.9 * svg_size(&flat).0, "{:?}", svg_size(&flat));
}

#[test]
fn nothing_overlaps_or_leaves_the_page() {
    for panels in 1..=MOST_PANELS {
        for (columns, rows) in [(1, 1), (9, 6), (17, 10), (40, 3), (3, 40), (200, 20)] {
            let svg = map(panels, columns, rows).to_svg().unwrap();
            assert_tidy(&svg, &format!("{panels} panels of {columns} by {rows}"));
        }
    }
}

fn count(pixels: &[[u8; 3]], colour: Rgb) -> usize {
    pixels.iter().filter(|p| (p[0], p[1], p[2]) == colour).count()
}

#[test]
fn a_flag_never_hides_a_verdict() {
    for kind in CellKind::ALL.into_iter().filter(|kind| *kind != CellKind::Empty) {
        let mut plain = map(1, 6, 6);
        for cell in &mut plain.panels[0].cells {
            (cell.kind, cell.miss_mm, cell.flagged) = (kind, Some(50.0), false);
        }
        let mut flagged = plain.clone();
        for (at, cell) in flagged.panels[0].cells.iter_mut().enumerate() {
            cell.flagged = at % 6 >= 2;
        }
        let (_, _, before) = decode(&plain.to_png().unwrap());
        let (_, _, after) = decode(&flagged.to_png().unwrap());
        // The shade is the commonest colour that is not paper; the boundary leaves most of it.
        let shade = commonest(&before);
        assert_eq!(shade, commonest(&after), "{kind:?}");
        let left = count(&after, shade) as f64 / count(&before, shade) as f64;
        assert!((0.9..0.999).contains(&left), "{kind:?}: {left}");
        let letters = |picture: &super::MapPicture| {
            let svg = picture.to_svg().unwrap();
            shown(&svg).iter().filter(|shown| shown.text == kind.letter()).count()
        };
        assert!(letters(&flagged) >= letters(&plain), "{kind:?}");
    }
}

#[test]
fn one_line_parts_flagged_cells_and_says_so_beside_it() {
    let label = "harder than here: less sure";
    let mut picture = map(1, 8, 4);
    for (at, cell) in picture.panels[0].cells.iter_mut().enumerate() {
        (cell.kind, cell.flagged) = (CellKind::Holds, at % 8 >= 2);
    }
    let svg = picture.to_svg().unwrap();
    // In the legend and in the panel, right of the line: cells begin where the panel's caption does.
    let all = shown(&svg);
    let labels: Vec<_> = all.iter().filter(|shown| shown.text == label).collect();
    assert_eq!(labels.len(), 2);
    let ticks: Vec<f64> = (0..8)
        .map(|at| &picture.x.ticks[at])
        .filter_map(|tick| {
            all.iter()
                .find(|shown| shown.text == *tick)
                .map(|it| 0.5 * (it.extent[0] + it.extent[2]))
        })
        .collect();
    let inside = labels.iter().map(|it| it.extent[0]).fold(f64::INFINITY, f64::min);
    assert!(inside > ticks[1] && inside < ticks[2], "{inside} {ticks:?}");
    // A panel without an end of the checked range has no line, and says when all of it is past that end.
    picture.panels[0].cells.iter_mut().for_each(|cell| cell.flagged = true);
    assert!(words(&picture.to_svg().unwrap()).contains("32 of 32 hold, all less sure"));
}

fn commonest(pixels: &[[u8; 3]]) -> Rgb {
    let mut counts = std::collections::BTreeMap::new();
    for pixel in pixels.iter().filter(|pixel| **pixel != [255; 3]) {
        *counts.entry((pixel[0], pixel[1], pixel[2])).or_insert(0_usize) += 1;
    }
    counts.into_iter().max_by_key(|(_, count)| *count).map(|(colour, _)| colour).unwrap()
}

#[test]
fn the_first_row_lies_at_the_bottom() {
    let mut picture = map(1, 1, 2);
    picture.y.ticks = vec!["under".into(), "over".into()];
    picture.panels[0].cells[0].kind = CellKind::OtherRail;
    picture.panels[0].cells[1].kind = CellKind::StoppedBeforeRail;
    let svg = picture.to_svg().unwrap();
    let all = shown(&svg);
    let top = |text: &str| all.iter().find(|shown| shown.text == text).unwrap().extent[1];
    assert!(top("under") > top("over"));
    // The cells' letters stand beside their ticks.
    assert!((top("X") - top("under")).abs() < 4.0 && (top("R") - top("over")).abs() < 4.0);
}

#[test]
fn a_large_map_stays_readable_and_bounded() {
    let mut picture = map(1, 500, 200);
    // Every cell unlike its neighbours: the worst case for joining them.
    for (index, cell) in picture.panels[0].cells.iter_mut().enumerate() {
        cell.kind = CellKind::ALL[(index * 7 + index / 500 * 3) % 4];
        cell.miss_mm = Some((index % 97) as f64);
    }
    let svg = picture.to_svg().unwrap();
    assert!(svg.len() < 25_000_000, "{}", svg.len());
    let texts = shown(&svg);
    assert!(texts.len() < 150, "ticks are not thinned: {}", texts.len());
    assert_tidy(&svg, "500 by 200");
    let (wide, high, _) = decode(&picture.to_png().unwrap());
    assert!(wide < 3200 && high < 3200, "{wide} by {high}");
}

#[test]
fn a_difference_shades_where_the_answers_part() {
    let mut left = map(1, 4, 1);
    let mut right = left.clone();
    let answers = [
        (CellKind::Holds, CellKind::Holds),
        (CellKind::Holds, CellKind::Long),
        (CellKind::Short, CellKind::Holds),
        (CellKind::Short, CellKind::Long),
    ];
    for (index, (a, b)) in answers.into_iter().enumerate() {
        left.panels[0].cells[index].kind = a;
        right.panels[0].cells[index].kind = b;
    }
    let picture =
        DifferencePicture::between("Two rails", ("nose-and-cloth", &left), ("planar", &right))
            .unwrap();
    let svg = picture.to_svg().unwrap();
    let said = words(&svg);
    for text in [
        "3 of 4 differ",
        "H·L",
        "S·H",
        "S·L",
        "holds with nose-and-cloth, not with planar",
        "holds with planar, not with nose-and-cloth",
        "neither holds",
    ] {
        assert!(said.contains(text), "{text}: {said}");
    }
    assert_tidy(&svg, "difference");
    let (_, _, pixels) = decode(&picture.to_png().unwrap());
    for role in [colours::AGREE, colours::FIRST_ONLY, colours::SECOND_ONLY, colours::DIFFERENT_MISS]
    {
        // More than the legend's swatch, which is 68 by 40 pixels.
        assert!(count(&pixels, role) > 2 * 68 * 40, "{role:?}: {}", count(&pixels, role));
    }
}

#[test]
fn maps_on_other_axes_are_not_compared() {
    let left = map(2, 4, 3);
    let unlike = |right: &super::MapPicture| match DifferencePicture::between(
        "t",
        ("a", &left),
        ("b", right),
    ) {
        Err(PictureError::Unlike { what }) => what,
        other => panic!("{other:?}"),
    };
    let mut right = left.clone();
    right.x.ticks[1] = "9".into();
    assert_eq!(unlike(&right), "x axis");
    assert_eq!(unlike(&map(1, 4, 3)), "number of panels");
    let mut right = left.clone();
    right.panels[0].caption.push('!');
    assert_eq!(unlike(&right), "panel captions");
}

#[test]
fn more_than_a_map_holds_is_refused_with_its_numbers() {
    let refused = |picture: super::MapPicture| picture.to_svg().unwrap_err();
    let error = refused(map(1, MOST_CELLS + 1, 1));
    assert_eq!(error, PictureError::TooManyCells { cells: MOST_CELLS + 1, most: MOST_CELLS });
    assert!(error.to_string().contains("200001 cells"), "{error}");
    let error = refused(map(MOST_PANELS + 1, 2, 2));
    assert_eq!(error, PictureError::Panels { panels: 13, most: 12 });
}

/// However narrow the cells, each number is written, in a coarser unit if need be, or the legend tells which are not.
#[test]
fn no_number_is_lost_in_silence() {
    let mut seen = [0; 3];
    for unit in [MissUnit::Millimetres, MissUnit::Inches] {
        for columns in 9..60 {
            let mut picture = map(1, columns, 3);
            picture.unit = unit;
            let kinds = [CellKind::Long, CellKind::Short];
            for (at, cell) in picture.panels[0].cells.iter_mut().enumerate() {
                (cell.kind, cell.miss_mm) = (kinds[at % 2], Some(3.0 + 11.0 * at as f64));
            }
            let svg = picture.to_svg().unwrap();
            let all = shown(&svg);
            let is = |text: &str, letter: &str| {
                text.strip_prefix(letter).map(str::trim).map(str::to_owned)
            };
            let marks = all.iter().filter_map(|it| is(&it.text, "L").or_else(|| is(&it.text, "S")));
            let marks: Vec<String> =
                marks.filter(|it| it.is_empty() || it.parse::<f64>().is_ok()).collect();
            // The legend has each letter once.
            let bare = marks.iter().filter(|it| it.is_empty()).count() - 2;
            let numbers = marks.iter().filter_map(|it| it.parse::<f64>().ok());
            let most = numbers.clone().fold(0.0, f64::max);
            let written = numbers.count();
            assert_eq!(bare + written, 3 * columns, "{columns}: {marks:?}");
            let said = words(&svg);
            let told = said.contains("a letter without a number:");
            assert_eq!(told, bare > 0 && written > 0, "{columns} {bare} {written}: {said}");
            assert_eq!(said.contains("number in a cell"), written > 0, "{columns}: {said}");
            let coarse =
                said.contains("the miss in cm") || said.contains("the miss in whole inches");
            let largest_mm = 3.0 + 11.0 * (3 * columns - 1) as f64;
            let parts_mm = match (unit, coarse) {
                (MissUnit::Millimetres, false) => 1.0,
                (MissUnit::Millimetres, true) => 10.0,
                (MissUnit::Inches, _) => 25.4,
            };
            if bare == 0 {
                assert!((most - largest_mm / parts_mm).abs() < 0.51, "{columns}: {most} {said}");
            }
            seen[usize::from(coarse) + usize::from(told)] += 1;
        }
    }
    assert!(seen.iter().all(|count| *count > 3), "{seen:?}");
}
