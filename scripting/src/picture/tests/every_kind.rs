//! Checks that hold for every kind of picture alike.

use super::super::FitBody;
use super::super::font::{BOLD, REGULAR};
use super::super::{
    BeforeAfterCell, BeforeAfterPanels, BeforeAfterPicture, CellChange, CellKind,
    DifferencePicture, MapCell, MapPicture, MissUnit, PictureLook, text_map,
};
use super::{
    assert_tidy, decode, fits, frontiers, lines, map, page_size, svg_size, table_data, words,
};
use base64::Engine as _;
use sha2::{Digest as _, Sha256};

/// Name, SVG and PNG of a picture of each kind, with a text of the user's in every place.
fn with_text(text: Option<&str>) -> Vec<(&'static str, String, Vec<u8>)> {
    let put = |targets: &mut [&mut String]| {
        if let Some(text) = text {
            for target in targets {
                text.clone_into(target);
            }
        }
    };
    let many = |notes: &mut Vec<String>| {
        if let Some(text) = text {
            *notes = vec![text.to_owned(); 20];
        }
    };
    let mut banks = map(2, 5, 4);
    put(&mut [&mut banks.title, &mut banks.x.title, &mut banks.x.unit, &mut banks.x.ticks[0]]);
    put(&mut [&mut banks.y.title, &mut banks.y.ticks[1], &mut banks.panels[0].caption]);
    put(&mut [&mut banks.rule, &mut banks.model, &mut banks.flag_label, &mut banks.flag_meaning]);
    many(&mut banks.subtitles);
    let plain = text_map(&banks, 60, false);
    assert!(plain.chars().all(|c| c == '\n' || !c.is_control()), "{plain:?}");

    let mut other = banks.clone();
    other.panels[0].cells.rotate_left(3);
    let mut difference =
        DifferencePicture::between("Two rails", ("one", &banks), ("another", &other)).unwrap();
    put(&mut [&mut difference.title, &mut difference.first, &mut difference.second]);
    many(&mut difference.notes);

    let mut change = before_after(&banks, &other);
    put(&mut [&mut change.title, &mut change.rows[0].caption]);
    many(&mut change.subtitles);
    many(&mut change.notes);

    let mut curves = lines(2);
    put(&mut [&mut curves.title, &mut curves.x.title, &mut curves.y.unit]);
    put(&mut [&mut curves.series[0].label, &mut curves.bands[0].label]);

    let mut frontier = frontiers::picture(2);
    put(&mut [&mut frontier.title, &mut frontier.x.title, &mut frontier.y.unit]);
    put(&mut [&mut frontier.panels[0].caption]);
    put(&mut [&mut frontier.panels[1].summary]);
    many(&mut frontier.notes);

    let mut table = table_data::bank();
    put(&mut [&mut table.title, &mut table.subtitle, &mut table.verdict]);
    put(&mut [&mut table.balls[0].name, &mut table.obstacles[0].name]);
    put(&mut [
        &mut table.guides[0].labels[0],
        &mut table.marks[0].label,
        &mut table.spins[0].label,
    ]);
    many(&mut table.notes);

    let mut seen = fits::banks(9);
    if let FitBody::Banks(panels) = &mut seen.body {
        put(&mut [&mut panels[0].caption]);
        put(&mut [&mut panels[0].rows[0].label]);
        put(&mut [&mut panels[0].rows[0].seen_words]);
    }
    let mut told = fits::numbers(5);
    if let FitBody::Numbers(strips) = &mut told.body {
        put(&mut [&mut strips[0].label]);
        put(&mut [&mut strips[1].words]);
    }
    let mut tied = fits::pairs(3);
    if let FitBody::Pairs(panels) = &mut tied.body {
        put(&mut [&mut panels[0].caption]);
        put(&mut [&mut panels[0].x.title]);
        put(&mut [&mut panels[1].y.title]);
    }
    let mut planned = fits::sheet(6);
    if let FitBody::Sheet(rows) = &mut planned.body {
        put(&mut [&mut rows[0].line]);
        put(&mut [&mut rows[1].sent]);
        put(&mut [&mut rows[2].worth]);
    }
    for fit in [&mut seen, &mut told, &mut tied, &mut planned] {
        put(&mut [&mut fit.title]);
        many(&mut fit.subtitles);
        many(&mut fit.notes);
    }

    vec![
        ("map", banks.to_svg().unwrap(), banks.to_png().unwrap()),
        ("difference", difference.to_svg().unwrap(), difference.to_png().unwrap()),
        ("before and after", change.to_svg().unwrap(), change.to_png().unwrap()),
        ("lines", curves.to_svg().unwrap(), curves.to_png().unwrap()),
        ("frontier", frontier.to_svg().unwrap(), frontier.to_png().unwrap()),
        ("table", table.to_svg().unwrap(), table.to_png().unwrap()),
        ("banks of a fit", seen.to_svg().unwrap(), seen.to_png().unwrap()),
        ("numbers of a fit", told.to_svg().unwrap(), told.to_png().unwrap()),
        ("pairs of a fit", tied.to_svg().unwrap(), tied.to_png().unwrap()),
        ("sheet of the next banks", planned.to_svg().unwrap(), planned.to_png().unwrap()),
    ]
}

