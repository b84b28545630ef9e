//! `chances:edges { along, at }`: where a chance passes a share as an input grows.
//!
//! Between two neighbours of the grid on either side of the share, more banks are asked, twice; then the chance is taken
//! as straight between the last two. An edge's error is that of the chance there, over its slope.

use super::asked::{found, groups};
use crate::fault::Fault;
use crate::fitting::MeasuredTable;
use crate::lua::options::{Options, number, ranged, text};
use crate::lua::place::Placed;
use crate::player::PlayerProfile;
use crate::scenario::frontier::measure::lua_value;
use crate::scenario::members;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::rule_object::ScriptRule;
use crate::scenario::session::{Session, here};
use crate::telling::{InputFormat, capital};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::chance::Chance;
use railproof_engine::sweep::{Axis, Input, Plan, Values};
use std::rc::Rc;

const CALL: &str = "edges";
/// Banks that are asked between two neighbours, each time.
const BETWEEN: u8 = 8;
/// So often.
const ROUNDS: usize = 2;
/// The most banks times tables.
const MOST_CURVES: usize = 200_000;

/// Chances that are known on a grid, and all that asks for more of them.
pub struct KnownChances<'a> {
    pub player: &'a PlayerProfile,
    pub known: Option<&'a Rc<MeasuredTable>>,
    pub rules: &'a [Rc<ScriptRule>],
    /// By row; `None` where a rule has no line.
    pub of_row: &'a dyn Fn(usize) -> Option<Chance>,
    pub picked: &'a PointSelection,
}

/// One edge.
#[derive(Debug, Clone, Copy)]
pub struct ChanceEdge {
    /// The input's value there, SI.
    pub value: f64,
    /// Its standard error.
    pub error: f64,
    /// Whether the chance falls there as the input grows.
    pub falls: bool,
}

/// The edges on one line of the grid.
#[derive(Debug, Clone)]
pub struct EdgeLine {
    /// Everything else that varies, in words; empty for one line.
    pub label: String,
    pub edges: Vec<ChanceEdge>,
    /// The least and the greatest chance on the grid.
    pub range: (f64, f64),
}

/// The edges of a selection.
#[derive(Debug, Clone)]
pub struct ChanceEdges {
    pub lines: Rc<Vec<EdgeLine>>,
    share: f64,
    pub format: InputFormat,
    along: &'static str,
    input: Input,
    pub picked: PointSelection,
    player: String,
}

impl ChanceEdges {
    /// Looks for them.
    pub fn of(lua: &Lua, chances: &KnownChances, argument: &Value) -> mlua::Result<Self> {
        let options = Options::open(lua, CALL, argument, &["along", "at"])?;
        let share = options.required("at", ranged(number(), 0.01..=0.99, ""))?;
        let name = options.required("along", text())?;
        let picked = chances.picked;
        let at = picked
            .dimension(&name)
            .map_err(|(message, hint)| options.complain("along", message).with_hint(hint))?;
        let numbers = |at: usize| match &picked.plan().axes()[at].values {
            Values::Numbers(numbers) => Some(numbers.as_slice()),
            _ => None,
        };
        let AxisOrRules::Axis(at) = at else {
            return Err(options.complain("along", "rules have no order").into());
        };
        let Some(numbers) = numbers(at) else {
            return Err(options.complain("along", format!("`{name}` has no numbers")).into());
        };
        let mut places = picked.kept[at].clone();
        places.sort_by(|a, b| numbers[*a].total_cmp(&numbers[*b]));
        if places.len() < 2 {
            let message = format!("`{name}` keeps one value, so there is nothing to look along");
            return Err(options.complain("along", message).into());
        }
        let gap = |pair: &[usize]| numbers[pair[1]] - numbers[pair[0]];
        let least_gap = places.windows(2).map(gap).fold(f64::INFINITY, f64::min);
        let mut lines = Vec::new();
        let mut brackets = Vec::new();
        for line in grid_lines(picked, at, &places) {
            let known: Vec<Option<f64>> =
                line.iter().map(|row| Some((chances.of_row)(*row)?.chance)).collect();
            for (pair, place) in known.windows(2).zip(0..) {
                if let [Some(low), Some(high)] = *pair
                    && passes(low, high, share)
                {
                    brackets.push((lines.len(), [line[place], line[place + 1]]));
                }
            }
            let all = || known.iter().copied().flatten();
            let range = (all().fold(1.0, f64::min), all().fold(0.0, f64::max));
            let label = say_line(picked, at, line[0]);
            lines.push(EdgeLine { label, edges: Vec::new(), range });
        }
        let tables = chances.known.map_or(1, |known| known.ensemble.len());
        if brackets.len() * ROUNDS * usize::from(BETWEEN) * tables > MOST_CURVES {
            let message = format!("{} edges on {tables} tables are too many", brackets.len());
            let fault = Fault::bad_input(message).placed(here(lua, CALL));
            return Err(fault.with_hint("first select fewer banks with `where`").into());
        }
        let found: Vec<(usize, Vec<ChanceEdge>)> = Session::of(lua)?
            .work(lua, brackets.len(), |tick| {
                let edges = |(line, rows): &(usize, [usize; 2])| {
                    tick();
                    Ok((*line, chances.between(at, *rows, share)?))
                };
                brackets.iter().map(edges).collect::<Result<_, Fault>>()
            })?
            .map_err(|fault| fault.placed(here(lua, CALL)))?;
        for (line, edges) in found {
            lines[line].edges.extend(edges);
        }
        Ok(Self {
            lines: Rc::new(lines),
            share,
            format: InputFormat::new(picked.text(at), 1e-3 * least_gap),
            input: picked.text(at).input,
            along: picked.name_of(AxisOrRules::Axis(at)),
            picked: picked.clone(),
            player: chances.player.name.clone(),
        })
    }

