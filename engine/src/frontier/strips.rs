//! Strips: stretches of neighbouring lines that hang together.

use super::line::HoldingStretch;
use super::sheet::{SheetLine, overlap};

/// Stretches of successive lines, each next to one and only one of the next line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Chain {
    /// Which part of the holding region it belongs to; parts are not connected, counted from 0.
    pub part: usize,
    /// The first line, as an index.
    pub first_line: usize,
    /// The stretch on it and on each line after it, as indices.
    pub stretches: Vec<usize>,
}

/// Follows the stretches from line to line.
pub(super) fn chains<T>(lines: &[SheetLine<T>]) -> Vec<Chain> {
    let mut chains: Vec<Chain> = Vec::new();
    // The chain of each stretch of the line before.
    let mut before: Vec<usize> = Vec::new();
    let mut parts = Parts::default();
    for (at, line) in lines.iter().enumerate() {
        let earlier: &[HoldingStretch<T>] =
            at.checked_sub(1).map_or(&[], |at| &lines[at].stretches);
        let beside = |a: usize, b: usize| overlap(&earlier[a], &line.stretches[b]);
        let mut here = Vec::with_capacity(line.stretches.len());
        for b in 0..line.stretches.len() {
            let left: Vec<usize> = (0..earlier.len()).filter(|a| beside(*a, b)).collect();
            let alone = |a: usize| (0..line.stretches.len()).filter(|b| beside(a, *b)).count() == 1;
            let chain = match left.as_slice() {
                [only] if alone(*only) => {
                    let chain = before[*only];
                    chains[chain].stretches.push(b);
                    chain
                }
                _ => {
                    let part = parts.fresh();
                    chains.push(Chain { part, first_line: at, stretches: vec![b] });
                    chains.len() - 1
                }
            };
            for a in left {
                parts.join(chains[before[a]].part, chains[chain].part);
            }
            here.push(chain);
        }
        before = here;
    }
    let mut known: Vec<usize> = Vec::new();
    for chain in &mut chains {
        let root = parts.root(chain.part);
        chain.part = known.iter().position(|other| *other == root).unwrap_or_else(|| {
            known.push(root);
            known.len() - 1
        });
    }
    chains
}

/// Which provisional parts turned out to be one.
#[derive(Debug, Default)]
struct Parts(Vec<usize>);

impl Parts {
    fn fresh(&mut self) -> usize {
        self.0.push(self.0.len());
        self.0.len() - 1
    }

    fn root(&self, mut part: usize) -> usize {
        while self.0[part] != part {
            part = self.0[part];
        }
        part
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.0[a.max(b)] = a.min(b);
    }
}
