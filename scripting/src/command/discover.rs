//! `railproof discover`: the rule that makes most balls for what it asks of a head.

use super::bank::KnownBy;
use super::budget::BudgetFlags;
use super::flags::{in_flag, number, word};
use super::interrupt;
use super::output::{pictures_written, print, to_json, write_both};
use crate::answer::DiscoveredAnswer;
use crate::discover_picture::front_picture;
use crate::discovering::{DiscoverQuestion, Discovered, MOST_BALLS};
use crate::exit::Exit;
use crate::fault::Fault;
use crate::files::make_folder;
use crate::fitting::read_table;
use crate::player::{USUAL_PLAYER, find_player};
use crate::profile::{find_partial, find_profile};
use crate::telling::discovered_sentences;
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use railproof_engine::discover::{BallSpread, EffortWeights, Grammar};
use railproof_engine::equipment::{Parameter, RailModel};
use railproof_engine::rail::{BankGeometry, PocketChoice, RailChoice};
use railproof_engine::sweep::Input;
use railproof_engine::units::Dimension;
use std::fmt::Display;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Search the rules that you can work out in your head for those that make the most balls for their effort.
#[derive(Debug, Clone, clap::Args)]
#[expect(clippy::struct_excessive_bools, reason = "flags")]
pub struct DiscoverArgs {
    /// The table: a shipped profile's name, or a profile's path.
    #[arg(long, visible_alias = "on", value_name = "NAME|FILE", default_value = "nine-foot")]
    pub equipment: String,
    /// A measured table instead: the table.json that `railproof fit` wrote.
    #[arg(long, value_name = "FILE", conflicts_with = "equipment")]
    pub table: Option<PathBuf>,
    /// A cushion over the equipment's own: a shipped one's name, or a profile's path with a `cushion`.
    #[arg(long, value_name = "NAME|FILE", conflicts_with_all = ["table", "known_by"])]
    pub cushion: Option<String>,
    /// The rail model: nose-and-cloth, nose-only or planar. Without it, the cushion's.
    #[arg(long, value_name = "MODEL", conflicts_with_all = ["table", "known_by"])]
    pub rail_model: Option<String>,
    /// Search on all the tables that this one could be, as nobody measured it.
    #[arg(long, value_name = "WHAT", conflicts_with = "table")]
    pub known_by: Option<KnownBy>,
    /// Who plays: steady, club or beginner, or a player's path.
    #[arg(long, value_name = "NAME|FILE", default_value = USUAL_PLAYER)]
    pub player: String,
    /// The rail banked off: long, end, head, foot, left or right.
    #[arg(long, value_name = "RAIL", default_value = "long")]
    pub rail: String,
    /// The target: corner, side, or a pocket by name, such as foot-left.
    #[arg(long, value_name = "POCKET", default_value = "corner")]
    pub pocket: String,
    /// The balls lie from this number along the rail, in diamonds.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "1")]
    pub from: String,
    /// They lie up to this number.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "3.75")]
    pub to: String,
    /// How far off the rail the balls lie at most, in hands (of 4 inches).
    #[arg(long, value_name = "COUNT", allow_hyphen_values = true, default_value_t = i64::from(BallSpread::USUAL.hands))]
    pub hands: i64,
    /// Half of the balls roll; without this all slide.
    #[arg(long)]
    pub rolling: bool,
    /// Leave out rules with a bend.
    #[arg(long)]
    pub straight: bool,
    /// Leave out rules with corrections for the ball.
    #[arg(long)]
    pub no_corrections: bool,
    /// What a step of working out costs.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "1")]
    pub step_cost: String,
    /// What a number to remember costs.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "1")]
    pub number_cost: String,
    /// How many balls: rules are searched on one half and judged on the other.
    #[arg(long, value_name = "COUNT", allow_hyphen_values = true, default_value_t = BallSpread::COUNT as i64)]
    pub balls: i64,
    /// Answer with JSON for other programs.
    #[arg(long)]
    pub json: bool,
    /// Folder for the picture of effort against balls made, as SVG and as PNG.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
    /// Walls.
    #[command(flatten)]
    pub budget: BudgetFlags,
}

/// The fewest balls.
const FEWEST_BALLS: usize = 32;
/// The most hands off.
const MOST_HANDS: u8 = 8;
const COST: Parameter = Parameter::new("cost", Dimension::Ratio, 0.01, 100.0, "");

