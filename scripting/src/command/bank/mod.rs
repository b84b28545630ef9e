//! `railproof bank`: one bank from flags, answered as a coach would.

mod flags;

use super::output::{print, to_json};
use crate::answer::BankAnswer;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::playing::BankFindings;
use crate::telling::bank_sentences;

/// Answer one bank from flags, in a plain sentence.
///
/// Rail numbers are in diamonds from the target pocket, in the groove reading: where the ball's
/// centre is when it touches the cushion.
#[derive(Debug, Clone, clap::Args)]
pub struct BankArgs {
    /// The table: a shipped profile's name, or a profile's path.
    #[arg(long, visible_alias = "on", value_name = "NAME|FILE", default_value = "nine-foot")]
    pub equipment: String,
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
          conflicts_with_all = ["slope", "offset", "reading", "mirror"])]
    pub start: Option<String>,
    /// The rule start = slope × contact + offset.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "2.2")]
    pub slope: String,
    /// The rule's offset, in diamonds.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "0")]
    pub offset: String,
    /// The line at which the rule's numbers are read: groove or sight.
    #[arg(long, value_name = "READING", default_value = "groove")]
    pub reading: String,
    /// The rule of equal angles instead.
    #[arg(long, conflicts_with_all = ["slope", "offset", "reading"])]
    pub mirror: bool,
    /// Distance off the rail, square to it, from the ball's centre to the groove, such as "12 in";
    /// 0 is frozen.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true, default_value = "0 in")]
    pub off_rail: String,
    /// Speed at launch, such as "3 m/s", "7 mph" or "2 lengths" (table lengths, as in a lag).
    #[arg(long, value_name = "SPEED", allow_hyphen_values = true)]
    pub speed: String,
    /// Fraction of natural roll at launch: 0 is stun, 1 rolls, negative is draw.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "0")]
    pub roll: String,
    /// Side spin at launch, as surface speed over speed: positive is running, negative reverse.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "0")]
    pub running_side: String,
    /// Error of the aim, such as "2 mrad"; positive turns the line towards the pocket's end.
    #[arg(long, value_name = "ANGLE", allow_hyphen_values = true, default_value = "0 mrad")]
    pub aim_error: String,
    /// The rail model: nose-and-cloth, nose-only, planar or compliant. Without it, the cushion's.
    #[arg(long, value_name = "MODEL")]
    pub rail_model: Option<String>,
    /// Answer with JSON for other programs.
    #[arg(long)]
    pub json: bool,
}

/// Plays one bank and prints what became of it.
///
/// # Errors
/// A [`Fault`] that names the flag, or an output that can't be written.
pub fn run(args: &BankArgs) -> Result<Exit, Fault> {
    let question = args.question()?;
    let findings = BankFindings::of(&question)?;
    let text = if args.json {
        to_json(&BankAnswer::new(&question, &findings))?
    } else {
        bank_sentences(&question, &findings) + "\n"
    };
    print(&text)?;
    Ok(Exit::Held)
}
