//! The shot for people: the outcome of the target, and one sentence for each ball that moved.

use super::asked_units::AskedUnits;
use super::caution::FLAGGED_BANK;
use super::conditions::friction_words;
use super::detail::Detail;
use super::outcome::{number_at, rail_at};
use super::reason;
use super::wording::{ball_words, capital};
use crate::layout::Layout;
use crate::playing::PlayedShot;
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::{Pocket, Rail};
use railproof_engine::shot::{End, Ending, Event, EventKind};
use railproof_engine::units::short_number;
use railproof_engine::vector::Vec2;
use railproof_engine::verdict::{
    Miss, PocketArrival, PocketVerdict, RailNumber, ShotVerdict, number_along, number_beside,
};
use std::fmt::Write;

/// More happenings than this in one ball's sentence are counted instead of told.
const MOST_HAPPENINGS: usize = 12;
/// Of a shot that was given up so many moments are told.
const LAST_MOMENTS: usize = 12;

impl PlayedShot<'_> {
    /// The shot in sentences, one to a line; in full, with every share of a miss and what it was worked out by.
    pub fn sentences(&self, detail: Detail) -> String {
        let mut text = String::new();
        let mut line = |sentence: &str| {
            text.push_str(sentence);
            text.push('\n');
        };
        if let Some(sentence) = self.advice() {
            line(&sentence);
        }
        if let Some(sentence) = self.target_sentence() {
            line(&capital(&sentence));
        }
        if let Some(sentence) = self.less_sure() {
            line(&sentence);
        }
        if let Some(sentence) = self.why_sentence().filter(|_| detail.is_full()) {
            line(&sentence);
        }
        for ball in 0..self.layout.balls.len() {
            if let Some(sentence) = self.ball_sentence(ball) {
                line(&sentence);
            }
        }
        let still = (0..self.layout.balls.len()).filter(|ball| !self.moved(*ball)).count();
        match still {
            0 => {}
            all if all == self.layout.balls.len() && self.layout.stroke.is_none() => {
                line("Nothing moves, since nothing is struck: the layout has no `stroke`.");
            }
            1 => line("One ball did not move."),
            _ => line(&format!("{still} balls did not move.")),
        }
        if self.shot.gave_up() {
            let last_s = self.shot.duration_s();
            line(&format!(
                "Given up after {} events: nothing after {last_s:.3} s is known. What happened last:",
                self.shot.events.len()
            ));
            let moments = self.moments();
            let lines: Vec<&str> = moments.lines().collect();
            for moment in &lines[lines.len().saturating_sub(LAST_MOMENTS)..] {
                line(moment);
            }
        }
        let table = &self.layout.equipment;
        if detail.is_full() {
            if let Some(sentence) = self.layout.elevation_sentence() {
                line(&sentence);
            }
            line(&format!(
                "Played on {}, by the {} rail model{}.",
                table.name,
                self.rail_model().name(),
                friction_words(self.rub(), table)
            ));
        } else {
            line(&format!("Played on {}. --full tells more.", table.name));
        }
        for caution in self.cautions().lines() {
            line(&caution);
        }
        text
    }

    /// The verdict on the target; `None` without one.
    pub fn target_sentence(&self) -> Option<String> {
        let (verdict, target) = (self.verdict()?, self.layout.target?);
        let off = self.last_of_several_rails(&verdict, target.ball);
        let end = self.shot.ends.get(target.ball);
        let end = end.filter(|_| verdict.pocket == PocketVerdict::NotReached);
        let cut_short =
            end.and_then(|end| cut_short(end, &ball_words(self.name(target.ball)), target.pocket));
        let mut sentence = cut_short.unwrap_or_else(|| {
            let scratched = self.scratching_pocket();
            let beside = number_beside(&self.world, &self.shot, target.ball, target.pocket);
            let way = PocketWay { pocket: target.pocket, off, beside, scratched };
            outcome(&verdict, &ball_words(self.name(target.ball)), &way, self.units())
        });
        if let Some(kissed_at_s) = verdict.kissed_at_s {
            let _ = write!(
                sentence,
                " A double kiss: the two balls meet again after {kissed_at_s:.2} s."
            );
        } else if let Some(again_s) = verdict.met_again_s {
            let _ = write!(sentence, " The two balls meet again after {again_s:.2} s.");
        }
        Some(sentence)
    }

    /// Words for a shot of whose rails on the way to the pocket the model is less sure.
    fn less_sure(&self) -> Option<String> {
        let target = self.layout.target?.ball;
        let last = self.verdict()?.arrival?.last_rail?;
        let touches = self.shot.events_of(target).filter_map(|event| match event.kind {
            EventKind::Cushion(touch) => Some(touch),
            _ => None,
        });
        let mut there = false;
        let mut on_its_way =
            touches.take_while(|it| !std::mem::replace(&mut there, it.rail == last));
        on_its_way
            .any(|it| it.touch.hop || it.touch.outside_checked_speed)
            .then(|| format!("Less sure: {} {FLAGGED_BANK}.", ball_words(self.name(target))))
    }

    pub(super) fn units(&self) -> AskedUnits {
        AskedUnits::of_layout(self.layout)
    }

    /// The sum of a miss, where there is one.
    fn why_sentence(&self) -> Option<String> {
        self.verdict().filter(missed)?;
        match self.why()? {
            Ok(why) => Some(reason::sum(&why, self.units())),
            Err(why_not) => self.came_off_a_rail().then(|| reason::no_sum(&why_not)),
        }
    }

    pub(super) fn came_off_a_rail(&self) -> bool {
        let arrival = self.verdict().and_then(|verdict| verdict.arrival);
        arrival.is_some_and(|arrival| arrival.last_rail.is_some())
    }

    /// The rail from which a ball came to the pocket, where it had come off others before.
    fn last_of_several_rails(&self, verdict: &ShotVerdict, ball: usize) -> Option<Rail> {
        let last = verdict.arrival?.last_rail?;
        let rails: Vec<Rail> = self
            .shot
            .events_of(ball)
            .filter_map(|event| match event.kind {
                EventKind::Cushion(touch) => Some(touch.rail),
                _ => None,
            })
            .collect();
        (rails.iter().rposition(|rail| *rail == last)? > 0).then_some(last)
    }

    /// The pocket into which the struck ball dropped.
    pub(super) fn scratching_pocket(&self) -> Option<Pocket> {
        match self.shot.ends.get(self.layout.stroke?.ball)?.ending {
            Ending::Dropped(pocket) => Some(pocket),
            _ => None,
        }
    }

    /// The course of a ball, in order; `None` for one that did not move.
    fn ball_sentence(&self, ball: usize) -> Option<String> {
        if !self.moved(ball) {
            return None;
        }
        let mut happenings: Vec<(String, usize)> = Vec::new();
        let mut more = 0;
        for event in self.shot.events_of(ball) {
            let Some(happening) = self.happening(ball, event) else { continue };
            let count = happenings.len();
            match happenings.last_mut() {
                Some((last, times)) if *last == happening => *times += 1,
                _ if count >= MOST_HAPPENINGS => more += 1,
                _ => happenings.push((happening, 1)),
            }
        }
        let mut parts: Vec<String> = happenings
            .into_iter()
            .map(|(happening, times)| match times {
                1 => happening,
                _ => format!("{happening} ({times} times)"),
            })
            .collect();
        if more > 0 {
            parts.push(format!("meets balls and rails {more} more times"));
        }
        let end = self.shot.ends.get(ball);
        parts.extend(end.and_then(|end| ending_words(end, self.layout)));
        let name = capital(&ball_words(self.name(ball)));
        Some(match parts.split_last() {
            None => format!("{name} moves."),
            Some((last, [])) => format!("{name} {last}."),
            Some((last, before)) => format!("{name} {}, and {last}.", before.join(", ")),
        })
    }

    fn happening(&self, ball: usize, event: &Event) -> Option<String> {
        let units = self.units();
        Some(match event.kind {
            EventKind::Start => {
                let speed = event.after.velocity.norm();
                let told = told_speed(units, speed);
                if let Some(stroke) = self.layout.stroke.filter(|stroke| stroke.ball == ball) {
                    // A cue that points down sends part of its speed into the cloth.
                    let given = told_speed(units, stroke.stroke.speed_m_s);
                    let along = if told == given { "" } else { " along the table" };
                    format!("is struck and leaves at {told}{along}")
                } else if speed > 0.0 {
                    format!("starts at {told}")
                } else if event.after.spin.norm() > 0.0 {
                    "spins where it lies".to_owned()
                } else {
                    return None;
                }
            }
            EventKind::Cushion(touch) => {
                let rail = touch.rail.name();
                match self.layout.target {
                    Some(target) => {
                        let place = event.before.position;
                        let number =
                            number_along(&self.layout.equipment, touch.rail, target.pocket, place);
                        format!("comes off the {rail} rail at {}", number_at(number, target.pocket))
                    }
                    None => format!("comes off the {rail} rail"),
                }
            }
            EventKind::Jaw { pocket, .. } => {
                format!("touches a jaw of the {} pocket", pocket.name())
            }
            EventKind::Obstacle { index, .. } => {
                let name = self.layout.obstacles.get(index).map_or("", |it| it.name.as_str());
                format!("comes off the {name}")
            }
            EventKind::Ball(touch) => {
                let (other, before, after) = if event.ball == ball {
                    (touch.other, event.before, event.after)
                } else {
                    (event.ball, touch.other_before, touch.other_after)
                };
                let other = ball_words(self.name(other));
                if before.velocity == Vec2::ZERO {
                    let leaves = told_speed(units, after.velocity.norm());
                    format!("is hit by {other} and leaves at {leaves}")
                } else {
                    format!("hits {other} at {}", told_speed(units, before.velocity.norm()))
                }
            }
            EventKind::Roll
            | EventKind::Pivot
            | EventKind::Hop
            | EventKind::Leave
            | EventKind::Drop(_)
            | EventKind::Stop => return None,
        })
    }
}

