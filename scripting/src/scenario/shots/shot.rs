//! A shot that was played, in a script's hands.

use super::answers::{degrees, solved};
use super::chance::chance_of;
use super::choice::of_shot;
use super::layout::ball_named;
use super::play::ScenarioShot;
use super::states::state_table;
use super::stroke::StrokeObject;
use crate::fault::Fault;
use crate::lua::options::{Options, boolean, text};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::{Quantity, kind_of, of_value};
use crate::playing::PlayedShot;
use crate::record::Picture;
use crate::scenario::draw::look::picture_look;
use crate::scenario::left_out::add_picture;
use crate::scenario::members;
use crate::scenario::results::{ResultAxis, ResultTable, Results};
use crate::scenario::session::{Session, fault_here};
use crate::scenario::why::why_table;
use crate::telling::caution::Cautions;
use crate::telling::{AskedUnits, Detail, NO_REMEDY, phrase};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::attribution::NotAttributed;
use railproof_engine::rail::{BankGeometry, Pocket};
use railproof_engine::results::{NO_SHOT, SHOT_VERDICTS};
use railproof_engine::shot::EventKind;
use railproof_engine::units::Dimension;
use railproof_engine::verdict::{number_along, numbers};
use std::rc::Rc;
use std::sync::Arc;

/// A shot in a script's hands.
#[derive(Clone)]
pub struct ShotObject(pub(super) Rc<ScenarioShot>);

/// The most states that `path` gives.
const MOST_STATES: f64 = 20_000.0;

const MEMBERS: &[&str] = &[
    "verdict",
    "made",
    "miss",
    "long_or_short",
    "clearance_long",
    "clearance_short",
    "kissed",
    "kissed_at",
    "met_again_at",
    "cautions",
    "sentence",
    "reason",
    "remedy",
    "why",
    "stroke",
    "elevation",
    "least_elevation",
    "forced_by",
    "jumps",
    "duration",
    "events",
    "path",
    "at",
    "numbers",
    "ends",
    "draw",
    "chance",
    "bank_or_cut",
];
const STATE: &[&str] =
    &["time", "x", "y", "speed", "direction", "roll", "spin_side", "spin_x", "spin_y", "spin_z"];
const EVENT: &[&str] = &[
    "time",
    "kind",
    "ball",
    "other",
    "rail",
    "number",
    "pocket",
    "obstacle",
    "x",
    "y",
    "speed_before",
    "speed_after",
    "other_speed_after",
    "flagged",
];
const REMEDY: &[&str] =
    &["sentence", "hit", "by", "stroke", "tip_side", "gear", "speed", "at_speed", "why_not"];
const NUMBER: &[&str] = &["rail", "number", "time"];
const END: &[&str] = &["ending", "pocket", "time", "x", "y"];

impl ShotObject {
    pub(super) fn new(played: ScenarioShot) -> Self {
        Self(Rc::new(played))
    }

    /// The outcome, as sentences and a picture tell it.
    pub fn telling(&self) -> PlayedShot<'_> {
        PlayedShot::of(&self.0.layout, Arc::clone(&self.0.world), self.0.shot.clone())
    }

    /// True when a ball is meant for a pocket.
    pub fn has_target(&self) -> bool {
        self.0.verdict.is_some()
    }

    /// Its kind, for messages.
    pub fn subject(&self) -> String {
        match self.0.layout.target {
            Some(target) => {
                format!("{} for the {} pocket", self.name(target.ball), target.pocket.name())
            }
            None => "the shot".to_owned(),
        }
    }

    /// The miss of the pocket's middle, m.
    pub fn miss_m(&self) -> Option<f64> {
        Some(self.0.verdict?.arrival?.miss_m)
    }

    fn name(&self, ball: usize) -> &str {
        self.0.layout.balls.get(ball).map_or("", |ball| ball.name.as_str())
    }

    /// The ball that an argument names; the target's, or the only one, when it is left out.
    fn ball(&self, lua: &Lua, call: &str, value: &Value) -> Result<usize, Fault> {
        let at = || place::argument(lua, call, 1);
        match value {
            Value::Nil => Ok(self.0.layout.target.map_or(0, |target| target.ball)),
            Value::String(name) => ball_named(&self.0.layout, &name.to_string_lossy())
                .map_err(|fault| fault.placed(at())),
            other => {
                Err(Fault::bad_input(format!("{call} takes a ball's name, not {}", kind_of(other)))
                    .placed(at()))
            }
        }
    }

    fn pocket(&self) -> Option<Pocket> {
        self.0.layout.target.map(|target| target.pocket)
    }

    fn state(&self, lua: &Lua, ball: usize, time_s: f64) -> mlua::Result<Table> {
        let radius_m = self.0.layout.balls[ball].ball.radius_m();
        let state = self.0.shot.state_at(ball, time_s).unwrap_or_default();
        let table = state_table(lua, &state, radius_m)?;
        table.raw_set("time", Quantity::new(time_s, "s")?)?;
        members::seal(lua, table, "a ball's state", STATE)
    }
}

