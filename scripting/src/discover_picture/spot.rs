//! The picture of a spot: the lines of balls from their starts through their contacts to where they meet.

use crate::picture::{LinesPicture, NumericAxis, PictureLook, Series};
use crate::playing::SpotFindings;
use crate::telling::{AskedUnits, capital};
use railproof_engine::units::short_number;

/// The picture.
pub fn spot_picture(found: &SpotFindings, units: AskedUnits) -> LinesPicture {
    let diamonds = |across_m: f64| across_m / found.geometry.diamond_m;
    let far = diamonds(found.geometry.span_m);
    let behind = diamonds(found.spot.behind_m);
    let line = |(contact, _): &(f64, f64)| Series {
        label: format!(
            "contact {} from {}",
            short_number(*contact, 2),
            short_number(found.slope * contact + found.offset, 2)
        ),
        points: vec![
            (found.slope * contact + found.offset, -far),
            (*contact, 0.0),
            (found.spot.number, behind),
        ],
    };
    LinesPicture {
        title: format!(
            "Aim at one spot, {} behind the nose of the {} rail",
            units.length(found.behind_nose_m),
            found.rail.name()
        ),
        subtitles: vec![
            "Where do the lines of all frozen balls meet?".to_owned(),
            capital(&format!(
                "{}, {} rail to the {} pocket, sliding at {} m/s, start = {} × contact{}",
                found.table,
                found.rail.name(),
                found.pocket.name(),
                short_number(found.speed_m_s, 2),
                short_number(found.slope, 2),
                offset_words(found.offset),
            )),
        ],
        x: NumericAxis {
            title: "along the rail from the pocket's zero".to_owned(),
            unit: "diamonds".to_owned(),
            ..NumericAxis::default()
        },
        y: NumericAxis {
            title: "behind the groove of the banked rail".to_owned(),
            unit: "diamonds".to_owned(),
            ..NumericAxis::default()
        },
        series: found.errors.iter().map(line).collect(),
        bands: Vec::new(),
        notes: [
            vec![format!(
                "Below zero lies the table: at {} the opposite groove, where starts are read; at 0 the groove of the contacts.",
                short_number(-far, 2)
            )],
            found.cautions().lines(),
        ]
        .concat(),
        look: PictureLook::default(),
    }
}

fn offset_words(offset: f64) -> String {
    match short_number(offset.abs(), 2).as_str() {
        "0" => String::new(),
        size if offset < 0.0 => format!(" − {size}"),
        size => format!(" + {size}"),
    }
}
