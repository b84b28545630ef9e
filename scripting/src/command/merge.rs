//! `railproof merge`: puts the shares of a sweep together and says whether it is whole.

use super::budget::BudgetFlags;
use super::folder_lock::FolderLock;
use super::print;
use super::sweep::end;
use crate::called;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::RealDisk;
use crate::shards::{Folder, PLAN_FILE, TextForm, finish, write_text};
use crate::telling::count;
use std::path::{Path, PathBuf};

/// Flags of `railproof merge`.
#[derive(Debug, clap::Args)]
pub struct MergeArgs {
    /// Folder of the results.
    #[arg(value_name = "DIR")]
    pub into: PathBuf,
    /// Folders of other machines' shares of the same plan, whose shards are taken over first.
    #[arg(value_name = "FROM")]
    pub from: Vec<PathBuf>,
    /// Write the rows of a small sweep (at most 2,000,000) as text too.
    #[arg(long, value_enum)]
    pub text: Option<TextForm>,
    /// Show only faults.
    #[arg(long, short)]
    pub quiet: bool,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Checks every shard and writes the map and the manifest.
///
/// # Errors
/// A missing or damaged shard, a folder of another plan, an error of the disk.
pub fn run(args: &MergeArgs) -> Result<Exit, Fault> {
    let disk = RealDisk;
    let folder = Folder::new(&args.into);
    for path in &args.from {
        is_a_sweep(path)?;
    }
    let first = std::iter::once(&args.into).chain(&args.from);
    let mut plan = None;
    for path in first {
        plan = Folder::new(path).plan()?;
        if plan.is_some() {
            break;
        }
    }
    let Some(plan) = plan else {
        return Err(folder.without_plan());
    };
    let _lock = FolderLock::take(&args.into)?;
    folder.open(&plan, &disk)?;
    for path in &args.from {
        Folder::new(path).check(&plan)?;
        let taken = folder.take_from(&Folder::new(path), &plan, &disk)?;
        if !args.quiet {
            let taken = count(taken as u64, "shard", "shards");
            print(&format!("{taken} taken from {}\n", path.display()))?;
        }
    }
    let inventory = folder.inventory(&plan)?;
    let whole = finish(&plan, &folder, &inventory, &disk)?;
    if let Some(form) = args.text {
        write_text(&plan, &folder, &inventory, form, &disk)?;
    }
    end(&plan, &whole, &args.into, args.quiet)
}

/// Refuses a source that holds no sweep.
fn is_a_sweep(path: &Path) -> Result<(), Fault> {
    let shown = path.display();
    let there = path.metadata();
    if there.as_ref().is_ok_and(|about| !about.is_dir()) {
        return Err(Fault::bad_input(format!("`{shown}` is not a folder")).with_hint(hint()));
    }
    let sweep = Folder::new(path);
    if sweep.shards().exists() || sweep.path().join(PLAN_FILE).exists() {
        return Ok(());
    }
    let why = match there {
        Ok(_) => format!("`{shown}` holds no sweep: there is neither {PLAN_FILE} nor shards"),
        Err(error) => format!("the folder `{shown}` can't be read: {error}"),
    };
    Err(Fault::bad_input(why).with_hint(hint()))
}

fn hint() -> String {
    format!("give folders that {} --shard I/N --into DIR has filled", called::command("sweep"))
}
