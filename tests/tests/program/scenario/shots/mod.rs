//! Whole shots in scenarios: what the words answer, and what they record.

mod answers;
mod cue_room;
mod expectations;
mod pictures;
mod sweeps;

/// A table, a rule and a bank shot to begin with, on one line.
const BANK: &str = "local hall = equipment 'nine-foot'; local ratio = rule.linear { slope = 2.2 }; \
                    local function bank(t) t = t or {}; return bank_shot { equipment = hall, contact = t.contact or 2.5, \
                    rule = ratio, off_rail = t.off_rail or inches(6), cue_distance = t.distance or inches(14), \
                    cut = t.cut } end\n";

/// The lines that a scenario after [`BANK`] printed.
#[track_caller]
fn printed(script: &str) -> Vec<String> {
    super::printed(&format!("{BANK}{script}"))
}

/// Numbers that a scenario printed, one to a line.
#[track_caller]
fn numbers(script: &str) -> Vec<f64> {
    let lines = printed(script);
    lines
        .iter()
        .map(|line| line.parse().unwrap_or_else(|_| panic!("{line} in {lines:?}")))
        .collect()
}
