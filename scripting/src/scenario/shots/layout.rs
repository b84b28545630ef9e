//! Balls laid on a table.

use super::spots::obstacles;
use super::worlds::world_of;
use crate::fault::Fault;
use crate::layout::draft::{BallDraft, Draft, EquipmentSource, TargetDraft};
use crate::layout::names::{Locate, Names};
use crate::layout::places::world_fault;
use crate::layout::resolve::{laid_balls, target_of};
use crate::layout::{CUE, EngineChoice, Layout, PictureWords, SPEED_UNIT};
use crate::lua::options::Options;
use crate::lua::place::Placed;
use crate::renamed;
use crate::scenario::equipment::EquipmentObject;
use crate::scenario::rule_object::RuleObject;
use mlua::Lua;
use railproof_engine::aim::{LineSetup, Setup};
use railproof_engine::shot::ShotBall;
use railproof_engine::vector::Vec2;
use railproof_engine::world::World;
use std::rc::Rc;
use std::sync::Arc;

/// A layout in a script's hands.
#[derive(Clone)]
pub(super) struct LayoutObject(pub Rc<ScenarioLayout>);

/// Balls on a table.
pub(super) struct ScenarioLayout {
    pub layout: Arc<Layout>,
    pub world: Arc<World>,
    /// The entries of the balls, from which further places are told.
    pub draft: Draft,
    /// The line along which they were laid, of a bank shot.
    pub line: Option<BankLine>,
}

/// The line of a bank shot.
#[derive(Clone)]
pub(super) struct BankLine {
    pub at: LineSetup,
    /// The way of the object ball along it, table frame.
    pub direction: Vec2,
    /// The rule that gave it.
    pub rule: Option<RuleObject>,
}

/// Places in a call's options; some keys go by another name than in a layout's file.
pub(super) struct InOptions<'a>(pub &'a Options);

impl Locate for InOptions<'_> {
    fn placed(&self, fault: Fault, path: &[&str]) -> Fault {
        let renamed: Vec<&str> = match path {
            ["target", "ball", ..] => vec!["ball"],
            ["target"] => vec!["pocket"],
            // A bank shot's own balls are not told one by one.
            ["balls", name, ..] if !self.0.knows("balls") && self.0.knows("others") => {
                vec!["others", name]
            }
            _ => path.to_vec(),
        };
        fault.placed(self.0.place_of(&renamed))
    }

    fn has_inches(&self) -> bool {
        self.0.in_inches()
    }
}

/// Puts balls on a table.
pub(super) fn put_down(
    lua: &Lua,
    options: &Options,
    equipment: &EquipmentObject,
    balls: Vec<BallDraft>,
    target: Option<TargetDraft>,
    line: Option<BankLine>,
) -> Result<LayoutObject, Fault> {
    let draft = Draft {
        equipment: EquipmentSource::Named(String::new()),
        target,
        balls,
        stroke: None,
        obstacles: obstacles(options)?,
        engine: EngineChoice::default(),
        until_s: None,
        picture: PictureWords::default(),
    };
    let places = InOptions(options);
    let mut names = Names {
        source: &places,
        equipment: &equipment.0,
        balls: &draft.balls,
        target: draft.target.as_ref().map(|target| target.pocket),
        lines: Vec::new(),
    };
    let world = world_of(lua, &equipment.0, &draft.obstacles)
        .map_err(|error| world_fault(&names, &error))?;
    let laid = laid_balls(&mut names, &draft, &world)?;
    let cue = draft.balls.iter().position(|ball| ball.name == CUE);
    let target = target_of(&names, &draft, cue)?;
    let layout = Layout {
        equipment: (*equipment.0).clone(),
        target,
        balls: laid,
        stroke: None,
        obstacles: draft.obstacles.clone(),
        lines: names.lines,
        engine: EngineChoice::default(),
        until_s: None,
        picture: PictureWords::default(),
        in_inches: options.in_inches(),
        speed_unit: SPEED_UNIT,
    };
    Ok(LayoutObject(Rc::new(ScenarioLayout { layout: Arc::new(layout), world, draft, line })))
}

impl ScenarioLayout {
    /// The cue ball's place in the list.
    pub fn cue(&self) -> Option<usize> {
        self.layout.balls.iter().position(|ball| ball.name == CUE)
    }

    /// True when a ball moves of itself.
    pub fn moves(&self) -> bool {
        self.layout
            .balls
            .iter()
            .any(|it| it.state.velocity != Vec2::ZERO || it.state.spin.norm() > 0.0)
    }

    /// The cue ball, the ball that is meant for the pocket, and the others, for the solvers.
    pub fn setup(&self, options: &Options) -> Result<Setup<'_>, Fault> {
        let cue = self.cue().ok_or_else(|| no_cue(options))?;
        let target = self.layout.target.filter(|target| target.ball != cue).ok_or_else(|| {
            options
                .complain_of_call("this needs a ball that is meant for a pocket")
                .with_hint("give the layout a `pocket`, and a ball beside the cue ball")
        })?;
        if self.moves() {
            return Err(options.complain_of_call("this needs balls at rest, but one moves"));
        }
        let of = |index: usize| {
            let it = &self.layout.balls[index];
            ShotBall { state: it.state, ball: it.ball }
        };
        let others = (0..self.layout.balls.len()).filter(|it| *it != cue && *it != target.ball);
        Ok(Setup {
            world: &self.world,
            cue: of(cue),
            object: of(target.ball),
            others: others.map(of).collect(),
            pocket: target.pocket,
        })
    }

    /// The bank shot's line.
    pub fn bank_line(&self, options: &Options) -> Result<&BankLine, Fault> {
        self.line.as_ref().ok_or_else(|| {
            options
                .complain_of_call("this needs a bank shot, which knows its line")
                .with_hint("lay it with bank_shot { … }")
        })
    }
}

/// The complaint about a layout without a cue ball.
pub(super) fn no_cue(options: &Options) -> Fault {
    options.complain_of_call("which ball is struck?").with_hint("call a ball `cue`")
}

/// The place of a ball in a layout's list, by its name.
pub(super) fn ball_named(layout: &Layout, name: &str) -> Result<usize, Fault> {
    let names = || layout.balls.iter().map(|ball| ball.name.as_str());
    names().position(|known| known == name).ok_or_else(|| {
        Fault::bad_input(format!("there is no ball `{name}`")).with_hint(renamed::hint_or_all(
            name,
            names(),
            "the balls are",
        ))
    })
}
