//! `discover { on, player }`: the rules that a player makes most balls with, for what they ask of a head.

use super::player::{PlayerObject, player_at};
use super::tables::OneOrManyTables;
use crate::discover_picture::front_picture;
use crate::discovering::{DiscoverQuestion, Discovered, MOST_BALLS};
use crate::fault::Fault;
use crate::lua::options::{Options, boolean, number, ranged, whole_number, word};
use crate::player::{USUAL_PLAYER, find_player};
use crate::record::Picture;
use crate::scenario::draw::look::{headline, picture_look};
use crate::scenario::left_out::add_picture;
use crate::scenario::members;
use crate::scenario::rule_object::{RuleObject, ScriptRule};
use crate::scenario::session::Session;
use crate::telling::discovered_sentences;
use mlua::{IntoLua, Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::discover::{
    BallSpread, Corrections, EffortWeights, FrontRule, Grammar, HeadRule,
};
use railproof_engine::rail::{BankGeometry, PocketChoice, RailChoice};
use railproof_engine::rule::NamedRule;
use std::rc::Rc;

const CALL: &str = "discover";
const KEYS: &[&str] = &[
    "on",
    "player",
    "rail",
    "pocket",
    "from",
    "to",
    "hands",
    "rolling",
    "straight",
    "corrections",
    "step_cost",
    "number_cost",
    "balls",
];

/// A search that was made.
#[derive(Debug, Clone)]
struct DiscoveredObject {
    question: Rc<DiscoverQuestion>,
    found: Rc<Discovered>,
}

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(CALL, lua.create_function(discover)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn discover(lua: &Lua, argument: Value) -> mlua::Result<DiscoveredObject> {
    let options = Options::open(lua, CALL, &argument, KEYS)?;
    let question = question(lua, &options)?;
    let session = Session::of(lua)?;
    let found = session
        .work(lua, 1, |_| Discovered::of(&question))?
        .map_err(|fault| options.complain_of_call(fault.message))?;
    Ok(DiscoveredObject { question: Rc::new(question), found: Rc::new(found) })
}

fn question(lua: &Lua, options: &Options) -> mlua::Result<DiscoverQuestion> {
    let session = Session::of(lua)?;
    let asked = options.required("on", OneOrManyTables)?;
    let player = match player_at(lua, options, "player")? {
        Some(PlayerObject(player)) => (*player).clone(),
        None => find_player(USUAL_PLAYER, session.folder())?,
    };
    let usual = BallSpread::USUAL;
    let table = asked.table();
    let pocket = options.optional("pocket", word::<PocketChoice>())?;
    let rail = options.optional("rail", word::<RailChoice>())?;
    let pocket = pocket.unwrap_or(PocketChoice::Corner);
    let rail = rail.unwrap_or(RailChoice::Long).facing(pocket);
    let pocket = pocket.across_from(rail);
    let geometry = BankGeometry::new(&table, rail, pocket).map_err(|error| {
        let key = if options.has("pocket") { "pocket" } else { "rail" };
        options.complain(key, format!("this makes no bank: {error}"))
    })?;
    let place = || ranged(number(), 0.1..=7.9, "");
    let numbers = (
        options.optional("from", place())?.unwrap_or(usual.numbers.0),
        options.optional("to", place())?.unwrap_or(usual.numbers.1),
    );
    if numbers.0 >= numbers.1 {
        return Err(options.complain("to", "`to` must be more than `from`").into());
    }
    let end = geometry.high_groove_m / geometry.diamond_m;
    if numbers.1 >= end {
        let key = if options.has("to") { "to" } else { "rail" };
        return Err(options
            .complain(key, format!("the balls must lie on the rail, which ends at {end:.2}"))
            .with_hint("give a smaller `to`")
            .into());
    }
    let counted = |key: &'static str, (least, most): (u64, u64)| -> Result<Option<u64>, Fault> {
        let count = options.optional(key, whole_number())?;
        match count.filter(|count| !(least..=most).contains(count)) {
            Some(count) => {
                let message = format!("`{key}` must be from {least} to {most}, not {count}");
                Err(options.complain(key, message))
            }
            None => Ok(count),
        }
    };
    let hands = counted("hands", (0, 8))?.and_then(|count| u8::try_from(count).ok());
    let balls = counted("balls", (32, MOST_BALLS as u64))?;
    let balls = balls.and_then(|count| usize::try_from(count).ok());
    let flag = |key: &'static str, otherwise: bool| -> Result<bool, Fault> {
        Ok(options.optional(key, boolean())?.unwrap_or(otherwise))
    };
    let mut grammar = Grammar::usual();
    if flag("straight", false)? {
        grammar.bends.clear();
    }
    if !flag("corrections", true)? {
        grammar = grammar.without_corrections();
    }
    let cost = |key: &'static str| -> Result<f64, Fault> {
        Ok(options.optional(key, ranged(number(), 0.01..=100.0, ""))?.unwrap_or(1.0))
    };
    Ok(DiscoverQuestion {
        table,
        known: asked.known().map(|known| (**known).clone()),
        model: asked.model(),
        player,
        balls: BallSpread {
            rail,
            pocket,
            numbers,
            hands: hands.unwrap_or(usual.hands),
            rolling: flag("rolling", false)?,
        },
        count: balls.unwrap_or(BallSpread::COUNT),
        grammar,
        weights: EffortWeights { operation: cost("step_cost")?, number: cost("number_cost")? },
    })
}

