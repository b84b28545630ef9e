//! Names in a layout become places in its lists; defaults are filled in.

use super::draft::{BallDraft, HeadingDraft, LineDraft, SpotDraft};
use crate::fault::Fault;
use crate::renamed;
use crate::yaml::InputText;
use railproof_engine::equipment::Equipment;
use railproof_engine::lay::{Heading, LineSpot, Spot};
use railproof_engine::rail::{BankGeometry, Line, Pocket, PocketChoice};
use railproof_engine::vector::Vec2;

/// Where the keys of a layout stand in the user's text.
pub(crate) trait Locate {
    /// The fault at the key that a path of keys leads to.
    fn placed(&self, fault: Fault, path: &[&str]) -> Fault;

    /// Whether its lengths are rather in inches.
    fn has_inches(&self) -> bool;
}

impl Locate for InputText {
    fn placed(&self, fault: Fault, path: &[&str]) -> Fault {
        fault.at(self.place_of(path))
    }

    fn has_inches(&self) -> bool {
        self.in_inches() == Some(true)
    }
}

/// The lists in which names and defaults are looked up.
pub(crate) struct Names<'a> {
    pub(crate) source: &'a dyn Locate,
    pub(crate) equipment: &'a Equipment,
    pub(crate) balls: &'a [BallDraft],
    pub(crate) target: Option<Pocket>,
    /// The lines spoken of so far, each once.
    pub(crate) lines: Vec<LineSpot>,
}

impl Names<'_> {
    /// A fault at the key that a path of keys leads to.
    pub(crate) fn fault(&self, path: &[&str], message: impl Into<String>) -> Fault {
        self.source.placed(Fault::bad_input(message), path)
    }

    /// A ball's place in the list.
    pub(crate) fn ball(&self, name: &str, path: &[&str]) -> Result<usize, Fault> {
        if let Some(index) = self.balls.iter().position(|ball| ball.name == name) {
            return Ok(index);
        }
        let names = || self.balls.iter().map(|ball| ball.name.as_str());
        let fault = self.fault(path, format!("there is no ball `{name}`"));
        Err(fault.with_hint(renamed::hint_or_all(name, names(), "the balls are")))
    }

    pub(crate) fn counted_from(
        &self,
        given: Option<Pocket>,
        path: &[&str],
    ) -> Result<Pocket, Fault> {
        given.or(self.target).ok_or_else(|| {
            self.fault(path, "from which pocket are the rail numbers counted?").with_hint(
                "give the layout its target pocket, or name one here with `counted_from`",
            )
        })
    }

    pub(crate) fn line(&mut self, draft: LineDraft, path: &[&str]) -> Result<LineSpot, Fault> {
        let pocket = self.counted_from(draft.counted_from, path)?;
        let rail = draft.rail.facing(choice_of(pocket));
        let geometry = BankGeometry::new(self.equipment, rail, pocket).map_err(|error| {
            self.fault(path, format!("the line makes no bank: {error}"))
                .with_hint("choose a pocket across the table from the rail")
        })?;
        let line = Line::new(draft.contact, draft.start).groove_from(draft.reading, &geometry);
        let spot = LineSpot { rail, pocket, line };
        if !self.lines.contains(&spot) {
            self.lines.push(spot);
        }
        Ok(spot)
    }

    pub(crate) fn spot(&mut self, draft: &SpotDraft, path: &[&str]) -> Result<Spot, Fault> {
        Ok(match draft {
            SpotDraft::At([x, y]) => Spot::At(Vec2::new(*x, *y)),
            SpotDraft::Ball(name) => Spot::Ball(self.ball(name, path)?),
            SpotDraft::Pocket(pocket) => Spot::Pocket(*pocket),
            SpotDraft::OnRail { rail, number, counted_from, off_rail_m } => Spot::OnRail {
                rail: *rail,
                number: *number,
                counted_from: self.counted_from(*counted_from, path)?,
                off_rail_m: *off_rail_m,
            },
            SpotDraft::OnLine { line, off_rail_m } => {
                Spot::OnLine { line: self.line(*line, path)?, off_rail_m: *off_rail_m }
            }
            SpotDraft::Between { ends, share } => Spot::Between {
                one: Box::new(self.spot(&ends[0], path)?),
                other: Box::new(self.spot(&ends[1], path)?),
                share: *share,
            },
            SpotDraft::Beside { ball, heading, ahead, gap_m } => Spot::Beside {
                ball: self.ball(ball, path)?,
                heading: Box::new(self.heading(heading, path)?),
                ahead: *ahead,
                gap_m: *gap_m,
            },
        })
    }

    pub(crate) fn heading(
        &mut self,
        draft: &HeadingDraft,
        path: &[&str],
    ) -> Result<Heading, Fault> {
        Ok(match draft {
            HeadingDraft::Angle(angle_rad) => Heading::Angle(*angle_rad),
            HeadingDraft::To(spot) => Heading::To(self.spot(spot, path)?),
            HeadingDraft::Line(line) => Heading::Along(self.line(*line, path)?),
        })
    }
}

/// The choice that means this pocket.
fn choice_of(pocket: Pocket) -> PocketChoice {
    match pocket {
        Pocket::HeadLeft => PocketChoice::HeadLeft,
        Pocket::HeadRight => PocketChoice::HeadRight,
        Pocket::FootLeft => PocketChoice::FootLeft,
        Pocket::FootRight => PocketChoice::FootRight,
        Pocket::SideLeft => PocketChoice::SideLeft,
        Pocket::SideRight => PocketChoice::SideRight,
    }
}
