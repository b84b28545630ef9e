//! Checks that no single field can make: whether the sections go together.

use super::sections::Sections;
use crate::fault::Fault;
use crate::yaml::InputText;
use railproof_engine::equipment::{Cushion, Equipment, Section};
use railproof_engine::rail::Pocket;
use railproof_engine::world::{World, WorldError};

/// Passes equipment whose parts go together. A fault is placed at the field at issue that is in
/// this file: `sections` says which sections are.
pub(super) fn check_together(
    equipment: Equipment,
    sections: &Sections,
    source: &InputText,
    within: &[&str],
) -> Result<Equipment, Fault> {
    let place = |section: &str, field: &str| source.place_of(&[within, &[section, field]].concat());
    let (table, ball, cushion) = (&equipment.table, &equipment.ball, &equipment.cushion);

    let ratio = cushion.nose_height_m / ball.diameter_m;
    if Cushion::NOSE_RATIO.check(ratio).is_err() {
        let (low, high) = (Cushion::NOSE_RATIO.low, Cushion::NOSE_RATIO.high);
        let at = if sections.has(Section::Cushion) {
            place("cushion", "nose_height")
        } else {
            place("ball", "diameter")
        };
        return Err(Fault::bad_input(format!(
            "the nose is at {:.1} % of the ball's diameter; it must be from {:.0} % to {:.0} %",
            100.0 * ratio,
            100.0 * low,
            100.0 * high
        ))
        .at(at)
        .with_hint(format!(
            "for a ball of {:.3} mm the nose is from {:.3} mm to {:.3} mm high",
            1e3 * ball.diameter_m,
            1e3 * ball.diameter_m * low,
            1e3 * ball.diameter_m * high
        )));
    }
    if table.width_m > table.length_m {
        return Err(Fault::bad_input("the table is wider than it is long")
            .at(place("table", "width"))
            .with_hint("length is the long side, nose to nose"));
    }
    for (field, mouth) in
        [("corner_mouth", table.corner_mouth_m), ("side_mouth", table.side_mouth_m)]
    {
        if mouth <= ball.diameter_m {
            let at = if sections.has(Section::Table) {
                place("table", field)
            } else {
                place("ball", "diameter")
            };
            return Err(Fault::bad_input(format!(
                "`{field}` is {:.1} mm, too narrow for a ball of {:.1} mm",
                1e3 * mouth,
                1e3 * ball.diameter_m
            ))
            .at(at));
        }
    }
    if let Err(error) = World::new(&equipment, &[]) {
        let (section, field) = field_at_issue(&error);
        let path = |keys: &[&'static str]| [within, keys].concat();
        // The field may hold its default, and the table may stand in another file.
        let at = [path(&[section, field]), path(&[section]), path(&["ball"]), path(&["cushion"])]
            .iter()
            .find_map(|path| source.find(path))
            .unwrap_or_else(|| source.place_of(&path(&[])));
        return Err(Fault::bad_input(error.to_string()).at(at));
    }
    // Every field has been checked where it was read; this guards against a check that is in the
    // engine and not here.
    equipment.validated().map_err(|error| {
        let at = if within.is_empty() { source.beginning() } else { source.place_of(within) };
        Fault::bad_input(error.to_string()).at(at)
    })
}

/// Where to look first when there is no such table.
fn field_at_issue(error: &WorldError) -> (&'static str, &'static str) {
    let of = |pocket: &Pocket, corner, side| if pocket.is_side() { side } else { corner };
    let field = match error {
        WorldError::JawRadius { pocket, .. } => of(pocket, "corner_radius", "side_radius"),
        WorldError::Throat { pocket, .. } => of(pocket, "corner_mouth", "side_mouth"),
        WorldError::NoNose { .. } => "corner_radius",
        _ => "corner_mouth",
    };
    ("table", field)
}
