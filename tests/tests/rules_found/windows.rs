//! Hold windows against rows of banks played one by one.

use crate::support::{CLUB, ball, balls, wide};
use railproof_engine::bank::{Bank, BankVerdict, Launch};
use railproof_engine::chance::{Condition, HoldWindows, PossibleTables, SpreadNodes};
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
            for (node, found) in nodes.nodes().iter().zip(windows.of(table, at)) {
                let launch = Launch {
                    speed_m_s: meant.speed_m_s * node.speed_ratio,
                    side: meant.side + node.side,
                    ..meant
                };
                let mut away = 0.5 * step;
                while away < 2.5 * condition.number.abs() + 1.5 {
                    let start = condition.number + away * condition.number.signum();
                    away += step;
                    let edges = found.iter().flat_map(|it| [it.from, it.to]);
                    if edges.into_iter().any(|edge| (edge - start).abs() < AT_EDGE) {
                        continue;
                    }
                    let verdict = bank.play(places.line(start), launch).expect("played").verdict();
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
