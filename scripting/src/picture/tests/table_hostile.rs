//! Shots on a table that are none: numbers that are not finite, absurd counts, text that bites.

use super::super::{
    CushionPiece, Ghost, MarkKind, Motion, Obstacle, PictureError, Sight, TablePicture, TrackPath,
    TrackPiece,
};
use super::hostile::hostile;
use super::table_data::{RADIUS, ball, bank, empty, line};
use super::{assert_tidy, words};

type Change = fn(&mut TablePicture, f64);

/// Ways to put a number into a picture.
fn changes() -> Vec<(&'static str, Change)> {
    vec![
        ("length", |p, n| p.table.length_m = n),
        ("width", |p, n| p.table.width_m = n),
        ("rail", |p, n| p.table.rail_m = n),
        ("cushion", |p, n| {
            p.table.cushions[0].pieces[0] = CushionPiece::Line { from: (0.0, n), to: (0.0, 0.0) };
        }),
        ("arc", |p, n| {
            p.table.cushions[0].pieces[1] = CushionPiece::Arc {
                centre: (0.0, 0.0),
                radius_m: 0.01,
                from_rad: n,
                sweep_rad: 1.0,
            };
        }),
        ("sweep", |p, n| {
            p.table.cushions[0].pieces[1] = CushionPiece::Arc {
                centre: (0.0, 0.0),
                radius_m: 0.01,
                from_rad: 0.0,
                sweep_rad: n,
            };
        }),
        ("mouth", |p, n| p.table.pockets[0].mouth[1].0 = n),
        ("drop", |p, n| p.table.pockets[0].drop[0].1 = n),
        ("sight", |p, n| p.table.sights[0].at.0 = n),
        ("obstacle", |p, n| p.obstacles[0].corners[2].1 = n),
        ("guide", |p, n| p.guides[0].to.0 = n),
        ("ghost", |p, n| p.ghosts[0].at.0 = n),
        ("ghost radius", |p, n| p.ghosts[0].radius_m = n),
        ("radius", |p, n| p.balls[0].radius_m = n),
        ("start", |p, n| p.balls[1].start.1 = n),
        ("line", |p, n| p.balls[0].pieces[0] = line((n, 0.0), (0.0, 0.0), Motion::Roll)),
        ("control", |p, n| {
            let path = TrackPath::Parabola { from: (0.0, 0.0), control: (n, 0.0), to: (0.1, 0.0) };
            p.balls[0].pieces[0] = TrackPiece { path, motion: Motion::Slide };
        }),
        ("mark", |p, n| p.marks[2].at.0 = n),
        ("nose", |p, n| {
            p.marks[0].kind = MarkKind::Rail { nose: (0.0, n), radius_m: RADIUS };
        }),
        ("travel", |p, n| p.spins[0].travel.0 = n),
        ("side", |p, n| p.spins[0].side = n),
        ("along", |p, n| p.spins[0].along = n),
    ]
}

#[test]
fn numbers_that_are_none_are_refused_wherever_they_stand() {
    assert!(bank().to_svg().is_ok());
    for (name, change) in changes() {
        for number in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, -1e300] {
            let mut picture = bank();
            change(&mut picture, number);
            let error = picture.to_svg().expect_err(name);
            assert!(
                matches!(
                    error,
                    PictureError::NotANumber { .. }
                        | PictureError::Size { .. }
                        | PictureError::OffTheTable { .. }
                ),
                "{name} {number}: {error}"
            );
            assert_eq!(picture.to_png(), Err(error), "{name} {number}");
        }
    }
}

#[test]
fn places_off_the_table_are_named() {
    let mut picture = bank();
    picture.balls[1].pieces[3] = line((0.0, 0.0), (0.0, 0.8), Motion::Roll);
    let error = picture.to_svg().unwrap_err();
    assert_eq!(error, PictureError::OffTheTable { what: "ball", number: 2 });
    assert_eq!(error.to_string(), "ball 2 reaches past the table's edge, so it cannot be drawn");
    // The bow of a parabola counts, not its control point.
    let bow = |control| {
        let path = TrackPath::Parabola { from: (-0.5, 0.5), control, to: (0.5, 0.5) };
        let mut picture = empty();
        picture.balls =
            vec![ball("a", (-0.5, 0.5), vec![TrackPiece { path, motion: Motion::Slide }])];
        picture.to_svg()
    };
    assert!(bow((0.0, 1.0)).is_ok(), "its highest point is 0.75, on the wood");
    assert!(matches!(bow((0.0, 1.1)), Err(PictureError::OffTheTable { .. })), "0.8 is past it");
}

