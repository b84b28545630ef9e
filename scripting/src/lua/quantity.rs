//! Quantities in scripts: a number that carries its unit, and arithmetic that keeps the two right.

use super::place::{self, CallSite, Placed};
use crate::fault::Fault;
pub use crate::fields::plain_shown as shown;
use crate::fields::{CONSTRUCTORS, Writing};
use crate::renamed;
use mlua::{
    AnyUserData, FromLua, Lua, MetaMethod, MultiValue, Table, UserData, UserDataFields,
    UserDataMethods, Value,
};
use railproof_engine::units::{Dimension, Speed, in_si, leading_number, unit_symbol};
use std::cmp::Ordering;

/// Quantities closer than this share of their size count as equal: 12 inches and a foot differ in
/// the last bit.
pub const EQUAL_WITHIN: f64 = 1e-12;

/// The dimensions a script can write.
const WRITABLE: [Dimension; 9] = [
    Dimension::Length,
    Dimension::Speed,
    Dimension::Angle,
    Dimension::SpinRate,
    Dimension::SpinDeceleration,
    Dimension::Mass,
    Dimension::Time,
    Dimension::Acceleration,
    Dimension::PerSpeed,
];

/// The kind of a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum QuantityKind {
    /// In units of a dimension.
    Of(Dimension),
    /// A speed as a lag: the table lengths a rolling ball covers before it rests. How fast that is
    /// depends on the table.
    TableLengths,
}

impl QuantityKind {
    /// In words, with its article.
    pub fn described(self) -> &'static str {
        match self {
            Self::Of(Dimension::Length) => "a length",
            Self::Of(Dimension::Speed) => "a speed",
            Self::Of(Dimension::Angle) => "an angle",
            Self::Of(Dimension::SpinRate) => "a spin",
            Self::Of(Dimension::SpinDeceleration) => "a spin deceleration",
            Self::Of(Dimension::Mass) => "a mass",
            Self::Of(Dimension::Time) => "a time",
            Self::Of(Dimension::Acceleration) => "an acceleration",
            Self::Of(Dimension::PerSpeed) => "a loss per speed",
            Self::Of(Dimension::Ratio) => "a plain number",
            Self::TableLengths => "a speed in table lengths",
        }
    }
}

/// A finite amount of a unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quantity {
    amount: f64,
    symbol: &'static str,
    /// SI units in one of this unit; 1 for table lengths, which have none.
    si: f64,
    measure: QuantityKind,
}

impl Quantity {
    /// An amount of one of the engine's units, by its symbol; `lengths` for table lengths.
    ///
    /// # Errors
    /// When the amount is not finite, or no such unit is known.
    pub fn new(amount: f64, symbol: &str) -> Result<Self, Fault> {
        let (measure, symbol, si) = unit_named(symbol).ok_or_else(|| unknown_unit(symbol))?;
        Self { amount, symbol, si, measure }.checked()
    }

    /// Reads `12 in`, `3 m/s` or `2 lengths`: a quantity of whichever kind its unit is.
    ///
    /// # Errors
    /// When it does not begin with a finite number or its unit is missing or unknown.
    pub fn parse(text: &str) -> Result<Self, Fault> {
        let Some((amount, unit)) = leading_number(text.trim()) else {
            return Err(Fault::bad_input(format!("`{text}` does not begin with a number"))
                .with_hint("a quantity is a finite number and its unit, like \"12 in\""));
        };
        if unit.is_empty() {
            return Err(Fault::bad_input(format!("`{text}` has no unit")).with_hint(format!(
                "write it like \"{} in\" or \"{} m/s\"",
                text.trim(),
                text.trim()
            )));
        }
        if unit.starts_with(',') {
            return Err(Fault::bad_input(format!("`{text}` has a comma in its number"))
                .with_hint(format!("decimals take a point: \"{}\"", text.replacen(',', ".", 1))));
        }
        if let Some((measure, symbol, si)) = unit_named(unit_symbol(unit)) {
            return Self { amount, symbol, si, measure }.checked();
        }
        Err(unknown_unit(unit))
    }

