//! `one_spot { on, rail, pocket, speed, contacts }`: the point behind the rail at which every ball may be aimed.

use super::tables::OneOrManyTables;
use crate::discover_picture::spot_picture;
use crate::lua::options::{Options, boolean, list, number, ranged, word};
use crate::lua::quantity::Quantity;
use crate::playing::{SpotFindings, SpotQuestion};
use crate::record::Picture;
use crate::scenario::draw::look::{headline, picture_look};
use crate::scenario::inputs::SpeedOf;
use crate::scenario::left_out::add_picture;
use crate::scenario::members;
use crate::scenario::rule_object::{RuleObject, ScriptRule};
use crate::scenario::session::Session;
use crate::telling::spot_sentence;
use mlua::{IntoLua, Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::rail::{PocketChoice, RailChoice};
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::Input;
use std::rc::Rc;

const CALL: &str = "one_spot";
const KEYS: &[&str] = &["on", "rail", "pocket", "speed", "contacts", "aside"];
const SPOT: &[&str] = &[
    "behind",
    "number",
    "slope",
    "slope_from",
    "slope_to",
    "offset",
    "largest_error",
    "rule",
    "sentence",
    "draw",
];

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(CALL, lua.create_function(one_spot)?)
}

/// A spot in a script's hands.
#[derive(Debug, Clone)]
struct SpotObject {
    found: Rc<SpotFindings>,
    fields: Table,
}

impl UserData for SpotObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "spot");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            this.fields.get::<String>("sentence")
        });
        add_picture(methods, "draw", draw);
        methods.add_meta_method(MetaMethod::Index, |_, this, name: Value| {
            this.fields.get::<Value>(name)
        });
    }
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn one_spot(lua: &Lua, argument: Value) -> mlua::Result<SpotObject> {
    let options = Options::open(lua, CALL, &argument, KEYS)?;
    let asked = options.required("on", OneOrManyTables)?;
    let table = asked.table();
    let pocket = options.optional("pocket", word::<PocketChoice>())?;
    let rail = options.optional("rail", word::<RailChoice>())?;
    let pocket = pocket.unwrap_or(PocketChoice::Corner);
    let rail = rail.unwrap_or(RailChoice::Long).facing(pocket);
    let pocket = pocket.across_from(rail);
    let speed = options.optional("speed", SpeedOf(Input::Speed, Some(table.speeds)))?;
    let contacts = options.optional("contacts", list(ranged(number(), 0.2..=7.8, "")))?;
    let question = SpotQuestion {
        known: asked.known().map(|known| &**known),
        model: asked.model(),
        rail,
        pocket,
        speed_m_s: speed.map_or(SpotQuestion::SPEED_M_S, |speed| speed.si),
        contacts: contacts.unwrap_or_else(|| SpotQuestion::CONTACTS.to_vec()),
        aside: options.optional("aside", boolean())?.unwrap_or(false),
        table,
    };
    let complain = |message: String| options.complain_of_call(message);
    let found = Session::of(lua)?.work(lua, 1, |_| question.answer())?.map_err(complain)?;
    Session::of(lua)?.advise(&found.cautions());
    let units = Session::of(lua)?.units();
    let result = lua.create_table()?;
    let (amount, unit) = units.amount(found.behind_nose_m);
    result.raw_set("behind", Quantity::new(amount, unit)?)?;
    // Counted either way, nothing is nothing.
    result.raw_set("number", found.spot.number + 0.0)?;
    result.raw_set("slope", found.slope)?;
    if let Some(slopes) = found.slopes {
        result.raw_set("slope_from", slopes.ninety.0)?;
        result.raw_set("slope_to", slopes.ninety.1)?;
    }
    result.raw_set("offset", found.offset)?;
    result.raw_set("largest_error", found.largest_error())?;
    let rule = found.spot.rule(&found.geometry).map_err(|error| complain(error.to_string()))?;
    let named = NamedRule { name: "the one spot".to_owned(), rule };
    result.raw_set(
        "rule",
        RuleObject(Rc::new(ScriptRule { named, function: None })).into_lua(lua)?,
    )?;
    result.raw_set("sentence", spot_sentence(&found, units))?;
    let fields = members::seal(lua, result, "a spot", SPOT)?;
    Ok(SpotObject { found: Rc::new(found), fields })
}

/// `spot:draw()`: the lines of the balls to where they meet.
fn draw(lua: &Lua, this: &SpotObject, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["title", "subtitle", "legend", "size", "name"];
    let options = Options::open_or_none(lua, "draw", argument, KEYS)?;
    let session = Session::of(lua)?;
    let mut picture = spot_picture(&this.found, session.units());
    let found = picture.title.clone();
    let conditions = picture.subtitles.split_off(1);
    let asked = picture.subtitles.remove(0);
    (picture.title, picture.subtitles) = headline(&options, &found, asked, conditions)?;
    picture.look = picture_look(&options, picture.look)?;
    session.add_drawing(&options, "spot", Picture::Lines(picture))?;
    Ok(())
}