    /// All edges, each with its line.
    pub fn all(&self) -> impl Iterator<Item = (&EdgeLine, &ChanceEdge)> {
        self.lines.iter().flat_map(|line| line.edges.iter().map(move |edge| (line, edge)))
    }

    /// An edge with twice its error.
    pub fn say(&self, edge: &ChanceEdge) -> String {
        self.format.within(edge.value, 2.0 * edge.error)
    }

    /// A line in words.
    pub fn say_line(&self, line: &EdgeLine) -> String {
        let hundred = |share: f64| format!("{:.0}", 100.0 * share);
        let share = hundred(self.share);
        if line.edges.is_empty() {
            let (least, most) = (hundred(line.range.0), hundred(line.range.1));
            return format!("never passes {share} of a hundred, from {least} to {most}");
        }
        let one = |edge: &ChanceEdge| {
            let way = if edge.falls { "falls" } else { "rises" };
            format!("{way} through {share} of a hundred at {}", self.say(edge))
        };
        line.edges.iter().map(one).collect::<Vec<_>>().join(", ")
    }

    /// The input along which they lie.
    pub fn input(&self) -> Input {
        self.input
    }

    /// Whose chances of what pass which share, to begin a sentence with.
    pub fn subject(&self) -> String {
        let share = format!("{:.0}", 100.0 * self.share);
        format!(
            "{} of {}, {share} of a hundred along {}",
            self.player,
            self.picked.subject(),
            self.along
        )
    }

    fn sentence(&self) -> String {
        let line = |line: &EdgeLine| {
            let label = if line.label.is_empty() { &self.player } else { &line.label };
            format!("{}: it {}.", capital(label), self.say_line(line))
        };
        self.lines.iter().map(line).collect::<Vec<_>>().join("\n")
    }
}

const fn passes(low: f64, high: f64, share: f64) -> bool {
    (low >= share) != (high >= share)
}

/// The rows of each line of the grid along an axis, in the order of its values.
fn grid_lines(picked: &PointSelection, along: usize, places: &[usize]) -> Vec<Vec<usize>> {
    let first = picked.only(AxisOrRules::Axis(along), places[0]).rows().into_iter();
    let others = places.iter().map(|place| picked.only(AxisOrRules::Axis(along), *place).rows());
    let all: Vec<Vec<usize>> = others.collect();
    first.enumerate().map(|(at, _)| all.iter().map(|rows| rows[at]).collect()).collect()
}

fn say_line(picked: &PointSelection, along: usize, row: usize) -> String {
    let ways = picked.rules.len().max(1);
    let digits = picked.plan().digits(row / ways);
    let varies = |at: &usize| *at != along && picked.plan().axes()[*at].values.len() > 1;
    let others = (0..digits.len()).filter(varies);
    let mut parts: Vec<String> = others.map(|at| picked.text(at).say(digits[at])).collect();
    if picked.rules.len() > 1 {
        parts.push(picked.say(AxisOrRules::Rules, row % ways));
    }
    parts.join(", ")
}