/// A speed in the unit of the stroke.
fn told_speed(units: AskedUnits, m_s: f64) -> String {
    units.speed_to(m_s, 2, f64::round)
}

/// The end of a ball, after the words on its course.
pub(super) fn ending_words(end: &End, layout: &Layout) -> Option<String> {
    let place = spot(end.state.position, &layout.equipment);
    match end.ending {
        Ending::Dropped(pocket) => {
            Some(format!("drops into the {} pocket after {:.2} s", pocket.name(), end.time_s))
        }
        Ending::AtRest => Some(format!("stops {place} after {:.2} s", end.time_s)),
        Ending::TimeOver => {
            let speed = told_speed(AskedUnits::of_layout(layout), end.state.velocity.norm());
            Some(format!("is still moving at {speed} when the time is over"))
        }
        Ending::Unending if end.state.velocity == Vec2::ZERO => {
            Some(format!("comes to rest {place} after {:.2} s and spins on for ever", end.time_s))
        }
        Ending::Unending => Some("never stops, for nothing slows it any more".to_owned()),
        Ending::GivenUp => None,
    }
}

/// A place on the table, by the nearest end rail and the nearest side rail: `1.6 diamonds from the foot rail
/// and 1.9 from the left rail`.
pub(super) fn spot(place: Vec2, equipment: &Equipment) -> String {
    let table = &equipment.table;
    let end = if place.x < 0.0 { Rail::Head } else { Rail::Foot };
    let side = if place.y < 0.0 { Rail::Right } else { Rail::Left };
    let along = (0.5 * table.length_m - place.x.abs()) / table.long_rail_diamond_m();
    let across = (0.5 * table.width_m - place.y.abs()) / table.end_rail_diamond_m();
    format!(
        "{} from the {} rail and {} from the {} rail",
        diamonds(along),
        end.name(),
        short_number(across, 1),
        side.name()
    )
}

