//! The cost of a shot on the whole table beside that of stepping it, in one run, as ratios with the
//! errors beside; and the cost of asking the table.
//!
//! `RAILPROOF_BENCH=short` makes a quick pass whose figures are rough.

use railproof_benches::rigid_table::rigid_table;
use railproof_benches::table::nine_foot;
use railproof_benches::timing::{Time, is_short, time};
use railproof_engine::aim::{LineSetup, OBJECT, Setup, overcut};
use railproof_engine::equipment::{BallContact, Equipment, RailModel};
use railproof_engine::motion::{BallState, ClothMotion, Path};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::shot::{End, Ending, EventKind, ShotBall, play, play_for};
use railproof_engine::stepped::shot::{SteppedSettings, play as step};
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::{Vec2, Vec3};
use railproof_engine::world::{Boundary, Meeting, Obstacle, World};
use std::hint::black_box;
use std::time::Instant;

fn main() {
    let Some(shot) = banked_into_a_pocket(&hard()) else {
        println!("no stroke of those tried banks the object ball into a pocket");
        return;
    };
    two_balls(&shot);
    whole_bank();
    lone_bank_and_break();
    queries();
}

/// Planar cushions that take no time, restitution that does not fall, and smooth balls, since a solver
/// in the plane can't carry follow over: what it can be set to.
fn hard() -> World {
    let mut equipment = nine_foot();
    equipment.cushion.rail_model = RailModel::Planar;
    equipment.cushion.contact_time_s = 0.0;
    equipment.table.jaws.contact_time_s = 0.0;
    equipment.cushion.restitution = 0.85;
    equipment.cushion.restitution_loss_s_m = 0.0;
    let restitution = equipment.ball_contact.restitution;
    equipment.ball_contact = BallContact::constant(restitution, 0.0);
    table(&equipment, &[])
}

fn table(equipment: &Equipment, obstacles: &[Obstacle]) -> World {
    World::new(equipment, obstacles).expect("the nine-foot table and what fits on it")
}

fn at_rest(equipment: &Equipment, x: f64, y: f64) -> ShotBall {
    let position = Vec2::new(x, y);
    ShotBall::of(equipment, BallState { position, velocity: Vec2::ZERO, spin: Vec3::ZERO })
}

/// A cue ball struck so far off the line to the centre of an object ball at `object`.
fn struck(equipment: &Equipment, object: Vec2, off_rad: f64) -> Option<[ShotBall; 2]> {
    let object = at_rest(equipment, object.x, object.y);
    let mut cue = at_rest(equipment, -0.3, -0.1);
    let line = object.state.position - cue.state.position;
    let aim_rad = libm::atan2(line.y, line.x) + off_rad;
    let stroke = Stroke { side_offset: 0.1, ..Stroke::centre(3.0, aim_rad) };
    let struck = stroke.strike(&cue.ball, &equipment.cue).ok()?;
    cue.state.velocity = struck.velocity;
    cue.state.spin = struck.spin;
    Some([cue, object])
}

/// Of some places of the object ball, the middle of the widest range of aims that bank it off one
/// cushion into a pocket.
fn banked_into_a_pocket(world: &World) -> Option<[ShotBall; 2]> {
    let banks = |balls: &[ShotBall; 2]| -> bool {
        let Ok(shot) = play(world, balls, None) else { return false };
        let cushions = shot.events.iter().filter(|event| event.ball == 1);
        cushions.filter(|event| matches!(event.kind, EventKind::Cushion(_))).count() == 1
            && matches!(shot.ends[1].ending, Ending::Dropped(_))
    };
    let mut widest: (u32, Option<[ShotBall; 2]>) = (0, None);
    for place in 0..12 {
        let object = Vec2::new(0.3, -0.3 + 0.05 * f64::from(place));
        let balls = |step: u32| struck(world.equipment(), object, -0.09 + 5e-4 * f64::from(step));
        let mut run = 0;
        for step in 0..360 {
            run = if balls(step).is_some_and(|balls| banks(&balls)) { run + 1 } else { 0 };
            if run > widest.0 {
                widest = (run, balls(step - run / 2));
            }
        }
    }
    widest.1
}

