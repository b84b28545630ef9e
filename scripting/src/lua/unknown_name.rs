//! Reading a name that nothing was given to: an error with a suggestion.

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
            let hint = hint(site.as_ref().map(CallSite::source), end, &name, &known);
            Err(fault.with_hint(hint).placed(place).into())
        })?,
    )?;
    globals.set_metatable(Some(metatable))
}

/// The help for a name whose reading ends at byte `end`.
fn hint(source: Option<&Source>, end: usize, name: &str, known: &[KnownName]) -> String {
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
        return format!("one = stands between a word and its value: {name} = …");
    }
    if let Some(near) = nearest(name, own.iter().map(|own| own.name)) {
        return format!("did you mean `{near}`?");
    }
    if let Some(hint) = renamed::hint(name, known()).or_else(own_hint) {
        return hint;
    }
    let made_by = |makers: &[&str]| own.iter().find(|own| makers.contains(&own.maker));
    match use_of {
        NameUse::Called => {
            "a quantity of any unit is written like quantity \"160 g\"; a function of your own \
                        stands above its first call"
                .to_owned()
        }
        NameUse::Equipment => put_back(name, "equipment \"nine-foot\""),
        NameUse::Rule => put_back(name, "rule.linear { slope = 2.2, reading = \"groove\" }"),
        NameUse::Banks => put_back(name, "grid { … }"),
        NameUse::Asked => match (made_by(&["grid", "sample"]), made_by(&["rule"])) {
            (Some(banks), Some(rule)) => {
                put_back(name, &format!("compare({}, {})", banks.name, rule.name))
            }
            _ => format!("give it a value first: local {name} = …"),
        },
        NameUse::Key | NameUse::Counted | NameUse::Other => {
            format!("a text stands in quotes: \"{name}\"")
        }
    }
}

fn put_back(name: &str, value: &str) -> String {
    format!("a line above this gives it a value, such as: local {name} = {value}")
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
