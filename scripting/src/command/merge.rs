//! `railproof merge`: puts the shares of a sweep together and says whether it is whole.

use super::print;
use super::sweep::end;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::shards::{Folder, PLAN_FILE, RealDisk, TextForm, finish, write_text};
use std::path::PathBuf;

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
    /// Show only what went wrong.
    #[arg(long, short)]
    pub quiet: bool,
}

/// Checks every shard and writes the map and the manifest.
///
/// # Errors
/// What is missing or damaged, a folder of another plan, the disk.
pub fn run(args: &MergeArgs) -> Result<Exit, Fault> {
    let disk = RealDisk;
    let folder = Folder::new(&args.into);
    let first = std::iter::once(&args.into).chain(&args.from);
    let mut plan = None;
    for path in first {
        plan = Folder::new(path).plan()?;
        if plan.is_some() {
            break;
        }
    }
    let Some(plan) = plan else {
        return Err(Fault::bad_input(format!(
            "`{}` holds no sweep: there is no {PLAN_FILE}",
            args.into.display()
        ))
        .with_hint("railproof sweep PLAN.json --into DIR begins one"));
    };
    folder.open(&plan, &disk)?;
    for path in &args.from {
        Folder::new(path).check(&plan)?;
        let taken = folder.take_from(&Folder::new(path), &plan, &disk)?;
        if !args.quiet {
            print(&format!("{taken} shards taken from {}\n", path.display()))?;
        }
    }
    let inventory = folder.inventory(&plan)?;
    let whole = finish(&plan, &folder, &inventory, &disk)?;
    if let Some(form) = args.text {
        write_text(&plan, &folder, &inventory, form, &disk)?;
    }
    end(&plan, &whole, &args.into, args.quiet)
}
