//! Subjects of expectations that wait for a claim, and the arguments of claims: nothing that a
//! scenario says about its results is passed over in silence.

use crate::fault::Fault;
use crate::lua::place::{self, Placed};
use crate::scenario::session::{Session, here};
use crate::scenario::{left_out, members};
use mlua::{FromLuaMulti, Lua, MetaMethod, MultiValue, UserDataMethods, Value};

/// A call of `expect` or `expect_number`, which a claim must follow.
#[derive(Debug, Clone, Copy)]
pub struct OpenExpectation(usize);

impl OpenExpectation {
    /// Opens the running call of `call`.
    pub fn new(lua: &Lua, call: &str) -> mlua::Result<Self> {
        let fault = Fault::bad_input(format!("`{call}` is given no claim, so nothing is expected"))
            .with_hint(match call {
                "expect_number" => "write one after it: expect_number(x):within(1, 2)",
                _ => "write one after it: expect(x):holds()",
            })
            .placed(here(lua, call));
        Ok(Self(Session::of(lua)?.open_expectation(fault)))
    }
}

/// A subject on which claims are made.
pub trait ClaimSubject {
    fn open(&self) -> OpenExpectation;
}

/// The arguments of a function, and their number.
pub trait Arguments: FromLuaMulti {
    const MOST: usize;
}

impl Arguments for () {
    const MOST: usize = 0;
}

impl Arguments for Value {
    const MOST: usize = 1;
}

impl Arguments for (Value, Value) {
    const MOST: usize = 2;
}

/// The arguments of the running call of `call`, of which there may be no more than it takes.
pub fn taken<A: Arguments>(lua: &Lua, call: &str, given: MultiValue) -> mlua::Result<A> {
    if given.len() > A::MOST {
        let most = match A::MOST {
            0 => "nothing".to_owned(),
            1 => "one thing".to_owned(),
            most => format!("at most {most} things"),
        };
        return Err(Fault::bad_input(format!("`{call}` takes {most}, not {}", given.len()))
            .placed(place::argument(lua, call, A::MOST + 1))
            .into());
    }
    A::from_lua_multi(given, lua)
}

/// Leaves out claims of any other name.
pub fn only<S: ClaimSubject + 'static, M: UserDataMethods<S>>(
    methods: &mut M,
    known: &'static [&'static str],
) {
    methods.add_meta_method(MetaMethod::Index, move |lua, this, name: Value| {
        Session::of(lua)?.close_expectation(this.open().0);
        let nothing =
            left_out::leave_out(lua, members::unknown(lua, "an expectation", known, &name))?;
        lua.create_function(move |_, _: MultiValue| Ok(nothing))
    });
}

/// Adds the claim that `call` makes.
pub fn add_claim<S, A: Arguments, M: UserDataMethods<S>>(
    methods: &mut M,
    call: &'static str,
    claim: impl Fn(&Lua, &S, A) -> mlua::Result<S> + mlua::MaybeSend + 'static,
) where
    S: ClaimSubject + Clone + mlua::IntoLua + 'static,
{
    methods.add_method(call, move |lua, this, given: MultiValue| {
        Session::of(lua)?.close_expectation(this.open().0);
        left_out::unless_empty(lua, given, |given| claim(lua, this, taken(lua, call, given)?))?;
        Ok(this.clone())
    });
}
