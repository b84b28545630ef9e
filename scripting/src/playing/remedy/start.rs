//! Another start on the rail for the line that a missed ball was sent along.

use super::PlayedShot;
use railproof_engine::attribution::{Attribution, Part};
use railproof_engine::bank::{Bank, exact_start};
use railproof_engine::rail::Line;
use railproof_engine::vector::Vec2;

/// The start number from which a ball sent like the one that missed goes through the middle of the mouth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeededStart {
    /// The line as it was (groove reading).
    pub line: Line,
    /// The start number that its contact number needs.
    pub needs: f64,
}

impl PlayedShot<'_> {
    /// The start that the line of a bank needs which missed for the line itself: that of a lone ball, sent off as fast,
    /// with as much roll and side. `None` for other misses; `why` is the miss as a sum over its causes.
    pub fn needed_start(&self, why: &Attribution) -> Option<NeededStart> {
        if !why.main_parts().iter().any(|part| matches!(part, Part::Itself(_))) {
            return None;
        }
        let (spot, target) = (self.line()?, self.layout.target?);
        let equipment = &self.layout.equipment;
        let bank =
            Bank::new(equipment, spot.rail, spot.pocket, equipment.cushion.rail_model).ok()?;
        let mut states = self.shot.events_of(target.ball).map(|event| event.after_of(target.ball));
        let sent = states.find(|state| state.velocity != Vec2::ZERO)?;
        let launch = bank.launch_of(spot.line, &sent)?;
        let needs = exact_start(&bank, spot.line.contact, launch).ok()?;
        Some(NeededStart { line: spot.line, needs })
    }
}
