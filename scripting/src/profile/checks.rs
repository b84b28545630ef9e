//! What no single field can know: whether the sections go together.

use super::sections::Sections;
use crate::fault::Fault;
use crate::yaml::Source;
use railproof_engine::equipment::{Cushion, Equipment};

/// Passes equipment whose parts go together. A fault is placed at the field at issue that is in
/// this file: `sections` says which sections are.
pub(super) fn check_together(
    equipment: Equipment,
    sections: &Sections,
    source: &Source,
    within: &[String],
) -> Result<Equipment, Fault> {
    let place = |section: &str, field: &str| {
        let path: Vec<String> =
            within.iter().cloned().chain([section.to_owned(), field.to_owned()]).collect();
        source.place_of(&path)
    };
    let (table, ball, cushion) = (&equipment.table, &equipment.ball, &equipment.cushion);

    let ratio = cushion.nose_height_m / ball.diameter_m;
    if Cushion::NOSE_RATIO.check(ratio).is_err() {
        let (low, high) = (Cushion::NOSE_RATIO.low, Cushion::NOSE_RATIO.high);
        let at = match sections.cushion {
            Some(_) => place("cushion", "nose_height"),
            None => place("ball", "diameter"),
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
            let at = match sections.table {
                Some(_) => place("table", field),
                None => place("ball", "diameter"),
            };
            return Err(Fault::bad_input(format!(
                "`{field}` is {:.1} mm, too narrow for a ball of {:.1} mm",
                1e3 * mouth,
                1e3 * ball.diameter_m
            ))
            .at(at));
        }
    }
    // Every field has been checked where it was read; this guards against a check that is in the
    // engine and not here.
    equipment.validated().map_err(|error| {
        let at = if within.is_empty() { source.beginning() } else { source.place_of(within) };
        Fault::bad_input(error.to_string()).at(at)
    })
}
