//! The rules of a comparison in the order of their success.

use super::map::Map;
use super::members;
use crate::lua::quantity::Quantity;
use mlua::{Lua, Table};
use railproof_engine::sweep::{Row, RuleStanding, rank};

const STANDING: &[&str] = &["rule", "share", "worst", "rms", "angles", "holds", "count"];

/// The kept rules, best first.
pub fn standings(map: &Map) -> Vec<RuleStanding> {
    let rows: Vec<Row> = map.rows().map(|(_, row)| *row).collect();
    let mut standings = rank(&rows, map.picked.rules.len().max(1));
    standings.retain(|standing| map.picked.kept_rules.contains(&standing.rule));
    standings
}

/// The ranking as a list of tables.
pub fn ranking(lua: &Lua, map: &Map) -> mlua::Result<Table> {
    let list = lua.create_table()?;
    for standing in standings(map) {
        let tally = &standing.tally;
        let table = lua.create_table()?;
        table
            .raw_set("rule", map.picked.rules.get(standing.rule).map(|rule| rule.name.as_str()))?;
        table.raw_set("share", tally.share_holding())?;
        table.raw_set("holds", tally.holds())?;
        table.raw_set("count", tally.played())?;
        for (name, metres) in [("worst", tally.worst_miss_m), ("rms", tally.rms_miss_m())] {
            if let Some(metres) = metres {
                let (amount, unit) = map.record.units.amount(metres);
                table.raw_set(name, Quantity::new(amount, unit)?)?;
            }
        }
        if let Some((from, to)) = standing.holding_angles_rad {
            let angles = lua.create_table()?;
            angles.raw_set("from", Quantity::new(from.to_degrees(), "deg")?)?;
            angles.raw_set("to", Quantity::new(to.to_degrees(), "deg")?)?;
            table.raw_set("angles", members::seal(lua, angles, "a range", &["from", "to"])?)?;
        }
        list.raw_push(members::seal(lua, table, "a rule's standing", STANDING)?)?;
    }
    Ok(list)
}
