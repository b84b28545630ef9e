//! Regions and their edges as SVG and PNG.

use super::super::{
    BoundaryKind, FrontierBar, FrontierCurve, FrontierPanel, FrontierPicture, FrontierRegion,
    MOST_PANELS, MOST_POINTS, NumericAxis, PictureError, PictureLook,
};
use super::{assert_tidy, shown, words};

const KINDS: [BoundaryKind; 4] =
    [BoundaryKind::Long, BoundaryKind::Short, BoundaryKind::Stops, BoundaryKind::Elsewhere];

/// A region between a rising lower edge and a level upper one.
fn panel(index: usize) -> FrontierPanel {
    let xs = (0..=20).map(f64::from);
    let lower: Vec<(f64, f64)> = xs.clone().map(|x| (x, 1.5 + 0.08 * x)).collect();
    let upper: Vec<(f64, f64)> = xs.map(|x| (x, 6.0 - 0.05 * x)).collect();
    let outline = lower.iter().copied().chain(upper.iter().rev().copied()).collect();
    FrontierPanel {
        caption: format!("{index} hands along"),
        summary: "holds somewhere from 0 to 20".into(),
        regions: vec![FrontierRegion { outline }],
        curves: vec![
            FrontierCurve { kind: KINDS[index % 4], lower: true, points: lower },
            FrontierCurve { kind: KINDS[(index + 1) % 4], lower: false, points: upper },
        ],
        lines: Vec::new(),
        bars: Vec::new(),
        checked: vec![vec![(0.0, 4.0), (20.0, 4.4)]],
        always: None,
    }
}

pub(super) fn picture(panels: usize) -> FrontierPicture {
    FrontierPicture {
        title: "Where the tenfold rule stops holding".into(),
        finding: String::new(),
        subtitles: vec!["Lantern Hall, invented".into()],
        x: NumericAxis {
            title: "distance off the rail".into(),
            unit: "in".into(),
            ..NumericAxis::default()
        },
        y: NumericAxis {
            title: "speed at launch".into(),
            unit: "m/s".into(),
            ..NumericAxis::default()
        },
        x_range: (0.0, 20.0),
        y_range: (1.0, 8.0),
        panels: (0..panels).map(panel).collect(),
        flag_label: "harder than here: less sure".into(),
        notes: vec!["Edges to 0.01 m/s".into()],
        look: PictureLook::default(),
    }
}

/// The same with lines of their own in place of regions.
fn bars() -> FrontierPicture {
    let mut picture = picture(2);
    for panel in &mut picture.panels {
        panel.regions.clear();
        panel.curves.clear();
        panel.lines = (0..6).map(|k| 1.5 + 3.0 * f64::from(k)).collect();
        let bar = |x: &f64| FrontierBar {
            x: *x,
            from: 2.0,
            to: 8.0,
            below: Some(BoundaryKind::Short),
            above: None,
            agreement: None,
        };
        panel.bars = panel.lines.iter().skip(1).map(bar).collect();
    }
    picture
}

#[test]
fn everything_is_said_in_words_and_stays_apart() {
    for panels in 1..=MOST_PANELS {
        let svg = picture(panels).to_svg().unwrap();
        assert_tidy(&svg, &format!("{panels} panels"));
        let said = words(&svg);
        for text in
            ["distance off the rail (in)", "speed at launch (m/s)", "0 hands along", "holds"]
        {
            assert!(said.contains(text), "{text} is not in: {said}");
        }
    }
    assert_tidy(&bars().to_svg().unwrap(), "bars");
}

#[test]
fn each_edge_says_what_happens_beyond_it_and_the_key_explains_it() {
    let svg = picture(4).to_svg().unwrap();
    let all = shown(&svg);
    for word in ["long", "short", "stops", "elsewhere"] {
        let times = all.iter().filter(|shown| shown.text == word).count();
        // Each kind bounds two regions from one side, and stands in the key once.
        assert_eq!(times, 3, "{word}");
    }
    // A word stands outside its region: below a lower edge.
    let one = picture(1).to_svg().unwrap();
    let all = shown(&one);
    let beside = |word: &str| all.iter().find(|shown| shown.text == word).unwrap().extent;
    let (long, short) = (beside("long"), beside("short"));
    assert!(long[1] > short[3], "{long:?} {short:?}");
}

