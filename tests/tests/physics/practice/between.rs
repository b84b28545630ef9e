//! A frozen ball midway between the lines of contact 1.5 and 2, shot at 4 m/s along a shifted
//! line. Common practice, no source.

use super::{Case, SLOPE, cases, play};
use railproof_engine::bank::{BankVerdict, Direction, Launch, Outcome};
use railproof_engine::rail::{Line, Reading};
use railproof_engine::rule::{Rule, ShiftFrom, WayBetween};
use railproof_engine::vector::Vec2;

const LOWER: Line = Line::new(1.5, SLOPE * 1.5);
const UPPER: Line = Line::new(2.0, SLOPE * 2.0);

/// Shoots along the line that the two known ones give for the ball.
fn midway(case: &Case, way: WayBetween) -> Outcome {
    let geometry = case.long.geometry();
    let rule = Rule::lines(Reading::Groove, vec![LOWER, UPPER], way).expect("lines in order");
    let number = 0.5 * (LOWER.contact + UPPER.contact);
    let ball = Vec2::new(number * geometry.diamond_m, geometry.span_m);
    let aim = rule.aim_from(ball, geometry).expect("a shifted line passes through the ball");
    play(&case.long, aim.line, Launch::frozen_stun(4.0))
}

/// Robust: short from the lower line, long from the upper, both past the mouth points.
#[test]
fn a_parallel_shift_misses_short_from_the_lower_line_and_long_from_the_upper() {
    for case in cases() {
        let shift = |from| midway(&case, WayBetween::ParallelShift { from }).verdict();
        assert_eq!(shift(ShiftFrom::Lower), BankVerdict::Short, "{}", case.name);
        assert_eq!(shift(ShiftFrom::Upper), BankVerdict::Long, "{}", case.name);
    }
}

/// Robust from the upper line. Not robust from the lower: with the slick nose, whose middle lines
/// run short as it is, the ball touches the short mouth point.
#[test]
fn a_shift_of_two_at_the_far_end_to_one_at_the_near_one_holds() {
    let from_lower = [
        ("nine-foot", BankVerdict::Holds),
        ("cushions/steep-fading", BankVerdict::Holds),
        ("cushions/even-bounce", BankVerdict::Holds),
        ("cushions/grippy-nose", BankVerdict::Holds),
        ("cushions/slick-nose", BankVerdict::TouchesPoint(Direction::Short)),
    ];
    for case in cases() {
        let shift =
            |from| midway(&case, WayBetween::ProportionalShift { ratio: 2.0, from }).verdict();
        assert_eq!(shift(ShiftFrom::Upper), BankVerdict::Holds, "{}", case.name);
        assert_eq!(shift(ShiftFrom::Lower), case.row(&from_lower), "{}", case.name);
    }
}