fn diamonds(number: f64) -> String {
    let shown = short_number(number, 1);
    format!("{shown} diamond{}", if shown == "1" { "" } else { "s" })
}

pub(super) fn missed(verdict: &ShotVerdict) -> bool {
    matches!(verdict.pocket, PocketVerdict::Missed(_) | PocketVerdict::RattledOut)
}

/// The side of the middle by which a ball comes.
pub(super) fn side_words(arrival: &PocketArrival) -> &'static str {
    match (arrival.last_rail.is_some(), arrival.miss_m > 0.0) {
        (true, true) => "long",
        (true, false) => "short",
        (false, true) => "to the right",
        (false, false) => "to the left",
    }
}

/// Where the way of a ball leads, by the middle of the mouth: `12 mm long of the middle`.
fn beside(arrival: &PocketArrival, units: AskedUnits) -> String {
    if units.is_nothing(arrival.miss_m) {
        return "dead centre".to_owned();
    }
    let side = match side_words(arrival) {
        "to the right" => "right",
        "to the left" => "left",
        side => side,
    };
    format!("{} {side} of the middle", units.length(arrival.miss_m))
}

/// The words on a ball that still moved when the time was over, and had not come to its pocket.
pub(super) fn cut_short(end: &End, ball: &str, pocket: Pocket) -> Option<String> {
    let moving = end.ending == Ending::TimeOver && end.state.velocity != Vec2::ZERO;
    let name = pocket.name();
    moving.then(|| {
        format!(
            "{ball} was still moving when the time was over; it had not come to the {name} pocket."
        )
    })
}

