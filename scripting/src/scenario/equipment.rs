//! `equipment "nine-foot"`, `cushion "file.yaml"`, and equipment changed by `with`.

use super::inputs::{Keys, NumberOf, WrittenNumber};
use super::members;
use super::session::Session;
use crate::fault::Fault;
use crate::lua::options::{Kind, Mismatch, Options, name, object, word};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::{Quantity, kind_of};
use crate::profile::{Partial, PartsConflict, check_parts, find_partial, find_profile, in_inches};
use crate::telling::speeds_turned_round;
use mlua::{IntoLua, Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::equipment::{Equipment, EquipmentNumber, FrictionLaw, RailModel};
use std::rc::Rc;

/// Equipment in a script's hands.
#[derive(Debug, Clone)]
pub struct EquipmentObject(pub Rc<Equipment>);

/// The type of an object that is all the tables that one could be.
pub const KNOWN_TABLE: &str = "known table";

/// Whether a value is such an object.
pub fn is_known_table(value: &Value) -> bool {
    let Value::UserData(data) = value else { return false };
    data.type_name().is_ok_and(|name| name.to_string_lossy() == KNOWN_TABLE)
}

/// Reads one table.
#[derive(Debug, Clone, Copy)]
pub struct OneTable;

impl Kind for OneTable {
    type Output = EquipmentObject;

    fn expected(&self) -> String {
        "an equipment".to_owned()
    }

    fn read(&self, value: &Value) -> Result<EquipmentObject, Mismatch> {
        if is_known_table(value) {
            let message = "must be one table; this is all the tables that one could be";
            return Err(Mismatch::message(message)
                .with_hint("take the middle one of them, such as mine.middle"));
        }
        let read = object::<EquipmentObject>("an equipment").read(value);
        match value {
            Value::String(name) => {
                let call = format!("write equipment \"{}\"", name.to_string_lossy());
                read.map_err(|mismatch| mismatch.with_hint(call))
            }
            _ => read,
        }
    }
}

/// Some sections of a profile, to be laid over equipment.
#[derive(Debug, Clone)]
pub struct PartialObject(Rc<Partial>);

/// Words that a script reads and changes beside the numbers.
const WORDS: [&str; 3] = ["name", "rail_model", "friction_law"];

static WITH_KEYS: Keys = Keys::new(|| {
    WORDS.into_iter().chain(EquipmentNumber::all().map(EquipmentNumber::name)).collect()
});

static MEMBERS: Keys = Keys::new(|| [&["with"], WITH_KEYS.as_slice()].concat());

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set(
        "equipment",
        lua.create_function(|lua, name: Value| {
            let found = file_named(lua, "equipment", &name, |name, session| {
                session.note_lengths(in_inches(name, session.folder()));
                find_profile(name, session.folder())
            })?;
            let table = Rc::new(found);
            if let Some(words) = speeds_turned_round(&table) {
                place::remark(lua, &words);
            }
            Session::of(lua)?.add_table(&table);
            Ok(EquipmentObject(table))
        })?,
    )?;
    into.raw_set(
        "cushion",
        lua.create_function(|lua, name: Value| {
            let found = file_named(lua, "cushion", &name, |name, session| {
                find_partial(name, session.folder())
            })?;
            Ok(PartialObject(Rc::new(found)))
        })?,
    )
}

fn file_named<T>(
    lua: &Lua,
    call: &'static str,
    name: &Value,
    find: impl FnOnce(&str, &Session) -> Result<T, Fault>,
) -> mlua::Result<T> {
    let at = || place::argument(lua, call, 1);
    let Value::String(name) = name else {
        return Err(Fault::bad_input(format!(
            "{call} takes the name of a profile or a file, not {}",
            kind_of(name)
        ))
        .with_hint(format!("write it like {call} \"nine-foot\""))
        .placed(at())
        .into());
    };
    let session = Session::of(lua)?;
    find(&name.to_string_lossy(), &session).map_err(|fault| fault.placed(at()).into())
}

impl EquipmentObject {
    /// The equipment that a value is.
    pub fn of(value: &Value) -> Option<Equipment> {
        let Value::UserData(data) = value else { return None };
        data.borrow::<Self>().ok().map(|held| (*held.0).clone())
    }
}

