//! The bank of a page. What is missing, can't be read or is given several times is told, and something usual stands
//! in, since a page helps more than none.

use super::bank::SingleBank;
use super::grid::{Ranges, plan_of, read_axes_but};
use super::inputs::WrittenNumber;
use super::missing_inputs::{add, of_word};
use super::session::Session;
use super::table_checks::placed_at_key;
use crate::fault::Fault;
use crate::fitting::nine_foot;
use crate::layout::places::touches_from_to;
use crate::lua::Quantity;
use crate::lua::options::Options;
use crate::lua::quantity::plain_number;
use crate::renamed;
use crate::telling::AxisText;
use mlua::Lua;
use railproof_engine::equipment::Equipment;
use railproof_engine::rail::Reading;
use railproof_engine::rule::Rule;
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use railproof_engine::units::{Dimension, SpeedWord, short_number};

const CONTACT: f64 = 2.0;
const SLOPE: f64 = 2.2;
const SPEED: SpeedWord = SpeedWord::Medium;

/// Inputs that can't be read.
struct RefusedInputs(Vec<(Input, Fault)>);

impl RefusedInputs {
    /// The fault of one of the inputs, which is told then, or that it is missing; with what stands in.
    fn told(&mut self, options: &Options, inputs: &[Input], stands_in: &str) -> Fault {
        let at = self.0.iter().position(|(input, _)| inputs.contains(input));
        match at.map(|at| self.0.remove(at).1) {
            Some(fault) => standing_in(fault, stands_in),
            None => missing(options, inputs[0].name(), stands_in),
        }
    }
}

/// The one bank of the options.
pub(super) fn page_bank(lua: &Lua, options: &Options) -> mlua::Result<SingleBank> {
    let session = Session::of(lua)?;
    let mut refused = RefusedInputs(Vec::new());
    let (mut axes, mut written) = read_axes_but(options, Ranges::Refused, |input, fault| {
        refused.0.push((input, fault));
        Ok(())
    })?;
    for axis in &mut axes {
        if let Some(fault) = first_alone(options, axis, &written) {
            session.leave_out(fault);
        }
    }
    let lacks =
        |axes: &[Axis], inputs: &[Input]| axes.iter().all(|axis| !inputs.contains(&axis.input));
    let known = axes.iter().find_map(|axis| match &axis.values {
        Values::Equipment(tables) => tables.first().cloned(),
        _ => None,
    });
    let table = match known {
        Some(table) => table,
        None => {
            let table = only_table(&session, options)?;
            let stands_in = format!("{} stands in", table.name);
            session.leave_out(refused.told(options, &[Input::Equipment], &stands_in));
            let values = Values::Equipment(vec![table.clone()]);
            axes.push(Axis { input: Input::Equipment, values });
            table
        }
    };
    if lacks(&axes, &[Input::Contact]) {
        let stands_in = format!("{CONTACT} stands in");
        session.leave_out(refused.told(options, &[Input::Contact], &stands_in));
        add(Input::Contact, &[WrittenNumber::plain(CONTACT)], &mut axes, &mut written);
    }
    // A word for a speed had no table to be read on.
    let spoken = options.raw(Input::Speed.name()).to_string().ok();
    let meant = spoken.as_deref().and_then(|text| {
        let word = renamed::meant(text, SpeedWord::ALL.iter().map(|word| word.name()));
        SpeedWord::ALL.into_iter().find(|it| it.name() == text || Some(it.name()) == word)
    });
    if let (true, Some(word)) = (lacks(&axes, &[Input::Speed, Input::Lag]), meant) {
        if spoken.as_deref() == Some(word.name()) {
            refused.0.retain(|(input, _)| *input != Input::Speed);
        } else {
            let stands_in = format!("{} stands in", word.name());
            session.leave_out(refused.told(options, &[Input::Speed], &stands_in));
        }
        add(Input::Speed, &[of_word(word, &table.speeds)], &mut axes, &mut written);
    }
    if lacks(&axes, &[Input::Speed, Input::Lag]) {
        let usual = of_word(SPEED, &table.speeds);
        let stands_in = format!("{} stands in ({} m/s)", SPEED.name(), short_number(usual.si, 2));
        session.leave_out(refused.told(options, &[Input::Speed, Input::Lag], &stands_in));
        add(Input::Speed, &[usual], &mut axes, &mut written);
    }
    if let Some(inches) = lacks(&axes, &[Input::OffRail]).then(|| bare_inches(options)).flatten() {
        let stands_in = format!("{} stands in", inches.shown());
        session.leave_out(refused.told(options, &[Input::OffRail], &stands_in));
        add(Input::OffRail, &[inches], &mut axes, &mut written);
    }
    for (input, fault) in refused.0 {
        session.leave_out(standing_in(fault, usual(input)));
    }
    let (plan, texts) = plan_of(options, axes, &written)?;
    let plan = on_rail(&session, options, plan)?;
    let usual_rule = || {
        Rule::linear(SLOPE, 0.0, Reading::Groove)
            .map_err(|error| options.complain_of_call(error.to_string()))
    };
    Ok(SingleBank::of(options, plan, texts, usual_rule)?)
}

