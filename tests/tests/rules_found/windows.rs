//! Hold windows against rows of banks played one by one.

use crate::support::{CLUB, ball, balls, wide};
use railproof_engine::bank::{Bank, BankVerdict, Launch};
use railproof_engine::chance::{Condition, HoldWindows, PossibleTables, Skill, SpreadNodes};
use railproof_engine::column::SetUp;
use railproof_engine::ensemble::{Ensemble, MemberNumber};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Pocket, Rail};
use railproof_engine::units::SpeedWord;
use railproof_tests::{is_thorough, shipped_equipment};

/// Starts nearer to an edge are not asked, diamonds.
const AT_EDGE: f64 = 1e-5;

/// Plays a row of starts for every table, condition and node; returns the banks played, those that hold, and
/// the starts of which the windows say otherwise.
fn played(
    tables: &PossibleTables,
    model: RailModel,
    conditions: &[Condition],
    step: f64,
) -> (usize, usize, Vec<String>) {
    let nodes = SpreadNodes::of(&CLUB, SpreadNodes::USUAL);
    let windows = HoldWindows::find(tables, model, nodes.clone(), conditions).expect("banks");
    let (mut banks, mut holding, mut wrong) = (0, 0, Vec::new());
    for (table, equipment) in tables.equipment().iter().enumerate() {
        for (at, condition) in conditions.iter().enumerate() {
            let bank =
                Bank::new(equipment, condition.rail, condition.pocket, model).expect("a bank");
            let places = condition.on(bank.geometry());
            let meant = condition.launch(equipment);
            let habit = tables.habits()[table];
            for (node, found) in nodes.nodes().iter().zip(windows.of(table, at)) {
                let mut away = 0.5 * step;
                while away < 2.5 * condition.number.abs() + 1.5 {
                    let start = condition.number + away * condition.number.signum();
                    away += step;
                    let edges = found.iter().flat_map(|it| [it.from, it.to]);
                    if edges.into_iter().any(|edge| (edge - start).abs() < AT_EDGE) {
                        continue;
                    }
                    let line = places.line(start);
                    let right = bank.geometry().right_side_runs(line);
                    let launch = Launch {
                        speed_m_s: meant.speed_m_s * node.speed_ratio,
                        side: meant.side + node.side + right * habit.right_side,
                        aim_error_rad: habit.aim_rad,
                        ..meant
                    };
                    let verdict = bank.play(line, launch).expect("played").verdict();
                    let holds = verdict == BankVerdict::Holds;
                    banks += 1;
                    holding += usize::from(holds);
                    if holds != found.iter().any(|it| it.from < start && start < it.to) {
                        wrong.push(format!(
                            "{condition:?} {node:?} start {start}: {verdict:?}, {found:?}"
                        ));
                    }
                }
            }
        }
    }
    (banks, holding, wrong)
}

#[test]
fn a_start_holds_where_it_lies_in_a_window_and_nowhere_else() {
    let tables = wide(&shipped_equipment("nine-foot"), if is_thorough() { 6 } else { 2 });
    let (banks, holding, wrong) = played(&tables, RailModel::NoseAndCloth, &balls(), 0.031);
    assert!(banks > 400_000 && holding > 8_000, "{banks} banks, {holding} hold");
    assert!(wrong.is_empty(), "{} of {banks}: {:#?}", wrong.len(), &wrong[..wrong.len().min(5)]);
}

#[test]
fn so_it_is_for_side_pockets_end_rails_and_other_models() {
    let table = PossibleTables::one(shipped_equipment("seven-foot"));
    let side = |number: f64, roll: f64| Condition {
        pocket: Pocket::SideRight,
        roll,
        ..ball(number, 0.15, SpeedWord::Medium)
    };
    let end =
        |pocket: Pocket| Condition { rail: Rail::Head, pocket, ..ball(1.2, 0.2, SpeedWord::Firm) };
    let conditions = [
        side(1.1, 0.0),
        side(-1.1, 0.0),
        side(2.2, 1.0),
        end(Pocket::FootLeft),
        end(Pocket::SideRight),
    ];
    for model in [RailModel::NoseOnly, RailModel::Planar] {
        let (banks, holding, wrong) = played(&table, model, &conditions, 0.004);
        assert!(holding > 300, "{banks} banks, {holding} hold");
        assert!(
            wrong.is_empty(),
            "{} of {banks}: {:#?}",
            wrong.len(),
            &wrong[..wrong.len().min(5)]
        );
    }
}

#[test]
fn what_a_member_always_does_moves_the_starts_that_hold_for_them() {
    let table = shipped_equipment("nine-foot");
    let ensemble = Ensemble::wide(if is_thorough() { 64 } else { 8 }, 5);
    let model = RailModel::NoseAndCloth;
    let conditions = [
        ball(2.0, 0.0, SpeedWord::Firm),
        ball(2.6, 0.3, SpeedWord::Medium),
        ball(3.4, 0.1, SpeedWord::Firm),
    ];
    let windows = |ensemble: &Ensemble| {
        let nodes = SpreadNodes::of(&Skill::EXACT, SpreadNodes::USUAL);
        HoldWindows::find(&PossibleTables::of(&table, ensemble), model, nodes, &conditions)
            .expect("banks")
    };
    let (own, plain) = (windows(&ensemble), windows(&without_habits(&ensemble)));
    let (mut moved, mut edges) = (0, 0);
    for (at, member) in ensemble.members().iter().enumerate() {
        let equipment = member.equipment(&table);
        for (condition, asked) in conditions.iter().enumerate() {
            let bank = Bank::new(&equipment, asked.rail, asked.pocket, model).expect("a bank");
            let places = asked.on(bank.geometry());
            // As a measured bank is played by its member.
            let holds = |start: f64| {
                let line = places.line(start);
                let (rail, pocket) = (asked.rail, asked.pocket);
                let set_up = SetUp::stun(rail, pocket, line, asked.off_rail_m, asked.speed);
                let launch = set_up.sent_by(member, bank.geometry()).launch(&equipment);
                bank.play(line, launch).expect("played").verdict() == BankVerdict::Holds
            };
            let window = own.of(at, condition).next().expect("a node");
            let before = plain.of(at, condition).next().expect("a node");
            for window in window {
                for (edge, inwards) in [(window.from, AT_EDGE), (window.to, -AT_EDGE)] {
                    assert!(holds(edge + inwards) && !holds(edge - inwards), "{asked:?} {edge}");
                    edges += 1;
                }
            }
            if let ([one], [other]) = (window, before) {
                moved += usize::from((one.from - other.from).abs() > 0.01);
            }
        }
    }
    assert!(edges > 20 && moved > 10, "{edges} edges, {moved} windows moved");
}

/// The same tables with players who do nothing always.
fn without_habits(ensemble: &Ensemble) -> Ensemble {
    let members = ensemble.members().iter().map(|member| {
        let mut member = *member;
        for number in [MemberNumber::AimBias, MemberNumber::SideBias] {
            member.place[number.place()] = 0.5;
        }
        member
    });
    Ensemble::weighted(members.collect(), ensemble.weights().to_vec())
}
