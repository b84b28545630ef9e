//! Rows with every measure of a bank: what they hold, that they change nothing else, and that they agree
//! with the same banks asked one by one and with a scenario's CSV.

use super::support::{Fields, Place, rows_of, words};
use parquet::record::Field;
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::Path;

const COMPARED: [&str; 8] = [
    "ending_x_m",
    "ending_y_m",
    "at_rail_spin_x_rad_s",
    "at_rail_spin_y_rad_s",
    "at_rail_spin_z_rad_s",
    "rebound_spin_x_rad_s",
    "rebound_spin_y_rad_s",
    "rebound_spin_z_rad_s",
];
const PLAN: &str = r#"local banks = grid {
  equipment = equipment "seven-foot", pocket = "corner", contact = { 2.5, 3.5 },
  off_rail = { inches(4), inches(10) }, speed = { mps(0.4), mps(3), mps(9) },
  roll = { 0, 0.5 }, running_side = { 0, 0.2 },
}
plan(banks, rule.linear { slope = 2.2 })
"#;

fn swept(options: &str) -> (Place, Vec<Fields>) {
    let place = Place::new();
    place.write("plan.lua", PLAN);
    place.run(&format!("sweep plan.lua --into out --quiet {options}")).code(0);
    let rows = rows_of(&place.path("out"));
    (place, rows)
}

fn number(row: &Fields, column: &str) -> Option<f64> {
    match row[column] {
        Field::Double(number) => Some(number),
        Field::Null => None,
        ref other => panic!("{column} holds {other}"),
    }
}

#[test]
fn no_zero_has_a_sign() {
    let (_place, rows) = swept("--details");
    let mut zeros = 0;
    for (column, field) in rows.iter().flatten() {
        if let Field::Double(number) = field
            && *number == 0.0
        {
            zeros += 1;
            assert!(number.is_sign_positive(), "{column} holds -0");
        }
    }
    assert!(zeros > 0);
}

#[test]
fn details_change_no_other_column() {
    let (_plain, plain) = swept("");
    let (_detailed, mut detailed) = swept("--details");
    let columns = plain[0].keys().cloned().collect::<BTreeSet<String>>();
    for row in &mut detailed {
        row.retain(|column, _| columns.contains(column));
    }
    assert_eq!(plain, detailed);
}

#[test]
fn each_row_agrees_with_its_bank_asked_alone() {
    let (place, rows) = swept("--details");
    assert_eq!(rows.len(), 48);
    let endings = words(&rows, "ending");
    for ending in ["at-mouth", "other-rail", "stopped-before-rail", "stopped-before-mouth"] {
        assert!(endings.iter().any(|it| it == ending), "no bank ends as {ending}: {endings:?}");
    }
    for (row, ending) in rows.iter().zip(&endings) {
        let given = |column: &str| number(row, column).unwrap();
        let alone = place
            .run(&format!(
                "bank --equipment seven-foot --json --contact={} --off-rail={}m --speed={}m/s --roll={} --running-side={}",
                given("contact_diamonds"),
                given("off_rail_m"),
                given("speed_m_s"),
                given("roll"),
                given("running_side"),
            ));
        let alone: Value = serde_json::from_str(&alone.out).unwrap();
        assert_eq!(alone["verdict"]["ending"], ending.as_str());
        assert_eq!(
            alone["verdict"]["ending_at"].as_str().unwrap_or(""),
            words(std::slice::from_ref(row), "ending_at")[0]
        );
        let hops = alone["rebound"]["hop"].as_bool();
        assert_eq!(row["hop"], hops.map_or(Field::Null, Field::Bool));
        for (column, part) in COMPARED.iter().zip(0..) {
            let of_bank = match part {
                0 => &alone["verdict"]["ending_x_m"],
                1 => &alone["verdict"]["ending_y_m"],
                2..=4 => &alone["at_rail"]["spin_rad_s"][part - 2],
                _ => &alone["rebound"]["spin_rad_s"][part - 5],
            };
            assert_eq!(number(row, column), of_bank.as_f64(), "{column} of {row:?}");
        }
        rolls_as_it_says(row);
    }
}

/// The same banks compared in a scenario.
#[test]
fn rows_have_the_columns_of_a_scenarios_csv() {
    let (place, rows) = swept("--details");
    place.write("run.lua", PLAN.replace("plan(", "compare("));
    place.run("run run.lua --into run --quiet").code(0);
    let mut csv = csv::Reader::from_path(place.path("run/rows.csv")).unwrap();
    let names = csv.headers().unwrap().clone();
    let mut read = 0;
    for (line, row) in csv.records().zip(&rows) {
        for (name, value) in names.iter().zip(&line.unwrap()) {
            // What does not vary stands in the plan.
            if ["equipment", "rail", "pocket"].contains(&name) {
                continue;
            }
            let own = match &row[name] {
                Field::Null => String::new(),
                Field::Str(word) => word.clone(),
                Field::Double(number) => number.to_string(),
                Field::Long(number) => number.to_string(),
                Field::Bool(flag) => flag.to_string(),
                other => panic!("{other}"),
            };
            assert_eq!(own, value, "{name}");
        }
        read += 1;
    }
    assert_eq!(read, rows.len());
}

/// Roll is what the spin square to the way gives over the speed: ω·R/v (the definition).
fn rolls_as_it_says(row: &Fields) {
    let Some(roll) = number(row, "at_rail_roll_fraction") else { return };
    let of = |column| number(row, column).unwrap();
    let across = of("at_rail_spin_x_rad_s").hypot(of("at_rail_spin_y_rad_s"));
    let rolled = across * 0.5 * 2.25 * 0.0254 / of("at_rail_speed_m_s");
    assert!((rolled - roll.abs()).abs() < 1e-9, "{roll} is said, {rolled} spins");
}

#[test]
fn a_map_has_no_rows_to_tell_details_of() {
    let place = Place::new();
    place.write("plan.lua", PLAN);
    place
        .run("sweep plan.lua --into out --keep map --details")
        .code(2)
        .says("a map keeps no rows, so it has no details of them");
    assert!(!Path::new(&place.path("out")).exists());
}
