//! Rules at single points; the cross-checks over many are in the tests crate.

use super::*;
use crate::rail::testing::nine_foot;
use crate::rail::{Pocket, Rail};
use crate::vector::Vec2;

fn corner() -> BankGeometry {
    BankGeometry::new(&nine_foot(), Rail::Left, Pocket::FootRight).unwrap()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-12
}

struct Closure<F>(F);

impl<F: Fn(f64) -> Result<f64, String> + Send + Sync> StartFunction for Closure<F> {
    fn start(&self, contact: f64) -> Result<f64, String> {
        (self.0)(contact)
    }

    fn name(&self) -> &'static str {
        "closure"
    }
}

fn function<F>(f: F) -> Rule
where
    F: Fn(f64) -> Result<f64, String> + Send + Sync + 'static,
{
    Rule::function(Reading::Groove, Arc::new(Closure(f)))
}

fn ladder(way: WayBetween) -> Rule {
    let lines = vec![Line::new(1.0, 2.0), Line::new(2.0, 4.5), Line::new(3.0, 6.5)];
    Rule::lines(Reading::Groove, lines, way).unwrap()
}

fn ball(number: f64, off_rail_diamonds: f64, geometry: &BankGeometry) -> Vec2 {
    let diamond = geometry.diamond_m;
    Vec2::new(number * diamond, geometry.span_m - off_rail_diamonds * diamond)
}

const INTERPOLATE: WayBetween = WayBetween::Interpolate { outside: Outside::Refuse };
const EXTRAPOLATE: WayBetween = WayBetween::Interpolate { outside: Outside::Extrapolate };

#[test]
fn rules_are_named_in_words() {
    let linear = |slope, offset, reading| Rule::linear(slope, offset, reading).unwrap().name();
    assert_eq!(linear(2.2, 0.0, Reading::Groove), "2.2 × contact, groove");
    assert_eq!(linear(2.0, 1.0 / 3.0, Reading::Groove), "twice the contact plus 0.333, groove");
    assert_eq!(linear(1.0, -0.25, Reading::Sight), "the contact minus 0.25, sight");
    assert_eq!(linear(0.0, 3.0, Reading::Sight), "start always 3, sight");
    assert_eq!(Rule::mirror().name(), "mirror geometry");
    assert_eq!(ladder(INTERPOLATE).name(), "3 lines, interpolated, groove");
    let from = ShiftFrom::Upper;
    assert_eq!(
        ladder(WayBetween::ProportionalShift { ratio: 2.0, from }).name(),
        "3 lines, shifted 2 to 1 from the upper, groove"
    );
    assert_eq!(
        ladder(WayBetween::ParallelShift { from }).name(),
        "3 lines, shifted parallel from the upper, groove"
    );
    assert_eq!(NamedRule::new(Some("ours".to_owned()), Rule::mirror()).name, "ours");
    assert_eq!(NamedRule::from(Rule::mirror()).name, "mirror geometry");
}

#[test]
fn what_makes_no_rule_is_refused() {
    assert!(matches!(
        Rule::linear(f64::NAN, 0.0, Reading::Groove),
        Err(RuleError::NotFinite { what: "slope", .. })
    ));
    let build = |lines, way| Rule::lines(Reading::Groove, lines, way).unwrap_err();
    let one = vec![Line::new(1.0, 2.0)];
    assert_eq!(build(one.clone(), INTERPOLATE), RuleError::TooFewLines { given: 1, needed: 2 });
    let from = ShiftFrom::Nearest;
    assert_eq!(
        build(Vec::new(), WayBetween::ParallelShift { from }),
        RuleError::TooFewLines { given: 0, needed: 1 }
    );
    assert!(matches!(
        build(one, WayBetween::ProportionalShift { ratio: f64::INFINITY, from }),
        RuleError::NotFinite { what: "shift ratio", .. }
    ));
    let twice = vec![Line::new(1.0, 2.0), Line::new(2.0, 4.0), Line::new(2.0, 5.0)];
    assert_eq!(
        build(twice, INTERPOLATE),
        RuleError::LinesOutOfOrder { position: 3, contact: 2.0, before: 2.0 }
    );
    let unknown = vec![Line::new(1.0, f64::NAN), Line::new(2.0, 4.0)];
    assert!(matches!(build(unknown, INTERPOLATE), RuleError::NotFinite { .. }));
}

