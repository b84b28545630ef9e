//! The line that a person means to play, and how well they find it.

use super::{BallLines, Condition, Skill};
use crate::rail::BankGeometry;
use crate::rule::{Rule, RuleError};

/// The start number that is aimed from, and the spread of it from reading and reckoning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AimedStart {
    /// The start number, groove reading.
    pub start: f64,
    /// The spread of it from all that is read and reckoned, diamonds.
    pub read_spread: f64,
}

impl AimedStart {
    /// What a rule says for a ball, as this person reads it.
    ///
    /// The person reads the contact number of the rule's line through the ball, takes the rule's start for it and
    /// sends the ball from that mark through its place; or, where that is surer, straight to the contact that was read.
    ///
    /// # Errors
    /// [`RuleError`] where the rule has no line through the ball.
    pub fn by_rule(
        rule: &Rule,
        condition: &Condition,
        skill: &Skill,
        geometry: &BankGeometry,
    ) -> Result<Self, RuleError> {
        let aim = rule.aim_from(condition.ball_m(geometry), geometry)?;
        let own = aim.line.read_as(rule.reading(), geometry);
        let misread = skill.contact_read_at(condition.off_rail_m);
        let growth = growth_about(rule, own.contact, misread, geometry)?;
        let end = geometry.high_end_number();
        let spread = skill.mark_spread(condition.off_rail_m, growth, own.start, end);
        let outside_m = geometry.read_outside_m(rule.reading());
        let lines = condition.on(geometry);
        let by_mark = spread * lines.start_per_mark(outside_m);
        let read_spread = by_mark.min(misread * lines.start_per_contact(outside_m));
        Ok(Self { start: aim.line.start, read_spread })
    }

    /// A line that is given by its start number, groove reading: nothing is reckoned. Of the start's mark and the
    /// contact's the one is read that leads this ball surer.
    pub fn at_start(
        start: f64,
        condition: &Condition,
        skill: &Skill,
        geometry: &BankGeometry,
    ) -> Self {
        let by_mark = skill.start_read_at(start, geometry.high_end_number());
        let by_contact = skill.contact_read * condition.on(geometry).start_per_contact(0.0);
        Self { start, read_spread: by_mark.min(by_contact) }
    }
}

impl AimedStart {
    /// The same line turned about the ball, rad: positive turns it towards the pocket's end of the rail.
    #[must_use]
    pub fn turned(self, lines: &BallLines, by_rad: f64) -> Self {
        Self { start: lines.start_at(lines.angle_rad(self.start) + by_rad), ..self }
    }
}

/// The growth of a rule's start over the contacts that may be read instead: the mean of those a deviation to either
/// side, which differ where the rule bends; that at the contact itself where the rule ends before them.
fn growth_about(
    rule: &Rule,
    contact: f64,
    misread: f64,
    geometry: &BankGeometry,
) -> Result<f64, RuleError> {
    let at = |contact: f64| rule.growth_at(contact, geometry);
    match (at(contact - misread), at(contact + misread)) {
        (Ok(less), Ok(more)) => Ok(0.5 * (less + more)),
        _ => at(contact),
    }
}
