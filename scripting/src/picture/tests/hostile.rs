//! Text that a user may give by accident or on purpose.

use super::super::text_map;
use super::{assert_tidy, lines, map, words};

pub(super) fn hostile() -> Vec<String> {
    vec![
        "</text><script>alert(1)</script>&amp;&#0;".into(),
        "a \"quoted\" 'title' ]]> <!-- --> <?xml".into(),
        "line one\nline two\r\n\ttabbed".into(),
        "control \u{0}\u{1}\u{7f}\u{1b}[2J\u{9b}31m\u{fffe}\u{ffff} end".into(),
        "turned \u{202e}tfel ot thgir\u{202c} \u{feff}\u{200b}".into(),
        "🎱 球 مرحبا e\u{301}\u{301}\u{301} 👨‍👩‍👧".into(),
        "x".repeat(100_000),
        "long words of a title ".repeat(5_000),
        "\u{10ffff}\u{d7ff}\u{e000}".into(),
        "   ".into(),
        String::new(),
    ]
}

#[test]
fn hostile_text_is_shown_as_text_and_stays_on_the_page() {
    for text in hostile() {
        let mut picture = map(2, 5, 4);
        picture.title.clone_from(&text);
        picture.subtitles = vec![text.clone(); 20];
        picture.notes = vec![text.clone(); 40];
        for target in [
            &mut picture.x.title,
            &mut picture.x.unit,
            &mut picture.y.title,
            &mut picture.y.unit,
            &mut picture.panels[0].caption,
            &mut picture.rule,
            &mut picture.model,
            &mut picture.flag_meaning,
            &mut picture.x.ticks[0],
            &mut picture.y.ticks[1],
        ] {
            target.clone_from(&text);
        }
        let name: String = text.chars().take(30).collect();
        let svg = picture.to_svg().unwrap();
        assert_tidy(&svg, &name);
        assert!(!svg.contains("<script"), "{name}");
        assert!(picture.to_png().is_ok(), "{name}");

        let mut drawing = lines(2);
        drawing.title.clone_from(&text);
        drawing.x.title.clone_from(&text);
        drawing.y.unit.clone_from(&text);
        drawing.series[0].label.clone_from(&text);
        drawing.bands[0].label.clone_from(&text);
        assert_tidy(&drawing.to_svg().unwrap(), &name);
        assert!(drawing.to_png().is_ok(), "{name}");

        let plain = text_map(&picture, 60, false);
        assert!(plain.chars().all(|c| c == '\n' || !c.is_control()), "{name}: {plain:?}");
    }
}

#[test]
fn markup_in_a_title_comes_back_letter_for_letter() {
    let mut picture = map(1, 4, 2);
    picture.title = "start < 2 & \"contact\" > 1 – 'so' 🎱".into();
    let svg = picture.to_svg().unwrap();
    assert!(words(&svg).contains(&picture.title));
    let document = roxmltree::Document::parse(&svg).unwrap();
    let title = document.descendants().find(|node| node.has_tag_name("title")).unwrap();
    assert_eq!(title.text(), Some(picture.title.as_str()));
}

#[test]
fn numbers_that_are_none_are_no_misses() {
    let mut picture = map(1, 3, 3);
    let odd = [f64::NAN, f64::INFINITY, f64::MAX, -0.0, 5e-324];
    for (cell, miss) in picture.panels[0].cells.iter_mut().zip(odd.into_iter().cycle()) {
        cell.kind = super::CellKind::Long;
        cell.miss_mm = Some(miss);
    }
    let svg = picture.to_svg().unwrap();
    let said = words(&svg);
    assert!(!said.contains("NaN") && !said.contains("inf"), "{said}");
    assert_tidy(&svg, "odd misses");
    assert!(text_map(&picture, 80, true).contains("long"));
}
