//! A frontier in a script's hands: its intervals, its cost, and its sentences.

use super::measure::lua_value;
use crate::fault::Fault;
use crate::record::FrontierRecord;
use crate::scenario::inputs::{Keys, input_keys, same};
use crate::scenario::left_out::{add_picture, add_selection};
use crate::scenario::members;
use crate::scenario::point_selection::{AxisOrRules, PointSelection};
use crate::scenario::selection::narrowed;
use crate::scenario::session::fault_here;
use crate::scenario::{axis_text, draw};
use crate::telling::caution::Cautions;
use crate::telling::count;
use crate::telling::{FrontierTelling, InputFormat, edge, line_readings};
use mlua::{Lua, MetaMethod, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::frontier::{FrontierLine, Interval, Sheet};
use railproof_engine::rail::Line;
use railproof_engine::sweep::Input;
use std::sync::Arc;

/// A frontier, or some of its lines.
#[derive(Debug, Clone)]
pub struct Front {
    pub record: Arc<FrontierRecord>,
    pub picked: PointSelection,
    /// Place in the plan of the input searched along.
    pub along: usize,
    /// Place in the plan of the input traced over.
    pub over: Option<usize>,
}

impl Front {
    /// The format of values along.
    pub fn measured(&self) -> InputFormat {
        InputFormat::new(self.picked.text(self.along), self.record.search.tolerance)
    }

    /// The format of values across.
    pub fn measured_over(&self) -> Option<InputFormat> {
        let across = self.record.search.across?;
        Some(InputFormat::new(self.picked.text(self.over?), across.tolerance))
    }

    /// The kept sheets.
    pub fn sheets(&self) -> impl Iterator<Item = &Sheet> {
        self.record.found.sheets.iter().filter(|sheet| {
            self.picked.kept_rules.contains(&sheet.rule)
                && sheet.digits.iter().enumerate().all(|(axis, digit)| {
                    axis == self.along
                        || Some(axis) == self.over
                        || self.picked.kept[axis].contains(digit)
                })
        })
    }

    /// The kept lines of a sheet, as the sweep gives them, with the place of their value across.
    pub fn lines_of<'a>(
        &'a self,
        sheet: &'a Sheet,
    ) -> impl Iterator<Item = (&'a FrontierLine, Option<usize>)> {
        sheet.lines.iter().filter_map(move |line| match (line.across, self.over) {
            (Some(across), Some(over)) => {
                let values = &self.picked.plan().axes()[over].values;
                let here = |place: &&usize| {
                    values.number(**place).is_some_and(|value| same(value, across))
                };
                let place = self.picked.kept[over].iter().find(here).copied();
                place.filter(|_| line.is_searched()).map(|place| (line, Some(place)))
            }
            _ => Some((line, None)),
        })
    }

    /// Every kept line.
    pub fn lines(&self) -> impl Iterator<Item = (&Sheet, &FrontierLine, Option<usize>)> {
        self.sheets()
            .flat_map(|sheet| self.lines_of(sheet).map(move |(line, place)| (sheet, line, place)))
    }

    /// A line in words: its values along everything that varies in the sweep.
    pub fn say_line(&self, sheet: &Sheet, place: Option<usize>) -> String {
        let axes = self.picked.plan().axes();
        // Defaults come last in a plan, but people expect the table first.
        let mut order: Vec<usize> = (0..axes.len()).collect();
        order.sort_by_key(|at| axes[*at].input);
        let varies = |at: &usize| axes[*at].values.len() > 1 && *at != self.along;
        let mut parts: Vec<String> = order
            .into_iter()
            .filter(varies)
            .filter_map(|at| {
                let digit = if Some(at) == self.over { place? } else { sheet.digits[at] };
                Some(self.picked.text(at).say(digit))
            })
            .collect();
        if self.picked.rules.len() > 1 {
            parts.push(self.picked.say(AxisOrRules::Rules, sheet.rule));
        }
        parts.join(", ")
    }

    /// The cautions where these lines hold.
    pub fn cautions(&self) -> Cautions {
        let plan = self.picked.plan();
        let intervals = || self.lines().flat_map(|(_, line, _)| &line.intervals);
        let within = |value: f64| {
            intervals().any(|one| (one.low.place()..=one.high.place()).contains(&value))
        };
        let kept = |axis: usize, place: usize| {
            if axis == self.along {
                plan.axes()[axis].values.number(place).is_some_and(within)
            } else {
                self.picked.kept[axis].contains(&place)
            }
        };
        let mut all = Cautions::default();
        if intervals().next().is_some() {
            all.add(&Cautions::of_part(plan, kept));
        }
        if plan.axes()[self.along].input == Input::Speed {
            intervals().for_each(|one| all.add(&Cautions::of_speed(one.high.place())));
        }
        all
    }

    /// The kept lines, for sentences.
    pub fn telling(&self) -> FrontierTelling<'_> {
        let name = |axis: usize| self.picked.text(axis).title;
        let lines = self.lines().map(|(sheet, line, place)| (self.say_line(sheet, place), line));
        FrontierTelling {
            search: &self.record.search,
            found: &self.record.found,
            lines: lines.collect(),
            along: (name(self.along), self.measured()),
            over: self.over.and_then(|over| Some((name(over), self.measured_over()?))),
            cautions: self.cautions(),
            units: self.record.units,
            readings: self.readings(),
        }
    }

    /// The one bank by both readings; nothing where several are told, or lines run along its numbers.
    fn readings(&self) -> Option<String> {
        let mut lines = self.lines();
        let (sheet, ..) = lines.next().filter(|_| lines.next().is_none())?;
        let plan = self.picked.plan();
        let bank = plan.bank(&sheet.digits).ok()?;
        let number = |input| {
            let at = self.picked.place_of(input)?;
            let runs = at == self.along || Some(at) == self.over;
            plan.axes()[at].values.number(sheet.digits[at]).filter(|_| !runs)
        };
        let contact = number(Input::Contact)?;
        let line = match self.record.rules.get(sheet.rule) {
            Some(rule) => rule.rule.line_for_contact(contact, bank.geometry()).ok()?,
            None => Line::new(contact, number(Input::Start)?),
        };
        Some(line_readings(line, bank.geometry()))
    }

    /// The selection in words, to begin a sentence with.
    pub fn subject(&self) -> String {
        let lines = count(self.lines().count() as u64, "line", "lines");
        let name = self.picked.name_of(AxisOrRules::Axis(self.along));
        if self.picked.said.is_empty() {
            format!("all {lines} along {name}")
        } else {
            format!("{} ({lines} along {name})", self.picked.said.join("; "))
        }
    }
}

