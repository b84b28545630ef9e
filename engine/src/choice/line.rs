//! The line that a person means the object ball to go along, and how well they judge it.

use super::{BallWay, NoLine};
use crate::aim::{Aim, NoAim, Setup, aim_again, aim_along};
use crate::bank::{Bank, BankVerdict, Launch};
use crate::chance::{AimedStart, BallLines, Condition, Skill};
use crate::rail::{BankGeometry, Line, Pocket, Rail};
use crate::root::bracketed_root;
use crate::rule::Rule;
use crate::shot::{EventKind, Shot, ShotBall, play};
use crate::stroke::Stroke;
use crate::units::Speed;
use crate::vector::Vec2;
use crate::verdict::{arrival, arrival_of, rails_before};

/// How a person comes to the line of a bank.
#[derive(Debug, Clone, Copy)]
pub enum JudgedBy<'a> {
    /// They work it out by a rule.
    Rule(&'a Rule),
    /// They know it for this stroke, and read its mark.
    Knowledge,
}

/// A meant line.
#[derive(Debug, Clone)]
pub struct MeantLine {
    /// The start number of a bank, groove reading, and its spread from all that is read; `None` for a cut.
    pub start: Option<AimedStart>,
    /// The stroke for it.
    pub aim: Aim,
    straight: Vec2,
    mark: LineMark,
}

/// What is read of a line.
#[derive(Debug, Clone)]
enum LineMark {
    /// Nothing: it is seen.
    Seen,
    /// The start number, and all that comes before it.
    Start(Box<BankFrame>),
    /// The place where it meets the first rail: from the ball to it, and the way that it moves along the rail for a
    /// deviation of reading, m.
    Contact { to: Vec2, moves: Vec2 },
}

/// A ball's lines off a rail.
#[derive(Debug, Clone)]
struct BankFrame {
    geometry: BankGeometry,
    lines: BallLines,
    /// −1 where a side pocket is played from its other side: numbers are counted the other way round.
    sense: f64,
}

impl BankFrame {
    fn new(setup: &Setup<'_>, rail: Rail, pocket: Pocket) -> Result<Self, NoLine> {
        let geometry = BankGeometry::new(setup.world.equipment(), rail, pocket)
            .map_err(|error| NoLine::Aim(NoAim::Geometry(error)))?;
        let ball = geometry.from_table(setup.object.state.position);
        let sense = if pocket.is_side() && !rail.is_end() && ball.x < 0.0 { -1.0 } else { 1.0 };
        let off_rail_m = (geometry.span_m - ball.y).max(0.0);
        let lines = BallLines {
            number: sense * ball.x / geometry.diamond_m,
            beyond_m: geometry.span_m - off_rail_m,
            off_rail_m,
            diamond_m: geometry.diamond_m,
        };
        Ok(Self { geometry, lines, sense })
    }

    /// The direction from a start number through the ball, table frame.
    fn direction(&self, start: f64) -> Vec2 {
        let back = self.sense * (self.lines.number - start) * self.lines.diamond_m;
        let way = Vec2::new(back, self.lines.beyond_m).unit_or_zero();
        self.geometry.direction_to_table(way)
    }

    /// The object ball as it leaves a hit; `None` where it is not sent off.
    fn launch(&self, aim: &Aim, line: Line, radius_m: f64) -> Option<Launch> {
        let own = self.geometry.state_from_table(&aim.hit.object_after);
        let own = if self.sense < 0.0 { own.mirrored() } else { own };
        Launch::of_sent(line, &own, self.geometry.span_m, radius_m)
    }

    fn condition(&self, speed_m_s: f64) -> Condition {
        Condition {
            rail: self.geometry.rail,
            pocket: self.geometry.pocket,
            number: self.lines.number,
            off_rail_m: self.lines.off_rail_m,
            speed: Speed::MetresPerSecond(speed_m_s),
            roll: 0.0,
            side: 0.0,
        }
    }