impl KnownChances<'_> {
    /// The edges between two neighbouring rows of the grid.
    fn between(
        &self,
        along: usize,
        rows: [usize; 2],
        share: f64,
    ) -> Result<Vec<ChanceEdge>, Fault> {
        let ways = self.picked.rules.len().max(1);
        let plan = self.picked.plan();
        let end = |row: usize| {
            let value = plan.axes()[along].values.number(plan.digits(row / ways)[along])?;
            Some((value, (self.of_row)(row)?))
        };
        let [Some(low), Some(high)] = rows.map(end) else { return Ok(Vec::new()) };
        let mut brackets = vec![[low, high]];
        for _ in 0..ROUNDS {
            let mut finer = Vec::new();
            for [low, high] in brackets {
                let step = (high.0 - low.0) / f64::from(BETWEEN + 1);
                let values = (1..=BETWEEN).map(|at| low.0 + step * f64::from(at)).collect();
                let mut known = vec![Some(low)];
                known.extend(self.ask(along, rows[0], values)?);
                known.push(Some(high));
                finer.extend(known.windows(2).filter_map(|pair| match *pair {
                    [Some(low), Some(high)] if passes(low.1.chance, high.1.chance, share) => {
                        Some([low, high])
                    }
                    _ => None,
                }));
            }
            brackets = finer;
        }
        Ok(brackets.into_iter().map(|ends| edge(ends, share)).collect())
    }

    /// The chances of a row at other values of one input.
    fn ask(
        &self,
        along: usize,
        row: usize,
        values: Vec<f64>,
    ) -> Result<Vec<Option<(f64, Chance)>>, Fault> {
        let ways = self.picked.rules.len().max(1);
        let plan = self.picked.plan();
        let digits = plan.digits(row / ways);
        let axes = plan.axes().iter().zip(&digits).enumerate().map(|(at, (axis, digit))| {
            let values = if at == along {
                Values::Numbers(values.clone())
            } else {
                axis.values.only(*digit).unwrap_or_else(|| axis.values.clone())
            };
            Axis { input: axis.input, values }
        });
        let refused = |message: String| Fault::bad_input(message);
        let plan = Plan::new(axes.collect()).map_err(|error| refused(error.to_string()))?;
        let rule: Vec<Rc<ScriptRule>> = self.rules.get(row % ways).cloned().into_iter().collect();
        let asked = groups(&plan, &self.picked.swept.texts, values.len())
            .map_err(refused)?
            .iter()
            .map(|group| group.ask(&plan, self.player, self.known, &rule, &|| ()))
            .collect::<Result<Vec<_>, Fault>>()?;
        let chances = found(&asked, (values.len(), 1), &self.player.skill);
        Ok(values.into_iter().zip(chances).map(|(value, it)| Some((value, it?))).collect())
    }
}

/// Where a chance passes a share between two values, straight.
fn edge([low, high]: [(f64, Chance); 2], share: f64) -> ChanceEdge {
    let slope = (high.1.chance - low.1.chance) / (high.0 - low.0);
    ChanceEdge {
        value: low.0 + (share - low.1.chance) / slope,
        error: low.1.error.max(high.1.error) / slope.abs(),
        falls: slope < 0.0,
    }
}

const MEMBERS: &[&str] = &["count", "rows", "sentence"];
const ROW: &[&str] = &["value", "error", "falls", "of"];

impl UserData for ChanceEdges {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "edges of chances");
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.sentence()));
        methods.add_method("sentence", |_, this, ()| Ok(this.sentence()));
        methods.add_method("count", |_, this, ()| Ok(this.all().count() as f64));
        methods.add_method("rows", |lua, this, ()| {
            let list = lua.create_table()?;
            for (line, edge) in this.all() {
                list.raw_push(row(lua, this, line, edge)?)?;
            }
            Ok(list)
        });
        members::only(methods, "edges of chances", MEMBERS);
    }
}

fn row(lua: &Lua, this: &ChanceEdges, line: &EdgeLine, edge: &ChanceEdge) -> mlua::Result<Table> {
    let table = lua.create_table()?;
    table.raw_set("value", lua_value(&this.format, lua, edge.value)?)?;
    table.raw_set("error", lua_value(&this.format, lua, edge.error)?)?;
    table.raw_set("falls", edge.falls)?;
    table.raw_set("of", line.label.as_str())?;
    members::seal(lua, table, "an edge", ROW)
}