const MEMBERS: &[&str] = &[
    "name",
    "where",
    "count",
    "intervals",
    "least",
    "greatest",
    "sentence",
    "draw",
    "banks_played",
    "dense_banks",
    "saving",
    "certificate",
];

const CERTIFICATE: &[&str] = &[
    "probes",
    "lines_searched",
    "lines_followed",
    "widest_gap",
    "unsettled",
    "tolerance",
    "over_tolerance",
];

impl UserData for Front {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "frontier");
        fields.add_field_method_get("name", |_, this| Ok(this.record.name.clone()));
        fields.add_field_method_get("banks_played", |_, this| {
            Ok(this.record.found.banks_played() as f64)
        });
        fields.add_field_method_get("dense_banks", |_, this| {
            Ok(this.record.found.dense_banks as f64)
        });
        fields.add_field_method_get("saving", |_, this| Ok(this.record.found.saving()));
        fields.add_field_method_get("sentence", |_, this| Ok(this.telling().sentences()));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| {
            Ok(format!("a frontier of {}", this.subject()))
        });
        methods.add_method("count", |_, this, ()| Ok(this.lines().count() as f64));
        add_selection(methods, "where", select);
        methods.add_method("intervals", intervals);
        methods.add_method("least", |lua, this, ()| {
            extreme(lua, this, "least", |interval| interval.low.holding, |a, b| a < b)
        });
        methods.add_method("greatest", |lua, this, ()| {
            extreme(lua, this, "greatest", |interval| interval.high.holding, |a, b| a > b)
        });
        add_picture(methods, "draw", draw::frontier::draw);
        methods.add_method("certificate", certificate);
        members::only(methods, "a frontier", MEMBERS);
    }
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
fn select(lua: &Lua, this: &Front, argument: Value) -> mlua::Result<Front> {
    let picked = narrowed(lua, "where", &this.picked, &argument)?;
    if picked.kept[this.along].len() < this.picked.kept[this.along].len() {
        let name = this.picked.name_of(AxisOrRules::Axis(this.along));
        return Err(fault_here(
            lua,
            "where",
            format!("the frontier runs along `{name}`, so no value of it can be selected"),
        )
        .with_hint("select among the lines: by contact, by distance, by rule …")
        .into());
    }
    Ok(Front { picked, ..this.clone() })
}

