//! Why a shot was not made, and the strokes that make it.

use super::asked_units::AskedUnits;
use super::reason;
use super::shot::{missed, side_words, spot};
use super::wording::{ball_words, capital, count, degrees, uncapital};
use crate::playing::{
    CombinedChange, GearingSide, HitChange, NeededStart, PlayedShot, Remedy, WrittenAim,
};
use railproof_engine::lay::{Spot, place};
use railproof_engine::shot::{Ending, EventKind};
use railproof_engine::units::short_number;
use railproof_engine::verdict::{PocketArrival, PocketVerdict, ShotVerdict};

/// Two distances off the rail at which a line is looked at, m.
const ON_LINE_M: [f64; 2] = [0.01, 0.3];
/// A ball that lies no farther off its line than this is as good as on it, m. Chosen.
const BESIDE_M: f64 = 0.005;
/// In place of a remedy.
pub const NO_REMEDY: &str =
    "no other hit, side or speed (from 0.5 to 5 m/s) was found that makes it with room to spare";

impl PlayedShot<'_> {
    /// The reason why the target was not made and a stroke that makes it.
    pub fn advice(&self) -> Option<String> {
        let remedy = self.remedy();
        let reason = self.reason_beside(remedy.as_ref())?;
        Some(match remedy {
            Some(remedy) => {
                let side = self.layout.stroke.map_or(0.0, |given| given.stroke.side_offset);
                let written = written(&remedy, side != 0.0);
                format!("{reason} {} In a layout: {written}.", self.remedy_words(&remedy))
            }
            None if self.layout.stroke.is_some() => format!("{reason} {}.", capital(NO_REMEDY)),
            None => reason,
        })
    }

    /// A stroke that makes the target, and why this one does not; `None` where it was made or nothing else makes it.
    pub fn remedy_and_reason(&self) -> Option<[String; 2]> {
        let remedy = self.remedy()?;
        let reason = self.reason_beside(Some(&remedy))?;
        Some([self.remedy_words(&remedy), reason])
    }

    /// The miss and the reason for it, where the target was not made.
    pub fn reason(&self) -> Option<String> {
        // Only of a ball that stops is the remedy a part of the reason.
        let stopped = self.verdict()?.pocket == PocketVerdict::NotReached;
        self.reason_beside(if stopped { self.remedy() } else { None }.as_ref())
    }

    fn reason_beside(&self, remedy: Option<&Remedy>) -> Option<String> {
        let verdict = self.verdict()?;
        match verdict.pocket {
            PocketVerdict::NotReached => self.never_came(remedy),
            PocketVerdict::OtherPocket(other) => {
                let why = self.squirt_words().map_or_else(String::new, |why| format!(": {why}"));
                let why = match verdict.kissed_at_s {
                    Some(_) => format!(": {KISSED}"),
                    None => why,
                };
                Some(format!("Into the wrong pocket ({}){why}.", other.name()))
            }
            PocketVerdict::Scratched => self.scratches(&verdict),
            _ if missed(&verdict) => self.missed_by(&verdict.arrival?),
            _ => None,
        }
    }

    /// The scratch, and what becomes of the ball that was meant for the pocket.
    fn scratches(&self, verdict: &ShotVerdict) -> Option<String> {
        let (target, struck) = (self.layout.target?, self.layout.stroke?);
        let pocket = self.scratching_pocket()?;
        let cue = ball_words(self.name(struck.ball));
        let kissed = if verdict.kissed_at_s.is_some() { " after a double kiss" } else { "" };
        let scratch = format!("A scratch: {cue} drops into the {} pocket{kissed}.", pocket.name());
        let dropped = match self.shot.ends.get(target.ball)?.ending {
            Ending::Dropped(pocket) => Some(pocket),
            _ => None,
        };
        let ball = ball_words(self.name(target.ball));
        Some(match (dropped, verdict.arrival) {
            (Some(pocket), _) if pocket == target.pocket => scratch,
            (Some(pocket), _) => {
                format!("{scratch} And {ball} goes into the {} pocket.", pocket.name())
            }
            (None, Some(arrival)) => {
                let missed = self.missed_by(&arrival);
                let by =
                    missed.map_or_else(|| ".".to_owned(), |it| format!(", {}", uncapital(&it)));
                format!("{scratch} And {ball} misses{by}")
            }
            (None, None) => format!("{scratch} And {ball} never comes to its pocket."),
        })
    }

    /// The reason why a ball passed its pocket.
    fn missed_by(&self, arrival: &PocketArrival) -> Option<String> {
        let units = self.units();
        let kissed = self.verdict()?.kissed_at_s.is_some();
        let beside = self.beside_its_line();
        let why = match self.why()? {
            _ if let Some(met) = self.met_on_its_way().or_else(|| self.cue_is_ahead()) => met,
            Ok(why) => {
                let because = reason::because(&why, 0.0, units).unwrap_or_default();
                // Another start would not be the one that this ball needs.
                match self.needed_start(&why).filter(|_| beside.is_none()) {
                    Some(needed) => format!("{because}. {}", needed_words(&needed)),
                    None => because,
                }
            }
            Err(_) if kissed && arrival.last_rail.is_some() => KISSED.to_owned(),
            Err(_) => {
                let squirt = self.squirt_words();
                squirt.or_else(|| self.throw_words(arrival)).unwrap_or_default()
            }
        };
        let by = capital(&format!("{} by {}", side_words(arrival), units.length(arrival.miss_m)));
        let colon = if why.is_empty() { "" } else { ": " };
        Some(format!("{by}{colon}{why}.{}", beside.unwrap_or_default()))
    }

    /// Words on a ball that does not lie on the one line that the layout names.
    fn beside_its_line(&self) -> Option<String> {
        let [line] = self.layout.lines.as_slice() else { return None };
        let ball = self.layout.target?.ball;
        let on_line = |off_rail_m: f64| {
            place(&self.world, &[], 0, &Spot::OnLine { line: *line, off_rail_m }).ok()
        };
        let (near, far) = (on_line(ON_LINE_M[0])?, on_line(ON_LINE_M[1])?);
        let way = (far - near).unit_or_zero();
        let away = self.layout.balls.get(ball)?.state.position - near;
        let off_m = (away.x * way.y - away.y * way.x).abs();
        (off_m > BESIDE_M).then(|| {
            format!(
                " {} lies {} off the line from contact {} to start {}.",
                capital(&ball_words(self.name(ball))),
                self.units().length(off_m),
                short_number(line.line.contact, 3),
                short_number(line.line.start, 3)
            )
        })
    }

    /// The reason why a ball did not come to its pocket.
    fn never_came(&self, remedy: Option<&Remedy>) -> Option<String> {
        let target = self.layout.target?;
        let end = self.shot.ends.get(target.ball)?;
        if end.ending == Ending::TimeOver {
            return None;
        }
        if !self.moved(target.ball) {
            return self.never_hit(target.ball, remedy);
        }
        if self.verdict()?.kissed_at_s.is_some() {
            return Some(format!("{}.", capital(KISSED)));
        }
        if let Some(met) = self.met_on_its_way().or_else(|| self.cue_is_ahead()) {
            return Some(format!("{}.", capital(&met)));
        }
        let stops = || {
            let cushions = self.shot.events_of(target.ball);
            let cushions = cushions.filter(|it| matches!(it.kind, EventKind::Cushion(_))).count();
            let after = match cushions {
                0 => "before any rail".to_owned(),
                rails => format!("after {}", count(rails as u64, "rail", "rails")),
            };
            let place = spot(end.state.position, &self.layout.equipment);
            (end.ending == Ending::AtRest).then(|| format!("stops {after}, {place}."))
        };
        if harder(remedy) {
            return Some(format!("It runs out of speed: it {}", stops()?));
        }
        let elsewhere = self.squirt_words().map(|why| format!("It goes elsewhere: {why}."));
        elsewhere.or_else(|| Some(format!("It {}", stops()?)))
    }

    /// The ball that is meant for the pocket meets one that lies in its way.
    fn met_on_its_way(&self) -> Option<String> {
        let (target, struck) = (self.layout.target?.ball, self.layout.stroke?.ball);
        let mut others = self.shot.events_of(target).filter_map(|event| match event.kind {
            EventKind::Ball(touch) if event.ball == target => Some(touch.other),
            EventKind::Ball(_) => Some(event.ball),
            _ => None,
        });
        // The first that it meets is the one that sends it on.
        let first = others.next()?;
        let other = others.find(|other| *other != first && *other != struck)?;
        Some(format!(
            "{} meets {} on its way",
            ball_words(self.name(target)),
            ball_words(self.name(other))
        ))
    }

    /// The cue ball comes from where the ball was to go.
    fn cue_is_ahead(&self) -> Option<String> {
        let (target, struck) = (self.layout.target?.ball, self.layout.stroke?);
        let asked = struck.asked.filter(|asked| asked.ball == target)?;
        let at = |ball: usize| self.layout.balls.get(ball).map(|it| it.state.position);
        let (cue, ball) = (ball_words(self.name(struck.ball)), ball_words(self.name(target)));
        ((at(target)? - at(struck.ball)?).dot(asked.way) < 0.0).then(|| {
            format!("{cue} stands where {ball} was to go, and sends it the other way; put it behind {ball}")
        })
    }

    /// The reason why a ball was not hit.
    fn never_hit(&self, ball: usize, remedy: Option<&Remedy>) -> Option<String> {
        let struck = self.layout.stroke?.ball;
        let met = self.shot.events.iter().find_map(|event| match event.kind {
            EventKind::Ball(touch) if event.ball == struck => Some(touch.other),
            EventKind::Ball(touch) if touch.other == struck => Some(event.ball),
            _ => None,
        });
        let [cue, ball] = [struck, ball].map(|it| ball_words(self.name(it)));
        let told = match met {
            Some(met) => format!("{cue} hits {} and not {ball}.", ball_words(self.name(met))),
            None if harder(remedy) => format!("{cue} stops before it comes to {ball}."),
            None => format!("{cue} does not hit {ball}."),
        };
        Some(capital(&told))
    }

    /// A remedy in a sentence: `Hit it 4 mm thinner, or as full as it was with 0.6 of a tip's width of right
    /// side (outside), or harder, at 3.2 m/s.`
    pub fn remedy_words(&self, remedy: &Remedy) -> String {
        let units = self.units();
        let hit = remedy.hit.map(|hit| hit_words(&hit, units));
        let geared = remedy.gearing.map(|gearing| gearing_words(&gearing));
        let speed = remedy.speed.map(|speed| format!("{}, at {}", speed.to(), speed.written()));
        let both = remedy.both.map(|CombinedChange { hit, speed }| {
            let hit = hit_words(&hit, units);
            format!("{hit} and {}, at {}, for neither makes it alone", speed.to(), speed.written())
        });
        let ways: Vec<String> = [hit, geared, speed, both].into_iter().flatten().collect();
        let jaw = if remedy.off_jaw {
            "; it then drops off a jaw, and nothing was found with which it drops clean"
        } else {
            ""
        };
        format!("Hit it {}{jaw}.", ways.join(", or "))
    }

    /// The side of the tip, where the shot would be better without the squirt that it makes.
    fn squirt_words(&self) -> Option<String> {
        let squirt_rad = self.layout.stroke?.struck.squirt_rad;
        let angle = degrees(squirt_rad.abs());
        if angle == "0" || !self.squirt_is_the_cause()? {
            return None;
        }
        let [from, to] = if squirt_rad > 0.0 { ["right", "left"] } else { ["left", "right"] };
        Some(format!(
            "the tip's {from} side pushed the cue ball {angle}° to the {to} of its line (squirt)"
        ))
    }

    /// The throw of the hit, where the ball came straight from it and was thrown to the side on which it
    /// missed.
    fn throw_words(&self, arrival: &PocketArrival) -> Option<String> {
        let (target, struck) = (self.layout.target?, self.layout.stroke?);
        let (normal, way) = self.shot.events.iter().find_map(|event| {
            let EventKind::Ball(touch) = event.kind else { return None };
            let (cue, object, after) = match (event.ball, touch.other) {
                (cue, object) if (cue, object) == (struck.ball, target.ball) => {
                    (event.before.position, touch.other_before.position, touch.other_after)
                }
                (object, cue) if (cue, object) == (struck.ball, target.ball) => {
                    (touch.other_before.position, event.before.position, event.after)
                }
                _ => return None,
            };
            Some((object - cue, after.velocity))
        })?;
        let throw_rad = libm::atan2(normal.cross(way), normal.dot(way));
        let to_left = throw_rad > 0.0;
        if arrival.last_rail.is_some() || to_left == (arrival.miss_m > 0.0) {
            return None;
        }
        let angle = degrees(throw_rad.abs());
        let side = if to_left { "left" } else { "right" };
        (angle != "0").then(|| format!("the hit threw it {angle}° to the {side}"))
    }
}

