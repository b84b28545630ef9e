//! Flags to a bank, its line and its launch; every refusal names its flag.

use super::BankArgs;
use crate::fault::{Fault, nearest};
use crate::playing::BankQuestion;
use crate::profile::{find_partial, find_profile};
use crate::renamed;
use railproof_engine::bank::{Bank, BankError, Launch, LaunchError};
use railproof_engine::equipment::{Parameter, RailModel};
use railproof_engine::rail::{Line, PocketChoice, RailChoice, Reading};
use railproof_engine::rule::Rule;
use railproof_engine::sweep::Input;
use railproof_engine::units::{Dimension, QuantityError, Speed, parse_quantity};
use std::path::Path;

impl BankArgs {
    /// Reads the flags.
    ///
    /// # Errors
    /// A [`Fault`] that names the flag, says what it accepts, and suggests the nearest word.
    pub fn question(&self) -> Result<BankQuestion, Fault> {
        let args = self;
        let here = Path::new("");
        let named = |flag: &'static str| move |fault: Fault| in_flag(flag, fault);
        let mut equipment = find_profile(&args.equipment, here).map_err(named("--equipment"))?;
        if let Some(cushion) = &args.cushion {
            let partial = find_partial(cushion, here).map_err(named("--cushion"))?;
            equipment = partial.over(&equipment).map_err(named("--cushion"))?;
        }
        let rail = word("--rail", &args.rail, &RailChoice::ALL, RailChoice::name)?;
        let pocket = word("--pocket", &args.pocket, &PocketChoice::ALL, PocketChoice::name)?;
        let model = match &args.rail_model {
            Some(text) => word("--rail-model", text, &RailModel::ALL, RailModel::name)?,
            None => equipment.cushion.rail_model,
        };
        let rail = rail.facing(pocket);
        let bank =
            Bank::new(&equipment, rail, pocket.across_from(rail), model).map_err(|error| {
                match &error {
                    BankError::Geometry(_) => {
                        Fault::bad_input(format!("`--rail` and `--pocket` make no bank: {error}"))
                            .with_hint(
                                "choose a pocket on the other side of the table from the rail",
                            )
                    }
                    BankError::ShortContact(_) => Fault::bad_input(error.to_string())
                        .with_hint("choose another rail model, or give the cushion a contact time"),
                }
            })?;
        let contact = number("--contact", &args.contact, Input::Contact.parameter())?;
        let (rule, line) = line(args, contact, &bank)?;
        let launch = launch(args, &bank)?;
        Ok(BankQuestion {
            bank,
            line,
            launch,
            rule,
            speed_text: args.speed.trim().to_owned(),
            off_rail_text: args.off_rail.trim().to_owned(),
            equipment: args.equipment.clone(),
            cushion: args.cushion.clone(),
        })
    }
}

