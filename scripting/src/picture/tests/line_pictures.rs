//! Lines as SVG and PNG.

use super::super::{Band, MOST_POINTS, MOST_SERIES, PictureError, Series};
use super::{assert_tidy, decode, level, lines, shown, svg_size, words};

#[test]
fn the_svg_says_everything_in_words() {
    let said = words(&lines(3).to_svg().unwrap());
    for text in [
        "The miss falls with speed",
        "Lantern Hall, invented",
        "speed at launch (m/s)",
        "miss (mm)",
        "0 hands off",
        "2 hands off",
        "clears both points",
        "Square to the rail",
    ] {
        assert!(said.contains(text), "{text} is not in: {said}");
    }
}

#[test]
fn labels_never_cover_data_or_each_other() {
    for count in [1, 2, 7, MOST_SERIES] {
        let mut picture = lines(count);
        for series in &mut picture.series {
            series.label = format!("{} and a label so long that it takes two lines", series.label);
        }
        let svg = picture.to_svg().unwrap();
        assert_tidy(&svg, &format!("{count} lines"));
        let all = shown(&svg);
        let tick_right =
            all.iter().find(|shown| shown.text == "6.0").expect("the last tick").extent[2];
        let labels: Vec<_> = all.iter().filter(|shown| shown.text.contains("hands")).collect();
        assert_eq!(labels.len(), count);
        assert!(labels.iter().all(|label| label.extent[0] > tick_right), "{labels:?}");
    }
}

#[test]
fn the_png_matches_the_svg_and_repeats() {
    let picture = lines(4);
    let png = picture.to_png().unwrap();
    assert_eq!(png, picture.to_png().unwrap());
    assert_eq!(picture.to_svg().unwrap(), picture.to_svg().unwrap());
    let (wide, high, _) = decode(&png);
    let (width, height) = svg_size(&picture.to_svg().unwrap());
    assert_eq!((f64::from(wide), f64::from(high)), (2.0 * width, 2.0 * height));
}

#[test]
fn a_point_that_is_no_number_leaves_a_gap() {
    let mut picture = lines(1);
    picture.bands.clear();
    let strokes = |svg: &str| svg.matches("stroke-width=\"8\"").count();
    let whole = strokes(&picture.to_svg().unwrap());
    picture.series[0].points[9].1 = f64::NAN;
    picture.series[0].points[10].0 = f64::INFINITY;
    assert_eq!(strokes(&picture.to_svg().unwrap()), whole + 1);
    assert!(picture.to_png().is_ok());
}

#[test]
fn what_cannot_be_drawn_is_refused() {
    let error = lines(MOST_SERIES + 1).to_svg().unwrap_err();
    assert_eq!(error, PictureError::TooManySeries { series: 25, most: 24 });

    let mut picture = lines(1);
    picture.series[0].points = vec![(0.0, 0.0); MOST_POINTS + 1];
    assert!(matches!(picture.to_png(), Err(PictureError::TooManyPoints { .. })));

    let mut picture = lines(1);
    picture.series[0].points = vec![(f64::NAN, 1.0)];
    assert_eq!(picture.to_svg(), Err(PictureError::NothingToDraw));
    picture.series.clear();
    assert_eq!(picture.to_svg(), Err(PictureError::NothingToDraw));

    let mut picture = lines(1);
    picture.series[0].points = vec![(0.0, f64::MAX), (1.0, f64::MIN)];
    assert!(matches!(picture.to_svg(), Err(PictureError::Range { axis: "y", .. })));
}

#[test]
fn odd_data_is_drawn_without_a_fault() {
    let mut picture = lines(2);
    picture.series[0].points = vec![(3.0, 4.0)];
    picture.series[1].points = vec![(3.0, 4.0); 5000];
    picture.bands = vec![
        level((2.0, 6.0), f64::NAN, 1.0, "none"),
        level((2.0, 6.0), 5.0, 3.0, "upside down"),
        level((2.0, 6.0), 4.0, 4.0, "thin"),
        level((2.0, f64::INFINITY), 4.0, 4.0, "endless"),
        Band { line: Some(1), ..level((2.0, 6.0), 3.0, 5.0, "of a line") },
        Band { edges: Vec::new(), line: None, label: "nowhere".into() },
    ];
    picture.series.push(Series { label: String::new(), points: Vec::new() });
    picture.series.push(Series { label: "tiny".into(), points: vec![(3.0, 4.0 + 1e-13)] });
    assert_tidy(&picture.to_svg().unwrap(), "odd data");
    assert!(picture.to_png().is_ok());

    let mut noisy = lines(2);
    for series in &mut noisy.series {
        series.points =
            (0..MOST_POINTS / 2).map(|i| (i as f64, ((i * 7919) % 1000) as f64)).collect();
    }
    let svg = noisy.to_svg().unwrap();
    assert!(svg.len() < 8_000_000, "{}", svg.len());
}