/// Two maps as before and after, with every kind of change.
fn before_after(before: &MapPicture, after: &MapPicture) -> BeforeAfterPicture {
    let changes = [
        CellChange::Same,
        CellChange::Moved,
        CellChange::AtEdge,
        CellChange::Verdict,
        CellChange::Verdict,
        CellChange::New,
        CellChange::Gone,
        CellChange::Nothing,
    ];
    let panels = before.panels.iter().zip(&after.panels);
    let rows = panels.map(|(old, new)| {
        let pairs = old.cells.iter().zip(&new.cells).zip(changes.into_iter().cycle());
        let cell = |((before, after), change): ((&MapCell, &MapCell), CellChange)| {
            BeforeAfterCell { before: *before, after: *after, change }
        };
        BeforeAfterPanels { caption: old.caption.clone(), cells: pairs.map(cell).collect() }
    });
    BeforeAfterPicture {
        title: "Of 40 banks of x.baseline 12 verdicts changed.".to_owned(),
        subtitles: vec!["the cushion's restitution was 0.97, is 0.8".to_owned()],
        x: before.x.clone(),
        y: before.y.clone(),
        rows: rows.collect(),
        notes: vec!["Moved: by more than 0.5 mm.".to_owned()],
        look: PictureLook::default(),
        unit: MissUnit::Millimetres,
    }
}

fn digest(bytes: &[u8]) -> String {
    base64::engine::general_purpose::STANDARD.encode(&Sha256::digest(bytes)[..9])
}

#[test]
fn every_picture_has_the_same_bytes_on_every_thread_and_in_every_build() {
    let digests = || -> Vec<(&str, String, String)> {
        let each = with_text(None).into_iter();
        each.map(|(name, svg, png)| (name, digest(svg.as_bytes()), digest(&png))).collect()
    };
    let threads: Vec<_> = (0..4).map(|_| std::thread::spawn(digests)).collect();
    // After a wanted change of a picture, look at the picture, then put its new digests here.
    let known = [
        ("map", "S5hAeHfPQDEm", "myU0Q4qmpALx"),
        ("difference", "HUfUp72QDAVy", "zC2rz4dI97Zx"),
        ("before and after", "M1P/O7lbmf+h", "vqWaoayDM23q"),
        ("lines", "IL4aDRqnfBmC", "xmnYU76HiELO"),
        ("frontier", "XNXlkduqyx4o", "8wYm7xja+FEp"),
        ("table", "NJdDy7E/hdxH", "XBsy8WYwNR33"),
        ("banks of a fit", "u5dkqyc+yTw+", "VlCg7xq7M+IO"),
        ("numbers of a fit", "QfBSt2OQPhI1", "FMuQrbtAk1PX"),
        ("pairs of a fit", "KKZGuKIqCvuz", "fXNtSeFTRnUQ"),
        ("sheet of the next banks", "RgyXI4yXrQ4n", "xRtbEWp1B65A"),
    ];
    for thread in threads {
        let found = thread.join().unwrap();
        let found: Vec<_> =
            found.iter().map(|(name, svg, png)| (*name, svg.as_str(), png.as_str())).collect();
        assert_eq!(found, known);
    }
}

#[test]
fn the_png_has_two_pixels_to_each_point_of_the_svg() {
    for (name, svg, png) in with_text(None) {
        let (wide, high, pixels) = decode(&png);
        let (width, height) = page_size(&svg);
        assert_eq!((f64::from(wide), f64::from(high)), (2.0 * width, 2.0 * height), "{name}");
        assert_eq!(pixels[0], [255; 3], "{name}");
    }
}

