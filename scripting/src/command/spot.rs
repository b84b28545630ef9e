//! `railproof spot`: the point behind the rail at which every frozen ball may be aimed.

use super::budget::BudgetFlags;
use super::flags::{in_flag, number, quantity, word};
use super::output::{pictures_written, print, to_json, write_both};
use super::walled::{files_to_read, named};
use crate::answer::SpotAnswer;
use crate::discover_picture::spot_picture;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::make_folder;
use crate::fitting::read_table;
use crate::playing::SpotQuestion;
use crate::profile::{find_profile, in_inches};
use crate::telling::{AskedUnits, spot_sentence};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{PocketChoice, RailChoice};
use railproof_engine::sweep::Input;
use std::path::{Path, PathBuf};

/// Say where behind the rail to stand a marker at which every frozen ball may be aimed, and how well that serves.
#[derive(Debug, Clone, clap::Args)]
pub struct SpotArgs {
    /// The table: a shipped profile's name, or a profile's path.
    #[arg(long, visible_alias = "on", value_name = "NAME|FILE", default_value = "nine-foot")]
    pub equipment: String,
    /// A measured table instead: the table.json that `railproof fit` wrote.
    #[arg(long, value_name = "FILE", conflicts_with = "equipment")]
    pub table: Option<PathBuf>,
    /// The rail banked off: long, end, head, foot, left or right.
    #[arg(long, value_name = "RAIL", default_value = "long")]
    pub rail: String,
    /// The target: corner, side, or a pocket by name, such as foot-left.
    #[arg(long, value_name = "POCKET", default_value = "corner")]
    pub pocket: String,
    /// The speed of the balls.
    #[arg(long, value_name = "SPEED", allow_hyphen_values = true, default_value = "4 m/s")]
    pub speed: String,
    /// The contact numbers of the balls, in diamonds, such as 1.5,2,3.
    #[arg(long, value_name = "NUMBERS", value_delimiter = ',', allow_hyphen_values = true)]
    pub contacts: Vec<String>,
    /// Let the spot stand aside of the pocket's zero line.
    #[arg(long)]
    pub aside: bool,
    /// Answer with JSON for other programs.
    #[arg(long)]
    pub json: bool,
    /// Folder for a picture of the lines, as SVG and as PNG.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

impl SpotArgs {
    /// The files that may be read for it.
    pub(super) fn reads(&self) -> Vec<PathBuf> {
        let names = named([Some(self.equipment.as_str())]);
        [names, files_to_read([self.table.as_deref()])].concat()
    }
}

/// Fits the spot, and tells it.
///
/// # Errors
/// A [`Fault`] for a flag, the table, or a picture that can't be written.
pub fn run(args: &SpotArgs) -> Result<Exit, Fault> {
    let known = args.table.as_deref().map(read_table).transpose();
    let known = known.map_err(|fault| in_flag("--table", fault))?;
    let table = match &known {
        Some(known) => known.middle(),
        None => find_profile(&args.equipment, Path::new(""))
            .map_err(|fault| in_flag("--equipment", fault))?,
    };
    let model = known.as_ref().map_or(table.cushion.rail_model, |known| known.model);
    if model == RailModel::Compliant {
        return Err(Fault::bad_input("a stepped rail model is too slow for a spot")
            .with_hint("take a table with another rail model"));
    }
    let pocket = word::<PocketChoice>("--pocket", &args.pocket)?;
    let rail = word::<RailChoice>("--rail", &args.rail)?.facing(pocket);
    let contacts: Vec<f64> = args
        .contacts
        .iter()
        .map(|text| number("--contacts", text, Input::Contact.parameter()))
        .collect::<Result<_, _>>()?;
    let contacts = if contacts.is_empty() { SpotQuestion::CONTACTS.to_vec() } else { contacts };
    let speed = Input::Speed.parameter().ok_or_else(|| Fault::bad_input("no speed"))?;
    let question = SpotQuestion {
        known: known.as_ref(),
        model,
        rail,
        pocket: pocket.across_from(rail),
        speed_m_s: quantity("--speed", &args.speed, speed)?,
        contacts,
        aside: args.aside,
        table,
    };
    let table_in_inches = match &known {
        Some(known) => known.in_inches,
        None => in_inches(&args.equipment, Path::new("")) == Some(true),
    };
    let units = AskedUnits::of_scenario(table_in_inches);
    let found = question.answer().map_err(Fault::bad_input)?;
    let mut pictures = Vec::new();
    if let Some(folder) = &args.into {
        make_folder(folder)?;
        let picture = spot_picture(&found, units);
        pictures = write_both(folder, "spot", picture.to_svg(), picture.to_png())?;
    }
    let text = if args.json {
        to_json(&SpotAnswer::new(&found))?
    } else {
        let mut lines = vec![spot_sentence(&found, units)];
        lines.extend(found.cautions().lines());
        format!("{}\n{}", lines.join("\n"), pictures_written(&pictures))
    };
    print(&text)?;
    Ok(Exit::Held)
}