fn two_balls(balls: &[ShotBall; 2]) {
    let world = hard();
    let Ok(exact) = play(&world, balls, None) else { return };
    println!(
        "\nTip, cue ball, object ball, cushion, pocket; planar cushions, to the end of all motion"
    );
    println!(
        "  {} events; the object ball falls after {:.4} s: {:?}",
        exact.events.len(),
        exact.ends[1].time_s,
        exact.ends[1].ending
    );
    let ours = time(|| play(&world, black_box(balls), None));
    println!("  {:<34} {ours}", "events in closed form");
    let until_s = exact.duration_s();
    let [cue, object] = [exact.ends[0], exact.ends[1]];
    for step_s in [1e-3, 1e-4] {
        let name = format!("rapier2d, {} ms steps", 1e3 * step_s);
        let (spent, ends) = once(|| rigid_table(&world, balls, step_s, until_s));
        let fate = match (ends[1].pocket, object.ending) {
            (Some(one), Ending::Dropped(other)) if one == other => "falls too",
            _ => "misses",
        };
        row(&name, spent, ours, fate, [cue, object], [ends[0].state, ends[1].state]);
    }
    // The engine's own second opinion needs a contact that lasts.
    let mut lasting = world.equipment().clone();
    lasting.cushion.contact_time_s = SteppedSettings::LEAST_CONTACT_TIME_S;
    let lasting = table(&lasting, &[]);
    let Ok(exact) = play(&lasting, balls, None) else { return };
    let settings = SteppedSettings { ball_contact_time_s: 0.05e-3, ..SteppedSettings::default() };
    let (spent, stepped) = once(|| step(&lasting, balls, None, &settings));
    if let Ok(stepped) = stepped {
        let same = stepped.ends[1].ending == exact.ends[1].ending;
        let fate = if same { "falls too" } else { "misses" };
        let states = [stepped.ends[0].state, stepped.ends[1].state];
        let name = format!("stepped engine ({} steps)", stepped.steps);
        row(&name, spent, ours, fate, [exact.ends[0], exact.ends[1]], states);
    }
}

fn row(name: &str, spent: Time, ours: Time, fate: &str, exact: [End; 2], ends: [BallState; 2]) {
    let off_mm = [0, 1].map(|ball| 1e3 * (exact[ball].state.position - ends[ball].position).norm());
    println!(
        "  {name:<34} {spent}   ×{:<9.0} object ball {fate}, {:.2} mm off; cue ball {:.2} mm off",
        spent.over(ours),
        off_mm[1],
        off_mm[0]
    );
}

/// Times work that takes long: once, or the fastest of a few times.
fn once<T>(work: impl Fn() -> T) -> (Time, T) {
    let timed = || {
        let begun = Instant::now();
        let result = black_box(work());
        (begun.elapsed().as_secs_f64(), result)
    };
    let (mut fastest, result) = timed();
    for _ in 0..if is_short() { 0 } else { 2 } {
        fastest = fastest.min(timed().0);
    }
    (Time { seconds: fastest }, result)
}

/// Banks from the tip to the pocket on the shipped kind of cushion, until the object ball has dropped.
fn whole_bank() {
    println!("\nTip, cue ball, object ball, cushion, pocket, until it drops; contact 2.5, cut 3°");
    for model in [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar] {
        let mut equipment = nine_foot();
        equipment.cushion.rail_model = model;
        let world = table(&equipment, &[]);
        let at = LineSetup {
            rail: Rail::Left,
            pocket: Pocket::FootRight,
            line: Line::new(2.5, 5.5),
            off_rail_m: 0.15,
            cue_distance_m: 0.35,
            cut_rad: 0.05,
        };
        let Ok((setup, line)) = Setup::on_line(&world, &at) else { return };
        let Ok(aimed) = overcut(&setup, &Stroke::centre(4.0, 0.0), line) else {
            println!("  {:<34} no aim makes it", model.name());
            continue;
        };
        let once = || {
            let balls = setup.struck(black_box(&aimed.stroke)).ok()?;
            play_for(&world, &balls, OBJECT).ok()
        };
        let dropped = once().is_some_and(|it| matches!(it.ends[OBJECT].ending, Ending::Dropped(_)));
        println!("  {:<34} {}{}", model.name(), time(once), if dropped { "" } else { "   misses" });
    }
}

fn lone_bank_and_break() {
    let equipment = nine_foot();
    let world = table(&equipment, &[]);
    println!("\nShots by the event engine, nose-and-cloth cushions that hold a ball for 10 ms");
    let mut lone = at_rest(&equipment, 0.4, 0.3);
    lone.state.velocity = Vec2::new(-2.0, 1.5);
    report("one ball to rest", &world, &[lone]);
    let mut rack = vec![at_rest(&equipment, -0.635, 0.01)];
    rack[0].state.velocity = Vec2::new(8.0, 0.0);
    // A hair apart: a rack is never frozen all over.
    let pitch = equipment.ball.diameter_m * 1.0005;
    for index in 0..5 {
        for place in 0..=index {
            let x = 0.635 + f64::from(index) * 0.75_f64.sqrt() * pitch;
            rack.push(at_rest(&equipment, x, (f64::from(place) - 0.5 * f64::from(index)) * pitch));
        }
    }
    report("break of fifteen balls", &world, &rack);
    let frozen: Vec<ShotBall> = rack
        .iter()
        .enumerate()
        .map(|(index, ball)| {
            let mut ball = *ball;
            if index > 0 {
                let apex = Vec2::new(0.635, 0.0);
                let close = (1.0 + 1e-12) / 1.0005;
                ball.state.position = apex + (ball.state.position - apex) * close;
            }
            ball
        })
        .collect();
    report("the same, all frozen", &world, &frozen);
    let settings = SteppedSettings { contact_steps: 32, ..SteppedSettings::default() };
    let (spent, stepped) = once(|| step(&world, &frozen, None, &settings));
    if let Ok(stepped) = stepped {
        println!(
            "  {:<34} {spent}   {} contacts, {} steps (32 in a contact)",
            "the same on the stepped engine",
            stepped.contacts.len(),
            stepped.steps
        );
    }
}

