//! The shot for other programs.

use super::choice::ChoiceAnswer;
use super::event::EventAnswer;
use super::measures::measures;
use super::model::{ModelAnswer, StateAnswer};
use super::player::ShotPlayerAnswer;
use super::reason::ReasonAnswer;
use crate::layout::Layout;
use crate::playing::{PlayedShot, Remedy, shot_result};
use crate::telling::Detail;
use crate::telling::caution::Cautions;
use railproof_engine::rail::Pocket;
use railproof_engine::results::{ResultPart, SHOT_MEASURES};
use railproof_engine::shot::{End, PieceKind};
use railproof_engine::verdict::PocketVerdict;
use serde::Serialize;
use serde_json::{Map, Value};

/// The answer that `--json` prints.
#[derive(Debug, Serialize)]
pub struct ShotAnswer<'a> {
    /// The shot in sentences.
    pub sentence: String,
    /// The verdict on the target; left out without one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub verdict: Option<TargetAnswer<'a>>,
    /// How often the player makes it; left out where nobody asks.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub player: Option<ShotPlayerAnswer>,
    /// Whether the player had better bank the ball or cut it; left out where nobody asks.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bank_or_cut: Option<ChoiceAnswer>,
    /// The cautions of the answer.
    pub cautions: Cautions,
    /// The stroke and the motion off the tip; left out without one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stroke: Option<StrokeAnswer<'a>>,
    /// The balls, in the file's order.
    pub balls: Vec<BallAnswer<'a>>,
    /// The events, in order of time.
    pub events: Vec<EventAnswer<'a>>,
    /// The end of each ball, in the file's order.
    pub ends: Vec<EndAnswer<'a>>,
    /// The balls' ways, each a curve of constant acceleration, ball by ball in order of time.
    pub pieces: Vec<PieceAnswer<'a>>,
    /// Every parameter in use.
    pub model: ModelAnswer,
}

/// A ball.
#[derive(Debug, Serialize)]
pub struct BallAnswer<'a> {
    pub name: &'a str,
    pub radius_m: f64,
    pub mass_kg: f64,
    pub start: StateAnswer,
}

/// The end of a ball.
#[derive(Debug, Serialize)]
pub struct EndAnswer<'a> {
    /// The ball's name.
    pub ball: &'a str,
    /// at-rest, dropped, time-over, given-up (too many events) or unending.
    pub ending: &'static str,
    /// The pocket into which it dropped.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pocket: Option<&'static str>,
    /// When, s since the start.
    pub time_s: f64,
    /// Its state then.
    pub state: StateAnswer,
}

/// A piece of a ball's way: a parabola, or a straight line.
#[derive(Debug, Serialize)]
pub struct PieceAnswer<'a> {
    /// The ball's name.
    pub ball: &'a str,
    /// slide, roll or held.
    pub kind: &'static str,
    /// When it begins, s since the start.
    pub time_s: f64,
    /// Duration, s.
    pub duration_s: f64,
    /// Its beginning, the point where its end tangents meet, and its end, m: a quadratic Bézier curve.
    pub curve_m: [[f64; 2]; 3],
}

/// The verdict on the target.
#[derive(Debug, Serialize)]
pub struct TargetAnswer<'a> {
    /// The ball's name.
    pub ball: &'a str,
    /// The pocket it was meant for.
    pub pocket: &'static str,
    #[serde(flatten)]
    pub measures: Map<String, Value>,
    /// The pocket into which it dropped instead.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub other_pocket: Option<&'static str>,
    /// When the two first met again after it had come off anything, a double kiss or not, s.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub met_again_at_s: Option<f64>,
    /// The passage of its way by the mouth; null where it never comes there.
    pub arrival: Option<Map<String, Value>>,
    /// Its miss as a sum over its causes.
    pub why: ReasonAnswer,
    /// The miss and its reason in a sentence; null where it was not missed.
    pub reason: Option<String>,
    /// The start number that the line needs (groove reading), where the line itself makes the miss; null elsewhere.
    pub needed_start: Option<f64>,
    /// Other strokes that make it, where it was missed; null where none was found.
    pub remedy: Option<RemedyAnswer>,
}

/// Strokes that make a shot which missed, as changes of the one that was played.
#[derive(Debug, Serialize)]
pub struct RemedyAnswer {
    /// In a sentence.
    pub sentence: String,
    /// The hit and the speed make it together only.
    pub together: bool,
    /// Another hit.
    pub hit: Option<HitAnswer>,
    /// Side with which the balls do not rub.
    pub gear: Option<GearAnswer>,
    /// Another speed.
    pub speed: Option<SpeedAnswer>,
    /// The ball drops, but off a jaw.
    pub off_jaw: bool,
}

/// A hit beside the one that was played.
#[derive(Debug, Serialize)]
pub struct HitAnswer {
    /// thinner, fuller, further left or further right.
    pub to: &'static str,
    /// By so much at the object ball, m.
    pub by_m: f64,
    pub aim_rad: f64,
}

/// The same hit with side.
#[derive(Debug, Serialize)]
pub struct GearAnswer {
    /// The tip's place to the side, as a share of the radius.
    pub tip_side: f64,
    /// The side away from the way that the object ball goes.
    pub outside: bool,
    pub aim_rad: f64,
}

/// The same stroke at another speed.
#[derive(Debug, Serialize)]
pub struct SpeedAnswer {
    /// harder or softer.
    pub to: &'static str,
    pub speed_m_s: f64,
    /// The speed as a layout has it.
    pub written: String,
    pub aim_rad: f64,
}

