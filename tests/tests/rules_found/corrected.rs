//! Corrections of a rule against loops over every table of them, and against worlds whose corrections are known.

use crate::support::CLUB;
use railproof_engine::chance::{
    AimedStart, Condition, HoldWindows, PossibleTables, RuleChances, Skill, SpreadNodes, Window,
};
use railproof_engine::discover::{
    BallSpread, CorrectedFor, CorrectionTables, Corrections, DrawnBalls, HAND_M, Halves,
};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Reading};
use railproof_engine::rule::{Outside, Rule, ShiftFrom, WayBetween};
use railproof_engine::units::{Speed, SpeedWord};
use railproof_tests::shipped_equipment;

fn ratio(offset: f64) -> Rule {
    Rule::linear(2.2, offset, Reading::Groove).expect("finite")
}

/// What is added for a ball, said once more.
fn tenths(corrections: Corrections, ball: &Condition) -> i32 {
    let when = |is: bool, tenths: i8| if is { i32::from(tenths) } else { 0 };
    let hands = (1..10).take_while(|hand| ball.off_rail_m > (f64::from(*hand) - 0.5) * HAND_M);
    let hands = hands.last().unwrap_or(0);
    i32::from(corrections.table)
        + hands * i32::from(corrections.hand)
        + when(ball.speed == Speed::Word(SpeedWord::Soft), corrections.soft)
        + when(ball.speed == Speed::Word(SpeedWord::Firm), corrections.firm)
        + when(ball.roll == 1.0, corrections.rolling)
        + when(ball.side > 0.0, corrections.running)
        + when(ball.side < 0.0, corrections.reverse)
}

/// Balls that hold within so much of the starts of the ratio so corrected.
fn world_of(corrections: Corrections, conditions: &[Condition], half_width: f64) -> HoldWindows {
    let table = shipped_equipment("nine-foot");
    let known =
        |windows| HoldWindows::known(&table, &[1.0], conditions, &[windows]).expect("banks");
    let probe = known(vec![Window { from: 0.0, to: 1.0 }; conditions.len()]);
    let window = |(at, ball): (usize, &Condition)| {
        let rule = ratio(0.1 * f64::from(tenths(corrections, ball)));
        let start = AimedStart::by_rule(&rule, ball, &Skill::EXACT, probe.geometry(at));
        let start = start.expect("a line").start;
        Window { from: start - half_width, to: start + half_width }
    };
    known(conditions.iter().enumerate().map(window).collect())
}

#[test]
fn where_corrections_are_true_they_are_found() {
    let [first, second] = BallSpread { rolling: true, side: 0.3, ..BallSpread::USUAL }.halves(1024);
    let skill = Skill { aim_rad: 0.002, start_read: 0.03, ..Skill::EXACT };
    let all =
        Corrections { hand: -1, soft: 3, firm: -2, rolling: -4, running: 5, reverse: -3, table: 2 };
    let few = Corrections { hand: -2, rolling: 1, ..Corrections::NONE };
    for truth in [all, few, Corrections::NONE] {
        let world = |half: &DrawnBalls| world_of(truth, &half.balls, 0.08).in_strata(half.each);
        let halves = Halves { searched: world(&first), told: world(&second) };
        let found = CorrectionTables::of(&halves, &skill, &ratio(0.0)).expect("it never fails");
        assert_eq!(found.named().corrections, truth);
        assert_eq!(found.rows.len(), truth.rows().count());
        for row in &found.rows {
            assert_eq!(row.tenths, truth.of(row.what));
            assert!(row.gain.difference > 3.0 * row.gain.error, "{row:?}");
            // What it gains of all balls is what it gains of those that it is for.
            let share = row.balls as f64 / second.balls.len() as f64;
            assert!((row.gain.difference - share * row.gain_there.difference).abs() < 1e-12);
            let there = second
                .balls
                .iter()
                .filter(|ball| tenths(Corrections::NONE.with(row.what, 1), ball) > 0);
            assert_eq!(there.count(), row.balls);
        }
    }
}

