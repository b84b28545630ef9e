//! The demonstration's measured banks are those of a hidden table, played and read with a stated scatter.

use crate::protocol::six_at_twice_the_contact;
use railproof_engine::column::SetUp;
use railproof_engine::ensemble::{Member, MemberNumber};
use railproof_engine::equipment::RailModel;
use railproof_engine::evidence::{MadeUpTable, MeasuredBank, Scatter, Seen, Watching};
use railproof_engine::rail::{BankGeometry, Line, Pocket, Rail};
use railproof_engine::units::{INCH_M, Speed, SpeedWord};
use railproof_tests::shipped_equipment;
use std::fmt::Write;
use std::path::Path;

/// The hidden table: the share of every number's spread that lies below. Invented.
pub const HIDDEN: [f64; MemberNumber::COUNT] =
    [0.35, 0.55, 0.6, 0.5, 0.25, 0.6, 0.4, 0.7, 0.6, 0.45, 0.55, 0.6, 0.65];
const SEED: u64 = 20_261_129;
/// The corner's number is read to a twentieth of a diamond.
pub const READ_TO: f64 = 0.05;

/// Contact, start, inches off the rail, speed: six more after those at twice the contact.
const FURTHER: [(f64, f64, f64, SpeedWord); 6] = [
    (3.25, 6.5, 8.0, SpeedWord::Firm),
    (2.5, 5.0, 0.0, SpeedWord::Soft),
    (2.75, 5.5, 8.0, SpeedWord::Medium),
    (2.0, 4.4, 10.0, SpeedWord::Soft),
    (2.5, 5.5, 0.0, SpeedWord::Medium),
    (3.5, 7.5, 0.0, SpeedWord::Firm),
];

fn text() -> String {
    let table = shipped_equipment("harbour-hall");
    let geometry =
        |pocket| BankGeometry::new(&table, Rail::Left, pocket).expect("a bank of this table");
    let read_to_m = READ_TO * geometry(Pocket::FootRight).diamond_m;
    let further = FURTHER.iter().enumerate().map(|(at, &(contact, start, inches, word))| {
        let pocket = if at % 2 == 0 { Pocket::FootRight } else { Pocket::HeadRight };
        let line = Line::new(contact, start);
        SetUp::stun(Rail::Left, pocket, line, inches * INCH_M, Speed::Word(word))
    });
    let set_ups: Vec<(SetUp, Watching)> = six_at_twice_the_contact()
        .into_iter()
        .chain(further)
        .map(|set_up| (set_up, Watching::Numbers { read_to_m }))
        .collect();
    let member = Member { place: HIDDEN };
    let known = MadeUpTable {
        table: &table,
        model: RailModel::NoseAndCloth,
        member: &member,
        scatter: &Scatter::CAREFUL,
        seed: SEED,
    };
    let seen = known.watched(&set_ups).expect("banks of this table");
    let mut text = format!(
        "# INVENTED: no such table exists. Banks of a hidden table of the invented Harbour Hall, played and read \
         by\n# a made-up player with the scatter of a careful person (seed {SEED}); a test of this repository \
         makes them.\n# `railproof fit scenarios/measured/hall.csv --on harbour-hall` says what they tell.\n\
         contact,start,pocket,off_rail,speed,seen,number,read_to\n"
    );
    for bank in seen {
        let geometry = geometry(bank.set_up.pocket);
        let _ = writeln!(
            text,
            "{}",
            row(&bank, |along_m| { geometry.number_of_unrolled(&table.table, along_m) })
        );
    }
    text
}

/// A bank as a row of a file.
pub fn row(bank: &MeasuredBank, number_of: impl Fn(f64) -> (bool, f64)) -> String {
    let SetUp { line, pocket, off_rail_m, speed, .. } = bank.set_up;
    let Speed::Word(word) = speed else { panic!("a speed in words") };
    let seen = match bank.seen {
        Seen::Holds => "holds,,".to_owned(),
        Seen::Touches => "touches,,".to_owned(),
        Seen::Long => "long,,".to_owned(),
        Seen::Short => "short,,".to_owned(),
        Seen::Stops => "stops,,".to_owned(),
        Seen::At { along_m, .. } => {
            let (is_long, number) = number_of(along_m);
            let side = if is_long { "long" } else { "short" };
            format!("{side},{:.2},{READ_TO}", (number / READ_TO).round() * READ_TO)
        }
    };
    format!(
        "{},{},{},{} in,{},{seen}",
        line.contact,
        line.start,
        pocket.name(),
        (off_rail_m / INCH_M).round(),
        word.name()
    )
}

#[test]
fn the_demonstration_is_what_the_hidden_table_plays() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/measured/hall.csv");
    let made = text();
    if std::env::var_os("RAILPROOF_ACCEPT").is_some() {
        std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        std::fs::write(&path, &made).expect("written");
    }
    let shipped = std::fs::read_to_string(&path).unwrap_or_default();
    assert_eq!(shipped, made, "RAILPROOF_ACCEPT=1 writes it anew");
}
