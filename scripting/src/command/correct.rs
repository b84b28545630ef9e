//! `railproof correct`: what to add to the starts of a rule for the ball and the table.

use super::asked_balls::{AskedBallsArgs, waiting};
use super::budget::BudgetFlags;
use super::flags::word;
use super::interrupt;
use super::output::{print, to_json};
use super::slope_flags::SlopeArgs;
use crate::answer::CorrectedAnswer;
use crate::discovering::CorrectedFindings;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::telling::corrected_sentences;
use railproof_engine::rail::Reading;
use railproof_engine::rule::NamedRule;

/// Say what to add to a rule's starts, or take off them, for the distance off the rail, the speed, the roll, the side and
/// the table, as a small table to remember.
#[derive(Debug, Clone, clap::Args)]
pub struct CorrectArgs {
    /// The rule's numbers.
    #[command(flatten)]
    pub rule: SlopeArgs,
    /// The line at which the rule's numbers are read: groove, across the grooves, or sight, through the diamonds.
    #[arg(long, value_name = "READING", default_value = "groove")]
    pub reading: String,
    /// The balls, the table and the player.
    #[command(flatten)]
    pub asked: AskedBallsArgs,
    /// Answer with JSON for other programs.
    #[arg(long)]
    pub json: bool,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Searches, and tells what was found.
///
/// # Errors
/// A [`Fault`] for a flag, the player or the table.
pub fn run(args: &CorrectArgs) -> Result<Exit, Fault> {
    let asked = args.asked.asked()?;
    let rule = args.rule.rule(word::<Reading>("--reading", &args.reading)?)?;
    interrupt::ends();
    let waiting = waiting("corrections", &asked);
    let found = CorrectedFindings::of(asked, NamedRule::from(rule), |error| {
        Fault::bad_input(error.to_string())
    });
    waiting.finish_and_clear();
    let found = found?;
    let text = if args.json {
        to_json(&CorrectedAnswer::new(&found))?
    } else {
        corrected_sentences(&found)
    };
    print(&text)?;
    Ok(Exit::Held)
}
