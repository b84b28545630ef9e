//! The picture of a layout that was played.

use super::subject::{ShotPaths, ShotPicture};
use crate::layout::Layout;
use crate::picture::TablePicture;
use crate::playing::{PlayedShot, SteppedPlay};
use crate::telling::shot_conditions;
use railproof_engine::world::World;

impl PlayedShot<'_> {
    /// The picture of the shot.
    pub fn picture(&self) -> TablePicture {
        let by = format!("{} rail model", self.rail_model().name());
        let verdict = self.target_sentence().unwrap_or_default();
        let shot = ShotPaths::Event(&self.shot);
        picture(self.layout, &self.world, shot, &by, verdict, self.cautions().lines())
    }
}

impl SteppedPlay<'_> {
    /// The picture of the shot.
    pub fn picture(&self) -> TablePicture {
        let verdict = self.target_sentence().unwrap_or_default();
        let shot = ShotPaths::Stepped(&self.shot);
        picture(self.layout, &self.world, shot, "stepped in time", verdict, self.cautions().lines())
    }
}

fn picture(
    layout: &Layout,
    world: &World,
    shot: ShotPaths<'_>,
    by: &str,
    verdict: String,
    notes: Vec<String>,
) -> TablePicture {
    let title = match layout.target {
        Some(target) => {
            format!("{} for the {} pocket", layout.ball_name(target.ball), target.pocket.name())
        }
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
        subtitle: shot_conditions(layout, by),
        verdict,
        notes,
    }
    .picture()
}
