//! One run's folder, from the first file to `run.json`.

use super::{frontier_csv, names, provenance, rows_csv, shots_csv, spreadsheet, starts_csv};
use crate::fault::{Fault, visible_json};
use crate::files::{
    Fill, cannot_read, check_no_link, folder_named_for, make_folder, ordinary, remove,
    remove_unfinished, write_whole,
};
use crate::picture::PictureError;
use crate::profile::OWN_TABLE;
use crate::record::{Drawing, Picture, Record};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};

/// The file that is written last.
pub const RUN_FILE: &str = "run.json";

/// The files written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RunFiles {
    /// The folder.
    pub folder: PathBuf,
    /// Names of the files in it, in the order in which they were written.
    pub files: Vec<String>,
}

/// Where a scenario's files go unless the user says otherwise: `out/<scenario>`, inside its folder where
/// that is a folder of one's own with its table, so that two of them keep their pictures apart.
///
/// # Errors
/// A name that is a way elsewhere, and a link on the way.
pub fn default_folder(scenario: &Path) -> Result<PathBuf, Fault> {
    let beside = scenario.parent().filter(|folder| folder.join(OWN_TABLE).is_file());
    let beside = beside.unwrap_or(Path::new(""));
    let folder = beside.join("out").join(folder_named_for(scenario)?);
    check_no_link(beside, &folder)?;
    Ok(folder)
}

/// The pictures that an earlier run left in a folder.
pub fn earlier_pictures(folder: &Path) -> Vec<PathBuf> {
    let listed = earlier_files(folder).unwrap_or_default();
    let is_picture = |path: &PathBuf| path.extension().is_some_and(|ending| ending == "png");
    let paths = listed.iter().map(|name| folder.join(name));
    paths.filter(|path| is_picture(path) && path.is_file()).collect()
}

/// Writes everything a run left: the rows of each map, list of exact starts and other answer as CSV, each
/// picture as SVG and PNG, and last [`RUN_FILE`].
///
/// An earlier run in the same folder is taken back first: its [`RUN_FILE`], then the files that it
/// lists and this run does not write again. Other files are left alone.
///
/// # Errors
/// A name that would leave the folder, a picture that can't be drawn, or
/// [`crate::exit::Exit::CouldNotFinish`] with the path when something can't be written.
pub fn write_folder(record: &Record, folder: &Path, cells: TableCells) -> Result<RunFiles, Fault> {
    names::check(record)?;
    // Pictures are drawn before anything is touched: what can't be drawn costs nothing.
    let pictures = drawn(&record.drawings)?;
    make_folder(folder)?;
    let earlier = earlier_files(folder)?;
    remove(&folder.join(RUN_FILE))?;
    remove_unfinished(folder)?;
    let mut files = Vec::new();
    let mut table = |name: &str, fill: Fill<'_>| {
        let name = format!("{name}.csv");
        write_table(&folder.join(&name), cells, fill)?;
        files.push(name);
        Ok::<(), Fault>(())
    };
    for map in &record.maps {
        table(&map.name, &mut |out| rows_csv::write(map, out))?;
    }
    for starts in &record.starts {
        table(&starts.name, &mut |out| starts_csv::write(starts, out))?;
    }
    for shots in &record.shots {
        table(&shots.name, &mut |out| shots_csv::write(shots, out))?;
    }
    for front in &record.frontiers {
        table(&front.name, &mut |out| frontier_csv::write(front, out))?;
    }
    for answers in &record.tables {
        table(&answers.name, &mut |out| answers.write_csv(out))?;
    }
    for (name, bytes) in pictures {
        write_whole(&folder.join(&name), |out| out.write_all(&bytes))?;
        files.push(name);
    }
    for old in earlier.iter().filter(|old| !files.contains(old)) {
        remove(&folder.join(old))?;
    }
    let document = provenance::document(record, &files);
    write_whole(&folder.join(RUN_FILE), |out| {
        out.write_all(visible_json(&serde_json::to_string_pretty(&document)?).as_bytes())?;
        out.write_all(b"\n")
    })?;
    files.push(RUN_FILE.to_owned());
    Ok(RunFiles { folder: folder.to_owned(), files })
}

/// The cells of tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum TableCells {
    /// As they are.
    #[default]
    Plain,
    /// Words that begin like a formula are marked as text.
    SpreadsheetSafe,
}

fn write_table(path: &Path, cells: TableCells, fill: Fill<'_>) -> Result<(), Fault> {
    match cells {
        TableCells::Plain => write_whole(path, fill),
        TableCells::SpreadsheetSafe => write_whole(path, |out| {
            let mut whole = Vec::new();
            fill(&mut whole)?;
            spreadsheet::safe(&whole, out)
        }),
    }
}

/// A file's name and bytes.
type PictureFile = (String, Vec<u8>);

/// Each picture twice: as SVG and as PNG.
fn drawn(drawings: &[Drawing]) -> Result<Vec<PictureFile>, Fault> {
    let pairs: Vec<Result<[PictureFile; 2], Fault>> = drawings
        .par_iter()
        .map(|drawing| {
            let (svg, png) = encoded(&drawing.picture).map_err(|error| {
                Fault::bad_input(format!("the picture `{}` can't be drawn: {error}", drawing.name))
            })?;
            Ok([
                (format!("{}.svg", drawing.name), svg.into_bytes()),
                (format!("{}.png", drawing.name), png),
            ])
        })
        .collect();
    let mut files = Vec::with_capacity(2 * pairs.len());
    for pair in pairs {
        files.extend(pair?);
    }
    Ok(files)
}

fn encoded(picture: &Picture) -> Result<(String, Vec<u8>), PictureError> {
    Ok(match picture {
        Picture::Map(picture) => (picture.to_svg()?, picture.to_png()?),
        Picture::Difference(picture) => (picture.to_svg()?, picture.to_png()?),
        Picture::BeforeAfter(picture) => (picture.to_svg()?, picture.to_png()?),
        Picture::Lines(picture) => (picture.to_svg()?, picture.to_png()?),
        Picture::Frontier(picture) => (picture.to_svg()?, picture.to_png()?),
        Picture::Table(picture) => (picture.to_svg()?, picture.to_png()?),
        Picture::Fit(picture) => (picture.to_svg()?, picture.to_png()?),
    })
}

/// The files that an earlier run in this folder says it wrote; none when there was no whole run.
/// Only names that this program could have written count.
fn earlier_files(folder: &Path) -> Result<Vec<String>, Fault> {
    let path = folder.join(RUN_FILE);
    let text = match ordinary::read(&path) {
        Ok(text) => text,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(cannot_read(&path, &error)),
    };
    let document: serde_json::Value = serde_json::from_slice(&text).unwrap_or_default();
    let listed =
        document["files"].as_array().into_iter().flatten().filter_map(|name| name.as_str());
    Ok(listed.filter(|name| is_ours(name)).map(str::to_owned).collect())
}

fn is_ours(name: &str) -> bool {
    [".csv", ".svg", ".png"].into_iter().any(|ending| name.ends_with(ending))
        && names::safe(name).is_ok()
}
