//! The same bits in every build, on any number of threads and on other machines: digests of what the engine works out
//! stand in `same_bits.txt`, a line for each kind of work. `RAILPROOF_ACCEPT=1` writes them anew, where results are meant
//! to change. Run it as it stands, with `-Copt-level=1`, or for another machine.

use railproof_engine::equipment::{
    Ball, BallContact, Cloth, Cue, Cushion, Equipment, Jaws, RailModel, RailTop, SpokenSpeeds,
    Table,
};
use railproof_engine::impact::{Bounce, CushionContact, bounce};
use railproof_engine::rail::Reading;
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::{Axis, Input, Plan, Row, Values, compare};
use railproof_engine::vector::{Vec2, Vec3};
use std::fmt::Write;

/// Digests of this many results each, so that a difference says where it begins.
const RESULTS_A_DIGEST: usize = 500;
const THREADS: [usize; 4] = [1, 2, 8, 16];

/// Numbers invented for this test.
fn equipment(rail_model: RailModel) -> Equipment {
    Equipment {
        name: "same bits".to_owned(),
        table: Table {
            length_m: 2.54,
            width_m: 1.27,
            corner_mouth_m: 0.116,
            side_mouth_m: 0.129,
            sight_setback_m: 0.094,
            jaws: Jaws::USUAL,
            rail_top: RailTop::USUAL,
        },
        ball: Ball { diameter_m: 0.057_15, mass_kg: 0.165 },
        cloth: Cloth {
            sliding_friction: 0.19,
            rolling_resistance: 0.0111,
            pivot_deceleration_rad_s2: 10.3,
        },
        cushion: Cushion {
            rail_model,
            nose_height_m: 0.635 * 0.057_15,
            restitution: 0.93,
            restitution_loss_s_m: 0.023,
            restitution_floor: 0.47,
            nose_friction: 0.17,
            impact_cloth_friction: Some(0.21),
            checked_speed_m_s: 2.5,
            contact_time_s: 0.013,
        },
        ball_contact: BallContact::USUAL,
        cue: Cue::USUAL,
        speeds: SpokenSpeeds::USUAL,
        gravity_m_s2: 9.806_65,
    }
    .validated()
    .expect("its numbers lie in their ranges")
}

/// FNV-1a over the bits of numbers (Fowler, Noll and Vo; the constants of draft-eastlake-fnv).
struct Digest(u64);