impl ResultTable for ShotObject {
    fn axes(&self) -> Vec<ResultAxis> {
        Vec::new()
    }

    fn axis(&self, name: &str) -> Result<usize, (String, String)> {
        Err((format!("there is no axis `{name}` here"), "nothing varies in one shot".to_owned()))
    }

    fn rows(&self) -> Vec<usize> {
        vec![0]
    }
}

impl Results for ShotObject {
    fn subject(&self) -> String {
        self.subject()
    }

    fn noun(&self) -> &'static str {
        "shot"
    }

    fn outcomes(&self) -> &'static [&'static str] {
        &SHOT_VERDICTS
    }

    fn outcome(&self, _: usize) -> &'static str {
        self.0.verdict.map_or(NO_SHOT, |verdict| verdict.pocket.name())
    }

    fn miss_m(&self, _: usize) -> Option<f64> {
        self.miss_m()
    }

    fn sees_kisses(&self) -> bool {
        true
    }

    fn kissed(&self, _: usize) -> Option<bool> {
        Some(self.0.kissed_at_s().is_some())
    }

    fn label(&self, _: usize) -> String {
        String::new()
    }

    fn sentence(&self, _: usize) -> String {
        self.telling().target_sentence().unwrap_or_else(|| "it has no target".to_owned())
    }

    fn units(&self) -> AskedUnits {
        AskedUnits::of_layout(&self.0.layout)
    }
}

/// A time as an argument, s.
fn time(lua: &Lua, call: &str, number: usize, value: &Value) -> Result<f64, Fault> {
    let seconds = of_value(value).and_then(|found| found.si(Dimension::Time));
    seconds.filter(|seconds| *seconds >= 0.0).ok_or_else(|| {
        Fault::bad_input(format!("{call} takes a time from the start on, not {}", kind_of(value)))
            .with_hint("write it like seconds(0.5)")
            .placed(place::argument(lua, call, number))
    })
}

fn millimetres(metres: f64) -> mlua::Result<Quantity> {
    Ok(Quantity::new(1e3 * metres, "mm")?)
}

impl UserData for ShotObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "shot");
        fields.add_field_method_get("verdict", |_, this| {
            Ok(this.0.verdict.map(|verdict| verdict.pocket.name()))
        });
        fields.add_field_method_get("made", |_, this| {
            Ok(this.0.verdict.map(|verdict| verdict.is_made()))
        });
        fields.add_field_method_get("miss", |_, this| this.miss_m().map(millimetres).transpose());
        fields.add_field_method_get("long_or_short", |_, this| {
            let arrival = this.0.verdict.and_then(|verdict| verdict.arrival);
            Ok(arrival
                .filter(|arrival| arrival.last_rail.is_some())
                .map(|arrival| if arrival.miss_m > 0.0 { "long" } else { "short" }))
        });
        for (name, long) in [("clearance_long", true), ("clearance_short", false)] {
            fields.add_field_method_get(name, move |_, this| {
                let arrival = this.0.verdict.and_then(|verdict| verdict.arrival);
                let room = arrival.map(|arrival| {
                    if long { arrival.clearance_long_m } else { arrival.clearance_short_m }
                });
                room.map(millimetres).transpose()
            });
        }
        fields.add_field_method_get("kissed", |_, this| Ok(this.0.kissed_at_s().is_some()));
        fields.add_field_method_get("kissed_at", |_, this| {
            Ok(this.0.kissed_at_s().map(|seconds| Quantity::new(seconds, "s")).transpose()?)
        });
        fields.add_field_method_get("met_again_at", |_, this| {
            let again_s = this.0.verdict.and_then(|verdict| verdict.met_again_s);
            Ok(again_s.map(|seconds| Quantity::new(seconds, "s")).transpose()?)
        });
        fields.add_field_method_get("cautions", |_, this| {
            Ok(Cautions::of_shot(&this.0.layout, &this.0.shot).lines())
        });
        fields
            .add_field_method_get("sentence", |_, this| Ok(this.telling().sentences(Detail::Full)));
        fields.add_field_method_get("reason", |_, this| Ok(this.telling().reason()));
        fields.add_field_method_get("stroke", |_, this| {
            Ok(this.0.layout.stroke.map(|stroke| StrokeObject(stroke.stroke)))
        });
        fields.add_field_method_get("elevation", |_, this| {
            let stroke = this.0.layout.stroke;
            stroke.map(|it| degrees(it.stroke.elevation_rad)).transpose()
        });
        fields.add_field_method_get("least_elevation", |_, this| {
            this.0.layout.stroke.map(|it| degrees(it.room.least_rad)).transpose()
        });
        fields.add_field_method_get("forced_by", |_, this| Ok(this.0.layout.cue_passes_over()));
        fields.add_field_method_get("jumps", |_, this| Ok(this.0.layout.jumps()));
        fields.add_field_method_get("duration", |_, this| {
            Ok(Quantity::new(this.0.shot.duration_s(), "s")?)
        });
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            let verdict = this.0.verdict.map_or("played", |verdict| verdict.pocket.name());
            Ok(format!("a shot, {}: {}", this.subject(), phrase(verdict)))
        });
        methods.add_method("events", events);
        methods.add_method("why", |lua, this, ()| match this.telling().why() {
            Some(why) => {
                let (told, equipment) = (this.telling(), &this.0.layout.equipment);
                let line = told.line().and_then(|spot| {
                    let geometry = BankGeometry::new(equipment, spot.rail, spot.pocket).ok()?;
                    Some((spot.line, geometry))
                });
                let line = line.as_ref().map(|(line, geometry)| (*line, geometry));
                why_table(lua, &why, this.units(), line)
            }
            None => why_table(lua, &Err(NotAttributed::NoMiss), this.units(), None),
        });
        methods.add_method("remedy", remedy);
        methods.add_method("path", path);
        methods.add_method("at", |lua, this, (ball, when): (Value, Value)| {
            let ball = this.ball(lua, "at", &ball)?;
            let seconds = time(lua, "at", 2, &when)?;
            this.state(lua, ball, seconds)
        });
        methods.add_method("numbers", rail_numbers);
        methods.add_method("ends", ends);
        methods.add_method("chance", |lua, this, player: Value| {
            chance_of(lua, &this.telling(), &player)
        });
        methods.add_method("bank_or_cut", |lua, this, argument: Value| {
            of_shot(lua, &this.telling(), argument)
        });
        add_picture(methods, "draw", draw);
        members::only(methods, "a shot", MEMBERS);
    }
}

