//! The cost of rules searched for a person: hold windows over tables that could be, rules looked up beside banks
//! played for them at random, and a whole grammar.
//!
//! `RAILPROOF_BENCH=short` makes a quick pass whose figures are rough.

use railproof::player::find_player;
use railproof_benches::table::nine_foot;
use railproof_benches::timing::{is_short, time};
use railproof_engine::chance::drawn::{Draw, drawn_chances};
use railproof_engine::chance::{AimedStart, HoldWindows, PossibleTables, Skill, SpreadNodes};
use railproof_engine::discover::{BallSpread, Grammar, Ground, HeadRule, search};
use railproof_engine::ensemble::Ensemble;
use railproof_engine::equipment::RailModel;
use std::hint::black_box;
use std::path::Path;
use std::time::Instant;

const MODEL: RailModel = RailModel::NoseAndCloth;
const BALLS: usize = 120;

fn main() {
    let club = find_player("club", Path::new("")).expect("it is shipped").skill;
    let table = nine_foot();
    println!("\nRules for a person, nose-and-cloth, {} threads", rayon::current_num_threads());
    let tables = if is_short() { 16 } else { 256 };
    let possible = PossibleTables::of(&table, &Ensemble::wide(tables, 1));
    let balls = BallSpread::USUAL.drawn(BALLS / 12, 1).balls;
    let started = Instant::now();
    let windows =
        HoldWindows::find(&possible, MODEL, SpreadNodes::of(&club, SpreadNodes::FEW), &balls)
            .expect("banks of this table");
    let seconds = started.elapsed().as_secs_f64();
    let curves = BALLS * tables * windows.nodes().nodes().len();
    println!(
        "  windows of {BALLS} balls on {tables} tables, {} speeds and sides: {seconds:.2} s, {:.0} thousand a second",
        windows.nodes().nodes().len(),
        1e-3 * curves as f64 / seconds
    );
    let one = PossibleTables::one(table);
    let nodes = SpreadNodes::of(&club, SpreadNodes::USUAL);
    let windows = HoldWindows::find(&one, MODEL, nodes, &balls).expect("banks of this table");
    lookups(&windows, &one, &club);
    let ground = Ground::new(&windows, &club, 3.0);
    let grammar = Grammar::usual();
    let started = Instant::now();
    let found = black_box(search(&ground, &grammar));
    println!(
        "  {} million rules searched on {BALLS} balls: {:.2} s, {} efforts",
        found.tried() / 1_000_000,
        started.elapsed().as_secs_f64(),
        found.iter().count()
    );
}

/// A million rules looked up, and what as much would take by banks drawn and played.
fn lookups(windows: &HoldWindows, one: &PossibleTables, club: &Skill) {
    let started = Instant::now();
    let ground = Ground::new(windows, club, 3.0);
    let made = started.elapsed().as_secs_f64();
    let bases = Grammar::usual().bases();
    let rules: Vec<HeadRule> = bases.iter().cycle().take(1_000_000).copied().collect();
    let started = Instant::now();
    let sum: f64 = ground.chances(&rules).iter().sum();
    black_box(sum);
    let seconds = started.elapsed().as_secs_f64();
    // 256 shots a ball leave a mean over 120 balls with an error of a quarter in a hundred.
    let (condition, draw) = (windows.conditions()[0], Draw { replicates: 2, shots: 128, seed: 1 });
    let target = AimedStart { start: windows.middle(0), read_spread: 0.1 };
    let played = time(|| {
        drawn_chances(one, MODEL, &condition, club, &[target], draw).expect("a bank").len()
    });
    let by_shots = played.seconds * BALLS as f64 * 1e6 / rayon::current_num_threads() as f64;
    println!(
        "  a million rules on {BALLS} balls: {seconds:.2} s ({made:.2} s before it for the sheets); by 256 shots a \
         ball on every thread {by_shots:.0} s, x{:.0}",
        by_shots / seconds
    );
}