#[test]
fn the_best_tables_are_those_of_every_table_tried_in_turn() {
    let tables = PossibleTables::one(shipped_equipment("nine-foot"));
    let nodes = SpreadNodes::of(&CLUB, SpreadNodes::FEW);
    let balls = BallSpread { hands: 0, side: 0.2, ..BallSpread::USUAL };
    let balls = BallSpread { words: [false, true, true], ..balls }.halves(48);
    let halves =
        Halves::find(&tables, RailModel::NoseAndCloth, &nodes, &balls).expect("these are banks");
    let found = CorrectionTables::of(&halves, &CLUB, &ratio(-0.1)).expect("it never fails");
    let mean = |windows: &HoldWindows, corrections: Corrections| {
        RuleChances::by(windows, &CLUB, |ball, frame| {
            let rule = ratio(-0.1 + 0.1 * f64::from(tenths(corrections, ball)));
            AimedStart::by_rule(&rule, ball, &CLUB, frame).ok()
        })
    };
    // Each ball's chance with each number of tenths, played once.
    let by_tenths: Vec<Vec<f64>> = (-18..=18)
        .map(|tenths| {
            let rule = ratio(-0.1 + 0.1 * f64::from(tenths));
            let windows = &halves.searched;
            let chance = |(at, ball): (usize, &Condition)| {
                AimedStart::by_rule(&rule, ball, &CLUB, windows.geometry(at))
                    .map_or(0.0, |target| windows.chance(at, target, &CLUB).chance)
            };
            windows.conditions().iter().enumerate().map(chance).collect()
        })
        .collect();
    let range = |what: CorrectedFor| -what.most()..=what.most();
    let mut best = [(f64::NEG_INFINITY, Corrections::NONE); 5];
    for table in range(CorrectedFor::Table) {
        for firm in range(CorrectedFor::Firm) {
            for running in range(CorrectedFor::Running) {
                for reverse in range(CorrectedFor::Reverse) {
                    let own = Corrections { table, firm, running, reverse, ..Corrections::NONE };
                    let chance = |(at, ball): (usize, &Condition)| {
                        by_tenths[usize::try_from(tenths(own, ball) + 18).expect("in range")][at]
                    };
                    let balls = halves.searched.conditions().iter().enumerate();
                    let sum: f64 = balls.map(chance).sum();
                    let rows = own.rows().count();
                    if sum > best[rows].0 {
                        best[rows] = (sum, own);
                    }
                }
            }
        }
    }
    let mut front: Vec<(f64, Corrections)> = Vec::new();
    for own in best {
        if front.last().is_none_or(|last| own.0 > last.0 + 1e-12) {
            front.push(own);
        }
    }
    assert!(front.len() > 2, "{front:?}");
    assert_eq!(found.tables.len(), front.len());
    let none = mean(&halves.told, Corrections::NONE);
    for (table, (sum, corrections)) in found.tables.iter().zip(front) {
        assert!((table.searched - sum / 24.0).abs() < 1e-12, "{table:?}, {corrections:?}");
        let own = mean(&halves.told, table.corrections);
        assert_eq!(table.chance, own.chance());
        assert_eq!(table.gain, own.less(&none));
    }
}

#[test]
fn diamonds_added_to_a_rule_are_added_to_each_of_its_starts() {
    let windows = world_of(Corrections::NONE, &BallSpread::USUAL.drawn(3, 1).balls, 0.1);
    let frame = windows.geometry(0);
    let lines = vec![Line::new(1.0, 2.4), Line::new(2.0, 4.3), Line::new(4.0, 9.0)];
    let way = WayBetween::Interpolate { outside: Outside::Extrapolate };
    let shift = WayBetween::ProportionalShift { ratio: 2.2, from: ShiftFrom::default() };
    let rules = [
        ratio(0.1),
        Rule::mirror(),
        Rule::lines(Reading::Groove, lines.clone(), way).expect("lines"),
        Rule::lines(Reading::Groove, lines, shift).expect("lines"),
    ];
    for rule in rules {
        let more = rule.plus(0.3, frame).expect("finite");
        for contact in [0.8, 1.7, 3.1] {
            let start = |rule: &Rule| rule.line_for_contact(contact, frame).expect("a line").start;
            let added = start(&more) - start(&rule);
            assert!((added - 0.3).abs() < 1e-12, "{}: {added}", rule.name());
        }
    }
}
