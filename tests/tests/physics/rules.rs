//! Aiming rules held to geometry and to themselves: what a rule answers is checked by a way of its
//! own in each test (a drawn line, a bisection, a reflected path, finite differences).

use proptest::prelude::*;
use railproof_engine::equipment::{
    Ball, BallContact, Cloth, Cue, Cushion, Equipment, Jaws, RailModel, RailTop, SpokenSpeeds,
    Table,
};
use railproof_engine::rail::{BankGeometry, Line, Pocket, Rail, Reading};
use railproof_engine::rule::{
    NamedRule, Outside, Rule, RuleError, ShiftFrom, StartFunction, WayBetween, ways_table,
};
use railproof_engine::units::INCH_M;
use railproof_engine::vector::Vec2;
use std::sync::Arc;

/// Standard nine-foot dimensions: 100 × 50 in, corner mouth 4.5–4.625 in, sights 3 11/16 in behind
/// the nose (World Pool-Billiard Association, equipment specifications); nose at 63.5 % of the
/// ball's diameter (the same, wording from memory). The rest does not enter a rule.
fn nine_foot() -> Equipment {
    let diameter_m = 2.25 * INCH_M;
    Equipment {
        name: "nine-foot".to_owned(),
        table: Table {
            length_m: 100.0 * INCH_M,
            width_m: 50.0 * INCH_M,
            corner_mouth_m: 4.5625 * INCH_M,
            side_mouth_m: 5.0625 * INCH_M,
            sight_setback_m: 3.6875 * INCH_M,
            jaws: Jaws::USUAL,
            rail_top: RailTop::USUAL,
        },
        ball: Ball { diameter_m, mass_kg: 0.163 },
        cloth: Cloth {
            sliding_friction: 0.2,
            rolling_resistance: 0.0128,
            pivot_deceleration_rad_s2: 10.0,
        },
        cushion: Cushion {
            rail_model: RailModel::NoseAndCloth,
            nose_height_m: 0.635 * diameter_m,
            restitution: 0.95,
            restitution_loss_s_m: 0.02,
            restitution_floor: 0.5,
            nose_friction: 0.15,
            impact_cloth_friction: None,
            checked_speed_m_s: 2.5,
            contact_time_s: 0.01,
        },
        ball_contact: BallContact::USUAL,
        cue: Cue::USUAL,
        speeds: SpokenSpeeds::USUAL,
        gravity_m_s2: 9.806_65,
    }
}

fn banks() -> Vec<BankGeometry> {
    let equipment = nine_foot();
    let mut all = Vec::new();
    for rail in Rail::ALL {
        for pocket in Pocket::ALL {
            all.extend(BankGeometry::new(&equipment, rail, pocket));
        }
    }
    all
}

fn corner() -> BankGeometry {
    BankGeometry::new(&nine_foot(), Rail::Left, Pocket::FootRight).unwrap()
}

/// A smooth function that bends.
struct Bent {
    slope: f64,
    bend: f64,
}

impl StartFunction for Bent {
    fn start(&self, contact: f64) -> Result<f64, String> {
        Ok(self.slope * contact + self.bend * (1.3 * contact).sin())
    }

    fn name(&self) -> &'static str {
        "bent"
    }

    fn source(&self) -> Option<&str> {
        Some("slope * contact + bend * sin(1.3 * contact)")
    }
}

fn reading() -> impl Strategy<Value = Reading> {
    prop_oneof![Just(Reading::Groove), Just(Reading::Sight)]
}

fn shift_from() -> impl Strategy<Value = ShiftFrom> {
    prop_oneof![Just(ShiftFrom::Nearest), Just(ShiftFrom::Lower), Just(ShiftFrom::Upper)]
}

fn between() -> impl Strategy<Value = WayBetween> {
    prop_oneof![
        Just(WayBetween::Interpolate { outside: Outside::Extrapolate }),
        (0.5..3.0, shift_from())
            .prop_map(|(ratio, from)| WayBetween::ProportionalShift { ratio, from }),
        shift_from().prop_map(|from| WayBetween::ParallelShift { from }),
    ]
}