/// A stroke.
#[derive(Debug, Serialize)]
pub struct StrokeAnswer<'a> {
    pub ball: &'a str,
    #[serde(flatten)]
    pub measures: Map<String, Value>,
    /// The least that the cue's room asks for.
    pub least_elevation_rad: f64,
    /// The thing that asks for it; null when a level cue has room.
    pub forced_by: Option<String>,
    pub squirt_rad: f64,
    pub miscue: bool,
    /// A real ball would hop off the cloth by so much, m.
    pub hop_m: f64,
    /// That hop is one to be said; the shot is played on as if the ball stayed down.
    pub jumps: bool,
}

impl PlayedShot<'_> {
    /// The answer that `--json` prints.
    pub fn answer(&self) -> ShotAnswer<'_> {
        ShotAnswer {
            sentence: self.sentences(Detail::Full),
            verdict: self.target_answer(),
            player: None,
            bank_or_cut: None,
            cautions: self.cautions(),
            stroke: stroke_answer(self.layout),
            balls: ball_answers(self.layout),
            events: self.event_answers(),
            ends: end_answers(self.layout, &self.shot.ends),
            pieces: self.pieces(),
            model: ModelAnswer::new(&self.layout.equipment, self.rail_model())
                .of_shot(self.layout.until_s),
        }
    }

    fn target_answer(&self) -> Option<TargetAnswer<'_>> {
        let (target, verdict) = (self.layout.target?, self.verdict()?);
        let other_pocket = match verdict.pocket {
            PocketVerdict::OtherPocket(pocket) => Some(pocket.name()),
            _ => None,
        };
        let outcome = self.outcome();
        let result = shot_result(self.layout, outcome.as_ref());
        let of = |part| measures(SHOT_MEASURES, &result, part);
        let why = self.why()?;
        let needed_start = why.as_ref().ok().and_then(|why| self.needed_start(why));
        Some(TargetAnswer {
            ball: self.name(target.ball),
            pocket: target.pocket.name(),
            measures: of(ResultPart::Whole),
            other_pocket,
            why: ReasonAnswer::of(&why),
            reason: self.reason(),
            needed_start: needed_start.map(|needed| needed.needs),
            remedy: self.remedy().map(|remedy| self.remedy_answer(&remedy)),
            met_again_at_s: verdict.met_again_s,
            arrival: verdict.arrival.map(|_| of(ResultPart::Arrival)),
        })
    }

    fn remedy_answer(&self, remedy: &Remedy) -> RemedyAnswer {
        RemedyAnswer {
            sentence: self.remedy_words(remedy),
            together: remedy.both.is_some(),
            hit: remedy.hit.or(remedy.both.map(|both| both.hit)).map(|hit| HitAnswer {
                to: hit.to.name(),
                by_m: hit.by_m,
                aim_rad: hit.stroke.aim_rad,
            }),
            gear: remedy.gearing.map(|gearing| GearAnswer {
                tip_side: gearing.offset,
                outside: gearing.outside,
                aim_rad: gearing.stroke.aim_rad,
            }),
            speed: remedy.speed.or(remedy.both.map(|both| both.speed)).map(|speed| SpeedAnswer {
                to: speed.to(),
                speed_m_s: speed.stroke.speed_m_s,
                written: speed.written(),
                aim_rad: speed.stroke.aim_rad,
            }),
            off_jaw: remedy.off_jaw,
        }
    }

    fn pieces(&self) -> Vec<PieceAnswer<'_>> {
        let pieces = |ball: usize| self.shot.pieces(ball).into_iter().map(move |it| (ball, it));
        let all = (0..self.layout.balls.len()).flat_map(pieces);
        all.map(|(ball, piece)| PieceAnswer {
            ball: self.name(ball),
            kind: match piece.kind {
                PieceKind::Slide => "slide",
                PieceKind::Roll => "roll",
                PieceKind::Held => "held",
            },
            time_s: piece.time_s,
            duration_s: piece.motion.duration_s,
            curve_m: piece.curve().map(|point| [point.x + 0.0, point.y + 0.0]),
        })
        .collect()
    }
}

pub(super) fn stroke_answer(layout: &Layout) -> Option<StrokeAnswer<'_>> {
    layout.stroke.map(|it| StrokeAnswer {
        ball: layout.ball_name(it.ball),
        measures: measures(SHOT_MEASURES, &shot_result(layout, None), ResultPart::Stroke),
        least_elevation_rad: it.room.least_rad,
        forced_by: layout.cue_passes_over(),
        squirt_rad: it.struck.squirt_rad,
        miscue: it.struck.miscue,
        hop_m: it.struck.hop_m(layout.equipment.gravity_m_s2),
        jumps: layout.jumps(),
    })
}

pub(super) fn ball_answers(layout: &Layout) -> Vec<BallAnswer<'_>> {
    let balls = layout.balls.iter();
    balls
        .map(|it| BallAnswer {
            name: &it.name,
            radius_m: it.ball.radius_m(),
            mass_kg: it.ball.mass_kg,
            start: StateAnswer::from(&it.state),
        })
        .collect()
}

pub(super) fn end_answers<'a>(layout: &'a Layout, ends: &[End]) -> Vec<EndAnswer<'a>> {
    let ends = ends.iter().enumerate();
    ends.map(|(ball, end)| EndAnswer {
        ball: layout.ball_name(ball),
        ending: end.ending.name(),
        pocket: end.ending.pocket().map(Pocket::name),
        time_s: end.time_s,
        state: StateAnswer::from(&end.state),
    })
    .collect()
}
