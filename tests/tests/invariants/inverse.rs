//! Banks run backwards: what is called exact, an edge or a margin is one.

use crate::strategies::{cases, impulse_model, playable, rail_and_pocket};
use proptest::prelude::*;
use railproof_engine::bank::{
    Bank, BankVerdict, Direction, Launch, aim_margin, exact_start, holding_speeds,
};
use railproof_engine::rail::Line;

/// A bank that mostly holds.
fn usual_bank() -> impl Strategy<Value = Bank> {
    (playable(), rail_and_pocket(), impulse_model()).prop_map(
        |(equipment, (rail, pocket), model)| {
            Bank::new(&equipment, rail, pocket, model).expect("the pocket opens elsewhere")
        },
    )
}

fn usual_launch() -> impl Strategy<Value = Launch> {
    (prop_oneof![Just(0.0), 0.0..0.4_f64], 1.0..7.0_f64, -0.5..1.0_f64, -0.3..0.3_f64).prop_map(
        |(off_rail_m, speed_m_s, roll, side)| Launch {
            off_rail_m,
            speed_m_s,
            roll,
            side,
            aim_error_rad: 0.0,
        },
    )
}

proptest! {
    #![proptest_config(cases(2))]

    /// The exact start has equal clearance to both points, and its neighbours miss on either side.
    #[test]
    fn exact_starts_are_exact(
        bank in usual_bank(), contact in 0.3..3.8_f64, launch in usual_launch(),
    ) {
        let Ok(start) = exact_start(&bank, contact, launch) else { return Ok(()) };
        let arrival = |start: f64| {
            bank.play(Line::new(contact, start), launch).expect("it is valid").arrival
        };
        let exact = arrival(start).expect("it comes to the mouth");
        prop_assert!(exact.miss_m.abs() < 1e-9, "{exact:?}");
        prop_assert!((exact.clearance_long_m - exact.clearance_short_m).abs() < 2e-9);
        let beside = |change: f64| arrival(start + change).map(|arrival| arrival.miss_m);
        if let (Some(below), Some(above)) = (beside(-1e-6), beside(1e-6)) {
            prop_assert!(below * above < 0.0, "{below} and {above} about {start}");
        }
    }
}

proptest! {
    #![proptest_config(cases(10))]

    /// Inside every holding stretch the line holds, just outside it does not, and nowhere that was
    /// looked at is there more room than where the most is.
    #[test]
    fn holding_speeds_are_edges(
        bank in usual_bank(), contact in 0.5..3.8_f64, launch in usual_launch(),
        off_start in -0.1..0.1_f64,
    ) {
        let Ok(start) = exact_start(&bank, contact, launch) else { return Ok(()) };
        let line = Line::new(contact, start + off_start);
        let (from, to) = (0.3, 8.0);
        let Ok(speeds) = holding_speeds(&bank, line, launch, (from, to)) else { return Ok(()) };
        let room = |speed_m_s: f64| {
            let launch = Launch { speed_m_s, ..launch };
            let outcome = bank.play(line, launch).expect("it is valid");
            outcome.clearance_m().filter(|_| outcome.verdict() == BankVerdict::Holds)
        };
        let holds = |speed_m_s: f64| room(speed_m_s).is_some();
        let (inside, outside) = (1.0 + 1e-6, 1.0 - 1e-6);
        prop_assert_eq!(speeds.searched_m_s, (from, to));
        let mut last = 0.0;
        for stretch in &speeds.intervals {
            let (low, high) = (stretch.from_m_s, stretch.to_m_s);
            prop_assert!(low > last && high >= low, "{speeds:?}");
            last = high;
            prop_assert!(holds(low) && holds(high));
            prop_assert_eq!(stretch.breaks_below, low > from);
            prop_assert_eq!(stretch.breaks_above, high < to);
            prop_assert!(!stretch.breaks_below || !holds(low * outside), "{speeds:?}");
            prop_assert!(!stretch.breaks_above || !holds(high * inside), "{speeds:?}");
        }
        let best = speeds.most_room;
        prop_assert_eq!(room(best.speed_m_s), Some(best.clearance_m));
        let within = |speed: f64| {
            speeds.intervals.iter().any(|it| speed >= it.from_m_s && speed <= it.to_m_s)
        };
        prop_assert!(within(best.speed_m_s));
        for k in 0..40 {
            let speed = from * (to / from).powf(f64::from(k) / 39.0);
            // Between two speeds that were looked at a little more may hide.
            if let Some(room) = room(speed) {
                prop_assert!(room <= best.clearance_m + 2e-4, "{speed}: {room} {speeds:?}");
            }
        }
    }
}

proptest! {
    #![proptest_config(cases(20))]

    /// Turned a little less than the margin the bank holds, a little more and it does not; one way
    /// is long and the other short.
    #[test]
    fn aim_margins_are_edges(
        bank in usual_bank(), contact in 0.5..3.8_f64, launch in usual_launch(),
    ) {
        let Ok(start) = exact_start(&bank, contact, launch) else { return Ok(()) };
        let line = Line::new(contact, start);
        let Ok(margin) = aim_margin(&bank, line, launch) else { return Ok(()) };
        let limit = 0.29;
        prop_assume!(margin.long_rad < limit && margin.short_rad < limit);
        let verdict = |aim_error_rad: f64| {
            bank.play(line, Launch { aim_error_rad, ..launch }).expect("it is valid").verdict()
        };
        let (inside, outside) = (1.0 - 1e-6, 1.0 + 1e-6);
        let edge = |turn: f64| {
            verdict(turn * inside) == BankVerdict::Holds && verdict(turn * outside) != BankVerdict::Holds
        };
        let (long, short) = (margin.long_rad, margin.short_rad);
        let senses = [(long, -short), (-long, short)];
        let sense = senses.into_iter().find(|(a, b)| edge(*a) && edge(*b));
        prop_assert!(sense.is_some(), "{margin:?}");
        if let Some((to_long, to_short)) = sense {
            let broken = |turn: f64| verdict(turn * outside).direction();
            prop_assert_ne!(broken(to_long), Some(Direction::Short), "{:?}", margin);
            prop_assert_ne!(broken(to_short), Some(Direction::Long), "{:?}", margin);
            for step in 1..20 {
                let share = f64::from(step) / 20.0;
                prop_assert_eq!(verdict(to_long * share), BankVerdict::Holds);
                prop_assert_eq!(verdict(to_short * share), BankVerdict::Holds);
            }
        }
        prop_assert!(margin.long_diamonds > 0.0 && margin.short_diamonds > 0.0);
    }
}