/// Known lines whose contacts and starts both grow.
fn known_lines() -> impl Strategy<Value = Vec<Line>> {
    (0.3..1.0, 0.5..2.0, prop::collection::vec((0.2..1.0, 1.2..3.0), 1..5)).prop_map(
        |(contact, start, steps): (f64, f64, Vec<(f64, f64)>)| {
            let mut lines = vec![Line::new(contact, start)];
            let mut last = lines[0];
            for (step, slope) in steps {
                last = Line::new(last.contact + step, last.start + slope * step);
                lines.push(last);
            }
            lines
        },
    )
}

/// Any kind of rule whose starts grow with its contacts.
fn growing_rule() -> impl Strategy<Value = Rule> {
    prop_oneof![
        (0.3..4.0, -1.0..1.0, reading())
            .prop_map(|(slope, offset, reading)| { Rule::linear(slope, offset, reading).unwrap() }),
        Just(Rule::mirror()),
        (reading(), known_lines(), between())
            .prop_map(|(reading, lines, way)| Rule::lines(reading, lines, way).unwrap()),
        (1.5..3.0, 0.0..0.8, reading()).prop_map(|(slope, bend, reading)| {
            Rule::function(reading, Arc::new(Bent { slope, bend }))
        }),
    ]
}

/// Where a groove line is, `off_rail_m` from the banked groove, drawn between its two ends.
fn drawn_at(line: Line, off_rail_m: f64, geometry: &BankGeometry) -> f64 {
    let contact = Vec2::new(line.contact * geometry.diamond_m, geometry.span_m);
    let start = Vec2::new(line.start * geometry.diamond_m, 0.0);
    let along = start - contact;
    contact.x + along.x * (off_rail_m / -along.y)
}

