//! The numbers of some rules side by side, ready to be asked for lines together.

use super::HeadRule;
use crate::rail::Reading;

/// Rules that share their turn at each ball's sheet.
pub(super) const BLOCK: usize = 64;

/// One number of every rule.
pub(super) type OfRules = [f64; BLOCK];

/// The numbers of up to [`BLOCK`] rules, each kind in a row: what is the same for all is worked out for several
/// rules at once.
#[derive(Debug, Clone)]
pub(super) struct RuleBlock {
    pub(super) rules: usize,
    /// Whether the rule is read through the sights.
    pub(super) sights: [bool; BLOCK],
    pub(super) slope: OfRules,
    /// Tenths of a diamond.
    pub(super) offset: OfRules,
    /// The contact past which the second slope holds; infinite without a bend.
    pub(super) bend: OfRules,
    pub(super) second: OfRules,
}

impl RuleBlock {
    /// Of at most [`BLOCK`] rules.
    pub(super) fn of(rules: &[HeadRule]) -> Self {
        let none = [0.0; BLOCK];
        let mut block = Self {
            rules: rules.len().min(BLOCK),
            sights: [false; BLOCK],
            slope: none,
            offset: none,
            bend: none,
            second: none,
        };
        for (at, rule) in rules.iter().enumerate().take(BLOCK) {
            block.sights[at] = rule.reading == Reading::Sight;
            block.slope[at] = rule.slope.value();
            block.offset[at] = f64::from(rule.offset);
            block.bend[at] = rule.bend.map_or(f64::INFINITY, |bend| 0.5 * f64::from(bend.at));
            block.second[at] = rule.bend.map_or(block.slope[at], |bend| bend.slope.value());
        }
        block
    }
}