/// `shot:remedy()`: other strokes that make a shot which missed.
fn remedy(lua: &Lua, this: &ShotObject, (): ()) -> mlua::Result<Table> {
    let told = this.telling();
    let table = lua.create_table()?;
    match solved(lua, || told.remedy())? {
        Some(remedy) => {
            table.raw_set("sentence", told.remedy_words(&remedy))?;
            if let Some(hit) = remedy.hit.or(remedy.both.map(|both| both.hit)) {
                table.raw_set("hit", hit.to.name())?;
                table.raw_set("by", millimetres(hit.by_m)?)?;
                table.raw_set("stroke", StrokeObject(hit.stroke))?;
            }
            if let Some(gearing) = remedy.gearing {
                table.raw_set("tip_side", gearing.offset)?;
                table.raw_set("gear", StrokeObject(gearing.stroke))?;
            }
            if let Some(speed) = remedy.speed.or(remedy.both.map(|both| both.speed)) {
                table.raw_set("speed", Quantity::new(speed.amount, speed.unit)?)?;
                table.raw_set("at_speed", StrokeObject(speed.stroke))?;
            }
        }
        None if this.0.verdict.is_some_and(|verdict| verdict.is_made()) => {
            table.raw_set("why_not", "it drops as it is")?;
        }
        None => table.raw_set("why_not", NO_REMEDY)?,
    }
    members::seal(lua, table, "a remedy", REMEDY)
}

/// `shot:events()`: the events, in order of time.
fn events(lua: &Lua, this: &ShotObject, (): ()) -> mlua::Result<Table> {
    let list = lua.create_table()?;
    for event in &this.0.shot.events {
        let table = lua.create_table()?;
        table.raw_set("time", Quantity::new(event.time_s, "s")?)?;
        table.raw_set("kind", event.kind.name())?;
        table.raw_set("ball", this.name(event.ball))?;
        table.raw_set("x", Quantity::new(event.before.position.x, "m")?)?;
        table.raw_set("y", Quantity::new(event.before.position.y, "m")?)?;
        table.raw_set("speed_before", Quantity::new(event.before.velocity.norm(), "m/s")?)?;
        table.raw_set("speed_after", Quantity::new(event.after.velocity.norm(), "m/s")?)?;
        if let Some(touch) = event.kind.touch() {
            table.raw_set("flagged", touch.outside_checked_speed || touch.hop)?;
        }
        match event.kind {
            EventKind::Start if this.0.layout.stroke.is_some_and(|it| it.ball == event.ball) => {
                table.raw_set("flagged", this.0.layout.jumps())?;
            }
            EventKind::Cushion(touch) => {
                table.raw_set("rail", touch.rail.name())?;
                if let Some(pocket) = this.pocket() {
                    let equipment = &this.0.layout.equipment;
                    let number = number_along(equipment, touch.rail, pocket, event.before.position);
                    table.raw_set("number", number)?;
                }
            }
            EventKind::Jaw { pocket, .. } | EventKind::Drop(pocket) => {
                table.raw_set("pocket", pocket.name())?;
            }
            EventKind::Obstacle { index, .. } => {
                let name = this.0.layout.obstacles.get(index).map(|it| it.name.as_str());
                table.raw_set("obstacle", name)?;
            }
            EventKind::Ball(touch) => {
                table.raw_set("other", this.name(touch.other))?;
                let speed = touch.other_after.velocity.norm();
                table.raw_set("other_speed_after", Quantity::new(speed, "m/s")?)?;
            }
            _ => {}
        }
        list.raw_push(members::seal(lua, table, "an event", EVENT)?)?;
    }
    Ok(list)
}

