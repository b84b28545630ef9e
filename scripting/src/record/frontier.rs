//! A search for where holding turns into breaking, as plain data.

use crate::telling::AskedUnits;
use railproof_engine::frontier::{Frontier, Search};
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::Plan;

/// The searched banks, the tolerances, and the edges found.
#[derive(Debug)]
pub struct FrontierRecord {
    /// A name unique in the scenario, fit for a file name.
    pub name: String,
    /// The resolved plan.
    pub plan: Plan,
    /// The rules; empty when the plan gives start numbers itself.
    pub rules: Vec<NamedRule>,
    /// Along which input, over which, and the tolerances.
    pub search: Search,
    /// The edges, and the looks that found them.
    pub found: Frontier,
    /// The units in which people are told of it.
    pub units: AskedUnits,
}

impl FrontierRecord {
    /// The number of lines searched all along, and the number of those that hold somewhere.
    pub fn lines_searched(&self) -> (usize, usize) {
        let lines = self.found.sheets.iter().flat_map(|sheet| &sheet.lines);
        lines.filter(|line| line.is_searched()).fold((0, 0), |(all, holding), line| {
            (all + 1, holding + usize::from(!line.intervals.is_empty()))
        })
    }

    /// The number of lines of the plan itself.
    pub fn lines_planned(&self) -> usize {
        let others = self.plan.axes().iter().filter(|axis| axis.input != self.search.along);
        others.map(|axis| axis.values.len()).product::<usize>() * self.rules.len().max(1)
    }
}
