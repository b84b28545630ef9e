//! Checks that no single field can make: whether the sections go together.

use super::sections::Sections;
use crate::fault::Fault;
use crate::yaml::InputText;
use railproof_engine::bank::most_lengths;
use railproof_engine::equipment::{Cushion, Equipment, EquipmentNumber, Parameter, Section};
use railproof_engine::units::NO_SUCH_LAG;
use railproof_engine::world::{World, WorldError};

/// Numbers that are each in their range and do not go together.
pub(crate) struct PartsConflict {
    pub(crate) message: String,
    pub(crate) hint: Option<String>,
    /// The names of the numbers at issue, the likeliest first.
    pub(crate) numbers: &'static [&'static str],
}

/// Refuses equipment whose parts don't go together.
///
/// # Errors
/// The conflict.
pub(crate) fn check_parts(equipment: &Equipment) -> Result<(), PartsConflict> {
    let (table, ball, cushion) = (&equipment.table, &equipment.ball, &equipment.cushion);
    if let Err(refused) = Cushion::NOSE_RATIO.check(cushion.nose_height_m / ball.diameter_m) {
        let high_mm = |ratio: f64| 1e3 * ball.diameter_m * ratio;
        return Err(PartsConflict {
            message: refused.to_string(),
            hint: Some(format!(
                "for a ball of {:.3} mm the nose is from {:.3} mm to {:.3} mm high",
                1e3 * ball.diameter_m,
                high_mm(Cushion::NOSE_RATIO.low),
                high_mm(Cushion::NOSE_RATIO.high)
            )),
            numbers: &["nose_height", "ball_diameter"],
        });
    }
    if table.width_m > table.length_m {
        return Err(PartsConflict {
            message: "the table is wider than it is long".to_owned(),
            hint: Some("length is the long side, nose to nose".to_owned()),
            numbers: &["table_width", "table_length"],
        });
    }
    let corner: &[&str] = &["corner_mouth", "ball_diameter"];
    for (mouth_m, numbers) in
        [(table.corner_mouth_m, corner), (table.side_mouth_m, &["side_mouth", "ball_diameter"])]
    {
        if mouth_m <= ball.diameter_m {
            return Err(PartsConflict {
                message: format!(
                    "`{}` is {:.1} mm, too narrow for a ball of {:.1} mm",
                    numbers[0],
                    1e3 * mouth_m,
                    1e3 * ball.diameter_m
                ),
                hint: None,
                numbers,
            });
        }
    }
    World::new(equipment, &[]).map(drop).map_err(|error| PartsConflict {
        message: error.to_string(),
        hint: None,
        numbers: numbers_at_issue(&error),
    })
}

/// Passes equipment whose parts go together. A fault is placed at the first number at issue that is in
/// this file.
pub(super) fn check_together(
    equipment: Equipment,
    sections: &Sections,
    source: &InputText,
    within: &[&str],
) -> Result<Equipment, Fault> {
    let path = |keys: &[&'static str]| [within, keys].concat();
    let whole = || if within.is_empty() { source.beginning() } else { source.place_of(within) };
    if let Err(PartsConflict { message, hint, numbers }) = check_parts(&equipment) {
        let numbers = || numbers.iter().filter_map(|name| EquipmentNumber::named(name));
        let here = || numbers().filter(|number| sections.has(number.section()));
        // A number may hold its default.
        let places = here()
            .map(|number| path(&[number.section().name(), number.parameter().name]))
            .chain(here().map(|number| path(&[number.section().name()])));
        let at = places.into_iter().find_map(|path| source.find(&path)).unwrap_or_else(whole);
        let fault = Fault::bad_input(message).at(at);
        return Err(match hint {
            Some(hint) => fault.with_hint(hint),
            None => fault,
        });
    }
    // A lag may be beyond every stroke. Every other field has been checked where it was read.
    for number in Section::Speeds.numbers().filter(|_| sections.has(Section::Speeds)) {
        let Parameter { name, .. } = number.parameter();
        let m_s = number.get(&equipment);
        let at = || source.place_of(&path(&[Section::Speeds.name(), name]));
        if m_s == f64::INFINITY {
            let most = (10.0 * most_lengths(&equipment)).floor() / 10.0;
            return Err(Fault::bad_input(format!("`{name}` is too far: {NO_SUCH_LAG}"))
                .at(at())
                .with_hint(format!("it rolls {most} lengths at most")));
        }
        if let Err(refused) = number.parameter().check(m_s) {
            return Err(Fault::bad_input(refused.to_string()).at(at()));
        }
    }
    equipment.validated().map_err(|error| Fault::bad_input(error.to_string()).at(whole()))
}

/// The numbers to look at first when there is no such table.
const fn numbers_at_issue(error: &WorldError) -> &'static [&'static str] {
    match error {
        WorldError::JawRadius { pocket, .. } if pocket.is_side() => {
            &["side_radius", "side_angle", "side_shelf", "ball_diameter"]
        }
        WorldError::JawRadius { .. } => {
            &["corner_radius", "corner_angle", "corner_shelf", "ball_diameter"]
        }
        WorldError::Throat { pocket, .. } if pocket.is_side() => {
            &["side_mouth", "side_angle", "side_shelf", "ball_diameter", "nose_height"]
        }
        WorldError::NoNose { .. } => &["corner_radius", "side_radius", "corner_angle"],
        _ => &["corner_mouth", "corner_angle", "corner_shelf", "ball_diameter", "nose_height"],
    }
}