fn line(args: &BankArgs, contact: f64, bank: &Bank) -> Result<(Option<Rule>, Line), Fault> {
    if let Some(text) = &args.start {
        let start = number("--start", text, Input::Start.parameter())?;
        return Ok((None, Line::new(contact, start)));
    }
    let rule = if args.mirror {
        Rule::mirror()
    } else {
        let readings = [Reading::Groove, Reading::Sight];
        let reading = word("--reading", &args.reading, &readings, Reading::name)?;
        let slope = number("--slope", &args.slope, None)?;
        let offset = number("--offset", &args.offset, None)?;
        Rule::linear(slope, offset, reading)
            .map_err(|error| Fault::bad_input(format!("`--slope` and `--offset`: {error}")))?
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

fn launch(args: &BankArgs, bank: &Bank) -> Result<Launch, Fault> {
    let off_rail_m = quantity("--off-rail", &args.off_rail, Launch::OFF_RAIL, "12 in")?;
    let aim_error_rad = quantity("--aim-error", &args.aim_error, Launch::AIM_ERROR, "2 mrad")?;
    let launch = Launch {
        off_rail_m,
        speed_m_s: speed(&args.speed, bank)?,
        roll: number("--roll", &args.roll, Some(Launch::ROLL))?,
        side: number("--running-side", &args.running_side, Some(Launch::RUNNING_SIDE))?,
        aim_error_rad,
    };
    launch.validated(bank.geometry().span_m).map_err(|error| match error {
        LaunchError::OffTable { span_m, .. } => Fault::bad_input(format!(
            "`--off-rail` is {}, which is not on the table",
            args.off_rail.trim()
        ))
        .with_hint(format!(
            "from groove to groove it is {span_m:.3} m ({:.1} in)",
            span_m / railproof_engine::units::INCH_M
        )),
        LaunchError::OutOfRange(error) => Fault::bad_input(error.to_string()),
    })
}

fn speed(text: &str, bank: &Bank) -> Result<f64, Fault> {
    let flag = "--speed";
    let example = "3 m/s";
    let parsed = Speed::parse(text).map_err(|error| unread(flag, &error, example))?;
    if let Speed::TableLengths(count) = parsed {
        in_range(&format!("`{flag}` in table lengths"), count, Input::Lag.parameter())?;
    }
    let equipment = bank.equipment();
    let deceleration = equipment.rolling_deceleration_m_s2();
    let m_s = parsed.metres_per_second(equipment.table.length_m, deceleration);
    in_range(&format!("`{flag}`"), m_s, Some(Launch::SPEED)).map_err(|fault| match parsed {
        Speed::TableLengths(_) => fault.with_hint(
            "table lengths become a speed through the cloth's rolling resistance; give it in m/s",
        ),
        Speed::MetresPerSecond(_) => fault,
    })
}

fn quantity(flag: &str, text: &str, parameter: Parameter, example: &str) -> Result<f64, Fault> {
    // Nothing is nothing in every unit.
    let value = match text.trim() {
        "0" => 0.0,
        _ => parse_quantity(text, parameter.dimension)
            .map_err(|error| unread(flag, &error, example))?,
    };
    in_range(&format!("`{flag}`"), value, Some(parameter))
}

fn number(flag: &str, text: &str, parameter: Option<Parameter>) -> Result<f64, Fault> {
    let value =
        parse_quantity(text, Dimension::Ratio).map_err(|error| unread(flag, &error, "2"))?;
    in_range(&format!("`{flag}`"), value, parameter)
}

fn in_range(what: &str, value: f64, parameter: Option<Parameter>) -> Result<f64, Fault> {
    let Some(parameter) = parameter else { return Ok(value) };
    parameter.check(value).map_err(|error| {
        Fault::bad_input(format!(
            "{what} is {}; it must be from {} to {}",
            error.value, error.low, error.high
        ))
    })
}

fn unread(flag: &str, error: &QuantityError, example: &str) -> Fault {
    let fault = Fault::bad_input(format!("`{flag}`: {error}"));
    let near = match error {
        QuantityError::WrongUnit { unit, accepted, .. } => nearest(unit, accepted.split(", ")),
        _ => None,
    };
    match near {
        Some(unit) => fault.with_hint(format!("did you mean `{unit}`?")),
        None => fault.with_hint(format!("for instance `{flag} \"{example}\"`")),
    }
}

fn word<T: Copy>(
    flag: &str,
    text: &str,
    all: &[T],
    name: fn(T) -> &'static str,
) -> Result<T, Fault> {
    if let Some(found) = all.iter().find(|one| name(**one) == text.trim()) {
        return Ok(*found);
    }
    let names = || all.iter().map(|one| name(*one));
    let fault = Fault::bad_input(format!("`{flag}` knows no `{text}`"));
    Err(match renamed::hint(text, names()) {
        Some(hint) => fault.with_hint(hint),
        None => fault.with_hint(format!("use one of: {}", names().collect::<Vec<_>>().join(", "))),
    })
}

/// A fault that stands in no file is one of the flag itself.
fn in_flag(flag: &str, fault: Fault) -> Fault {
    match fault.place {
        Some(_) => fault,
        None => Fault { message: format!("`{flag}`: {}", fault.message), ..fault },
    }
}
