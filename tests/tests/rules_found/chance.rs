//! Chances against closed forms and shots drawn at random.

use crate::support::{CLUB, ball, wide};
use core::f64::consts::FRAC_1_SQRT_2;
use railproof_engine::bank::{Bank, Launch};
use railproof_engine::chance::drawn::{Draw, drawn_chances};
use railproof_engine::chance::{
    AimedStart, Condition, HoldWindows, PossibleTables, Skill, SpreadNodes, rank_by_chance,
};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{BankGeometry, Reading};
use railproof_engine::rule::{Rule, common_rules};
use railproof_engine::units::{Speed, SpeedWord};
use railproof_engine::vector::Vec2;
use railproof_tests::{is_thorough, shipped_equipment};

/// The share of the normal law below z.
fn below(z: f64) -> f64 {
    0.5 * libm::erfc(-z * FRAC_1_SQRT_2)
}

/// Where a ball comes off the rail as light off a mirror, the way to a mouth point is straight to the point's
/// image in the groove; a ball that just clears it passes R·cosθ beside.
fn mirror_angle(ball: Vec2, point: Vec2, geometry: &BankGeometry, beside: f64) -> f64 {
    let image = Vec2::new(point.x, 2.0 * geometry.span_m - point.y);
    let away = image - ball;
    let angle = libm::atan2(-away.x, away.y);
    angle + beside * libm::asin(geometry.groove_m / away.norm())
}

#[test]
fn with_a_mirror_for_a_rail_and_only_aim_to_err_in_the_chance_is_a_difference_of_two_normal_shares()
{
    let mut equipment = shipped_equipment("nine-foot");
    equipment.cushion.restitution = 1.0;
    equipment.cushion.restitution_loss_s_m = 0.0;
    equipment.cushion.nose_friction = 0.0;
    equipment.cushion.contact_time_s = 0.0;
    let geometry = BankGeometry::new(
        &equipment,
        ball(2.0, 0.0, SpeedWord::Firm).rail,
        ball(2.0, 0.0, SpeedWord::Firm).pocket,
    )
    .expect("a bank");
    for (number, off_rail_m, aim_rad) in [
        (2.0, 0.0, 0.003),
        (2.0, 0.25, 0.01),
        (3.4, 0.0, 0.02),
        (1.1, 0.4, 0.006),
        (3.0, 0.1, 0.001),
    ] {
        let condition = ball(number, off_rail_m, SpeedWord::Firm);
        let skill = Skill { aim_rad, ..Skill::EXACT };
        let windows = HoldWindows::find(
            &PossibleTables::one(equipment.clone()),
            RailModel::Planar,
            SpreadNodes::of(&skill, SpreadNodes::USUAL),
            &[condition],
        )
        .expect("a bank");
        let place = condition.ball_m(&geometry);
        let short = mirror_angle(place, geometry.mouth.short_point, &geometry, 1.0);
        let long = mirror_angle(place, geometry.mouth.long_point, &geometry, -1.0);
        for start in [1.9 * number, 2.0 * number, 2.03 * number] {
            let aimed = condition.on(&geometry).angle_rad(start);
            let known = (below((short.max(long) - aimed) / aim_rad)
                - below((short.min(long) - aimed) / aim_rad))
            .abs();
            let target = AimedStart { start, read_spread: 0.0 };
            let chance = windows.chance(0, target, &skill);
            assert!(
                (chance.chance - known).abs() < 1e-9,
                "ball {number}, start {start}: {} and {known}",
                chance.chance
            );
            assert!(chance.error < 1e-12);
        }
    }
}

#[test]
fn reading_alone_is_a_difference_of_two_normal_shares_of_numbers() {
    let condition = ball(2.5, 0.3, SpeedWord::Medium);
    let windows = HoldWindows::find(
        &PossibleTables::one(shipped_equipment("nine-foot")),
        RailModel::NoseAndCloth,
        SpreadNodes::of(&Skill::EXACT, SpreadNodes::USUAL),
        &[condition],
    )
    .expect("a bank");
    let window = windows.of(0, 0).next().expect("a node")[0];
    let (start, read_spread) = (window.from + 0.03, 0.2);
    let known =
        below((window.to - start) / read_spread) - below((window.from - start) / read_spread);
    let chance = windows.chance(0, AimedStart { start, read_spread }, &Skill::EXACT).chance;
    assert!((chance - known).abs() < 1e-12, "{chance} and {known}");
}