/// The rule's own formula, on the rule's own numbers.
fn holds_for_linear(line: Line, slope: f64, offset: f64) -> bool {
    (line.start - slope * line.contact - offset).abs() < 1e-12
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(5000))]

    #[test]
    fn readings_round_trip(contact in -2.0..10.0_f64, start in -4.0..20.0_f64) {
        for geometry in banks() {
            let line = Line::new(contact, start);
            let back = line.groove_to_sight(&geometry).sight_to_groove(&geometry);
            prop_assert!((back.contact - contact).abs() < 1e-12);
            prop_assert!((back.start - start).abs() < 1e-12);
            for reading in [Reading::Groove, Reading::Sight] {
                let back = line.read_as(reading, &geometry).groove_from(reading, &geometry);
                prop_assert!((back.contact - contact).abs() < 1e-12);
                prop_assert!((back.start - start).abs() < 1e-12);
            }
        }
    }

    #[test]
    fn the_sight_reading_is_where_the_drawn_line_crosses_the_sights(
        contact in 0.0..6.0_f64,
        start in 0.0..9.0_f64,
    ) {
        for geometry in banks() {
            let line = Line::new(contact, start);
            let read = line.groove_to_sight(&geometry);
            let outside = geometry.sight_setback_m + geometry.groove_m;
            let near_sights = drawn_at(line, -outside, &geometry) / geometry.diamond_m;
            let far_sights = drawn_at(line, geometry.span_m + outside, &geometry) / geometry.diamond_m;
            prop_assert!((read.contact - near_sights).abs() < 1e-12);
            prop_assert!((read.start - far_sights).abs() < 1e-12);
        }
    }

    #[test]
    fn a_sight_rule_in_closed_form_is_what_bisection_finds(
        slope in 0.2..4.0_f64,
        offset in -1.0..1.0_f64,
        contact in 0.1..6.0_f64,
    ) {
        let geometry = corner();
        let rule = Rule::linear(slope, offset, Reading::Sight).unwrap();
        let line = rule.line_for_contact(contact, &geometry).unwrap();
        // Slide a line about its contact until its sight numbers obey the rule.
        let miss = |start: f64| {
            let read = Line::new(contact, start).groove_to_sight(&geometry);
            read.start - slope * read.contact - offset
        };
        let (mut low, mut high) = (-50.0, 80.0);
        prop_assert!(miss(low) < 0.0 && miss(high) > 0.0);
        for _ in 0..200 {
            let middle = 0.5 * (low + high);
            if miss(middle) < 0.0 { low = middle } else { high = middle }
        }
        prop_assert!((line.start - low).abs() < 1e-12, "{} {}", line.start, low);
        prop_assert!((line.contact - contact).abs() < 1e-15);
    }

    #[test]
    fn the_aim_passes_through_the_ball(
        rule in growing_rule(),
        number in 0.3..5.0_f64,
        off_share in 0.0..0.95_f64,
        bank in 0..14_usize,
    ) {
        let geometry = &banks()[bank];
        let off_rail_m = off_share * geometry.span_m;
        let ball = Vec2::new(number * geometry.diamond_m, geometry.span_m - off_rail_m);
        let aim = match rule.aim_from(ball, geometry) {
            Ok(aim) => aim,
            // A function's lines are sought on the rail only.
            Err(RuleError::NoLine { .. }) if matches!(rule, Rule::Function(_)) => {
                return Err(TestCaseError::reject("no line on the rail"));
            }
            Err(other) => return Err(TestCaseError::fail(other.to_string())),
        };
        let drawn = drawn_at(aim.line, off_rail_m, geometry);
        prop_assert!((drawn - ball.x).abs() < 1e-12, "{} m", drawn - ball.x);
        prop_assert!(aim.lines_through_ball >= 1);
        // A frozen ball is its own contact, and no misreading moves it.
        let frozen = Vec2::new(ball.x, geometry.span_m);
        let aim = rule.aim_from(frozen, geometry).unwrap();
        prop_assert!((aim.line.contact - number).abs() < 1e-12);
        prop_assert_eq!(aim.contact_error_gain.to_bits(), 0.0_f64.to_bits());
    }

    #[test]
    fn the_aim_is_a_line_of_the_rule(
        slope in 0.3..4.0_f64,
        offset in -1.0..1.0_f64,
        reading in reading(),
        number in 0.3..5.0_f64,
        off_share in 0.0..0.95_f64,
    ) {
        let geometry = corner();
        let rule = Rule::linear(slope, offset, reading).unwrap();
        let ball =
            Vec2::new(number * geometry.diamond_m, (1.0 - off_share) * geometry.span_m);
        let line = rule.aim_from(ball, &geometry).unwrap().line;
        let own = line.read_as(reading, &geometry);
        prop_assert!(holds_for_linear(own, slope, offset), "{own:?}");
        let again = rule.line_for_contact(line.contact, &geometry).unwrap();
        prop_assert!((again.start - line.start).abs() < 1e-12);
    }

    #[test]
    fn bent_functions_and_interpolated_lines_aim_along_their_own_lines(
        bend in 0.0..0.8_f64,
        reading in reading(),
        lines in known_lines(),
        number in 1.0..4.0_f64,
        off_share in 0.0..0.8_f64,
    ) {
        let geometry = corner();
        let ball = Vec2::new(number * geometry.diamond_m, (1.0 - off_share) * geometry.span_m);
        let extrapolate = WayBetween::Interpolate { outside: Outside::Extrapolate };
        for rule in [
            Rule::function(reading, Arc::new(Bent { slope: 2.0, bend })),
            Rule::lines(reading, lines, extrapolate).unwrap(),
        ] {
            let line = rule.aim_from(ball, &geometry).unwrap().line;
            let again = rule.line_for_contact(line.contact, &geometry).unwrap();
            prop_assert!((again.start - line.start).abs() < 1e-11, "{again:?} {line:?}");
        }
    }

    #[test]
    fn the_inverse_gives_the_contact_back(
        slope in 0.3..4.0_f64,
        offset in -1.0..1.0_f64,
        bend in 0.0..0.8_f64,
        lines in known_lines(),
        reading in reading(),
        contact in 0.5..3.0_f64,
    ) {
        let extrapolate = WayBetween::Interpolate { outside: Outside::Extrapolate };
        for geometry in banks() {
            for rule in [
                Rule::linear(slope, offset, reading).unwrap(),
                Rule::mirror(),
                Rule::lines(reading, lines.clone(), extrapolate).unwrap(),
                Rule::function(reading, Arc::new(Bent { slope: 2.0, bend })),
            ] {
                let start = rule.line_for_contact(contact, &geometry).unwrap().start;
                let back = rule.contact_for_start(start, &geometry).unwrap();
                prop_assert!((back - contact).abs() < 1e-11, "{rule:?} {back} {contact}");
            }
        }
    }

    #[test]
    fn misreading_the_contact_moves_the_hit_as_the_gain_says(
        rule in prop_oneof![
            (0.3..4.0, -1.0..1.0, reading()).prop_map(|(slope, offset, reading)| {
                Rule::linear(slope, offset, reading).unwrap()
            }),
            Just(Rule::mirror()),
            (0.0..0.8, reading()).prop_map(|(bend, reading)| {
                Rule::function(reading, Arc::new(Bent { slope: 2.0, bend }))
            }),
        ],
        number in 1.0..4.0_f64,
        off_share in 0.05..0.8_f64,
    ) {
        let geometry = corner();
        let off_rail_m = off_share * geometry.span_m;
        let ball = Vec2::new(number * geometry.diamond_m, geometry.span_m - off_rail_m);
        let aim = rule.aim_from(ball, &geometry).unwrap();
        let read = aim.line.read_as(rule.reading(), &geometry).contact;
        let outside = match rule.reading() {
            Reading::Groove => 0.0,
            Reading::Sight => geometry.sight_setback_m + geometry.groove_m,
        };
        // The player misreads by δ, finds the rule's start mark for it, and shoots from the mark
        // through the ball; where does that line meet the groove?
        let hit = |misread: f64| {
            let own_start = start_of(&rule, read + misread, &geometry);
            let mark = Vec2::new(own_start * geometry.diamond_m, -outside);
            let travel = ball - mark;
            let met = mark + travel * ((geometry.span_m - mark.y) / travel.y);
            met.x / geometry.diamond_m
        };
        let step = 1e-5;
        let measured = (hit(step) - hit(-step)) / (2.0 * step);
        prop_assert!((hit(0.0) - aim.line.contact).abs() < 1e-10);
        prop_assert!(
            (measured - aim.contact_error_gain).abs() < 1e-7 * (1.0 + measured.abs()),
            "{measured} {}", aim.contact_error_gain
        );
    }

    #[test]
    fn the_mirror_line_reflected_in_the_groove_meets_the_mouths_midpoint(
        contact in 0.3..6.0_f64,
        bank in 0..14_usize,
    ) {
        let geometry = &banks()[bank];
        let line = Rule::mirror().line_for_contact(contact, geometry).unwrap();
        let at_rail = Vec2::new(line.contact * geometry.diamond_m, geometry.span_m);
        let in_from = at_rail - Vec2::new(line.start * geometry.diamond_m, 0.0);
        let out = Vec2::new(in_from.x, -in_from.y);
        let to_mouth = geometry.mouth.midpoint - at_rail;
        // Distance of the midpoint from the reflected path.
        prop_assert!((out.cross(to_mouth) / out.norm()).abs() < 1e-12);
        prop_assert!(out.dot(to_mouth) > 0.0);
    }

    #[test]
    fn a_shift_moves_one_known_line_by_ratio_to_one_in_the_rules_own_numbers(
        lines in known_lines(),
        ratio in 0.5..3.0_f64,
        reading in reading(),
        from in shift_from(),
        number in 0.3..5.0_f64,
        off_share in 0.0..0.95_f64,
    ) {
        let geometry = corner();
        let rule = Rule::lines(
            reading,
            lines.clone(),
            WayBetween::ProportionalShift { ratio, from },
        ).unwrap();
        let ball = Vec2::new(number * geometry.diamond_m, (1.0 - off_share) * geometry.span_m);
        let aim = rule.aim_from(ball, &geometry).unwrap();
        let own = aim.line.read_as(reading, &geometry);
        // The shifts that would bring each known line here.
        let shift_from_known: Vec<f64> = lines
            .iter()
            .filter(|known| {
                let shift = own.contact - known.contact;
                (own.start - known.start - ratio * shift).abs() < 1e-11
            })
            .map(|known| own.contact - known.contact)
            .collect();
        prop_assert!(!shift_from_known.is_empty(), "{own:?} {lines:?}");
        prop_assert_eq!(aim.lines_through_ball, 1);
        if from == ShiftFrom::Nearest {
            // No other known line gets through the ball with a clearly smaller shift.
            let taken = shift_from_known.iter().fold(f64::INFINITY, |a, b| a.min(b.abs()));
            for known in &lines {
                let smaller = taken - 1e-9;
                let passes = |shift: f64| {
                    let moved = Line::new(known.contact + shift, known.start + ratio * shift)
                        .groove_from(reading, &geometry);
                    drawn_at(moved, off_share * geometry.span_m, &geometry) - ball.x
                };
                if smaller > 0.0 {
                    // Growing in the shift: the ball is not between the two smaller shifts.
                    prop_assert!(passes(smaller) < 0.0 || passes(-smaller) > 0.0);
                }
            }
        }
    }
}