fn no_interval(lua: &Lua, this: &Front, call: &str) -> Fault {
    let holds = match this.lines().count() {
        1 => "the line holds nowhere".to_owned(),
        count => format!("none of the {count} lines holds anywhere"),
    };
    fault_here(lua, call, holds)
}

/// The least or greatest place that was seen to hold, of all kept lines.
fn extreme(
    lua: &Lua,
    this: &Front,
    call: &str,
    of: fn(&Interval) -> f64,
    before: fn(f64, f64) -> bool,
) -> mlua::Result<Value> {
    let all = this.lines().flat_map(|(_, line, _)| line.intervals.iter().map(of));
    match all.reduce(|best, next| if before(next, best) { next } else { best }) {
        Some(place) => lua_value(&this.measured(), lua, place),
        None => Err(no_interval(lua, this, call).into()),
    }
}

fn intervals(lua: &Lua, this: &Front, (): ()) -> mlua::Result<Table> {
    static ROW: Keys = Keys::new(|| {
        input_keys(&[
            "rule",
            "from",
            "to",
            "below",
            "above",
            "why_below",
            "why_above",
            "flagged_from",
        ])
    });
    let measured = this.measured();
    let list = lua.create_table()?;
    for (sheet, line, place) in this.lines() {
        for interval in &line.intervals {
            let table = lua.create_table()?;
            for (axis, digit) in sheet.digits.iter().enumerate() {
                let digit = if Some(axis) == this.over { place.unwrap_or(*digit) } else { *digit };
                if axis != this.along {
                    let text = this.picked.text(axis);
                    table.raw_set(text.input.name(), axis_text::lua_value(text, lua, digit)?)?;
                }
            }
            if !this.picked.rules.is_empty() {
                table.raw_set("rule", this.picked.say(AxisOrRules::Rules, sheet.rule))?;
            }
            table.raw_set("from", lua_value(&measured, lua, interval.low.holding)?)?;
            table.raw_set("to", lua_value(&measured, lua, interval.high.holding)?)?;
            for (end, way, reason) in
                [(&interval.low, "below", "why_below"), (&interval.high, "above", "why_above")]
            {
                if let Some(found) = end.way() {
                    table.raw_set(way, found.name())?;
                }
                if let Some(because) = edge::because(end, this.record.units) {
                    table.raw_set(reason, because)?;
                }
            }
            if let Some((from, _)) = interval.flagged {
                table.raw_set("flagged_from", lua_value(&measured, lua, from)?)?;
            }
            list.raw_push(members::seal(lua, table, "an interval", &ROW)?)?;
        }
    }
    Ok(list)
}

fn certificate(lua: &Lua, this: &Front, (): ()) -> mlua::Result<Table> {
    let (record, measured) = (&this.record, this.measured());
    let (searched, _) = record.lines_searched();
    let lines: usize = record.found.sheets.iter().map(|sheet| sheet.lines.len()).sum();
    let table = lua.create_table()?;
    table.raw_set("probes", record.found.probes.len())?;
    table.raw_set("lines_searched", searched)?;
    table.raw_set("lines_followed", lines - searched)?;
    table.raw_set("widest_gap", lua_value(&measured, lua, record.found.widest_gap())?)?;
    table.raw_set("unsettled", record.found.unsettled())?;
    table.raw_set("tolerance", lua_value(&measured, lua, record.search.tolerance)?)?;
    if let (Some(across), Some(over)) = (record.search.across, this.measured_over()) {
        table.raw_set("over_tolerance", lua_value(&over, lua, across.tolerance)?)?;
    }
    members::seal(lua, table, "a certificate", CERTIFICATE)
}