    /// The amount, in the unit it was written in.
    pub fn amount(self) -> f64 {
        self.amount
    }

    /// The unit's symbol.
    pub fn symbol(self) -> &'static str {
        self.symbol
    }

    /// Its kind.
    pub fn kind(self) -> QuantityKind {
        self.measure
    }

    /// The SI value when it is of this dimension; a speed in table lengths has none.
    pub fn si(self, dimension: Dimension) -> Option<f64> {
        (self.measure == QuantityKind::Of(dimension)).then(|| in_si(self.amount, self.si))
    }

    /// The speed it is, in either measure.
    pub fn speed(self) -> Option<Speed> {
        match self.measure {
            QuantityKind::TableLengths => Some(Speed::TableLengths(self.amount)),
            QuantityKind::Of(_) => self.si(Dimension::Speed).map(Speed::MetresPerSecond),
        }
    }

    /// The same unit with another amount.
    ///
    /// # Errors
    /// When the amount is not finite.
    pub fn with_amount(self, amount: f64) -> Result<Self, Fault> {
        Self { amount, ..self }.checked()
    }

    /// The other quantity's amount in this one's unit, when both are measured alike.
    pub fn amount_of(self, other: Self) -> Option<f64> {
        if self.measure != other.measure {
            None
        } else if self.symbol == other.symbol {
            Some(other.amount)
        } else {
            Some(converted(other.amount, other.si, self.si))
        }
    }

    fn checked(self) -> Result<Self, Fault> {
        if self.amount.is_finite() && (self.amount * self.si).is_finite() {
            Ok(self)
        } else {
            let what = self.measure.described();
            Err(Fault::bad_input(format!("{what} must be finite, not {}", self.amount)))
        }
    }

    /// As it was written, to the last digit.
    pub fn written(self) -> String {
        with_unit(&shown(self.amount), self.symbol)
    }

    fn compared(self, other: Self) -> Option<Ordering> {
        let theirs = self.amount_of(other)?;
        let close = EQUAL_WITHIN * self.amount.abs().max(theirs.abs());
        if (self.amount - theirs).abs() <= close {
            return Some(Ordering::Equal);
        }
        self.amount.partial_cmp(&theirs)
    }
}

impl std::fmt::Display for Quantity {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(&with_unit(&told(self.amount), self.symbol))
    }
}

/// A number in a sentence: four decimals, or of a small one four digits.
fn told(amount: f64) -> String {
    let digits = if amount.abs() < 0.1 { format!("{amount:.3e}") } else { format!("{amount:.4}") };
    shown(digits.parse().unwrap_or(amount))
}

/// An amount and its unit; of table lengths, one is a length.
pub fn with_unit(amount: &str, unit: &str) -> String {
    let unit =
        if amount == "1" && unit.ends_with("lengths") { unit.trim_end_matches('s') } else { unit };
    format!("{amount} {unit}").trim_end().to_owned()
}

/// An amount in another unit. Where one unit is a whole multiple of the other, as twelve inches are
/// a foot, the multiple itself is used and not its rounded quotient.
fn converted(amount: f64, from_si: f64, to_si: f64) -> f64 {
    let whole = |quotient: f64| {
        let rounded = quotient.round();
        ((quotient - rounded).abs() <= 1e-14 * rounded).then_some(rounded)
    };
    if let Some(multiple) = whole(from_si / to_si) {
        amount * multiple
    } else if let Some(multiple) = whole(to_si / from_si) {
        amount / multiple
    } else {
        amount * from_si / to_si
    }
}

