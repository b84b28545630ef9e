//! `railproof correct`: what to add to the starts of a rule for the ball and the table.

use super::asked_balls::{AskedBallsArgs, waiting};
use super::budget::BudgetFlags;
use super::flags::word;
use super::interrupt;
use super::output::{pictures_written, print, to_json, write_both};
use super::slope_flags::SlopeArgs;
use crate::answer::CorrectedAnswer;
use crate::discover_picture::corrected_picture;
use crate::discovering::CorrectedFindings;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::make_folder;
use crate::telling::corrected_sentences;
use railproof_engine::rail::Reading;
use railproof_engine::rule::NamedRule;
use std::path::PathBuf;

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
    /// Folder for a picture of the tables' rows against balls made, as SVG and as PNG.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Searches, and tells what was found.
///
/// # Errors
/// A [`Fault`] for a flag, the player, the table, or a picture that can't be written.
pub fn run(args: &CorrectArgs) -> Result<Exit, Fault> {
    let asked = args.asked.asked()?;
    let rule = args.rule.rule(word::<Reading>("--reading", &args.reading)?)?;
    if let Some(folder) = &args.into {
        make_folder(folder)?;
    }
    interrupt::ends();
    let waiting = waiting("corrections", &asked);
    let found = CorrectedFindings::of(asked, NamedRule::from(rule), |error| {
        Fault::bad_input(error.to_string())
    });
    waiting.finish_and_clear();
    let found = found?;
    let mut pictures = Vec::new();
    if let Some(folder) = &args.into {
        let picture = corrected_picture(&found);
        pictures = write_both(folder, "corrections", picture.to_svg(), picture.to_png())?;
    }
    let text = if args.json {
        to_json(&CorrectedAnswer::new(&found))?
    } else {
        let cautions: String =
            found.asked.cautions().lines().into_iter().map(|line| line + "\n").collect();
        corrected_sentences(&found) + &cautions + &pictures_written(&pictures)
    };
    print(&text)?;
    Ok(Exit::Held)
}