impl UserData for EquipmentObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "equipment");
        fields.add_field_method_get("name", |_, this| Ok(this.0.name.clone()));
        fields.add_field_method_get("rail_model", |_, this| Ok(this.0.cushion.rail_model.name()));
        fields.add_field_method_get("friction_law", |_, this| {
            Ok(this.0.ball_contact.friction_law.name())
        });
        for number in EquipmentNumber::all() {
            fields.add_field_method_get(number.name(), move |lua, this| {
                let si = number.get(&this.0);
                match number.parameter().dimension.si_symbol() {
                    "" => Ok(Value::Number(si)),
                    symbol => Quantity::new(si, symbol)?.into_lua(lua),
                }
            });
        }
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.0.name.clone()));
        methods.add_meta_function(MetaMethod::Eq, |_, (a, b): (Value, Value)| {
            let held = |value: &Value| match value {
                Value::UserData(data) => data.borrow::<Self>().ok().map(|held| Rc::clone(&held.0)),
                _ => None,
            };
            Ok(held(&a).zip(held(&b)).is_some_and(|(a, b)| a == b))
        });
        methods.add_method("with", with);
        members::only(methods, "equipment", &MEMBERS);
    }
}

impl UserData for PartialObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "partial profile");
        fields.add_field_method_get("name", |_, this| Ok(this.0.name().to_owned()));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.0.name().to_owned()));
        members::only(methods, "a partial profile", &["name"]);
    }
}

/// `hall:with { a_cushion, sliding_friction = 0.22 }` or `hall:with(a_cushion)`.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn with(lua: &Lua, this: &EquipmentObject, argument: Value) -> mlua::Result<EquipmentObject> {
    let (partials, named) = sorted(lua, &argument)?;
    let options = Options::open(lua, "with", &named, &WITH_KEYS)?;
    let mut equipment = Equipment::clone(&this.0);
    for partial in &partials {
        equipment = partial
            .0
            .over(&equipment)
            .map_err(|fault| fault.placed(place::call(lua, Some("with"))))?;
    }
    let mut changes = Vec::new();
    if let Some(model) = options.optional("rail_model", word::<RailModel>())? {
        equipment.cushion.rail_model = model;
        changes.push(format!("{} rail", model.name()));
    }
    if let Some(law) = options.optional("friction_law", word::<FrictionLaw>())? {
        equipment.ball_contact.friction_law = law;
        changes.push(format!("{} friction between balls", law.name()));
    }
    for number in EquipmentNumber::all() {
        if let Some(written) = options.optional(number.name(), NumberOf(number.parameter()))? {
            let WrittenNumber { si, .. } = written;
            number.set(&mut equipment, si);
            changes.push(format!("{} {}", number.title(), written.shown()));
        }
    }
    if partials.is_empty() && changes.is_empty() && !options.has("name") {
        return Err(options.complain_of_call("`with` changes nothing here").into());
    }
    if !changes.is_empty() {
        equipment.name = format!("{}, {}", equipment.name, changes.join(", "));
    }
    if let Some(name) = options.optional("name", name())? {
        equipment.name = name;
    }
    check_parts(&equipment).map_err(|conflict| conflicting(&options, conflict))?;
    Ok(EquipmentObject(Rc::new(equipment)))
}

/// Parts that do not go together, told at the option that brought them there.
fn conflicting(options: &Options, conflict: PartsConflict) -> Fault {
    let PartsConflict { message, hint, numbers } = conflict;
    let fault = match numbers.iter().find(|key| options.has(key)) {
        Some(key) => options.complain(key, message),
        None => options.complain_of_call(message),
    };
    match hint {
        Some(hint) => fault.with_hint(hint),
        None => fault,
    }
}

/// The partial profiles without a name, and a table of the rest.
fn sorted(lua: &Lua, argument: &Value) -> mlua::Result<(Vec<PartialObject>, Value)> {
    let partial = |value: &Value| match value {
        Value::UserData(data) => data.borrow::<PartialObject>().ok().map(|held| held.clone()),
        _ => None,
    };
    if let Some(only) = partial(argument) {
        return Ok((vec![only], Value::Table(lua.create_table()?)));
    }
    let Value::Table(table) = argument else { return Ok((Vec::new(), argument.clone())) };
    let mut partials = Vec::new();
    let named = lua.create_table()?;
    let count = table.raw_len();
    for (number, value) in table.sequence_values::<Value>().enumerate() {
        let value = value?;
        partials.push(partial(&value).ok_or_else(|| {
            Fault::bad_input(format!(
                "item {} is {}; only partial profiles such as cushion \"…\" go without a name",
                number + 1,
                kind_of(&value)
            ))
            .placed(place::call(lua, Some("with")))
        })?);
    }
    for pair in table.pairs::<Value, Value>() {
        let (key, value) = pair?;
        let positional = matches!(&key, Value::Integer(at) if (1..=i64::try_from(count).unwrap_or(i64::MAX)).contains(at))
            || matches!(&key, Value::Number(at) if *at >= 1.0 && *at <= count as f64 && at.fract() == 0.0);
        if !positional {
            named.raw_set(key, value)?;
        }
    }
    Ok((partials, Value::Table(named)))
}
