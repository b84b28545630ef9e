//! Shots on a table as SVG and PNG.

use super::super::colours::{BALLS, CLOTH, HOLE};
use super::super::{
    Inset, InsetCircle, Motion, SpinMark, TablePicture, TrackEnd, TrackPath, TrackPiece,
};
use super::table_data::{RADIUS, ball, bank, empty, line, rack};
use super::{assert_tidy, decode, page_size, shown, svg_size, words};

/// The data of every path that is drawn as a line of this colour.
fn traces(svg: &str, (r, g, b): (u8, u8, u8)) -> Vec<String> {
    let colour = format!("#{r:02X}{g:02X}{b:02X}");
    let document = roxmltree::Document::parse(svg).expect("well-formed XML");
    document
        .descendants()
        .filter(|node| node.attribute("stroke") == Some(&colour))
        .map(|node| node.attribute("d").expect("a path").to_owned())
        .collect()
}

fn numbers(data: &str) -> Vec<f64> {
    data.split(|c: char| c.is_ascii_alphabetic() || c == ' ')
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().unwrap())
        .collect()
}

/// The page's points to a metre and the table's centre on the page, told by a ball's straight
/// path of known ends.
fn place_on_page(mut picture: TablePicture) -> (f64, (f64, f64)) {
    picture.balls =
        vec![ball("probe", (-1.0, 0.0), vec![line((-1.0, 0.0), (1.0, 0.5), Motion::Roll)])];
    let traces = traces(&picture.to_svg().unwrap(), BALLS[0]);
    let path = traces.iter().find(|data| data.contains('L')).expect("the straight path");
    let [x0, y0, x1, y1] = numbers(path)[..] else { panic!("{path}") };
    let scale = (x1 - x0) / 2.0;
    assert!((scale - (y0 - y1) / 0.5).abs() < 0.01, "one scale both ways");
    (scale, (f64::midpoint(x0, x1), y0))
}

/// Whether a picture fits a printed sheet, upright or on its side: A4, 210 × 297 mm by ISO 216, with 10 mm of
/// margin; a point of an SVG is 1/96 in by CSS.
fn fits_a_sheet(svg: &str) -> bool {
    let (wide, high) = svg_size(svg);
    let [wide, high] = [wide, high].map(|side| side * 25.4 / 96.0);
    (wide <= 277.0 && high <= 190.0) || (wide <= 190.0 && high <= 277.0)
}

#[test]
fn a_picture_fits_one_printed_sheet() {
    let mut wordy = bank();
    wordy.notes = vec!["A note as long as a line of the page, or longer still. ".repeat(4); 12];
    wordy.title = "A title of many words ".repeat(12);
    wordy.inset = Some(inset());
    wordy.spins = vec![wordy.spins[0].clone(); 12];
    for (name, picture) in
        [("bank", bank()), ("rack", rack()), ("empty", empty()), ("wordy", wordy)]
    {
        let svg = picture.to_svg().unwrap();
        assert!(fits_a_sheet(&svg), "{name}: {:?}", svg_size(&svg));
        let (wide, high) = page_size(&svg);
        let (shown_wide, shown_high) = svg_size(&svg);
        assert!((wide / high - shown_wide / shown_high).abs() < 0.01, "{name} is distorted");
    }
}

/// Two balls that meet, and meet again beside a cushion.
fn inset() -> Inset {
    let circle = |at, ball, moment| InsetCircle { at, radius_m: RADIUS, ball, moment };
    Inset {
        centre: (0.5, 0.55),
        half_m: 0.15,
        circles: vec![
            circle((0.5, 0.5), 0, 1),
            circle((0.5, 0.5 + 2.0 * RADIUS), 1, 1),
            circle((0.55, 0.55), 1, 2),
        ],
        title: "Enlarged: the double kiss".into(),
        words: "1: they meet. 2: they meet again.".into(),
    }
}

