//! The picture of corrections: the rows of a table against the balls that are made with it.

use crate::discovering::CorrectedFindings;
use crate::picture::{Band, BandEdges, LinesPicture, NumericAxis, PictureLook, Series};
use crate::telling::{capital, table_words};
use railproof_engine::discover::CorrectionTable;

/// The picture.
pub fn corrected_picture(found: &CorrectedFindings) -> LinesPicture {
    let tables = &found.found.tables;
    let hundred = |share: f64| 100.0 * share;
    let at = |it: &CorrectionTable| it.corrections.rows().count() as f64;
    let points = |it: &CorrectionTable| (at(it), hundred(it.chance.chance));
    let edges = |it: &CorrectionTable| BandEdges {
        x: at(it),
        from: hundred(it.chance.chance - 2.0 * it.chance.error),
        to: hundred(it.chance.chance + 2.0 * it.chance.error),
    };
    let kept = found.found.named();
    let asked = &found.asked;
    LinesPicture {
        title: title(found),
        subtitles: vec![
            "How many corrections are worth keeping in the head?".to_owned(),
            capital(&format!(
                "{}, by the rule {}, {}, {} rail to the {} pocket",
                asked.player.name,
                found.rule.name,
                asked.table.name,
                asked.balls.rail.name(),
                asked.balls.pocket.name()
            )),
        ],
        x: NumericAxis {
            title: "rows of the table".to_owned(),
            unit: "corrections to remember".to_owned(),
            ..NumericAxis::default()
        },
        y: NumericAxis {
            title: "balls made".to_owned(),
            unit: "of a hundred".to_owned(),
            ..NumericAxis::default()
        },
        series: vec![
            Series {
                label: "the best table of each size".to_owned(),
                points: tables.iter().map(points).collect(),
            },
            Series { label: "the table to keep".to_owned(), points: vec![points(kept)] },
        ],
        bands: vec![Band {
            edges: tables.iter().map(edges).collect(),
            line: Some(0),
            label: "twice its error".to_owned(),
        }],
        notes: vec![
            "The chances are for balls that took no part in the search.".to_owned(),
            "A ball that touches a point of the mouth is not counted.".to_owned(),
        ],
        look: PictureLook::default(),
    }
}

fn title(found: &CorrectedFindings) -> String {
    let kept = found.found.named();
    let made = |it: &CorrectionTable| format!("{:.0}", 100.0 * it.chance.chance);
    if found.found.rows.is_empty() {
        return format!("Correct nothing: {} balls of a hundred", made(kept));
    }
    format!(
        "{}: {} balls of a hundred, {} without",
        capital(&table_words(kept.corrections)),
        made(kept),
        made(&found.found.tables[0])
    )
}
