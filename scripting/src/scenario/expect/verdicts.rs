//! Expectations about verdicts.

use super::{Expected, Found, argument};
use crate::fault::{Fault, nearest};
use crate::lua::options::{choice, ranged};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::shown;
use crate::scenario::map::Map;
use crate::scenario::ranking::standings;
use crate::scenario::session::fault_here;
use crate::scenario::wanted::RuleName;
use mlua::{Lua, Value};
use railproof_engine::bank::Verdict;
use railproof_engine::sweep::Row;
use std::fmt::Write as _;

/// A share in percent, as people read it.
pub fn percent(share: f64) -> String {
    format!("{} %", shown((1e4 * share).round() / 100.0))
}

/// What became of a bank, in words: `long by 12.3 mm`.
pub fn words(row: &Row) -> String {
    let miss = row.outcome.miss_m().map(|miss| format!(" by {:.1} mm", 1e3 * miss.abs()));
    match row.outcome.verdict() {
        Verdict::Holds => format!(
            "holds, {:.1} mm off the middle",
            1e3 * row.outcome.miss_m().unwrap_or(0.0).abs()
        ),
        Verdict::Long => format!("long{}", miss.unwrap_or_default()),
        Verdict::Short => format!("short{}", miss.unwrap_or_default()),
        Verdict::TouchesPoint(direction) => match direction {
            railproof_engine::bank::Direction::Long => "touches the long point".to_owned(),
            railproof_engine::bank::Direction::Short => "touches the short point".to_owned(),
        },
        Verdict::StoppedBeforeRail => "stops before the rail".to_owned(),
        Verdict::StoppedBeforeMouth => "stops before the mouth".to_owned(),
        Verdict::OtherRail => "meets another rail first".to_owned(),
        Verdict::OtherPocket => "goes into another pocket".to_owned(),
        Verdict::NoRoom => "has no room for its line".to_owned(),
    }
}

/// Whether every row passes; the words count them and name the first that does not.
pub fn all_rows(map: &Map, what: &str, passes: impl Fn(&Row) -> bool) -> Found {
    let (mut count, mut passing) = (0_usize, 0_usize);
    let mut first_other = None;
    for (at, row) in map.rows() {
        count += 1;
        if passes(row) {
            passing += 1;
        } else if first_other.is_none() {
            first_other = Some((at, row));
        }
    }
    let mut found = if count == 1 { String::new() } else { format!("{passing} of {count} {what}") };
    match first_other {
        Some((at, row)) if count == 1 => {
            found = format!("{}: {}", map.picked.say_row(at), words(row));
        }
        Some((at, row)) => {
            let _ = write!(
                found,
                "; the first that does not, {}: {}",
                map.picked.say_row(at),
                words(row)
            );
        }
        None if count == 1 => {
            found = map.rows().next().map_or_else(String::new, |(_, row)| words(row));
        }
        None => {}
    }
    Found { held: count > 0 && passing == count, words: found }
}

pub fn holds(lua: &Lua, this: &Expected, (): ()) -> mlua::Result<Expected> {
    let found = all_rows(&this.0, "hold", |row| row.outcome.verdict() == Verdict::Holds);
    this.record(lua, "holds", "holds", found)
}

fn share(lua: &Lua, call: &str, value: &Value) -> Result<f64, Fault> {
    let kind = ranged(crate::lua::options::number(), 0.0..=1.0, "");
    argument(lua, call, 1, value, kind).map_err(|fault| match fault.hint {
        None => fault.with_hint("a share is from 0 to 1: 0.9 is nine in ten"),
        Some(_) => fault,
    })
}