fn report(name: &str, world: &World, balls: &[ShotBall]) {
    match play(world, balls, None) {
        Ok(shot) => {
            let spent = time(|| play(world, black_box(balls), None));
            let each = Time { seconds: spent.seconds / shot.events.len() as f64 };
            println!("  {name:<34} {spent}   {} events, {each} each", shot.events.len());
        }
        Err(error) => println!("  {name:<34} {error}"),
    }
}

fn queries() {
    let equipment = nine_foot();
    println!(
        "\nAsking the table what a ball on its way meets first (time of one of 512 questions)"
    );
    println!("  {:<34} {:>12} {:>12}", "", "bare", "64 obstacles");
    let paths = paths(&equipment);
    let bare = asked(&table(&equipment, &[]), &paths);
    let full = asked(&table(&equipment, &obstacles()), &paths);
    let names = [
        "the engine's search, bent paths",
        "every boundary in turn, bent paths",
        "ray cast in the grown world",
        "boxes near the path",
    ];
    for (name, (bare, full)) in names.iter().zip(bare.iter().zip(full)) {
        println!("  {name:<34} {:>12} {:>12}", bare.to_string(), full.to_string());
    }
}

/// Posts in rows, none over a pocket.
fn obstacles() -> Vec<Obstacle> {
    (0..64)
        .map(|index| {
            let (row, place) = (f64::from(index / 16), f64::from(index % 16));
            let middle = Vec2::new(-1.05 + 0.14 * place, -0.39 + 0.26 * row);
            Obstacle::rectangle("post", middle, 0.02, 0.015, 0.3 * place)
        })
        .collect()
}

/// Balls that slide off in all directions from places between the posts.
fn paths(equipment: &Equipment) -> Vec<Path> {
    let cloth = ClothMotion::new(equipment);
    (0..512)
        .map(|index| {
            let angle = 2.399_963 * f64::from(index);
            let place = Vec2::new(
                -0.98 + 0.14 * f64::from(index % 15),
                -0.26 + 0.26 * f64::from(index % 3),
            );
            let velocity = Vec2::new(libm::cos(angle), libm::sin(angle)) * 2.0;
            let spin = Vec3::new(20.0 * libm::sin(3.0 * angle), 30.0, 0.0);
            Path::new(BallState { position: place, velocity, spin }, cloth)
        })
        .collect()
}

fn asked(world: &World, paths: &[Path]) -> [Time; 4] {
    let (groove, radius) = (world.equipment().groove_m(), world.equipment().ball.radius_m());
    let grown = world.grown();
    let boundaries: Vec<Boundary> = grown.boundaries().copied().collect();
    let solid = world.solid_for(groove, radius);
    let brute = |path: &Path| -> Option<(f64, Boundary)> {
        let mut best: Option<(f64, Boundary)> = None;
        for boundary in &boundaries {
            if let Some(time_s) = boundary.first_contact(path)
                && best.is_none_or(|(earliest, _)| time_s < earliest)
            {
                best = Some((time_s, *boundary));
            }
        }
        best
    };
    let differ = paths
        .iter()
        .filter(|path| match (grown.first_met(path), brute(path)) {
            (Some((one, Meeting::Touch(_))), Some((other, _))) => (one - other).abs() > 1e-12,
            (Some((_, Meeting::Drop(_))), _) | (None, None) => false,
            _ => true,
        })
        .count();
    if differ > 0 {
        println!("  {differ} of {} answers differ between search and all in turn", paths.len());
    }
    let mut next = paths.iter().cycle();
    let mut each = |work: &dyn Fn(&Path)| time(|| next.next().map(&work));
    [
        each(&|path| {
            black_box(grown.first_met(path));
        }),
        each(&|path| {
            black_box(brute(path));
        }),
        each(&|path| {
            let first = path.first_stretch();
            black_box(solid.cast(first.position, first.velocity.unit_or_zero(), 4.0));
        }),
        each(&|path| {
            let (from, to) =
                (path.position_at(0.0), path.position_at(path.rolls_from_s().min(0.1)));
            let low = Vec2::new(from.x.min(to.x), from.y.min(to.y));
            let high = Vec2::new(from.x.max(to.x), from.y.max(to.y));
            black_box(solid.near(low, high));
        }),
    ]
}