/// The rule's start mark for a contact number, both in its own reading, found without the rule's
/// help in reading: through the groove line whose contact reads as asked.
fn start_of(rule: &Rule, own_contact: f64, geometry: &BankGeometry) -> f64 {
    let (mut low, mut high) = (own_contact - 3.0, own_contact + 3.0);
    let read = |groove: f64| {
        rule.line_for_contact(groove, geometry).unwrap().read_as(rule.reading(), geometry)
    };
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if read(middle).contact < own_contact { low = middle } else { high = middle }
    }
    // The bracket's ends straddle the contact by rounding only.
    read(0.5 * (low + high)).start
}

/// Derived from the standard dimensions: groove 1.0832 in inside the nose, so a line spreads by
/// (3.6875 + 1.0832)/(50 − 2·1.0832) = 0.09973 per diamond between its numbers.
#[test]
fn contact_1_5_from_start_3_3_reads_1_32_and_3_48_through_the_sights() {
    let geometry = corner();
    let rule = Rule::linear(2.2, 0.0, Reading::Groove).unwrap();
    let line = rule.line_for_contact(1.5, &geometry).unwrap();
    let read = line.groove_to_sight(&geometry);
    assert!((line.start - 3.3).abs() < 1e-12);
    assert!((read.contact - 1.32).abs() < 0.005, "{read:?}");
    assert!((read.start - 3.48).abs() < 0.005, "{read:?}");
}

