//! The picture of a shot, written to a folder.

use super::{PlayedShot, SteppedPlay};
use crate::fault::Fault;
use crate::layout::Layout;
use crate::picture::TablePicture;
use crate::shot_picture::{Played, ShotPicture};
use crate::store::{make_folder, write_whole};
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::world::World;
use std::path::{Path, PathBuf};

impl PlayedShot<'_> {
    /// Draws the shot and writes it as SVG and as PNG, named after the layout's file.
    ///
    /// # Errors
    /// A picture that can't be drawn, such as one of far too many paths, or a folder that can't be
    /// written.
    pub fn draw(&self, file: &Path, folder: &Path) -> Result<Vec<PathBuf>, Fault> {
        write(&self.picture(), file, folder)
    }

    /// The picture of the shot.
    pub fn picture(&self) -> TablePicture {
        let by = format!("{} rail model", self.rail_model().name());
        let verdict = self.verdict_sentence().unwrap_or_default();
        let shot = Played::Event(&self.shot);
        picture(self.layout, &self.world, shot, &by, verdict, self.cautions().lines())
    }
}

impl SteppedPlay<'_> {
    /// As [`PlayedShot::draw`].
    ///
    /// # Errors
    /// As [`PlayedShot::draw`].
    pub fn draw(&self, file: &Path, folder: &Path) -> Result<Vec<PathBuf>, Fault> {
        write(&self.picture(), file, folder)
    }

    /// The picture of the shot.
    pub fn picture(&self) -> TablePicture {
        let verdict = self.target_sentence().unwrap_or_default();
        let shot = Played::Stepped(&self.shot);
        picture(self.layout, &self.world, shot, "stepped in time", verdict, self.cautions().lines())
    }
}

fn write(picture: &TablePicture, file: &Path, folder: &Path) -> Result<Vec<PathBuf>, Fault> {
    let cannot =
        |error| Fault::bad_input(format!("the picture of the shot can't be drawn: {error}"));
    let contents = [
        ("svg", picture.to_svg().map_err(cannot)?.into_bytes()),
        ("png", picture.to_png().map_err(cannot)?),
    ];
    make_folder(folder)?;
    let stem = file.file_stem().unwrap_or("shot".as_ref());
    let mut written = Vec::with_capacity(contents.len());
    for (extension, bytes) in contents {
        let mut name = stem.to_owned();
        name.push(".");
        name.push(extension);
        let path = folder.join(name);
        write_whole(&path, |out| out.write_all(&bytes))?;
        written.push(path);
    }
    Ok(written)
}

fn picture(
    layout: &Layout,
    world: &World,
    shot: Played<'_>,
    by: &str,
    verdict: String,
    notes: Vec<String>,
) -> TablePicture {
    let name = |ball: usize| layout.balls.get(ball).map_or("", |it| it.name.as_str());
    let title = match layout.target {
        Some(target) => format!("{} for the {} pocket", name(target.ball), target.pocket.name()),
        None => "A shot".to_owned(),
    };
    ShotPicture {
        world,
        shot,
        balls: layout.balls.iter().map(|it| (it.name.as_str(), it.ball.radius_m())).collect(),
        cue: layout.stroke.map(|stroke| stroke.ball),
        target: layout.target.map(|target| (target.ball, target.pocket)),
        lines: &layout.lines,
        ghost: layout.stroke.and_then(|stroke| stroke.ghost),
        title,
        subtitle: conditions(layout, by),
        verdict,
        notes,
    }
    .picture()
}

/// Table, engine or model, and stroke in one line.
fn conditions(layout: &Layout, by: &str) -> String {
    let table = format!("{}, {by}", layout.equipment.name);
    let Some(stroke) = layout.stroke else { return table };
    let given = &stroke.stroke;
    let name = layout.balls.get(stroke.ball).map_or("", |it| it.name.as_str());
    let mut parts = vec![format!("{name} struck at {:.2} m/s", given.speed_m_s)];
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
