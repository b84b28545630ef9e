//! Draws sample pictures from invented numbers into a folder, to be looked at.
//!
//! `cargo run -p railproof --example pictures -- FOLDER`

use railproof::picture::{
    Axis, Band, BandEdges, Cell, CellKind, DifferencePicture, LinesPicture, MapPicture,
    NumericAxis, Panel, PictureError, Series, text_map,
};
use std::path::{Path, PathBuf};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args_os().nth(1).map_or_else(|| PathBuf::from("."), PathBuf::from);
    std::fs::create_dir_all(&folder)?;
    let map = sample_map(3, 17, 10);
    println!("{}", text_map(&map, 100, false));
    save(&folder, "map", map.to_svg(), map.to_png())?;
    let single = sample_map(1, 9, 6);
    save(&folder, "map-single", single.to_svg(), single.to_png())?;
    let dozen = sample_map(12, 9, 7);
    save(&folder, "map-dozen", dozen.to_svg(), dozen.to_png())?;
    let large = sample_map(1, 500, 200);
    save(&folder, "map-large", large.to_svg(), large.to_png())?;
    let kinds = all_kinds();
    println!("{}", text_map(&kinds, 72, true));
    save(&folder, "map-kinds", kinds.to_svg(), kinds.to_png())?;

    let mut other = sample_map(3, 17, 10);
    for panel in &mut other.panels {
        panel.cells.rotate_left(3);
    }
    let mut difference = DifferencePicture::between(
        "Where the planar rail parts from the nose-and-cloth rail",
        ("nose-and-cloth", &map),
        ("planar", &other),
    )?;
    difference.notes = vec!["Invented numbers, to try the drawing.".into()];
    save(&folder, "difference", difference.to_svg(), difference.to_png())?;
    let lines = sample_lines();
    save(&folder, "lines", lines.to_svg(), lines.to_png())?;
    Ok(())
}

fn save(
    folder: &Path,
    name: &str,
    svg: Result<String, PictureError>,
    png: Result<Vec<u8>, PictureError>,
) -> Result<(), Box<dyn std::error::Error>> {
    std::fs::write(folder.join(format!("{name}.svg")), svg?)?;
    std::fs::write(folder.join(format!("{name}.png")), png?)?;
    Ok(())
}

fn numbers(from: f64, to: f64, count: u32) -> Vec<String> {
    let step = (to - from) / f64::from(count.max(2) - 1);
    (0..count).map(|i| format!("{:.2}", from + step * f64::from(i))).collect()
}

/// A map of a made-up law: slow balls far off the rail go long, high contacts go short.
fn sample_map(panels: u32, columns: u32, rows: u32) -> MapPicture {
    let cell = |panel: u32, column: u32, row: u32| {
        let speed = 2.0 + 4.0 * f64::from(column) / f64::from(columns);
        let contact = 1.25 + 2.25 * f64::from(row) / f64::from(rows);
        let off_rail = f64::from(panel) * 0.12 * 3.0 / f64::from(panels.max(3));
        let miss = 700.0 * off_rail * (1.0 - speed / 7.0) - 22.0 * (contact - 1.4).powi(2) + 5.0;
        let kind = match miss {
            _ if speed < 2.3 && contact > 3.0 => CellKind::StoppedBeforeMouth,
            m if m.abs() < 21.0 => CellKind::Holds,
            m if m.abs() < 28.0 => CellKind::TouchesPoint,
            m if m > 0.0 => CellKind::Long,
            _ => CellKind::Short,
        };
        Cell { kind, miss_mm: Some(miss), flagged: speed > 5.3 }
    };
    MapPicture {
        title: "Where start = 2.2 × contact holds in the Lantern Hall".into(),
        subtitles: vec![
            "Nine-foot table, corner pocket, stun. Invented hall with a worn cloth.".into(),
            "Each cell is one bank, aimed by the rule.".into(),
        ],
        x: Axis {
            title: "speed at launch".into(),
            unit: "m/s".into(),
            ticks: numbers(2.0, 6.0, columns),
        },
        y: Axis {
            title: "contact number".into(),
            unit: "diamonds, groove".into(),
            ticks: numbers(1.25, 3.5, rows),
        },
        panels: (0..panels)
            .map(|panel| Panel {
                caption: match panel {
                    0 => "frozen to the rail".into(),
                    more => format!("{} in off the rail", more * 4),
                },
                cells: (0..rows)
                    .flat_map(|row| (0..columns).map(move |column| cell(panel, column, row)))
                    .collect(),
            })
            .collect(),
        rule: "start = 2.2 × contact, read through the groove".into(),
        model: "nose-and-cloth rail, cushion calibrated on the frozen banks".into(),
        flag_meaning: "outside the speeds at which the model was checked; the verdict stands, with less behind it".into(),
        notes: vec!["Invented numbers, to try the drawing. Distances off the rail are measured square to it, from the ball's centre to the groove.".into()],
    }
}

/// Every kind of cell beside its flagged twin.
fn all_kinds() -> MapPicture {
    let mut map = sample_map(1, 9, 2);
    map.title = "Every kind of cell, plain and flagged".into();
    map.y.ticks = vec!["plain".into(), "flagged".into()];
    map.panels[0].cells = [false, true]
        .into_iter()
        .flat_map(|flagged| {
            CellKind::ALL.into_iter().map(move |kind| Cell { kind, miss_mm: Some(64.0), flagged })
        })
        .collect();
    map
}

fn sample_lines() -> LinesPicture {
    let series =
        ["frozen", "4 in off the rail", "8 in off the rail", "12 in off the rail", "18 in"]
            .into_iter()
            .enumerate()
            .map(|(index, label)| Series {
                label: label.into(),
                points: (0..=32_u32)
                    .map(|step| {
                        let speed = 2.0 + 0.125 * f64::from(step);
                        let off = f64::from(u32::try_from(index).unwrap_or(0));
                        (speed, 4.0 * off * off / (speed - 0.8) + 2.5 * off - 6.0)
                    })
                    .collect(),
            })
            .collect();
    LinesPicture {
        title: "The miss falls with speed, and grows with the distance off the rail".into(),
        subtitles: vec!["Contact 2, start 4.4, nine-foot table, stun. Invented hall.".into()],
        x: NumericAxis { title: "speed at launch".into(), unit: "m/s".into() },
        y: NumericAxis { title: "miss; long is up".into(), unit: "mm".into() },
        series,
        bands: vec![Band {
            edges: [2.0, 6.0].map(|x| BandEdges { x, from: -24.0, to: 24.0 }).to_vec(),
            line: None,
            label: "clears both points".into(),
        }],
        notes: vec!["Invented numbers, to try the drawing.".into()],
    }
}
