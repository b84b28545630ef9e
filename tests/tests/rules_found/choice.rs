//! Bank or cut: the strokes of `choice` against the chance of one known stroke, against strokes drawn plainly at random, and
//! against mirrored, straight and blocked layouts.

use crate::support::CLUB;
use railproof_engine::aim::{Setup, aim_again, aim_along};
use railproof_engine::chance::drawn::Draw;
use railproof_engine::chance::{Skill, StrokeSpread};
use railproof_engine::choice::{
    BallChoice, BallWay, Better, ChoiceDraw, ChoiceQuestion, ChoiceTally, InTheWay, JudgedBy,
    MeantLine, NoLine,
};
use railproof_engine::motion::BallState;
use railproof_engine::rail::{Pocket, Rail, Reading};
use railproof_engine::rule::Rule;
use railproof_engine::shot::ShotBall;
use railproof_engine::stroke::Stroke;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::PocketVerdict;
use railproof_engine::world::World;
use railproof_tests::random::SplitMix;
use railproof_tests::shipped_equipment;

const CORNER_BANK: BallWay = BallWay::Bank(Rail::Left, Pocket::FootRight);

fn table() -> World {
    World::new(&shipped_equipment("nine-foot"), &[]).expect("a table")
}

/// The cue ball and the object ball of a bank off the left rail.
fn banked(world: &World) -> Setup<'_> {
    Setup::new(world, Vec2::new(-0.2, -0.4), Vec2::new(0.3, 0.2), Pocket::FootRight)
}

fn asked<'w>(setup: Setup<'w>, skill: Skill, judged_by: JudgedBy<'w>) -> ChoiceQuestion<'w> {
    let stroke = Stroke::centre(3.0, 0.0);
    ChoiceQuestion { setup, stroke, ways: BallWay::all(&Pocket::ALL), skill, judged_by }
}

fn chance(choice: &BallChoice, way: BallWay) -> f64 {
    let one = choice.found.iter().find(|one| one.way == way).expect("it was asked");
    one.tally.as_ref().map_or(0.0, |tally| tally.chance().chance)
}

fn no_errors_of_judging() -> Skill {
    Skill { start_read: 0.0, start_read_past_end: 0.0, ..*CLUB }
}

/// Places of the cue ball and of the object ball; the last is played from the far side of the side pocket across.
const LAYOUTS: [((f64, f64), (f64, f64)); 6] = [
    ((-0.2, -0.4), (0.3, 0.2)),
    ((0.1, -0.4), (0.3, 0.1)),
    ((0.8, -0.3), (0.5, 0.2)),
    ((0.55, -0.35), (0.3, 0.1)),
    ((-0.3, 0.2), (0.5, 0.3)),
    ((0.35, -0.35), (0.3, 0.1)),
];

#[test]
fn a_known_line_goes_through_the_middle_of_the_mouth() {
    let world = table();
    let mut banks = [0; 3];
    for (cue, object) in LAYOUTS {
        let (cue, object) = (Vec2::new(cue.0, cue.1), Vec2::new(object.0, object.1));
        let off_two = BallWay::all_off_two_rails(&Pocket::ALL);
        for way in BallWay::all(&Pocket::ALL).into_iter().chain(off_two) {
            let setup = Setup::new(&world, cue, object, way.pocket());
            let stroke = Stroke::centre(3.0, 0.0);
            let Ok(line) = MeantLine::new(&setup, &stroke, way, JudgedBy::Knowledge, &CLUB) else {
                continue;
            };
            let (_, verdict) = setup.judge(&line.aim.stroke).expect("a shot");
            let Some(arrival) = verdict.arrival else { continue };
            let off = way.rails().last();
            // A ball that kissed comes there another way.
            if arrival.last_rail == off && verdict.met_again_s.is_none() {
                assert!(arrival.miss_m.abs() < 1e-5, "{cue:?} {way:?}: {} m", arrival.miss_m);
                banks[way.rails().count()] += 1;
            }
        }
    }
    assert!(banks[1] >= 6 && banks[2] >= 4, "{banks:?} cuts and banks were looked at");
}

#[test]
fn solved_again_from_nearby_an_aim_is_the_one_that_is_solved_afresh() {
    let world = table();
    let setup = banked(&world);
    let line = MeantLine::new(
        &setup,
        &Stroke { side_offset: 0.2, ..Stroke::centre(3.0, 0.0) },
        CORNER_BANK,
        JudgedBy::Knowledge,
        &CLUB,
    )
    .expect("a line");
    for read in [-4.0, -2.0, -0.5, 0.1, 1.0, 3.0, 4.0] {
        let direction = line.direction(read);
        let again = aim_again(&setup, &line.aim, direction).expect("an aim").stroke.aim_rad;
        let afresh = aim_along(&setup, &line.aim.stroke, direction).expect("an aim").stroke.aim_rad;
        // Both settle within 1e-9 rad of the object ball's way, of which an aim is a tenth.
        assert!((again - afresh).abs() < 1e-9, "{read}: {again} and {afresh}");
    }
}

