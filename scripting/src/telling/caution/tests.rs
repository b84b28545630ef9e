//! When a caution applies.

use super::{Caution, Cautions, HARD_M_S, LONG_LOAD, STEEP_DEG, of_load};
use crate::record::testing;
use railproof_engine::stroke::{NOTED_HOP_M, Stroke};
use railproof_engine::sweep::{Axis, Input, Plan, Span, Values};
use std::time::Duration;

#[test]
fn the_words_say_the_thresholds() {
    assert!(Caution::Hard.words().contains(&format!("{HARD_M_S} m/s")));
    assert!(Caution::Steep.words().contains(&format!("{STEEP_DEG}°")));
    assert!(Caution::Jump.words().contains(&format!("{} mm", 1e3 * NOTED_HOP_M)));
}

#[test]
fn a_stroke_is_hard_steep_or_a_miscue_from_its_threshold_on() {
    let hall = testing::hall();
    let of = |stroke: Stroke| Cautions::of_stroke(&stroke, &hall.ball, &hall);
    let soft = Stroke::centre(4.999, 0.0);
    assert!(of(soft).is_empty());
    assert_eq!(
        of(Stroke { speed_m_s: 5.0, ..soft }),
        Cautions::default().with(Caution::Hard, true)
    );
    let raised =
        |degrees: f64| Stroke { elevation_rad: degrees.to_radians(), ..Stroke::centre(1.0, 0.0) };
    assert!(of(raised(29.9)).is_empty());
    assert_eq!(of(raised(30.0)), Cautions::default().with(Caution::Steep, true));
    // As steep and hard, a real ball would jump.
    assert_eq!(
        of(Stroke { speed_m_s: 4.0, ..raised(30.0) }),
        Cautions::default().with(Caution::Steep, true).with(Caution::Jump, true)
    );
    let aside = Stroke { side_offset: 0.8, allow_miscue: true, ..soft };
    assert_eq!(of(aside), Cautions::default().with(Caution::Miscue, true));
}

#[test]
fn a_plan_is_hard_when_any_of_its_speeds_is() {
    let hard = |axis: Axis| {
        let mut axes: Vec<Axis> = testing::plan(&[2.0], &[3.0]).axes().to_vec();
        axes.retain(|other| other.input != Input::Speed);
        axes.push(axis);
        !Cautions::of_plan(&Plan::new(axes).unwrap()).is_empty()
    };
    let speeds = |values| hard(Axis { input: Input::Speed, values });
    assert!(!speeds(Values::Numbers(vec![1.0, 4.9])));
    assert!(speeds(Values::Numbers(vec![5.0, 1.0])));
    assert!(!speeds(Values::Range(Span { low: 1.0, high: 4.0 })));
    assert!(speeds(Values::Range(Span { low: 1.0, high: 7.0 })));
    let lag = |lengths| hard(Axis { input: Input::Lag, values: Values::Numbers(vec![lengths]) });
    assert!(!lag(2.0) && lag(60.0));
}

#[test]
fn a_part_of_a_plan_is_hard_by_the_speeds_it_keeps() {
    let plan = testing::plan(&[2.0], &[3.0, 6.0]);
    let at = plan.axes().iter().position(|axis| axis.input == Input::Speed).unwrap();
    let of = |kept: usize| Cautions::of_part(&plan, |axis, place| axis != at || place == kept);
    assert!(of(0).is_empty() && !of(1).is_empty());
}

#[test]
fn only_a_long_load_is_one() {
    assert_eq!(of_load(Duration::from_mins(1), 2), None);
    let said = of_load(LONG_LOAD, 2).unwrap();
    assert!(
        said.contains("2 threads") && said.contains("ventilated") && said.contains("--threads")
    );
}

#[test]
fn in_json_they_are_sentences() {
    let json = serde_json::to_value(Cautions::of_speed(9.0)).unwrap();
    assert_eq!(json, serde_json::json!([Caution::Hard.words()]));
}
