//! Whether a player had better bank a ball or cut it.

use super::PlayedShot;
use crate::fault::Fault;
use crate::layout::Layout;
use crate::player::PlayerProfile;
use railproof_engine::aim::Setup;
use railproof_engine::choice::{
    BallChoice, BallWay, Better, ChoiceDraw, ChoiceQuestion, FoundChoice, JudgedBy,
};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::Pocket;
use railproof_engine::rule::NamedRule;
use railproof_engine::shot::ShotBall;
use railproof_engine::stroke::Stroke;
use railproof_engine::world::World;

/// The question: balls on a table, a stroke, a player.
#[derive(Debug, Clone)]
pub struct ChoiceAsked<'w> {
    /// The balls.
    pub setup: Setup<'w>,
    /// Their names in the setup's order.
    pub names: Vec<String>,
    /// The stroke but for its aim.
    pub stroke: Stroke,
    /// The player.
    pub player: PlayerProfile,
    /// The rule for banks; without one the line is known.
    pub rule: Option<NamedRule>,
    /// The pockets that will do.
    pub pockets: Vec<Pocket>,
}

/// Balls at rest in a layout: the one that strikes, the one that is to be made, and the others.
#[derive(Debug, Clone)]
pub struct BallsAtRest<'w> {
    setup: Setup<'w>,
    names: Vec<String>,
}

impl<'w> BallsAtRest<'w> {
    /// Of a layout, by the places of cue ball and object ball in it. The setup's pocket is the layout's target, which
    /// bank or cut doesn't look at.
    pub fn of(world: &'w World, layout: &Layout, cue: usize, object: usize) -> Self {
        let others = (0..layout.balls.len()).filter(|at| *at != cue && *at != object);
        let order: Vec<usize> = [cue, object].into_iter().chain(others).collect();
        let ball = |at: &usize| {
            let it = &layout.balls[*at];
            ShotBall { state: it.state, ball: it.ball }
        };
        Self {
            setup: Setup {
                world,
                cue: ball(&order[0]),
                object: ball(&order[1]),
                others: order[2..].iter().map(ball).collect(),
                pocket: layout.target.map_or(Pocket::FootRight, |target| target.pocket),
            },
            names: order.iter().map(|at| layout.ball_name(*at).to_owned()).collect(),
        }
    }
}

/// The answer with what it is of.
#[derive(Debug, Clone)]
pub struct ChoiceFindings {
    /// The player's name.
    pub player: String,
    /// The rule's, if there is one.
    pub rule: Option<String>,
    /// The balls' names.
    pub names: Vec<String>,
    /// The speed of the stroke, m/s.
    pub speed_m_s: f64,
    /// The answer.
    pub choice: BallChoice,
}

impl<'w> ChoiceAsked<'w> {
    /// Whether this player had better bank or cut with this stroke; by a rule, or with a line that they know; into
    /// any of the pockets, or into all six.
    pub fn new(
        balls: BallsAtRest<'w>,
        stroke: Stroke,
        player: PlayerProfile,
        rule: Option<NamedRule>,
        pockets: Option<Vec<Pocket>>,
    ) -> Self {
        let BallsAtRest { setup, names } = balls;
        let pockets = pockets.unwrap_or_else(|| Pocket::ALL.to_vec());
        Self { setup, names, stroke, player, rule, pockets }
    }

    /// Refuses a rail model that whole shots can't be played with.
    ///
    /// # Errors
    /// A [`Fault`] that says so.
    pub fn checked(&self) -> Result<(), Fault> {
        if self.setup.world.equipment().cushion.rail_model == RailModel::Compliant {
            return Err(Fault::bad_input(
                "bank or cut plays thousands of strokes, which takes a stepped rail model too long",
            )
            .with_hint("take a table with another rail model"));
        }
        Ok(())
    }

    /// The engine's question.
    fn question(&self) -> ChoiceQuestion<'_> {
        ChoiceQuestion {
            setup: self.setup.clone(),
            stroke: self.stroke,
            ways: BallWay::all(&self.pockets),
            skill: self.player.skill,
            judged_by: self
                .rule
                .as_ref()
                .map_or(JudgedBy::Knowledge, |named| JudgedBy::Rule(&named.rule)),
        }
    }

    /// The answer for the balls as they lie, with banks off two rails where their lines are known.
    pub fn answer(&self, draw: ChoiceDraw) -> ChoiceFindings {
        self.told(draw, true)
    }

    /// The same without banks off two rails.
    pub fn answer_off_one_rail(&self, draw: ChoiceDraw) -> ChoiceFindings {
        self.told(draw, false)
    }

    fn told(&self, draw: ChoiceDraw, two_rails: bool) -> ChoiceFindings {
        let mut question = self.question();
        if two_rails && self.rule.is_none() {
            question.ways.extend(BallWay::all_off_two_rails(&self.pockets));
        }
        ChoiceFindings {
            player: self.player.name.clone(),
            rule: self.rule.as_ref().map(|named| named.name.clone()),
            names: self.names.clone(),
            speed_m_s: self.stroke.speed_m_s,
            choice: question.answer(draw),
        }
    }
}

impl ChoiceFindings {
    /// The way that is better, or either where that can't be told, and the best of the other kind, where they have a
    /// line.
    pub fn best_and_other(&self) -> (Option<&FoundChoice>, Option<&FoundChoice>) {
        match self.choice.better() {
            Better::Cut => (self.cut(), self.bank()),
            Better::Bank => (self.bank(), self.cut()),
            _ => (self.bank().or(self.cut()), self.bank().and(self.cut())),
        }
    }

    /// The best bank.
    pub fn bank(&self) -> Option<&FoundChoice> {
        self.choice.bank.map(|at| &self.choice.found[at])
    }

    /// The best cut.
    pub fn cut(&self) -> Option<&FoundChoice> {
        self.choice.cut.map(|at| &self.choice.found[at])
    }
}

impl PlayedShot<'_> {
    /// Whether this player had better bank the shot's ball or cut it, with the shot's stroke but for its aim.
    ///
    /// # Errors
    /// A [`Fault`] for a layout without a stroke or a target, or with balls that move.
    pub fn bank_or_cut(
        &self,
        player: &PlayerProfile,
        rule: Option<NamedRule>,
        pockets: Option<Vec<Pocket>>,
    ) -> Result<ChoiceFindings, Fault> {
        let layout = self.layout;
        let (Some(struck), Some(target)) = (layout.stroke, layout.target) else {
            return Err(Fault::bad_input("bank or cut needs a stroke and a ball with a `pocket`")
                .with_hint("give the layout a `stroke`, and a `target` with its pocket"));
        };
        let cue = struck.ball;
        if cue == target.ball {
            return Err(Fault::bad_input("bank or cut needs a ball that the cue ball hits")
                .with_hint("name a ball other than the struck one as the `target`"));
        }
        let moves = |at: usize| at != cue && self.layout.balls[at].state.velocity.norm() > 0.0;
        if (0..layout.balls.len()).any(moves) {
            return Err(Fault::bad_input("bank or cut needs balls at rest, but one moves"));
        }
        let balls = BallsAtRest::of(&self.world, layout, cue, target.ball);
        let asked = ChoiceAsked::new(balls, struck.stroke, player.clone(), rule, pockets);
        asked.checked()?;
        Ok(asked.answer(ChoiceDraw::USUAL))
    }
}
