//! `sample { … }`: points spread over ranges instead of a grid, and `from_to(low, high)`, a range.

use super::grid::{Ranges, read_axes};
use super::inputs::{Keys, WrittenNumber, input_keys};
use super::members;
use super::session::Session;
use super::table_checks::{check_tables, placed_at_key};
use crate::fault::Fault;
use crate::lua::options::{Kind, Mismatch, Options, choice, whole_number};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::{self, kind_of, plain_number};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::sample::Sampling;
use railproof_engine::sweep::{Plan, Span, Values};
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

/// `from_to(low, high)`: the two ends as they were written.
#[derive(Debug, Clone)]
struct FromTo {
    low: Value,
    high: Value,
}

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("from_to", lua.create_function(from_to)?)?;
    into.raw_set("sample", lua.create_function(sample)?)
}

fn from_to(lua: &Lua, (low, high): (Value, Value)) -> mlua::Result<FromTo> {
    for (at, value) in [&low, &high].into_iter().enumerate() {
        if plain_number(value).is_none() && quantity::of_value(value).is_none() {
            return Err(Fault::bad_input(format!(
                "from_to takes two numbers or quantities, not {}",
                kind_of(value)
            ))
            .with_hint("write from_to(1, 4) or from_to(mps(2), mps(6))")
            .placed(place::argument(lua, "from_to", at + 1))
            .into());
        }
    }
    Ok(FromTo { low, high })
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

/// Reads a range whose ends are of a kind.
#[derive(Debug, Clone, Copy)]
pub struct RangeOf<K>(pub K);

impl<K: Kind<Output = WrittenNumber>> Kind for RangeOf<K> {
    type Output = (WrittenNumber, WrittenNumber);

    fn expected(&self) -> String {
        format!("from_to of two of: {}", self.0.expected())
    }

    fn read(&self, value: &Value) -> Result<Self::Output, Mismatch> {
        let ends = match value {
            Value::UserData(object) => object.borrow::<FromTo>().ok(),
            _ => None,
        };
        let Some(ends) = ends else {
            return Err(Mismatch::other_sort(&self.expected(), value));
        };
        Ok((self.0.read(&ends.low)?, self.0.read(&ends.high)?))
    }
}

/// True for a range.
pub fn is_range(value: &Value) -> bool {
    matches!(value, Value::UserData(object) if object.is::<FromTo>())
}

/// The values of a range.
pub fn range(low: &WrittenNumber, high: &WrittenNumber) -> Values {
    Values::Range(Span { low: low.si, high: high.si })
}

impl UserData for FromTo {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "range");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        members::only(methods, "a range", &[]);
    }
}

const MEMBERS: &[&str] = &["count"];

impl UserData for SampleObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "sample");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_method("count", |_, this, ()| Ok(this.0.plan.size() as f64));
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("a sample of {} points", this.0.plan.size()))
        });
        members::only(methods, "a sample", MEMBERS);
    }
}