#[test]
fn the_key_names_only_what_is_drawn() {
    let mut whole = picture(1);
    let panel = &mut whole.panels[0];
    panel.curves.clear();
    panel.regions[0].outline = vec![(0.0, 1.0), (20.0, 1.0), (20.0, 8.0), (0.0, 8.0)];
    let said = words(&whole.to_svg().unwrap());
    assert!(said.contains("clears both points") && !said.contains("does not hold"), "{said}");
    assert!(!said.contains("beyond this edge"), "{said}");
    whole.panels[0].regions.clear();
    whole.panels[0].checked.clear();
    let said = words(&whole.to_svg().unwrap());
    assert!(!said.contains("clears both points") && said.contains("does not hold"), "{said}");
    assert!(!said.contains("not checked"), "{said}");
}

#[test]
fn no_words_run_across_an_edge() {
    // The end of the checked range begins right above a lower edge that rises through its words' place.
    let mut steep = picture(1);
    steep.panels[0].curves[0].points =
        (0..=20).map(f64::from).map(|x| (x, 1.5 + 0.3 * x)).collect();
    steep.panels[0].checked = vec![vec![(0.0, 2.4), (3.0, 2.45)]];
    let svg = steep.to_svg().unwrap();
    let all = shown(&svg);
    let named = |text: &str| all.iter().find(|shown| shown.text == text).unwrap().extent;
    let tick = |text: &str, side: usize| {
        let extent = named(text);
        f64::midpoint(extent[side], extent[side + 2])
    };
    let (left, right) = (tick("0", 0), tick("20", 0));
    let (bottom, top) = (tick("2", 1), tick("6", 1));
    let at = |x: f64, y: f64| {
        (left + x / 20.0 * (right - left), bottom + (y - 2.0) / 4.0 * (top - bottom))
    };
    let words = all.iter().filter(|it| {
        let inside = it.extent[0] > left && it.extent[2] < right && it.extent[1] > top - 80.0;
        inside && ["short", "long", "harder than here: less sure"].contains(&it.text.as_str())
    });
    let mut seen = 0;
    for word in words {
        seen += 1;
        let curves = steep.panels[0].curves.iter().map(|curve| &curve.points);
        for point in curves.chain(&steep.panels[0].checked).flatten() {
            let (x, y) = at(point.0, point.1);
            let [l, t, r, b] = word.extent;
            assert!(!(x > l && x < r && y > t && y < b), "{word:?} lies on {point:?}");
        }
    }
    assert!(seen >= 2, "{seen}");
}

#[test]
fn kinds_of_edges_differ_without_colour() {
    let looks: Vec<&[f64]> =
        KINDS.iter().map(|kind| super::super::frontier_key::curve_look(*kind).dashes).collect();
    for (at, one) in looks.iter().enumerate() {
        assert!(looks[..at].iter().all(|other| other != one), "{one:?} twice");
    }
}

#[test]
fn what_cannot_be_drawn_is_refused_and_odd_data_is_not() {
    let refused = |panels| picture(panels).to_svg().unwrap_err();
    assert!(matches!(refused(0), PictureError::Panels { panels: 0, .. }));
    assert!(matches!(refused(MOST_PANELS + 1), PictureError::Panels { .. }));
    let mut many = picture(1);
    many.panels[0].curves[0].points = vec![(1.0, 2.0); MOST_POINTS + 1];
    assert!(matches!(many.to_png(), Err(PictureError::TooManyPoints { .. })));
    let mut endless = picture(1);
    endless.x_range = (f64::NAN, f64::NAN);
    assert_eq!(endless.to_svg(), Err(PictureError::NothingToDraw));

    let mut odd = picture(2);
    odd.x_range = (3.0, 3.0);
    odd.panels[0].regions[0].outline = vec![(f64::NAN, 1.0), (2.0, f64::INFINITY), (1.0, 2.0)];
    odd.panels[0].curves[0].points = vec![(f64::NAN, 1.0)];
    odd.panels[0].curves[1].points = Vec::new();
    odd.panels[1].lines = vec![f64::NAN, 2.0];
    odd.panels[1].bars = vec![FrontierBar {
        x: f64::NAN,
        from: 1.0,
        to: 2.0,
        below: None,
        above: None,
        agreement: None,
    }];
    assert_tidy(&odd.to_svg().unwrap(), "odd data");
    assert!(odd.to_png().is_ok());
    assert!(!odd.to_svg().unwrap().contains("NaN"));
}
