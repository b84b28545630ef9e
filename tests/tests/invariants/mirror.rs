//! Mirror symmetry, to the bit. A signed zero counts as zero.

use crate::strategies::{cases, equipment, impact, impulse_model, launch, line, placed};
use proptest::prelude::*;
use railproof_engine::bank::{Bank, BankEnding, Outcome};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::impact::{Bounce, bounce};
use railproof_engine::rail::{Line, Pocket, Rail, Reading};
use railproof_engine::rule::{Outside, Rule, ShiftFrom, WayBetween};
use railproof_engine::vector::{Vec2, Vec3};

fn bits(numbers: impl IntoIterator<Item = f64>) -> Vec<u64> {
    numbers.into_iter().map(|number| (number + 0.0).to_bits()).collect()
}

/// Banks that are one another's mirror images.
const FAMILIES: [&[(Rail, Pocket)]; 4] = [
    &[
        (Rail::Left, Pocket::FootRight),
        (Rail::Left, Pocket::HeadRight),
        (Rail::Right, Pocket::FootLeft),
        (Rail::Right, Pocket::HeadLeft),
    ],
    &[
        (Rail::Head, Pocket::FootLeft),
        (Rail::Head, Pocket::FootRight),
        (Rail::Foot, Pocket::HeadLeft),
        (Rail::Foot, Pocket::HeadRight),
    ],
    &[(Rail::Left, Pocket::SideRight), (Rail::Right, Pocket::SideLeft)],
    &[
        (Rail::Head, Pocket::SideLeft),
        (Rail::Head, Pocket::SideRight),
        (Rail::Foot, Pocket::SideLeft),
        (Rail::Foot, Pocket::SideRight),
    ],
];

fn banks(equipment: &Equipment, family: usize, model: RailModel) -> Vec<Bank> {
    FAMILIES[family]
        .iter()
        .map(|(rail, pocket)| {
            Bank::new(equipment, *rail, *pocket, model).expect("the pocket opens elsewhere")
        })
        .collect()
}

/// An outcome to the bit, without the names of other pockets, which the mirror changes.
fn without_names(outcome: &Outcome) -> String {
    let ending = match outcome.ending {
        BankEnding::OtherPocket(pocket, place) => format!("pocket {} {place:?}", pocket.is_side()),
        other => format!("{other:?}"),
    };
    let Outcome { launch, at_rail, rebound, arrival, ending: _, target } = outcome;
    format!("{launch:?} {at_rail:?} {rebound:?} {arrival:?} {ending} {target:?}")
}

proptest! {
    #![proptest_config(cases(1))]

    /// The mirror x → −x: velocity along the cushion and the two spins that lie in the mirror's
    /// plane change sign.
    #[test]
    fn impacts_mirror((contact, before) in impact(), model in impulse_model()) {
        let flip = |velocity: Vec2, spin: Vec3| {
            (Vec2::new(-velocity.x, velocity.y), Vec3::new(spin.x, -spin.y, -spin.z))
        };
        let (velocity, spin) = flip(before.velocity, before.spin);
        let after = bounce(model, &contact, before);
        let mirrored = bounce(model, &contact, Bounce { velocity, spin });
        let (velocity, spin) = flip(after.velocity, after.spin);
        prop_assert_eq!(
            bits([velocity.x, velocity.y, spin.x, spin.y, spin.z]),
            bits([
                mirrored.velocity.x,
                mirrored.velocity.y,
                mirrored.spin.x,
                mirrored.spin.y,
                mirrored.spin.z,
            ])
        );
        prop_assert_eq!(
            (after.hop, after.outside_checked_speed),
            (mirrored.hop, mirrored.outside_checked_speed)
        );
    }
}

proptest! {
    #![proptest_config(cases(2))]

    /// Every mirror image of a bank has the same outcome, and on the table its states are mirror
    /// images of each other.
    #[test]
    fn banks_mirror(
        equipment in equipment(), family in 0_usize..4, model in impulse_model(),
        line in line(), launch in launch(),
    ) {
        let mut shown: Option<(String, Vec<u64>)> = None;
        for bank in banks(&equipment, family, model) {
            let outcome = bank.play(line, placed(&bank, launch)).expect("it is valid");
            let geometry = bank.geometry();
            // Which way each axis of the table goes, seen from this bank.
            let place = geometry.to_table(outcome.launch.position);
            let speed = geometry.direction_to_table(outcome.launch.velocity);
            let spin = geometry.spin_to_table(outcome.launch.spin);
            let sizes = [place.x, place.y, speed.x, speed.y, spin.x, spin.y, spin.z];
            let seen = (without_names(&outcome), bits(sizes.map(f64::abs)));
            match &shown {
                Some(first) => prop_assert_eq!(first, &seen),
                None => shown = Some(seen),
            }
        }
    }

    /// A rule answers the same on every mirror image.
    #[test]
    fn rules_mirror(
        equipment in equipment(), family in 0_usize..4, contact in -1.0..8.0_f64,
        slope in 1.2..3.0_f64, offset in -0.5..0.5_f64, across in 0.01..0.99_f64,
        sight in any::<bool>(),
    ) {
        let reading = if sight { Reading::Sight } else { Reading::Groove };
        let known = vec![Line::new(1.0, 2.1), Line::new(2.0, 4.4), Line::new(3.0, 6.8)];
        let interpolate = WayBetween::Interpolate { outside: Outside::Extrapolate };
        let shift = WayBetween::ProportionalShift { ratio: 2.0, from: ShiftFrom::Nearest };
        let rules = [
            Rule::linear(slope, offset, reading),
            Ok(Rule::mirror()),
            Rule::lines(reading, known.clone(), interpolate),
            Rule::lines(reading, known, shift),
        ];
        for rule in rules {
            let rule = rule.expect("it is a rule");
            let mut shown: Option<String> = None;
            for bank in banks(&equipment, family, RailModel::Planar) {
                let geometry = bank.geometry();
                let ball = Vec2::new(contact * geometry.diamond_m, across * geometry.span_m);
                let line = rule.line_for_contact(contact, geometry);
                let seen = format!("{line:?} {:?}", rule.aim_from(ball, geometry));
                match &shown {
                    Some(first) => prop_assert_eq!(first, &seen),
                    None => shown = Some(seen),
                }
            }
        }
    }
}
