//! `grid { … }`: every input as a value, a list or a span becomes the axes of a plan.

use super::axis_text;
use super::equipment::{OneTable, is_known_table};
use super::inputs::{
    Keys, NumberOf, SpeedOf, SpinWord, WrittenNumber, agreed_speeds, input_keys, same,
};
use super::range::{RangeOf, is_range, range};
use super::session::Session;
use super::table_checks::{check_tables, placed_at_key};
use super::{members, missing_inputs};
use crate::fault::Fault;
use crate::fields::{Worded, Writing};
use crate::lua::options::{Kind, Mismatch, Options, object, one_or_many, word};
use crate::telling::AxisText;
use crate::telling::count;
use mlua::{Lua, MetaMethod, ObjectLike, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::equipment::{Equipment, SpokenSpeeds};
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use std::rc::Rc;

static KEYS: Keys = Keys::new(|| input_keys(&["name"]));

/// A grid in a script's hands.
#[derive(Debug, Clone)]
pub struct Banks(pub Rc<BankPlan>);

/// Reads a grid of tables that are known exactly.
#[derive(Debug, Clone, Copy)]
pub struct BanksOfOne;

impl Kind for BanksOfOne {
    type Output = Banks;

    fn expected(&self) -> String {
        "a grid".to_owned()
    }

    fn read(&self, value: &Value) -> Result<Banks, Mismatch> {
        let banks = object::<Banks>("a grid").read(value)?;
        if banks.0.of_many {
            return Err(Mismatch::message("is a grid of all the tables that one could be").with_hint(
                "ask them all: mine:shares(grid, rule), mine:rank(grid, { rules }), \
                 mine:exact_starts(grid), mine:frontier { … }; or give the grid equipment = mine.middle",
            ));
        }
        Ok(banks)
    }
}

/// A plan and the texts of its axes.
#[derive(Debug)]
pub struct BankPlan {
    /// The plan.
    pub plan: Plan,
    /// One for each axis of the plan, in its order.
    pub texts: Vec<AxisText>,
    /// The inputs that the script gave; the others have their usual value.
    pub written: Vec<Input>,
    /// The name of files of its rows; `None` for a default.
    pub name: Option<String>,
    /// Whether it is meant of all the tables that one could be; its plan names the middle one.
    pub of_many: bool,
}

/// The options of a grid in which the middle one stands for all the tables that one could be, and whether it
/// does.
fn with_middle(lua: &Lua, argument: Value) -> mlua::Result<(Value, bool)> {
    const EQUIPMENT: &str = "equipment";
    let Value::Table(given) = &argument else { return Ok((argument, false)) };
    let of_many: Value = given.raw_get(EQUIPMENT)?;
    let (Value::UserData(known), true) = (&of_many, is_known_table(&of_many)) else {
        return Ok((argument, false));
    };
    let table = lua.create_table()?;
    for pair in given.pairs::<Value, Value>() {
        let (key, value) = pair?;
        table.raw_set(key, value)?;
    }
    table.raw_set(EQUIPMENT, known.get::<Value>("middle")?)?;
    Ok((Value::Table(table), true))
}

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(
        "grid",
        lua.create_function(|lua, argument: Value| {
            let (argument, of_many) = with_middle(lua, argument)?;
            let options = Options::open(lua, "grid", &argument, &KEYS)?;
            let (mut axes, mut written) = read_axes(&options, Ranges::Refused)?;
            missing_inputs::stand_in(lua, &options, &mut axes, &mut written)?;
            let (plan, texts) = plan_of(&options, axes, &written)?;
            let written = written.iter().map(|text| text.input).collect();
            check_tables(&options, &plan)?;
            let name = if options.has("name") {
                Some(Session::of(lua)?.name(&options, "banks")?)
            } else {
                None
            };
            Ok(Banks(Rc::new(BankPlan { plan, texts, written, name, of_many })))
        })?,
    )
}

/// Reads every input that the options give, as values and lists.
pub fn read_plan(options: &Options) -> Result<(Plan, Vec<AxisText>), Fault> {
    let (axes, written) = read_axes(options, Ranges::Refused)?;
    plan_of(options, axes, &written)
}

