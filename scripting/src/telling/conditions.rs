//! The conditions of a shot, in words.

use crate::layout::Layout;
use railproof_engine::equipment::Equipment;
use railproof_engine::units::{DEGREE_RAD, Dimension, short_number};

/// Table, engine or model as `by` says after the table's name, and stroke in one line.
pub fn shot_conditions(layout: &Layout, by: &str) -> String {
    let table = format!("{}{by}", layout.equipment.name);
    let Some(stroke) = layout.stroke else { return table };
    let given = &stroke.stroke;
    let name = layout.ball_name(stroke.ball);
    let unit = layout.speed_unit;
    let speed = short_number(given.speed_m_s / Dimension::Speed.si_of(unit), 2);
    let mut parts = vec![format!("{name} struck at {speed} {unit}")];
    for (offset, plus, minus) in
        [(given.side_offset, "right", "left"), (given.height_offset, "high", "low")]
    {
        if offset != 0.0 {
            let word = if offset > 0.0 { plus } else { minus };
            parts.push(format!("tip {:.2} {word}", offset.abs()));
        }
    }
    if given.elevation_rad > 0.0 {
        parts.push(format!("cue raised {:.1}°", given.elevation_rad / DEGREE_RAD));
    }
    format!("{table}; {}", parts.join(", "))
}

/// By which law balls rubbed, where they did.
pub(super) fn friction_words(rub: bool, equipment: &Equipment) -> String {
    let law = equipment.ball_contact.friction_law.name();
    if rub { format!("; friction between balls by the {law} law") } else { String::new() }
}