#[test]
fn an_inset_enlarges_one_place_and_nothing_leaves_its_frame() {
    let mut picture = bank();
    picture.inset = Some(inset());
    let (with, without) = (picture.to_svg().unwrap(), bank().to_svg().unwrap());
    assert_tidy(&with, "inset");
    let said = words(&with);
    assert!(
        said.contains("Enlarged: the double kiss") && said.contains("2: they meet again."),
        "{said}"
    );
    assert!(!words(&without).contains("Enlarged"));
    // All that is drawn under the table at the left lies in the frame, which is as wide as the words.
    let all = shown(&with);
    let title = all.iter().find(|it| it.text.starts_with("Enlarged")).unwrap().extent;
    let (_, high) = page_size(&with);
    let top = title[1] - 6.0 - 252.0 * Inset::HEIGHT_TO_WIDTH - 8.0;
    let document = roxmltree::Document::parse(&with).unwrap();
    let paths = document.descendants().filter_map(|node| node.attribute("d"));
    let mut inside = 0;
    for data in paths.filter(|data| !data.contains('A') && !data.contains('C')) {
        let numbers = numbers(data);
        let points: Vec<(f64, f64)> = numbers.chunks_exact(2).map(|at| (at[0], at[1])).collect();
        let starts_in = |(x, y): (f64, f64)| x > 38.0 && x < 294.0 && y > top && y < title[1] - 4.0;
        if points.iter().copied().any(starts_in) && points.iter().all(|at| at.1 > top - 2.0) {
            inside += 1;
            let kept = |at: &(f64, f64)| at.0 < 294.0 && at.1 < high;
            assert!(points.iter().all(kept), "{data}");
        }
    }
    assert!(inside >= 4, "{inside}");
}

#[test]
fn spins_are_numbered_on_the_table_and_told_in_a_strip_under_it() {
    let mut picture = empty();
    picture.balls =
        vec![ball("object", (0.2, 0.1), vec![line((0.2, 0.1), (-0.8, 0.1), Motion::Roll)])];
    let spin = |x: f64, label: &str| SpinMark {
        at: (x, 0.1),
        radius_m: RADIUS,
        travel: (-1.0, 0.0),
        side: 0.2,
        along: 1.0,
        label: label.to_owned(),
    };
    picture.spins = vec![spin(0.2, "object at the start"), spin(-0.4, "object off the rail")];
    let svg = picture.to_svg().unwrap();
    assert_tidy(&svg, "strip");
    let all = shown(&svg);
    let strip = all.iter().find(|it| it.text.starts_with("Spin at")).unwrap().extent;
    for number in ["1", "2"] {
        // The numbers of sights are not asked for here.
        let tops: Vec<bool> =
            all.iter().filter(|it| it.text == number).map(|it| it.extent[1] > strip[3]).collect();
        assert!(tops.contains(&true) && tops.contains(&false), "{number}: {tops:?}");
    }
    for shown in all.iter().filter(|it| it.text.contains("at the start")) {
        assert!(shown.extent[1] > strip[3], "{shown:?} lies over the table");
    }
    picture.spins.clear();
    assert!(!words(&picture.to_svg().unwrap()).contains("Spin at"));
}

#[test]
fn a_stretch_of_constant_acceleration_is_that_very_parabola() {
    let (scale, centre) = place_on_page(empty());
    let (from, v, a, time) = ((0.7, -0.4), (-1.6, 1.1), (0.9, -1.7), 0.8);
    let path = TrackPath::accelerated(from, v, a, time);
    let mut picture = empty();
    picture.balls = vec![ball("a", from, vec![TrackPiece { path, motion: Motion::Slide }])];
    let svg = picture.to_svg().unwrap();
    let curve = traces(&svg, BALLS[0]).into_iter().find(|data| data.contains('Q')).unwrap();
    let [x0, y0, cx, cy, x1, y1] = numbers(&curve)[..] else { panic!("{curve}") };
    for i in 0..=100 {
        let share = f64::from(i) / 100.0;
        let t = share * time;
        let ball = (from.0 + v.0 * t + 0.5 * a.0 * t * t, from.1 + v.1 * t + 0.5 * a.1 * t * t);
        let wanted = (centre.0 + scale * ball.0, centre.1 - scale * ball.1);
        let rest = 1.0 - share;
        let drawn = (
            rest * rest * x0 + 2.0 * rest * share * cx + share * share * x1,
            rest * rest * y0 + 2.0 * rest * share * cy + share * share * y1,
        );
        let apart = (drawn.0 - wanted.0).hypot(drawn.1 - wanted.1);
        // Numbers in the file are cut at a thousandth of a point; measured 0.0011.
        assert!(apart < 0.003, "{apart} points apart at {t} s");
    }
}