    /// The start from which the ball, hit along its line by this stroke, comes through the middle of the mouth.
    fn exact_start(&self, setup: &Setup<'_>, stroke: &Stroke) -> Result<f64, NoLine> {
        let equipment = setup.world.equipment();
        let model = equipment.cushion.rail_model;
        let bank = Bank::new(equipment, self.geometry.rail, self.geometry.pocket, model)
            .map_err(|_| NoLine::NotThere { why: "there is no such bank" })?;
        let radius_m = setup.object.ball.radius_m();
        let mut solved: Option<Aim> = None;
        let mut played = |start: f64| {
            let direction = self.direction(start);
            let aim = match &solved {
                Some(solved) => aim_again(setup, solved, direction)?,
                None => aim_along(setup, stroke, direction)?,
            };
            solved = Some(aim);
            let line = self.lines.line(start);
            let launch = self.launch(&aim, line, radius_m);
            let outcome = launch.and_then(|launch| bank.play(line, launch).ok());
            outcome.ok_or(NoLine::NotThere { why: "the object ball is hit too softly" })
        };
        let mut miss = |start: f64| -> Result<f64, NoLine> {
            let outcome = played(start)?;
            outcome.miss_m().ok_or(NoLine::NotThere { why: outcome.verdict().name() })
        };
        let ball = self.lines.number * self.lines.diamond_m;
        let place = Vec2::new(ball, self.lines.beyond_m);
        let guess = Rule::mirror().aim_from(place, &self.geometry)?.line.start;
        let (low, high) = bracket(guess, &mut miss)?;
        let (start, left) = bracketed_root(&mut miss, low, high)?;
        let verdict = played(start)?.verdict();
        let comes = matches!(verdict, BankVerdict::Holds | BankVerdict::TouchesPoint(_));
        if left.abs() > SETTLED_M || !comes {
            return Err(NoLine::NotThere { why: verdict.name() });
        }
        Ok(self.settled(setup, stroke, start))
    }

    /// The start nearby from which the object ball, alone on the whole table, comes through the middle. A bank knows
    /// roll along its line only, and a hit leaves some aside of it: that moves the arrival by millimetres.
    fn settled(&self, setup: &Setup<'_>, stroke: &Stroke, start: f64) -> f64 {
        const STEPS: usize = 8;
        let (rail, pocket) = (self.geometry.rail, self.geometry.pocket);
        let Ok(solved) = aim_along(setup, stroke, self.direction(start)) else { return start };
        let miss = |start: f64| {
            let aim = aim_again(setup, &solved, self.direction(start)).ok()?;
            let ball = ShotBall { state: aim.hit.object_after, ..setup.object };
            let shot = play(setup.world, &[ball], None).ok()?;
            let arrival = arrival(setup.world, &shot, 0, pocket)?;
            (arrival.last_rail == Some(rail)).then_some(arrival.miss_m)
        };
        let Some(first) = miss(start) else { return start };
        let mut last = (start, first);
        let mut best = last;
        let mut here = start + 0.01;
        for _ in 0..STEPS {
            let Some(value) = miss(here) else { break };
            if value.abs() < best.1.abs() {
                best = (here, value);
            }
            let slope = (value - last.1) / (here - last.0);
            if value.abs() < SETTLED_M || slope == 0.0 || !slope.is_finite() {
                break;
            }
            last = (here, value);
            here -= value / slope;
        }
        best.0
    }
}

/// A miss this small is none; where it jumps over zero it stays larger, m.
const SETTLED_M: f64 = 1e-6;

/// A start number, or a direction, and the miss from it, m.
type StartMiss = (f64, f64);

/// Two starts about a guess whose misses differ in sign, the nearest on either side.
fn bracket(
    guess: f64,
    miss: &mut impl FnMut(f64) -> Result<f64, NoLine>,
) -> Result<(StartMiss, StartMiss), NoLine> {
    const STEP: f64 = 0.2;
    const STEPS: i32 = 20;
    const LOST: i32 = 4;
    let first = miss(guess);
    let mut ends = [first.as_ref().ok().map(|value| (guess, *value)); 2];
    for step in 1..=STEPS {
        for (end, side) in ends.iter_mut().zip([1.0, -1.0]) {
            // A side that is lost stays lost, but for a first guess that was.
            if end.is_none() && (first.is_ok() || step > LOST) {
                continue;
            }
            let start = guess + side * STEP * f64::from(step);
            let next = miss(start).ok().map(|value| (start, value));
            if let (Some(last), Some(next)) = (*end, next)
                && (next.1 > 0.0) != (last.1 > 0.0)
            {
                return Ok(if last.0 < next.0 { (last, next) } else { (next, last) });
            }
            *end = next;
        }
    }
    first?;
    Err(NoLine::NotThere { why: "every line near that of equal angles passes it on one side" })
}

