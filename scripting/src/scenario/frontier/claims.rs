//! `expect(front):…`: claims on a frontier.

use super::front::Front;
use super::measure::ValueOf;
use crate::fault::Fault;
use crate::lua::options::{choice, ranged, text, whole_number};
use crate::lua::place::{self, Placed};
use crate::lua::quantity::shown;
use crate::scenario::expect::open::{ClaimSubject, OpenExpectation, add_claim, only};
use crate::scenario::expect::subject::{Finding, argument, record};
use crate::scenario::inputs::spoken_on;
use crate::scenario::point_selection::AxisOrRules;
use crate::telling::amounts::grouped;
use crate::telling::edge::breaks;
use mlua::{Lua, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::frontier::{BreakKind, FrontierLine, IntervalEnd};
use std::fmt::Write as _;

/// A frontier about which something is expected.
#[derive(Debug, Clone)]
pub struct FrontClaims {
    pub front: Front,
    pub open: OpenExpectation,
}

impl ClaimSubject for FrontClaims {
    fn open(&self) -> OpenExpectation {
        self.open
    }
}

const MEMBERS: &[&str] = &[
    "holds_between",
    "holds_nowhere",
    "has_intervals",
    "breaks_below",
    "breaks_above",
    "least_rises_along",
    "least_falls_along",
    "greatest_rises_along",
    "greatest_falls_along",
    "saves_at_least",
];

impl UserData for FrontClaims {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "expectation");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        add_claim(methods, "holds_between", |lua, this, (from, to): (Value, Value)| {
            holds_between(lua, this, &from, &to)
        });
        add_claim(methods, "holds_nowhere", |lua, this, ()| {
            let found = this.all("hold nowhere", |line| line.intervals.is_empty());
            this.record(lua, "holds_nowhere", "holds nowhere", found)
        });
        add_claim(methods, "has_intervals", |lua, this, count: Value| {
            let wanted = argument(lua, "has_intervals", 1, &count, whole_number())?;
            let has = |line: &FrontierLine| line.intervals.len() as u64 == wanted;
            let what =
                if wanted == 1 { "1 interval".to_owned() } else { format!("{wanted} intervals") };
            let found = this.all(&format!("have {what}"), has);
            this.record(lua, "has_intervals", &format!("has {what}"), found)
        });
        add_claim(methods, "breaks_below", |lua, this, way: Value| {
            let low = |line: &FrontierLine| line.intervals.first().map(|first| first.low.clone());
            breaks_at(lua, this, "breaks_below", &way, "below", low)
        });
        add_claim(methods, "breaks_above", |lua, this, way: Value| {
            let high = |line: &FrontierLine| line.intervals.last().map(|last| last.high.clone());
            breaks_at(lua, this, "breaks_above", &way, "above", high)
        });
        for (name, least, rises) in [
            ("least_rises_along", true, true),
            ("least_falls_along", true, false),
            ("greatest_rises_along", false, true),
            ("greatest_falls_along", false, false),
        ] {
            add_claim(methods, name, move |lua, this, axis: Value| {
                steady(lua, this, name, &axis, (least, rises))
            });
        }
        add_claim(methods, "saves_at_least", |lua, this, least: Value| {
            let kind = ranged(crate::lua::options::number(), 1.0..=f64::INFINITY, "");
            let least = argument(lua, "saves_at_least", 1, &least, kind)?;
            let found = &this.front.record.found;
            let words = format!(
                "{} of the grid's {}: {} times fewer",
                grouped(found.banks_played()),
                grouped(found.dense_banks),
                shown((10.0 * found.saving()).round() / 10.0)
            );
            let held = found.saving() >= least;
            let expected = format!("at least {} times fewer banks than a grid", shown(least));
            this.record(lua, "saves_at_least", &expected, Finding { held, words })
        });
        only(methods, MEMBERS);
    }
}

impl FrontClaims {
    fn record(
        &self,
        lua: &Lua,
        method: &str,
        expected: &str,
        found: Finding,
    ) -> mlua::Result<Self> {
        record(lua, method, format!("{}: {expected}", self.front.subject()), found)?;
        Ok(self.clone())
    }

    /// Whether every line passes; the words count them and name the first that does not.
    fn all(&self, what: &str, passes: impl Fn(&FrontierLine) -> bool) -> Finding {
        let count = self.front.lines().count();
        let passing = self.front.lines().filter(|(_, line, _)| passes(line)).count();
        let mut words = format!("{passing} of {count} {what}");
        let mut lines = self.front.lines();
        if let (Some((_, only, _)), None) = (lines.next(), lines.next()) {
            words = self.shape(only);
        } else if let Some((sheet, line, place)) =
            self.front.lines().find(|(_, line, _)| !passes(line))
        {
            let label = self.front.say_line(sheet, place);
            let label = if label.is_empty() { "it".to_owned() } else { label };
            let _ = write!(words, "; the first that does not, {label}: {}", self.shape(line));
        }
        Finding { held: count > 0 && passing == count, words }
    }

    /// The intervals of a line in a few words.
    fn shape(&self, line: &FrontierLine) -> String {
        let measured = self.front.measured();
        let end = |end: &IntervalEnd, fallback: &'static str| {
            let way = end.way().map_or(fallback, BreakKind::name);
            format!("{} ({way})", measured.tick(end.place()))
        };
        if line.intervals.is_empty() {
            return "holds nowhere".to_owned();
        }
        let told: Vec<String> = line
            .intervals
            .iter()
            .map(|interval| {
                format!("{} to {}", end(&interval.low, "range"), end(&interval.high, "range"))
            })
            .collect();
        format!("holds {}", told.join(", "))
    }
}

