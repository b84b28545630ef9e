//! Tests of whole pictures, with invented numbers and a reader of what was drawn.

mod every_kind;
mod fits;
mod frontiers;
mod line_plots;
mod maps;
mod table_data;
mod tables;
mod text_maps;

use super::font::{self, Weight};
use super::{
    CellKind, LinesPicture, MapCell, MapPicture, MissUnit, NumericAxis, Panel, PictureAxis,
    PictureLook, Series,
};

fn ticks(count: usize) -> Vec<String> {
    (0..count).map(|i| format!("{:.2}", 2.0 + 0.25 * i as f64)).collect()
}

/// A map in which every kind occurs if it has at least nine cells, with flags in the last column.
fn map(panels: usize, columns: usize, rows: usize) -> MapPicture {
    let cell = |index: usize| MapCell {
        kind: CellKind::OF_BANK[index % CellKind::OF_BANK.len()],
        miss_mm: Some((index % 131) as f64),
        flagged: index % columns == columns - 1,
        chance: None,
    };
    MapPicture {
        title: "Where the tenfold rule holds".into(),
        finding: String::new(),
        subtitles: vec!["Lantern Hall, invented; stun".into()],
        x: PictureAxis {
            title: "speed at launch".into(),
            unit: "m/s".into(),
            ticks: ticks(columns),
        },
        y: PictureAxis {
            title: "contact number".into(),
            unit: "diamonds".into(),
            ticks: ticks(rows),
        },
        panels: (0..panels)
            .map(|panel| Panel {
                caption: format!("{panel} hands off the rail"),
                cells: (0..columns * rows).map(cell).collect(),
            })
            .collect(),
        rule: "start = 2.2 × contact".into(),
        model: "nose-and-cloth rail".into(),
        flag_label: "harder than here: less sure".into(),
        flag_meaning: "outside the checked speeds".into(),
        notes: vec!["Measured square to the rail".into()],
        chance_lines: false,
        look: PictureLook::default(),
        unit: MissUnit::default(),
        shade_step: None,
    }
}

/// A band as wide everywhere.
fn level(x: (f64, f64), from: f64, to: f64, label: &str) -> super::Band {
    let edges = [x.0, x.1].map(|x| super::BandEdges { x, from, to }).to_vec();
    super::Band { edges, line: None, label: label.to_owned() }
}

fn lines(series: usize) -> LinesPicture {
    LinesPicture {
        title: "The miss falls with speed".into(),
        subtitles: vec!["Lantern Hall, invented".into()],
        x: NumericAxis { title: "speed at launch".into(), unit: "m/s".into(), words: Vec::new() },
        y: NumericAxis { title: "miss".into(), unit: "mm".into(), words: Vec::new() },
        series: (0..series)
            .map(|index| Series {
                label: format!("{index} hands off"),
                points: (0..20)
                    .map(|i| {
                        let speed = 2.0 + 0.2 * f64::from(i);
                        (speed, 10.0 * index as f64 / speed)
                    })
                    .collect(),
            })
            .collect(),
        bands: vec![level((2.0, 6.0), -3.0, 3.0, "clears both points")],
        notes: vec!["Square to the rail".into()],
        look: PictureLook::default(),
    }
}

/// A text as an SVG shows it, in points.
#[derive(Debug)]
pub(crate) struct Shown {
    pub(crate) text: String,
    /// Left, top, right, bottom.
    extent: [f64; 4],
}