#[test]
fn a_stretch_of_path_is_drawn_once_and_in_order() {
    let svg = bank().to_svg().unwrap();
    let blue = traces(&svg, BALLS[0]);
    let curves = blue.iter().filter(|data| data.contains('Q')).count();
    assert_eq!(curves, 1, "{blue:?}");
    // The slide begins where the cushion lets go, and the roll where the slide ends.
    let straight: Vec<_> = blue.iter().filter(|data| data.contains('L')).collect();
    let slide = numbers(blue.iter().find(|data| data.contains('Q')).unwrap());
    assert!(straight.iter().any(|data| numbers(data)[2..4] == slide[0..2]), "{blue:?}");
    assert!(straight.iter().any(|data| numbers(data)[0..2] == slide[4..6]), "{blue:?}");
}

#[test]
fn the_svg_says_everything_in_words() {
    let svg = bank().to_svg().unwrap();
    let said = words(&svg);
    for text in [
        "A bank in the Lantern Hall",
        "Lantern Hall, invented",
        "It drops in the lower left corner.",
        "cue",
        "object",
        "box",
        "start 6",
        "left rail",
        "foot-right",
        "ghost",
        "contact 4",
        "hit",
        "look here",
        "left",
        "slides",
        "rolls",
        "on the cushion",
        "in the air",
        "at rest",
        "drops",
        "gone",
        "meets a cushion",
        "balls meet",
        "line of aim",
        "obstacle",
        "target pocket",
        "side, seen from above",
        "roll and draw",
        "Invented numbers",
    ] {
        assert!(said.contains(text), "{text} is not in: {said}");
    }
    let document = roxmltree::Document::parse(&svg).unwrap();
    let description = document.descendants().find(|node| node.has_tag_name("desc")).unwrap();
    let description = description.text().unwrap();
    assert!(description.contains("object runs and drops."), "{description}");
    assert!(description.contains("high leaves the table."), "{description}");
}

#[test]
fn the_legend_names_only_what_is_shown() {
    let mut picture = empty();
    picture.verdict.clear();
    let said = words(&picture.to_svg().unwrap());
    for text in ["slides", "ghost", "cue ball", "drops", "obstacle", "seen from above"] {
        assert!(!said.contains(text), "{text} is in: {said}");
    }
    assert!(said.contains("target pocket"), "{said}");
}

#[test]
fn labels_keep_off_each_other() {
    for (name, picture) in [("bank", bank()), ("rack", rack()), ("empty", empty())] {
        let svg = picture.to_svg().unwrap();
        assert_tidy(&svg, name);
        assert!(!words(&svg).contains("want of room"), "{name}");
    }
    let said = words(&rack().to_svg().unwrap());
    for name in ["long name 0", "long name 12", " 1 ", " 14 "] {
        assert!(said.contains(name), "{name} is not in: {said}");
    }
}

/// Reads the pixel of a PNG at a place on the table.
fn pixel(picture: &TablePicture, png: &[u8], at: &[(f64, f64)]) -> Vec<(u8, u8, u8)> {
    let (scale, centre) = place_on_page(picture.clone());
    let (wide, _, pixels) = decode(png);
    at.iter()
        .map(|(x, y)| {
            let at = (centre.0 + scale * x, centre.1 - scale * y);
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "places on the page"
            )]
            let (px, py) = ((2.0 * at.0) as usize, (2.0 * at.1) as usize);
            let [r, g, b] = pixels[py * wide as usize + px];
            (r, g, b)
        })
        .collect()
}

