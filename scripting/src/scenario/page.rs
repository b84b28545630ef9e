//! `page { … }`: one bank as a page to print, with how often a player makes it and a table of starts.

use super::bank::SingleBank;
use super::chance::player::{PlayerObject, player_at};
use super::draw::look::picture_look;
use super::inputs::{Keys, input_keys};
use super::left_out::leave_out;
use super::page_bank::{page_bank, unsaid};
use super::session::Session;
use crate::fault::Fault;
use crate::lua::options::{Options, text};
use crate::lua::place;
use crate::playing::{BankFindings, BankQuestion};
use crate::record::Picture;
use crate::renamed;
use crate::shot_picture::bank_page;
use crate::telling::capital;
use mlua::{Lua, Table, Value};
use railproof_engine::rail::Reading;
use railproof_engine::rule::Rule;
use railproof_engine::sweep::{Input, Values};

const CALL: &str = "page";
const FURTHER: [&str; 7] = ["rule", "player", "title", "subtitle", "legend", "size", "name"];

static KEYS: Keys = Keys::new(|| input_keys(&FURTHER));

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(CALL, lua.create_function(page)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn page(lua: &Lua, argument: Value) -> mlua::Result<()> {
    if let Err(error) = drawn(lua, &argument) {
        leave_out(lua, error)?;
        place::remark(lua, "no page was made");
        Session::of(lua)?.lose_picture();
    }
    Ok(())
}

/// The option that a key with a slip in it means, if it is not given beside it; the value stands there now.
fn read_as(argument: &Value, key: &str) -> Option<&'static str> {
    let Value::Table(table) = argument else { return None };
    let meant = renamed::meant(key, KEYS.iter().copied())?;
    let free = table.raw_get::<Value>(meant).is_ok_and(|value| value.is_nil());
    let value: Value = table.raw_get(key).ok()?;
    (free && table.raw_set(meant, value).is_ok()).then_some(meant)
}

/// Who plays it; one that can't be read is told, and costs only how often they make it.
fn player_of_page(lua: &Lua, options: &Options) -> mlua::Result<Option<PlayerObject>> {
    const KEY: &str = "player";
    if options.raw(KEY).as_string().is_some_and(|text| *text == "none") {
        return Ok(None);
    }
    player_at(lua, options, KEY).or_else(|error| leave_out(lua, error).map(|_| None))
}

/// The end of a line of what is left out, which says what stands in: `line 14: frozen stands in`.
fn what_stands_in(line: &str) -> String {
    match (line.split_once(": "), line.rsplit_once("; ")) {
        (Some((place, _)), Some((_, end))) if end.contains(" stands in") => {
            format!("{place}: {end}")
        }
        _ => line.to_owned(),
    }
}

fn drawn(lua: &Lua, argument: &Value) -> mlua::Result<()> {
    let session = Session::of(lua)?;
    let before = session.left_out_count();
    let options = Options::open_but(lua, CALL, argument, &KEYS, |unknown, key| {
        session.leave_out(match key.and_then(|key| read_as(argument, key)) {
            Some(meant) => {
                let message = format!("{}; it is read as `{meant}`", unknown.message);
                Fault { message, ..unknown }
            }
            None => unknown,
        });
        Ok(())
    })?;
    let SingleBank { bank, line, launch, rule, plan, texts } = page_bank(lua, &options)?;
    let player = player_of_page(lua, &options)?;
    let told = |input: Input| {
        let text = texts.iter().find(|text| text.input == input)?;
        let tick = text.ticks.first()?;
        if let Some(word) = text.words.first().copied().flatten() {
            return Some(word.to_owned());
        }
        // Nothing is nothing in any unit.
        Some(if text.unit.is_empty() || text.mixed || tick == "0" {
            tick.clone()
        } else {
            format!("{tick} {}", text.unit)
        })
    };
    let speed_text = told(Input::Speed).or_else(|| told(Input::Lag)).unwrap_or_default();
    let values = |input| plan.axis(input).map(|axis| &axis.values);
    let (Some(Values::Rails(rails)), Some(Values::Pockets(pockets))) =
        (values(Input::Rail), values(Input::Pocket))
    else {
        return Err(options.complain_of_call("there is no rail").into());
    };
    let question = BankQuestion {
        line,
        launch,
        reading: rule.as_ref().map_or(Reading::Groove, Rule::reading),
        rule,
        speed_text,
        off_rail_text: told(Input::OffRail).unwrap_or_else(|| "0".to_owned()),
        rail: rails[0],
        pocket: pockets[0],
        cushion: None,
        table_in_inches: session.units().in_inches(),
        known: None,
        player: player.map(|player| (*player.0).clone()),
        bank,
    };
    let findings = session.work(lua, 1, |_| BankFindings::of(&question))?;
    let findings = findings.map_err(|fault| options.complain_of_call(fault.message))?;
    session.count_bank();
    session.advise(&findings.page_cautions(&question));
    let page = bank_page(&question, &findings);
    let mut page = page.map_err(|fault| {
        let told = options.complain_of_call(fault.message);
        Fault { hint: fault.hint.or_else(|| told.hint.clone()), ..told }
    })?;
    if let Some(title) = options.optional("title", text())? {
        page.retitle(title);
    }
    if let Some(subtitle) = options.optional("subtitle", text())? {
        page.subtitle = subtitle;
    }
    let unlike: Vec<String> = session.left_out_from(before);
    if !unlike.is_empty() {
        let told: Vec<String> = unlike.iter().map(|line| what_stands_in(line)).collect();
        page.verdict = format!("Not as the file says: {}. {}", told.join("; "), page.verdict);
    }
    for line in unsaid(&options) {
        place::remark(lua, &line);
        page.notes.insert(0, format!("{}.", capital(&line)));
    }
    page.look = picture_look(&options, page.look)?;
    session.add_drawing(&options, CALL, Picture::Table(Box::new(page)))?;
    Ok(())
}