fn all_units() -> impl Iterator<Item = (QuantityKind, &'static str, f64)> {
    let lengths = ["lengths", "length"].map(|symbol| (QuantityKind::TableLengths, symbol, 1.0));
    let of_dimension = |dimension: Dimension| {
        let measured = move |unit: &railproof_engine::units::Unit| {
            (QuantityKind::Of(dimension), unit.symbol, unit.si)
        };
        dimension.units().iter().map(measured)
    };
    lengths.into_iter().chain(WRITABLE.into_iter().flat_map(of_dimension))
}

fn unit_named(symbol: &str) -> Option<(QuantityKind, &'static str, f64)> {
    all_units().find(|(_, known, _)| *known == symbol)
}

fn unknown_unit(unit: &str) -> Fault {
    let known: Vec<&str> = all_units().map(|(_, symbol, _)| symbol).collect();
    let hint = renamed::hint_or_all(unit, known.iter().copied(), "use one of");
    Fault::bad_input(format!("`{unit}` is not a known unit")).with_hint(hint)
}

/// A value of this kind as a script writes it, for messages: `mps(3)`.
pub fn example(measure: QuantityKind, amount: f64) -> String {
    let unit = match measure {
        QuantityKind::Of(dimension) => dimension.usual_symbol(),
        QuantityKind::TableLengths => "lengths",
    };
    Writing::Lua.quantity(amount, unit)
}

/// Puts the constructors (`inches(4)`, `mps(3)`, …) and `quantity "12 in"` into a table.
///
/// # Errors
/// Only when Lua has no memory left.
pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    for (name, symbol) in CONSTRUCTORS {
        let construct = move |lua: &Lua, mut given: MultiValue| {
            let number = |at: usize| given.get(at).and_then(plain_number);
            if let (Some(whole), Some(part)) = (number(0), number(1)) {
                let place = place::argument(lua, name, 2);
                let all: Vec<f64> = given.iter().filter_map(plain_number).collect();
                // Behind a decimal comma stands no space, and no third number.
                let apart = place.as_ref().is_some_and(|place| {
                    let [before, typed] =
                        [..place.span().start, ..place.span().end].map(|it| &place.source()[it]);
                    before.ends_with(char::is_whitespace) && !typed[before.len()..].starts_with('0')
                });
                // A part of a whole is no further number.
                if all.len() > 2 || (apart && part.abs() >= 1.0) {
                    let each: Vec<String> =
                        all.iter().map(|amount| format!("{name}({})", shown(*amount))).collect();
                    let count = all.len();
                    return Err(Fault::bad_input(format!("{name} takes one number, not {count}"))
                        .with_hint(format!("write {{ {} }}", each.join(", ")))
                        .placed(place)
                        .into());
                }
                let typed = place.as_ref().map(|place| &place.source()[place.span()]);
                let digits = typed.filter(|it| it.bytes().all(|byte| byte.is_ascii_digit()));
                let amount = match digits {
                    Some(digits) => format!("{}.{digits}", shown(whole)),
                    None => shown(whole + if whole < 0.0 { -part } else { part }),
                };
                return Err(Fault::bad_input(format!("{name} takes one number, not two"))
                    .with_hint(format!("a decimal takes a point: {name}({amount})"))
                    .placed(place)
                    .into());
            }
            let value = given.pop_front().unwrap_or(Value::Nil);
            let amount = plain_number(&value).ok_or_else(|| {
                Fault::bad_input(format!("{name} takes a plain number, not {}", kind_of(&value)))
            });
            amount
                .and_then(|amount| Quantity::new(amount, symbol))
                .map_err(|fault| fault.placed(place::argument(lua, name, 1)).into())
        };
        into.raw_set(
            name,
            lua.create_function(move |lua, value| -> mlua::Result<Quantity> {
                construct(lua, value)
            })?,
        )?;
    }
    let parse = |lua: &Lua, value: Value| -> mlua::Result<Quantity> {
        let parsed = match &value {
            Value::String(text) => Quantity::parse(&text.to_string_lossy()),
            other => Err(Fault::bad_input(format!(
                "quantity takes text in quotes, not {}",
                kind_of(other)
            ))
            .with_hint("write it like quantity \"12 in\"")),
        };
        parsed.map_err(|fault| fault.placed(place::argument(lua, "quantity", 1)).into())
    };
    into.raw_set("quantity", lua.create_function(parse)?)
}

