//! Rules found by search against brute force, worlds whose rule is known, and equals among which luck decides.

use crate::support::{CLUB, ball, balls};
use railproof_engine::chance::{
    AimedStart, Condition, HoldWindows, PossibleTables, Skill, SpreadNodes, Window,
};
use railproof_engine::discover::{
    BallSpread, Corrections, EffortWeights, Grammar, Ground, HeadRule, RuleFront, SpokenSlope,
    best_possible, chances, search,
};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::Reading;
use railproof_engine::units::SpeedWord;
use railproof_tests::random::share_at;
use railproof_tests::{is_thorough, shipped_equipment};
use std::collections::BTreeMap;

fn nine_foot_windows(conditions: &[Condition], skill: &Skill) -> HoldWindows {
    let tables = PossibleTables::one(shipped_equipment("nine-foot"));
    let nodes = SpreadNodes::of(skill, SpreadNodes::USUAL);
    HoldWindows::find(&tables, RailModel::NoseAndCloth, nodes, conditions).expect("banks")
}

#[test]
fn a_rule_looked_up_has_the_chance_of_its_windows_within_three_in_a_thousand() {
    let windows = nine_foot_windows(&balls(), &CLUB);
    let ground = Ground::new(&windows, &CLUB, 3.0);
    let mut worst = 0.0_f64;
    let bases = Grammar::usual().bases();
    for (at, base) in bases.iter().step_by(97).enumerate() {
        let hand = [0, 1, -2, 3][at % 4];
        let corrections =
            Corrections { hand, soft: 2, firm: -1, rolling: [0, -4][at % 2], ..Corrections::NONE };
        let rule = HeadRule { corrections, ..*base };
        let known = chances(&windows, &CLUB, &rule).chance().chance;
        worst = worst.max((ground.chance(&rule) - known).abs());
    }
    // Measured: 0.0004.
    assert!(worst < 0.003, "{worst}");
}

#[test]
fn few_nodes_are_enough_for_means_over_many_balls() {
    let tables = PossibleTables::one(shipped_equipment("nine-foot"));
    let balls = BallSpread { rolling: true, ..BallSpread::USUAL }.drawn(11, 1).balls;
    let [many, few] = [SpreadNodes::USUAL, SpreadNodes::FEW].map(|counts| {
        let nodes = SpreadNodes::of(&CLUB, counts);
        HoldWindows::find(&tables, RailModel::NoseAndCloth, nodes, &balls).expect("banks")
    });
    for base in small_grammar().bases().iter().step_by(41) {
        let [many, few] = [&many, &few].map(|it| chances(it, &CLUB, base).chance().chance);
        assert!((many - few).abs() < 0.003, "{}: {many} and {few}", base.words());
    }
}

/// What is told of balls drawn again and again: how far it falls from that of twenty times as many, and the error that
/// is told beside it.
#[test]
fn the_error_that_is_told_is_the_spread_of_what_is_told() {
    let tables = PossibleTables::one(shipped_equipment("nine-foot"));
    // Of aim and reading alone, so that nothing is left out of an integral.
    let skill = Skill { speed: 0.0, side: 0.0, ..*CLUB };
    let slopes = [(2, 1, 5), (2, 1, 4), (2, 1, 10), (2, 1, 3)];
    let rules = slopes.map(|(whole, parts, of)| {
        HeadRule::straight(Reading::Groove, SpokenSlope::new(whole, parts, of), 0)
    });
    let played = |each: usize, seed: u64| {
        let drawn = BallSpread::USUAL.drawn(each, seed);
        let nodes = SpreadNodes::of(&skill, SpreadNodes::FEW);
        let windows = HoldWindows::find(&tables, RailModel::NoseAndCloth, nodes, &drawn.balls);
        let windows = windows.expect("banks").in_strata(each);
        rules.map(|rule| chances(&windows, &skill, &rule))
    };
    let fine = played(220, 1000);
    for each in [5, 11] {
        let rounds = if is_thorough() { 400 } else { 120 };
        // By rule: its chance, then how much more the first makes.
        let mut squares = [[[0.0; 2]; 4]; 2];
        for seed in 0..rounds {
            let told = played(each, seed);
            for (at, (own, fine_own)) in told.iter().zip(&fine).enumerate() {
                let chance = own.chance();
                let off = chance.chance - fine_own.chance().chance;
                let behind = told[0].less(own);
                let apart = behind.difference - fine[0].less(fine_own).difference;
                for (sums, (off, error)) in
                    squares.iter_mut().zip([(off, chance.error), (apart, behind.error)])
                {
                    sums[at][0] += off * off;
                    sums[at][1] += error * error;
                }
            }
        }
        for (which, sums) in squares.iter().enumerate() {
            for (at, [spread, told]) in sums.iter().enumerate().skip(which) {
                let ratio = (told / spread).sqrt();
                // Never too small, and not much too large. Measured: 1.2 to 1.5 of eleven a kind (a spread of 0.0005 to
                // 0.0015), 1.6 to 1.8 of five; as of balls anywhere it would be twenty times.
                assert!((0.85..2.0).contains(&ratio), "{each} of a kind, rule {at}: {ratio}");
            }
        }
    }
}