/// The line of a cut to the middle of the mouth, and the stroke for it. What a cut gives a ball of spin bends its
/// way by a millimetre, which is known by habit as throw is.
fn cut(setup: &Setup<'_>, stroke: &Stroke, pocket: Pocket) -> Result<(Vec2, Aim), NoLine> {
    const STEPS: usize = 4;
    let (equipment, outline) = (setup.world.equipment(), setup.world.outline());
    let [a, b] = outline.mouth_points(pocket);
    let way = (a + b) * 0.5 - setup.object.state.position;
    let mut straight = way.unit_or_zero();
    let mut aim = aim_along(setup, stroke, straight)?;
    for _ in 0..STEPS {
        let arrival = arrival_of(equipment, outline, aim.hit.object_after, None, pocket);
        let Some(arrival) = arrival else { break };
        // Positive is to the right of the way.
        let left = Vec2::new(-straight.y, straight.x);
        straight = (straight * way.norm() + left * arrival.miss_m).unit_or_zero();
        aim = aim_again(setup, &aim, straight)?;
    }
    Ok((straight, aim))
}

/// The line off two rails to the middle of the mouth, and the stroke for it: near that of equal angles in both grooves,
/// by whole shots of the object ball alone.
fn off_two_rails(
    setup: &Setup<'_>,
    stroke: &Stroke,
    rails: [Rail; 2],
    pocket: Pocket,
) -> Result<(Vec2, Aim), NoLine> {
    const STEP_RAD: f64 = 0.02;
    const STEPS: i32 = 12;
    let outline = setup.world.outline();
    let [a, b] = outline.mouth_points(pocket);
    let image = rails.iter().rev().fold((a + b) * 0.5, |place, rail| {
        let outward = rail.outward();
        place + outward * (2.0 * (outline.groove_offset_m(*rail) - place.dot(outward)))
    });
    let way = image - setup.object.state.position;
    let guess_rad = libm::atan2(way.y, way.x);
    let towards = |angle_rad: f64| Vec2::new(libm::cos(angle_rad), libm::sin(angle_rad));
    let mut solved = aim_along(setup, stroke, towards(guess_rad))?;
    let mut miss = |angle_rad: f64| -> Result<f64, NoLine> {
        let aim = aim_again(setup, &solved, towards(angle_rad))?;
        solved = aim;
        let ball = ShotBall { state: aim.hit.object_after, ..setup.object };
        let elsewhere = NoLine::NotThere { why: "the ball goes another way" };
        let Ok(shot) = play(setup.world, &[ball], None) else { return Err(elsewhere) };
        match arrival(setup.world, &shot, 0, pocket) {
            Some(arrival) if rails_of(setup, &shot, pocket) == rails => Ok(arrival.miss_m),
            _ => Err(elsewhere),
        }
    };
    // Every change of sign between two neighbours that both come there, the nearest to the guess first.
    let at = |step: i32| guess_rad + STEP_RAD * f64::from(step);
    let seen: Vec<Option<f64>> = (-STEPS..=STEPS).map(|step| miss(at(step)).ok()).collect();
    let mut changes: Vec<(f64, StartMiss, StartMiss)> = (-STEPS..STEPS)
        .zip(seen.windows(2))
        .filter_map(|(step, pair)| match pair {
            [Some(a), Some(b)] if (*a > 0.0) != (*b > 0.0) => {
                let away = (f64::from(step) + a.abs() / (a.abs() + b.abs())).abs();
                Some((away, (at(step), *a), (at(step + 1), *b)))
            }
            _ => None,
        })
        .collect();
    changes.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Where the miss jumps over zero there is no line.
    let found = changes.into_iter().find_map(|(_, low, high)| {
        let (angle_rad, left_m) = bracketed_root(&mut miss, low, high).ok()?;
        (left_m.abs() <= SETTLED_M).then_some(angle_rad)
    });
    let angle_rad = found.ok_or(NoLine::NotThere {
        why: "no line near that of equal angles leads through the middle",
    })?;
    let straight = towards(angle_rad);
    Ok((straight, aim_along(setup, stroke, straight)?))
}