/// Balls that ask much of the integral: frozen and soft, far off the rail, near the end of a roll.
fn hard_balls() -> Vec<Condition> {
    vec![
        ball(2.0, 0.0, SpeedWord::Soft),
        ball(3.6, 0.0, SpeedWord::Firm),
        ball(1.2, 0.3, SpeedWord::Medium),
        Condition { roll: 1.0, ..ball(2.8, 0.2, SpeedWord::Soft) },
    ]
}

#[test]
fn windows_and_nodes_agree_with_shots_drawn_at_random_within_three_in_a_thousand() {
    let tables = PossibleTables::one(shipped_equipment("nine-foot"));
    let model = RailModel::NoseAndCloth;
    let conditions = hard_balls();
    let nodes = SpreadNodes::on_tables(&CLUB, 1);
    let windows = HoldWindows::find(&tables, model, nodes, &conditions).expect("banks");
    let rule = Rule::linear(2.2, 0.0, Reading::Groove).expect("finite");
    // Thorough: 1.05e7 shots over the balls.
    let draw = Draw { replicates: 16, shots: if is_thorough() { 163_840 } else { 8_192 }, seed: 5 };
    for (at, condition) in conditions.iter().enumerate() {
        let geometry = windows.geometry(at);
        let target = AimedStart::by_rule(&rule, condition, &CLUB, geometry).expect("a line");
        let best = AimedStart { start: windows.middle(at), ..target };
        let drawn =
            drawn_chances(&tables, model, condition, &CLUB, &[target, best], draw).expect("a bank");
        for (target, (drawn, _)) in [target, best].into_iter().zip(drawn) {
            let known = windows.chance(at, target, &CLUB);
            let apart = (known.chance - drawn.chance).abs();
            assert!(
                apart < 0.003 + 4.0 * drawn.error && apart < known.error + 4.0 * drawn.error + 1e-3,
                "{condition:?}: {known:?} and {drawn:?}"
            );
        }
    }
}

/// Hands of every sureness, wide spreads of the speed among them, and balls that a soft stroke leaves short of the
/// pocket.
#[test]
fn a_chance_is_what_shots_drawn_at_random_say_within_its_own_error() {
    let tables = PossibleTables::one(shipped_equipment("nine-foot"));
    let model = RailModel::NoseAndCloth;
    let read = Skill { contact_read: 0.02, start_read: 0.03, ..Skill::EXACT };
    let hands = [
        Skill { speed: 0.1, ..Skill::EXACT },
        Skill { speed: 0.2, ..Skill::EXACT },
        Skill { speed: 0.3, ..Skill::EXACT },
        Skill { aim_rad: 0.001, speed: 0.2, ..Skill::EXACT },
        Skill { aim_rad: 0.004, speed: 0.2, ..Skill::EXACT },
        Skill { aim_rad: 0.001, side: 0.015, ..Skill::EXACT },
        Skill { aim_rad: 0.002, speed: 0.05, side: 0.015, ..Skill::EXACT },
        Skill { aim_rad: 0.004, speed: 0.05, side: 0.02, ..read },
        Skill { aim_rad: 0.006, speed: 0.1, side: 0.05, ..Skill::EXACT },
        Skill { aim_rad: 0.012, speed: 0.2, side: 0.1, start_read: 0.15, ..Skill::EXACT },
    ];
    let at = |number: f64, off_rail_m: f64, m_s: f64| Condition {
        speed: Speed::MetresPerSecond(m_s),
        ..ball(number, off_rail_m, SpeedWord::Medium)
    };
    let balls = [
        at(2.0, 0.0, 1.5),
        at(2.0, 0.05, 2.0),
        at(2.22, 0.1, 3.0),
        at(3.0, 0.0, 3.0),
        at(2.35, 0.2, 2.4),
        Condition { roll: 1.0, ..at(2.35, 0.2, 2.4) },
        Condition { side: 0.3, ..at(2.0, 0.1, 3.0) },
    ];
    let shots = if is_thorough() { 131_072 } else { 8_192 };
    let draw = Draw { replicates: 8, shots, seed: 7 };
    for skill in &hands {
        let nodes = SpreadNodes::on_tables(skill, 1);
        let windows = HoldWindows::find(&tables, model, nodes, &balls).expect("banks");
        for (at, condition) in balls.iter().enumerate() {
            let middle = windows.middle(at);
            let targets = [0.0, 0.05, -0.1].map(|beside| {
                AimedStart::at_start(middle + beside, condition, skill, windows.geometry(at))
            });
            let drawn = drawn_chances(&tables, model, condition, skill, &targets, draw);
            for (target, (drawn, _)) in targets.into_iter().zip(drawn.expect("a bank")) {
                let known = windows.chance(at, target, skill);
                let apart = (known.chance - drawn.chance).abs();
                assert!(
                    apart < 0.005 + 4.0 * drawn.error
                        && apart < 3.0 * known.error + 4.0 * drawn.error + 4e-3,
                    "{skill:?} {condition:?}: {known:?} and {drawn:?}"
                );
            }
        }
    }
}