fn of_shares(this: &Expected) -> (f64, String) {
    let summary = this.0.summary();
    let share = summary.share_holding();
    (share, format!("{} of {} hold: {}", summary.holds, summary.count, percent(share)))
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn holds_at_least(lua: &Lua, this: &Expected, least: Value) -> mlua::Result<Expected> {
    let least = share(lua, "holds_at_least", &least)?;
    let (share, words) = of_shares(this);
    let found = Found { held: share >= least, words };
    this.record(lua, "holds_at_least", &format!("at least {} hold", percent(least)), found)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn holds_at_most(lua: &Lua, this: &Expected, most: Value) -> mlua::Result<Expected> {
    let most = share(lua, "holds_at_most", &most)?;
    let (share, words) = of_shares(this);
    let found = Found { held: share <= most, words };
    this.record(lua, "holds_at_most", &format!("at most {} hold", percent(most)), found)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn goes(lua: &Lua, this: &Expected, way: Value) -> mlua::Result<Expected> {
    let ways: &[(&str, Verdict)] = &[("long", Verdict::Long), ("short", Verdict::Short)];
    let wanted = argument(lua, "goes", 1, &way, choice(ways))?;
    let word = wanted.name();
    let found = all_rows(&this.0, &format!("go {word}"), |row| row.outcome.verdict() == wanted);
    this.record(lua, "goes", &format!("goes {word}"), found)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn stops(lua: &Lua, this: &Expected, place: Value) -> mlua::Result<Expected> {
    let places: &[(&str, Verdict)] = &[
        ("before-rail", Verdict::StoppedBeforeRail),
        ("before-mouth", Verdict::StoppedBeforeMouth),
    ];
    let wanted = argument(lua, "stops", 1, &place, choice(places))?;
    let word = if wanted == Verdict::StoppedBeforeRail { "rail" } else { "mouth" };
    let found = all_rows(&this.0, &format!("stop before the {word}"), |row| {
        row.outcome.verdict() == wanted
    });
    this.record(lua, "stops", &format!("stops before the {word}"), found)
}

pub fn touches(lua: &Lua, this: &Expected, (): ()) -> mlua::Result<Expected> {
    let found = all_rows(&this.0, "touch a point", |row| {
        matches!(row.outcome.verdict(), Verdict::TouchesPoint(_))
    });
    this.record(lua, "touches", "touches a point of the mouth", found)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn ranks_first(lua: &Lua, this: &Expected, rule: Value) -> mlua::Result<Expected> {
    const CALL: &str = "ranks_first";
    let wanted = argument(lua, CALL, 1, &rule, RuleName)?;
    let picked = &this.0.picked;
    if picked.kept_rules.len() < 2 {
        return Err(
            fault_here(lua, CALL, "there is only one rule here, so nothing is ranked").into()
        );
    }
    let name = |place: usize| picked.rules.get(place).map_or("", String::as_str);
    let names: Vec<&str> = picked.kept_rules.iter().map(|place| name(*place)).collect();
    if !names.contains(&wanted.as_str()) {
        let hint = match nearest(&wanted, names.iter().copied()) {
            Some(near) => format!("did you mean \"{near}\"?"),
            None => format!("the rules: {}", names.join("; ")),
        };
        return Err(Fault::bad_input(format!("no rule is called \"{wanted}\" here"))
            .with_hint(hint)
            .placed(place::argument(lua, CALL, 1))
            .into());
    }
    let standings = standings(&this.0);
    let order = |a: &railproof_engine::sweep::RuleStanding| {
        (a.summary.share_holding(), a.summary.rms_miss_m)
    };
    let tied = standings.len() > 1 && order(&standings[0]) == order(&standings[1]);
    let first = standings.first().is_some_and(|standing| name(standing.rule) == wanted);
    let listed: Vec<String> = standings
        .iter()
        .map(|standing| {
            format!(
                "{} {} (RMS {:.1} mm)",
                name(standing.rule),
                percent(standing.summary.share_holding()),
                1e3 * standing.summary.rms_miss_m
            )
        })
        .collect();
    let tie = if tied { "; the first two are tied" } else { "" };
    let found = Found { held: first && !tied, words: format!("{}{tie}", listed.join(", then ")) };
    this.record(lua, CALL, &format!("{wanted} ranks first"), found)
}

/// A length as an argument, m.
pub fn length(lua: &Lua, call: &str, value: &Value) -> Result<(f64, String), Fault> {
    use railproof_engine::units::Dimension;
    let kind = crate::lua::options::quantity(Dimension::Length);
    let metres = argument(lua, call, 1, value, kind)?;
    if metres < 0.0 {
        return Err(Fault::bad_input(format!("what {call} takes must not be negative"))
            .placed(place::argument(lua, call, 1)));
    }
    let shown = crate::lua::quantity::of_value(value).map_or_else(String::new, |q| q.to_string());
    Ok((metres, shown))
}