/// A grammar small enough to be gone through by loops.
fn small_grammar() -> Grammar {
    Grammar {
        readings: vec![Reading::Groove, Reading::Sight],
        slopes: [(2, 0, 1), (2, 1, 10), (2, 1, 5), (2, 1, 4), (2, 1, 3), (2, 1, 2)]
            .map(|(whole, parts, of)| SpokenSlope::new(whole, parts, of))
            .to_vec(),
        offsets: vec![-2, 0, 2],
        bends: vec![4, 6],
        hand: vec![-1, 0, 1],
        soft: vec![-2, 2, 4],
        firm: vec![-2, 2],
        rolling: vec![-4, -2],
    }
}

#[test]
fn the_front_is_that_of_every_rule_tried_in_turn() {
    let windows = nine_foot_windows(&balls(), &CLUB);
    let ground = Ground::new(&windows, &CLUB, 3.0);
    let grammar = small_grammar();
    let mut best: BTreeMap<_, (f64, HeadRule)> = BTreeMap::new();
    let mut tried = 0_u64;
    for base in grammar.bases() {
        for hand in [0, -1, 1] {
            for soft in [0, -2, 2, 4] {
                for firm in [0, -2, 2] {
                    for rolling in [0, -4, -2] {
                        let corrections =
                            Corrections { hand, soft, firm, rolling, ..Corrections::NONE };
                        let rule = HeadRule { corrections, ..base };
                        let chance = ground.chance(&rule);
                        tried += 1;
                        let known = best.entry(rule.effort()).or_insert((chance, rule));
                        if chance > known.0 + 1e-12 {
                            *known = (chance, rule);
                        }
                    }
                }
            }
        }
    }
    assert_eq!(tried, grammar.count());
    let found = search(&ground, &grammar);
    assert_eq!((found.iter().count(), found.tried()), (best.len(), tried));
    let bound = best_possible(&windows, &CLUB, 2.0);
    for (effort, chance, rule) in found.iter() {
        assert!(chance < bound, "{rule:?} makes {chance}, more than {bound}");
        let (known, by_loops) = best[&effort];
        assert!(
            (chance - known).abs() < 1e-12,
            "{effort:?}: {rule:?} {chance}, {by_loops:?} {known}"
        );
        assert!((ground.chance(&rule) - chance).abs() < 1e-12);
        assert_eq!(rule, by_loops, "{effort:?}");
    }
}

/// Windows of one width about the starts that a rule gives.
fn world_of(rule: &HeadRule, conditions: &[Condition], half_width: f64) -> HoldWindows {
    let table = shipped_equipment("nine-foot");
    let probe = HoldWindows::known(
        &table,
        &[1.0],
        conditions,
        &[vec![Window { from: 0.0, to: 1.0 }; conditions.len()]],
    )
    .expect("banks");
    let windows = conditions
        .iter()
        .enumerate()
        .map(|(at, condition)| {
            let start =
                rule.target(condition, &Skill::EXACT, probe.geometry(at)).expect("a line").start;
            Window { from: start - half_width, to: start + half_width }
        })
        .collect();
    HoldWindows::known(&table, &[1.0], conditions, &[windows]).expect("banks")
}