#[test]
fn a_linear_rule_in_the_groove_is_its_own_formula() {
    let geometry = corner();
    let rule = Rule::linear(2.2, 0.0, Reading::Groove).unwrap();
    assert_eq!(rule.line_for_contact(1.5, &geometry), Ok(Line::new(1.5, 2.2 * 1.5)));
    let offset = Rule::linear(2.0, 1.0 / 3.0, Reading::Groove).unwrap();
    assert_eq!(offset.line_for_contact(2.0, &geometry), Ok(Line::new(2.0, 1.0 / 3.0 + 4.0)));
    assert!(near(offset.contact_for_start(13.0 / 3.0, &geometry).unwrap(), 2.0));
}

#[test]
fn a_sight_rule_whose_lines_cross_in_the_groove_is_refused() {
    let geometry = corner();
    let outside = geometry.read_outside_m(Reading::Sight);
    let slope = -1.0 - geometry.span_m / outside;
    let rule = Rule::linear(slope, 1.0, Reading::Sight).unwrap();
    let refused = rule.line_for_contact(2.0, &geometry);
    assert!(matches!(refused, Err(RuleError::LinesMeet { sought: RuleQuery::Contact(_), .. })));
    // A little off that slope there is a line again, and it is what it says.
    let rule = Rule::linear(slope + 0.5, 1.0, Reading::Sight).unwrap();
    let line = rule.line_for_contact(2.0, &geometry).unwrap().groove_to_sight(&geometry);
    assert!((line.start - ((slope + 0.5) * line.contact + 1.0)).abs() < 1e-9);
}

#[test]
fn one_start_for_every_contact_has_no_inverse() {
    let rule = Rule::linear(0.0, 4.0, Reading::Groove).unwrap();
    let refused = rule.contact_for_start(4.0, &corner());
    assert!(matches!(refused, Err(RuleError::LinesMeet { sought: RuleQuery::Start(_), .. })));
}

#[test]
fn interpolation_meets_its_lines_and_blends_between_them() {
    let geometry = corner();
    let rule = ladder(INTERPOLATE);
    let start = |contact| rule.line_for_contact(contact, &geometry).map(|line| line.start);
    assert_eq!(start(1.0), Ok(2.0));
    assert_eq!(start(2.0), Ok(4.5));
    assert_eq!(start(3.0), Ok(6.5));
    assert!(near(start(1.5).unwrap(), 3.25));
    assert!(near(start(2.25).unwrap(), 5.0));
    assert!(near(rule.contact_for_start(5.0, &geometry).unwrap(), 2.25));
    for outside in [0.99, 3.01] {
        let refused = start(outside);
        assert!(
            matches!(refused, Err(RuleError::OutsideLines { first, last, .. })
                if near(first, 1.0) && near(last, 3.0)),
            "{refused:?}"
        );
    }
    let further = ladder(EXTRAPOLATE);
    let start = |contact| further.line_for_contact(contact, &geometry).unwrap().start;
    assert!(near(start(0.0), -0.5));
    assert!(near(start(4.0), 8.5));
}