/// Every text of an SVG with the box that it covers.
pub(crate) fn shown(svg: &str) -> Vec<Shown> {
    let document = roxmltree::Document::parse(svg).expect("well-formed XML");
    let texts = document.descendants().filter(|node| node.has_tag_name("text"));
    texts
        .map(|node| {
            let number = |name: &str| node.attribute(name).unwrap().parse::<f64>().unwrap();
            let text = node.text().unwrap_or("").trim().to_owned();
            let weight = match node.attribute("font-weight") {
                Some("bold") => Weight::Bold,
                _ => Weight::Regular,
            };
            let em = number("font-size");
            let long = font::width(&text, em, weight);
            let before = match node.attribute("text-anchor").unwrap() {
                "start" => 0.0,
                "middle" => long / 2.0,
                _ => long,
            };
            // Letters reach 0.73 em above their baseline and 0.22 em below.
            let (x, y) = (number("x"), number("y"));
            let extent = if node.attribute("transform").is_some() {
                [x - 0.73 * em, y + before - long, x + 0.22 * em, y + before]
            } else {
                [x - before, y - 0.73 * em, x - before + long, y + 0.22 * em]
            };
            Shown { text, extent }
        })
        .collect()
}

/// All the words of an SVG's picture, in one line.
fn words(svg: &str) -> String {
    shown(svg).into_iter().map(|shown| shown.text).collect::<Vec<_>>().join(" ")
}

/// Width and height of an SVG's page in its own points.
fn page_size(svg: &str) -> (f64, f64) {
    let document = roxmltree::Document::parse(svg).expect("well-formed XML");
    let view = document.root_element().attribute("viewBox").unwrap();
    let sides: Vec<f64> = view.split(' ').map(|side| side.parse().unwrap()).collect();
    (sides[2], sides[3])
}

/// Width and height that an SVG states.
fn svg_size(svg: &str) -> (f64, f64) {
    let document = roxmltree::Document::parse(svg).expect("well-formed XML");
    let root = document.root_element();
    let side = |name: &str| root.attribute(name).unwrap().parse().unwrap();
    (side("width"), side("height"))
}

/// Asserts that each text lies on the page and none runs into another.
pub(crate) fn assert_tidy(svg: &str, name: &str) {
    let (width, height) = page_size(svg);
    let all = shown(svg);
    for (i, a) in all.iter().enumerate() {
        let [left, top, right, bottom] = a.extent;
        let inside = left >= 4.0 && top >= 4.0 && right <= width - 4.0 && bottom <= height - 4.0;
        assert!(inside, "{name}: {a:?} leaves the page of {width} by {height}");
        for b in &all[..i] {
            let apart = a.extent[2] <= b.extent[0]
                || b.extent[2] <= a.extent[0]
                || a.extent[3] <= b.extent[1]
                || b.extent[3] <= a.extent[1];
            assert!(apart, "{name}: {a:?} and {b:?} overlap");
        }
    }
}

/// A page with two texts at these places, to try the check above.
fn two_texts(first: (f64, f64), second: (f64, f64)) -> String {
    let mut canvas = super::canvas::Canvas::new("two texts".into(), String::new());
    (canvas.width, canvas.height) = (300.0, 100.0);
    for at in [first, second] {
        canvas.text("held", at, super::canvas::Anchor::Start, super::page::AXIS);
    }
    super::svg::encode(&canvas, 1.0)
}

#[test]
fn the_check_for_tidiness_lets_tidy_pages_pass() {
    assert_tidy(&two_texts((20.0, 30.0), (20.0, 50.0)), "apart");
}

#[test]
#[should_panic(expected = "overlap")]
fn the_check_for_tidiness_sees_an_overlap() {
    assert_tidy(&two_texts((20.0, 30.0), (40.0, 35.0)), "overlap");
}

#[test]
#[should_panic(expected = "leaves the page")]
fn the_check_for_tidiness_sees_text_off_the_page() {
    assert_tidy(&two_texts((20.0, 30.0), (290.0, 50.0)), "off");
}

/// Width, height and the pixels of a PNG.
fn decode(bytes: &[u8]) -> (u32, u32, Vec<[u8; 3]>) {
    let mut reader = png::Decoder::new(bytes).read_info().expect("a PNG");
    let mut buffer = vec![0; reader.output_buffer_size()];
    let info = reader.next_frame(&mut buffer).expect("whole");
    assert_eq!(info.color_type, png::ColorType::Rgb);
    let pixels = buffer.chunks_exact(3).map(|p| [p[0], p[1], p[2]]).collect();
    (info.width, info.height, pixels)
}
