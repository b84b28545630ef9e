//! The choice between the impulse models.

use super::{Bounce, CushionContact, Rebound};
use super::{nose_and_cloth, nose_and_cloth_many, nose_only, planar};
use crate::equipment::RailModel;

/// The rebound by an impulse model. [`RailModel::Compliant`] lasts in time and is not one: it is
/// taken here as [`RailModel::Planar`], whose hard limit it is.
pub fn bounce(model: RailModel, contact: &CushionContact, before: Bounce) -> Rebound {
    match model {
        RailModel::NoseAndCloth => nose_and_cloth(contact, before),
        RailModel::NoseOnly => nose_only(contact, before),
        RailModel::Planar | RailModel::Compliant => planar(contact, before),
    }
}

/// As [`bounce`] for every ball of `before`, to the same bits; `after` takes the rebounds in the same
/// order.
///
/// # Panics
///
/// When the slices differ in length.
pub fn bounce_many(
    model: RailModel,
    contact: &CushionContact,
    before: &[Bounce],
    after: &mut [Rebound],
) {
    assert_eq!(before.len(), after.len(), "one rebound for each ball");
    if model == RailModel::NoseAndCloth {
        nose_and_cloth_many(contact, before, after);
        return;
    }
    for (ball, rebound) in before.iter().zip(after) {
        *rebound = bounce(model, contact, *ball);
    }
}