#[test]
fn balls_are_round_and_where_they_stand() {
    let mut picture = empty();
    let at = (0.3, 0.2);
    picture.balls = vec![ball("", at, Vec::new())];
    let png = picture.to_png().unwrap();
    let around = |share: f64| -> Vec<(f64, f64)> {
        (0..72)
            .map(|i| {
                let angle = f64::from(i).to_radians() * 5.0;
                let reach = share * RADIUS;
                (at.0 + reach * angle.cos(), at.1 + reach * angle.sin())
            })
            .collect()
    };
    for share in [0.0, 0.5, 0.93] {
        assert!(pixel(&picture, &png, &around(share)).iter().all(|c| *c == BALLS[0]), "{share}");
    }
    assert!(pixel(&picture, &png, &around(1.2)).iter().all(|c| *c == CLOTH));
    // The opening behind a drop line is dark, the cloth before it is not.
    let corner = pixel(&picture, &png, &[(-1.28, -0.645), (-1.2, -0.565)]);
    assert_eq!(corner, [HOLE, CLOTH]);
}

#[test]
fn a_path_shorter_than_its_ball_is_seen() {
    let mut picture = empty();
    let to = (0.31, 0.2);
    picture.balls = vec![ball("", (0.3, 0.2), vec![line((0.3, 0.2), to, Motion::Roll)])];
    let png = picture.to_png().unwrap();
    let seen = pixel(&picture, &png, &[to, (0.305, 0.2), (0.28, 0.2), (0.31 - RADIUS, 0.2)]);
    assert_eq!(seen[0], BALLS[0], "its end");
    assert_eq!(seen[1], BALLS[0], "its path");
    assert!(seen[2] != BALLS[0] && seen[2] != CLOTH, "the pale ball: {:?}", seen[2]);
}

#[test]
fn sixteen_balls_differ_without_their_names() {
    let mut picture = rack();
    for (index, ball) in picture.balls.iter_mut().enumerate() {
        ball.is_cue = index == 0;
        ball.end = TrackEnd::Rest;
    }
    let svg = picture.to_svg().unwrap();
    let strokes: Vec<usize> = BALLS.iter().map(|colour| traces(&svg, *colour).len()).collect();
    assert!(strokes.iter().all(|count| *count >= 4), "two balls of each colour: {strokes:?}");
}

#[test]
fn labels_without_room_are_named_and_counted() {
    let mut picture = empty();
    picture.marks = vec![bank().marks[2].clone(); 400];
    let svg = picture.to_svg().unwrap();
    assert_tidy(&svg, "crowded");
    let said = words(&svg);
    // The note says the words once more.
    let shown = said.matches("look here").count() - 1;
    let left_out = 400 - shown;
    assert!(shown > 20 && left_out > 0, "{shown}");
    let note = format!("Left out for want of room: look here ({left_out} times).");
    assert!(said.contains(&note), "{said}");
}

#[test]
fn a_start_is_seen_where_another_ball_comes_to_rest() {
    let mut picture = empty();
    let there = (0.3, 0.2);
    let comes = ball("b", (-0.5, 0.2), vec![line((-0.5, 0.2), there, Motion::Roll)]);
    for balls in
        [[ball("", there, Vec::new()), comes.clone()], [comes, ball("", there, Vec::new())]]
    {
        let colour = BALLS[usize::from(balls[1].name.is_empty())];
        picture.balls = balls.to_vec();
        let png = picture.to_png().unwrap();
        assert_eq!(pixel(&picture, &png, &[(0.315, 0.21)]), [colour]);
    }
}

#[test]
fn the_most_stretches_of_path_stay_a_bounded_file() {
    let mut picture = empty();
    let place = |step: usize| (0.12 * ((step * 7919 + 31) % 17) as f64 - 1.0, 0.0);
    let pieces = (0..TablePicture::MOST_PIECES).map(|step| {
        let motion = if step.is_multiple_of(2) { Motion::Slide } else { Motion::Hop };
        line(place(step), place(step + 1), motion)
    });
    picture.balls = vec![ball("a", place(0), pieces.collect())];
    let svg = picture.to_svg().unwrap();
    assert!(svg.len() < 12_000_000, "{}", svg.len());
    assert!(picture.to_png().is_ok());
}
