//! Random banks of every model, rail, pocket and kind of equipment.

use super::support::{Draws, anything, banks, hold_against_alone, usual};
use railproof_engine::bank::{Bank, BankVerdict, Launch};
use railproof_engine::batch::Inputs;
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::rail::Line;
use railproof_tests::{is_thorough, shipped_equipment};

/// The number of banks a table is tried with; `RAILPROOF_THOROUGH` and `RAILPROOF_CASES` ask for more.
fn cases() -> usize {
    let asked = std::env::var("RAILPROOF_CASES").ok().and_then(|cases| cases.parse().ok());
    let least: usize = if is_thorough() { 600 } else { 200 };
    asked.map_or(least, |cases: usize| cases.max(least))
}

/// The shipped table, and others whose numbers lie at the ends of what is accepted.
fn equipments() -> Vec<Equipment> {
    let shipped = shipped_equipment("nine-foot");
    let changed = |change: fn(&mut Equipment)| {
        let mut equipment = shipped.clone();
        change(&mut equipment);
        equipment.validated().expect("accepted equipment")
    };
    vec![
        shipped.clone(),
        changed(|it| it.cushion.contact_time_s = 0.05),
        changed(|it| it.cushion.contact_time_s = 0.0),
        changed(|it| (it.cushion.restitution, it.cushion.nose_friction) = (0.0, 0.5)),
        changed(|it| it.cushion.restitution_loss_s_m = 0.5),
        changed(|it| it.cushion.nose_friction = 0.0),
        changed(|it| it.cloth.pivot_deceleration_rad_s2 = 0.0),
        changed(|it| it.cloth.rolling_resistance = 0.0),
        changed(|it| it.cloth.sliding_friction = 0.0),
        changed(|it| it.table.corner_mouth_m = 0.2),
    ]
}

fn drawn(
    bank: &Bank,
    draws: &mut Draws,
    count: usize,
    from: fn(&mut Draws, f64) -> (Line, Launch),
) -> Inputs {
    let mut inputs = Inputs::with_capacity(count);
    for _ in 0..count {
        let (line, launch) = from(draws, bank.geometry().span_m);
        inputs.push(line, launch);
    }
    inputs
}

#[test]
fn maps_are_alike_to_the_bit() {
    let mut draws = Draws::of(1);
    for equipment in equipments() {
        for model in [RailModel::Planar, RailModel::NoseOnly, RailModel::NoseAndCloth] {
            for bank in banks(&equipment, model) {
                hold_against_alone(&bank, &drawn(&bank, &mut draws, cases(), usual));
            }
        }
    }
}

#[test]
fn anything_accepted_is_alike_to_the_bit() {
    let mut draws = Draws::of(2);
    for equipment in equipments() {
        for model in [RailModel::Planar, RailModel::NoseOnly, RailModel::NoseAndCloth] {
            for bank in banks(&equipment, model) {
                hold_against_alone(&bank, &drawn(&bank, &mut draws, cases(), anything));
            }
        }
    }
}

/// Round numbers meet what random ones miss: rolling without slip, square to the rail, in a groove.
#[test]
fn grids_are_alike_to_the_bit() {
    for model in [RailModel::Planar, RailModel::NoseOnly, RailModel::NoseAndCloth] {
        for bank in banks(&shipped_equipment("nine-foot"), model) {
            let mut inputs = Inputs::default();
            for quarter in -6..=16 {
                let contact = 0.25 * f64::from(quarter);
                for start in [contact, 0.0, 2.0 * contact, 2.2 * contact] {
                    for (off_rail_m, speed_m_s) in [(0.0, 0.5), (0.0, 3.0), (0.3, 3.0), (0.5, 1.0)]
                    {
                        for (roll, side) in [(0.0, 0.0), (1.0, 0.0), (-1.0, 0.5), (3.0, -1.0)] {
                            let launch =
                                Launch { off_rail_m, speed_m_s, roll, side, aim_error_rad: 0.0 };
                            inputs.push(Line::new(contact, start), launch);
                        }
                    }
                }
            }
            hold_against_alone(&bank, &inputs);
        }
    }
}

#[test]
fn the_stepped_model_is_alike_to_the_bit() {
    let mut draws = Draws::of(3);
    for bank in banks(&shipped_equipment("nine-foot"), RailModel::Compliant) {
        hold_against_alone(&bank, &drawn(&bank, &mut draws, 3, usual));
    }
}

/// The draws above must meet every verdict, or being alike would say little.
#[test]
fn the_draws_meet_every_verdict() {
    let mut draws = Draws::of(4);
    let mut met: Vec<BankVerdict> = Vec::new();
    for bank in banks(&shipped_equipment("nine-foot"), RailModel::Planar) {
        for case in 0..2 * cases() {
            let from = if case % 2 == 0 { usual } else { anything };
            let (line, launch) = from(&mut draws, bank.geometry().span_m);
            let verdict = bank.play(line, launch).expect("an accepted launch").verdict();
            if !met.contains(&verdict) {
                met.push(verdict);
            }
        }
    }
    for verdict in BankVerdict::ALL {
        assert!(met.contains(&verdict), "none {}", verdict.name());
    }
}
