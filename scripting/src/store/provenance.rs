//! The text of `run.json`: the question, the versions, and the results. No times and no
//! paths of the machine, so that the same scenario gives the same bytes.

use super::{pretty_file_name, question_sha256};
use crate::answer::{bank_tally, shot_tally};
use crate::plan::ShotValues;
use crate::record::{
    BaselineReport, Expectation, FrontierRecord, MapRecord, Picture, Record, ShotsRecord,
    StartsRecord,
};
use crate::telling::caution::Cautions;
use crate::telling::{model_about, models_of};
use railproof_engine::sweep::{
    Plan, RuleStanding, Tally, fit_through_origin, fit_with_offset, rank,
};
use serde_json::{Value, json};

/// Grows when the meaning of a key changes.
const FORMAT: u32 = 1;

/// The whole document.
pub(super) fn document(record: &Record, files: &[String]) -> Value {
    json!({
        "format": FORMAT,
        "versions": {
            "railproof": env!("CARGO_PKG_VERSION"),
            "engine": railproof_engine::VERSION,
        },
        "scenario": {
            "name": record.name,
            "file": pretty_file_name(&record.file),
            "shows": record.shows,
        },
        "banks_played": record.banks_played,
        "shots_played": record.shots_played,
        "all_held": record.all_held(),
        "cautions": record.cautions(),
        "maps": record.maps.iter().map(|map| map_entry(map)).collect::<Value>(),
        "exact_starts": record.starts.iter().map(|starts| starts_entry(starts)).collect::<Value>(),
        "shots": record.shots.iter().map(|shots| shots_entry(shots)).collect::<Value>(),
        "frontiers": record.frontiers.iter().map(|front| frontier_entry(front)).collect::<Value>(),
        "tables": record.tables.iter().map(|table| json!({
            "name": table.name,
            "rows_file": format!("{}.csv", table.name),
            "rows": table.rows.len(),
        })).collect::<Value>(),
        "pictures": record.drawings.iter().map(|drawing| json!({
            "name": drawing.name,
            "kind": picture_kind(&drawing.picture),
            "title": drawing.picture.title(),
        })).collect::<Value>(),
        "expectations": record.expectations.iter().map(expectation).collect::<Value>(),
        "left_out": record.left_out.iter().map(|one| json!({
            "line": one.line(),
            "why": one.fault.message,
            "silent_lines": one.silent,
        })).collect::<Value>(),
        "stopped": record.stopped.as_ref().map(|fault| json!({
            "line": fault.place.as_ref().map(|place| place.line_column().0),
            "why": fault.message,
        })),
        "remarks": record.remarks,
        "printed": record.printed,
        "printed_dropped": record.printed_dropped,
        "files": files,
    })
}

fn map_entry(map: &MapRecord) -> Value {
    let standings: Value = rank(&map.rows, map.rules.len())
        .iter()
        .map(|standing| standing_entry(map, standing))
        .collect();
    json!({
        "name": map.name,
        "rows_file": format!("{}.csv", map.name),
        "question_sha256": question_sha256(&map.plan, &map.rules),
        "plan": map.plan,
        "rail_models": rail_models(&map.plan),
        "cautions": map.cautions(),
        "rules": map.rules,
        "summary": bank_tally(&Tally::of(&map.rows)),
        "ranking": standings,
    })
}

fn standing_entry(map: &MapRecord, standing: &RuleStanding) -> Value {
    json!({
        "rule": map.rules.get(standing.rule).map(|rule| &rule.name),
        "holding_angles_rad": standing.holding_angles_rad,
        "summary": bank_tally(&standing.tally),
    })
}

fn starts_entry(starts: &StartsRecord) -> Value {
    let pairs = starts.pairs();
    json!({
        "name": starts.name,
        "rows_file": format!("{}.csv", starts.name),
        "question_sha256": question_sha256(&starts.plan, &[]),
        "plan": starts.plan,
        "rail_models": rail_models(&starts.plan),
        "cautions": starts.cautions(),
        "found": pairs.len(),
        "without_answer": starts.rows.len() - pairs.len(),
        "fit_through_origin": fit_through_origin(&pairs),
        "fit_with_offset": if pairs.is_empty() { None } else { fit_with_offset(&pairs) },
    })
}

fn shots_entry(shots: &ShotsRecord) -> Value {
    let axes = shots.axes.iter().map(|axis| match &axis.values {
        ShotValues::Numbers { si, si_unit, .. } => {
            json!({ "name": axis.name, "unit": si_unit, "values": si })
        }
        ShotValues::Words(words) => json!({ "name": axis.name, "values": words }),
    });
    json!({
        "name": shots.name,
        "rows_file": format!("{}.csv", shots.name),
        "axes": axes.collect::<Value>(),
        "equipment": shots.equipment,
        "made_by": shots.made_by,
        "cautions": shots.cautions(),
        "summary": shot_tally(&shots.tally()),
    })
}

/// The question, the tolerances, and the looks of the search; the edges are in their own file.
fn frontier_entry(front: &FrontierRecord) -> Value {
    let (searched, holding) = front.lines_searched();
    // JSON holds the largest counts as it holds any number.
    let dense_banks = u64::try_from(front.found.dense_banks)
        .map_or_else(|_| json!(front.found.dense_banks as f64), Value::from);
    let lines: usize = front.found.sheets.iter().map(|sheet| sheet.lines.len()).sum();
    json!({
        "name": front.name,
        "rows_file": format!("{}.csv", front.name),
        "question_sha256": question_sha256(&front.plan, &front.rules),
        "plan": front.plan,
        "rail_models": rail_models(&front.plan),
        "cautions": Cautions::of_plan(&front.plan),
        "rules": front.rules,
        "search": front.search,
        "certificate": {
            "probes": front.found.probes,
            "lines_searched": searched,
            "lines_searched_that_hold": holding,
            "lines_followed": lines - searched,
            "widest_gap_between_looks": front.found.widest_gap(),
            "unsettled_gaps": front.found.unsettled(),
        },
        "banks_searching": front.found.banks_searching,
        "banks_explaining": front.found.banks_explaining,
        "banks_of_the_dense_grid": dense_banks,
        "saving": front.found.saving(),
    })
}

/// The models that the plan's banks are played by, each with what it is.
fn rail_models(plan: &Plan) -> Value {
    models_of(plan)
        .into_iter()
        .map(|model| json!({ "name": model.name(), "about": model_about(model) }))
        .collect()
}

fn expectation(expectation: &Expectation) -> Value {
    let place = expectation.place.as_ref().map(|place| {
        let (line, column) = place.line_column();
        json!({ "line": line, "column": column })
    });
    json!({
        "expected": expectation.expected,
        "found": expectation.found,
        "held": expectation.held,
        "place": place,
        "baseline": expectation.baseline.as_ref().map(baseline),
    })
}

fn baseline(report: &BaselineReport) -> Value {
    json!({
        "file": pretty_file_name(&report.path),
        "moved": !report.moved.is_empty(),
        "accepted": report.accepted,
        "parameters": report.parameters,
        "warnings": report.warnings,
        "notes": report.notes,
        "picture": report.picture,
    })
}

const fn picture_kind(picture: &Picture) -> &'static str {
    match picture {
        Picture::Map(_) => "map",
        Picture::Difference(_) => "difference",
        Picture::BeforeAfter(_) => "before-after",
        Picture::Lines(_) => "lines",
        Picture::Frontier(_) => "frontier",
        Picture::Table(_) => "table",
        Picture::Fit(_) => "fit",
    }
}
