//! `railproof track`: a bank off a phone's film.

use super::output::{print, to_json};
use crate::answer::TrackAnswer;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::measured::{read_track, track_template};
use crate::profile::find_profile;
use crate::telling::track_sentences;

use std::path::{Path, PathBuf};

/// Say how a filmed ball moved before and after the rail.
#[derive(Debug, Clone, clap::Args)]
pub struct TrackArgs {
    /// The film: a CSV file with a block of marks and a block of the ball's places.
    #[arg(value_name = "FILE", required_unless_present = "template")]
    pub film: Option<PathBuf>,
    /// The table: a shipped profile's name, or a profile's path.
    #[arg(long, visible_alias = "on", value_name = "NAME|FILE", default_value = "nine-foot")]
    pub equipment: String,
    /// Print the answer as JSON, in SI units.
    #[arg(long, conflicts_with = "template")]
    pub json: bool,
    /// Print a file to write a film into, with the table's corners, and do nothing else.
    #[arg(long, conflicts_with = "film")]
    pub template: bool,
}

/// Reads the film and tells the bank.
///
/// # Errors
/// A [`Fault`] for the flag, the film or the profile.
pub fn run(args: &TrackArgs) -> Result<Exit, Fault> {
    let table = find_profile(&args.equipment, Path::new(""))?;
    let Some(path) = &args.film else {
        print(&track_template(&table))?;
        return Ok(Exit::Held);
    };
    let bank = read_track(path)?.bank(&table)?;
    let text = if args.json {
        to_json(&TrackAnswer::from(&bank))?
    } else {
        track_sentences(&bank, &table)
    };
    print(&text)?;
    Ok(Exit::Held)
}