/// A number as Lua holds it; texts that look like numbers are not.
pub fn plain_number(value: &Value) -> Option<f64> {
    match value {
        Value::Number(number) => Some(*number),
        Value::Integer(whole) => Some(*whole as f64),
        _ => None,
    }
}

/// The kind of a value in words, for messages.
pub fn kind_of(value: &Value) -> String {
    match value {
        Value::Nil => "nothing".to_owned(),
        Value::Boolean(truth) => truth.to_string(),
        Value::Integer(_) | Value::Number(_) => "a plain number".to_owned(),
        Value::String(text) => {
            let text = text.to_string_lossy();
            let short: String = text.chars().take(40).collect();
            format!("the text \"{short}{}\"", if short.len() < text.len() { "…" } else { "" })
        }
        Value::Table(_) => "a table".to_owned(),
        Value::Function(_) => "a function".to_owned(),
        Value::UserData(data) => match held(value) {
            Some(quantity) => quantity.measure.described().to_owned(),
            None => kind_of_userdata(data),
        },
        other => format!("a {}", other.type_name()),
    }
}

fn kind_of_userdata(data: &AnyUserData) -> String {
    match data.type_name() {
        Ok(name) => {
            let name = name.to_string_lossy();
            let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
            format!("{article} {name}")
        }
        Err(_) => "an object".to_owned(),
    }
}

/// The quantity that a value is, or that its text writes out: `"12 in"`.
pub fn of_value(value: &Value) -> Option<Quantity> {
    match value {
        Value::String(text) => Quantity::parse(&text.to_string_lossy()).ok(),
        _ => held(value),
    }
}

/// The quantity that a value is; a text is none, so that it is not reckoned with.
fn held(value: &Value) -> Option<Quantity> {
    match value {
        Value::UserData(data) => data.borrow::<Quantity>().ok().map(|quantity| *quantity),
        _ => None,
    }
}

impl FromLua for Quantity {
    fn from_lua(value: Value, _: &Lua) -> mlua::Result<Self> {
        of_value(&value).ok_or_else(|| {
            Fault::bad_input(format!("a quantity is needed, not {}", kind_of(&value))).into()
        })
    }
}

/// A binary operator's operands, at least one of them a quantity.
type Operation = fn(&Value, &Value) -> Result<OperatorResult, Fault>;

/// The result of an operator.
enum OperatorResult {
    Number(f64),
    Quantity(Quantity),
}

fn sum(
    left: &Value,
    right: &Value,
    sign: f64,
    verb: &str,
    joint: &str,
) -> Result<OperatorResult, Fault> {
    if let (Some(a), Some(b)) = (held(left), held(right)) {
        if let Some(theirs) = a.amount_of(b) {
            return a.with_amount(a.amount + sign * theirs).map(OperatorResult::Quantity);
        }
        if a.speed().is_some() && b.speed().is_some() {
            return Err(Fault::bad_input(format!("{a} and {b} can't be {verb}"))
                .with_hint("how fast a table length is depends on the table"));
        }
    }
    Err(Fault::bad_input(format!("{} can't be {verb} {joint} {}", kind_of(right), kind_of(left))))
}

fn add(left: &Value, right: &Value) -> Result<OperatorResult, Fault> {
    sum(left, right, 1.0, "added", "to")
}

fn subtract(left: &Value, right: &Value) -> Result<OperatorResult, Fault> {
    sum(left, right, -1.0, "subtracted", "from")
}

