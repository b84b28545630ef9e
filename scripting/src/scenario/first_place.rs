//! The claims on who is first among rules.

use super::expect::open::{ClaimSubject, add_claim};
use super::expect::subject::{Finding, argument, record};
use super::ranked_rules::RankedRules;
use super::value_choice::RuleName;
use crate::fault::Fault;
use crate::lua::place::{self, Placed};
use crate::renamed;
use mlua::{IntoLua, Lua, UserDataMethods, Value};
use railproof_engine::ask::PairedDifference;

/// The claims.
pub const CLAIMS: &[&str] = &["ranks_first", "ties_with_the_first"];

/// Adds the claims of [`CLAIMS`]; `order` is the order that a claim is about.
pub fn add_claims<S, R, M>(methods: &mut M, order: fn(&S) -> &R)
where
    S: ClaimSubject + Clone + IntoLua + 'static,
    R: RankedRules + 'static,
    M: UserDataMethods<S>,
{
    for (call, is_first) in CLAIMS.iter().zip([true, false]) {
        add_claim(methods, call, move |lua, this: &S, rule: Value| {
            let wanted = argument(lua, call, 1, &rule, RuleName)?;
            let ranked = order(this);
            let places = ranked.order();
            let Some(place) = places.iter().position(|(name, _)| *name == wanted) else {
                return Err(no_rule(lua, call, &places, &wanted).into());
            };
            let is_tied = |place: usize| places.get(place).is_some_and(|(_, it)| it.is_tie());
            let held = match (is_first, place) {
                (true, place) => place == 0 && !is_tied(1),
                (false, 0) => is_tied(1),
                (false, place) => is_tied(place),
            };
            let what = if is_first { "ranks first, alone" } else { "is tied for the first place" };
            let expected = format!("{}: {wanted} {what}", ranked.subject());
            record(lua, call, expected, Finding { held, words: ranked.sentence() })?;
            Ok(this.clone())
        });
    }
}

/// The refusal of a rule's name that is none of these.
fn no_rule(lua: &Lua, call: &str, places: &[(&str, PairedDifference)], wanted: &str) -> Fault {
    let names: Vec<&str> = places.iter().map(|(name, _)| *name).collect();
    let hint = renamed::quoted_hint(wanted, names.iter().copied());
    Fault::bad_input(format!("no rule is called \"{wanted}\" here"))
        .with_hint(hint.unwrap_or_else(|| format!("the rules: {}", names.join("; "))))
        .placed(place::argument(lua, call, 1))
}
