//! Which stored rule is which of the rules now, and so for tables: by name, by content, or by their order.

use super::entries::BaselineRows;
use super::rules::StoredRule;
use super::tables::StoredTable;
use std::collections::BTreeMap;

/// The column of tables' names.
const TABLE: &str = "equipment";

/// The rules and tables that belong to each other, stored and now.
pub(super) struct Pairing<'a> {
    pub(super) rules: Vec<(&'a StoredRule, &'a StoredRule)>,
    /// Tables of which both numbers are known.
    pub(super) tables: Vec<(&'a StoredTable, &'a StoredTable)>,
    /// Names of tables, stored and now.
    pub(super) table_names: BTreeMap<String, String>,
}

impl<'a> Pairing<'a> {
    pub(super) fn of(stored: &'a BaselineRows, now: &'a BaselineRows) -> Self {
        let rules = paired(&stored.rules, &now.rules, |a, b| a.key == b.key, StoredRule::is_alike);
        let tables =
            paired(&stored.tables, &now.tables, |a, b| a.name == b.name, StoredTable::is_alike);
        let (old_names, new_names) = (stored.values(TABLE), now.values(TABLE));
        let table_names = if tables.is_empty() {
            let by_name = paired(&old_names, &new_names, |a, b| a == b, |_, _| false);
            by_name.into_iter().map(|(old, new)| ((*old).to_owned(), (*new).to_owned())).collect()
        } else {
            tables.iter().map(|(old, new)| (old.name.clone(), new.name.clone())).collect()
        };
        Self { rules, tables, table_names }
    }

    /// The name that a stored rule has now.
    pub(super) fn rule_now(&self, stored: &str) -> Option<&'a str> {
        let known = self.rules.iter().find(|(old, _)| old.key == stored);
        known.map(|(_, now)| now.key.as_str())
    }

    /// Whether the edges of verdicts are where they were, on every table.
    pub(super) fn edges_stand(&self) -> bool {
        !self.tables.is_empty() && self.tables.iter().all(|(old, now)| old.edges_stand(now))
    }
}

/// Whether two belong to each other.
type Alike<'a, T> = &'a dyn Fn(&T, &T) -> bool;

/// Pairs by name, then by content; those that are left are paired in order, where there are as many of each.
fn paired<'a, T>(
    old: &'a [T],
    now: &'a [T],
    by_name: impl Fn(&T, &T) -> bool,
    by_content: impl Fn(&T, &T) -> bool,
) -> Vec<(&'a T, &'a T)> {
    let mut free: Vec<&T> = now.iter().collect();
    let mut left: Vec<&T> = old.iter().collect();
    let mut pairs = Vec::new();
    let same: [Alike<'_, T>; 2] = [&by_name, &by_content];
    for same in same {
        left.retain(|one| match free.iter().position(|other| same(one, other)) {
            Some(at) => {
                pairs.push((*one, free.remove(at)));
                false
            }
            None => true,
        });
    }
    if left.len() == free.len() {
        pairs.extend(left.into_iter().zip(free));
    }
    pairs
}
