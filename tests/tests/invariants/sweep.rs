//! Sweeps: the same rows for any number of threads, and sums that are the sums of their parts.

use crate::strategies::{cases, equipment, impulse_model, launch};
use proptest::prelude::*;
use railproof_engine::bank::BankVerdict;
use railproof_engine::rail::Reading;
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::{Axis, Input, Plan, Row, Tally, Values, compare, exact_starts, rank};
use railproof_tests::input;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicUsize, Ordering};

fn pools() -> &'static [rayon::ThreadPool] {
    static POOLS: OnceLock<Vec<rayon::ThreadPool>> = OnceLock::new();
    POOLS.get_or_init(|| {
        [1, 2, 3, 7]
            .map(|threads| {
                rayon::ThreadPoolBuilder::new()
                    .num_threads(threads)
                    .build()
                    .expect("threads can be started")
            })
            .into()
    })
}

fn rules() -> Vec<NamedRule> {
    [
        ("a ratio", Rule::linear(2.2, 0.0, Reading::Groove)),
        ("doubled", Rule::linear(2.0, 0.0, Reading::Sight)),
        ("mirror", Ok(Rule::mirror())),
    ]
    .map(|(name, rule)| NamedRule { name: name.to_owned(), rule: rule.expect("it is a rule") })
    .into()
}

/// A plan with axes of the table and of the launch in any order.
fn plan() -> impl Strategy<Value = Plan> {
    let numbers = |low: f64, high: f64, most: usize| prop::collection::vec(low..high, 1..=most);
    (
        prop::collection::vec(equipment(), 1..=2),
        numbers(0.3, 3.8, 6),
        prop::collection::vec(launch(), 1..=4),
        numbers(0.1, 0.24, 2),
        prop::collection::vec(impulse_model(), 1..=2),
        any::<prop::sample::Index>(),
    )
        .prop_map(|(tables, contacts, launches, cloths, models, turn)| {
            let speeds = launches.iter().map(|(_, launch)| launch.speed_m_s).collect();
            let rolls = launches.iter().map(|(_, launch)| launch.roll).collect();
            let axis = |input, values| Axis { input, values };
            let mut axes = vec![
                axis(Input::Equipment, Values::Equipment(tables)),
                axis(Input::Contact, Values::Numbers(contacts)),
                axis(Input::Speed, Values::Numbers(speeds)),
                axis(Input::Roll, Values::Numbers(rolls)),
                axis(input("sliding_friction"), Values::Numbers(cloths)),
                axis(Input::RailModel, Values::Models(models)),
                axis(Input::OffRail, Values::Numbers(vec![0.0, 0.1])),
            ];
            let middle = turn.index(axes.len());
            axes.rotate_left(middle);
            Plan::new(axes).expect("every axis is valid")
        })
}

fn of_rule(rows: &[Row], rule: usize) -> Vec<&Row> {
    rows.iter().filter(|row| row.rule == rule).collect()
}