/// A line that is turned goes where the bank of its first line goes with that error of aim.
#[test]
fn a_turned_line_is_that_of_an_aim_so_far_off() {
    let equipment = shipped_equipment("nine-foot");
    let condition = ball(2.4, 0.15, SpeedWord::Medium);
    let bank = Bank::new(&equipment, condition.rail, condition.pocket, RailModel::NoseAndCloth)
        .expect("a bank");
    let lines = condition.on(bank.geometry());
    let launch = condition.launch(&equipment);
    for aim_error_rad in [-0.03, -0.002, 0.0, 0.01, 0.04] {
        let meant = AimedStart { start: 5.1, read_spread: 0.1 };
        let turned = meant.turned(&lines, aim_error_rad);
        let off = Launch { aim_error_rad, ..launch };
        let [one, other] = [(meant.start, off), (turned.start, launch)]
            .map(|(start, launch)| bank.play(lines.line(start), launch).expect("it is played"));
        let (one, other) = (one.miss_m().expect("it comes"), other.miss_m().expect("it comes"));
        assert!((one - other).abs() < 1e-9, "{aim_error_rad}: {one} and {other}");
    }
}

/// On many tables the grid of speeds and sides is coarse: what it leaves out goes both ways.
#[test]
fn on_many_tables_a_chance_is_what_shots_drawn_at_random_say() {
    let tables = wide(&shipped_equipment("nine-foot"), 12);
    let model = RailModel::NoseAndCloth;
    let sure = Skill { aim_rad: 0.002, contact_read: 0.02, start_read: 0.02, ..*CLUB };
    let loose = Skill { aim_rad: 0.008, speed: 0.2, side: 0.06, ..*CLUB };
    let balls = hard_balls();
    let draw = Draw { replicates: 8, shots: 4_096, seed: 11 };
    let mut worst = 0.0_f64;
    for skill in [*CLUB, sure, loose] {
        let nodes = SpreadNodes::on_tables(&skill, tables.len());
        let windows = HoldWindows::find(&tables, model, nodes, &balls).expect("banks");
        for (at, condition) in balls.iter().enumerate() {
            let middle = windows.middle(at);
            let targets = [0.0, 0.1].map(|beside| {
                AimedStart::at_start(middle + beside, condition, &skill, windows.geometry(at))
            });
            let drawn = drawn_chances(&tables, model, condition, &skill, &targets, draw);
            for (target, (drawn, _)) in targets.into_iter().zip(drawn.expect("a bank")) {
                // The tables are the same, so their share of the error is left out.
                let known = windows.chance(at, target, &skill).chance;
                let apart = (known - drawn.chance).abs();
                worst = worst.max(apart);
                assert!(
                    apart < 0.005 + 4.0 * drawn.error,
                    "{skill:?} {condition:?}: {known} and {drawn:?}"
                );
            }
        }
    }
    println!("on many tables at most {worst:.4} apart");
}

