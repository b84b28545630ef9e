//! The command line: the commands, and their exit codes.
//!
//! One file for each command. Nothing here computes; it reads flags, calls the other rooms and
//! shows what came out.

mod asked_balls;
mod at_terminal;
pub mod bank;
mod budget;
pub mod correct;
pub mod discover;
pub mod fit;
mod fit_progress;
mod flags;
mod folder_lock;
mod interrupt;
pub mod merge;
pub mod new;
mod output;
mod pace;
pub mod plan;
pub mod player;
mod progress;
pub mod run;
mod scenarios;
pub mod shot;
mod slope_flags;
pub mod slurm;
pub mod spot;
pub mod sweep;
mod taken_folders;
pub mod test;
mod threads;
pub mod track;
mod usage_hints;
pub mod verify;
mod walled;
pub mod words;

use output::print_error;
pub use output::{print, print_fault, remark, to_json};
pub use threads::Threads;

use self::walled::{Needs, file_to_read, file_to_write, files_to_read, named};
use crate::exit::Exit;
use crate::fault::Style;
use crate::lua::Limits;
use crate::lua::worker::CallLimits;
use crate::report::PageStyle;
use crate::walled::Inside;
use crate::walls::Budget;
use clap::{CommandFactory, Parser, Subcommand, ValueEnum};
use std::ffi::OsString;

/// Narrower than this no line makes sense.
const NARROWEST: usize = 40;
/// Wider than this lines are hard to read.
const WIDEST: usize = 120;

/// Play bank shots by physics and see where an aiming rule holds.
#[derive(Debug, Parser)]
#[command(name = "railproof", version, after_help = exits_and_limits())]
pub struct CommandLine {
    /// When to use colours; `auto` means on a terminal, unless `NO_COLOR` is set.
    #[arg(long, global = true, value_enum, default_value_t = When::Auto)]
    pub color: When,
    /// The command.
    #[command(subcommand)]
    pub command: Command,
}

/// When something happens that depends on where the output goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, ValueEnum)]
pub enum When {
    /// On a terminal.
    #[default]
    Auto,
    /// Even when the output goes to a file.
    Always,
    /// Not even on a terminal.
    Never,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Begin a folder of your own: a scenario, a layout and a table, with notes in them.
    New(new::NewArgs),
    /// Run scenarios: show what came out, and write pictures and rows to a folder.
    #[command(after_help = limits())]
    Run(run::RunArgs),
    /// Run every scenario under a folder and say which expectations failed.
    #[command(after_help = exits_and_limits())]
    Test(test::TestArgs),
    /// Answer one bank from flags, in a plain sentence.
    Bank(Box<bank::BankArgs>),
    /// Say what measured banks tell about a table, and what to measure next.
    Fit(fit::FitArgs),
    /// Search the rules that you can work out in your head for those that make the most balls for their effort.
    Discover(discover::DiscoverArgs),
    /// Say what to add to a rule's starts, or take off them, for the ball and the table: a small table to remember.
    Correct(correct::CorrectArgs),
    /// Say where behind the rail to stand a marker at which every frozen ball may be aimed.
    Spot(spot::SpotArgs),
    /// Say how far your shots fall from what you meant, by banks that you sent again and again.
    Player(player::PlayerArgs),
    /// Say how a filmed ball moved before and after the rail.
    Track(track::TrackArgs),
    /// Show a sweep as plain data, to be played here or elsewhere.
    Plan(plan::PlanArgs),
    /// Play a sweep in shards into a folder; the same command goes on where it stopped.
    Sweep(sweep::SweepArgs),
    /// Put the shares of a sweep together and check that it is whole.
    Merge(merge::MergeArgs),
    /// Check that a stored sweep is whole and as planned; writes nothing.
    Verify(verify::VerifyArgs),
    /// Write the script that plays a plan on a Slurm cluster: an array of tasks, and the merge that waits for
    /// them.
    Slurm(Box<slurm::SlurmArgs>),
    /// Play the balls of a YAML file until they rest.
    Shot(shot::ShotArgs),
    /// Show what can be written in scenarios, layouts and profiles, field by field.
    Words(words::WordsArgs),
}

/// Obeys a command line, reports faults, and gives the exit code. What reads scripts or plans of others is done
/// in another process.
pub fn dispatch(line: &CommandLine, arguments: Vec<OsString>) -> Exit {
    let errors = style_for_errors(line.color);
    match walled::done_in_worker(needs(&line.command), arguments, errors) {
        Ok(Some(exit)) => exit,
        Ok(None) => obey(line),
        Err(fault) => {
            print_fault(&fault, errors);
            fault.exit
        }
    }
}

