//! Flags for the balls, the table and the player of a search.

use super::bank::KnownBy;
use super::flags::{in_flag, number, word};
use super::walled::{files_to_read, named};
use crate::discovering::{AskedBalls, FEWEST_BALLS, MOST_BALLS, MOST_HANDS, MOST_SIDE};
use crate::fault::Fault;
use crate::fitting::read_table;
use crate::player::{USUAL_PLAYER, find_player};
use crate::profile::{find_partial, find_profile};
use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};
use railproof_engine::discover::BallSpread;
use railproof_engine::equipment::{Parameter, RailModel};
use railproof_engine::rail::{BankGeometry, PocketChoice, RailChoice};
use railproof_engine::sweep::Input;
use railproof_engine::units::{Dimension, SpeedWord};
use std::fmt::Display;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The balls that are searched over, on which table, and for whom.
#[derive(Debug, Clone, clap::Args)]
pub struct AskedBallsArgs {
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
    #[arg(long, value_name = "COUNT", allow_hyphen_values = true, default_value_t = BallSpread::USUAL.hands.to_string())]
    pub hands: String,
    /// Half of the balls roll; without this all slide.
    #[arg(long)]
    pub rolling: bool,
    /// The speed words that they are struck at, such as soft,firm; without this all three.
    #[arg(long, value_name = "WORDS", value_delimiter = ',')]
    pub speeds: Vec<String>,
    /// A third of them carry so much running side and a third as much reverse side; the rate of turning times the radius
    /// over the speed.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true, default_value = "0")]
    pub side: String,
    /// About how many balls, as many of each kind, three at least: half are searched on, and what is told comes from the
    /// other half.
    #[arg(long, value_name = "COUNT", allow_hyphen_values = true, default_value_t = BallSpread::COUNT.to_string())]
    pub balls: String,
}

const SIDE: Parameter = Parameter::new("side", Dimension::Ratio, 0.0, MOST_SIDE, "");

impl AskedBallsArgs {
    /// The files that may be read for them.
    pub(super) fn reads(&self) -> Vec<PathBuf> {
        let names =
            [Some(self.equipment.as_str()), self.cushion.as_deref(), Some(self.player.as_str())];
        [named(names), files_to_read([self.table.as_deref()])].concat()
    }

    /// Reads them.
    ///
    /// # Errors
    /// A [`Fault`] that names the flag.
    pub(super) fn asked(&self) -> Result<AskedBalls, Fault> {
        let here = Path::new("");
        let known = self.table.as_deref().map(read_table).transpose();
        let known = known.map_err(|fault| in_flag("--table", fault))?;
        let known = match self.known_by {
            Some(by) => Some(by.of(&self.equipment)?),
            None => known,
        };
        let table = match &known {
            Some(known) => known.middle(),
            None => find_profile(&self.equipment, here).map_err(|it| in_flag("--equipment", it))?,
        };
        let mut table = table;
        if let Some(cushion) = &self.cushion {
            let named = |fault| in_flag("--cushion", fault);
            let partial = find_partial(cushion, here).map_err(named)?;
            table = partial.over(&table).map_err(named)?;
        }
        if let Some(text) = &self.rail_model {
            table.cushion.rail_model = word::<RailModel>("--rail-model", text)?;
        }
        let model = known.as_ref().map_or(table.cushion.rail_model, |known| known.model);
        if model == RailModel::Compliant {
            return Err(Fault::bad_input("a stepped rail model is too slow for a search")
                .with_hint("take a table with another rail model"));
        }
        let player = find_player(&self.player, here).map_err(|fault| in_flag("--player", fault))?;
        let numbers = (
            number("--from", &self.from, Input::Contact.parameter())?,
            number("--to", &self.to, Input::Contact.parameter())?,
        );
        let pocket = word::<PocketChoice>("--pocket", &self.pocket)?;
        let rail = word::<RailChoice>("--rail", &self.rail)?.facing(pocket);
        let pocket = pocket.across_from(rail);
        let geometry = BankGeometry::new(&table, rail, pocket).map_err(|error| {
            Fault::bad_input(format!("`--rail` and `--pocket` make no bank: {error}"))
        })?;
        let (low, high) = geometry.contacts();
        if !(low < numbers.0 && numbers.0 < numbers.1 && numbers.1 < high) {
            return Err(Fault::bad_input(
                "`--from` and `--to` must be two numbers on the rail, the lower first",
            )
            .with_hint(format!("from {low:.2} to {high:.2}")));
        }
        let count = counted("--balls", &self.balls, (FEWEST_BALLS, MOST_BALLS))?;
        let hands: u8 = counted("--hands", &self.hands, (0, MOST_HANDS))?;
        let mut words = [false; 3];
        for text in &self.speeds {
            let asked = word::<SpeedWord>("--speeds", text)?;
            for (word, own) in SpeedWord::ALL.into_iter().zip(&mut words) {
                if word == asked && *own {
                    return Err(Fault::bad_input(format!("`--speeds` names {text} twice")));
                }
                *own |= word == asked;
            }
        }
        let side = number("--side", &self.side, Some(SIDE))?;
        let balls = BallSpread { rail, pocket, numbers, hands, rolling: self.rolling, words, side };
        Ok(AskedBalls { table, known, model, player, balls, count })
    }
}

/// A whole number within a range.
fn counted<T: TryFrom<i64> + PartialOrd + Display>(
    flag: &str,
    text: &str,
    (least, most): (T, T),
) -> Result<T, Fault> {
    let wanted = || format!("a whole number from {least} to {most}");
    let any = number(flag, text, None)
        .map_err(|fault| Fault::bad_input(fault.message).with_hint(format!("give {}", wanted())))?;
    #[expect(clippy::cast_possible_truncation, reason = "it is compared with what it was")]
    let whole = any as i64;
    match T::try_from(whole) {
        Ok(count) if whole as f64 == any && least <= count && count <= most => Ok(count),
        _ => Err(Fault::bad_input(format!("`{flag}` is {text}; it must be {}", wanted()))),
    }
}

/// A line on standard error while it is searched, where that is a terminal.
pub(super) fn waiting(what: &str, asked: &AskedBalls) -> ProgressBar {
    let line = ProgressBar::with_draw_target(None, ProgressDrawTarget::stderr());
    if let Ok(style) = ProgressStyle::with_template("{spinner} {msg}, {elapsed}") {
        line.set_style(style);
    }
    let tables = match asked.tables().len() {
        1 => "one table".to_owned(),
        many => format!("{many} tables"),
    };
    line.set_message(format!("searching {what} on {} balls and {tables}", asked.count));
    line.enable_steady_tick(Duration::from_millis(200));
    line
}
