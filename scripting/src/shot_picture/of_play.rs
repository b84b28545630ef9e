//! The picture of a layout that was played.

use super::subject::{ShotPaths, ShotPicture};
use crate::layout::Layout;
use crate::picture::{PictureLook, TablePicture};
use crate::playing::{PlayedShot, SteppedPlay};
use crate::telling::{capital, shot_conditions};
use railproof_engine::equipment::RailModel;
use railproof_engine::world::World;

impl PlayedShot<'_> {
    /// The picture of the shot, with the balls' spin if it is asked for, and with the play that is advised where it
    /// was not made.
    pub fn picture(&self, spin: bool) -> TablePicture {
        TablePicture { other_play: self.advised(), ..self.alone(spin) }
    }

    /// The picture of the shot and of no other.
    pub(super) fn alone(&self, spin: bool) -> TablePicture {
        let verdict = self.target_sentence().unwrap_or_default();
        let (shot, notes) = (ShotPaths::Event(&self.shot), self.cautions().lines());
        picture(self.layout, &self.world, shot, &self.by(), &verdict, notes, spin)
    }

    /// The table, and the model where it is another than the usual one.
    pub(super) fn conditions(&self) -> String {
        shot_conditions(self.layout, &self.by())
    }

    /// The rail model behind the table's name; the usual one is not news.
    fn by(&self) -> String {
        match self.rail_model() {
            RailModel::NoseAndCloth => String::new(),
            other => format!(", {} rail model", other.name()),
        }
    }
}

impl SteppedPlay<'_> {
    /// The picture of the shot, with the balls' spin if it is asked for.
    pub fn picture(&self, spin: bool) -> TablePicture {
        let verdict = self.target_sentence().unwrap_or_default();
        let shot = ShotPaths::Stepped(&self.shot);
        picture(
            self.layout,
            &self.world,
            shot,
            ", stepped in time",
            &verdict,
            self.cautions().lines(),
            spin,
        )
    }
}

fn picture(
    layout: &Layout,
    world: &World,
    shot: ShotPaths<'_>,
    by: &str,
    verdict: &str,
    notes: Vec<String>,
    spin: bool,
) -> TablePicture {
    let verdict = capital(verdict);
    let asked = match layout.target {
        Some(target) => {
            format!("{} for the {} pocket", layout.ball_name(target.ball), target.pocket.name())
        }
        None => "A shot".to_owned(),
    };
    let words = &layout.picture;
    let picture = ShotPicture {
        world,
        shot,
        balls: layout.balls.iter().map(|it| (it.name.as_str(), it.ball.radius_m())).collect(),
        cue: layout.stroke.map(|stroke| stroke.ball),
        target: layout.target.map(|target| (target.ball, target.pocket)),
        lines: &layout.lines,
        ghost: layout.stroke.and_then(|stroke| stroke.ghost),
        spin,
        title: if verdict.is_empty() { capital(&asked) } else { verdict.clone() },
        subtitle: if verdict.is_empty() {
            shot_conditions(layout, by)
        } else {
            format!("{}; {}", capital(&asked), shot_conditions(layout, by))
        },
        verdict,
        notes,
    }
    .picture();
    TablePicture {
        title: words.title.clone().unwrap_or(picture.title),
        subtitle: words.subtitle.clone().unwrap_or(picture.subtitle),
        look: PictureLook {
            legend: words.legend.unwrap_or(picture.look.legend),
            size: words.size.unwrap_or(picture.look.size),
        },
        ..picture
    }
}
