//! Every row is what its point's number alone says: of samples, point by point; of grids, as the
//! comparison in memory has it.

use super::support::{Recipe, play_all, rows_of};
use parquet::record::Field;
use railproof::files::RealDisk;
use railproof::plan::{Keep, SweepPlan};
use railproof_engine::sample::Sampling;
use railproof_engine::sweep::{Input, PlanCursor, PlayedRows, Player, Row, Values, compare};
use std::collections::BTreeMap;
use std::sync::atomic::AtomicBool;

type Fields = BTreeMap<String, Field>;

fn swept(recipe: &Recipe) -> (SweepPlan, Vec<Fields>) {
    let planned = recipe.placed();
    let out = planned.place.path("out");
    play_all(&planned.plan, &out, &RealDisk).unwrap();
    (planned.plan, rows_of(&out))
}

/// The bits of a number; nothing when it is absent.
fn bits(row: &Fields, column: &str) -> Option<u64> {
    match &row[column] {
        Field::Double(number) => Some(number.to_bits()),
        Field::Null => None,
        other => panic!("{column} holds {other}"),
    }
}

fn there(number: f64) -> Option<u64> {
    number.is_finite().then_some(number.to_bits())
}

fn sampled(how: &str, seed: u64) -> Recipe {
    let banks = format!(
        r#"sample {{ equipment = {{ equipment "nine-foot", equipment "harbour-hall" }}, how = "{how}", seed = {seed},
  points = 600, contact = from_to(0.5, 4), off_rail = from_to(inches(0), inches(30)),
  speed = from_to(mps(0.4), mps(7)), roll = from_to(-0.5, 1), running_side = {{ -0.1, 0, 0.1 }} }}"#
    );
    Recipe { banks, shard_points: 64, ..Recipe::with_failures() }
}

/// The row of a point agrees with that point played alone.
fn check_alone(plan: &SweepPlan, point: u64, rows: &[Fields]) {
    let mut player = Player::new(plan.banks().unwrap(), plan.rules(), plan.keep.wanted()).unwrap();
    let mut alone = PlayedRows::default();
    assert!(player.play(point..point + 1, &mut alone, &AtomicBool::new(false)));
    let walk = PlanCursor::from(plan.banks().unwrap(), point);
    assert_eq!(alone.len(), rows.len());
    for (at, row) in rows.iter().enumerate() {
        assert_eq!(row["point"], Field::Long(point.cast_signed()));
        assert_eq!(row["rule"], Field::Str(plan.rules()[at].name.clone()));
        let failed = alone.failures.iter().any(|failure| failure.row == at);
        let verdict = if failed { "failed" } else { alone.outcomes.verdict[at].name() };
        assert_eq!(row["verdict"], Field::Str(verdict.to_owned()), "point {point}");
        let (inputs, outcomes) = (&alone.inputs, &alone.outcomes);
        let columns = [
            ("contact_diamonds", inputs.contact[at]),
            ("start_diamonds", inputs.start[at]),
            ("off_rail_m", inputs.off_rail_m[at]),
            ("speed_m_s", inputs.speed_m_s[at]),
            ("running_side", inputs.side[at]),
            ("miss_m", outcomes.miss_m[at]),
            ("clearance_long_m", outcomes.clearance_long_m[at]),
            ("clearance_short_m", outcomes.clearance_short_m[at]),
            ("at_rail_speed_m_s", outcomes.speed_at_rail_m_s[at]),
            ("departure_diamonds", outcomes.departure[at]),
            ("rebound_angle_rad", outcomes.rebound_angle_rad[at]),
            ("rebound_restitution", outcomes.restitution[at]),
            ("arrival_speed_m_s", outcomes.arrival_speed_m_s[at]),
        ];
        for (column, number) in columns {
            assert_eq!(bits(row, column), there(number), "{column} of point {point}");
        }
        for (column, input) in [
            ("contact_diamonds", Input::Contact),
            ("off_rail_m", Input::OffRail),
            ("speed_m_s", Input::Speed),
        ] {
            let number = walk.values().number(plan.banks().unwrap(), input).unwrap();
            assert_eq!(bits(row, column), Some(number.to_bits()), "{column} of point {point}");
        }
    }
}

#[test]
fn every_point_of_a_sample_can_be_computed_alone() {
    for how in Sampling::ALL {
        let (plan, rows) = swept(&sampled(how.name(), 7));
        assert_eq!(plan.banks().unwrap().sample().map(|sample| sample.how), Some(how));
        assert_eq!(rows.len(), 1_200);
        // From the last to the first: nothing is carried from one to the next.
        for (point, rows) in rows.chunks(2).enumerate().rev() {
            check_alone(&plan, point as u64, rows);
        }
    }
}

#[test]
fn sampled_values_lie_in_their_ranges_and_fill_them() {
    for how in Sampling::ALL {
        let (plan, rows) = swept(&sampled(how.name(), 3));
        for (column, input) in [
            ("contact_diamonds", Input::Contact),
            ("off_rail_m", Input::OffRail),
            ("speed_m_s", Input::Speed),
            ("roll", Input::Roll),
        ] {
            let Values::Range(range) = plan.banks().unwrap().axis(input).unwrap().values else {
                panic!("{column} is no range")
            };
            let mut tenths = [0; 10];
            for row in rows.iter().step_by(2) {
                let value = f64::from_bits(bits(row, column).unwrap());
                assert!(value >= range.low && value <= range.high, "{column} {value}");
                let share = (value - range.low) / (range.high - range.low);
                let tenth = (1..10).filter(|edge| share * 10.0 >= f64::from(*edge)).count();
                tenths[tenth] += 1;
            }
            // 60 are expected in each; at random, fewer than 25 has a chance below 1e-6.
            assert!(tenths.iter().all(|count| *count >= 25), "{how:?} {column}: {tenths:?}");
            if how == Sampling::LatinHypercube {
                // One point in each of 600 strata.
                assert_eq!(tenths, [60; 10], "{column}");
            }
        }
        let tables = &plan.banks().unwrap().axis(Input::Equipment).unwrap().values;
        assert_eq!(tables.len(), 2);
        for name in (0..2).map(|at| tables.word(at).unwrap()) {
            let on = Field::Str(name.to_owned());
            let count = rows.iter().filter(|row| row["equipment"] == on).count();
            assert!((400..=800).contains(&count), "{how:?}: {count} of 1200 on {name}");
        }
    }
}

