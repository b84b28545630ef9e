//! Verdicts that change at an edge.

use super::*;
use crate::record::testing::hall;
use railproof_engine::bank::BankVerdict;
use railproof_engine::equipment::EquipmentNumber;
use railproof_engine::sweep::{Axis, Input, Plan, Values};

/// A bank of the hall at a speed, by a slope.
fn bank(slope: f64) -> MapRecord {
    map("sample", plan(&[2.0], &[3.0]), vec![linear(slope)])
}

fn verdict(map: &MapRecord) -> BankVerdict {
    map.rows[0].outcome.verdict()
}

fn miss_mm(map: &MapRecord) -> f64 {
    1e3 * map.rows[0].outcome.miss_m().unwrap()
}

/// Two slopes on either side of an edge whose misses lie so far apart at most, mm.
fn across(from: f64, to: f64, apart_mm: f64) -> (MapRecord, MapRecord) {
    let (mut low, mut high) = (bank(from), bank(to));
    let (mut a, mut b) = (from, to);
    assert_ne!(verdict(&low), verdict(&high));
    while (miss_mm(&low) - miss_mm(&high)).abs() > apart_mm {
        let middle = bank(f64::midpoint(a, b));
        if verdict(&middle) == verdict(&low) {
            (a, low) = (f64::midpoint(a, b), middle);
        } else {
            (b, high) = (f64::midpoint(a, b), middle);
        }
    }
    (low, high)
}

fn report(stored: &MapRecord, now: &MapRecord, within_mm: f64) -> BaselineReport {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sample.baseline");
    store(stored, &path);
    held(now, &path, within_mm, false)
}

#[test]
fn a_verdict_that_changes_at_an_edge_is_a_warning_from_either_side() {
    // From holding to touching, and from touching to passing.
    let holds = bank(2.2);
    let mut edges = Vec::new();
    for slope in (0..400).map(|step| 2.2 + 0.005 * f64::from(step)) {
        let (one, other) = (bank(slope), bank(slope + 0.005));
        if verdict(&one) != verdict(&other) {
            edges.push((slope, slope + 0.005));
        }
    }
    assert!(edges.len() >= 2, "{:?}", verdict(&holds));
    for (from, to) in edges.into_iter().take(2) {
        let (low, high) = across(from, to, 0.2);
        for (stored, now) in [(&low, &high), (&high, &low)] {
            let near = report(stored, now, 0.3);
            assert_eq!(near.moved, Vec::<String>::new(), "{near:#?}");
            assert!(near.warnings[0].contains("within 0.5 mm of an edge"), "{near:#?}");
            assert!(near.warnings[1].ends_with(" mm from the edge"), "{near:#?}");
            // A miss that moved by more than the tolerance fails with its verdict.
            let strict = report(stored, now, 0.0);
            assert!(strict.moved.iter().any(|it| it.contains("verdict changed")), "{strict:#?}");
            assert_eq!(strict.warnings, Vec::<String>::new());
        }
        // Beyond the band it fails, however wide the tolerance.
        let (low, high) = (bank(from - 0.05), bank(to + 0.05));
        if verdict(&low) != verdict(&high) {
            let far = report(&low, &high, 1e6);
            assert!(far.moved.iter().any(|it| it.contains("verdict changed")), "{far:#?}");
        }
    }
}

/// A wider mouth moves the edge and no ball: the room to the point decides.
#[test]
fn where_the_mouth_moved_the_room_to_the_point_decides() {
    let on = |mouth_m: f64| {
        let mut table = hall();
        EquipmentNumber::named("corner_mouth").unwrap().set(&mut table, mouth_m);
        let mut axes = plan(&[2.0], &[3.0]).axes().to_vec();
        axes.retain(|axis| axis.input != Input::Equipment);
        axes.insert(0, Axis { input: Input::Equipment, values: Values::Equipment(vec![table]) });
        map("sample", Plan::new(axes).unwrap(), vec![linear(2.24)])
    };
    let clearance = |map: &MapRecord| 1e3 * map.rows[0].outcome.clearance_m().unwrap();
    // A mouth at which the ball just touches.
    let (mut narrow, mut wide) = (0.07, 0.15);
    let rooms = (clearance(&on(narrow)), clearance(&on(wide)));
    assert!(rooms.0 < 0.0 && rooms.1 > 0.0, "{rooms:?}");
    for _ in 0..40 {
        let middle = f64::midpoint(narrow, wide);
        if clearance(&on(middle)) < 0.0 { narrow = middle } else { wide = middle }
    }
    let near = report(&on(narrow - 0.0002), &on(wide + 0.0002), 1e3);
    assert_eq!((near.moved.len(), near.warnings.len()), (0, 2), "{near:#?}");
    assert!(near.notes[0].starts_with("the table's corner mouth was"), "{near:#?}");
    let far = report(&on(narrow - 0.0002), &on(wide + 0.01), 1e3);
    assert!(far.moved.iter().any(|it| it == "1 verdict changed:"), "{far:#?}");
    assert_eq!(far.warnings, Vec::<String>::new());
}

/// A ball that comes as it did and is judged otherwise is at no edge, whatever the two verdicts.
#[test]
fn another_verdict_on_the_same_way_fails() {
    let words = ["holds", "touches-long-point", "touches-short-point", "long", "short"];
    // One that holds with room, one that touches and one that passes.
    for slope in [2.2, 2.27, 2.6] {
        let now = bank(slope);
        let own = verdict(&now).name();
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("sample.baseline");
        store(&now, &path);
        let stored = fs::read_to_string(&path).unwrap();
        assert!(stored.contains(&format!("\t{own}\t")), "{stored}");
        for other in words.into_iter().filter(|other| *other != own) {
            let forged = stored.replace(&format!("\t{own}\t"), &format!("\t{other}\t"));
            fs::write(&path, forged).unwrap();
            let report = held(&now, &path, 0.5, false);
            assert_eq!(report.warnings, Vec::<String>::new(), "{other} for {own}: {report:#?}");
            assert!(report.moved.iter().any(|it| it == "1 verdict changed:"), "{report:#?}");
        }
    }
}