fn holds_between(
    lua: &Lua,
    this: &FrontClaims,
    from: &Value,
    to: &Value,
) -> mlua::Result<FrontClaims> {
    const CALL: &str = "holds_between";
    let picked = &this.front.picked;
    let kind = ValueOf(picked.text(this.front.along).input, spoken_on(picked.plan()));
    let (low, high) = (argument(lua, CALL, 1, from, kind)?, argument(lua, CALL, 2, to, kind)?);
    let probes = &this.front.record.found.probes;
    let searched = probes.first().is_some_and(|first| low >= *first)
        && probes.last().is_some_and(|last| high <= *last);
    let complain = |number, message: &str| {
        Fault::bad_input(message.to_owned()).placed(place::argument(lua, CALL, number))
    };
    if low > high {
        return Err(complain(1, "`holds_between` takes the lower end first").into());
    }
    if !searched {
        return Err(complain(1, "the frontier was not searched that far").into());
    }
    let holds = |line: &FrontierLine| {
        line.intervals
            .iter()
            .any(|interval| interval.low.holding <= low && interval.high.holding >= high)
    };
    let measured = this.front.measured();
    let range = format!("from {} to {}", measured.tick(low), measured.tick(high));
    let found = this.all(&format!("hold {range}"), holds);
    this.record(lua, CALL, &format!("holds {range}"), found)
}

/// The way each line that holds somewhere breaks at one end.
fn breaks_at(
    lua: &Lua,
    this: &FrontClaims,
    call: &str,
    way: &Value,
    side: &str,
    end: impl Fn(&FrontierLine) -> Option<IntervalEnd>,
) -> mlua::Result<FrontClaims> {
    let ways: Vec<(&'static str, BreakKind)> =
        BreakKind::ALL.into_iter().map(|way| (way.name(), way)).collect();
    let wanted = argument(lua, call, 1, way, choice(&ways))?;
    let breaks_so = |line: &FrontierLine| end(line).and_then(|end| end.way()) == Some(wanted);
    let found = this.all(&format!("break so {side}"), breaks_so);
    this.record(lua, call, &format!("{side} where it holds {}", breaks(wanted)), found)
}

/// Whether the least or greatest place that holds changes one way from each value of an axis to the
/// next greater one, for every value of everything else; lines that hold nowhere are left out.
fn steady(
    lua: &Lua,
    this: &FrontClaims,
    call: &str,
    axis: &Value,
    (least, rises): (bool, bool),
) -> mlua::Result<FrontClaims> {
    let front = &this.front;
    let name = argument(lua, call, 1, axis, text())?;
    let complain =
        |message: String| Fault::bad_input(message).placed(place::argument(lua, call, 1));
    let dimension = front
        .picked
        .dimension(&name)
        .map_err(|(message, hint)| complain(message).with_hint(hint))?;
    let AxisOrRules::Axis(at) = dimension else {
        return Err(complain("rules have no order".to_owned()).into());
    };
    if at == front.along {
        return Err(complain(format!("the frontier runs along `{name}` itself")).into());
    }
    let values = &front.picked.plan().axes()[at].values;
    // (everything else, value of the axis, place of the edge)
    let mut edges: Vec<(Vec<usize>, f64, f64)> = Vec::new();
    let mut left_out = 0;
    for (sheet, line, place) in front.lines() {
        let mut rest = sheet.digits.clone();
        rest.push(sheet.rule);
        if let (Some(over), Some(place)) = (front.over, place) {
            rest[over] = place;
        }
        let Some(value) = values.number(rest[at]) else {
            return Err(complain(format!("`{name}` has no numbers")).into());
        };
        rest[at] = 0;
        let edge = if least {
            line.intervals.first().map(|interval| interval.low.holding)
        } else {
            line.intervals.last().map(|interval| interval.high.holding)
        };
        match edge {
            Some(edge) => edges.push((rest, value, edge)),
            None => left_out += 1,
        }
    }
    edges.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let in_order = |before: f64, after: f64| if rises { after > before } else { after < before };
    let (mut steps, mut steady, mut first_break) = (0, 0, None);
    for pair in edges.windows(2).filter(|pair| pair[0].0 == pair[1].0) {
        steps += 1;
        if in_order(pair[0].2, pair[1].2) {
            steady += 1;
        } else if first_break.is_none() {
            first_break = Some((pair[0].clone(), pair[1].clone()));
        }
    }
    if steps == 0 {
        return Err(complain(format!(
            "no two lines along `{name}` hold anywhere, so nothing can change along it"
        ))
        .into());
    }
    let (verb, end) =
        (if rises { "rises" } else { "falls" }, if least { "least" } else { "greatest" });
    let mut words = format!("{steady} of {steps} steps {}", verb.trim_end_matches('s'));
    if let Some((before, after)) = first_break {
        let text = front.picked.text(at);
        let amount = |value: f64| {
            let place = (0..values.len()).find(|place| values.number(*place) == Some(value));
            place.map_or_else(String::new, |place| text.say(place))
        };
        let measured = front.measured();
        let _ = write!(
            words,
            "; not from {}: {} to {}: {}",
            amount(before.1),
            measured.tick(before.2),
            amount(after.1),
            measured.tick(after.2)
        );
    }
    if left_out > 0 {
        let lines = if left_out == 1 {
            "1 line holds".to_owned()
        } else {
            format!("{left_out} lines hold")
        };
        let _ = write!(words, "; {lines} nowhere");
    }
    let along = front.picked.name_of(AxisOrRules::Axis(front.along));
    let expected = format!("the {end} {along} that holds {verb} along {name}");
    this.record(lua, call, &expected, Finding { held: steady == steps, words })
}