const KISSED: &str = "a double kiss turns it off its way";

/// More speed makes it, alone or with another hit.
fn harder(remedy: Option<&Remedy>) -> bool {
    remedy.is_some_and(|it| {
        it.speed.or(it.both.map(|both| both.speed)).is_some_and(|speed| speed.harder)
    })
}

/// `Sent like this, contact 3 needs a start near 6.58 across the grooves, not 4.4`.
fn needed_words(needed: &NeededStart) -> String {
    let [contact, start, needs] = [needed.line.contact, needed.line.start, needed.needs]
        .map(|number| short_number(number, 2));
    format!(
        "Sent like this, contact {contact} needs a start near {needs} across the grooves, not {start}"
    )
}

fn hit_words(hit: &HitChange, units: AskedUnits) -> String {
    let without = if hit.without_side { " and without side" } else { "" };
    format!("{} {}{without}", units.hit(hit.by_m), hit.to.name())
}

fn gearing_words(gearing: &GearingSide) -> String {
    let line = if gearing.as_full { "as full as it was" } else { "on its line" };
    let tips = short_number(gearing.tips, 1);
    if tips == "0" {
        return format!("{line} without side");
    }
    let hand = if gearing.offset > 0.0 { "right" } else { "left" };
    let side = if gearing.outside { "outside" } else { "inside" };
    format!("{line} with {tips} of a tip's width of {hand} side ({side})")
}

