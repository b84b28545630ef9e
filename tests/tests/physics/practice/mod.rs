//! Common practice (no source): what players know of banks, on the shipped nine-foot profile with
//! its own cushion and with every other shipped one.
//!
//! Every cushion was calibrated on the nine banks of `calibration`; the nine-foot profile's own was
//! besides selected because it meets the other facts too, so they are no independent confirmation
//! of it. What they do show is which facts are **robust**: asserted alike for all cushions. Where
//! cushions disagree, a table states what each does, so that a change is noticed.
//!
//! `cue_ball` is about two balls and the tip, away from the rails; every other file about banks.
//! Where two balls rub, every fact is asked under both laws of friction between balls: one that is
//! asserted alike for both is robust against them, and where they differ the test says so.
//! Unless said otherwise: off a long rail into the corner, start = 2.2 × contact in the groove.

mod between;
mod calibration;
mod cue_ball;
mod cue_bank;
mod double_kiss;
mod end_rail;
mod frozen;
mod hall;
mod kiss_and_ensemble;
mod kiss_in_time;
mod mouth;
mod off_rail;
mod rules;
mod spin;

use railproof_engine::bank::{Bank, Launch, Outcome};
use railproof_engine::equipment::{Equipment, FrictionLaw};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_tests::{nine_foot_with_cushion, shipped_cushions, shipped_equipment};

/// Start numbers for each diamond of contact.
const SLOPE: f64 = 2.2;

/// One cushion's banks into the same corner.
struct Case {
    /// The profile that the cushion comes from.
    name: &'static str,
    /// Off a long rail.
    long: Bank,
    /// Off the end rail, twice as far to run.
    end: Bank,
}

impl Case {
    fn new(name: &'static str, equipment: &Equipment) -> Self {
        let off = |rail| {
            Bank::new(equipment, rail, Pocket::FootRight, equipment.cushion.rail_model)
                .expect("the rail and the corner make a bank")
        };
        Self { name, long: off(Rail::Left), end: off(Rail::Head) }
    }

    /// The row of this cushion in a table of what each does.
    fn row<T: Copy>(&self, table: &[(&str, T)]) -> T {
        let found = table.iter().find(|(name, _)| *name == self.name);
        found.unwrap_or_else(|| panic!("state what {} does", self.name)).1
    }
}

/// The same equipment under each law of friction between balls.
fn under_both_laws(equipment: &Equipment) -> [Equipment; 2] {
    FrictionLaw::ALL.map(|law| {
        let mut equipment = equipment.clone();
        equipment.ball_contact.friction_law = law;
        equipment
    })
}

/// The nine-foot profile's own cushion first, then the others.
fn cases() -> Vec<Case> {
    let own = Case::new("nine-foot", &shipped_equipment("nine-foot"));
    let others = shipped_cushions().map(|name| Case::new(name, &nine_foot_with_cushion(name)));
    std::iter::once(own).chain(others).collect()
}

/// Plays the rule's line for a contact number.
fn by_rule(bank: &Bank, contact: f64, launch: Launch) -> Outcome {
    play(bank, Line::new(contact, SLOPE * contact), launch)
}

fn play(bank: &Bank, line: Line, launch: Launch) -> Outcome {
    bank.play(line, launch).expect("the launch is inside its ranges")
}

/// Signed miss, mm; positive is long. Every bank played here comes to the mouth line.
fn miss_mm(outcome: &Outcome) -> f64 {
    1e3 * outcome.miss_m().expect("it crosses the mouth line")
}

/// Equal but for rounding.
fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9
}

/// `from`, `from + step`, … up to and with `to`.
fn span(from: f64, to: f64, step: f64) -> impl Iterator<Item = f64> + Clone {
    (0..).map(move |i| from + step * f64::from(i)).take_while(move |x| *x <= to + 1e-9)
}