/// The plan of some axes, and the texts of all of its own.
pub fn plan_of(
    options: &Options,
    axes: Vec<Axis>,
    written: &[AxisText],
) -> Result<(Plan, Vec<AxisText>), Fault> {
    let plan = Plan::new(axes).map_err(|error| placed_at_key(options, &error))?;
    let texts = plan.axes().iter().map(|axis| {
        let own = written.iter().find(|text| text.input == axis.input);
        own.cloned().unwrap_or_else(|| AxisText::of(axis))
    });
    let texts = texts.collect();
    Ok((plan, texts))
}

/// Whether an input may be a range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ranges {
    Taken,
    Refused,
}

/// Reads every input that the options give.
pub fn read_axes(options: &Options, ranges: Ranges) -> Result<(Vec<Axis>, Vec<AxisText>), Fault> {
    read_axes_but(options, ranges, |_, fault| Err(fault))
}

/// Reads every input that the options give, but those that `refused` takes.
pub fn read_axes_but(
    options: &Options,
    ranges: Ranges,
    mut refused: impl FnMut(Input, Fault) -> Result<(), Fault>,
) -> Result<(Vec<Axis>, Vec<AxisText>), Fault> {
    contradiction(options, "spin", "roll")?;
    contradiction(options, "speed", "lag")?;
    let mut axes = Vec::new();
    let mut written = Vec::new();
    for input in Input::all() {
        let read = if is_range(&options.raw(input.name())) {
            range_axis(options, input, ranges).map(|axis| Some((axis, None)))
        } else {
            read_axis(options, input).map(|read| read.map(|(axis, text)| (axis, Some(text))))
        };
        match read {
            Ok(Some((axis, text))) => {
                axes.push(axis);
                written.extend(text);
            }
            Ok(None) => {}
            Err(fault) => refused(input, fault)?,
        }
    }
    Ok((axes, written))
}

/// An input as a range.
fn range_axis(options: &Options, input: Input, ranges: Ranges) -> Result<Axis, Fault> {
    let key = input.name();
    if ranges == Ranges::Refused {
        let message = format!("`{key}` is a range, but a grid needs values");
        return Err(options.complain(key, message).with_hint(
            "give a list or span(first, last, step), or spread points with sample { … }",
        ));
    }
    let (low, high) = match (input, input.parameter()) {
        (Input::Speed | Input::Lag, _) => {
            options.required(key, RangeOf(SpeedOf(input, spoken(options))))?
        }
        (_, Some(parameter)) => options.required(key, RangeOf(NumberOf(parameter)))?,
        (_, None) => {
            return Err(
                options.complain(key, format!("`{key}` is chosen from words, so it has no range"))
            );
        }
    };
    if low.in_lengths != high.in_lengths {
        return Err(options.complain(key, format!("`{key}` mixes table lengths with other speeds")));
    }
    let input = if input == Input::Speed && low.in_lengths { Input::Lag } else { input };
    Ok(Axis { input, values: range(&low, &high) })
}

/// Refuses two options that say the same thing; the caret goes under the one written later.
pub fn contradiction(
    options: &Options,
    first: &'static str,
    second: &'static str,
) -> Result<(), Fault> {
    if !options.has(first) || !options.has(second) {
        return Ok(());
    }
    let complaint =
        |key| options.complain(key, format!("`{first}` and `{second}` contradict each other"));
    let (a, b) = (complaint(first), complaint(second));
    let starts_at = |fault: &Fault| fault.place.as_ref().map_or(0, |place| place.span().start);
    let (earlier, key, later) =
        if starts_at(&a) <= starts_at(&b) { (a, first, b) } else { (b, second, a) };
    let where_else = earlier.place.map_or_else(String::new, |place| {
        let (line, column) = place.line_column();
        format!("; `{key}` stands at line {line}, column {column}")
    });
    Err(later.with_hint(format!("give one of them{where_else}")))
}

fn read_axis(options: &Options, input: Input) -> Result<Option<(Axis, AxisText)>, Fault> {
    let key = input.name();
    let values = match input {
        Input::Equipment => {
            distinct(options, key, OneTable, |a, b| a.0.name == b.0.name, |one| one.0.name.clone())?
                .map(|all| {
                    Values::Equipment(all.iter().map(|one| Equipment::clone(&one.0)).collect())
                })
        }
        Input::Rail => words(options, key)?.map(Values::Rails),
        Input::Pocket => words(options, key)?.map(Values::Pockets),
        Input::RailModel => words(options, key)?.map(Values::Models),
        _ => return numbers(options, input),
    };
    Ok(values.map(|values| {
        let axis = Axis { input, values };
        let text = AxisText::of(&axis);
        (axis, text)
    }))
}