#[test]
fn where_one_rule_is_true_it_is_found() {
    let conditions = BallSpread { rolling: true, ..BallSpread::USUAL }.drawn(11, 1).balls;
    let weights = EffortWeights::EVEN;
    let skill = Skill { aim_rad: 0.002, start_read: 0.03, ..Skill::EXACT };
    let straight = HeadRule::straight(Reading::Groove, SpokenSlope::new(2, 1, 5), 0);
    let corrected = HeadRule {
        corrections: Corrections { hand: -1, soft: 3, rolling: -4, ..Corrections::NONE },
        ..HeadRule::straight(Reading::Sight, SpokenSlope::new(2, 1, 4), 2)
    };
    for truth in [straight, corrected] {
        let world = world_of(&truth, &conditions, 0.08);
        let grammar = if is_thorough() { Grammar::usual() } else { wider_than_small() };
        let best = search(&Ground::new(&world, &skill, 3.0), &grammar);
        let front = RuleFront::of(&best, weights, &world, &skill);
        let named = &front.rules[front.named];
        assert_eq!(named.rule, truth, "{}", named.rule.words());
    }
}

fn wider_than_small() -> Grammar {
    Grammar { bends: vec![5], offsets: (-3..=3).collect(), ..Grammar::usual() }
}

#[test]
fn of_a_thousand_equal_rules_the_best_is_told_without_its_luck() {
    // Every ball's window lies anywhere within half a diamond, so all rules that aim near are alike.
    let table = shipped_equipment("nine-foot");
    let skill = Skill { start_read: 0.05, ..Skill::EXACT };
    let rounds = if is_thorough() { 200 } else { 40 };
    let (mut searched, mut told, mut truth) = (0.0, 0.0, 0.0);
    let mut squares = 0.0;
    for round in 0..rounds {
        let half = |which: u64| {
            let conditions: Vec<Condition> = (0..60)
                .map(|at| ball(1.0 + 2.5 * share_at(at * 7919 + which), 0.0, SpeedWord::Medium))
                .collect();
            let windows = (0..60)
                .map(|at| {
                    2.0 * conditions[at].number
                        + share_at(1_000_003 * round + 131 * at as u64 + which)
                        - 0.5
                })
                .map(|middle| Window { from: middle - 0.1, to: middle + 0.1 })
                .collect();
            HoldWindows::known(&table, &[1.0], &conditions, &[windows]).expect("banks")
        };
        let (first, second) = (half(17), half(18));
        // A thousand starts within the flat part of that law: from -0.35 to 0.35 about twice the number.
        let targets = |windows: &HoldWindows, rule: u64| -> Vec<Option<AimedStart>> {
            let wave = |number: f64| {
                let phase = core::f64::consts::TAU * share_at(rule + 5_000_000);
                0.3 * libm::sin(9.0 * number * share_at(rule + 9_000_000) + phase)
            };
            windows
                .conditions()
                .iter()
                .map(|it| {
                    Some(AimedStart { start: 2.0 * it.number + wave(it.number), read_spread: 0.05 })
                })
                .collect()
        };
        let mean = |windows: &HoldWindows, rule: u64| {
            let targets = targets(windows, rule);
            let sum: f64 = targets
                .iter()
                .enumerate()
                .map(|(at, target)| windows.chance(at, target.expect("a target"), &skill).chance)
                .sum();
            sum / targets.len() as f64
        };
        let best =
            (0..1000).max_by(|a, b| mean(&first, *a).total_cmp(&mean(&first, *b))).expect("rules");
        searched += mean(&first, best);
        let on_others = mean(&second, best);
        told += on_others;
        squares += on_others * on_others;
        truth += 0.2;
    }
    let n = f64::from(u32::try_from(rounds).expect("few"));
    let (searched, told, truth) = (searched / n, told / n, truth / n);
    let error = ((squares / n - told * told) / n).sqrt();
    // Every window is 0.2 wide within a stretch of 1, so every rule makes 0.2 of the balls.
    assert!((told - truth).abs() < 3.0 * error, "told {told} ± {error}, true {truth}");
    assert!(searched > truth + 6.0 * error, "searched {searched}, true {truth}");
}