impl Digest {
    fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    fn add(&mut self, numbers: &[f64]) {
        for byte in numbers.iter().flat_map(|number| number.to_bits().to_le_bytes()) {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
}

/// One line: a name, and a digest of each stretch of results.
fn line(name: &str, results: &[Vec<f64>]) -> String {
    let mut text = name.to_owned();
    for stretch in results.chunks(RESULTS_A_DIGEST) {
        let mut digest = Digest::new();
        for numbers in stretch {
            digest.add(numbers);
        }
        let _ = write!(text, " {:016x}", digest.0);
    }
    text + "\n"
}

/// Random numbers by their place in the sequence (the mixing steps of Steele, Lea and Flood 2014).
struct Draws(u64);

impl Draws {
    fn within(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        let share = ((z ^ (z >> 31)) >> 11) as f64 * 0.5 * f64::EPSILON;
        low + (high - low) * share
    }
}

fn impacts(model: RailModel) -> Vec<Vec<f64>> {
    let contact = CushionContact::new(&equipment(model));
    let mut draws = Draws(7);
    let drawn = (0..2000).map(|_| {
        let velocity = Vec2::new(draws.within(-5.0, 5.0), draws.within(0.01, 6.0));
        let mut spin = || draws.within(-150.0, 150.0);
        let spin = Vec3::new(spin(), spin(), spin());
        let after = bounce(model, &contact, Bounce { velocity, spin });
        let (v, w) = (after.velocity, after.spin);
        vec![v.x, v.y, w.x, w.y, w.z, after.restitution]
    });
    drawn.collect()
}

fn rows(model: RailModel) -> Vec<Row> {
    let numbers = |input, values: &[f64]| Axis { input, values: Values::Numbers(values.to_vec()) };
    let step = |count: u32, low: f64, by: f64| -> Vec<f64> {
        (0..count).map(|at| low + by * f64::from(at)).collect()
    };
    let axes = vec![
        Axis { input: Input::Equipment, values: Values::Equipment(vec![equipment(model)]) },
        numbers(Input::Contact, &step(10, 0.7, 0.31)),
        numbers(Input::OffRail, &[0.0, 0.17, 0.41]),
        numbers(Input::Speed, &step(8, 0.6, 0.83)),
        numbers(Input::Roll, &[-0.5, 0.0, 1.0]),
        numbers(Input::RunningSide, &[-0.4, 0.0]),
    ];
    let rule = Rule::linear(2.2, 0.0, Reading::Groove).expect("a slope");
    let rules = [NamedRule { name: "linear".to_owned(), rule }];
    compare(&Plan::new(axes).expect("a plan"), &rules, &|| ()).expect("it plays")
}

fn numbers_of(rows: &[Row]) -> Vec<Vec<f64>> {
    let none = |number: Option<f64>| number.unwrap_or(-1e9);
    rows.iter()
        .map(|row| {
            let outcome = &row.outcome;
            let verdict = outcome.verdict().name();
            let verdict = verdict.bytes().fold(0.0, |sum, byte| 7.0 * sum + f64::from(byte));
            vec![row.line.start, none(outcome.miss_m()), none(outcome.clearance_m()), verdict]
        })
        .collect()
}

#[cfg(feature = "world")]
mod shots {
    use super::{Draws, RailModel, Vec2, Vec3, equipment};
    use railproof_engine::motion::BallState;
    use railproof_engine::shot::{ShotBall, play};
    use railproof_engine::stepped;
    use railproof_engine::world::World;

    fn balls(world: &World, draws: &mut Draws) -> Vec<ShotBall> {
        let mut balls: Vec<ShotBall> = Vec::new();
        for at in 0..6 {
            let position = Vec2::new(draws.within(-1.1, 1.1), draws.within(-0.5, 0.5));
            let speed = if at == 0 { 4.0 } else { 0.0 };
            let velocity = Vec2::new(draws.within(-speed, speed), draws.within(-speed, speed));
            let spin = Vec3::new(draws.within(-90.0, 90.0), 0.0, draws.within(-90.0, 90.0));
            let spin = if at == 0 { spin } else { Vec3::new(0.0, 0.0, 0.0) };
            if balls.iter().all(|other| (other.state.position - position).norm() > 0.06) {
                balls.push(ShotBall::of(world.equipment(), BallState { position, velocity, spin }));
            }
        }
        balls
    }

    fn worlds() -> World {
        World::new(&equipment(RailModel::NoseAndCloth), &[]).expect("a table")
    }

    pub fn played() -> Vec<Vec<f64>> {
        let world = worlds();
        let mut draws = Draws(11);
        let shots = (0..100).map(|_| {
            let balls = balls(&world, &mut draws);
            let shot = play(&world, &balls, None).expect("a start that is accepted");
            let ends =
                (0..balls.len()).filter_map(|ball| shot.state_at(ball, shot.ends[ball].time_s));
            let ends = ends.flat_map(|state| [state.position.x, state.position.y]);
            ends.chain([shot.duration_s()]).collect()
        });
        shots.collect()
    }

    pub fn stepped() -> Vec<Vec<f64>> {
        let world = worlds();
        let mut draws = Draws(13);
        let settings = stepped::shot::SteppedSettings::default();
        let shots = (0..3).map(|_| {
            let balls = balls(&world, &mut draws);
            let shot = stepped::shot::play(&world, &balls, None, &settings).expect("a start");
            shot.ends.iter().map(|end| end.time_s).collect()
        });
        shots.collect()
    }
}

fn found() -> String {
    let models = [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar];
    let mut text = String::new();
    for model in models {
        text += &line(&format!("impacts-{}", model.name()), &impacts(model));
        text += &line(&format!("rows-{}", model.name()), &numbers_of(&rows(model)));
    }
    #[cfg(feature = "world")]
    {
        text += &line("shots", &shots::played());
        text += &line("stepped", &shots::stepped());
    }
    text
}

#[test]
fn every_build_and_machine_gives_the_same_bits() {
    let found = found();
    if std::env::var_os("RAILPROOF_ACCEPT").is_some() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/same_bits.txt");
        std::fs::write(path, &found).expect("it can be written");
        return;
    }
    let stored = include_str!("same_bits.txt");
    let stored = stored.lines().filter(|line| found.contains(line.split(' ').next().unwrap_or("")));
    assert_eq!(found.lines().collect::<Vec<_>>(), stored.collect::<Vec<_>>());
}

#[test]
fn any_number_of_threads_gives_the_same_bits() {
    let on = |threads| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
        pool.expect("threads").install(|| numbers_of(&rows(RailModel::NoseAndCloth)))
    };
    let one = on(THREADS[0]);
    for threads in &THREADS[1..] {
        assert!(on(*threads) == one, "{threads} threads");
    }
}
