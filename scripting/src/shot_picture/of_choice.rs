//! The picture of bank or cut: the better way as it is meant, and the best of the other kind over it.

use super::advised::two_ways;
use crate::layout::{Layout, LayoutStroke, LayoutTarget};
use crate::picture::{OtherPlay, TablePicture};
use crate::playing::{ChoiceFindings, PlayedShot};
use crate::telling::{bank_or_cut_sentence, chance_words};
use railproof_engine::choice::{BallWay, FoundChoice};
use railproof_engine::lay::LineSpot;
use railproof_engine::rail::{BankGeometry, Line};
use railproof_engine::shot::Shot;

impl PlayedShot<'_> {
    /// The picture of the answer; `None` where no way has a stroke.
    pub fn choice_picture(&self, found: &ChoiceFindings) -> Option<TablePicture> {
        let (best, other) = found.best_and_other();
        let best = best?;
        let (layout, shot) = self.played_as(best)?;
        let mut picture = PlayedShot::of(&layout, self.world.clone(), shot).alone(false);
        picture.other_play = other.and_then(|other| self.over(other));
        picture.title = bank_or_cut_sentence(found);
        picture.verdict = format!("Drawn as it is meant: {}. {COUNTED}", told(best));
        Some(picture)
    }

    /// The layout with the stroke of a way, and the shot.
    fn played_as(&self, one: &FoundChoice) -> Option<(Layout, Shot)> {
        let line = one.line.as_ref().ok()?;
        let (struck, target) = (self.layout.stroke?, self.layout.target?);
        let stroke = line.aim.stroke;
        let shot = self.with_stroke(&stroke)?;
        let mut layout = self.layout.clone();
        let ball = layout.balls[struck.ball].ball;
        let struck_ball = stroke.strike(&ball, &layout.equipment.cue).ok()?;
        layout.stroke =
            Some(LayoutStroke { stroke, struck: struck_ball, ghost: None, asked: None, ..struck });
        layout.target = Some(LayoutTarget { pocket: one.way.pocket(), ..target });
        layout.lines = self.line_of(one).into_iter().collect();
        (layout.picture.title, layout.picture.subtitle) = (None, None);
        Some((layout, shot))
    }

    /// The line of a bank with its numbers; nothing where they are counted from the other side.
    fn line_of(&self, one: &FoundChoice) -> Option<LineSpot> {
        let BallWay::Bank(rail, pocket) = one.way else { return None };
        let start = one.line.as_ref().ok()?.start?.start;
        let geometry = BankGeometry::new(&self.layout.equipment, rail, pocket).ok()?;
        let object = self.layout.balls.get(self.layout.target?.ball)?;
        let at = geometry.from_table(object.state.position);
        let number = at.x / geometry.diamond_m;
        if number < 0.0 {
            return None;
        }
        // On the line the ball's number lies between the two as the ball lies between the grooves.
        let share = (geometry.span_m - at.y).max(0.0) / geometry.span_m;
        let contact = (number - start * share) / (1.0 - share);
        contact.is_finite().then_some(LineSpot { rail, pocket, line: Line::new(contact, start) })
    }

    /// The way of the other kind, to be drawn over it.
    fn over(&self, one: &FoundChoice) -> Option<OtherPlay> {
        let shot = self.with_stroke(&one.line.as_ref().ok()?.aim.stroke)?;
        let (struck, target) = (self.layout.stroke?, self.layout.target?);
        let kind = if one.way.is_bank() { "the bank" } else { "the cut" };
        Some(OtherPlay {
            name: kind.to_owned(),
            about: told(one),
            is_past: false,
            guide: None,
            ways: two_ways(&shot, struck.ball, target.ball)?,
            starts: Vec::new(),
        })
    }
}

/// What is counted, so that nobody takes it for a clean bank by a line that is read.
const COUNTED: &str = "A ball that goes in off a point counts; the line is known.";

/// Where a way leads and how often it is made.
fn told(one: &FoundChoice) -> String {
    let made = one.tally.as_ref().map_or_else(String::new, |tally| {
        format!(", made {} times in a hundred", chance_words(tally.chance()))
    });
    format!("into the {} pocket{made}", one.way.pocket().name())
}