#[test]
fn a_picture_may_be_larger_and_without_its_legend() {
    let mut picture = map(2, 9, 6);
    let (whole, said) = (svg_size(&picture.to_svg().unwrap()), words(&picture.to_svg().unwrap()));
    assert!(said.contains(CellKind::Holds.phrase().split(' ').next().unwrap()));
    picture.look.size = 1.5;
    let large = svg_size(&picture.to_svg().unwrap());
    assert_eq!(large, ((1.5 * whole.0).ceil(), (1.5 * whole.1).ceil()));
    let (wide, high, _) = decode(&picture.to_png().unwrap());
    assert_eq!((f64::from(wide), f64::from(high)), (2.0 * large.0, 2.0 * large.1));
    picture.look = PictureLook { legend: false, size: 1.0 };
    let svg = picture.to_svg().unwrap();
    let area = |(wide, high): (f64, f64)| wide * high;
    assert!(area(svg_size(&svg)) < 0.8 * area(whole) && !words(&svg).contains("touches a point"));
}

#[test]
fn maps_of_one_scale_shade_a_miss_alike() {
    let mut near = map(1, 2, 1);
    for cell in &mut near.panels[0].cells {
        (cell.kind, cell.miss_mm) = (CellKind::Long, Some(9.0));
    }
    let mut far = near.clone();
    far.panels[0].cells.iter_mut().for_each(|cell| cell.miss_mm = Some(900.0));
    let fills = |picture: &MapPicture| {
        let svg = picture.to_svg().unwrap();
        svg.matches("fill=\"#002A5D\"").count()
    };
    assert_eq!(fills(&near), fills(&far));
    MapPicture::share_scale(&mut [&mut near, &mut far], MissUnit::Millimetres);
    assert!(fills(&near) < fills(&far));
    assert_eq!(near.shade_step, far.shade_step);
}

#[test]
fn the_svg_needs_nothing_but_itself() {
    for (name, svg, _) in with_text(None) {
        assert_eq!(svg.matches("http").count(), 1, "{name}: only the SVG namespace");
        assert!(!svg.contains("href") && !svg.contains("@import"), "{name}");
        let fonts: Vec<&str> = svg.split("base64,").skip(1).collect();
        assert_eq!(fonts.len(), 2, "{name}");
        for (font, expected) in fonts.iter().zip([REGULAR, BOLD]) {
            let data = font.split(')').next().unwrap();
            let bytes = base64::engine::general_purpose::STANDARD.decode(data).unwrap();
            assert!(bytes == expected, "{name}: the font inside is not the one measured with");
        }
    }
}

#[test]
fn the_users_text_is_shown_as_text_and_stays_on_the_page() {
    for text in [
        "</text><script>alert(1)</script>&amp;&#0; \"quoted\" ]]> <!-- -->",
        "line one\nline two\r\n\ttabbed, control \u{0}\u{1b}[2J\u{9b}31m\u{ffff} end",
        "turned \u{202e}tfel ot thgir\u{202c} \u{feff}\u{200b} 🎱 球 مرحبا e\u{301}\u{301}",
        &"x".repeat(100_000),
        &"long words of a title ".repeat(5_000),
        "",
    ] {
        let start: String = text.chars().take(30).collect();
        for (name, svg, _) in with_text(Some(text)) {
            assert_tidy(&svg, &format!("{name}: {start}"));
            assert!(!svg.contains("<script"), "{name}: {start}");
        }
    }
}

#[test]
fn markup_in_a_title_comes_back_letter_for_letter() {
    let title = "start < 2 & \"contact\" > 1 – 'so' 🎱";
    for (name, svg, _) in with_text(Some(title)) {
        assert!(words(&svg).contains(title), "{name}");
        let document = roxmltree::Document::parse(&svg).unwrap();
        let spoken = document.descendants().find(|node| node.has_tag_name("title")).unwrap();
        assert_eq!(spoken.text(), Some(title), "{name}");
    }
}

#[test]
fn numbers_that_are_none_are_no_misses() {
    let mut picture = map(1, 3, 3);
    let odd = [f64::NAN, f64::INFINITY, f64::MAX, -0.0, 5e-324];
    for (cell, miss) in picture.panels[0].cells.iter_mut().zip(odd.into_iter().cycle()) {
        cell.kind = CellKind::Long;
        cell.miss_mm = Some(miss);
    }
    let svg = picture.to_svg().unwrap();
    let said = words(&svg);
    assert!(!said.contains("NaN") && !said.contains("inf"), "{said}");
    assert!(text_map(&picture, 80, true).contains("long"));
}
