//! `railproof discover`: the rule that makes most balls for what it asks of a head.

use super::asked_balls::{AskedBallsArgs, waiting};
use super::budget::BudgetFlags;
use super::flags::number;
use super::interrupt;
use super::output::{pictures_written, print, rows_written, to_json, write_both};
use crate::answer::{DiscoveredAnswer, front_table};
use crate::discover_picture::front_picture;
use crate::discovering::{DiscoverQuestion, Discovered};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::{make_folder, write_whole};
use crate::telling::discovered_sentences;
use railproof_engine::discover::{EffortWeights, Grammar};
use railproof_engine::equipment::Parameter;
use railproof_engine::units::Dimension;
use std::path::PathBuf;

/// Search the rules that you can work out in your head for those that make the most balls for their effort.
#[derive(Debug, Clone, clap::Args)]
pub struct DiscoverArgs {
    /// The balls, the table and the player.
    #[command(flatten)]
    pub asked: AskedBallsArgs,
    /// Leave out rules with a bend.
    #[arg(long)]
    pub straight: bool,
    /// Leave out rules with corrections for the ball.
    #[arg(long)]
    pub no_corrections: bool,
    /// What a step of working out costs.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "1")]
    pub step_cost: String,
    /// What a number to remember costs.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "1")]
    pub number_cost: String,
    /// Answer with JSON for other programs.
    #[arg(long)]
    pub json: bool,
    /// Folder for the picture of effort against balls made, as SVG and as PNG, and for the list as CSV.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

const COST: Parameter = Parameter::new("cost", Dimension::Ratio, 0.01, 100.0, "");

/// Searches, and tells what was found.
///
/// # Errors
/// A [`Fault`] for a flag, the player, the table, or a picture that can't be written.
pub fn run(args: &DiscoverArgs) -> Result<Exit, Fault> {
    let question = question(args)?;
    if let Some(folder) = &args.into {
        make_folder(folder)?;
    }
    interrupt::ends();
    let waiting = waiting("rules", &question.asked);
    let found = Discovered::of(&question);
    waiting.finish_and_clear();
    let found = found?;
    let (mut pictures, mut rows) = (Vec::new(), String::new());
    if let Some(folder) = &args.into {
        let picture = front_picture(&question, &found);
        pictures = write_both(folder, "front", picture.to_svg(), picture.to_png())?;
        let path = folder.join("front.csv");
        write_whole(&path, |out| front_table(&found, "front".to_owned()).write_csv(out))?;
        rows = rows_written(&path);
    }
    let text = if args.json {
        to_json(&DiscoveredAnswer::new(&question, &found))?
    } else {
        let cautions: String =
            question.asked.cautions().lines().into_iter().map(|line| line + "\n").collect();
        discovered_sentences(&question, &found) + &cautions + &pictures_written(&pictures) + &rows
    };
    print(&text)?;
    Ok(Exit::Held)
}

fn question(args: &DiscoverArgs) -> Result<DiscoverQuestion, Fault> {
    let asked = args.asked.asked()?;
    let mut grammar = Grammar::usual();
    if args.straight {
        grammar.bends.clear();
    }
    if args.no_corrections {
        grammar = grammar.without_corrections();
    }
    Ok(DiscoverQuestion {
        asked,
        grammar,
        weights: EffortWeights {
            operation: number("--step-cost", &args.step_cost, Some(COST))?,
            number: number("--number-cost", &args.number_cost, Some(COST))?,
        },
    })
}
