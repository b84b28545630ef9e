//! `railproof player`: a person's spreads by banks that they sent again and again.

use super::budget::BudgetFlags;
use super::flags::in_flag;
use super::interrupt;
use super::output::print;
use crate::called;
use crate::exit::Exit;
use crate::fault::{Fault, tame};
use crate::files::{apart_from, write_whole};
use crate::fitting::{MeasuredTable, OwnPlayer, read_table};
use crate::measured::read_measurements;
use crate::player::{USUAL_PLAYER, find_player, player_text};
use crate::profile::find_profile;
use crate::telling::{own_player_about, own_player_sentences};
use railproof_engine::equipment::RailModel;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// Say how far your shots fall from what you meant, by banks that you sent again and again, and write it as a player's
/// file.
#[derive(Debug, Clone, clap::Args)]
pub struct PlayerArgs {
    /// The banks: a CSV file as `fit` takes it, in which each line stands a dozen times, with the tip on the ball.
    #[arg(value_name = "FILE")]
    pub measurements: PathBuf,
    /// The table's sizes: a shipped profile's name, or a profile's path.
    #[arg(long, visible_alias = "on", value_name = "NAME|FILE", default_value = "nine-foot")]
    pub equipment: String,
    /// The table measured by `fit` instead: its table.json. Without it the spreads are told over all tables of these sizes.
    #[arg(long, value_name = "FILE", conflicts_with = "equipment")]
    pub table: Option<PathBuf>,
    /// The player whom you are like in all that the banks don't tell: steady, club or beginner, or a player's path.
    #[arg(long, value_name = "NAME|FILE", default_value = USUAL_PLAYER)]
    pub like: String,
    /// What to call you.
    #[arg(long, value_name = "NAME")]
    pub name: Option<String>,
    /// Write the player to this file, which `--player` takes.
    #[arg(long, value_name = "PLAYER.yaml")]
    pub out: Option<PathBuf>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Fits, tells what was found, and writes the player's file.
///
/// # Errors
/// A [`Fault`] for the banks, the table, the player, or a file that can't be written.
pub fn run(args: &PlayerArgs) -> Result<Exit, Fault> {
    let here = Path::new("");
    let known = match &args.table {
        Some(path) => read_table(path).map_err(|fault| in_flag("--table", fault))?,
        None => {
            let named = |fault| in_flag("--equipment", fault);
            MeasuredTable::wide(&find_profile(&args.equipment, here).map_err(named)?, false)
        }
    };
    if known.model == RailModel::Compliant {
        return Err(Fault::bad_input("`--equipment`: a stepped rail model is too slow here"));
    }
    let like = find_player(&args.like, here).map_err(|fault| in_flag("--like", fault))?;
    let measurements = read_measurements(&args.measurements, &known.table)?;
    if let Some(path) = &args.out {
        let read = [args.measurements.as_path(), Path::new(&args.like), Path::new(&args.equipment)];
        apart_from(path, read)?;
    }
    interrupt::ends();
    let name = args.name.clone().unwrap_or_else(|| format!("a player like {}", like.name));
    let found = OwnPlayer::of(&known, &measurements, like, name)?;
    let mut text = own_player_sentences(&found);
    if let Some(path) = &args.out {
        let file = player_text(&found.player, &own_player_about(&found));
        write_whole(path, |out| out.write_all(file.as_bytes()))?;
        let shown = tame(&path.display().to_string());
        let _ = writeln!(
            text,
            "player written: {shown} (`{}` takes it, and so do `bank` and `shot`)",
            called::command("discover --player FILE")
        );
    }
    print(&text)?;
    Ok(Exit::Held)
}
