//! `mine:frontier { banks, rule, along, tolerance }`: the edge between holding and breaking as a band over all the
//! tables that yours could be.

use super::cost;
use super::question::{ALONG, EnsembleQuestion, set_up};
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::options::{Options, object, text};
use crate::lua::place::Placed;
use crate::scenario::frontier::Tolerance;
use crate::scenario::grid::Banks;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::rule_object::RuleObject;
use crate::scenario::session::Session;
use crate::telling::InputFormat;
use crate::telling::caution::Cautions;
use mlua::{Lua, Value};
use railproof_engine::ask::{BandLine, MemberShare, holding_shares, search_band};
use railproof_engine::column::SetUp;
use railproof_engine::rule::Rule;
use railproof_engine::sweep::Input;
use std::rc::Rc;

const CALL: &str = "frontier";
const KEYS: &[&str] = &["banks", "rule", "along", "tolerance"];

/// A band, or some of its lines.
#[derive(Debug, Clone)]
pub struct EnsembleBand {
    pub known: Rc<MeasuredTable>,
    /// Each line with its places along the other axes of the plan.
    pub found: Rc<Vec<(Vec<usize>, BandLine)>>,
    pub picked: PointSelection,
    /// Place in the plan of the input searched along.
    pub along: usize,
    pub tolerance: f64,
}

impl EnsembleBand {
    /// The kept lines.
    pub fn lines(&self) -> impl Iterator<Item = &(Vec<usize>, BandLine)> {
        self.found.iter().filter(|(digits, _)| {
            let mut kept = digits.iter().zip(&self.picked.kept).enumerate();
            kept.all(|(axis, (digit, kept))| axis == self.along || kept.contains(digit))
        })
    }

    /// The format of values along.
    pub fn measured(&self) -> InputFormat {
        InputFormat::new(self.picked.text(self.along), self.tolerance)
    }

    /// A line in words, by everything that varies beside the input along.
    pub fn say_line(&self, digits: &[usize]) -> String {
        let axes = self.picked.plan().axes().iter().enumerate();
        let varying = axes.filter(|(at, axis)| *at != self.along && axis.values.len() > 1);
        let said: Vec<String> =
            varying.map(|(at, _)| self.picked.text(at).say(digits[at])).collect();
        said.join(", ")
    }
}

pub fn frontier(
    lua: &Lua,
    known: &Rc<MeasuredTable>,
    argument: &Value,
) -> mlua::Result<EnsembleBand> {
    let options = Options::open(lua, CALL, argument, KEYS)?;
    let banks = options.required("banks", object::<Banks>("a grid"))?;
    let rule = options.optional("rule", object::<RuleObject>("a rule"))?;
    let rules = rule.into_iter().map(|rule| rule.0).collect();
    let asked = EnsembleQuestion { known: Rc::clone(known), banks, rules }
        .checked(|fault| fault.placed(options.complain("banks", "").place))?;
    match (asked.rules.is_empty(), asked.banks.0.plan.axis(Input::Start).is_some()) {
        (true, false) => {
            return Err(options
                .complain_of_call("frontier needs a `rule` to aim by")
                .with_hint("write rule = rule.linear { … }, or give the sweep a `start`")
                .into());
        }
        (false, true) => {
            return Err(options
                .complain("rule", "the sweep gives `start` itself, so no rule can aim it")
                .with_hint("leave out `start`, or the rule")
                .into());
        }
        _ => {}
    }
    let picked = PointSelection::all(&asked.banks.0, asked.named());
    let (along, probes) = along(&options, &picked)?;
    let input = picked.text(along).input;
    let tolerance = options.required("tolerance", Tolerance(input))?;
    let (low, high) = (probes[0], probes[probes.len() - 1]);
    let least = 1e-9 * low.abs().max(high.abs());
    if !(tolerance > least && tolerance <= 0.5 * (high - low)) {
        return Err(options
            .complain(
                "tolerance",
                "`tolerance` must be more than 0, at most half of what is searched",
            )
            .into());
    }
    let plan = picked.plan();
    let points =
        plan.checked_len(1).map_err(|error| options.complain("banks", error.to_string()))?;
    let lines: Vec<Vec<usize>> =
        (0..points).map(|point| plan.digits(point)).filter(|digits| digits[along] == 0).collect();
    // An edge a line, three levels of it, each looked for between two probes.
    let step = (high - low) / (probes.len() - 1) as f64;
    let mut halvings = 0;
    let mut left = step;
    while left > tolerance {
        (left, halvings) = (0.5 * left, halvings + 1);
    }
    let looks = probes.len() + 3 * halvings;
    cost::check(known, (lines.len(), looks), |message| options.complain_of_call(message))?;
    let rule: Option<&Rule> = asked.rules.first().map(|rule| &rule.named.rule);
    let set_ups = |wanted: &[(usize, f64)]| -> Result<Vec<SetUp>, Fault> {
        let of = |(line, place): &(usize, f64)| {
            set_up((plan, &asked.banks.0.texts), &lines[*line], Some((input, *place)), (rule, true))
        };
        let made: Result<Vec<SetUp>, String> = wanted.iter().map(of).collect();
        made.map_err(|message| {
            let key = if options.has("rule") { "rule" } else { "banks" };
            options.complain(key, message)
        })
    };
    let session = Session::of(lua)?;
    let first: Vec<(usize, f64)> = (0..lines.len()).map(|line| (line, low)).collect();
    session.advise(&Cautions::of_part(plan, |_, _| true));
    cost::tell(&session, known, &set_ups(&first)?, looks);
    let tables = known.ensemble.len();
    let search = |tick: &(dyn Fn() + Sync)| {
        let shares = |wanted: &[(usize, f64)]| -> Result<Vec<MemberShare>, Fault> {
            let MeasuredTable { table, model, ensemble, .. } = &**known;
            holding_shares(table, *model, ensemble, &set_ups(wanted)?, tick)
                .map_err(|error| options.complain("banks", error.to_string()))
        };
        search_band(lines.len(), &probes, tolerance, known.ensemble.effective_size(), shares)
    };
    let found = session.work(lua, tables * 10, search)??;
    let found = lines.iter().cloned().zip(found).collect();
    Ok(EnsembleBand { known: Rc::clone(known), found: Rc::new(found), picked, along, tolerance })
}

/// The axis that is searched along, and its values in order.
fn along(options: &Options, picked: &PointSelection) -> Result<(usize, Vec<f64>), Fault> {
    let name = options.required("along", text())?;
    let at = match picked.dimension(&name) {
        Ok(AxisOrRules::Axis(at)) => at,
        Ok(AxisOrRules::Rules) => return Err(options.complain("along", "rules have no order")),
        Err((message, hint)) => return Err(options.complain("along", message).with_hint(hint)),
    };
    let input = picked.text(at).input;
    if !ALONG.contains(&input) {
        let known: Vec<&str> = ALONG.iter().map(|input| input.name()).collect();
        return Err(options
            .complain("along", format!("a band can't be searched along `{name}`"))
            .with_hint(format!("along one of these: {}", known.join(", "))));
    }
    let values = &picked.plan().axes()[at].values;
    let mut probes: Vec<f64> = (0..values.len()).filter_map(|place| values.number(place)).collect();
    probes.sort_by(f64::total_cmp);
    if probes.len() < 2 {
        return Err(options
            .complain("along", format!("`{name}` has one value, so nothing is searched along it"))
            .with_hint("the sweep's values are where it looks first: a span, or the two ends"));
    }
    Ok((at, probes))
}