const MEMBERS: &[&str] = &["sentence", "named", "rules", "best_possible", "tried", "draw"];
const RULE: &[&str] = &[
    "words",
    "rule",
    "slope",
    "offset",
    "reading",
    "steps",
    "numbers",
    "chance",
    "error",
    "behind",
    "behind_error",
    "tied",
];

impl UserData for DiscoveredObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "discovered rules");
        fields.add_field_method_get("best_possible", |_, this| Ok(this.found.best_possible));
        fields.add_field_method_get("tried", |_, this| Ok(this.found.rules as f64));
        fields.add_field_method_get("named", |lua, this| {
            let front = &this.found.front;
            front.rules.get(front.named).map(|it| row(lua, it)).transpose()
        });
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        let sentence =
            |this: &Self| discovered_sentences(&this.question, &this.found).trim_end().to_owned();
        methods.add_meta_method(MetaMethod::ToString, move |_, this, ()| Ok(sentence(this)));
        methods.add_method("sentence", move |_, this, ()| Ok(sentence(this)));
        methods.add_method("rules", |lua, this, ()| {
            let list = lua.create_table()?;
            for it in &this.found.front.rules {
                list.raw_push(row(lua, it)?)?;
            }
            Ok(list)
        });
        add_picture(methods, "draw", draw);
        members::only(methods, "a search for rules", MEMBERS);
    }
}

/// A rule of the front; its `rule` is without corrections, which only a head can add.
fn row(lua: &Lua, it: &FrontRule) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("words", it.rule.words())?;
    let without = HeadRule { corrections: Corrections::default(), ..it.rule };
    let rule = without.rule().map_err(|error| Fault::bad_input(error.to_string()))?;
    let named = NamedRule { name: without.words(), rule };
    let object = RuleObject(Rc::new(ScriptRule { named, function: None }));
    table.raw_set("rule", object.into_lua(lua)?)?;
    table.raw_set("slope", it.rule.slope.value())?;
    table.raw_set("offset", f64::from(it.rule.offset) / 10.0)?;
    table.raw_set("reading", it.rule.reading.name())?;
    table.raw_set("steps", it.effort.operations)?;
    table.raw_set("numbers", it.effort.numbers)?;
    table.raw_set("chance", it.chance.chance)?;
    table.raw_set("error", it.chance.error)?;
    table.raw_set("behind", it.behind.difference)?;
    table.raw_set("behind_error", it.behind.error)?;
    table.raw_set("tied", it.is_tied())?;
    members::seal(lua, table, "a rule that was found", RULE)
}

/// `found:draw()`: effort against balls made.
fn draw(lua: &Lua, this: &DiscoveredObject, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["title", "subtitle", "legend", "size", "name"];
    let options = Options::open_or_none(lua, "draw", argument, KEYS)?;
    let mut picture = front_picture(&this.question, &this.found);
    let found = picture.title.clone();
    let mut conditions = picture.subtitles.split_off(1);
    let asked = picture.subtitles.remove(0);
    let (title, subtitles) = headline(&options, &found, asked, std::mem::take(&mut conditions))?;
    (picture.title, picture.subtitles) = (title, subtitles);
    picture.look = picture_look(&options, picture.look)?;
    Session::of(lua)?.add_drawing(&options, "front", Picture::Lines(picture))?;
    Ok(())
}
