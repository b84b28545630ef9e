//! `layout:bank_or_cut { … }` and `shot:bank_or_cut { … }`: whether a player had better bank the ball or cut it.

use super::layout::{LayoutObject, no_cue};
use super::stroke::{checked, level};
use crate::fault::Fault;
use crate::layout::OBJECT;
use crate::lua::options::{Options, list, object, word};
use crate::playing::{BallsAtRest, ChoiceAsked, ChoiceFindings, PlayedShot};
use crate::scenario::chance::player::{OnePlayer, player_at};
use crate::scenario::members;
use crate::scenario::rule_answers::failed;
use crate::scenario::rule_object::RuleObject;
use crate::scenario::session::Session;
use crate::telling::{Detail, bank_or_cut_sentence, bank_or_cut_sentences, why_not};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::choice::{ChoiceDraw, FoundChoice, NoLine};
use railproof_engine::rail::Pocket;
use std::rc::Rc;

pub(super) const ASKED_KEYS: &[&str] =
    &["player", "speed", "tip_side", "tip_height", "elevation", "allow_miscue", "rule", "pockets"];
const CHOICE: &[&str] =
    &["better", "sentence", "report", "bank", "cut", "apart", "apart_error", "ways"];
const WAY: &[&str] = &[
    "kind",
    "pocket",
    "rail",
    "second_rail",
    "start",
    "made",
    "error",
    "kissed",
    "scratched",
    "strokes",
    "why_not",
];

/// The question that the options ask of a layout.
pub(super) fn asked<'a>(
    lua: &Lua,
    options: &Options,
    this: &'a LayoutObject,
) -> mlua::Result<ChoiceAsked<'a>> {
    let laid = &*this.0;
    let player = match player_at(lua, options, "player")? {
        Some(player) => player,
        None => options.required("player", OnePlayer)?,
    };
    let stroke = level(options, laid.world.equipment())?;
    checked(options, laid, &stroke)?;
    let cue = laid.cue().ok_or_else(|| no_cue(options))?;
    let layout = &laid.layout;
    let named = || layout.balls.iter().position(|ball| ball.name == OBJECT);
    let target = layout.target.map(|target| target.ball).or_else(named);
    let target = target.filter(|target| *target != cue).ok_or_else(|| {
        options
            .complain_of_call("which ball is to be banked or cut?")
            .with_hint("call a ball `object`, or give the layout a `pocket` and its `ball`")
    })?;
    if laid.moves() {
        return Err(options.complain_of_call("this needs balls at rest, but one moves").into());
    }
    let rule = options.optional("rule", object::<RuleObject>("a rule"))?;
    let pockets = options.optional("pockets", list(word::<Pocket>()))?;
    let asked = ChoiceAsked::new(
        BallsAtRest::of(&laid.world, layout, cue, target),
        stroke,
        (*player.0).clone(),
        rule.map(|rule| rule.0.named.clone()),
        pockets,
    );
    asked.checked().map_err(|fault: Fault| {
        let told = options.complain_of_call(fault.message);
        match fault.hint {
            Some(hint) => told.with_hint(hint),
            None => told,
        }
    })?;
    Ok(asked)
}

/// `layout:bank_or_cut { … }`.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn bank_or_cut(
    lua: &Lua,
    this: &LayoutObject,
    argument: Value,
) -> mlua::Result<ChoiceObject> {
    let options = Options::open(lua, "bank_or_cut", &argument, ASKED_KEYS)?;
    let asked = asked(lua, &options, this)?;
    let found = Session::of(lua)?.work(lua, 1, |_| asked.answer(ChoiceDraw::USUAL))?;
    let rule = options.optional("rule", object::<RuleObject>("a rule"))?;
    rule_answered(rule.as_ref(), &found)?;
    answer(lua, found)
}