/// What a command needs of a worker, if it is done in one.
fn needs(command: &Command) -> Option<Needs<'_>> {
    Some(match command {
        Command::Plan(args) => Needs {
            reads: file_to_read(&args.file),
            writes: args.out.as_deref().map(file_to_write).unwrap_or_default(),
            ..Needs::of(&args.budget, Budget::USUAL)
        },
        Command::Sweep(args) => Needs {
            threads: args.threads,
            reads: [file_to_read(&args.file), vec![args.into.clone()]].concat(),
            writes: if args.dry_run { Vec::new() } else { vec![args.into.clone()] },
            ..Needs::of(&args.budget, Budget::UNTIMED)
        },
        Command::Merge(args) => Needs {
            reads: args.from.clone(),
            writes: vec![args.into.clone()],
            ..Needs::of(&args.budget, Budget::UNTIMED)
        },
        Command::Verify(args) => {
            Needs { reads: vec![args.folder.clone()], ..Needs::of(&args.budget, Budget::UNTIMED) }
        }
        Command::Slurm(args) => Needs {
            reads: [file_to_read(&args.plan), vec![args.into.clone()]].concat(),
            writes: args.script.as_deref().map(file_to_write).unwrap_or_default(),
            ..Needs::of(&args.budget, Budget::USUAL)
        },
        Command::Bank(args) => Needs {
            reads: [
                named([
                    Some(args.equipment.as_str()),
                    args.cushion.as_deref(),
                    args.player.as_deref(),
                ]),
                files_to_read([args.table.as_deref()]),
            ]
            .concat(),
            writes: args.into.clone().into_iter().collect(),
            ..Needs::of(&args.budget, Budget::USUAL)
        },
        Command::Fit(args) if !args.template => {
            let cushions = args.tell_apart.iter().flatten().map(|name| Some(name.as_str()));
            Needs {
                reads: [
                    named(cushions.chain([Some(args.equipment.as_str())])),
                    files_to_read([args.measurements.as_deref(), args.films.as_deref()]),
                ]
                .concat(),
                writes: args.into.clone().into_iter().collect(),
                ..Needs::of(&args.budget, Budget::PATIENT)
            }
        }
        Command::Discover(args) => Needs {
            reads: args.asked.reads(),
            writes: args.into.clone().into_iter().collect(),
            ..Needs::of(&args.budget, Budget::PATIENT)
        },
        Command::Spot(args) => Needs {
            reads: args.reads(),
            writes: args.into.clone().into_iter().collect(),
            ..Needs::of(&args.budget, Budget::USUAL)
        },
        Command::Correct(args) => Needs {
            reads: args.asked.reads(),
            writes: args.into.clone().into_iter().collect(),
            ..Needs::of(&args.budget, Budget::PATIENT)
        },
        Command::Player(args) => Needs {
            reads: [
                file_to_read(&args.measurements),
                files_to_read([args.table.as_deref()]),
                named([Some(args.equipment.as_str()), Some(args.like.as_str())]),
            ]
            .concat(),
            writes: args.out.as_deref().map(file_to_write).unwrap_or_default(),
            ..Needs::of(&args.budget, Budget::USUAL)
        },
        Command::Track(args) if !args.template => Needs {
            reads: [
                named([Some(args.equipment.as_str())]),
                files_to_read([args.film.as_deref(), args.measure.as_deref()]),
            ]
            .concat(),
            writes: args.measure.as_deref().map(file_to_write).unwrap_or_default(),
            ..Needs::of(&args.budget, Budget::USUAL)
        },
        Command::Shot(args) => Needs {
            reads: [file_to_read(&args.file), named([args.player.as_deref()])].concat(),
            writes: args.into.clone().into_iter().collect(),
            ..Needs::of(&args.budget, Budget::USUAL)
        },
        _ => return None,
    })
}

/// Does the job of a worker, which comes in by standard input.
pub fn work() -> Exit {
    crate::walled::work(|arguments| match read(arguments) {
        Ok(line) => {
            let ended = obey(&line);
            let (exit, fault) = Inside::this().map_or((ended, None), |inside| inside.end(ended));
            if let Some(fault) = fault {
                print_fault(&fault, style_for_errors(line.color));
            }
            exit
        }
        Err(exit) => exit,
    })
}