proptest! {
    #![proptest_config(cases(100))]

    #[test]
    fn rows_do_not_depend_on_threads(plan in plan()) {
        let rules = rules();
        let mut shown: Option<String> = None;
        for pool in pools() {
            let ticks = AtomicUsize::new(0);
            let tick = || {
                ticks.fetch_add(1, Ordering::Relaxed);
            };
            let rows = pool.install(|| compare(&plan, &rules, &tick)).expect("it can be played");
            let points = usize::try_from(plan.size()).expect("a small plan");
            prop_assert_eq!(ticks.load(Ordering::Relaxed), points);
            let order: Vec<(usize, usize)> = rows.iter().map(|row| (row.point, row.rule)).collect();
            let wanted: Vec<(usize, usize)> =
                (0..points).flat_map(|point| (0..3).map(move |rule| (point, rule))).collect();
            prop_assert_eq!(order, wanted);
            // The shortest digits that read back as the same number: equal text, equal bits.
            let text = format!("{rows:?}");
            match &shown {
                Some(first) => prop_assert!(*first == text, "rows differ"),
                None => shown = Some(text),
            }
        }
    }

    /// A point of a sweep is the bank played alone.
    #[test]
    fn rows_are_single_banks(plan in plan(), pick in any::<prop::sample::Index>()) {
        let rows = compare(&plan, &rules(), &|| {}).expect("it can be played");
        let row = rows[pick.index(rows.len())];
        let digits = plan.digits(row.point);
        let bank = plan.bank(&digits).expect("it is a bank");
        let alone = bank.play(row.line, plan.launch(&digits, &bank)).expect("it is valid");
        prop_assert_eq!(format!("{:?}", alone), format!("{:?}", row.outcome));
    }

    #[test]
    fn summaries_add_up(plan in plan(), cut in any::<prop::sample::Index>()) {
        let rows = compare(&plan, &rules(), &|| {}).expect("it can be played");
        let whole = Tally::of(&rows);
        let (first, second) = rows.split_at(cut.index(rows.len()));
        let parts = [Tally::of(first), Tally::of(second)];
        // Whichever comes first, to the bit.
        let [mut added, before] = [parts[1], parts[0]];
        added.merge(&before);
        prop_assert_eq!(added, whole);
        prop_assert_eq!(Tally::of(rows.iter().rev()), whole);
        prop_assert_eq!(whole.played(), rows.len() as u64);
        for verdict in BankVerdict::ALL {
            let alike = |row: &&Row| row.outcome.verdict() == verdict;
            prop_assert_eq!(whole.number_of(verdict), rows.iter().filter(alike).count() as u64);
        }
        let misses: Vec<f64> = rows.iter().filter_map(|row| row.outcome.miss_m()).collect();
        prop_assert_eq!(whole.with_miss, misses.len() as u64);
        let worst = misses.iter().fold(0.0_f64, |worst, miss| worst.max(miss.abs()));
        prop_assert_eq!(whole.worst_miss_m.map(f64::abs), (!misses.is_empty()).then_some(worst));
        let mean = misses.iter().sum::<f64>() / (misses.len().max(1) as f64);
        let squares = misses.iter().map(|miss| miss * miss).sum::<f64>();
        let rms = (squares / misses.len().max(1) as f64).sqrt();
        prop_assert!((whole.mean_miss_m().unwrap_or(0.0) - mean).abs() <= 1e-12 * worst);
        prop_assert!((whole.rms_miss_m().unwrap_or(0.0) - rms).abs() <= 1e-12 * worst);
        prop_assert!(mean.abs() <= rms * (1.0 + 1e-12) && rms <= worst * (1.0 + 1e-12));
    }

    /// A ranking has every rule once, with its own rows' summary, the larger share first.
    #[test]
    fn rankings_are_in_order(plan in plan()) {
        let rows = compare(&plan, &rules(), &|| {}).expect("it can be played");
        let standings = rank(&rows, 3);
        let mut seen: Vec<usize> = standings.iter().map(|standing| standing.rule).collect();
        for pair in standings.windows(2) {
            let (a, b) = (&pair[0].tally, &pair[1].tally);
            prop_assert!(
                a.holds() > b.holds()
                    || (a.holds() == b.holds() && a.rms_miss_m() <= b.rms_miss_m())
            );
        }
        for standing in &standings {
            let own = Tally::of(of_rule(&rows, standing.rule));
            prop_assert_eq!(standing.tally, own);
        }
        seen.sort_unstable();
        prop_assert_eq!(seen, vec![0, 1, 2]);
    }

    #[test]
    fn exact_starts_do_not_depend_on_threads(plan in plan()) {
        let mut shown: Option<String> = None;
        for pool in pools() {
            let rows = pool.install(|| exact_starts(&plan, &|| {})).expect("it can be asked");
            let text = format!("{rows:?}");
            match &shown {
                Some(first) => prop_assert!(*first == text, "rows differ"),
                None => shown = Some(text),
            }
        }
    }
}
