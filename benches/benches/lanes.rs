//! The cost of an impact of the nose-and-cloth model, one at a time and many at once, over the impacts
//! of a sweep, as a ratio.
//!
//! `RAILPROOF_BENCH=short` makes a quick pass whose figures are rough.

use railproof_benches::table::nine_foot;
use railproof_benches::timing::time;
use railproof_engine::bank::{Bank, Launch};
use railproof_engine::equipment::{Cushion, Equipment, RailModel};
use railproof_engine::impact::{
    Bounce, CushionContact, Rebound, nose_and_cloth, nose_and_cloth_many, nose_and_cloth_traced,
};
use railproof_engine::rail::{Line, Pocket, Rail};
use std::hint::black_box;

fn main() {
    let equipment = equipment();
    let contact = CushionContact::new(&equipment);
    println!("\nNose-and-cloth impacts of a sweep: contacts 1 to 4, 0 to 20 in off the rail,");
    println!("1.5 to 7 m/s, on one core");
    for (name, follow) in [("stun", [0.0, 0.0]), ("stun to rolling", [0.0, 0.7])] {
        let balls = at_rail(&equipment, follow);
        let steps: u32 =
            balls.iter().map(|ball| nose_and_cloth_traced(&contact, *ball).1.steps).sum();
        let count = balls.len() as f64;
        let one = time(|| {
            let off = |ball: &Bounce| nose_and_cloth(black_box(&contact), *ball).velocity.x;
            balls.iter().map(off).sum::<f64>()
        });
        let mut after: Vec<Rebound> =
            balls.iter().map(|ball| nose_and_cloth(&contact, *ball)).collect();
        let many = time(|| {
            nose_and_cloth_many(black_box(&contact), black_box(&balls), &mut after);
            after.len()
        });
        println!(
            "  {name:<16} one {:.2} µs   many {:.2} µs   ×{:.1}   {:.2} million a second, {:.1} steps",
            1e6 * one.seconds / count,
            1e6 * many.seconds / count,
            one.over(many),
            1e-6 * count / many.seconds,
            f64::from(steps) / count,
        );
    }
}

/// The bench's table with the numbers of the cushion and cloth that ship.
fn equipment() -> Equipment {
    let mut equipment = nine_foot();
    equipment.cloth.sliding_friction = 0.22;
    equipment.cushion = Cushion {
        restitution: 0.955,
        restitution_loss_s_m: 0.0075,
        nose_friction: 0.13,
        impact_cloth_friction: Some(0.18),
        contact_time_s: 0.015,
        ..equipment.cushion
    };
    equipment
}

/// 4,000 balls as they come to the rail, spread evenly over the ranges by multiples of irrational
/// numbers.
fn at_rail(equipment: &Equipment, follow: [f64; 2]) -> Vec<Bounce> {
    let bank = Bank::new(equipment, Rail::Left, Pocket::FootRight, RailModel::NoseAndCloth)
        .expect("a long rail and the corner across from it");
    let launched = (0..4000).filter_map(|i| {
        let part = |step: f64| (f64::from(i) * step).fract();
        let contact = 1.0 + 3.0 * part(0.754_877_666);
        let launch = Launch {
            off_rail_m: 0.508 * part(0.380_277_569),
            roll: follow[0] + (follow[1] - follow[0]) * part(0.618_033_989),
            ..Launch::frozen_stun(1.5 + 5.5 * part(0.569_840_291))
        };
        let outcome = bank.play(Line::new(contact, 2.2 * contact), launch).ok()?;
        let state = outcome.at_rail?.state;
        Some(Bounce { velocity: state.velocity, spin: state.spin })
    });
    launched.collect()
}
