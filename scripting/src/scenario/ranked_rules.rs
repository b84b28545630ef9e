//! Rules in an order, and the words that every such order answers to.

use mlua::{Lua, MetaMethod, Table, UserDataMethods};
use railproof_engine::ask::PairedDifference;

/// The words of an order of rules.
pub const MEMBERS: &[&str] = &["rows", "sentence", "count"];

/// Rules in an order, the best first.
pub trait RankedRules {
    /// What was ranked, to begin a sentence with.
    fn subject(&self) -> String;
    /// The order in words, ties named.
    fn sentence(&self) -> String;
    /// Each rule's name, and how far it is behind the first.
    fn order(&self) -> Vec<(&str, PairedDifference)>;
    /// All that is known of the rule at a place.
    fn row(&self, lua: &Lua, place: usize) -> mlua::Result<Table>;
}

/// Adds the words of [`MEMBERS`].
pub fn add_words<R: RankedRules + 'static, M: UserDataMethods<R>>(methods: &mut M) {
    methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.sentence()));
    methods.add_method("sentence", |_, this, ()| Ok(this.sentence()));
    methods.add_method("count", |_, this, ()| Ok(this.order().len()));
    methods.add_method("rows", |lua, this, ()| {
        let list = lua.create_table()?;
        for place in 0..this.order().len() {
            list.raw_push(this.row(lua, place)?)?;
        }
        Ok(list)
    });
}

/// Puts a rule's name and its distance from the first into its row.
pub fn put_place(table: &Table, name: &str, behind: PairedDifference) -> mlua::Result<()> {
    table.raw_set("rule", name)?;
    table.raw_set("behind", behind.difference)?;
    table.raw_set("behind_error", behind.error)?;
    table.raw_set("tied", behind.is_tie())
}