/// Common practice, no source.
#[test]
fn the_line_from_groove_4_4_to_groove_2_reads_1_7_to_1_8_and_4_6_to_4_7() {
    let read = Line::new(2.0, 4.4).groove_to_sight(&corner());
    assert!((1.7..=1.8).contains(&read.contact), "{read:?}");
    assert!((4.6..=4.7).contains(&read.start), "{read:?}");
}

/// A line read through the sights and the same line read in the groove are one rule when converted
/// number by number.
#[test]
fn known_lines_interpolate_alike_in_both_readings() {
    let geometry = corner();
    let groove = vec![Line::new(1.0, 2.1), Line::new(1.5, 3.3), Line::new(2.5, 5.6)];
    let sight = groove.iter().map(|line| line.groove_to_sight(&geometry)).collect();
    let between = WayBetween::Interpolate { outside: Outside::Refuse };
    let by_groove = Rule::lines(Reading::Groove, groove, between).unwrap();
    let by_sight = Rule::lines(Reading::Sight, sight, between).unwrap();
    for step in 0..=150 {
        let contact = 1.0 + 0.01 * f64::from(step);
        let a = by_groove.line_for_contact(contact, &geometry).unwrap();
        let b = by_sight.line_for_contact(contact, &geometry).unwrap();
        assert!((a.start - b.start).abs() < 1e-12, "{a:?} {b:?}");
    }
}

