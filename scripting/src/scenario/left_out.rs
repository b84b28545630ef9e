//! What a scenario says about its results can't undo them: a selection, picture or expectation that asks
//! for something that is not there is left out, told at the end, and the script goes on.

use super::session::Session;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::lua::place::{self, Placed};
use mlua::{
    FromLuaMulti, IntoLua, Lua, MetaMethod, MultiValue, UserData, UserDataFields, UserDataMethods,
    Value,
};

/// A selection of nothing, or anything that comes of it.
#[derive(Debug, Clone, Copy)]
pub struct EmptySelection(usize);

impl EmptySelection {
    /// For the thing left out at a place of the list.
    pub const fn of(left_out: usize) -> Self {
        Self(left_out)
    }

    /// The one among the arguments of a call. The line of the call says nothing then.
    pub fn among(lua: &Lua, given: &MultiValue) -> mlua::Result<Option<Self>> {
        let found = given.iter().find_map(|value| match value {
            Value::UserData(data) => data.borrow::<Self>().ok().map(|nothing| *nothing),
            _ => None,
        });
        found.map(|nothing| nothing.silence(lua).map(|()| nothing)).transpose()
    }

    fn silence(self, lua: &Lua) -> mlua::Result<()> {
        if let Some(place) = place::call_line(lua) {
            Session::of(lua)?.silence(self.0, place.line_column().0);
        }
        Ok(())
    }
}

impl UserData for EmptySelection {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "selection of nothing");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::Index, |lua, this, name: String| {
            if name != "where" {
                this.silence(lua)?;
            }
            if name.starts_with("draw") {
                Session::of(lua)?.lose_picture();
            }
            let this = *this;
            lua.create_function(move |_, _: MultiValue| Ok(this))
        });
        // A loop over it ends at once.
        methods.add_meta_method(MetaMethod::Call, |_, _, _: MultiValue| Ok(Value::Nil));
        methods.add_meta_method(MetaMethod::ToString, |_, _, ()| Ok("nothing: it is left out"));
    }
}

/// The result, or nothing in its place.
///
/// # Errors
/// An end of another kind than bad input: an interrupt, a budget that is used up.
pub fn or_left_out<R: IntoLua>(lua: &Lua, done: mlua::Result<R>) -> mlua::Result<Value> {
    match done {
        Ok(made) => made.into_lua(lua),
        Err(error) => leave_out(lua, error)?.into_lua(lua),
    }
}

/// Keeps an error for the end of the run.
///
/// # Errors
/// As of [`or_left_out`].
pub fn leave_out(lua: &Lua, error: mlua::Error) -> mlua::Result<EmptySelection> {
    let fault: Fault = place::fault(lua, &error).placed(place::call_line(lua));
    if fault.exit == Exit::BadInput {
        return Ok(EmptySelection(Session::of(lua)?.leave_out(fault)));
    }
    Err(error)
}

/// Adds a method that selects.
pub fn add_selection<T: 'static, A: FromLuaMulti, R: IntoLua, M: UserDataMethods<T>>(
    methods: &mut M,
    name: &'static str,
    method: impl Fn(&Lua, &T, A) -> mlua::Result<R> + mlua::MaybeSend + 'static,
) {
    methods.add_method(name, move |lua, this, given: A| or_left_out(lua, method(lua, this, given)));
}

/// Adds a method that draws.
pub fn add_picture<T: 'static, A: FromLuaMulti, M: UserDataMethods<T>>(
    methods: &mut M,
    name: &'static str,
    method: impl Fn(&Lua, &T, A) -> mlua::Result<()> + mlua::MaybeSend + 'static,
) {
    methods.add_method(name, move |lua, this, given: MultiValue| {
        let drawn = match EmptySelection::among(lua, &given)? {
            Some(_) => Ok(()),
            None => A::from_lua_multi(given, lua).and_then(|given| method(lua, this, given)),
        };
        if let Err(error) = drawn {
            leave_out(lua, error)?;
            Session::of(lua)?.lose_picture();
        }
        Ok(())
    });
}

/// Calls what is said of results, unless one of the arguments is nothing.
pub fn unless_empty<R: IntoLua>(
    lua: &Lua,
    given: MultiValue,
    say: impl FnOnce(MultiValue) -> mlua::Result<R>,
) -> mlua::Result<Value> {
    match EmptySelection::among(lua, &given)? {
        Some(nothing) => nothing.into_lua(lua),
        None => or_left_out(lua, say(given)),
    }
}
