//! A layout played by the stepped engine: contacts that last instead of events.

use crate::fault::Fault;
use crate::layout::Layout;
use railproof_engine::stepped::shot::{SteppedError, SteppedSettings, SteppedShot, play};
use railproof_engine::world::World;

/// A stepped shot and its conditions.
#[derive(Debug)]
pub struct SteppedPlay<'a> {
    /// The question.
    pub layout: &'a Layout,
    /// The table.
    pub world: World,
    /// The events and ends.
    pub shot: SteppedShot,
}

impl<'a> SteppedPlay<'a> {
    /// Plays a layout.
    ///
    /// # Errors
    /// A table that can't be, or a start or a contact time that the engine refuses.
    pub fn new(layout: &'a Layout) -> Result<Self, Fault> {
        let world = World::new(&layout.equipment, &layout.obstacles)
            .map_err(|error| Fault::bad_input(format!("there is no such table: {error}")))?;
        let settings = SteppedSettings::default();
        let shot =
            play(&world, &layout.shot_balls(), layout.until_s, &settings).map_err(|error| {
                let fault = Fault::bad_input(format!("the shot can't be stepped: {error}"));
                match error {
                    SteppedError::ContactTime { .. } => fault.with_hint(
                        "give the cushion a longer `contact_time`, the table a longer \
                         `jaw_contact_time`, or take `engine: event`",
                    ),
                    _ => fault,
                }
            })?;
        Ok(Self { layout, world, shot })
    }

    /// True when two balls met, so that the law of their friction may matter.
    pub fn rub(&self) -> bool {
        self.shot.contacts.iter().any(|contact| contact.other.is_some())
    }

    /// A ball's name.
    pub fn name(&self, ball: usize) -> &'a str {
        self.layout.ball_name(ball)
    }
}