/// The rails that the only ball of a shot is banked off before it comes to the pocket's neighbourhood; more than two are
/// not told.
fn rails_of(setup: &Setup<'_>, shot: &Shot, pocket: Pocket) -> Vec<Rail> {
    let count = rails_before(setup.world, shot, 0, pocket);
    let mut rails: Vec<Rail> = shot
        .events_of(0)
        .filter_map(|event| match event.kind {
            EventKind::Cushion(touch) => Some(touch.rail),
            _ => None,
        })
        .collect();
    rails.dedup();
    rails.truncate(count);
    rails
}

/// The mark of a line at the rail that it meets first.
fn contact_mark(setup: &Setup<'_>, rail: Rail, straight: Vec2, skill: &Skill) -> LineMark {
    let (equipment, outline) = (setup.world.equipment(), setup.world.outline());
    let (ball, outward) = (setup.object.state.position, rail.outward());
    let off_rail_m = (outline.groove_offset_m(rail) - ball.dot(outward)).max(0.0);
    let to = straight * (off_rail_m / straight.dot(outward));
    // The way that the line itself goes on, so that mirror images misread alike.
    let along = Vec2::new(-outward.y, outward.x);
    let along = if along.dot(straight) < 0.0 { -along } else { along };
    let table = &equipment.table;
    let diamond_m =
        if rail.is_end() { table.end_rail_diamond_m() } else { table.long_rail_diamond_m() };
    LineMark::Contact { to, moves: along * (skill.contact_read_at(off_rail_m) * diamond_m) }
}

impl MeantLine {
    /// The line of a way, as a person judges it, and the stroke that sends the ball along it.
    ///
    /// # Errors
    /// [`NoLine`].
    pub fn new(
        setup: &Setup<'_>,
        stroke: &Stroke,
        way: BallWay,
        by: JudgedBy<'_>,
        skill: &Skill,
    ) -> Result<Self, NoLine> {
        let (rail, pocket) = match way {
            BallWay::Cut(pocket) => {
                let (straight, aim) = cut(setup, stroke, pocket)?;
                return Ok(Self { start: None, aim, straight, mark: LineMark::Seen });
            }
            BallWay::Bank(rail, pocket) => (rail, pocket),
            BallWay::TwoRails(first, second, pocket) => {
                if matches!(by, JudgedBy::Rule(_)) {
                    return Err(NoLine::TwoRailsByRule);
                }
                let (straight, aim) = off_two_rails(setup, stroke, [first, second], pocket)?;
                let mark = contact_mark(setup, first, straight, skill);
                return Ok(Self { start: None, aim, straight, mark });
            }
        };
        let frame = BankFrame::new(setup, rail, pocket)?;
        let condition = frame.condition(stroke.speed_m_s);
        let start = match by {
            JudgedBy::Rule(rule) => AimedStart::by_rule(rule, &condition, skill, &frame.geometry)?,
            JudgedBy::Knowledge => {
                let start = frame.exact_start(setup, stroke)?;
                AimedStart::at_start(start, &condition, skill, &frame.geometry)
            }
        };
        let straight = frame.direction(start.start);
        let aim = aim_along(setup, stroke, straight)?;
        Ok(Self { start: Some(start), aim, straight, mark: LineMark::Start(Box::new(frame)) })
    }

    /// True where its mark is read with an error.
    pub fn is_misread(&self) -> bool {
        match &self.mark {
            LineMark::Seen => false,
            LineMark::Start(_) => self.start.is_some_and(|start| start.read_spread > 0.0),
            LineMark::Contact { moves, .. } => moves.norm() > 0.0,
        }
    }

    /// The direction of the line as it is judged with an error, in standard deviations.
    pub fn direction(&self, read: f64) -> Vec2 {
        match (&self.mark, self.start) {
            (LineMark::Start(frame), Some(AimedStart { start, read_spread }))
                if read_spread > 0.0 =>
            {
                frame.direction(start + read_spread * read)
            }
            (LineMark::Contact { to, moves }, _) => (*to + *moves * read).unit_or_zero(),
            _ => self.straight,
        }
    }
}