/// Searches, and tells what was found.
///
/// # Errors
/// A [`Fault`] for a flag, the player, the table, or a picture that can't be written.
pub fn run(args: &DiscoverArgs) -> Result<Exit, Fault> {
    let question = question(args)?;
    if let Some(folder) = &args.into {
        make_folder(folder)?;
    }
    interrupt::ends();
    let waiting = waiting(&question);
    let found = Discovered::of(&question);
    waiting.finish_and_clear();
    let found = found?;
    let mut pictures = Vec::new();
    if let Some(folder) = &args.into {
        let picture = front_picture(&question, &found);
        pictures = write_both(folder, "front", picture.to_svg(), picture.to_png())?;
    }
    let text = if args.json {
        to_json(&DiscoveredAnswer::new(&question, &found))?
    } else {
        discovered_sentences(&question, &found) + &pictures_written(&pictures)
    };
    print(&text)?;
    Ok(Exit::Held)
}

/// A line on standard error while it is searched, where that is a terminal.
fn waiting(question: &DiscoverQuestion) -> ProgressBar {
    let line = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template("{spinner} {msg}, {elapsed}") {
        line.set_style(style);
    }
    let tables = match question.tables().len() {
        1 => "one table".to_owned(),
        many => format!("{many} tables"),
    };
    line.set_message(format!("searching rules on {} balls and {tables}", question.count));
    line.enable_steady_tick(Duration::from_millis(200));
    line
}

fn question(args: &DiscoverArgs) -> Result<DiscoverQuestion, Fault> {
    let here = Path::new("");
    let known = args.table.as_deref().map(read_table).transpose();
    let known = known.map_err(|fault| in_flag("--table", fault))?;
    let known = match args.known_by {
        Some(by) => Some(by.of(&args.equipment)?),
        None => known,
    };
    let table = match &known {
        Some(known) => known.middle(),
        None => find_profile(&args.equipment, here).map_err(|it| in_flag("--equipment", it))?,
    };
    let mut table = table;
    if let Some(cushion) = &args.cushion {
        let named = |fault| in_flag("--cushion", fault);
        let partial = find_partial(cushion, here).map_err(named)?;
        table = partial.over(&table).map_err(named)?;
    }
    if let Some(text) = &args.rail_model {
        table.cushion.rail_model = word::<RailModel>("--rail-model", text)?;
    }
    let model = known.as_ref().map_or(table.cushion.rail_model, |known| known.model);
    if model == RailModel::Compliant {
        return Err(Fault::bad_input("a stepped rail model is too slow for a search")
            .with_hint("take a table with another rail model"));
    }
    let player = find_player(&args.player, here).map_err(|fault| in_flag("--player", fault))?;
    let numbers = (
        number("--from", &args.from, Input::Contact.parameter())?,
        number("--to", &args.to, Input::Contact.parameter())?,
    );
    let pocket = word::<PocketChoice>("--pocket", &args.pocket)?;
    let rail = word::<RailChoice>("--rail", &args.rail)?.facing(pocket);
    let pocket = pocket.across_from(rail);
    let geometry = BankGeometry::new(&table, rail, pocket).map_err(|error| {
        Fault::bad_input(format!("`--rail` and `--pocket` make no bank: {error}"))
    })?;
    let ends = [geometry.low_groove_m, geometry.high_groove_m].map(|end| end / geometry.diamond_m);
    if !(ends[0] < numbers.0 && numbers.0 < numbers.1 && numbers.1 < ends[1]) {
        return Err(Fault::bad_input(
            "`--from` and `--to` must be two numbers on the rail, the lower first",
        )
        .with_hint(format!("from {:.2} to {:.2}", ends[0], ends[1])));
    }
    let balls = counted("--balls", args.balls, (FEWEST_BALLS, MOST_BALLS))?;
    let hands: u8 = counted("--hands", args.hands, (0, MOST_HANDS))?;
    let mut grammar = Grammar::usual();
    if args.straight {
        grammar.bends.clear();
    }
    if args.no_corrections {
        grammar = grammar.without_corrections();
    }
    Ok(DiscoverQuestion {
        known,
        model,
        player,
        balls: BallSpread { rail, pocket, numbers, hands, rolling: args.rolling },
        count: balls,
        grammar,
        weights: EffortWeights {
            operation: number("--step-cost", &args.step_cost, Some(COST))?,
            number: number("--number-cost", &args.number_cost, Some(COST))?,
        },
        table,
    })
}

fn counted<T: TryFrom<i64> + PartialOrd + Display>(
    flag: &str,
    count: i64,
    (least, most): (T, T),
) -> Result<T, Fault> {
    match T::try_from(count) {
        Ok(count) if least <= count && count <= most => Ok(count),
        _ => {
            Err(Fault::bad_input(format!("`{flag}` is {count}; it must be from {least} to {most}")))
        }
    }
}