/// A distance off the rail that is written without its unit, where it can be meant in inches.
fn bare_inches(options: &Options) -> Option<WrittenNumber> {
    let number = plain_number(&options.raw(Input::OffRail.name()))?;
    let inches = Quantity::new(number, "in").ok()?;
    let written = WrittenNumber::of(inches, inches.si(Dimension::Length)?);
    Input::OffRail.parameter().filter(|it| it.accepts(written.si)).map(|_| written)
}

/// What the options say nothing of, which needs no saying.
pub(super) fn unsaid(options: &Options) -> Vec<String> {
    let lacks = |keys: &[&'static str]| keys.iter().all(|key| !options.has(key));
    let mut lines = Vec::new();
    if lacks(&[Input::OffRail.name()]) {
        lines.push("no `off_rail` is given: the ball lies frozen".to_owned());
    }
    if lacks(&["rule", Input::Start.name()]) {
        lines.push(format!(
            "no `rule` and no `start` is given: start = {SLOPE} × contact stands in"
        ));
    }
    lines
}

/// The plan with a contact number where a ball touches the rail.
fn on_rail(session: &Session, options: &Options, plan: Plan) -> Result<Plan, Fault> {
    let first = vec![0; plan.axes().len()];
    let contact = plan.number(Input::Contact, &first).unwrap_or(CONTACT);
    let bank = plan.bank(&first).map_err(|error| placed_at_key(options, &error))?;
    let (least, most) = bank.geometry().contacts();
    if (least..=most).contains(&contact) || !(least..=most).contains(&CONTACT) {
        return Ok(plan);
    }
    let (shown, rail) = (short_number(contact, 3), bank.geometry().rail.name());
    let message = format!("contact {shown} is not on the {rail} rail; {CONTACT} stands in");
    session.leave_out(
        options.complain(Input::Contact.name(), message).with_hint(touches_from_to(least, most)),
    );
    let other = |axis: &Axis| match axis.input {
        Input::Contact => Axis { input: axis.input, values: Values::Numbers(vec![CONTACT]) },
        _ => axis.clone(),
    };
    Plan::new(plan.axes().iter().map(other).collect())
        .map_err(|error| placed_at_key(options, &error))
}

fn only_table(session: &Session, options: &Options) -> Result<Equipment, Fault> {
    match session.only_table() {
        Some(table) => Ok(table),
        None => nine_foot().map_err(|fault| options.complain_of_call(fault.message)),
    }
}

fn missing(options: &Options, name: &str, stands_in: &str) -> Fault {
    let line = match name {
        "equipment" => "equipment = equipment \"nine-foot\"",
        "contact" => "contact = 2",
        _ => "speed = \"medium\"",
    };
    options
        .complain_of_call(format!("`{name}` is missing; {stands_in}"))
        .with_hint(format!("put a line back in the braces, such as: {line},"))
}

fn standing_in(fault: Fault, stands_in: &str) -> Fault {
    Fault { message: format!("{}; {stands_in}", fault.message), ..fault }
}

/// Leaves an axis its first value, and tells of it where it has several.
fn first_alone(options: &Options, axis: &mut Axis, written: &[AxisText]) -> Option<Fault> {
    let count = axis.values.len();
    if count < 2 {
        return None;
    }
    match &mut axis.values {
        Values::Numbers(all) => all.truncate(1),
        Values::Equipment(all) => all.truncate(1),
        Values::Rails(all) => all.truncate(1),
        Values::Pockets(all) => all.truncate(1),
        Values::Models(all) => all.truncate(1),
        Values::Range(_) => {}
    }
    let key = written.iter().find(|it| it.input == axis.input).map_or("speed", AxisText::name);
    let key = if options.has(key) { key } else { axis.input.name() };
    let message = format!("a page shows one `{key}`, not {count}; the first stands in");
    let hint = "give each a page { … } of its own, with another `name`";
    Some(options.complain(key, message).with_hint(hint))
}

/// What is played where an input that need not be given can't be read.
const fn usual(input: Input) -> &'static str {
    match input {
        Input::OffRail => "frozen stands in",
        Input::Roll => "stun stands in",
        Input::RunningSide => "no side stands in",
        Input::Rail => "the left rail stands in",
        Input::Pocket => "the corner pocket stands in",
        _ => "the usual stands in",
    }
}
