//! Reading a name that nothing was given to: an error with a suggestion.

use super::missing_value::{Missing, UsualTable};
use super::name_use::NameUse;
use super::own_names::{OwnName, own_names};
use super::place::{CallSite, Placed};
use super::sandbox;
use super::source::Source;
use super::stray_names::KnownName;
use super::word_slips;
use crate::fault::{Fault, nearest};
use crate::renamed;
use mlua::{Lua, Table, Value};
use railproof_engine::units::SpeedWord;

/// Refuses every global that is not known.
pub fn refuse(lua: &Lua, globals: &Table, known: Vec<KnownName>) -> mlua::Result<()> {
    let metatable = lua.create_table()?;
    metatable.raw_set(
        "__index",
        lua.create_function(move |lua, (_, name): (Value, Value)| -> mlua::Result<Value> {
            let name = name.to_string()?;
            let fault = Fault::bad_input(format!("nothing is called `{name}` here"));
            let site = CallSite::find(lua);
            let place = site.as_ref().map(|site| site.place_of_name(&name));
            let end = place.as_ref().map_or(usize::MAX, |place| place.span().end);
            let table = lua.app_data_ref::<UsualTable>();
            let usual = UsualTable("nine-foot".into());
            let table = table.as_deref().unwrap_or(&usual);
            let hint = hint(site.as_ref().map(CallSite::source), end, &name, &known, table);
            Err(fault.with_hint(hint).placed(place).into())
        })?,
    )?;
    globals.set_metatable(Some(metatable))
}

/// The help for a name whose reading ends at byte `end`.
fn hint(
    source: Option<&Source>,
    end: usize,
    name: &str,
    known: &[KnownName],
    table: &UsualTable,
) -> String {
    if sandbox::REMOVED.contains(&name) {
        return "a scenario reads profiles and layouts by their names and runs no other code"
            .into();
    }
    let known = || known.iter().map(|known| known.name.as_str());
    let Some((source, use_of)) =
        source.and_then(|source| Some((source, NameUse::of(source, end)?)))
    else {
        return renamed::hint(name, known())
            .unwrap_or_else(|| format!("give `{name}` a value first"));
    };
    if let Some(hint) = word_slips::hint(source, end) {
        return hint;
    }
    let own = own_names(source);
    let own_hint = || (use_of != NameUse::Called).then(|| hint_of_own(&own, name)).flatten();
    if use_of == NameUse::Key {
        return format!("put one = between a word and its value: {name} = …");
    }
    if let Some(near) = nearest(name, own.iter().map(|own| own.name)) {
        return format!("did you mean `{near}`?");
    }
    if let Some(hint) = renamed::hint(name, known()).or_else(own_hint) {
        return hint;
    }
    if use_of != NameUse::Called
        && let Some(missing) = Missing::of(source, &own, end, table)
    {
        return missing.hint;
    }
    match use_of {
        NameUse::Called if name.starts_with("diamond") => {
            "diamonds are no unit of length here: write inches(6) or centimetres(15); a nine-foot table's diamonds are \
             12 1/2 inches apart"
                .to_owned()
        }
        NameUse::Called => {
            "a quantity of any unit is written like quantity \"160 g\"; write a function of your own \
                        above its first call"
                .to_owned()
        }
        NameUse::Asked => {
            format!("write a line above this that gives it a value; it begins with local {name} =")
        }
        _ => in_its_place(name),
    }
}

/// A word that stands where a number or a text belongs.
fn in_its_place(name: &str) -> String {
    const NUMBERS: [&str; 11] =
        ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
    let lower = name.to_lowercase();
    if let Some(number) = NUMBERS.iter().position(|word| *word == lower) {
        return format!("write it as a number: {number}");
    }
    let words = SpeedWord::ALL.iter().map(|word| word.name()).chain(["stun", "roll", "draw"]);
    let text = renamed::said_elsewhere(&lower, words).unwrap_or(name);
    format!("text goes in quotes: \"{text}\"")
}

/// A name that the text gives but never reads: most likely the other half of a change.
fn hint_of_own(own: &[OwnName<'_>], name: &str) -> Option<String> {
    let mut unread = own.iter().filter(|own| !own.read);
    match (unread.next(), unread.next()) {
        (Some(own), None) => Some(format!(
            "line {} gives a value to `{}`, which nothing reads: write `{name}` there, or `{}` here",
            own.line, own.name, own.name
        )),
        _ => None,
    }
}