/// The speeds that words stand for on the tables of the options. What is wrong with those is told of themselves.
fn spoken(options: &Options) -> Option<SpokenSpeeds> {
    let tables = options.optional("equipment", one_or_many(OneTable)).ok().flatten()?;
    agreed_speeds(tables.iter().map(|one| &*one.0))
}

fn words<T: Worded + PartialEq>(
    options: &Options,
    key: &'static str,
) -> Result<Option<Vec<T>>, Fault> {
    distinct(options, key, word::<T>(), |a, b| a == b, |value| value.word().to_owned())
}

fn numbers(options: &Options, input: Input) -> Result<Option<(Axis, AxisText)>, Fault> {
    // A count of table lengths is no speed in m/s.
    let alike =
        |a: &WrittenNumber, b: &WrittenNumber| a.in_lengths == b.in_lengths && same(a.si, b.si);
    let key = input.name();
    let given = match (input, input.parameter()) {
        (Input::Speed | Input::Lag, _) => {
            distinct(options, key, SpeedOf(input, spoken(options)), alike, WrittenNumber::shown)?
        }
        (Input::Roll, _) if options.has("spin") => {
            distinct(options, "spin", SpinWord, alike, WrittenNumber::shown)?
        }
        (_, Some(parameter)) => {
            distinct(options, key, NumberOf(parameter), alike, WrittenNumber::shown)?
        }
        (_, None) => None,
    };
    let Some(values) = given else { return Ok(None) };
    let in_lengths = values[0].in_lengths;
    if let Some(other) = values.iter().position(|value| value.in_lengths != in_lengths) {
        return Err(options
            .complain_of_item(
                key,
                other + 1,
                format!("`{key}` mixes table lengths with other speeds"),
            )
            .with_hint(in_two_grids(&values)));
    }
    let input = match input {
        Input::Speed if in_lengths => Input::Lag,
        other => other,
    };
    let text = axis_text::written(input, &values);
    let numbers = values.iter().map(|value| value.si).collect();
    Ok(Some((Axis { input, values: Values::Numbers(numbers) }, text)))
}

/// The way to play table lengths and other speeds: `play them in two grids: one with …`.
fn in_two_grids(values: &[WrittenNumber]) -> String {
    /// As a script writes it.
    fn written(value: &WrittenNumber) -> String {
        match value.word {
            Some(word) => format!("\"{word}\""),
            None => Writing::Lua.quantity(value.amount, value.unit),
        }
    }
    let list = |in_lengths: bool| {
        let alike = values.iter().filter(|value| value.in_lengths == in_lengths);
        let alike: Vec<String> = alike.map(written).collect();
        let more = if alike.len() > MOST_WRITTEN { ", …" } else { "" };
        match alike.as_slice() {
            [only] => only.clone(),
            several => {
                let first = &several[..several.len().min(MOST_WRITTEN)];
                format!("{{ {}{more} }}", first.join(", "))
            }
        }
    };
    format!(
        "play them in two grids: one with speed = {}, and one with speed = {}",
        list(true),
        list(false)
    )
}

/// Values of a list that a hint writes out.
const MOST_WRITTEN: usize = 4;

/// One value or a list of them, none twice.
fn distinct<K: Kind>(
    options: &Options,
    key: &'static str,
    kind: K,
    same: impl Fn(&K::Output, &K::Output) -> bool,
    name: impl Fn(&K::Output) -> String,
) -> Result<Option<Vec<K::Output>>, Fault> {
    let Some(values) = options.optional(key, one_or_many(kind))? else { return Ok(None) };
    // Spans come in order, so a value's twin is its neighbour there; only short lists are compared
    // each with each.
    let reach = if values.len() > 2_000 { 1 } else { values.len() };
    for (at, value) in values.iter().enumerate() {
        let before = &values[at.saturating_sub(reach)..at];
        if before.iter().any(|other| same(other, value)) {
            return Err(options.complain_of_item(
                key,
                at + 1,
                format!("`{key}` has {} twice", name(value)),
            ));
        }
    }
    Ok(Some(values))
}

const MEMBERS: &[&str] = &["count"];

impl UserData for Banks {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "grid");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_method("count", |_, this, ()| Ok(this.0.plan.size() as f64));
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("a grid of {}", count(this.0.plan.size(), "point", "points")))
        });
        members::only(methods, "a grid", MEMBERS);
    }
}
