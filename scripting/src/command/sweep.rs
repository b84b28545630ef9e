//! `railproof sweep`: plays a plan in shards into a folder, and goes on where an earlier run stopped.

use super::budget::BudgetFlags;
use super::folder_lock::FolderLock;
use super::pace::SweepProgress;
use super::plan::{PlanChoice, load};
use super::threads::Threads;
use super::{interrupt, print, remark};
use crate::called;
use crate::exit::Exit;
use crate::fault::{Fault, tame};
use crate::files::{RealDisk, free_for_folder};
use crate::plan::{Keep, SweepPlan};
use crate::scenario::FunctionShots;
use crate::shards::{
    Estimate, Folder, Inventory, MANIFEST_FILE, PlayOptions, Share, SweepTotals, TextForm,
    check_text, estimate, finish, play_shards, write_text,
};
use crate::telling::amounts::{bytes, duration, grouped, small};
use crate::telling::caution::{Cautions, FLAGGED, of_load};
use crate::telling::{count, grouped_count, things_played};
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Time given to the sample of a dry run.
const PATIENCE: Duration = Duration::from_millis(600);
/// Time given to the sample before the work itself.
const SHORT_PATIENCE: Duration = Duration::from_millis(60);

/// Flags of `railproof sweep`.
#[derive(Debug, clap::Args)]
pub struct SweepArgs {
    /// A scenario, or a plan that `railproof plan` wrote.
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// Folder of the results. The same command goes on where it stopped.
    #[arg(long, value_name = "DIR")]
    pub into: PathBuf,
    /// Which plan of it.
    #[command(flatten)]
    pub choice: PlanChoice,
    /// Play only a share of the shards: 2/7 is the second of seven. `railproof merge` puts them
    /// together.
    #[arg(long, value_name = "I/N")]
    pub shard: Option<Share>,
    /// Write the rows of a small sweep (at most 2,000,000) as text too.
    #[arg(long, value_enum, conflicts_with = "shard")]
    pub text: Option<TextForm>,
    /// Estimate the cost from a small timed sample, and play nothing.
    #[arg(long)]
    pub dry_run: bool,
    /// End at the first point that can't be played, instead of keeping it as a failed row.
    #[arg(long)]
    pub stop_on_error: bool,
    /// Show only faults.
    #[arg(long, short)]
    pub quiet: bool,
    /// Threads.
    #[command(flatten)]
    pub threads: Threads,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Plays what is missing.
///
/// # Errors
/// A plan that can't be read or is not the folder's, a full disk, an interrupt.
pub fn run(args: &SweepArgs) -> Result<Exit, Fault> {
    // Before the scenario is run: what it plays itself must not begin threads of its own.
    args.threads.start()?;
    free_for_folder(&args.into)?;
    let plan = load(&args.file, args.choice)?;
    if args.text.is_some() && plan.keep == Keep::Rows {
        check_text(plan.bank_count())?;
    }
    let folder = Folder::new(&args.into);
    let own = |shard: u64| args.shard.is_none_or(|share| share.holds(shard));
    let disk = RealDisk;
    if args.dry_run {
        folder.check(&plan)?;
        let inventory = folder.inventory_of(&plan, &own)?;
        inventory.refuse_foreign(&folder)?;
        return dry_run(&plan, args, &inventory);
    }
    let _lock = match args.shard {
        None => FolderLock::take(&args.into)?,
        Some(_) => FolderLock::take_share(&args.into)?,
    };
    folder.open(&plan, &disk)?;
    folder.remove_unfinished(&own)?;
    let mut inventory = folder.inventory_of(&plan, &own)?;
    inventory.refuse_foreign(&folder)?;
    let mut tries = 0;
    loop {
        for (name, why) in std::mem::take(&mut inventory.damaged) {
            if !args.quiet {
                print(&format!("`{}` is damaged ({why}) and is played again.\n", tame(&name)))?;
            }
            folder.remove_shard(&name)?;
        }
        let todo = missing_of(&plan, &inventory, args.shard);
        if !args.quiet && tries == 0 {
            print(&beginning(&plan, &inventory, &todo, args))?;
        }
        play(&plan, &folder, &mut inventory, &todo, args)?;
        if let Some(share) = args.shard {
            if !args.quiet {
                let mut text = format!(
                    "Share {share} is done. When all shares are done: {} merge {}\n",
                    called::name(),
                    tame(&args.into.display().to_string())
                );
                for caution in Cautions::of_sweep(&plan).lines() {
                    let _ = writeln!(text, "{caution}");
                }
                print(&text)?;
            }
            return Ok(Exit::Held);
        }
        // What lies there now decides, not what was put there.
        inventory = folder.inventory(&plan)?;
        tries += 1;
        let whole = inventory.damaged.is_empty() && inventory.found.len() as u64 == plan.shards();
        if whole || tries == MOST_TRIES {
            break;
        }
        inventory.refuse_foreign(&folder)?;
    }
    let whole = finish(&plan, &folder, &inventory, &disk)?;
    if let Some(form) = args.text {
        write_text(&plan, &folder, &inventory, form, &disk)?;
    }
    end(&plan, &whole, &args.into, args.quiet)
}

/// Times that shards are played which somebody takes away or changes meanwhile.
const MOST_TRIES: usize = 3;

/// Plays these shards.
fn play(
    plan: &SweepPlan,
    folder: &Folder,
    inventory: &mut Inventory,
    todo: &[u64],
    args: &SweepArgs,
) -> Result<(), Fault> {
    if todo.is_empty() {
        return Ok(());
    }
    let needed = estimate(plan, todo, rayon::current_num_threads(), SHORT_PATIENCE, &FunctionShots)
        .map_err(Fault::bad_input)?;
    check_room(&args.into, &needed)?;
    if let Some(load) = of_load(needed.time, rayon::current_num_threads())
        && !args.quiet
    {
        print(&format!("{load}\n"))?;
    }
    let pace = SweepProgress::start(plan, inventory, todo, args.quiet);
    let stop = interrupt::watch(
        "Stopping; what is on the disk is kept. Press Ctrl-C again to stop at once.",
    );
    let disk = RealDisk;
    let how = PlayOptions {
        disk: &disk,
        maker: &FunctionShots,
        watch: &pace,
        stop: &stop,
        stop_on_error: args.stop_on_error,
    };
    let played = play_shards(plan, todo, folder, how);
    pace.end();
    let kept = played.map_err(|fault| with_the_way_on(fault, args))?;
    inventory.found.extend(kept.into_iter().map(|found| (found.note.shard, found)));
    Ok(())
}

/// The shards that are to be played.
fn missing_of(plan: &SweepPlan, inventory: &Inventory, share: Option<Share>) -> Vec<u64> {
    (0..plan.shards())
        .filter(|shard| share.is_none_or(|share| share.holds(*shard)))
        .filter(|shard| !inventory.found.contains_key(shard))
        .collect()
}

fn with_the_way_on(fault: Fault, args: &SweepArgs) -> Fault {
    if fault.exit == Exit::Interrupted {
        let into = args.into.display();
        return fault.with_hint(format!("the same command goes on where it stopped, in `{into}`"));
    }
    fault
}

fn check_room(into: &Path, needed: &Estimate) -> Result<(), Fault> {
    let Ok(free) = fs4::available_space(into) else { return Ok(()) };
    if needed.disk <= free {
        return Ok(());
    }
    Err(Fault::new(
        Exit::CouldNotFinish,
        format!(
            "the sweep needs about {} in `{}`, where {} is free",
            bytes(needed.disk),
            into.display(),
            bytes(free)
        ),
    )
    .with_hint("make room, choose another folder, or keep less: --keep map or --keep failures"))
}

fn dry_run(plan: &SweepPlan, args: &SweepArgs, inventory: &Inventory) -> Result<Exit, Fault> {
    let todo = missing_of(plan, inventory, args.shard);
    let threads = rayon::current_num_threads();
    let needed =
        estimate(plan, &todo, threads, PATIENCE, &FunctionShots).map_err(Fault::bad_input)?;
    let mut text = beginning(plan, inventory, &todo, args);
    let mut line = |words: String| {
        let _ = writeln!(text, "  {words}");
    };
    line(format!(
        "time:   about {} on {} ({} a {}, from {} played)",
        duration(needed.time),
        count(threads as u64, "thread", "threads"),
        small(needed.bank),
        plan.noun().trim_end_matches('s'),
        grouped(needed.sample)
    ));
    line(format!("memory: about {} besides the program's own", bytes(needed.memory)));
    // The folder may not be there yet: its room is that of the nearest one that is.
    let there = args.into.ancestors().find(|path| path.exists()).unwrap_or(Path::new("."));
    let there = if there.as_os_str().is_empty() { Path::new(".") } else { there };
    let free = fs4::available_space(there);
    line(format!(
        "disk:   about {}, {}",
        bytes(needed.disk),
        free.as_ref().map_or_else(
            |_| "free room unknown".to_owned(),
            |free| format!("{} is free", bytes(*free))
        )
    ));
    let load = of_load(needed.time, threads);
    for caution in Cautions::of_sweep(plan).lines().into_iter().chain(load) {
        let _ = writeln!(text, "{caution}");
    }
    let short = free.is_ok_and(|free| needed.disk > free);
    print(&text)?;
    if short {
        return Err(Fault::new(Exit::CouldNotFinish, "there is not enough room on the disk")
            .with_hint("choose another folder, or keep less: --keep map or --keep failures"));
    }
    Ok(Exit::Held)
}

fn beginning(plan: &SweepPlan, inventory: &Inventory, todo: &[u64], args: &SweepArgs) -> String {
    let mut text = format!(
        "{}: {}, {} in {}, keeping {}; {} into {}\n",
        tame(&plan.name),
        grouped_count(plan.points(), "point", "points"),
        things_played(plan),
        grouped_count(plan.shards(), "shard", "shards"),
        plan.keep.name(),
        &plan.sha256()[..12],
        tame(&args.into.display().to_string()),
    );
    if let Some(share) = args.shard {
        let left = grouped_count(todo.len() as u64, "shard", "shards");
        let _ = writeln!(text, "  share {share}: {left} left");
    } else if !inventory.found.is_empty() {
        let _ = writeln!(
            text,
            "  {} there already, {} left",
            grouped_count(inventory.found.len() as u64, "shard is", "shards are"),
            grouped(todo.len() as u64)
        );
    }
    text
}

/// Reasons that are told at the end.
const TOLD_REASONS: usize = 3;

/// Tells what a whole sweep came to.
///
/// # Errors
/// [`Exit::MostFailed`] when most banks could not be played.
pub(super) fn end(
    plan: &SweepPlan,
    whole: &SweepTotals,
    into: &Path,
    quiet: bool,
) -> Result<Exit, Fault> {
    if !quiet {
        print(&ending(plan, whole, into))?;
    }
    match not_played(plan, whole) {
        Some(words) if whole.mostly_failed() => Err(Fault::new(Exit::MostFailed, words).with_hint(
            format!(
                "the rows are kept, with why in their column `{}`; --stop-on-error ends at the first",
                plan.without_answer().1
            ),
        )),
        Some(words) => {
            remark(&words);
            Ok(Exit::Held)
        }
        None => Ok(Exit::Held),
    }
}

/// The number of banks that could not be played, and the first reasons; nothing when all could be.
fn not_played(plan: &SweepPlan, whole: &SweepTotals) -> Option<String> {
    let (failed, banks) = (whole.failed(), grouped(plan.bank_count()));
    let kinds: Vec<(&str, u64)> = whole.reasons.first().take(TOLD_REASONS).collect();
    let reasons = match kinds.as_slice() {
        [] => String::new(),
        [(only, count)] if *count == failed => format!(", such as: {}", tame(only)),
        several => {
            let told = several
                .iter()
                .map(|(first, count)| format!("{} such as: {}", grouped(*count), tame(first)));
            let counted: u64 = several.iter().map(|(_, count)| count).sum();
            let more = match failed.saturating_sub(counted) {
                0 => String::new(),
                more => format!("; {} for other reasons", grouped(more)),
            };
            format!(": {}{more}", told.collect::<Vec<_>>().join("; "))
        }
    };
    (failed > 0).then(|| {
        format!("{} of {banks} {} could not be played{reasons}", grouped(failed), plan.noun())
    })
}

/// The last words about a whole sweep.
fn ending(plan: &SweepPlan, whole: &SweepTotals, into: &Path) -> String {
    let mut text = String::new();
    let (noun, without_rule, succeed) = match plan.banks() {
        Some(_) => ("banks", "the given lines", "hold"),
        None => ("shots", "whole shots", "are made"),
    };
    for (at, tally) in whole.tallies.iter().enumerate() {
        let name = plan.rules().get(at).map_or(without_rule, |rule| rule.name.as_str());
        if tally.played() == 0 {
            let _ = writeln!(text, "{}: none of its {noun} could be played", tame(name));
            continue;
        }
        let failed = match tally.failed {
            0 => String::new(),
            failed => format!("; {} could not be played", grouped(failed)),
        };
        let flagged = match tally.flagged {
            0 => String::new(),
            flagged => format!("; {} flagged", grouped(flagged)),
        };
        let _ = writeln!(
            text,
            "{}: {:.1} % of {} {noun} {succeed}{flagged}{failed}",
            tame(name),
            100.0 * plan.share(tally).unwrap_or(0.0),
            grouped(plan.counted(tally)),
        );
    }
    if whole.tallies.iter().any(|tally| tally.flagged > 0) {
        let _ = writeln!(text, "Flagged: {FLAGGED}.");
    }
    for caution in whole.cautions.lines() {
        let _ = writeln!(text, "{caution}");
    }
    let _ = writeln!(
        text,
        "{}, {}, {MANIFEST_FILE} in {}",
        grouped_count(whole.rows, "row", "rows"),
        bytes(whole.bytes),
        tame(&into.display().to_string())
    );
    text
}
