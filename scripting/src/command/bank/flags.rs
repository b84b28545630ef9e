//! Flags to a bank, its line and its launch; every refusal names its flag.

use super::{BankArgs, KnownBy};
use crate::command::flags::{in_flag, in_range, measured, number, quantity, unfit, word};
use crate::fault::Fault;
use crate::fields::{FEWER_LENGTHS, Scalar, WrittenText};
use crate::fitting::{MeasuredTable, nine_foot, read_table};
use crate::layout::places::touches_from_to;
use crate::player::find_player;
use crate::playing::BankQuestion;
use crate::profile::{find_partial, find_profile, in_inches};
use crate::renamed;
use railproof_engine::bank::{Bank, BankError, Launch, LaunchError, speed_on};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, PocketChoice, RailChoice, Reading};
use railproof_engine::rule::Rule;
use railproof_engine::sweep::Input;
use railproof_engine::units::{NO_SUCH_LAG, Speed, SpeedWord, leading_number, short_number};
use std::path::Path;

impl KnownBy {
    /// All the tables that a piece of equipment could be, as nobody measured it.
    ///
    /// # Errors
    /// A [`Fault`] that names the flag.
    pub fn of(self, equipment: &str) -> Result<MeasuredTable, Fault> {
        let here = Path::new("");
        let table = find_profile(equipment, here).map_err(|fault| in_flag("--equipment", fault))?;
        if table.cushion.rail_model == RailModel::Compliant {
            return Err(Fault::bad_input(
                "`--known-by`: a stepped rail model is too slow for this many tables",
            )
            .with_hint("take a table with another rail model"));
        }
        let in_inches = in_inches(equipment, here).unwrap_or(false);
        match self {
            Self::Ranges => Ok(MeasuredTable::wide(&table, in_inches)),
            Self::Practice => MeasuredTable::by_practice(&table, &nine_foot()?, in_inches)
                .map_err(|error| Fault::bad_input(format!("`--known-by`: {error}"))),
        }
    }
}

impl BankArgs {
    /// The questions: one at the speed that is given, or one at each speed that has a word.
    ///
    /// # Errors
    /// A [`Fault`] that names the flag and the values it accepts, and suggests the nearest word.
    pub fn questions(&self) -> Result<Vec<BankQuestion>, Fault> {
        let known = self.table.as_deref().map(read_table).transpose();
        let known = known.map_err(|fault| in_flag("--table", fault))?;
        let known = match self.known_by {
            Some(by) => Some(by.of(&self.equipment)?),
            None => known,
        };
        match &self.speed {
            Some(speed) => Ok(vec![self.question(speed, known.as_ref())?]),
            None => {
                let words = SpeedWord::ALL.iter();
                words.map(|word| self.question(word.name(), known.as_ref())).collect()
            }
        }
    }

    /// The question at a speed, of a profile or of a measured table.
    fn question(&self, speed: &str, known: Option<&MeasuredTable>) -> Result<BankQuestion, Fault> {
        let args = self;
        let here = Path::new("");
        let player = args.player.as_ref().map(|name| find_player(name, here)).transpose();
        let player = player.map_err(|fault| in_flag("--player", fault))?;
        let named = |flag: &'static str| move |fault: Fault| in_flag(flag, fault);
        let mut equipment = match known {
            Some(known) => known.middle(),
            None => find_profile(&args.equipment, here).map_err(named("--equipment"))?,
        };
        if let Some(cushion) = &args.cushion {
            let partial = find_partial(cushion, here).map_err(named("--cushion"))?;
            equipment = partial.over(&equipment).map_err(named("--cushion"))?;
        }
        let asked = word::<RailChoice>("--rail", &args.rail)?;
        let pocket = word::<PocketChoice>("--pocket", &args.pocket)?;
        let model = match &args.rail_model {
            Some(text) => word::<RailModel>("--rail-model", text)?,
            None => equipment.cushion.rail_model,
        };
        let rail = asked.facing(pocket);
        let bank =
            Bank::new(&equipment, rail, pocket.across_from(rail), model).map_err(|error| {
                match &error {
                    BankError::Geometry(_) => {
                        Fault::bad_input(format!("`--rail` and `--pocket` make no bank: {error}"))
                            .with_hint("choose a pocket across the table from the rail")
                    }
                    BankError::ShortContact(_) => Fault::bad_input(error.to_string())
                        .with_hint("choose another rail model, or give the cushion a contact time"),
                }
            })?;
        let contact = number("--contact", &args.contact, Input::Contact.parameter())?;
        let (rule, line) = line(args, contact, &bank)?;
        on_rail(line.contact, &bank)?;
        let launch = launch(args, speed, &bank)?;
        let question = BankQuestion {
            bank,
            line,
            launch,
            reading: if args.start.is_some() {
                word("--reading", &args.reading)?
            } else {
                Reading::Groove
            },
            rule,
            speed_text: spaced(speed),
            off_rail_text: spaced(&args.off_rail),
            rail: asked,
            pocket,
            cushion: args.cushion.clone(),
            table_in_inches: match known {
                Some(known) => known.in_inches,
                None => in_inches(&args.equipment, here).unwrap_or(false),
            },
            known: known.cloned(),
            player,
        };
        question.on_middle_table().map_err(|error| Fault::bad_input(error.to_string()))
    }
}

/// The side, by either of its flags.
fn side(args: &BankArgs) -> Result<f64, Fault> {
    match &args.reverse_side {
        Some(text) => Ok(-number("--reverse-side", text, Some(Launch::RUNNING_SIDE))?),
        None => number("--running-side", &args.running_side, Some(Launch::RUNNING_SIDE)),
    }
}

