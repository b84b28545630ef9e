//! The picture of a shot, written to a folder.

use super::PlayedShot;
use crate::fault::Fault;
use crate::picture::TablePicture;
use crate::shot_picture::ShotPicture;
use crate::store::{make_folder, write_whole};
use railproof_engine::units::DEGREE_RAD;
use std::path::{Path, PathBuf};

impl PlayedShot<'_> {
    /// Draws the shot and writes it as SVG and as PNG, named after the layout's file.
    ///
    /// # Errors
    /// A picture that can't be drawn, such as one of far too many paths, or a folder that can't be
    /// written.
    pub fn draw(&self, file: &Path, folder: &Path) -> Result<Vec<PathBuf>, Fault> {
        let cannot =
            |error| Fault::bad_input(format!("the picture of the shot can't be drawn: {error}"));
        let picture = self.picture();
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

    /// The picture of the shot.
    pub fn picture(&self) -> TablePicture {
        let layout = self.layout;
        let target = layout.target.map(|target| (target.ball, target.pocket));
        let title = match target {
            Some((ball, pocket)) => {
                format!("{} for the {} pocket", self.name(ball), pocket.name())
            }
            None => "A shot".to_owned(),
        };
        ShotPicture {
            world: &self.world,
            shot: &self.shot,
            balls: layout.balls.iter().map(|it| (it.name.as_str(), it.ball.radius_m())).collect(),
            cue: layout.stroke.map(|stroke| stroke.ball),
            target,
            lines: &layout.lines,
            ghost: layout.stroke.and_then(|stroke| stroke.ghost),
            title,
            subtitle: self.conditions(),
            verdict: self.verdict_sentence().unwrap_or_default(),
            notes: self.cautions(),
        }
        .picture()
    }

    /// Table, model and stroke in one line.
    fn conditions(&self) -> String {
        let table =
            format!("{}, {} rail model", self.layout.equipment.name, self.rail_model().name());
        let Some(stroke) = self.layout.stroke else { return table };
        let given = &stroke.stroke;
        let mut parts =
            vec![format!("{} struck at {:.2} m/s", self.name(stroke.ball), given.speed_m_s)];
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
}