#[test]
fn starts_that_turn_back_leave_the_inverse_ambiguous() {
    let lines = vec![Line::new(1.0, 2.0), Line::new(2.0, 4.0), Line::new(3.0, 3.0)];
    let rule = Rule::lines(Reading::Groove, lines, INTERPOLATE).unwrap();
    match rule.contact_for_start(3.5, &corner()) {
        Err(RuleError::SeveralLines { contacts, .. }) => {
            assert!(contacts.len() == 2 && near(contacts[0], 1.75) && near(contacts[1], 2.5));
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn shifts_move_the_chosen_line() {
    let geometry = corner();
    let start = |ratio, from, contact| {
        let rule = ladder(WayBetween::ProportionalShift { ratio, from });
        rule.line_for_contact(contact, &geometry).unwrap().start
    };
    // start = sᵢ + ratio·(contact − cᵢ)
    assert!(near(start(2.0, ShiftFrom::Nearest, 1.25), 2.0 + 2.0 * 0.25));
    assert!(near(start(2.0, ShiftFrom::Nearest, 1.75), 4.5 - 2.0 * 0.25));
    assert!(near(start(2.0, ShiftFrom::Lower, 1.75), 2.0 + 2.0 * 0.75));
    assert!(near(start(2.0, ShiftFrom::Upper, 1.25), 4.5 - 2.0 * 0.75));
    // Of two alike the lower; past the ends the line there; at a known line that line.
    assert!(near(start(2.0, ShiftFrom::Nearest, 1.5), 3.0));
    assert!(near(start(2.0, ShiftFrom::Lower, 0.5), 1.0));
    assert!(near(start(2.0, ShiftFrom::Upper, 3.5), 7.5));
    for from in [ShiftFrom::Nearest, ShiftFrom::Lower, ShiftFrom::Upper] {
        assert!(near(start(2.0, from, 2.0), 4.5));
        let parallel = ladder(WayBetween::ParallelShift { from });
        let line = parallel.line_for_contact(2.2, &geometry).unwrap();
        assert!(near(line.start, start(1.0, from, 2.2)));
    }
}

#[test]
fn a_known_line_is_found_again_from_any_ball_on_it() {
    // Rounding must not make the line next to it the lower or upper one.
    let geometry = corner();
    for from in [ShiftFrom::Nearest, ShiftFrom::Lower, ShiftFrom::Upper] {
        let rule = ladder(WayBetween::ParallelShift { from });
        for step in 0..37 {
            let off = 0.1 * f64::from(step);
            let share = off * geometry.diamond_m / geometry.span_m;
            let place = ball(2.0 + share * 2.5, off, &geometry);
            let line = rule.aim_from(place, &geometry).unwrap().line;
            assert!((line.contact - 2.0).abs() < 1e-9, "{from:?} {off} {line:?}");
        }
    }
}

#[test]
fn a_ball_on_the_last_known_line_is_not_outside() {
    let geometry = corner();
    let rule = ladder(INTERPOLATE);
    for step in 0..37 {
        let off = 0.1 * f64::from(step);
        let share = off * geometry.diamond_m / geometry.span_m;
        let aim = rule.aim_from(ball(3.0 + share * 3.5, off, &geometry), &geometry).unwrap();
        assert!(near(aim.line.contact, 3.0) && near(aim.line.start, 6.5));
    }
}

#[test]
fn a_ball_outside_the_grooves_is_refused() {
    let geometry = corner();
    let rule = Rule::mirror();
    for y in [-0.001, 0.0, geometry.span_m + 0.001] {
        let refused = rule.aim_from(Vec2::new(0.5, y), &geometry);
        assert!(matches!(refused, Err(RuleError::BallOutside { .. })), "{y}");
    }
    let nowhere = rule.aim_from(Vec2::new(f64::NAN, 0.5), &geometry);
    assert!(matches!(nowhere, Err(RuleError::NotFinite { .. })));
}

#[test]
fn functions_answer_for_their_errors() {
    let geometry = corner();
    let broken = function(|_| Err("no such line".to_owned()));
    assert!(matches!(
        broken.line_for_contact(2.0, &geometry),
        Err(RuleError::FunctionFailed { message, .. }) if message == "no such line"
    ));
    assert!(matches!(
        broken.contact_for_start(2.0, &geometry),
        Err(RuleError::FunctionFailed { .. })
    ));
    let lost = function(|_| Ok(f64::NAN));
    assert!(matches!(
        lost.line_for_contact(2.0, &geometry),
        Err(RuleError::FunctionNotFinite { contact, .. }) if near(contact, 2.0)
    ));
    // It fails on a part of the rail only: elsewhere it answers.
    let partial = function(|c| if c < 1.0 { Err("too low".to_owned()) } else { Ok(2.0 * c) });
    assert!(near(partial.contact_for_start(5.0, &geometry).unwrap(), 2.5));
    assert!(matches!(
        partial.contact_for_start(1.5, &geometry),
        Err(RuleError::FunctionFailed { .. })
    ));
}

#[test]
fn functions_tell_none_from_several_and_a_jump_from_a_line() {
    let geometry = corner();
    let arch = function(|c| Ok(5.0 - (c - 3.0) * (c - 3.0)));
    match arch.contact_for_start(4.0, &geometry) {
        Err(RuleError::SeveralLines { contacts, .. }) => {
            assert!(contacts.len() == 2 && near(contacts[0], 2.0) && near(contacts[1], 4.0));
        }
        other => panic!("{other:?}"),
    }
    assert!(matches!(arch.contact_for_start(5.5, &geometry), Err(RuleError::NoLine { .. })));
    let jump = function(|c| Ok(if c < 2.0 { 1.0 + c } else { 3.0 + c }));
    assert!(matches!(jump.contact_for_start(4.0, &geometry), Err(RuleError::NoLine { .. })));
    assert!(near(jump.contact_for_start(2.5, &geometry).unwrap(), 1.5));
}

#[test]
fn of_several_lines_the_ball_takes_the_one_nearest_its_foot() {
    let geometry = corner();
    // Start turns back steeply, so far off the rail three lines pass through one ball.
    let rule = function(|c| Ok(4.0 + 6.0 * libm::sin(3.0 * c)));
    let aim = rule.aim_from(ball(3.1, 2.0, &geometry), &geometry).unwrap();
    assert!(aim.lines_through_ball > 1, "{aim:?}");
    let share = 2.0 * geometry.diamond_m / geometry.span_m;
    // A walk over contacts in fine steps sees no crossing nearer to the foot.
    let miss = |c: f64| c + share * (4.0 + 6.0 * libm::sin(3.0 * c) - c) - 3.1;
    let nearest = (0..80_000)
        .map(|step| (1e-4 * f64::from(step), 1e-4 * f64::from(step + 1)))
        .filter(|(a, b)| (miss(*a) > 0.0) != (miss(*b) > 0.0))
        .min_by(|(a, _), (b, _)| (a - 3.1).abs().total_cmp(&(b - 3.1).abs()))
        .unwrap();
    assert!(nearest.0 <= aim.line.contact && aim.line.contact <= nearest.1, "{nearest:?} {aim:?}");
}

#[test]
fn the_slope_of_a_function_survives_the_end_of_its_range() {
    for (low, high) in [(0.0, 8.0), (2.0, 8.0), (0.0, 2.0)] {
        let cube = FunctionRule::new(
            Reading::Groove,
            Arc::new(Closure(move |c: f64| {
                if c < low || c > high {
                    Err("outside".to_owned())
                } else {
                    Ok(0.2 * c * c * c + c)
                }
            })),
        );
        // 0.6·c² + 1 at 2; a one-sided difference is off by h²·f‴/3 = 4e-7.
        let slope = cube.slope_at(2.0).unwrap();
        assert!((slope - 3.4).abs() < 5e-7, "{slope}");
    }
}

#[test]
fn the_report_has_each_ways_error() {
    let geometry = corner();
    let Rule::Lines(table) = ladder(INTERPOLATE) else { unreachable!() };
    let exact = |contact: f64| (contact < 3.9).then_some(2.2 * contact);
    let contacts = [0.5, 1.0, 1.25, 1.75, 3.5, 4.0];
    let report = ways_table(&table, 2.0, &geometry, &contacts, exact).unwrap();
    assert_eq!(report.without_exact, vec![4.0]);
    let expected = [
        // contact, from line, interpolated, proportional, parallel
        (0.5, -0.5, None, 1.0 - 1.1, 1.5 - 1.1),
        (1.0, 0.0, Some(-0.2), -0.2, -0.2),
        (1.25, 0.25, Some(2.625 - 2.75), 2.5 - 2.75, 2.25 - 2.75),
        (1.75, -0.25, Some(3.875 - 3.85), 4.0 - 3.85, 4.25 - 3.85),
        (3.5, 0.5, None, 7.5 - 7.7, 7.0 - 7.7),
    ];
    assert_eq!(report.rows.len(), expected.len());
    for (row, (contact, from_line, interpolated, proportional, parallel)) in
        report.rows.iter().zip(expected)
    {
        assert!(near(row.contact, contact) && near(row.from_line, from_line));
        assert_eq!(row.interpolated.is_some(), interpolated.is_some());
        assert!(near(row.interpolated.unwrap_or(0.0), interpolated.unwrap_or(0.0)), "{row:?}");
        assert!(near(row.proportional, proportional) && near(row.parallel, parallel), "{row:?}");
    }
    let (interpolated, proportional, parallel) = report.worst();
    assert!(near(interpolated, 0.2) && near(proportional, 0.25) && near(parallel, 0.7));
}

#[test]
fn lines_of_a_linear_rule_meet_in_its_spot_and_aiming_at_it_is_the_rule() {
    let geometry = corner();
    for (slope, offset) in [(2.2, 0.0), (2.0, 0.5), (2.5, -0.3), (1.8, 0.1)] {
        let spot = AimSpot::of(slope, offset, &geometry).expect("a spot");
        // By similar triangles about the contact: from start to contact across W, and on by h.
        for contact in [0.5, 1.0, 2.7, 4.0] {
            let start = slope * contact + offset;
            let on = contact + (contact - start) * spot.behind_m / geometry.span_m;
            assert!((on - spot.number).abs() < 1e-12, "{slope} {offset} {contact}: {on}");
        }
        let again = spot.rule(&geometry).expect("finite");
        let line = again.line_for_contact(2.0, &geometry).expect("a line");
        assert!((line.start - (slope * 2.0 + offset)).abs() < 1e-12);
    }
    assert_eq!(AimSpot::of(1.0, 0.0, &geometry), None);
    // 2.2: five sixths of the table's width behind the groove.
    let spot = AimSpot::of(2.2, 0.0, &geometry).expect("a spot");
    assert!((spot.behind_m - geometry.span_m / 1.2).abs() < 1e-12);
}