#[test]
fn absurd_counts_are_refused() {
    let too_many = |picture: &TablePicture| match picture.to_svg() {
        Err(PictureError::TooMany { found, most, .. }) => found == most + 1,
        other => panic!("{other:?}"),
    };
    let mut picture = empty();
    picture.balls = vec![ball("a", (0.0, 0.0), Vec::new()); TablePicture::MOST_BALLS + 1];
    assert!(too_many(&picture));
    let mut picture = empty();
    let piece = line((0.0, 0.0), (0.0, 0.0), Motion::Roll);
    picture.balls = vec![ball("a", (0.0, 0.0), vec![piece; TablePicture::MOST_PIECES + 1])];
    assert!(too_many(&picture));
    let mut picture = empty();
    picture.table.sights =
        vec![Sight { at: (0.0, 0.7), number: "1".into() }; TablePicture::MOST_MARKS + 1];
    assert!(too_many(&picture));
    let mut picture = empty();
    let corners = vec![(0.0, 0.0); TablePicture::MOST_CORNERS + 1];
    picture.obstacles = vec![Obstacle { name: "box".into(), corners }];
    assert!(too_many(&picture));
    let mut picture = empty();
    let ghost = Ghost { at: (0.0, 0.0), radius_m: RADIUS, label: String::new() };
    picture.ghosts = vec![ghost; TablePicture::MOST_MARKS + 1];
    assert!(too_many(&picture));

    let mut picture = empty();
    let there = line((-1.2, 0.0), (1.2, 0.0), Motion::Roll);
    let back = line((1.2, 0.0), (-1.2, 0.0), Motion::Roll);
    picture.balls = vec![ball("a", (-1.2, 0.0), [there, back].repeat(630))];
    assert!(matches!(picture.to_svg(), Err(PictureError::Size { .. })), "3024 m of path");
}

#[test]
fn the_most_that_is_taken_is_drawn() {
    let mut picture = empty();
    let per_ball = TablePicture::MOST_PIECES / 16;
    picture.balls = (0..16)
        .map(|index| {
            let y = -0.5 + 0.06 * f64::from(index);
            let place = |step: usize| (0.12 * ((step * 7919 + 31) % 17) as f64 - 1.0, y);
            let pieces = (0..per_ball)
                .map(|step| {
                    let (from, to) = (place(step), place(step + 1));
                    let near = (from.0 + 0.05 * (to.0 - from.0), from.1);
                    let control = (from.0, from.1 + 0.01);
                    let path = TrackPath::Parabola { from, control, to: near };
                    TrackPiece {
                        path,
                        motion: if step % 2 == 0 { Motion::Slide } else { Motion::Hop },
                    }
                })
                .collect();
            ball(&index.to_string(), place(0), pieces)
        })
        .collect();
    let svg = picture.to_svg().unwrap();
    assert!(svg.len() < 12_000_000, "{}", svg.len());
    assert_tidy(&svg, "the most");
    assert!(picture.to_png().is_ok());
}

#[test]
fn degenerate_shapes_are_drawn_without_a_fault() {
    let mut picture = bank();
    picture.table.pockets[0].drop = picture.table.pockets[0].mouth;
    picture.table.pockets[1].drop = [(0.0, 0.0); 2];
    picture.table.pockets[1].mouth = [(0.0, 0.0); 2];
    picture.table.cushions[0].pieces.clear();
    picture.table.cushions[1].pieces.truncate(1);
    picture.obstacles[0].corners.clear();
    picture.obstacles.push(Obstacle { name: "a point".into(), corners: vec![(0.1, 0.1)] });
    picture.guides[0].to = picture.guides[0].from;
    picture.spins[0].travel = (0.0, 0.0);
    picture.spins[0].side = -900.0;
    picture.balls[0].pieces = vec![line((0.1, 0.1), (0.1, 0.1), Motion::Hop); 40];
    picture.marks[0].at = (0.006, 0.635);
    picture.balls[1].radius_m = 0.25;
    picture.balls[2].radius_m = 0.002;
    picture.table.rail_m = 0.74;
    assert_tidy(&picture.to_svg().unwrap(), "degenerate");
    assert!(picture.to_png().is_ok());

    for (length, width) in [(0.2, 0.2), (20.0, 0.2), (0.2, 20.0)] {
        let mut picture = empty();
        picture.table.cushions.clear();
        picture.table.pockets.clear();
        picture.table.sights = vec![Sight { at: (0.1, 0.1), number: "9".into() }; 30];
        (picture.table.length_m, picture.table.width_m) = (length, width);
        picture.balls =
            vec![ball("x", (0.0, 0.0), Vec::new()), ball("long", (0.0, 0.0), Vec::new())];
        assert_tidy(&picture.to_svg().unwrap(), &format!("{length} by {width}"));
        assert!(picture.to_png().is_ok());
    }
}

#[test]
fn hostile_text_is_shown_as_text_and_stays_on_the_page() {
    for text in hostile() {
        let mut picture = bank();
        picture.notes = vec![text.clone(); 40];
        for target in [
            &mut picture.title,
            &mut picture.subtitle,
            &mut picture.verdict,
            &mut picture.balls[0].name,
            &mut picture.obstacles[0].name,
            &mut picture.guides[0].label,
            &mut picture.ghosts[0].label,
            &mut picture.marks[0].label,
            &mut picture.spins[0].label,
            &mut picture.table.sights[0].number,
        ] {
            target.clone_from(&text);
        }
        picture.balls[1].name.clone_from(&text);
        picture.marks[1].label.clone_from(&text);
        picture.table.sights[1].number.clone_from(&text);
        let name: String = text.chars().take(30).collect();
        let svg = picture.to_svg().unwrap();
        assert_tidy(&svg, &name);
        assert!(!svg.contains("<script"), "{name}");
        assert!(!words(&svg).contains("NaN"), "{name}");
        assert!(picture.to_png().is_ok(), "{name}");
    }
}
