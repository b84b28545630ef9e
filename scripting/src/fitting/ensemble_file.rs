//! The file of an ensemble: JSON with its table, its members' coordinates, and its provenance.

use super::{MeasuredTable, TableOrigin};
use crate::called;
use crate::exit::Exit;
use crate::fault::Fault;
use crate::fields::check_kept_name;
use crate::files::ordinary;
use crate::measured::MOST_BANKS;
use crate::plan::sha256;
use crate::profile::shipped_names;
use railproof_engine::VERSION;
use railproof_engine::ensemble::{Ensemble, Member, MemberNumber};
use railproof_engine::equipment::{Equipment, RailModel};
use serde::{Deserialize, Serialize};
use std::path::Path;

/// Larger files are refused: 65,536 members take some 18 MiB.
const LARGEST: u64 = 32 << 20;
/// Fewer members can't be halved and moved.
pub const FEWEST_MEMBERS: usize = 64;
/// The first field of such a file.
const KIND: &str = "railproof-table";

/// The most speeds at which restitution is told.
const MOST_SPEEDS: usize = 3;

/// The file's fields.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct TableFile {
    kind: String,
    engine: String,
    table: Equipment,
    in_inches: bool,
    rail_model: RailModel,
    banks: usize,
    /// SHA-256 of the measurements' text.
    measurements: String,
    seed: u64,
    /// Speeds square to the rail at which restitution is told, m/s.
    #[serde(default)]
    square_speeds: Vec<f64>,
    /// The names of a member's coordinates, in order.
    numbers: Vec<String>,
    /// Coordinates: the share of each number's first spread that lies below.
    members: Vec<Vec<f64>>,
}

/// The text of an ensemble's file.
///
/// # Errors
/// When it has no form in JSON, which does not happen for validated equipment.
pub fn table_text(known: &MeasuredTable, measurements: &str) -> Result<String, Fault> {
    let file = TableFile {
        kind: KIND.into(),
        engine: VERSION.into(),
        table: known.table.clone(),
        in_inches: known.in_inches,
        rail_model: known.model,
        banks: known.banks(),
        measurements: sha256(measurements.as_bytes()),
        seed: known.seed,
        square_speeds: known.square_speeds.clone(),
        numbers: MemberNumber::all().map(|number| number.name().to_owned()).collect(),
        members: known.ensemble.members().iter().map(|member| member.place.to_vec()).collect(),
    };
    serde_json::to_string(&file).map(|text| text + "\n").map_err(|error| {
        Fault::new(Exit::CouldNotFinish, format!("the ensemble can't be written: {error}"))
    })
}

/// A profile's name where a measured table's file belongs.
const NOT_MEASURED: &str =
    "that is a table's profile, not a measured table: give it with `--equipment`";

/// Reads an ensemble's file.
///
/// # Errors
/// A [`Fault`]: no such file, too large, not of this kind, damaged, other numbers.
pub fn read_table(path: &Path) -> Result<MeasuredTable, Fault> {
    let shown = path.display();
    let made_by = format!("`{}` writes such a file, table.json", called::command("fit"));
    let made_by = made_by.as_str();
    let bytes = ordinary::read_at_most(path, LARGEST + 1).map_err(|error| {
        let fault = Fault::bad_input(format!("`{shown}` can't be read: {error}"));
        let shipped = shipped_names().any(|name| path == Path::new(name));
        fault.with_hint(if shipped { NOT_MEASURED } else { made_by })
    })?;
    if bytes.len() as u64 > LARGEST {
        return Err(Fault::bad_input(format!("`{shown}` is larger than {} MiB", LARGEST >> 20)));
    }
    let file: TableFile = serde_json::from_slice(&bytes).map_err(|error| {
        let yaml = path.extension().is_some_and(|it| it == "yaml" || it == "yml");
        Fault::bad_input(if yaml {
            format!("`{shown}` is not a measured table")
        } else {
            format!("`{shown}` is not a measured table: {error}")
        })
        .with_hint(if yaml { NOT_MEASURED } else { made_by })
    })?;
    let names = MemberNumber::all().map(MemberNumber::name);
    if file.kind != KIND || !names.eq(file.numbers.iter().map(String::as_str)) {
        return Err(Fault::bad_input(format!("`{shown}` is of another kind or version"))
            .with_hint("fit your banks again with this program"));
    }
    let damaged = |what: String| {
        Fault::bad_input(format!("`{shown}` is damaged: {what}")).with_hint("fit your banks again")
    };
    if file.rail_model == RailModel::Compliant || file.banks > MOST_BANKS {
        return Err(damaged("no fit gives that".to_owned()));
    }
    let is_speed = |speed: &f64| (0.1..=20.0).contains(speed);
    if file.square_speeds.len() > MOST_SPEEDS || !file.square_speeds.iter().all(is_speed) {
        return Err(damaged("no measured ball comes to a rail so".to_owned()));
    }
    check_kept_name(&file.table.name)
        .map_err(|it| damaged(format!("the table's name {}", it.message)))?;
    let table = file.table.validated().map_err(|error| damaged(error.to_string()))?;
    let mut members = Vec::with_capacity(file.members.len());
    for (at, coordinates) in file.members.into_iter().enumerate() {
        let place: [f64; MemberNumber::COUNT] = coordinates
            .try_into()
            .map_err(|_| damaged(format!("member {} lacks some of its numbers", at + 1)))?;
        if !place.iter().all(|share| (0.0..1.0).contains(share)) {
            return Err(damaged(format!("member {} is outside its spread", at + 1)));
        }
        members.push(Member { place });
    }
    if !(FEWEST_MEMBERS..=Ensemble::MOST).contains(&members.len()) {
        return Err(damaged(format!("{} members", members.len())));
    }
    Ok(MeasuredTable {
        table,
        in_inches: file.in_inches,
        model: file.rail_model,
        ensemble: Ensemble::even(members),
        origin: TableOrigin::Banks(file.banks),
        seed: file.seed,
        square_speeds: file.square_speeds,
    })
}