#[test]
fn a_line_that_is_known_and_read_without_error_has_the_chance_of_its_stroke() {
    let world = table();
    let setup = banked(&world);
    let skill = no_errors_of_judging();
    let choice = asked(setup.clone(), skill, JudgedBy::Knowledge).answer(ChoiceDraw::USUAL);
    let at = choice.bank.expect("a bank is made");
    let best = &choice.found[at];
    let line = best.line.as_ref().expect("a line");
    let setup = Setup { pocket: best.way.pocket(), ..setup };
    let away_m = (line.aim.hit.cue_before.position - setup.cue.state.position).norm();
    let spread = StrokeSpread::of(&skill, setup.cue.ball.radius_m(), Some(away_m));
    let Draw { replicates, shots, .. } = ChoiceDraw::USUAL.then;
    let shares: Vec<f64> = (0..replicates)
        .map(|replicate| {
            let strokes = spread.strokes(&line.aim.stroke, ChoiceDraw::USUAL.then, replicate);
            let made = strokes
                .filter(|stroke| setup.judge(stroke).is_ok_and(|(_, verdict)| verdict.is_made()));
            made.count() as f64 / shots as f64
        })
        .collect();
    let known = StrokeSpread::chance(&shares);
    let told = best.tally.as_ref().expect("it was played").chance();
    assert_eq!(told, known);
    assert!((0.02..0.98).contains(&told.chance), "no ball would err: {}", told.chance);
}

/// Errors drawn plainly, by the polar form of Box and Muller (G. Box and M. Muller 1958, *A note on the
/// generation of random normal deviates*, Ann. Math. Stat. 29(2):610–611).
struct Plain(SplitMix);

impl Plain {
    fn normal(&mut self) -> f64 {
        let (radius, turn) = (1.0 - self.0.share(), self.0.share());
        (-2.0 * radius.ln()).sqrt() * (core::f64::consts::TAU * turn).cos()
    }
}

#[test]
fn a_bank_read_by_a_rule_is_made_as_often_as_by_strokes_drawn_plainly_at_random() {
    const SHOTS: u32 = 6_000;
    let world = table();
    let setup = banked(&world);
    let rule = Rule::linear(2.2, 0.0, Reading::Groove).expect("a rule");
    let stroke = Stroke::centre(3.0, 0.0);
    let line =
        MeantLine::new(&setup, &stroke, CORNER_BANK, JudgedBy::Rule(&rule), &CLUB).expect("a line");
    // The misread contact grows by the rule's slope; all that is read adds up. Or the ball is sent to the contact that
    // was read, and the line turns about the ball.
    let geometry =
        railproof_engine::rail::BankGeometry::new(world.equipment(), Rail::Left, Pocket::FootRight)
            .expect("a bank");
    let place = geometry.from_table(setup.object.state.position);
    let off_rail_m = geometry.span_m - place.y;
    let known = rule.aim_from(place, &geometry).expect("a line").line;
    let misread = CLUB.contact_read + CLUB.contact_read_off * off_rail_m;
    let contact = 2.2 * misread;
    let end = (world.equipment().table.length_m) / geometry.diamond_m;
    let start = CLUB.start_read + CLUB.start_read_past_end * (known.start - end).max(0.0);
    let reckoned = CLUB.reckons_to / 12.0_f64.sqrt();
    let spread = (contact * contact + start * start + reckoned * reckoned).sqrt();
    let spread = spread.min(misread * place.y / off_rail_m);
    let meant = line.start.expect("a bank");
    assert!((meant.start - known.start).abs() < 1e-12);
    assert!((meant.read_spread - spread).abs() < 1e-12);

    let away_m = (line.aim.hit.cue_before.position - setup.cue.state.position).norm();
    let cut_rad = CLUB.cut_rad * away_m / 0.5;
    let full = (CLUB.aim_rad * CLUB.aim_rad + cut_rad * cut_rad).sqrt();
    let turn_rad = full * world.equipment().ball.diameter_m / away_m;
    let mut plain = Plain(SplitMix(7));
    let mut made = 0_u32;
    for _ in 0..SHOTS {
        let start = known.start + spread * plain.normal();
        let back = (place.x - start * geometry.diamond_m, place.y);
        let way = Vec2::new(back.0, back.1).unit_or_zero();
        let Ok(aim) = aim_along(&setup, &stroke, geometry.direction_to_table(way)) else {
            continue;
        };
        let played = Stroke {
            aim_rad: aim.stroke.aim_rad + turn_rad * plain.normal(),
            speed_m_s: stroke.speed_m_s * (1.0 + CLUB.speed * plain.normal()),
            side_offset: CLUB.side / 2.5 * plain.normal(),
            allow_miscue: true,
            ..stroke
        };
        made += u32::from(setup.judge(&played).expect("a shot").1.is_made());
    }
    let share = f64::from(made) / f64::from(SHOTS);
    let error = (share * (1.0 - share) / f64::from(SHOTS)).sqrt();
    let spread = StrokeSpread { turn_rad, speed: CLUB.speed, tip: CLUB.side / 2.5 };
    let draw = Draw { replicates: 16, shots: 128, seed: 5 };
    let told = ChoiceTally::play(&setup, CORNER_BANK, &line, spread, draw).chance();
    let apart = (told.chance - share).abs();
    assert!(apart < 3.0 * error.hypot(told.error), "{told:?} and {share} ± {error}");
    assert!(share > 0.05, "{share}: nothing would be compared");
}

