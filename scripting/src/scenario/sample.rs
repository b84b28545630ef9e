//! `sample { … }`: points spread over ranges instead of a grid.

use super::grid::{Ranges, read_axes};
use super::inputs::{Keys, input_keys};
use super::members;
use super::session::Session;
use super::table_checks::{check_tables, placed_at_key};
use crate::lua::options::{Options, choice, whole_number};
use crate::telling::count;
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::sample::Sampling;
use railproof_engine::sweep::Plan;
use std::rc::Rc;

static KEYS: Keys = Keys::new(|| input_keys(&["points", "how", "seed", "name"]));

/// A sample in a script's hands.
#[derive(Debug, Clone)]
pub struct SampleObject(pub Rc<SamplePlan>);

/// A plan of spread points.
#[derive(Debug)]
pub struct SamplePlan {
    /// The plan.
    pub plan: Plan,
    /// The name of files of its rows; `None` for a default.
    pub name: Option<String>,
}

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("sample", lua.create_function(sample)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn sample(lua: &Lua, argument: Value) -> mlua::Result<SampleObject> {
    let options = Options::open(lua, "sample", &argument, &KEYS)?;
    let hows: Vec<(&'static str, Sampling)> =
        Sampling::ALL.into_iter().map(|how| (how.name(), how)).collect();
    let how = options.optional("how", choice(&hows))?.unwrap_or(Sampling::Sobol);
    let points = options.required("points", whole_number())?;
    let seed = options.optional("seed", whole_number())?.unwrap_or(0);
    let (axes, _) = read_axes(&options, Ranges::Taken)?;
    let plan =
        Plan::sampled(axes, how, points, seed).map_err(|error| placed_at_key(&options, &error))?;
    check_tables(&options, &plan)?;
    let name =
        if options.has("name") { Some(Session::of(lua)?.name(&options, "sample")?) } else { None };
    Ok(SampleObject(Rc::new(SamplePlan { plan, name })))
}

const MEMBERS: &[&str] = &["count"];

impl UserData for SampleObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "sample");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_method("count", |_, this, ()| Ok(this.0.plan.size() as f64));
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("a sample of {}", count(this.0.plan.size(), "point", "points")))
        });
        members::only(methods, "a sample", MEMBERS);
    }
}