/// A quantity as it is said again: `10in` as `10 in`.
fn spaced(text: &str) -> String {
    let text = text.trim();
    match leading_number(text) {
        Some((_, unit)) if unit.starts_with(char::is_alphabetic) => {
            format!("{} {unit}", text[..text.len() - unit.len()].trim_end())
        }
        _ => text.to_owned(),
    }
}

fn line(args: &BankArgs, contact: f64, bank: &Bank) -> Result<(Option<Rule>, Line), Fault> {
    if let Some(text) = &args.start {
        let start = in_sight(number("--start", text, Input::Start.parameter())?, bank)?;
        let reading = word::<Reading>("--reading", &args.reading)?;
        return Ok((None, Line::new(contact, start).groove_from(reading, bank.geometry())));
    }
    let rule = if args.mirror {
        Rule::mirror()
    } else {
        args.rule.rule(word::<Reading>("--reading", &args.reading)?)?
    };
    let line = rule.line_for_contact(contact, bank.geometry()).map_err(|error| {
        Fault::bad_input(format!("the rule {} gives no start number: {error}", rule.name()))
            .with_hint("give the start number with `--start`")
    })?;
    let ruled = "the start number that the rule gives";
    in_range(ruled, line.start, Input::Start.parameter())
        .map_err(|fault| fault.with_hint("look at `--slope` and `--offset`"))?;
    Ok((Some(rule), line))
}

fn launch(args: &BankArgs, at_speed: &str, bank: &Bank) -> Result<Launch, Fault> {
    let off_rail = match args.off_rail.trim() {
        "frozen" => "0",
        other => other,
    };
    let off_rail_m = quantity("--off-rail", off_rail, Launch::OFF_RAIL)?;
    let aim_error_rad = quantity("--aim-error", &args.aim_error, Launch::AIM_ERROR)?;
    let launch = Launch {
        off_rail_m,
        speed_m_s: speed(at_speed, bank)?,
        roll: number("--roll", &args.roll, Some(Launch::ROLL))?,
        side: side(args)?,
        aim_error_rad,
    };
    launch.validated(bank.geometry().span_m).map_err(|error| match error {
        LaunchError::OffTable { span_m, .. } => Fault::bad_input(format!(
            "`--off-rail` is {}, which is not on the table",
            args.off_rail.trim()
        ))
        .with_hint(format!(
            "from groove to groove it is {:.1} in ({span_m:.3} m)",
            span_m / railproof_engine::units::INCH_M
        )),
        LaunchError::NoSuchLag => Fault::bad_input(error.to_string()).with_hint(FEWER_LENGTHS),
        LaunchError::OutOfRange(error) => Fault::bad_input(error.to_string()),
    })
}

/// Refuses a contact number where the ball's centre can't be.
fn on_rail(contact: f64, bank: &Bank) -> Result<(), Fault> {
    let geometry = bank.geometry();
    let (low, high) = geometry.contacts();
    if (low..=high).contains(&contact) {
        return Ok(());
    }
    let (rail, pocket) = (geometry.rail.name(), geometry.pocket.name());
    let shown = short_number(contact, 3);
    Err(Fault::bad_input(format!("`--contact` is {shown}, which is not on the {rail} rail"))
        .with_hint(format!("counted from the {pocket} pocket, {}", touches_from_to(low, high))))
}

/// Refuses a start number farther past an end of the opposite rail than that rail is long.
fn in_sight(start: f64, bank: &Bank) -> Result<f64, Fault> {
    let (low, high) = bank.geometry().contacts();
    let (least, most) = ((low - high).round(), (2.0 * high).round());
    if (least..=most).contains(&start) {
        return Ok(start);
    }
    let shown = short_number(start, 3);
    Err(Fault::bad_input(format!("`--start` is {shown}, too far past the end of the rail")).with_hint(
        format!(
            "it is the place on the opposite rail where the line begins, in diamonds from the target pocket, from \
             {least} to {most}"
        ),
    ))
}

fn speed(text: &str, bank: &Bank) -> Result<f64, Fault> {
    let flag = "--speed";
    let (written, equipment) = (Speed::parse(text), bank.equipment());
    match written {
        Ok(Speed::TableLengths(count)) => {
            in_range(&format!("`{flag}` in table lengths"), count, Input::Lag.parameter())?;
            let m_s = speed_on(Speed::TableLengths(count), equipment);
            if m_s == f64::INFINITY {
                return Err(
                    Fault::bad_input(format!("`{flag}`: {NO_SUCH_LAG}")).with_hint(FEWER_LENGTHS)
                );
            }
            in_range(&format!("`{flag}`"), m_s, Some(Launch::SPEED))
        }
        Ok(Speed::Word(word)) => Ok(speed_on(Speed::Word(word), equipment)),
        _ if Speed::counted(text).is_some() => {
            let read = WrittenText(text).speed(&Launch::SPEED).map_err(|it| unfit(flag, it));
            read.map(|(speed, _)| speed_on(speed, equipment))
        }
        _ => {
            let unit = text.trim().trim_start_matches(|letter: char| !letter.is_alphabetic());
            let words = SpeedWord::ALL.into_iter().map(SpeedWord::name).chain(["lengths"]);
            measured(flag, text, Launch::SPEED).map_err(|fault| match renamed::hint(unit, words) {
                Some(hint) => fault.with_hint(hint),
                None if unit == text.trim() && fault.hint.is_some() => {
                    fault.with_hint("write it like `3 m/s`, or soft, medium or firm")
                }
                None => fault,
            })
        }
    }
}
