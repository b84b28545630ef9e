//! Banks that are planned to tell two cushions apart name the right one as often as the plan says.

use crate::binomial::two_sided;
use railproof_engine::ensemble::{Ensemble, Member};
use railproof_engine::equipment::RailModel;
use railproof_engine::evidence::{Evidence, MadeUpTable, Scatter, Watching};
use railproof_engine::planning::{PlayedCandidates, chance_of_the_right_one, either_cushion};
use railproof_tests::{is_thorough, nine_foot_with_cushion};
use rayon::prelude::*;

const MODEL: RailModel = RailModel::NoseOnly;
/// More banks leave hardly a doubt.
const BANKS: usize = 3;
const PLAYERS: usize = 512;
const READ_TO_M: f64 = 0.016;

#[test]
fn the_right_cushion_of_two_is_named_as_often_as_the_plan_says() {
    let tables = if is_thorough() { 200 } else { 60 };
    let cushions = ["cushions/even-bounce", "cushions/steep-fading"].map(nine_foot_with_cushion);
    let table = &cushions[0];
    let wide = Ensemble::wide(PLAYERS, 1);
    let (members, which) = either_cushion(wide.members(), [&cushions[0], &cushions[1]]);
    let played = PlayedCandidates::of(table, MODEL, &members, &[]).expect("banks of this table");
    let planned = played.next(&[which], BANKS);
    let chance = chance_of_the_right_one(planned[BANKS - 1].1.left);
    let banks: Vec<_> = planned
        .iter()
        .map(|(set_up, _)| (*set_up, Watching::Numbers { read_to_m: READ_TO_M }))
        .collect();
    // Players of another sample, with the one cushion and the other in turn.
    let truths: Vec<Member> = Ensemble::wide(4096, 55).members()[4096 - tables..]
        .iter()
        .enumerate()
        .map(|(at, player)| player.with_cushion_of(&cushions[at % 2]))
        .collect();
    let right = truths
        .par_iter()
        .enumerate()
        .filter(|(at, truth)| {
            let (scatter, seed) = (&Scatter::CAREFUL, 88_000 + *at as u64);
            let known = MadeUpTable { table, model: MODEL, member: truth, scatter, seed };
            let seen = known.watched(&banks).expect("banks of this table");
            let evidence = Evidence::new(table, MODEL, seen).expect("banks of this table");
            let rows = evidence.log_likelihoods(&members).expect("banks of this table");
            let likely = |rows: &[Vec<f64>]| -> f64 {
                rows.iter().map(|row| row.iter().sum::<f64>().exp()).sum()
            };
            let (one, other) = (likely(&rows[..PLAYERS]), likely(&rows[PLAYERS..]));
            usize::from(other > one) == at % 2
        })
        .count();
    let told =
        format!("{right} of {tables} cushions named, {:.1} expected", chance * tables as f64);
    println!("{told}");
    assert!(chance > 0.6 && two_sided(right, tables, chance) > 0.01, "{told}");
}
