//! `rule.ways { … }`: the error of each way of going between known lines.

use super::draw;
use super::left_out::add_picture;
use super::members;
use super::rule_answers::{failed, geometry_of};
use super::rule_object::{RuleObject, TwoNumbers, reading, table};
use super::starts::Starts;
use crate::fault::Fault;
use crate::lua::options::{Kind, Mismatch, Options, list, number, one_or_many};
use crate::lua::place::Placed;
use mlua::{Lua, Table, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::rail::BankGeometry;
use railproof_engine::rule::{ShiftFrom, WayBetween, WaysTable, ways_table};
use std::rc::Rc;

/// A report in a script's hands.
#[derive(Debug, Clone)]
pub struct WaysReport(pub Rc<WaysTable>);

/// The line against which the ways are measured.
#[derive(Debug, Clone)]
enum Reference {
    Starts(Starts),
    Rule(RuleObject),
}

#[derive(Debug, Clone, Copy)]
struct StartsOrRule;

impl Kind for StartsOrRule {
    type Output = Reference;

    fn expected(&self) -> String {
        "a list of exact starts or a rule".to_owned()
    }

    fn read(&self, value: &Value) -> Result<Reference, Mismatch> {
        let Value::UserData(data) = value else {
            return Err(Mismatch::other_sort(&self.expected(), value));
        };
        if let Ok(starts) = data.borrow::<Starts>() {
            return Ok(Reference::Starts(starts.clone()));
        }
        match data.borrow::<RuleObject>() {
            Ok(rule) => Ok(Reference::Rule(rule.clone())),
            Err(_) => Err(Mismatch::other_sort(&self.expected(), value)),
        }
    }
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn ways(lua: &Lua, argument: Value) -> mlua::Result<WaysReport> {
    const KEYS: &[&str] =
        &["equipment", "lines", "reading", "ratio", "reference", "contact", "rail", "pocket"];
    let options = Options::open(lua, "ways", &argument, KEYS)?;
    let geometry = geometry_of(&options)?;
    let ratio = options.required("ratio", number())?;
    let lines = options.required("lines", list(TwoNumbers))?;
    let shift = WayBetween::ProportionalShift { ratio, from: ShiftFrom::Nearest };
    let table = table(&options, reading(&options)?, lines, shift)?;
    let reference = options.required("reference", StartsOrRule)?;
    let contacts = options.optional("contact", one_or_many(number()))?;
    let (contacts, exact) = references(&options, &reference, contacts, &geometry)?;
    let mut next = exact.into_iter();
    // The report asks once for each contact, in order.
    let report = ways_table(&table, ratio, &geometry, &contacts, |_| next.next().flatten())
        .map_err(|error| options.complain("lines", error.to_string()))?;
    if report.rows.is_empty() {
        return Err(options
            .complain("reference", "the reference has no start number at any of these contacts")
            .into());
    }
    Ok(WaysReport(Rc::new(report)))
}

/// The contacts and the start number that the reference has for each.
fn references(
    options: &Options,
    reference: &Reference,
    contacts: Option<Vec<f64>>,
    geometry: &BankGeometry,
) -> Result<(Vec<f64>, Vec<Option<f64>>), Fault> {
    match reference {
        Reference::Rule(rule) => {
            let contacts = contacts.ok_or_else(|| {
                options.complain_of_call("with a rule as reference, ways needs `contact`")
            })?;
            let start = |contact: &f64| {
                rule.0
                    .named
                    .rule
                    .line_for_contact(*contact, geometry)
                    .map(|line| Some(line.start))
                    .map_err(|error| {
                        failed(&rule.0, &error).placed(options.complain("reference", "").place)
                    })
            };
            let exact = contacts.iter().map(start).collect::<Result<_, _>>()?;
            Ok((contacts, exact))
        }
        Reference::Starts(starts) => {
            let rows: Vec<(f64, Option<f64>)> =
                starts.rows().map(|row| (row.contact, row.start.as_ref().ok().copied())).collect();
            let several = (1..rows.len())
                .any(|at| rows[..at].iter().any(|row| super::inputs::same(row.0, rows[at].0)));
            if several {
                return Err(options
                    .complain("reference", "the exact starts have several rows for one contact")
                    .with_hint("select one value of everything but `contact` with `where`"));
            }
            let Some(contacts) = contacts else {
                return Ok(rows.into_iter().unzip());
            };
            let known = |(at, contact): (usize, &f64)| {
                rows.iter()
                    .find(|row| super::inputs::same(row.0, *contact))
                    .map(|row| row.1)
                    .ok_or_else(|| {
                        options.complain_of_item(
                            "contact",
                            at + 1,
                            format!("the exact starts have no contact {contact}"),
                        )
                    })
            };
            let exact = contacts.iter().enumerate().map(known).collect::<Result<_, _>>()?;
            Ok((contacts, exact))
        }
    }
}

const MEMBERS: &[&str] = &["rows", "worst", "without_exact", "draw_lines"];
const ROW: &[&str] = &["contact", "from_line", "exact", "interpolated", "proportional", "parallel"];

impl UserData for WaysReport {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "report between lines");
        fields.add_field_method_get("without_exact", |lua, this| {
            lua.create_sequence_from(this.0.without_exact.iter().copied())
        });
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_method("rows", |lua, this, ()| {
            let list = lua.create_table()?;
            for row in &this.0.rows {
                let table = lua.create_table()?;
                table.raw_set("contact", row.contact)?;
                table.raw_set("from_line", row.from_line)?;
                table.raw_set("exact", row.exact)?;
                table.raw_set("interpolated", row.interpolated)?;
                table.raw_set("proportional", row.proportional)?;
                table.raw_set("parallel", row.parallel)?;
                list.raw_push(members::seal(lua, table, "a row", ROW)?)?;
            }
            Ok(list)
        });
        methods.add_method("worst", worst);
        add_picture(methods, "draw_lines", draw::rule_ways::draw_lines);
        members::only(methods, "a report between lines", MEMBERS);
    }
}

fn worst(lua: &Lua, this: &WaysReport, (): ()) -> mlua::Result<Table> {
    const WAYS: &[&str] = &["interpolated", "proportional", "parallel"];
    let (interpolated, proportional, parallel) = this.0.worst();
    let table = lua.create_table()?;
    if this.0.rows.iter().any(|row| row.interpolated.is_some()) {
        table.raw_set("interpolated", interpolated)?;
    }
    table.raw_set("proportional", proportional)?;
    table.raw_set("parallel", parallel)?;
    members::seal(lua, table, "the worst errors", WAYS)
}
