//! `railproof fit`: a table's ensemble from measured banks.

use super::budget::BudgetFlags;
use super::fit_progress::FitProgress;
use super::flags::in_flag;
use super::output::{command_word, print, write_both};
use crate::called;
use crate::exit::Exit;
use crate::fault::{Fault, tame};
use crate::fields::{WrittenText, place_among, words};
use crate::files::{apart_from, make_folder, write_whole};
use crate::fit_picture::fit_pictures;
use crate::fitting::{
    FEWEST_MEMBERS, FitFindings, FitQuestion, NextBanks, NextPurpose, TwoCushions, rail_models,
    table_text,
};
use crate::measured::{parse_bank, read_films, read_measurements, rows_of_plan, template};
use crate::profile::{find_partial, find_profile, in_inches, profile_text};
use crate::telling::{
    AskedUnits, count, fit_sentences, missed_sentences, rail_model_sentences, slope_step,
};

use railproof_engine::ensemble::Ensemble;
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::narrow::NarrowSettings;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// Say what measured banks tell about a table, and what to measure next.
#[derive(Debug, Clone, clap::Args)]
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of its own")]
pub struct FitArgs {
    /// The measured banks: a CSV file.
    #[arg(value_name = "FILE", required_unless_present_any = ["template", "films"])]
    pub measurements: Option<PathBuf>,
    /// Filmed banks beside the measured ones or instead of them: the file that `track --measure` writes.
    #[arg(long, value_name = "FILE")]
    pub films: Option<PathBuf>,
    /// The table's sizes: a shipped profile's name, or a profile's path.
    #[arg(long, visible_alias = "on", value_name = "NAME|FILE", default_value = "nine-foot")]
    pub equipment: String,
    /// The rail model: nose-and-cloth, nose-only or planar. Without it, the cushion's.
    #[arg(long, value_name = "MODEL")]
    pub rail_model: Option<String>,
    /// How many tables that yours could be are kept: the members of the ensemble.
    #[arg(long, value_name = "COUNT", default_value_t = NarrowSettings::SHIPPED.members)]
    pub members: usize,
    /// The seed: which of the many such samples is drawn.
    #[arg(long, value_name = "NUMBER", default_value_t = NarrowSettings::SHIPPED.seed)]
    pub seed: u64,
    /// Say why the bank on this line of the file missed, as far as the other banks can tell.
    #[arg(long, value_name = "LINE")]
    pub why: Option<usize>,
    /// Plan the next banks to settle where one bank comes to: contact, start, distance off the rail, speed and, if it
    /// is not foot-right, the pocket, such as "2, 4.4, 12 in, 3 m/s". Without it they are planned for the rule's slope
    /// and for balls from off the rail.
    #[arg(long, value_name = "BANK", conflicts_with = "why")]
    pub settle: Option<String>,
    /// Plan the next banks to tell two cushions apart: shipped ones' names, or paths.
    #[arg(long, num_args = 2, value_names = ["CUSHION", "CUSHION"], conflicts_with_all = ["why", "settle"])]
    pub tell_apart: Option<Vec<String>>,
    /// Hold the banks to every rail model instead, and say which they speak for.
    #[arg(long, conflicts_with_all = ["why", "into", "rail_model", "settle", "tell_apart"])]
    pub compare_rail_models: bool,
    /// Folder for the table's file, table.json, the profile of its middle, profile.yaml, pictures of what the banks
    /// tell, and the next banks: a sheet to print, next.svg, and rows to fill in, next.csv.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Tell as well which numbers are known together only, and the size of the sample that all are read from.
    #[arg(long, conflicts_with_all = ["why", "compare_rail_models"])]
    pub full: bool,
    /// Show no progress.
    #[arg(long, short)]
    pub quiet: bool,
    /// Print a file to write your banks into, and do nothing else.
    #[arg(long, conflicts_with_all = ["measurements", "films", "into"])]
    pub template: bool,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Fits, tells what was found, and writes the table's file.
///
/// # Errors
/// A [`Fault`] for a flag, the measurements, the profile, or a file that can't be written.
pub fn run(args: &FitArgs) -> Result<Exit, Fault> {
    if args.template {
        print(&template())?;
        return Ok(Exit::Held);
    }
    let question = question(args)?;
    let purpose = purpose(args, &question)?;
    if let Some(folder) = &args.into {
        let read = || args.measurements.iter().chain(&args.films).map(PathBuf::as_path);
        for name in [TABLE, NEXT] {
            apart_from(&folder.join(name), read())?;
        }
        apart_from(&folder.join(PROFILE), read().chain([Path::new(&args.equipment)]))?;
    }
    let no_banks = |error| Fault::bad_input(format!("this table has no such banks: {error}"));
    if args.compare_rail_models {
        let fits = rail_models(&question).map_err(no_banks)?;
        print(&rail_model_sentences(&question, &fits))?;
        return Ok(Exit::Held);
    }
    let progress = FitProgress::start(args.quiet);
    let found = FitFindings::watched(&question, &|stage, power| progress.stage(stage, power));
    progress.end();
    let mut found = found.map_err(no_banks)?;
    if let Some(purpose) = purpose {
        found.told.next = NextBanks::of(&found.known, purpose).map_err(no_banks)?;
    }
    let mut text = match args.why {
        Some(line) => {
            let missed =
                found.why_missed(line).ok_or_else(|| found.no_bank_at(line))?.map_err(no_banks)?;
            missed_sentences(
                &question.table,
                &missed,
                AskedUnits::of_scenario(found.known.in_inches),
            )
        }
        None => fit_sentences(&question, &found, args.full),
    };
    if let Some(folder) = &args.into {
        text += &written(&question, &found, folder)?;
    }
    if args.why.is_none() {
        text += &next_step(&found, args.into.as_deref());
    }
    print(&text)?;
    Ok(Exit::Held)
}

/// What to do with a fit: lines to paste.
fn next_step(found: &FitFindings, folder: Option<&Path>) -> String {
    let mut text = slope_step(found);
    if let Some(folder) = folder {
        let table = command_word(&tame(&folder.join(TABLE).display().to_string()));
        let _ = writeln!(
            text,
            "and ask how sure a bank is: {} --table {table} --contact 2 --off-rail \"10 in\" --speed medium",
            called::command("bank")
        );
    }
    text
}

const TABLE: &str = "table.json";
const PROFILE: &str = "profile.yaml";
const NEXT: &str = "next.csv";

/// Writes all files of a fit and says so.
fn written(question: &FitQuestion, found: &FitFindings, folder: &Path) -> Result<String, Fault> {
    make_folder(folder)?;
    let next = found.told.next.banks.iter().map(|(set_up, _)| set_up);
    let mut text = String::new();
    for (what, name, file) in [
        (
            "table",
            TABLE,
            table_text(&found.known, &(question.measurements.text.clone() + &question.films.text))?,
        ),
        ("its middle as a profile", PROFILE, middle_profile(found)),
        ("rows for the next banks", NEXT, rows_of_plan(next)),
    ] {
        let path = folder.join(name);
        write_whole(&path, |out| out.write_all(file.as_bytes()))?;
        let _ = writeln!(text, "{what} written: {}", tame(&path.display().to_string()));
    }
    for path in draw(found, folder)? {
        let _ = writeln!(text, "picture written: {}", tame(&path.display().to_string()));
    }
    Ok(text)
}

/// The purpose of the next banks, where it isn't the usual one.
fn purpose(args: &FitArgs, question: &FitQuestion) -> Result<Option<NextPurpose>, Fault> {
    if let Some(text) = &args.settle {
        return Ok(Some(NextPurpose::Settle(parse_bank(text, "--settle", &question.table)?)));
    }
    let Some([one, other]) = args.tell_apart.as_deref() else { return Ok(None) };
    let table = |name: &str| -> Result<Equipment, Fault> {
        find_partial(name, Path::new(""))?.over(&question.table)
    };
    let named = |fault| in_flag("--tell-apart", fault);
    let tables = [table(one).map_err(named)?, table(other).map_err(named)?];
    let cushions = TwoCushions::new(tables, [one.clone(), other.clone()]).map_err(named)?;
    Ok(Some(NextPurpose::TellApart(Box::new(cushions))))
}

/// Writes every picture of the fit as SVG and as PNG.
fn draw(found: &FitFindings, folder: &Path) -> Result<Vec<PathBuf>, Fault> {
    let mut written = Vec::new();
    for (name, picture) in fit_pictures(found) {
        written.extend(write_both(folder, name, picture.to_svg(), picture.to_png())?);
    }
    Ok(written)
}

/// The profile of the middle one of the tables: it answers everything that takes a profile, without how sure it is.
fn middle_profile(found: &FitFindings) -> String {
    let banks = count(found.known.banks() as u64, "bank allows", "banks allow");
    let about = format!(
        "The middle one of {} tables that {banks}. Numbers that the banks don't determine are in it too.",
        found.known.ensemble.len()
    );
    profile_text(&found.known.middle(), &found.known.name(), &about, found.known.in_inches)
}

fn question(args: &FitArgs) -> Result<FitQuestion, Fault> {
    let table = find_profile(&args.equipment, Path::new(""))
        .map_err(|fault| in_flag("--equipment", fault))?;
    let model = match &args.rail_model {
        Some(text) => place_among(&WrittenText(text.trim()), &words::<RailModel>())
            .map(|at| RailModel::ALL[at])
            .map_err(|mismatch| Fault::bad_input(mismatch.about("--rail-model")))?,
        None => table.cushion.rail_model,
    };
    if model == RailModel::Compliant {
        return Err(Fault::bad_input("`--rail-model`: a stepped model is too slow for a fit")
            .with_hint("nose-and-cloth, nose-only or planar"));
    }
    if !(FEWEST_MEMBERS..=Ensemble::MOST).contains(&args.members) {
        return Err(Fault::bad_input(format!(
            "`--members` is {}; it must be from {FEWEST_MEMBERS} to {}",
            args.members,
            Ensemble::MOST
        )));
    }
    let read = |path: &PathBuf| read_measurements(path, &table);
    let measurements = args.measurements.as_ref().map(read).transpose()?.unwrap_or_default();
    let films = args.films.as_deref().map(read_films).transpose()?.unwrap_or_default();
    let settings =
        NarrowSettings { members: args.members, seed: args.seed, ..NarrowSettings::SHIPPED };
    let in_inches = in_inches(&args.equipment, Path::new("")).unwrap_or(false);
    Ok(FitQuestion { table, in_inches, model, measurements, films, settings })
}
