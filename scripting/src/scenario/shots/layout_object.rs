//! `lay { … }`: balls on a table, in a script's hands.

use super::layout::{LayoutObject, put_down};
use super::play::ready;
use super::shot::ShotObject;
use super::spots;
use super::states::state_table;
use super::stroke::STROKE_KEYS;
use super::{answers, choice, choice_map, kicks, kisses, ways, windows};
use crate::layout::OBJECT;
use crate::layout::draft::TargetDraft;
use crate::lua::options::{Options, text, word};
use crate::lua::quantity::Quantity;
use crate::scenario::equipment::OneTable;
use crate::scenario::members;
use crate::scenario::session::Session;
use crate::telling::caution::Cautions;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::rail::Pocket;

const KEYS: &[&str] = &["equipment", "pocket", "ball", "balls", "obstacles"];

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn lay(lua: &Lua, argument: Value) -> mlua::Result<LayoutObject> {
    let options = Options::open(lua, "lay", &argument, KEYS)?;
    let equipment = options.required("equipment", OneTable)?;
    let balls = spots::balls(&options, "balls")?;
    if balls.is_empty() {
        return Err(options
            .complain_of_call("there are no balls in `balls`")
            .with_hint("each ball has a name and a place: balls = { cue = { position = … } }")
            .into());
    }
    let pocket = options.optional("pocket", word::<Pocket>())?;
    let ball = options.optional("ball", text())?;
    if let (None, Some(_)) = (pocket, &ball) {
        return Err(options.complain("ball", "`ball` is meant for a `pocket`: name it").into());
    }
    let named_object = balls.iter().any(|ball| ball.name == OBJECT);
    let ball = ball.or_else(|| named_object.then(|| OBJECT.to_owned()));
    let target = pocket.map(|pocket| TargetDraft { pocket, ball });
    Ok(put_down(lua, &options, &equipment, balls, target, None)?)
}

fn play(lua: &Lua, this: &LayoutObject, argument: Value) -> mlua::Result<ShotObject> {
    let options = Options::open_or_none(lua, "play", argument, &STROKE_KEYS)?;
    let ready = ready(&options, &this.0)?;
    let session = Session::of(lua)?;
    let played = session.work(lua, 1, |_| ready.play())?.map_err(|why| why.fault(&options))?;
    session.count_shot();
    session.advise(&Cautions::of_shot(&played.layout, &played.shot));
    Ok(ShotObject::new(played))
}

const BALL: &[&str] = &[
    "name",
    "x",
    "y",
    "speed",
    "direction",
    "roll",
    "spin_side",
    "spin_x",
    "spin_y",
    "spin_z",
    "diameter",
    "mass",
];

/// `layout:balls()`: each ball with its place, by its name.
fn balls(lua: &Lua, this: &LayoutObject, (): ()) -> mlua::Result<Table> {
    let list = lua.create_table()?;
    for ball in &this.0.layout.balls {
        let table = state_table(lua, &ball.state, ball.ball.radius_m())?;
        table.raw_set("name", ball.name.as_str())?;
        table.raw_set("diameter", Quantity::new(1e3 * ball.ball.diameter_m, "mm")?)?;
        table.raw_set("mass", Quantity::new(1e3 * ball.ball.mass_kg, "g")?)?;
        list.raw_set(ball.name.as_str(), members::seal(lua, table, "a ball", BALL)?)?;
    }
    Ok(list)
}

const MEMBERS: &[&str] = &[
    "balls",
    "play",
    "aim",
    "gear",
    "overcut",
    "compare",
    "aims",
    "speeds",
    "ways",
    "bank_or_cut",
    "bank_or_cut_map",
    "kiss",
    "least_gap",
    "least_angle",
    "kick",
    "contact",
    "start",
];

impl UserData for LayoutObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "layout");
        fields.add_field_method_get("contact", |_, this| {
            Ok(this.0.line.as_ref().map(|line| line.at.line.contact))
        });
        fields.add_field_method_get("start", |_, this| {
            Ok(this.0.line.as_ref().map(|line| line.at.line.start))
        });
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            let names: Vec<&str> =
                this.0.layout.balls.iter().map(|ball| ball.name.as_str()).collect();
            Ok(format!("a layout of {}", names.join(", ")))
        });
        methods.add_method("balls", balls);
        methods.add_method("play", play);
        methods.add_method("aim", answers::aim);
        methods.add_method("gear", answers::gear);
        methods.add_method("overcut", answers::overcut);
        methods.add_method("compare", answers::compare);
        methods.add_method("aims", windows::aims);
        methods.add_method("speeds", windows::speeds);
        methods.add_method("ways", ways::ways);
        methods.add_method("bank_or_cut", choice::bank_or_cut);
        methods.add_method("bank_or_cut_map", choice_map::bank_or_cut_map);
        methods.add_method("kiss", kisses::kiss);
        methods.add_method("least_gap", kisses::least_gap);
        methods.add_method("least_angle", kisses::least_angle);
        methods.add_method("kick", kicks::kick);
        members::only(methods, "a layout", MEMBERS);
    }
}
