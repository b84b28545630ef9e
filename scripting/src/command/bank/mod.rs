//! `railproof bank`: one bank from flags, answered as a coach would.

mod flags;
mod picture;
mod seen;

use super::budget::BudgetFlags;
use super::interrupt;
use super::output::{pictures_written, print, to_json};
use super::slope_flags::SlopeArgs;
use crate::answer::BankAnswer;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::playing::{BankFindings, BankQuestion};
use crate::telling::{Detail, bank_sentences, speeds_side_by_side};
use picture::PicturesAsked;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// What is known of a table that nobody measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum KnownBy {
    /// Published ranges and nothing else.
    Ranges,
    /// Those of them on which common practice comes true.
    Practice,
}

/// Answer one bank from flags, in a plain sentence.
///
/// Rail numbers are in diamonds from the target pocket, in the groove reading: where the ball's
/// centre is when it touches the cushion.
#[derive(Debug, Clone, clap::Args)]
#[expect(clippy::struct_excessive_bools, reason = "flags")]
pub struct BankArgs {
    /// The table: a shipped profile's name, or a profile's path.
    #[arg(long, visible_alias = "on", value_name = "NAME|FILE", default_value = "nine-foot")]
    pub equipment: String,
    /// A measured table instead: the table.json that `railproof fit` wrote.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["equipment", "cushion", "rail_model"])]
    pub table: Option<PathBuf>,
    /// Answer on all the tables that this one could be, as nobody measured it: by published ranges, or only those on
    /// which common practice comes true.
    #[arg(long, value_name = "WHAT", conflicts_with_all = ["table", "cushion", "rail_model"])]
    pub known_by: Option<KnownBy>,
    /// A cushion to lay over the table's own: a shipped one's name, or a path.
    #[arg(long, value_name = "NAME|FILE")]
    pub cushion: Option<String>,
    /// The rail banked off: long, end, head, foot, left or right.
    #[arg(long, value_name = "RAIL", default_value = "long")]
    pub rail: String,
    /// The target: corner, side, or a pocket by name, such as foot-left.
    #[arg(long, value_name = "POCKET", default_value = "corner")]
    pub pocket: String,
    /// Contact number, in diamonds: where the ball meets the rail.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true)]
    pub contact: String,
    /// Start number, in diamonds: where the line begins on the opposite rail. Without it a rule
    /// gives the start.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true,
          conflicts_with_all = ["slope", "offset", "mirror"])]
    pub start: Option<String>,
    /// The rule's numbers.
    #[command(flatten)]
    pub rule: SlopeArgs,
    /// The line at which the rule's numbers are read, or with --start both numbers: groove, across the grooves,
    /// or sight, through the diamonds.
    #[arg(long, value_name = "READING", default_value = "groove")]
    pub reading: String,
    /// The rule of equal angles instead.
    #[arg(long, conflicts_with_all = ["slope", "offset", "reading"])]
    pub mirror: bool,
    /// Distance off the rail, square to it, from the ball's centre to the groove, such as "12 in";
    /// 0 is frozen.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true, default_value = "0")]
    pub off_rail: String,
    /// Speed at launch: soft, medium or firm (the profile's `speeds` say how fast), "3 m/s", "7 mph", or
    /// "2 lengths" (as in a lag, with the cushions' share). Without it all three words are answered.
    #[arg(long, value_name = "SPEED", allow_hyphen_values = true)]
    pub speed: Option<String>,
    /// Fraction of natural roll at launch: 0 is stun, 1 rolls, negative is draw.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "0")]
    pub roll: String,
    /// Side spin at launch, as surface speed over speed: positive is running, negative reverse.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "0")]
    pub running_side: String,
    /// The same the other way: positive is reverse.
    #[arg(
        long,
        value_name = "NUMBER",
        allow_hyphen_values = true,
        conflicts_with = "running_side"
    )]
    pub reverse_side: Option<String>,
    /// Error of the aim, such as "2 mrad"; positive turns the line towards the pocket's end.
    #[arg(long, value_name = "ANGLE", allow_hyphen_values = true, default_value = "0 mrad")]
    pub aim_error: String,
    /// Say how often this player makes it: steady, club or beginner, or a player's path. The ball's place is kept;
    /// aim, speed, side and what is read off the rails spread.
    #[arg(long, value_name = "NAME|FILE")]
    pub player: Option<String>,
    /// Say instead why a bank that you sent missed, by what you saw: long or short, if you can with the number where it
    /// met a rail, such as "long 0.6". Told of the measured table, or of those on which common practice comes true.
    #[arg(long, value_name = "RESULT", requires = "speed",
          conflicts_with_all = ["cushion", "rail_model", "player", "into"])]
    pub seen: Option<String>,
    /// How the bank that was seen was sent: tip, the tip on the ball; full, the cue ball full behind it; or cut.
    #[arg(long, value_name = "HOW", default_value = "tip", requires = "seen")]
    pub sent: String,
    /// The rail model: nose-and-cloth, nose-only, planar or compliant. Without it, the cushion's.
    #[arg(long, value_name = "MODEL")]
    pub rail_model: Option<String>,
    /// Answer with JSON for other programs: without `--speed` an answer by each word.
    #[arg(long)]
    pub json: bool,
    /// Tell all: every share of a miss, two best starts where there are two, and the rail model.
    #[arg(long, conflicts_with = "json")]
    pub full: bool,
    /// Folder for a picture of the bank, as SVG and as PNG.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Put a page to print in that folder as well: the picture, how often the player makes it, and a table of starts
    /// by speed and distance off the rail.
    #[arg(long)]
    pub page: bool,
    /// A title of your own over the pictures.
    #[arg(long, value_name = "TEXT", requires = "into")]
    pub title: Option<String>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// Plays one bank, or one at each speed that has a word, and prints what became of it.
///
/// # Errors
/// A [`Fault`] that names the flag, or an output that can't be written.
pub fn run(args: &BankArgs) -> Result<Exit, Fault> {
    interrupt::ends();
    if let Some(seen) = &args.seen {
        return args.tell_why_missed(seen);
    }
    if args.page && args.into.is_none() {
        return Err(Fault::bad_input("`--page` needs a folder for its picture")
            .with_hint("add `--into out/page`, or a folder of your own"));
    }
    let played: Vec<(BankQuestion, BankFindings)> = args
        .questions()?
        .into_iter()
        .map(|question| BankFindings::of(&question).map(|findings| (question, findings)))
        .collect::<Result<_, _>>()?;
    let mut pictures = Vec::new();
    if let Some(folder) = &args.into {
        let asked = PicturesAsked {
            with_page: args.page,
            title: args.title.as_deref(),
            several: played.len() > 1,
            folder,
        };
        for (question, findings) in &played {
            pictures.extend(picture::write(&asked, question, findings)?);
        }
    }
    let detail = Detail::of_flag(args.full);
    let text = match (played.as_slice(), args.json) {
        ([(question, findings)], true) => to_json(&BankAnswer::new(question, findings))?,
        (several, true) => {
            let answers: BTreeMap<&str, BankAnswer> = several
                .iter()
                .map(|(question, findings)| {
                    (question.speed_text.as_str(), BankAnswer::new(question, findings))
                })
                .collect();
            to_json(&answers)?
        }
        ([(question, findings)], false) => bank_sentences(question, findings, detail) + "\n",
        (several, false) => speeds_side_by_side(several, detail) + "\n",
    };
    let written = if args.json { String::new() } else { pictures_written(&pictures) };
    print(&(text + &written))?;
    Ok(Exit::Held)
}
