//! `discover { on, player }`: the rules that a player makes most balls with, for what they ask of a head.

use super::asked_balls::{ASKED_KEYS, asked_balls};
use crate::answer::front_table;
use crate::discover_picture::front_picture;
use crate::discovering::{DiscoverQuestion, Discovered};
use crate::fault::Fault;
use crate::lua::options::{Options, boolean, number, ranged};
use crate::record::Picture;
use crate::scenario::draw::look::{headline, picture_look};
use crate::scenario::inputs::Keys;
use crate::scenario::left_out::add_picture;
use crate::scenario::members;
use crate::scenario::rule_object::{RuleObject, ScriptRule};
use crate::scenario::session::Session;
use crate::telling::discovered_sentences;
use mlua::{IntoLua, Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::discover::{Corrections, EffortWeights, FrontRule, Grammar, HeadRule};
use railproof_engine::rule::NamedRule;
use std::rc::Rc;

const CALL: &str = "discover";
static KEYS: Keys = Keys::new(|| {
    let own = ["straight", "corrections", "step_cost", "number_cost"];
    ASKED_KEYS.iter().copied().chain(own).collect()
});

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
    let options = Options::open(lua, CALL, &argument, &KEYS)?;
    let question = question(lua, &options)?;
    let session = Session::of(lua)?;
    let found = session
        .work(lua, 1, |_| Discovered::of(&question))?
        .map_err(|fault| options.complain_of_call(fault.message))?;
    session.advise(&question.asked.cautions());
    session.add_answer_table(front_table(&found, session.fresh_name("front-rows")));
    Ok(DiscoveredObject { question: Rc::new(question), found: Rc::new(found) })
}

fn question(lua: &Lua, options: &Options) -> mlua::Result<DiscoverQuestion> {
    let asked = asked_balls(lua, options)?;
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
        asked,
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
    table.raw_set("offset", Corrections::diamonds(it.rule.offset))?;
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
