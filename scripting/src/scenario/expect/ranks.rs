//! Whether a rule ranks first.

use super::claims::percent;
use super::subject::{ExpectationSubject, Finding, argument};
use crate::fault::Fault;
use crate::lua::place::{self, Placed};
use crate::renamed;
use crate::scenario::ranking::standings;
use crate::scenario::session::fault_here;
use crate::scenario::value_choice::RuleName;
use mlua::{Lua, Value};
use railproof_engine::sweep::RuleStanding;

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn ranks_first(
    lua: &Lua,
    this: &ExpectationSubject,
    rule: Value,
) -> mlua::Result<ExpectationSubject> {
    const CALL: &str = "ranks_first";
    let wanted = argument(lua, CALL, 1, &rule, RuleName)?;
    let map = this.map(lua, CALL)?;
    let picked = &map.picked;
    if picked.kept_rules.len() < 2 {
        return Err(
            fault_here(lua, CALL, "there is only one rule here, so nothing is ranked").into()
        );
    }
    let name = |place: usize| picked.rule_name(place);
    let names: Vec<&str> = picked.kept_rules.iter().map(|place| name(*place)).collect();
    if !names.contains(&wanted.as_str()) {
        let hint = renamed::quoted_hint(&wanted, names.iter().copied());
        let hint = hint.unwrap_or_else(|| format!("the rules: {}", names.join("; ")));
        return Err(Fault::bad_input(format!("no rule is called \"{wanted}\" here"))
            .with_hint(hint)
            .placed(place::argument(lua, CALL, 1))
            .into());
    }
    let standings = standings(map);
    let rms_m = |standing: &RuleStanding| standing.tally.rms_miss_m().unwrap_or(0.0);
    let share = |standing: &RuleStanding| standing.tally.share_holding().unwrap_or(0.0);
    let order = |standing: &RuleStanding| (share(standing), rms_m(standing));
    let tied = standings.len() > 1 && order(&standings[0]) == order(&standings[1]);
    let first = standings.first().is_some_and(|standing| name(standing.rule) == wanted);
    let listed: Vec<String> = standings
        .iter()
        .map(|standing| {
            format!(
                "{} {} (RMS {})",
                name(standing.rule),
                percent(share(standing)),
                map.record.units.tenth(rms_m(standing))
            )
        })
        .collect();
    let tie = if tied { "; the first two are tied" } else { "" };
    let found = Finding { held: first && !tied, words: format!("{}{tie}", listed.join(", then ")) };
    this.record(lua, CALL, &format!("{wanted} ranks first"), found)
}
