//! `railproof new`: a folder to begin with, of a table, two scenarios and a layout with notes.

use super::output::{command_word, print};
use crate::called;
use crate::exit::Exit;
use crate::fault::{Fault, tame};
use crate::files::{make_folder, write_whole};
use crate::profile::{OWN_TABLE, shipped_names, shipped_text};
use crate::renamed;
use railproof_engine::equipment::Section;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

/// The folder's scenarios and its layout.
const SCENARIO: (&str, &str) = ("mine.lua", include_str!("../../assets/starter/mine.lua"));
const LESSON: (&str, &str) = ("lesson.lua", include_str!("../../assets/starter/lesson.lua"));
const LAYOUT: (&str, &str) = ("shot.yaml", include_str!("../../assets/starter/shot.yaml"));

/// Begin a folder of your own: a scenario, a page for a lesson, a layout and a table, with notes in them.
#[derive(Debug, clap::Args)]
pub struct NewArgs {
    /// The folder; none of its files is written over.
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
    /// The shipped table to begin with.
    #[arg(long, visible_alias = "on", value_name = "NAME", default_value = "nine-foot")]
    pub equipment: String,
}

/// Writes the files and says what to do next.
///
/// # Errors
/// A [`Fault`] for a table that is not shipped, a file that is there already, or a folder that can't be
/// written.
pub fn run(args: &NewArgs) -> Result<Exit, Fault> {
    // A cushion alone is no table.
    let names = || shipped_names().filter(|name| !name.contains('/'));
    let known = names().find(|name| *name == args.equipment);
    let table = known.and_then(shipped_text).ok_or_else(|| {
        let hint = renamed::hint_or_all(&args.equipment, names(), "the tables are");
        Fault::bad_input(format!("there is no shipped table `{}`", tame(&args.equipment)))
            .with_hint(hint)
    })?;
    let files = [
        (OWN_TABLE, own(table)),
        (SCENARIO.0, SCENARIO.1.into()),
        (LESSON.0, LESSON.1.into()),
        (LAYOUT.0, layout()),
    ];
    let paths = files.map(|(name, text)| (args.folder.join(name), text));
    // A link that leads nowhere is something too.
    if let Some((there, _)) = paths.iter().find(|(path, _)| path.symlink_metadata().is_ok()) {
        return Err(Fault::bad_input(format!("`{}` already exists", shown(there)))
            .with_hint("give the new folder another name"));
    }
    make_folder(&args.folder)?;
    for (path, text) in &paths {
        write_whole(path, |out| out.write_all(text.as_bytes()))?;
    }
    let shot = shown(&args.folder.join("out").join("shot"));
    print(&next(&paths.map(|(path, _)| shown(&path)), &shot))?;
    Ok(Exit::Held)
}

/// The layout, whose notes name a command.
fn layout() -> String {
    LAYOUT.1.replace("railproof words", &called::command("words"))
}

/// A shipped profile as the beginning of one's own.
fn own(table: &str) -> String {
    let mut text = "# Your table. Change what you have measured; the notes say where the rest is from.\n\
                    # A length is written with its unit, such as 50 in or 127 cm. The table's maker's figures\n\
                    # and the house's rules come first.\n"
        .to_owned();
    for line in table.lines() {
        text.push_str(if line.starts_with("name:") { "name: My table" } else { line });
        text.push('\n');
    }
    if !table.lines().any(|line| line == SPEEDS) {
        text.push_str(&usual_speeds());
    }
    text
}

/// The key of the section of speeds.
const SPEEDS: &str = "speeds:";

/// The speeds that words stand for where a table says nothing of them.
fn usual_speeds() -> String {
    let mut text = format!(
        "\n{SPEEDS}\n  # The speeds that the words soft, medium and firm stand for. Chosen; change them to yours.\n  \
         # A speed is written like 3 m/s, 8 mph or 12 km/h, or as a lag: 2 lengths.\n"
    );
    for number in Section::Speeds.numbers() {
        let parameter = number.parameter();
        let usual = number.usual().map_or_else(String::new, |usual| parameter.shown(usual));
        let _ = writeln!(text, "  {}: {usual}", parameter.name);
    }
    text
}

fn shown(path: &Path) -> String {
    tame(&path.display().to_string())
}

fn next([table, scenario, lesson, layout]: &[String; 4], shot: &str) -> String {
    let railproof = called::name();
    format!(
        "{table}: your table. Change the sizes to yours.\n\
         {scenario}: a map of where a rule holds on it.\n\
         {lesson}: a page to print for a lesson: one bank, its picture, and where to start.\n\
         {layout}: one shot on it.\n\
         \n\
         Next:\n  {railproof} run {}\n  {railproof} run {}\n  {railproof} shot {} --into {}\n\
         Open a file in any editor, change a number, save it, and run it again.\n",
        command_word(scenario),
        command_word(lesson),
        command_word(layout),
        command_word(shot)
    )
}