#[test]
fn the_farther_the_cue_ball_lies_the_rarer_is_a_cut_made() {
    let world = table();
    let object = Vec2::new(0.5, 0.1);
    // A cue ball on one line through the ghost ball, ever farther from it.
    let near = Setup::new(&world, Vec2::new(0.2, 0.1), object, Pocket::FootRight);
    let stroke = Stroke::centre(2.0, 0.0);
    let line =
        MeantLine::new(&near, &stroke, BallWay::Cut(Pocket::FootRight), JudgedBy::Knowledge, &CLUB)
            .expect("a line");
    let hit = line.aim.hit.cue_before.position;
    let from = (near.cue.state.position - hit).unit_or_zero();
    let draw = Draw { replicates: 16, shots: 256, seed: 3 };
    let mut last = 1.0;
    for away_m in [0.25, 0.5, 1.0, 1.5] {
        let setup = Setup::new(&world, hit + from * away_m, object, Pocket::FootRight);
        let way = BallWay::Cut(Pocket::FootRight);
        let line =
            MeantLine::new(&setup, &stroke, way, JudgedBy::Knowledge, &CLUB).expect("a line");
        let spread = StrokeSpread::of(&CLUB, setup.cue.ball.radius_m(), Some(away_m));
        // Met full, a ball is turned by away/2R times the turn of the cue: what is left is what is told of the cut.
        let turned = spread.turn_rad * away_m / setup.cue.ball.diameter_m;
        let told = CLUB.aim_rad.hypot(CLUB.cut_rad * away_m / 0.5);
        assert!((turned - told).abs() < 1e-15);
        let tally = ChoiceTally::play(&setup, way, &line, spread, draw);
        let chance = tally.chance();
        assert!(chance.chance + 3.0 * chance.error < last, "{away_m} m: {chance:?} after {last}");
        last = chance.chance;
    }
}

#[test]
fn a_mirrored_layout_has_the_same_lines_and_the_same_chances() {
    let world = table();
    let setup = banked(&world);
    let over = |place: Vec2| Vec2::new(place.x, -place.y);
    let mirrored = Setup::new(
        &world,
        over(setup.cue.state.position),
        over(setup.object.state.position),
        Pocket::FootLeft,
    );
    // Of speed and reading alone, which know no side, the numbers are the same; with all errors the strokes are
    // mirrored themselves, and agree within the draws' own error.
    let sideless = Skill { aim_rad: 0.0, cut_rad: 0.0, side: 0.0, ..*CLUB };
    for skill in [sideless, *CLUB] {
        let answer = |setup: &Setup<'_>| {
            let mut asked = asked(setup.clone(), skill, JudgedBy::Knowledge);
            asked.ways.extend(BallWay::all_off_two_rails(&Pocket::ALL));
            asked.answer(ChoiceDraw::USUAL)
        };
        let (own, its) = (answer(&setup), answer(&mirrored));
        let mut made = 0;
        for one in &own.found {
            let way = across(one.way);
            let other = its.found.iter().find(|it| it.way == way).expect("it was asked");
            assert_eq!(one.line.is_ok(), other.line.is_ok(), "{way:?}");
            let (Ok(line), Ok(mirror)) = (&one.line, &other.line) else { continue };
            if let (Some(a), Some(b)) = (line.start, mirror.start) {
                assert!((a.start - b.start).abs() < 1e-6, "{way:?}: {} {}", a.start, b.start);
            }
            let (a, b) =
                (one.tally.as_ref().expect("played"), other.tally.as_ref().expect("played"));
            if skill == sideless {
                // A shot on the very edge of a jaw may fall to either side by rounding.
                assert!((a.chance().chance - b.chance().chance).abs() < 2e-3, "{way:?}");
            } else {
                let error = a.chance().error.hypot(b.chance().error).max(0.01);
                let apart = (a.chance().chance - b.chance().chance).abs();
                assert!(apart < 3.5 * error, "{way:?}: {:?} {:?}", a.chance(), b.chance());
            }
            made += usize::from(a.chance().chance > 0.05);
        }
        assert!(made >= 2, "{made} ways were made at all");
    }
}