#[test]
fn seeds_and_ways_to_sample_matter_and_repeat() {
    let points = |how: &str, seed| {
        let (_, rows) = swept(&sampled(how, seed));
        rows.iter().map(|row| bits(row, "speed_m_s").unwrap()).collect::<Vec<u64>>()
    };
    for how in Sampling::ALL {
        let one = points(how.name(), 1);
        assert_eq!(points(how.name(), 1), one);
        let other = points(how.name(), 2);
        let same = one.iter().zip(&other).filter(|(one, other)| one == other).count();
        assert!(same < one.len() / 50, "{how:?}: {same} of {}", one.len());
    }
    assert_ne!(points("sobol", 1), points("random", 1));
    assert_ne!(points("latin-hypercube", 1), points("random", 1));
}

/// Every number of a row as the comparison in memory has it.
fn check_compared(row: &Fields, compared: &Row) {
    let outcome = &compared.outcome;
    assert_eq!(row["verdict"], Field::Str(outcome.verdict().name().to_owned()));
    let at_rail = outcome.at_rail;
    let rebound = outcome.rebound;
    let arrival = outcome.arrival;
    let incoming = at_rail.map(|at| at.state.velocity);
    let columns = [
        ("contact_diamonds", Some(compared.line.contact)),
        ("start_diamonds", Some(compared.line.start)),
        ("miss_m", outcome.miss_m()),
        ("clearance_long_m", arrival.map(|at| at.clearance_long_m)),
        ("clearance_short_m", arrival.map(|at| at.clearance_short_m)),
        ("at_rail_contact_diamonds", at_rail.map(|at| at.contact)),
        ("at_rail_time_s", at_rail.map(|at| at.time_s)),
        ("incidence_rad", at_rail.map(|at| at.incidence_rad())),
        ("departure_diamonds", rebound.map(|off| off.departure)),
        ("rebound_angle_rad", rebound.zip(incoming).map(|(off, before)| off.angle_rad(before))),
        ("rebound_restitution", rebound.map(|off| off.restitution)),
        ("arrival_time_s", arrival.map(|at| at.time_s)),
    ];
    for (column, number) in columns {
        assert_eq!(bits(row, column), number.map(f64::to_bits), "{column}: {row:?}");
    }
    let flagged = rebound.is_some_and(|off| off.hop || off.outside_checked_speed);
    assert_eq!(row["flagged"], Field::Bool(flagged));
    let side = outcome.verdict().direction().map(|side| format!("{side:?}").to_lowercase());
    assert_eq!(row["long_or_short"], side.map_or(Field::Null, Field::Str));
}

#[test]
fn rows_of_a_grid_are_those_of_the_comparison_in_memory() {
    let (plan, rows) = swept(&Recipe::grid());
    let compared = compare(plan.banks().unwrap(), plan.rules(), &|| {}).unwrap();
    assert_eq!(rows.len(), compared.len());
    for (row, compared) in rows.iter().zip(&compared) {
        assert_eq!(row["point"], Field::Long(i64::try_from(compared.point).unwrap()));
        assert_eq!(row["rule"], Field::Str(plan.rules()[compared.rule].name.clone()));
        check_compared(row, compared);
    }
    // And those that do not hold are the failures.
    let (_, failures) = swept(&Recipe::grid().keeping(Keep::Failures));
    let not_holding: Vec<_> =
        rows.into_iter().filter(|row| row["verdict"] != Field::Str("holds".to_owned())).collect();
    assert!(!not_holding.is_empty());
    assert!(failures == not_holding);
}

#[test]
fn a_plan_of_given_starts_has_rows_without_rules() {
    let banks = r#"grid { equipment = equipment "harbour-hall", contact = { 2, 3 }, start = { 4, 5, 6 },
  speed = { mps(2), mps(3) } }"#;
    let recipe = Recipe { banks: banks.into(), ..Recipe::grid() };
    let text = format!("plan({banks})\n");
    let place = super::support::Place::new();
    place.write("bank.lua", text);
    place.run("sweep bank.lua --into out --quiet").code(0);
    let rows = rows_of(&place.path("out"));
    assert_eq!(rows.len(), 12);
    assert!(rows.iter().all(|row| !row.contains_key("rule")), "{:?}", rows[0]);
    // With rules as well it would be said twice where the ball is aimed.
    place.write("bank.lua", recipe.scenario());
    place.run("sweep bank.lua --into twice --quiet").code(2).says("start");
}

#[test]
fn a_scenario_that_plays_banks_before_its_plan_is_swept() {
    let banks =
        r#"grid { equipment = equipment "harbour-hall", contact = { 2, 3 }, speed = mps(3) }"#;
    let rule = "rule.linear { slope = 2.2 }";
    let place = super::support::Place::new();
    place.write(
        "bank.lua",
        format!("compare({banks}, {rule})\nlocal more = {banks}\nplan(more, {rule})\n"),
    );
    place.run("sweep bank.lua --which 2 --threads 2 --into out --quiet").code(0);
    assert_eq!(rows_of(&place.path("out")).len(), 2);
}
