//! `railproof track`: a bank off a phone's film.

use super::budget::BudgetFlags;
use super::flags::number;
use super::output::{print, to_json};
use crate::answer::TrackAnswer;
use crate::called;
use crate::exit::Exit;
use crate::fault::{Fault, tame};
use crate::files::apart_from;
use crate::measured::{add_film, read_track, track_template};
use crate::profile::find_profile;
use crate::telling::track_sentences;
use railproof_engine::equipment::Parameter;
use railproof_engine::track::{Lens, LensKnown, PictureSize};
use railproof_engine::units::Dimension;

use std::fmt::Write as _;
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
    /// Undo a lens that bends straight lines: find takes the bend from six marks or more; a number is its coefficient k1,
    /// by which a point's distance from the picture's middle grows, times the square of it over half the diagonal.
    #[arg(
        long,
        value_name = "find|K1",
        allow_hyphen_values = true,
        requires = "picture",
        conflicts_with = "template"
    )]
    pub lens: Option<String>,
    /// The size of the picture in pixels, such as 1920x1080, for --lens.
    #[arg(long, value_name = "WIDTHxHEIGHT", requires = "lens")]
    pub picture: Option<String>,
    /// Add the bank to a file of filmed banks, which is made where there is none, for `fit --films`. A film of the same
    /// name has its row replaced.
    #[arg(long, value_name = "FILE", conflicts_with = "template")]
    pub measure: Option<PathBuf>,
    /// Print the answer as JSON, in SI units.
    #[arg(long, conflicts_with = "template")]
    pub json: bool,
    /// Print a file to write a film into, with the table's corners, and do nothing else.
    #[arg(long, conflicts_with = "film")]
    pub template: bool,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
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
    let lens = lens(args)?;
    let bank = read_track(path)?.bank(&table, lens)?;
    let mut text = if args.json {
        to_json(&TrackAnswer::from(&bank))?
    } else {
        track_sentences(&bank, &table)
    };
    if let Some(rows) = &args.measure {
        apart_from(rows, [path.as_path()])?;
        let name = path.file_stem().unwrap_or_default().to_string_lossy();
        add_film(rows, &name, &bank.impact)?;
        if !args.json {
            let _ = writeln!(
                text,
                "row written: {} (`{}` takes it)",
                tame(&rows.display().to_string()),
                called::command("fit --films FILE")
            );
        }
    }
    print(&text)?;
    Ok(Exit::Held)
}

const K1: Parameter = Parameter::new("lens", Dimension::Ratio, -Lens::MOST_K1, Lens::MOST_K1, "");
/// Pixels of a picture's side.
const SIDE: Parameter = Parameter::new("picture", Dimension::Ratio, 16.0, 100_000.0, "");

/// The lens of the film.
fn lens(args: &TrackArgs) -> Result<LensKnown, Fault> {
    let (Some(lens), Some(picture)) = (&args.lens, &args.picture) else {
        return Ok(LensKnown::Straight);
    };
    let Some((width, height)) = picture.split_once(['x', 'X', '×']) else {
        return Err(Fault::bad_input(format!(
            "`--picture` takes two numbers of pixels, not `{picture}`"
        ))
        .with_hint("write it like 1920x1080"));
    };
    let side = |text: &str| number("--picture", text.trim(), Some(SIDE));
    let picture = PictureSize { width: side(width)?, height: side(height)? };
    if lens.trim() == "find" {
        return Ok(LensKnown::Found(picture));
    }
    let k1 = number("--lens", lens, Some(K1)).map_err(|fault| {
        fault.with_hint("`find` takes it from the marks; a number is k1, such as -0.05")
    })?;
    Lens::new(picture, k1)
        .map(LensKnown::Given)
        .ok_or_else(|| Fault::bad_input(format!("`--lens` can't be {k1}")))
}