/// Refuses an answer for which the rule's function failed.
pub(super) fn rule_answered(
    rule: Option<&RuleObject>,
    found: &ChoiceFindings,
) -> Result<(), Fault> {
    let failure = found.choice.found.iter().find_map(|one| match &one.line {
        Err(NoLine::Rule(error)) if error.is_failure() => Some(error),
        _ => None,
    });
    match (rule, failure) {
        (Some(rule), Some(error)) => Err(failed(&rule.0, error)),
        _ => Ok(()),
    }
}

/// `shot:bank_or_cut { player, rule, pockets }`: with the stroke that was played.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn of_shot(
    lua: &Lua,
    shot: &PlayedShot<'_>,
    argument: Value,
) -> mlua::Result<ChoiceObject> {
    const KEYS: &[&str] = &["player", "rule", "pockets"];
    let options = Options::open(lua, "bank_or_cut", &argument, KEYS)?;
    let player = match player_at(lua, &options, "player")? {
        Some(player) => player,
        None => options.required("player", OnePlayer)?,
    };
    let rule = options.optional("rule", object::<RuleObject>("a rule"))?;
    let named = rule.as_ref().map(|rule| rule.0.named.clone());
    let pockets = options.optional("pockets", list(word::<Pocket>()))?;
    let found = Session::of(lua)?
        .work(lua, 1, |_| shot.bank_or_cut(&player.0, named, pockets))?
        .map_err(|fault| {
            let told = options.complain_of_call(fault.message);
            Fault { hint: fault.hint, ..told }
        })?;
    rule_answered(rule.as_ref(), &found)?;
    answer(lua, found)
}

/// An answer in a script's hands.
#[derive(Debug, Clone)]
pub struct ChoiceObject {
    /// What was found.
    pub found: Rc<ChoiceFindings>,
    fields: Table,
}

impl UserData for ChoiceObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "answer of bank or cut");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(bank_or_cut_sentence(&this.found))
        });
        methods.add_meta_method(MetaMethod::Index, |_, this, name: Value| {
            this.fields.get::<Value>(name)
        });
    }
}

/// The answer, with its fields.
fn answer(lua: &Lua, found: ChoiceFindings) -> mlua::Result<ChoiceObject> {
    let fields = fields(lua, &found)?;
    Ok(ChoiceObject { found: Rc::new(found), fields })
}

fn fields(lua: &Lua, found: &ChoiceFindings) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("better", found.choice.better().name())?;
    table.raw_set("sentence", bank_or_cut_sentence(found))?;
    table.raw_set("report", bank_or_cut_sentences(found, Detail::Full).trim_end())?;
    if let Some(apart) = found.choice.apart {
        table.raw_set("apart", apart.difference)?;
        table.raw_set("apart_error", apart.error)?;
    }
    let row = |one: Option<&FoundChoice>| one.map(|one| way(lua, one, found)).transpose();
    table.raw_set("bank", row(found.bank())?)?;
    table.raw_set("cut", row(found.cut())?)?;
    let ways = lua.create_table()?;
    for one in &found.choice.found {
        ways.raw_push(way(lua, one, found)?)?;
    }
    table.raw_set("ways", ways)?;
    members::seal(lua, table, "an answer", CHOICE)
}

fn way(lua: &Lua, one: &FoundChoice, found: &ChoiceFindings) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("kind", if one.way.is_bank() { "bank" } else { "cut" })?;
    table.raw_set("pocket", one.way.pocket().name())?;
    for (key, rail) in ["rail", "second_rail"].into_iter().zip(one.way.rails()) {
        table.raw_set(key, rail.name())?;
    }
    if let Some(start) = one.line.as_ref().ok().and_then(|line| line.start) {
        table.raw_set("start", start.start)?;
    }
    if let Some(tally) = &one.tally {
        let made = tally.chance();
        table.raw_set("made", made.chance)?;
        table.raw_set("error", made.error)?;
        table.raw_set("kissed", tally.kissed)?;
        table.raw_set("scratched", tally.scratched())?;
        table.raw_set("strokes", tally.strokes)?;
    }
    table.raw_set("why_not", why_not(one, found))?;
    members::seal(lua, table, "a way", WAY)
}
