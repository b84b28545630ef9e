//! Lines as SVG and PNG.

use super::super::{MOST_POINTS, MOST_SERIES, PictureError, Series};
use super::{assert_tidy, level, lines, shown, words};

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
fn a_point_that_is_no_number_leaves_a_gap() {
    let mut picture = lines(1);
    picture.bands.clear();
    let strokes = |svg: &str| svg.matches("stroke-width=\"2\"").count();
    let whole = strokes(&picture.to_svg().unwrap());
    picture.series[0].points[9].1 = f64::NAN;
    picture.series[0].points[10].0 = f64::INFINITY;
    assert_eq!(strokes(&picture.to_svg().unwrap()), whole + 1);
    assert!(picture.to_png().is_ok());
    let said = words(&picture.to_svg().unwrap());
    let points = picture.series[0].points.len();
    let note = format!("2 of {points} points have no number");
    assert!(said.contains(&note), "{note} is not in: {said}");
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
fn results_without_a_number_leave_gaps_and_long_lines_stay_small() {
    let mut picture = lines(2);
    picture.bands =
        vec![level((2.0, 6.0), f64::NAN, 1.0, "none"), level((2.0, 6.0), 5.0, 3.0, "upside down")];
    picture.series.push(Series { label: "tiny".into(), points: vec![(3.0, 4.0 + 1e-13)] });
    assert_tidy(&picture.to_svg().unwrap(), "gaps");

    let mut noisy = lines(2);
    for series in &mut noisy.series {
        series.points =
            (0..MOST_POINTS / 2).map(|i| (i as f64, ((i * 7919) % 1000) as f64)).collect();
    }
    let svg = noisy.to_svg().unwrap();
    assert!(svg.len() < 2_000_000, "{}", svg.len());
}