#[test]
fn what_two_rules_share_drops_out_of_their_difference() {
    let tables = wide(&shipped_equipment("nine-foot"), 24);
    let model = RailModel::NoseAndCloth;
    let conditions: Vec<Condition> = (0..24)
        .map(|at| ball(1.0 + 0.12 * f64::from(at), 0.02 * f64::from(at % 6), SpeedWord::Medium))
        .collect();
    let nodes = SpreadNodes::of(&CLUB, (3, 3));
    let windows = HoldWindows::find(&tables, model, nodes, &conditions).expect("banks");
    let targets: Vec<Vec<Option<AimedStart>>> = [2.2, 2.25]
        .into_iter()
        .map(|slope| {
            let rule = Rule::linear(slope, 0.0, Reading::Groove).expect("finite");
            let of = |(at, condition): (usize, &Condition)| {
                AimedStart::by_rule(&rule, condition, &CLUB, windows.geometry(at)).ok()
            };
            conditions.iter().enumerate().map(of).collect()
        })
        .collect();
    let ranked = rank_by_chance(&windows, &CLUB, &targets);
    let unpaired: f64 = ranked.iter().map(|it| it.chance.error * it.chance.error).sum();
    let paired = ranked[1].behind.error * ranked[1].behind.error;
    // Measured: 6.4 times.
    assert!(unpaired > 4.0 * paired, "{} times", unpaired / paired);
    assert!(ranked[0].chance.chance >= ranked[1].chance.chance);
    assert!(
        (ranked[0].chance.chance - ranked[1].chance.chance - ranked[1].behind.difference).abs()
            < 1e-12
    );
}

#[test]
fn rules_are_ranked_on_every_table_of_an_ensemble() {
    let tables = wide(&shipped_equipment("nine-foot"), 16);
    let model = RailModel::NoseAndCloth;
    let conditions: Vec<Condition> =
        (0..8).map(|at| ball(1.2 + 0.3 * f64::from(at), 0.0, SpeedWord::Medium)).collect();
    let nodes = SpreadNodes::of(&CLUB, (3, 3));
    let windows = HoldWindows::find(&tables, model, nodes, &conditions).expect("banks");
    let rules: Vec<Vec<Option<AimedStart>>> = common_rules()
        .expect("rules")
        .iter()
        .map(|named| {
            let of = |(at, condition): (usize, &Condition)| {
                AimedStart::by_rule(&named.rule, condition, &CLUB, windows.geometry(at)).ok()
            };
            conditions.iter().enumerate().map(of).collect()
        })
        .collect();
    let ranked = rank_by_chance(&windows, &CLUB, &rules);
    // Table by table, by the chances of single balls.
    let mut best = vec![0.0; rules.len()];
    for table in 0..tables.len() {
        let made = |rule: &[Option<AimedStart>]| -> f64 {
            let of = |(at, target): (usize, &Option<AimedStart>)| {
                target.map_or(0.0, |target| windows.chances(at, target, &CLUB)[table])
            };
            rule.iter().enumerate().map(of).sum()
        };
        let sums: Vec<f64> = rules.iter().map(|rule| made(rule)).collect();
        let first = (0..sums.len()).max_by(|a, b| sums[*a].total_cmp(&sums[*b])).expect("rules");
        best[first] += 1.0 / 16.0;
    }
    for standing in &ranked {
        assert!((standing.best_on - best[standing.rule]).abs() < 1e-12, "{standing:?}");
    }
    assert!(best.iter().filter(|share| **share > 0.0).count() > 1, "{best:?}");
}

/// A ball lies between the contact's mark and the start's: the farther one leads it surer. How far the line's start
/// moves with another contact is told here by lines alone.
#[test]
fn a_ball_is_sent_by_the_mark_that_leads_it_surer() {
    let geometry = BankGeometry::new(
        &shipped_equipment("nine-foot"),
        ball(2.0, 0.0, SpeedWord::Firm).rail,
        ball(2.0, 0.0, SpeedWord::Firm).pocket,
    )
    .expect("a bank");
    let skill = &*CLUB;
    let start = 4.2;
    let mut by_the_contact = 0;
    for share in [0.0, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99] {
        let off_rail_m = share * geometry.span_m;
        let number = 2.0 + (start - 2.0) * share;
        let condition = ball(number, off_rail_m, SpeedWord::Medium);
        let told = AimedStart::at_start(start, &condition, skill, &geometry);
        // The line through the ball from a contact misread by δ runs on to another start.
        let misread = 2.0 + skill.contact_read;
        let moved = (misread - (misread - number) / share - start).abs();
        let read = skill.start_read;
        assert!((told.read_spread - moved.min(read)).abs() < 1e-12, "{share}: {told:?}");
        by_the_contact += usize::from(moved < read);
    }
    assert!((2..6).contains(&by_the_contact), "{by_the_contact} of 7");
}
