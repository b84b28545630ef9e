#[path = "../../tests/tests/calibration/film.rs"]
#[allow(dead_code)]
mod film;
use film::*;
use railproof_engine::bank::Launch;
use railproof_engine::ensemble::*;
use railproof_engine::equipment::*;
use railproof_engine::evidence::*;
use railproof_engine::narrow::*;
use railproof_engine::rail::*;
use railproof_engine::sample::*;
use railproof_engine::track::*;
use rayon::prelude::*;

fn table() -> Equipment {
    serde_json::from_str(&std::fs::read_to_string("/tmp/h/nine.json").unwrap()).unwrap()
}
fn main() {
    let args: Vec<String> = std::env::args().collect();
    let num = |at: usize, d: f64| args.get(at).map_or(d, |it| it.parse().unwrap());
    let (tables, films, model, until_roll, click) = (num(1, 100.) as u64, num(2, 6.) as usize, num(3, 0.), num(4, 1.) > 0., num(5, 1.));
    let exact = num(6, 0.) > 0.; // rows drawn from their own stated law
    let model = if model > 0. { RailModel::NoseAndCloth } else { RailModel::NoseOnly };
    let table = table();
    let truths = Sample { how: Sampling::Random, points: 1 << 20, seed: 20_261_131, dimensions: MemberNumber::COUNT };
    let all: Vec<Vec<(f64, f64)>> = (0..tables).into_par_iter().map(|number| {
        let mut place = [0.0; MemberNumber::COUNT];
        truths.point(number, &mut place);
        let truth = Member { place };
        let equipment = truth.equipment(&table);
        let drawn = Sample { how: Sampling::Random, points: 1 << 20, seed: 77 + number, dimensions: 12 };
        let normal = |at: u64, usage: usize| (-2.0 * (1.0 - drawn.coordinate(at, usage)).ln()).sqrt() * (2.0 * std::f64::consts::PI * drawn.coordinate(at, usage + 1)).cos();
        let mut told_table = table.clone();
        told_table.table.width_m -= 2.0 * GROOVE_SD_M * normal(999, 0);
        told_table.table.length_m -= 2.0 * GROOVE_SD_M * normal(999, 0);
        let mut seen = vec![];
        for at in 0..films as u64 {
            let between = |usage, from: f64, to: f64| from + (to - from) * drawn.coordinate(at, usage);
            let (rail, pocket) = [(Rail::Left, Pocket::FootRight), (Rail::Left, Pocket::HeadRight)][(at % 2) as usize];
            let contact = between(0, 1.4, 2.6);
            let line = Line::new(contact, contact * between(1, 1.9, 2.3));
            let geometry = BankGeometry::new(&equipment, rail, pocket).unwrap();
            let side = geometry.right_side_runs(line) * truth.value(MemberNumber::SideBias) + 0.02 * normal(at, 4);
            let l = Launch { off_rail_m: between(2, 0.6, 0.9), speed_m_s: between(3, 2.8, 5.0), roll: 0.05 * normal(at, 6), side, aim_error_rad: 0.0 };
            let filming = Filming { rail, pocket, line, launch: l, model, pictures: if between(8, 0., 1.) < 0.5 { 120. } else { 240. }, click: click, is_until_roll: until_roll, k1: 0.0, marks: &MARKS, seed: 1000 * number + at };
            let film = filming.film(&equipment);
            match TrackedBank::new(&film.marks, &film.points, &told_table, LensKnown::Straight) {
                Ok(bank) => {
                    let mut impact = bank.impact;
                    if exact {
                        let (a, r) = (film.truth.at_rail.unwrap(), film.truth.rebound.unwrap());
                        let t = [a.state.velocity.norm(), a.incidence_rad(), r.state.velocity.norm(), r.angle_rad(a.state.velocity), r.held_s, equipment.cloth.sliding_friction * equipment.gravity_m_s2];
                        let c = nalgebra::SMatrix::<f64, 6, 6>::from_fn(|i, j| impact.covariance[i][j]);
                        let lower = c.cholesky().expect("pd").l();
                        let z = nalgebra::SVector::<f64, 6>::from_fn(|i, _| normal(at + 5000 * (i as u64 + 1), 10));
                        let e = lower * z;
                        for i in 0..6 { impact.told[i] = t[i] + e[i]; }
                        let g = 1.0 / (t[0] * t[1].cos()) + 1.0 / (t[2] * t[3].cos());
                        impact.told[4] += GROOVE_SD_M * normal(999, 2) * g;
                        impact.run_s = a.time_s;
                        impact.way = BeforeRail::Slides;
                    }
                    seen.push(impact)
                }
                Err(e) => println!("{number} {at} {e}"),
            }
        }
        let evidence = Evidence::new(&table, model, vec![]).unwrap().with_films(&seen);
        let narrowed = narrow(&evidence, NarrowSettings::SHIPPED).unwrap();
        let members = narrowed.ensemble.members();
        if number == 0 {
            for f in &seen { println!("{:?} sd {:?} {:?}", f.told, (0..6).map(|i| f.covariance[i][i].sqrt()).collect::<Vec<_>>(), f.way); }
            for f in evidence.films_expected(members) { println!("{f:?}"); }
            println!("stages {} distinct {} taken {}", narrowed.stages, narrowed.distinct, narrowed.taken);
        }
        let mut out: Vec<(f64, f64)> = MemberNumber::all().map(|n| n.place()).map(|at| {
            let mut v: Vec<f64> = members.iter().map(|m| m.place[at]).collect();
            v.sort_by(f64::total_cmp);
            let below = v.iter().filter(|x| **x < truth.place[at]).count() as f64 / v.len() as f64;
            (below, (v[v.len() * 95 / 100] - v[v.len() * 5 / 100]) / 0.9)
        }).collect();
        let e2 = |m: &Member| m.value(MemberNumber::Restitution) - 2.0 * m.value(MemberNumber::RestitutionLoss);
        let below = members.iter().filter(|m| e2(m) < e2(&truth)).count() as f64 / members.len() as f64;
        out.push((below, 0.));
        out
    }).collect();
    let names: Vec<&str> = MemberNumber::all().map(|n| n.name()).chain(["e at 2"]).collect();
    for (at, name) in names.iter().enumerate() {
        let half = all.iter().filter(|r| (0.25..0.75).contains(&r[at].0)).count();
        let ninety = all.iter().filter(|r| (0.05..0.95).contains(&r[at].0)).count();
        let mut bins = [0; 10];
        for r in &all { bins[((r[at].0 * 10.0) as usize).min(9)] += 1; }
        let width = all.iter().map(|r| r[at].1).sum::<f64>() / all.len() as f64;
        println!("{name:24} {half:4} {ninety:4} of {tables} left {width:.2} {bins:?}");
    }
}