/// The places on the way of a ball to its pocket.
struct PocketWay {
    pocket: Pocket,
    /// The rail that it came off last, where that is said.
    off: Option<Rail>,
    /// The rail that it met beside the pocket.
    beside: Option<RailNumber>,
    /// The pocket into which the struck ball dropped.
    scratched: Option<Pocket>,
}

/// The verdict in a sentence.
fn outcome(verdict: &ShotVerdict, ball: &str, on: &PocketWay, units: AskedUnits) -> String {
    let &PocketWay { pocket, off, beside: met, scratched } = on;
    let name = pocket.name();
    let way = verdict.arrival.as_ref().map(|arrival| beside(arrival, units));
    let off = off.map_or_else(String::new, |rail| format!(" off the {} rail", rail.name()));
    match verdict.pocket {
        PocketVerdict::Clean | PocketVerdict::OffJaw => {
            let how = if verdict.pocket == PocketVerdict::Clean { "clean" } else { "off a jaw" };
            match way {
                Some(way) => {
                    format!("{ball} drops {how} into the {name} pocket{off}, {way}.")
                }
                None => format!("{ball} drops {how} into the {name} pocket."),
            }
        }
        PocketVerdict::RattledOut => {
            let way = way.map_or_else(String::new, |way| format!(", {way}"));
            format!("{ball} rattles in the jaws of the {name} pocket{off} and stays out{way}.")
        }
        PocketVerdict::Missed(miss) => {
            let side = match miss {
                Miss::Long => "long",
                Miss::Short => "short",
                Miss::Left => "on the left",
                Miss::Right => "on the right",
            };
            let met =
                met.map_or_else(String::new, |met| format!(" and meets {}", rail_at(met, pocket)));
            match verdict.arrival {
                Some(arrival) => format!(
                    "{ball} misses the {name} pocket {side}{off}, {} from the middle{met}.",
                    units.length(arrival.miss_m)
                ),
                None => format!("{ball} misses the {name} pocket {side}."),
            }
        }
        PocketVerdict::OtherPocket(other) => format!(
            "{ball} drops into the {} pocket; it was meant for the {name} pocket.",
            other.name()
        ),
        PocketVerdict::NotReached => format!("{ball} never comes to the {name} pocket."),
        PocketVerdict::GivenUp => {
            format!("It is not known whether {ball} comes to the {name} pocket.")
        }
        PocketVerdict::Scratched => match scratched {
            Some(pocket) => {
                format!("A scratch: the struck ball drops into the {} pocket.", pocket.name())
            }
            None => "A scratch: the struck ball drops.".to_owned(),
        },
    }
}
