//! Lengths times λ with speeds times √λ give times times √λ at the same gravity, and the impact law
//! scales with the motion alone, both for constant restitution and friction. For powers of four
//! nothing is rounded, so the agreement is to the bit.

use crate::strategies::{
    cases, constant_impact, free_ball, impulse_model, launch, line, placed, plausible_impact,
    playable, rail_and_pocket, size,
};
use proptest::prelude::*;
use railproof_engine::bank::{Bank, Launch, Outcome};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::impact::{Bounce, CushionContact, bounce};
use railproof_engine::motion::{BallState, ClothMotion, Path};

/// The enlargement of a motion: √λ.
#[derive(Debug, Clone, Copy)]
struct Scale(f64);

impl Scale {
    fn length(self) -> f64 {
        self.0 * self.0
    }

    fn speed(self) -> f64 {
        self.0
    }

    fn time(self) -> f64 {
        self.0
    }

    fn spin(self) -> f64 {
        1.0 / self.0
    }

    fn state(self, state: BallState) -> BallState {
        BallState {
            position: state.position * self.length(),
            velocity: state.velocity * self.speed(),
            spin: state.spin * self.spin(),
        }
    }

    fn cloth(self, cloth: ClothMotion) -> ClothMotion {
        ClothMotion {
            radius_m: cloth.radius_m * self.length(),
            pivot_deceleration_rad_s2: cloth.pivot_deceleration_rad_s2
                / (self.time() * self.time()),
            ..cloth
        }
    }

    fn equipment(self, equipment: &Equipment) -> Equipment {
        let mut large = equipment.clone();
        for length in [
            &mut large.table.length_m,
            &mut large.table.width_m,
            &mut large.table.corner_mouth_m,
            &mut large.table.side_mouth_m,
            &mut large.table.sight_setback_m,
            &mut large.table.jaws.corner_radius_m,
            &mut large.table.jaws.side_radius_m,
            &mut large.table.jaws.corner_shelf_m,
            &mut large.table.jaws.side_shelf_m,
            &mut large.ball.diameter_m,
            &mut large.cushion.nose_height_m,
        ] {
            *length *= self.length();
        }
        large.cloth.pivot_deceleration_rad_s2 /= self.time() * self.time();
        large.cushion.checked_speed_m_s *= self.speed();
        large.cushion.contact_time_s *= self.time();
        large.table.jaws.contact_time_s *= self.time();
        large
    }

    fn launch(self, launch: Launch) -> Launch {
        Launch {
            off_rail_m: launch.off_rail_m * self.length(),
            speed_m_s: launch.speed_m_s * self.speed(),
            ..launch
        }
    }
}

/// Times, places (as lengths) and motions of an outcome, each divided by its own scale.
fn plain(outcome: &Outcome, scale: Scale, radius: f64) -> Vec<f64> {
    let mut numbers = Vec::new();
    let mut state = |state: &BallState| {
        let (length, speed) = (scale.length(), scale.speed());
        let surface = state.spin * radius;
        numbers.extend([state.position.x / length, state.position.y / length]);
        numbers.extend([state.velocity.x, state.velocity.y].map(|v| v / speed));
        numbers.extend([surface.x, surface.y, surface.z].map(|v| v / speed));
    };
    state(&outcome.launch);
    if let Some(at_rail) = &outcome.at_rail {
        state(&at_rail.state);
    }
    if let Some(rebound) = &outcome.rebound {
        state(&rebound.state);
    }
    if let Some(arrival) = &outcome.arrival {
        state(&arrival.state);
        numbers.extend([arrival.time_s / scale.time(), arrival.miss_m / scale.length()]);
    }
    numbers.extend(outcome.at_rail.map(|at_rail| at_rail.time_s / scale.time()));
    numbers
}

/// The rebound of the same impact with all speeds times `factor`, over `factor`.
fn scaled_rebound(
    contact: &CushionContact,
    before: &Bounce,
    model: RailModel,
    factor: f64,
) -> [f64; 5] {
    let grown = Bounce { velocity: before.velocity * factor, spin: before.spin * factor };
    let after = bounce(model, contact, grown);
    let surface = after.spin * contact.radius_m;
    [after.velocity.x, after.velocity.y, surface.x, surface.y, surface.z]
        .map(|number| number / factor)
}

fn constant(mut equipment: Equipment) -> Equipment {
    equipment.cushion.restitution_loss_s_m = 0.0;
    equipment
}

/// √λ for λ = 1/16, 1/4, 4 and 16.
fn exact_scale() -> impl Strategy<Value = Scale> {
    prop::sample::select(vec![0.25, 0.5, 2.0, 4.0]).prop_map(Scale)
}

