//! `railproof shot`: balls on a table, from a file to rest.

mod answer;
mod drawn;
mod event_answer;
mod stepped;
mod timeline;
mod told;

pub use answer::{
    AimAnswer, ArrivalAnswer, BallAnswer, EndAnswer, PieceAnswer, ShotAnswer, TargetAnswer,
};
pub use event_answer::EventAnswer;
pub use stepped::{ContactAnswer, SteppedAnswer, SteppedPlay};

use super::output::{print, to_json};
use crate::caution::Cautions;
use crate::exit::Exit;
use crate::fault::{Fault, tame};
use crate::layout::{EngineChoice, Layout, layout_guide, load_layout};
use clap::builder::{PossibleValuesParser, TypedValueParser};
use railproof_engine::attribution::{Attribution, NotAttributed, ShotFacts, of_shot};
use railproof_engine::equipment::{FrictionLaw, RailModel};
use railproof_engine::shot::{EventKind, Shot, ShotError, play};
use railproof_engine::verdict::{Verdict, verdict};
use railproof_engine::world::World;
use std::path::PathBuf;
use std::sync::Arc;

/// Play the balls of a YAML file until they rest.
#[derive(Debug, clap::Args)]
#[command(after_long_help = layout_guide())]
pub struct ShotArgs {
    /// A YAML file with `equipment` and `balls`; `--help` lists everything it can say.
    pub file: PathBuf,
    /// Answer with JSON for other programs: every event, and every parameter in use.
    #[arg(long, conflicts_with = "moments")]
    pub json: bool,
    /// Tell every event of every ball after the sentences.
    #[arg(long)]
    pub moments: bool,
    /// Play the same stroke under this law of friction between balls instead of the equipment's: an aim
    /// that the file leaves to be solved is solved under the equipment's.
    #[arg(long, value_name = "LAW", value_parser = friction_law())]
    pub friction_law: Option<FrictionLaw>,
    /// Folder for a picture of the table, as SVG and as PNG.
    #[arg(long, value_name = "DIR")]
    pub into: Option<PathBuf>,
}

/// Plays the balls, prints what happened to them, and draws it.
///
/// # Errors
/// A [`Fault`] at its place in the file, a start the engine refuses, or an output that can't be
/// written.
pub fn run(args: &ShotArgs) -> Result<Exit, Fault> {
    let mut layout = load_layout(&args.file)?;
    if let Some(law) = args.friction_law {
        layout.equipment.ball_contact.friction_law = law;
    }
    let layout = layout;
    let (mut text, rub, moments, answer, drawn, gave_up) = match layout.engine {
        EngineChoice::Event => {
            let played = PlayedShot::new(&layout)?;
            let drawn = args.into.as_ref().map(|folder| played.draw(&args.file, folder));
            let answer = args.json.then(|| to_json(&played.answer()));
            let moments = args.moments.then(|| played.moments());
            (played.told(), played.rub(), moments, answer, drawn, played.shot.gave_up())
        }
        EngineChoice::Stepped => {
            let played = SteppedPlay::new(&layout)?;
            let drawn = args.into.as_ref().map(|folder| played.draw(&args.file, folder));
            let answer = args.json.then(|| to_json(&played.answer()));
            let moments = args.moments.then(|| played.moments());
            (played.told(), played.rub(), moments, answer, drawn, played.shot.gave_up())
        }
    };
    let exit = if gave_up { Exit::CouldNotFinish } else { Exit::Held };
    let drawn = drawn.transpose()?;
    if let Some(answer) = answer.transpose()? {
        print(&answer)?;
        return Ok(exit);
    }
    if rub {
        let other = layout.equipment.ball_contact.friction_law.other().name();
        text.push_str("`--friction-law ");
        text.push_str(other);
        text.push_str("` plays the same stroke by the other law.\n");
    }
    text.extend(moments);
    for path in drawn.into_iter().flatten() {
        text.push_str("picture written: ");
        text.push_str(&tame(&path.display().to_string()));
        text.push('\n');
    }
    print(&text)?;
    Ok(exit)
}

fn friction_law() -> impl TypedValueParser<Value = FrictionLaw> {
    PossibleValuesParser::new(FrictionLaw::ALL.map(FrictionLaw::name)).map(|name| {
        let named = FrictionLaw::ALL.into_iter().find(|law| law.name() == name);
        named.unwrap_or_default()
    })
}

/// Balls whose surfaces slip less than this do not rub, m/s.
const RUBS_M_S: f64 = 1e-3;

/// A shot and what it was played with.
#[derive(Debug)]
pub struct PlayedShot<'a> {
    layout: &'a Layout,
    world: Arc<World>,
    /// What happened.
    pub shot: Shot,
}

impl<'a> PlayedShot<'a> {
    /// Plays a layout by events, whichever engine it names.
    ///
    /// # Errors
    /// A table that can't be, or a start the engine refuses.
    pub fn new(layout: &'a Layout) -> Result<Self, Fault> {
        let world = World::new(&layout.equipment, &layout.obstacles)
            .map_err(|error| Fault::bad_input(format!("there is no such table: {error}")))?;
        let shot = play(&world, &layout.shot_balls(), layout.until_s).map_err(|error| {
            let fault = Fault::bad_input(format!("the shot can't be played: {error}"));
            match error {
                ShotError::Compliant => fault.with_hint(
                    "take `engine: stepped`, or set the cushion's `model` to nose-and-cloth, nose-only \
                     or planar; `railproof bank` takes `--rail-model compliant`",
                ),
                _ => fault,
            }
        })?;
        Ok(Self::of(layout, Arc::new(world), shot))
    }

    /// A shot that was played from this layout on this table.
    pub const fn of(layout: &'a Layout, world: Arc<World>, shot: Shot) -> Self {
        Self { layout, world, shot }
    }

    /// What became of the target; `None` without one.
    pub fn verdict(&self) -> Option<Verdict> {
        Some(verdict(&self.world, &self.shot, self.layout.verdict_target()?))
    }

    /// The target's miss as a sum over its causes, or why there is none; `None` without a target.
    pub fn why(&self) -> Option<Result<Attribution, NotAttributed>> {
        let target = self.layout.verdict_target()?;
        // Lines of other pockets, or more than one, do not say which was meant.
        let mut lines = self.layout.lines.iter().filter(|line| line.pocket == target.pocket);
        let line = lines.next().filter(|_| lines.next().is_none());
        let facts = ShotFacts {
            target,
            squirt_rad: self.layout.stroke.map_or(0.0, |stroke| stroke.struck.squirt_rad),
            line: line.map(|line| (line.rail, line.line)),
        };
        Some(of_shot(&self.world, &self.shot, &facts))
    }

    fn name(&self, ball: usize) -> &'a str {
        self.layout.balls.get(ball).map_or("", |ball| ball.name.as_str())
    }

    /// True when two balls rubbed, so that the law of their friction matters.
    pub fn rub(&self) -> bool {
        let rubs =
            |kind: &EventKind| matches!(kind, EventKind::Ball(touch) if touch.slip_m_s > RUBS_M_S);
        self.shot.events.iter().any(|event| rubs(&event.kind))
    }

    fn rail_model(&self) -> RailModel {
        self.layout.equipment.cushion.model
    }

    fn cautions(&self) -> Cautions {
        Cautions::of_shot(self.layout, &self.shot)
    }
}