fn multiply(left: &Value, right: &Value) -> Result<OperatorResult, Fault> {
    match (held(left), plain_number(left), held(right), plain_number(right)) {
        (Some(quantity), _, _, Some(factor)) | (_, Some(factor), Some(quantity), _) => {
            quantity.with_amount(quantity.amount * factor).map(OperatorResult::Quantity)
        }
        _ => Err(Fault::bad_input(format!(
            "{} can't be multiplied by {}; only by a plain number",
            kind_of(left),
            kind_of(right)
        ))),
    }
}

fn divide(left: &Value, right: &Value) -> Result<OperatorResult, Fault> {
    if let Some(quantity) = held(left) {
        if let Some(divisor) = plain_number(right) {
            return quantity.with_amount(quantity.amount / divisor).map(OperatorResult::Quantity);
        }
        if let Some(same) = held(right).and_then(|other| other.amount_of(quantity)) {
            let ratio = same / held(right).map_or(1.0, Quantity::amount);
            if ratio.is_finite() {
                return Ok(OperatorResult::Number(ratio));
            }
            return Err(Fault::bad_input(format!("{quantity} can't be divided by nothing")));
        }
    }
    Err(Fault::bad_input(format!("{} can't be divided by {}", kind_of(left), kind_of(right))))
}

/// Lua's equality asks no more than that; things of two kinds are unequal.
fn equal(left: &Value, right: &Value) -> bool {
    let both = held(left).zip(held(right));
    both.and_then(|(a, b)| a.compared(b)).is_some_and(Ordering::is_eq)
}

fn order(left: &Value, right: &Value) -> Result<Ordering, Fault> {
    let both = held(left).zip(held(right));
    both.and_then(|(a, b)| a.compared(b)).ok_or_else(|| {
        Fault::bad_input(format!("{} can't be compared with {}", kind_of(left), kind_of(right)))
    })
}

fn here(lua: &Lua, fault: Fault) -> mlua::Error {
    fault.placed(place::call_line(lua)).into()
}

impl UserData for Quantity {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "quantity");
        fields.add_field_method_get("amount", |_, this| Ok(this.amount));
        fields.add_field_method_get("unit", |_, this| Ok(this.symbol));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        let operations: [(MetaMethod, Operation); 4] = [
            (MetaMethod::Add, add),
            (MetaMethod::Sub, subtract),
            (MetaMethod::Mul, multiply),
            (MetaMethod::Div, divide),
        ];
        for (name, operation) in operations {
            methods.add_meta_function(name, move |lua, (left, right): (Value, Value)| {
                match operation(&left, &right) {
                    Ok(OperatorResult::Number(number)) => Ok(Value::Number(number)),
                    Ok(OperatorResult::Quantity(quantity)) => {
                        lua.create_userdata(quantity).map(Value::UserData)
                    }
                    Err(fault) => Err(here(lua, fault)),
                }
            });
        }
        methods.add_meta_method(MetaMethod::Unm, |_, this, ()| {
            Ok(Self { amount: -this.amount, ..*this })
        });
        methods.add_meta_function(MetaMethod::Eq, |_, (left, right): (Value, Value)| {
            Ok(equal(&left, &right))
        });
        methods.add_meta_function(MetaMethod::Lt, |lua, (left, right): (Value, Value)| {
            order(&left, &right).map(Ordering::is_lt).map_err(|fault| here(lua, fault))
        });
        methods.add_meta_function(MetaMethod::Le, |lua, (left, right): (Value, Value)| {
            order(&left, &right).map(Ordering::is_le).map_err(|fault| here(lua, fault))
        });
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.to_string()));
        methods.add_method("to", |lua, this, symbol: String| {
            let unit = Self::new(1.0, &symbol).and_then(|unit| {
                unit.amount_of(*this).ok_or_else(|| {
                    let what = this.measure.described();
                    Fault::bad_input(format!("`{symbol}` is not a unit of {what}"))
                })
            });
            let at = |fault: Fault| {
                let site = CallSite::find(lua).map(|site| site.place_of_argument("to", 1));
                mlua::Error::from(fault.placed(site))
            };
            unit.map_err(at)
        });
    }
}
