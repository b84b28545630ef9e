//! The picture of a played layout.

use super::{BANK, good, read};
use railproof::command::shot::write_picture;
use railproof::picture::{MarkKind, TrackEnd, TrackPath};
use railproof::playing::PlayedShot;
use std::path::Path;

#[test]
fn the_picture_shows_what_the_shot_did() {
    let text = format!(
        "{BANK}obstacles:\n  box: {{middle: [-60 cm, 20 cm], length: 20 cm, width: 10 cm, turned: 15 deg}}\n"
    );
    let layout = good(&text);
    let played = PlayedShot::new(&layout).expect("it plays");
    let picture = played.picture(true);
    assert_eq!(picture.balls.len(), 2);
    assert!(picture.balls[0].is_cue && !picture.balls[1].is_cue);
    for (ball, track) in picture.balls.iter().enumerate() {
        let pieces = played.shot.pieces(ball);
        assert_eq!(track.pieces.len(), pieces.len());
        for (drawn, piece) in track.pieces.iter().zip(&pieces) {
            let [from, control, to] = piece.curve().map(|at| (at.x, at.y));
            assert_eq!((drawn.path.from(), drawn.path.to()), (from, to));
            if let TrackPath::Parabola { control: ours, .. } = drawn.path {
                assert_eq!(ours, control);
            }
        }
        assert_eq!(track.end, TrackEnd::Rest);
    }
    let hits = picture.marks.iter().filter(|it| matches!(it.kind, MarkKind::BallHit)).count();
    let balls = played.shot.events.iter().filter(|it| it.kind.name() == "ball").count();
    assert_eq!(hits, balls);
    // The nose is touched where the groove's distance square to the rail leads to it.
    let groove = layout.equipment.groove_m();
    for mark in &picture.marks {
        if let MarkKind::Rail { nose, .. } = mark.kind {
            assert!(((nose.0 - mark.at.0).hypot(nose.1 - mark.at.1) - groove).abs() < 1e-9);
        }
    }
    assert!(
        picture.marks.iter().any(|it| it.label.starts_with("1.9") || it.label.starts_with('2'))
    );
    assert_eq!((picture.ghosts.len(), picture.guides.len(), picture.obstacles.len()), (1, 1, 1));
    assert_eq!(
        picture.guides[0].labels,
        ["start 4.4 (diamonds 4.64)", "contact 2 (diamonds 1.76)"]
    );
    // A sentence begins with a capital letter, whatever the ball is called.
    let told = played.target_sentence().expect("it has a target");
    assert_eq!(picture.verdict, format!("T{}", &told[1..]));
    assert_eq!(picture.title, picture.verdict);
    assert!(picture.spins.iter().any(|it| it.label == "object off the rail"));
    let svg = picture.to_svg().expect("it can be drawn");
    roxmltree::Document::parse(&svg).expect("it is XML");
    assert!(svg.contains("Object for the foot-right pocket"));
}

#[test]
fn a_layout_says_title_and_look_of_its_picture() {
    let picture = |more: &str| {
        let layout = good(&format!("{BANK}{more}"));
        PlayedShot::new(&layout).expect("it plays").picture(false)
    };
    let (plain, own) = (
        picture(""),
        picture("title: Week 4\nsubtitle: slow and straight\nlegend: no\nsize: small\n"),
    );
    assert_eq!((own.title.as_str(), own.subtitle.as_str()), ("Week 4", "slow and straight"));
    let width = |picture: &railproof::picture::TablePicture| {
        let svg = picture.to_svg().unwrap();
        let document = roxmltree::Document::parse(&svg).unwrap();
        let words: String = document.descendants().filter_map(|node| node.text()).collect();
        (document.root_element().attribute("width").unwrap().parse::<f64>().unwrap(), words)
    };
    let ((_, explained), (small, bare)) = (width(&plain), width(&own));
    let (whole, _) = width(&picture("title: Week 4\nlegend: no\n"));
    assert!((small / whole - 0.6).abs() < 0.01, "{small} of {whole}");
    assert!(explained.contains("target pocket") && !bare.contains("target pocket"));
    for (wrong, place) in [
        ("size: huge", "size"),
        ("legend: maybe", "legend"),
        ("title: [1]", "title"),
        ("subtitle: {a: b}", "subtitle"),
    ] {
        let fault = read(&format!("{BANK}{wrong}\n")).unwrap_err();
        let told = fault.to_string();
        assert!(fault.place.is_some() && told.contains(place), "{told}");
    }
}

#[test]
fn the_picture_is_written_beside_what_is_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let layout = good(BANK);
    let picture = PlayedShot::new(&layout).expect("it plays").picture(true);
    let into = folder.path().join("out");
    let written = write_picture(&picture, Path::new("lessons/first bank.yaml"), &into)
        .expect("it can be written");
    let names: Vec<_> = written.iter().filter_map(|path| path.file_name()).collect();
    assert_eq!(names, ["first bank.svg", "first bank.png"]);
    for path in &written {
        assert!(std::fs::metadata(path).expect("it is there").len() > 1000);
    }
    let again = write_picture(&picture, Path::new("first bank.yaml"), &into)
        .expect("it can be written again");
    assert_eq!(again, written);
}

/// The line that is aimed along, and not the one on which a ball lies; the key tells what is seen.
#[test]
fn the_line_of_the_aim_is_drawn() {
    let with = |start: &str| {
        good(&format!(
            "equipment: nine-foot\ntarget: {{pocket: foot-right, ball: object}}\nballs:\n  \
             object: {{on_line: {{contact: 2, start: 4.4}}, off_rail: 2 in}}\n  \
             cue: {{behind: object, heading: {{line: {{contact: 2, start: 4.4}}}}, gap: 12 in}}\n\
             stroke: {{speed: 4 m/s, ghost: {{ball: object, heading: {{line: {{contact: 2, start: {start}}}}}}}}}\n"
        ))
    };
    for start in ["4.4", "4"] {
        let layout = with(start);
        let picture = PlayedShot::new(&layout).expect("it plays").picture(false);
        let [guide] = picture.guides.as_slice() else { panic!("{:?}", picture.guides) };
        assert!(guide.labels[0].starts_with(&format!("start {start} (")), "{:?}", guide.labels);
    }
    let layout = with("4.4");
    let picture = PlayedShot::new(&layout).expect("it plays").picture(false);
    let svg = picture.to_svg().expect("it can be drawn");
    assert!(svg.contains(">object ball<") && !svg.contains("other ball"));
}