/// The remedy as a layout has it, in the same order.
fn written(remedy: &Remedy, has_side: bool) -> String {
    let aim = |written: WrittenAim, key: &str, side: Option<f64>| match written {
        // Gearing side is found, and not given beside it.
        WrittenAim::InPlaceOf(other) if has_side && key == "gear" => {
            format!("`{key}` in place of `{other}`, without `tip_side`")
        }
        WrittenAim::InPlaceOf(other) => format!("`{key}` in place of `{other}`"),
        WrittenAim::Degrees(degrees) => {
            let side = side.map_or_else(String::new, |side| {
                format!(" and `tip_side: {}`", short_number(side, 3))
            });
            format!("`aim: {} deg` as its aim{side}", short_number(degrees, 3))
        }
    };
    let hit = remedy.hit.map(|hit| aim(hit.written, "overcut", hit.without_side.then_some(0.0)));
    let geared = remedy.gearing.map(|it| aim(it.written, "gear", Some(it.offset)));
    let speed = remedy.speed.map(|speed| format!("`speed: {}`", speed.written()));
    let both = remedy.both.map(|CombinedChange { hit, speed }| {
        let side = hit.without_side.then_some(0.0);
        format!("{} and `speed: {}`", aim(hit.written, "overcut", side), speed.written())
    });
    let ways: Vec<String> = [hit, geared, speed, both].into_iter().flatten().collect();
    ways.join(", or ")
}