/// Obeys the command line in this process.
fn obey(line: &CommandLine) -> Exit {
    let errors = style_for_errors(line.color);
    let done = match &line.command {
        Command::New(args) => new::run(args),
        Command::Run(args) => run::run(args, look(line.color), errors),
        Command::Test(args) => test::run(args, look(line.color), errors),
        Command::Bank(args) => bank::run(args),
        Command::Fit(args) => fit::run(args),
        Command::Discover(args) => discover::run(args),
        Command::Correct(args) => correct::run(args),
        Command::Spot(args) => spot::run(args),
        Command::Player(args) => player::run(args),
        Command::Track(args) => track::run(args),
        Command::Plan(args) => plan::run(args),
        Command::Sweep(args) => sweep::run(args),
        Command::Merge(args) => merge::run(args),
        Command::Verify(args) => verify::run(args),
        Command::Slurm(args) => slurm::run(args),
        Command::Shot(args) => shot::run(args),
        Command::Words(args) => words::run(args),
    };
    done.unwrap_or_else(|fault| {
        let over =
            fault.exit == Exit::Interrupted && Inside::this().is_some_and(Inside::is_over_budget);
        if !over {
            print_fault(&fault, errors);
        }
        fault.exit
    })
}

/// The style of faults on standard error.
pub fn style_for_errors(color: When) -> Style {
    style(color, || Style::for_stream(&std::io::stderr()))
}

/// The style of text on standard output.
pub fn style_for_output(color: When) -> Style {
    style(color, || Style::for_stream(&std::io::stdout()))
}

/// Width and colour of standard output.
fn look(color: When) -> PageStyle {
    let width =
        console::Term::stdout().size_checked().map_or(PageStyle::PLAIN.width, |(_, columns)| {
            usize::from(columns).clamp(NARROWEST, WIDEST)
        });
    PageStyle { width, color: style_for_output(color).color }
}

fn style(color: When, auto: impl FnOnce() -> Style) -> Style {
    match color {
        When::Auto => auto(),
        When::Always => Style { color: true },
        When::Never => Style::PLAIN,
    }
}

/// Reads the command line; usage errors and requests for help are answered here.
///
/// # Errors
/// The exit instead of a run: [`Exit::Held`] after help, [`Exit::BadInput`] after a usage error.
pub fn read<I, T>(arguments: I) -> Result<CommandLine, Exit>
where
    I: IntoIterator<Item = T>,
    T: Into<OsString> + Clone,
{
    let arguments: Vec<OsString> = arguments.into_iter().map(Into::into).collect();
    CommandLine::try_parse_from(&arguments).map_err(|mut error| {
        usage_hints::add(&mut error, &arguments, &CommandLine::command());
        if error.use_stderr() {
            let color = style(color_of(&arguments), || Style::for_stream(&std::io::stderr())).color;
            print_error(&shown(&error, color));
            return Exit::BadInput;
        }
        let color = style(color_of(&arguments), || Style::for_stream(&std::io::stdout())).color;
        match print(&shown(&error, color)) {
            Ok(()) => Exit::Held,
            Err(fault) => {
                print_fault(&fault, Style::PLAIN);
                fault.exit
            }
        }
    })
}

/// Clap's words, in which the user's own may stand.
fn shown(error: &clap::Error, color: bool) -> String {
    let words = error.render();
    if color { words.ansi().to_string() } else { words.to_string() }
}

/// The wish for colour of a command line that could not be read.
fn color_of(arguments: &[OsString]) -> When {
    let given = arguments.iter().enumerate().find_map(|(at, word)| {
        let word = word.to_str()?;
        match word.strip_prefix("--color=") {
            Some(value) => Some(value.to_owned()),
            None if word == "--color" => arguments.get(at + 1)?.to_str().map(str::to_owned),
            None => None,
        }
    });
    given.and_then(|value| When::from_str(&value, false).ok()).unwrap_or_default()
}

fn exits_and_limits() -> String {
    let lines: Vec<String> =
        Exit::ALL.iter().map(|exit| format!("  {}  {}", exit.code(), exit.meaning())).collect();
    format!(
        "Exit codes (with several scenarios, the highest one counts):\n{}\n\n{}",
        lines.join("\n"),
        limits()
    )
}

fn limits() -> String {
    let call = CallLimits::default();
    let Limits { memory_bytes, script_time, print_bytes, .. } = Limits::default();
    format!(
        "Limits of a scenario: its Lua may run for {} s and take {} MiB of memory, not counting the banks and shots \
         played for it; {} MiB of its printed lines are kept. A function of a rule or a plan may run for {} s a call \
         and take {} MiB.",
        script_time.as_secs(),
        memory_bytes >> 20,
        print_bytes >> 20,
        call.time.as_secs(),
        call.memory_bytes >> 20
    )
}