/// For lines of an exactly linear rule, interpolation is exact, a shift of the rule's own slope is
/// exact, and a parallel shift errs by (1 − slope) times the distance from the line.
#[test]
fn the_report_of_a_straight_rule_is_known_beforehand() {
    let geometry = corner();
    let lines = [1.0, 2.0, 3.0].map(|c| Line::new(c, 2.2 * c)).to_vec();
    let from = ShiftFrom::Nearest;
    let Rule::Lines(table) =
        Rule::lines(Reading::Groove, lines, WayBetween::ParallelShift { from }).unwrap()
    else {
        panic!("a rule of lines is a rule of lines");
    };
    let contacts: Vec<f64> = (0..=40).map(|step| 0.5 + 0.075 * f64::from(step)).collect();
    let report = ways_table(&table, 2.2, &geometry, &contacts, |c| Some(2.2 * c)).unwrap();
    assert_eq!(report.rows.len(), contacts.len());
    for row in &report.rows {
        assert!(row.proportional.abs() < 1e-12);
        assert!((row.parallel - (1.0 - 2.2) * row.from_line).abs() < 1e-12);
        assert_eq!(row.interpolated.is_some(), (1.0..=3.0).contains(&row.contact));
        assert!(row.interpolated.unwrap_or(0.0).abs() < 1e-12);
    }
}

/// A results file holds everything that is needed to state a rule again.
#[test]
fn rules_are_written_out_for_provenance() {
    let written = |rule: Rule| serde_json::to_value(NamedRule::from(rule)).unwrap();
    assert_eq!(
        written(Rule::linear(2.2, 0.0, Reading::Groove).unwrap()),
        serde_json::json!({
            "name": "2.2 × contact, groove",
            "rule": { "linear": { "slope": 2.2, "offset": 0.0, "reading": "groove" } },
        })
    );
    assert_eq!(written(Rule::mirror())["rule"], "mirror");
    let from = ShiftFrom::Lower;
    let lines = Rule::lines(
        Reading::Sight,
        vec![Line::new(1.5, 3.3)],
        WayBetween::ProportionalShift { ratio: 2.0, from },
    );
    assert_eq!(
        written(lines.unwrap())["rule"]["lines"],
        serde_json::json!({
            "reading": "sight",
            "lines": [{ "contact": 1.5, "start": 3.3 }],
            "way": { "proportional-shift": { "ratio": 2.0, "from": "lower" } },
        })
    );
    let function =
        written(Rule::function(Reading::Sight, Arc::new(Bent { slope: 2.0, bend: 0.0 })));
    assert_eq!(function["name"], "bent, sight");
    assert_eq!(
        function["rule"]["function"]["source"],
        "slope * contact + bend * sin(1.3 * contact)"
    );
}

/// A ball far along the rail, and numbers at the edge of what a float holds, never panic.
#[test]
fn huge_numbers_are_answered_or_refused() {
    let geometry = corner();
    for rule in [
        Rule::linear(1e308, 1e308, Reading::Sight).unwrap(),
        Rule::mirror(),
        Rule::function(Reading::Sight, Arc::new(Bent { slope: 2.0, bend: 0.5 })),
    ] {
        for number in [f64::MAX, -f64::MAX, 1e300, 1e-300, f64::INFINITY, f64::NAN] {
            if let Ok(line) = rule.line_for_contact(number, &geometry) {
                assert!(line.is_finite());
            }
            if let Ok(contact) = rule.contact_for_start(number, &geometry) {
                assert!(contact.is_finite());
            }
            if let Ok(aim) = rule.aim_from(Vec2::new(number, 0.5), &geometry) {
                assert!(aim.line.is_finite() && aim.contact_error_gain.is_finite());
            }
        }
    }
}