/// The same way on the other side of the table's long axis.
fn across(way: BallWay) -> BallWay {
    let pocket = |pocket: Pocket| {
        let (x, y) = pocket.signs();
        Pocket::ALL.into_iter().find(|it| it.signs() == (x, -y)).expect("it has a mirror image")
    };
    let over = |rail: Rail| match rail {
        Rail::Left => Rail::Right,
        Rail::Right => Rail::Left,
        end => end,
    };
    match way {
        BallWay::Cut(of) => BallWay::Cut(pocket(of)),
        BallWay::Bank(rail, of) => BallWay::Bank(over(rail), pocket(of)),
        BallWay::TwoRails(first, second, of) => {
            BallWay::TwoRails(over(first), over(second), pocket(of))
        }
    }
}

#[test]
fn a_ball_straight_before_its_pocket_is_cut() {
    let world = table();
    let [a, b] = world.outline().mouth_points(Pocket::FootRight);
    let mouth = (a + b) * 0.5;
    let back = Vec2::new(-1.0, 1.0).unit_or_zero();
    let setup = Setup::new(&world, mouth + back * 0.8, mouth + back * 0.4, Pocket::FootRight);
    let straight = asked(setup, *CLUB, JudgedBy::Knowledge).answer(ChoiceDraw::USUAL);
    assert_eq!(straight.better(), Better::Cut);
    assert!(chance(&straight, BallWay::Cut(Pocket::FootRight)) > 0.95);
    // Behind the cue ball lies no pocket that it can be cut into.
    let far = straight.found.iter().find(|it| it.way == BallWay::Cut(Pocket::HeadLeft));
    let NoLine::Aim(why) = far.expect("it was asked").line.as_ref().expect_err("no such cut")
    else {
        panic!("it is the aim that is wanting");
    };
    assert!(why.to_string().contains("past 90°"), "{why}");
}

#[test]
fn a_ball_in_the_way_of_the_cut_leaves_the_bank() {
    let world = table();
    let setup = banked(&world);
    let free = asked(setup.clone(), *CLUB, JudgedBy::Knowledge).answer(ChoiceDraw::USUAL);
    assert_eq!(free.better(), Better::Cut);
    let cut = free.found[free.cut.expect("a cut is made")].way;
    assert_eq!(cut, BallWay::Cut(Pocket::FootLeft));

    let [a, b] = world.outline().mouth_points(cut.pocket());
    let way = ((a + b) * 0.5 - setup.object.state.position).unit_or_zero();
    let position = setup.object.state.position + way * 0.3;
    let state = BallState { position, ..BallState::default() };
    let others = vec![ShotBall::of(world.equipment(), state)];
    let blocked = Setup { others, ..setup };
    let blocked = asked(blocked, *CLUB, JudgedBy::Knowledge).answer(ChoiceDraw::USUAL);
    let found = blocked.found.iter().find(|it| it.way == cut).expect("it was asked");
    assert_eq!(found.in_the_way, Some(InTheWay::ObjectMeetsBall(2)));
    assert!(chance(&blocked, cut) < 0.02);
    assert_eq!(blocked.better(), Better::Bank);
    assert_eq!(chance(&blocked, CORNER_BANK), chance(&free, CORNER_BANK), "it is not in that way");
}

