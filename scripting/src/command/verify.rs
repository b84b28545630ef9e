//! `railproof verify`: whether a stored sweep is whole and as planned. Writes nothing.

use super::budget::BudgetFlags;
use super::print;
use crate::called;
use crate::exit::Exit;
use crate::fault::{Fault, tame};
use crate::shards::{Folder, FolderDefects, verify};
use crate::telling::{grouped_count, things_played};
use std::fmt::Write;
use std::path::{Path, PathBuf};

/// Flags of `railproof verify`.
#[derive(Debug, clap::Args)]
pub struct VerifyArgs {
    /// Folder of the results.
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
    /// Say nothing when all is in order.
    #[arg(long, short)]
    pub quiet: bool,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Looks at everything and reports the faults.
///
/// # Errors
/// A folder without a plan that can be read.
pub fn run(args: &VerifyArgs) -> Result<Exit, Fault> {
    let folder = Folder::new(&args.folder);
    let shown = tame(&args.folder.display().to_string());
    if args.folder.is_file() {
        return Err(Fault::bad_input(format!(
            "`{shown}` is a file; verify takes a sweep's folder"
        ))
        .with_hint(called::command(&format!("verify {}", parent(&args.folder)))));
    }
    let misplaced = folder.misplaced();
    if !misplaced.is_empty() {
        return told(&FolderDefects::foreign(&misplaced), &shown);
    }
    let plan = folder.plan()?.ok_or_else(|| folder.without_plan())?;
    let wrong = verify(&plan, &folder)?;
    if wrong.lines().next().is_some() {
        return told(&wrong, &shown);
    }
    if !args.quiet {
        print(&format!(
            "{shown}: whole; {}, {}, {}\n",
            grouped_count(plan.shards(), "shard", "shards"),
            things_played(&plan),
            &plan.sha256()[..12]
        ))?;
    }
    Ok(Exit::Held)
}

/// The folder of a file, as a command has it.
fn parent(file: &Path) -> String {
    let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty());
    tame(&folder.unwrap_or(Path::new(".")).display().to_string())
}

/// Tells the faults, and the way out.
fn told(wrong: &FolderDefects, shown: &str) -> Result<Exit, Fault> {
    let mut text = String::new();
    for line in wrong.lines() {
        let _ = writeln!(text, "{}", tame(line));
    }
    print(&text)?;
    Err(Fault::new(Exit::NotWhole, format!("`{shown}` is not whole: {}", wrong.counted()))
        .with_hint(wrong.way_on(shown)))
}