proptest! {
    #![proptest_config(cases(1))]

    #[test]
    fn the_impact_law_is_homogeneous(
        (contact, before) in constant_impact(), model in impulse_model(), factor in 0.01..100.0_f64,
    ) {
        let plain = scaled_rebound(&contact, &before, model, 1.0);
        for power in [0.125, 4.0] {
            prop_assert_eq!(plain, scaled_rebound(&contact, &before, model, power));
        }
        // A factor that is no power of two rounds the input, and each of two integrated impacts is
        // exact to 1e-9. Closed forms differ by rounding only.
        let within = if model == RailModel::NoseAndCloth { 2e-9 } else { 1e-12 };
        let other = scaled_rebound(&contact, &before, model, factor);
        for (a, b) in plain.iter().zip(other) {
            let off = (a - b).abs() / size(&before, contact.radius_m);
            prop_assert!(off <= within, "{a} against {b}, out by {off} of {plain:?}");
        }
    }

    /// On cushions like those in use each integrated impact is exact to 1e-9, so that two of them
    /// differ by twice that at most.
    #[test]
    fn the_integrated_impact_is_homogeneous_on_cushions_in_use(
        (contact, before) in plausible_impact(), factor in 0.01..100.0_f64,
    ) {
        let plain = scaled_rebound(&contact, &before, RailModel::NoseAndCloth, 1.0);
        let other = scaled_rebound(&contact, &before, RailModel::NoseAndCloth, factor);
        for (a, b) in plain.iter().zip(other) {
            let off = (a - b).abs() / size(&before, contact.radius_m);
            prop_assert!(off <= 2e-9, "{a} against {b}, out by {off} of {plain:?}");
        }
    }

    /// An impact with a larger ball, all speeds alike.
    #[test]
    fn the_impact_law_knows_no_length(
        (contact, before) in constant_impact(), model in impulse_model(),
    ) {
        let large = CushionContact { radius_m: 4.0 * contact.radius_m, ..contact };
        let slow = Bounce { spin: before.spin * 0.25, ..before };
        let (a, b) = (bounce(model, &contact, before), bounce(model, &large, slow));
        prop_assert_eq!((a.velocity, a.spin), (b.velocity, b.spin * 4.0));
    }

    #[test]
    fn free_motion_is_similar(
        (start, cloth) in free_ball(), exact in exact_scale(), general in 0.3..3.0_f64,
        share in 0.0..1.2_f64,
    ) {
        let path = Path::new(start, cloth);
        let end = path.rests_from_s();
        let time = share * if end.is_finite() { end } else { 10.0 };
        let small = path.state_at(time);
        for (scale, within) in [(exact, 0.0), (Scale(general), 1e-10)] {
            let large = Path::new(scale.state(start), scale.cloth(cloth));
            let close = |a: f64, b: f64, unit: f64| (a - b).abs() <= within * unit;
            for (a, b) in [
                (path.rolls_from_s(), large.rolls_from_s()),
                (path.centre_rests_from_s(), large.centre_rests_from_s()),
                (path.rests_from_s(), large.rests_from_s()),
            ] {
                // Infinite times are alike too.
                prop_assert!(a * scale.time() == b || close(a, b / scale.time(), a));
            }
            let wanted = scale.state(small);
            let state = large.state_at(time * scale.time());
            let speed = start.velocity.norm() + cloth.radius_m * start.spin.norm();
            let reach = (1.0 + speed * time) * scale.length();
            prop_assert!(close(state.position.x, wanted.position.x, reach));
            prop_assert!(close(state.position.y, wanted.position.y, reach));
            let unit = speed * scale.speed();
            prop_assert!(close(state.velocity.x, wanted.velocity.x, unit));
            prop_assert!(close(state.velocity.y, wanted.velocity.y, unit));
            let unit = unit / (cloth.radius_m * scale.length());
            prop_assert!(close(state.spin.x, wanted.spin.x, unit));
            prop_assert!(close(state.spin.y, wanted.spin.y, unit));
            prop_assert!(close(state.spin.z, wanted.spin.z, unit));
        }
    }
}

proptest! {
    #![proptest_config(cases(2))]

    /// A whole bank on a table of another size.
    #[test]
    fn banks_are_similar(
        equipment in playable(), (rail, pocket) in rail_and_pocket(), model in impulse_model(),
        line in line(), launch in launch(), exact in exact_scale(),
    ) {
        let equipment = constant(equipment);
        let radius = equipment.ball.radius_m();
        let bank = Bank::new(&equipment, rail, pocket, model).expect("it is a bank");
        // Both launches have to be inside the accepted ranges, which are in metres and seconds.
        let launch = placed(&bank, launch);
        let launch = Launch {
            speed_m_s: launch.speed_m_s.clamp(0.05, 5.0),
            off_rail_m: launch.off_rail_m.min(4.0 / exact.length()),
            ..launch
        };
        let outcome = bank.play(line, launch).expect("it is valid");
        let large_table = exact.equipment(&equipment);
        let large = Bank::new(&large_table, rail, pocket, model).expect("it is a bank");
        let grown = exact.launch(launch);
        let other = large.play(line, grown).expect("it is valid");
        prop_assert_eq!(outcome.verdict(), other.verdict());
        prop_assert_eq!(
            plain(&outcome, Scale(1.0), radius),
            plain(&other, exact, radius * exact.length())
        );
    }
}