/// `shot:path(ball, every)`: the ball's states, so far apart in time.
fn path(lua: &Lua, this: &ShotObject, (ball, every): (Value, Value)) -> mlua::Result<Table> {
    let ball = this.ball(lua, "path", &ball)?;
    let every_s = match &every {
        Value::Nil => 0.05,
        given => time(lua, "path", 2, given)?,
    };
    let end_s = this.0.shot.ends[ball].time_s;
    if every_s <= 0.0 || end_s / every_s > MOST_STATES {
        let message =
            format!("a path of {end_s:.2} s in such steps has more than {MOST_STATES} states");
        return Err(fault_here(lua, "path", message).with_hint("take longer steps").into());
    }
    let list = lua.create_table()?;
    let mut step = 0.0;
    while step * every_s < end_s {
        list.raw_push(this.state(lua, ball, step * every_s)?)?;
        step += 1.0;
    }
    list.raw_push(this.state(lua, ball, end_s)?)?;
    Ok(list)
}

/// `shot:numbers(ball)`: each touch of a rail by its number, counted from the target pocket.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn rail_numbers(lua: &Lua, this: &ShotObject, ball: Value) -> mlua::Result<Table> {
    let ball = this.ball(lua, "numbers", &ball)?;
    let Some(pocket) = this.pocket() else {
        return Err(fault_here(lua, "numbers", "from which pocket are the numbers counted?")
            .with_hint("give the layout a `pocket`")
            .into());
    };
    let list = lua.create_table()?;
    for touch in numbers(&this.0.layout.equipment, &this.0.shot, ball, pocket) {
        list.raw_push(number_table(lua, touch)?)?;
    }
    Ok(list)
}

/// A touch of a rail.
pub(super) fn number_table(
    lua: &Lua,
    touch: railproof_engine::verdict::RailNumber,
) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("rail", touch.rail.name())?;
    table.raw_set("number", touch.number)?;
    table.raw_set("time", Quantity::new(touch.time_s, "s")?)?;
    members::seal(lua, table, "a touch of a rail", NUMBER)
}

/// `shot:ends()`: the end of each ball, by its name.
fn ends(lua: &Lua, this: &ShotObject, (): ()) -> mlua::Result<Table> {
    let list = lua.create_table()?;
    for (ball, end) in this.0.shot.ends.iter().enumerate() {
        let table = lua.create_table()?;
        table.raw_set("ending", end.ending.name())?;
        table.raw_set("pocket", end.ending.pocket().map(Pocket::name))?;
        table.raw_set("time", Quantity::new(end.time_s, "s")?)?;
        table.raw_set("x", Quantity::new(end.state.position.x, "m")?)?;
        table.raw_set("y", Quantity::new(end.state.position.y, "m")?)?;
        list.raw_set(this.name(ball), members::seal(lua, table, "an end", END)?)?;
    }
    Ok(list)
}

/// `shot:draw { title, subtitle, legend, size, spin, name }`.
fn draw(lua: &Lua, this: &ShotObject, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["title", "subtitle", "legend", "size", "spin", "name"];
    let options = Options::open_or_none(lua, "draw", argument, KEYS)?;
    let spin = options.optional("spin", boolean())?.unwrap_or(false);
    let mut picture = this.telling().picture(spin);
    if let Some(title) = options.optional("title", text())? {
        picture.title = title;
    }
    if let Some(subtitle) = options.optional("subtitle", text())? {
        picture.subtitle = subtitle;
    }
    picture.look = picture_look(&options, picture.look)?;
    Session::of(lua)?.add_drawing(&options, "shot", Picture::Table(Box::new(picture)))?;
    Ok(())
}
