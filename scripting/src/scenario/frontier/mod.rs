//! `frontier { … }`: where holding turns into breaking along an input of a sweep, and over a second
//! one; in a script's hands, in sentences, and in expectations.

mod claims;
mod front;
pub mod measure;

pub use claims::FrontClaims;
pub use front::Front;
pub use measure::{Tolerance, ValueOf, lua_value};

use super::grid::{Banks, BanksOfOne};
use super::point_selection::{AxisOrRules, PointSelection};
use super::rule_answers::failed;
use super::rule_object::{RuleObject, ScriptRule};
use super::session::Session;
use crate::fault::Fault;
use crate::lua::options::{Options, object, one_or_many, text, whole_number};
use crate::lua::quantity::shown;
use crate::record::FrontierRecord;
use mlua::{Lua, Table, Value};
use railproof_engine::frontier::{FrontierError, Search, SecondInput, find_frontier};
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::{Input, PlanError};
use std::rc::Rc;
use std::sync::Arc;

const KEYS: &[&str] =
    &["banks", "rule", "along", "tolerance", "over", "over_tolerance", "probes", "name"];

pub fn install(lua: &Lua, into: &Table) -> mlua::Result<()> {
    into.raw_set("frontier", lua.create_function(frontier)?)
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn frontier(lua: &Lua, argument: Value) -> mlua::Result<Front> {
    let options = Options::open(lua, "frontier", &argument, KEYS)?;
    let banks = options.required("banks", BanksOfOne)?;
    let rules = rules(&options, &banks)?;
    let named: Vec<NamedRule> = rules.iter().map(|rule| rule.named.clone()).collect();
    let picked = PointSelection::all(&banks.0, named.clone());
    let asked = FrontierCall::read(&options, &picked)?;
    let plan = &banks.0.plan;
    let session = Session::of(lua)?;
    let found = session
        .work(lua, asked.looks(&picked), |tick| {
            find_frontier(plan, &named, &asked.search, &|| tick())
        })?
        .map_err(|error| asked.refused(&options, &rules, &error))?;
    let name = if options.has("name") {
        session.name(&options, "frontier")?
    } else {
        match &banks.0.name {
            Some(name) => session.fresh_name(&format!("{name}-frontier")),
            None => session.fresh_name("frontier"),
        }
    };
    let plan = plan.clone();
    let (search, units) = (asked.search, session.units());
    let record = Arc::new(FrontierRecord { name, plan, rules: named, search, found, units });
    session.add_frontier(&record);
    Ok(Front { record, picked, along: asked.along, over: asked.over })
}

fn rules(options: &Options, banks: &Banks) -> Result<Vec<Rc<ScriptRule>>, Fault> {
    let given = options.optional("rule", one_or_many(object::<RuleObject>("a rule")))?;
    let explicit = banks.0.plan.axis(Input::Start).is_some();
    match (&given, explicit) {
        (Some(_), true) => {
            return Err(options
                .complain("rule", "the sweep gives `start` itself, so no rule can aim it")
                .with_hint("leave out `start`, or the rule"));
        }
        (None, false) => {
            return Err(options
                .complain_of_call("frontier needs a `rule` to aim by")
                .with_hint("write rule = rule.linear { … }, or give the sweep a `start`"));
        }
        _ => {}
    }
    let rules: Vec<Rc<ScriptRule>> =
        given.unwrap_or_default().into_iter().map(|rule| rule.0).collect();
    for (at, rule) in rules.iter().enumerate() {
        if rules[..at].iter().any(|other| other.named.name == rule.named.name) {
            let name = &rule.named.name;
            return Err(options
                .complain_of_item("rule", at + 1, format!("two rules are called \"{name}\""))
                .with_hint("give one of them a `name` of its own"));
        }
    }
    Ok(rules)
}

/// The request of a call.
struct FrontierCall {
    search: Search,
    /// The places in the plan of the inputs searched along and traced over.
    along: usize,
    over: Option<usize>,
}

impl FrontierCall {
    fn read(options: &Options, picked: &PointSelection) -> Result<Self, Fault> {
        let axis = |key: &'static str| -> Result<(usize, Input), Fault> {
            let name = options.required(key, text())?;
            match picked.dimension(&name) {
                Ok(AxisOrRules::Axis(at)) => Ok((at, picked.text(at).input)),
                Ok(AxisOrRules::Rules) => Err(options.complain(key, "rules have no order")),
                Err((message, hint)) => Err(options.complain(key, message).with_hint(hint)),
            }
        };
        let (along, input) = axis("along")?;
        let tolerance = options.required("tolerance", Tolerance(input))?;
        let over = if options.has("over") { Some(axis("over")?) } else { None };
        let over_tolerance = match over {
            Some((_, input)) => Some(options.required("over_tolerance", Tolerance(input))?),
            None if options.has("over_tolerance") => {
                return Err(options
                    .complain("over_tolerance", "`over_tolerance` needs `over`")
                    .with_hint("say over which input the edges are traced: over = \"off_rail\""));
            }
            None => None,
        };
        let probes = options.optional("probes", whole_number())?;
        let search = Search {
            along: input,
            tolerance,
            probes: probes.map(|probes| usize::try_from(probes).unwrap_or(usize::MAX)),
            across: over
                .zip(over_tolerance)
                .map(|((_, input), tolerance)| SecondInput { input, tolerance }),
        };
        Ok(Self { search, along, over: over.map(|(at, _)| at) })
    }

    /// About the number of banks it will take, for those who wait.
    fn looks(&self, picked: &PointSelection) -> usize {
        let lines = picked.count() / picked.kept[self.along].len().max(1);
        let probes = self.search.probes.unwrap_or(picked.kept[self.along].len());
        lines.saturating_mul(probes.saturating_add(12))
    }

    /// Why a search is refused, at the option it is about.
    fn refused(&self, options: &Options, rules: &[Rc<ScriptRule>], error: &FrontierError) -> Fault {
        let key = |input: &str, of: (&'static str, &'static str)| {
            if input == self.search.along.name() { of.0 } else { of.1 }
        };
        match error {
            FrontierError::NotNumbers { input } => {
                options.complain(key(input, ("along", "over")), error.to_string())
            }
            FrontierError::NoRange { input, .. } => options
                .complain(key(input, ("along", "over")), error.to_string())
                .with_hint("the sweep's values are where it looks first: a span, or the two ends"),
            FrontierError::Spread => options.complain("banks", error.to_string()),
            FrontierError::Same { .. } => options.complain("over", error.to_string()),
            FrontierError::Tolerance { input, least, most, .. } => {
                let key = key(input, ("tolerance", "over_tolerance"));
                let across = self.search.across.map(|across| across.input);
                let of = if key == "tolerance" { Some(self.search.along) } else { across };
                let unit = match of {
                    Some(Input::Lag) => "lengths",
                    of => of
                        .and_then(Input::parameter)
                        .map_or("", |parameter| parameter.dimension.si_symbol()),
                };
                let range = format!("from {} to {} {unit}", shown(*least), shown(*most));
                options.complain(key, format!("`{key}` must be {}", range.trim_end())).with_hint(
                    "at most half of what is searched, and no finer than rounding allows",
                )
            }
            FrontierError::Probes { .. } => options.complain("probes", error.to_string()),
            FrontierError::Plan(PlanError::Rule { rule, point, error: why }) => {
                let known = rules.iter().find(|known| known.named.name == *rule);
                match known.map(|known| failed(known, why)) {
                    Some(own) if own.place.is_some() => {
                        Fault { message: format!("{} ({point})", own.message), ..own }
                    }
                    _ => options.complain("rule", error.to_string()),
                }
            }
            FrontierError::Plan(PlanError::TooLarge { .. }) => options
                .complain_of_call(error.to_string())
                .with_hint("take fewer lines or `probes`, or several sweeps"),
            FrontierError::Plan(_) => options.complain_of_call(error.to_string()),
        }
    }
}