#[test]
fn a_bank_that_would_be_made_but_for_the_cue_ball_is_not() {
    let world = table();
    let setup = Setup::new(&world, Vec2::new(0.1, -0.4), Vec2::new(0.3, 0.1), Pocket::FootRight);
    let choice = asked(setup, *CLUB, JudgedBy::Knowledge).answer(ChoiceDraw::USUAL);
    let bank = choice.found.iter().find(|it| it.way == CORNER_BANK).expect("it was asked");
    let meant = bank.meant.expect("it was played");
    assert_eq!(meant.pocket, PocketVerdict::Scratched);
    let tally = bank.tally.as_ref().expect("it was played");
    assert!(tally.scratched() > 0.3, "{}", tally.scratched());
    assert!(tally.chance().chance + tally.scratched() <= 1.0);
}

#[test]
fn the_mark_of_a_bank_off_two_rails_is_read_at_the_first_and_no_rule_gives_one() {
    let world = table();
    let stroke = Stroke::centre(3.0, 0.0);
    let rule = Rule::linear(2.2, 0.0, Reading::Groove).expect("finite");
    let mut lines = 0;
    let ways = BallWay::all_off_two_rails(&Pocket::ALL);
    for ((cue, object), way) in
        LAYOUTS.into_iter().flat_map(|it| ways.iter().map(move |way| (it, *way)))
    {
        let (cue, object) = (Vec2::new(cue.0, cue.1), Vec2::new(object.0, object.1));
        let setup = Setup::new(&world, cue, object, way.pocket());
        let by_rule = MeantLine::new(&setup, &stroke, way, JudgedBy::Rule(&rule), &CLUB);
        assert!(matches!(by_rule, Err(NoLine::TwoRailsByRule)), "{way:?}");
        let Ok(line) = MeantLine::new(&setup, &stroke, way, JudgedBy::Knowledge, &CLUB) else {
            continue;
        };
        lines += 1;
        let first = way.rails().next().expect("two rails");
        let (outline, outward) = (world.outline(), first.outward());
        let ball = setup.object.state.position;
        let off_rail_m = outline.groove_offset_m(first) - ball.dot(outward);
        // Further along the rail, the way that the ball goes.
        let along = Vec2::new(-outward.y, outward.x);
        let along = along * along.dot(line.direction(0.0)).signum();
        let place = |read: f64| {
            let way = line.direction(read);
            (ball + way * (off_rail_m / way.dot(outward))).dot(along)
        };
        // A deviation of reading, in diamonds of a 100-inch table, both rails alike.
        let diamond_m = 100.0 * 0.0254 / 8.0;
        let read_m = (CLUB.contact_read + CLUB.contact_read_off * off_rail_m) * diamond_m;
        assert!((place(1.0) - place(0.0) - read_m).abs() < 1e-9, "{way:?}");
        assert!((place(0.0) - place(-2.0) - 2.0 * read_m).abs() < 1e-9, "{way:?}");
    }
    assert!(lines >= 5, "{lines} lines");
}

/// The same errors on two ways don't make their difference surer, as they do for two rules on one ball: the bank's strokes
/// and the cut's are others, and their errors add up.
#[test]
fn a_bank_and_a_cut_are_struck_with_strokes_of_their_own() {
    let world = table();
    let (mut paired, mut unpaired) = (0.0, 0.0);
    for (cue, object) in LAYOUTS {
        let vec = |(x, y): (f64, f64)| Vec2::new(x, y);
        let setup = Setup::new(&world, vec(cue), vec(object), Pocket::FootRight);
        let question = asked(setup.clone(), *CLUB, JudgedBy::Knowledge);
        let choice = question.answer(ChoiceDraw::USUAL);
        let (Some(bank), Some(cut)) = (choice.bank, choice.cut) else { continue };
        let told = [bank, cut].map(|at| choice.found[at].tally.as_ref().expect("it was played"));
        let apart = choice.apart.expect("there are both");
        let [bank_told, cut_told] = told.map(ChoiceTally::chance);
        assert!((apart.error - bank_told.error.hypot(cut_told.error)).abs() < 1e-15);
        let again = [bank, cut].map(|at| {
            let one = &choice.found[at];
            let line = one.line.as_ref().expect("a line");
            let away = line.aim.hit.cue_before.position - setup.cue.state.position;
            let spread = StrokeSpread::of(&CLUB, setup.cue.ball.radius_m(), Some(away.norm()));
            let draw = Draw { replicates: 64, shots: 64, seed: 1 };
            ChoiceTally::play(&setup, one.way, line, spread, draw)
        });
        let [of_bank, of_cut] = again.each_ref().map(ChoiceTally::chance);
        paired += again[0].less(&again[1]).error.powi(2);
        unpaired += of_bank.error.powi(2) + of_cut.error.powi(2);
    }
    let ratio = paired / unpaired;
    // Measured: 1.09.
    assert!((0.7..1.4).contains(&ratio), "{ratio}");
}
