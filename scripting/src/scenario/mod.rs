//! The Lua words with which a scenario sweeps, compares, draws and expects; running one
//! fills a [`Record`](crate::record::Record).
//!
//! The engine decides the course of a bank, and [`crate::picture`] the look of a picture; nothing here
//! writes a file.

mod axis_text;
mod bank;
mod chance;
mod compare;
mod draw;
mod ensemble;
mod equipment;
mod expect;
mod first_place;
mod fitted;
mod frontier;
mod grid;
mod inputs;
mod kept_values;
mod left_out;
mod line;
mod map;
mod map_object;
mod measured_table;
mod measures;
mod members;
mod mended_names;
mod missed;
mod missing_inputs;
mod outcome;
mod page;
mod page_bank;
mod plan;
mod point_selection;
mod range;
mod ranked_rules;
mod ranking;
mod results;
mod rule_answers;
mod rule_object;
mod rule_ways;
mod rules;
mod run;
mod run_options;
mod sample;
mod selection;
mod session;
#[cfg(test)]
mod shipped_pictures;
mod shots;
mod starts;
mod table_checks;
mod titles;
mod undrawn;
mod unfinished;
mod value_choice;
mod why;

pub(crate) use shots::BANK_SHOT;
pub use shots::FunctionShots;

pub use run::{plan_of_scenario, remarked_plan, run_scenario};
pub use run_options::{Progress, RunOptions, Silent};
pub use unfinished::Unfinished;
