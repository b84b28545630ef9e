//! A table made ready for banks.

use super::BankError;
use crate::equipment::{Cushion, Equipment, RailModel};
use crate::impact::CushionContact;
use crate::motion::ClothMotion;
use crate::rail::{BankGeometry, Pocket, Rail};

/// A table made ready for banks off one rail into one pocket by one rail model.
///
/// The rail holds the ball for the cushion's contact time t: the ball leaves that much later and
/// ½(vx before + vx after)·t further along the rail, in its groove, with what the model's impulse
/// gives it; t = 0 is the limit of an impulse. A ball that meanwhile runs off the cushion's end
/// never comes off the rail: where a pocket opens it goes into that pocket.
#[derive(Debug, Clone, PartialEq)]
pub struct Bank {
    pub(super) equipment: Equipment,
    pub(super) geometry: BankGeometry,
    pub(super) model: RailModel,
    pub(super) contact: CushionContact,
    pub(super) cloth: ClothMotion,
}

impl Bank {
    /// Makes ready. The equipment must be validated. Without the cargo feature `world` there is no
    /// compliant model, and its hard limit, the planar one, is played in its place.
    ///
    /// # Errors
    /// [`BankError`] when the rail and the pocket make no bank, or the contact is too short for the
    /// compliant model.
    pub fn new(
        equipment: &Equipment,
        rail: Rail,
        pocket: Pocket,
        model: RailModel,
    ) -> Result<Self, BankError> {
        if cfg!(feature = "world") && model == RailModel::Compliant {
            Cushion::RESOLVED_CONTACT_TIME
                .check(equipment.cushion.contact_time_s)
                .map_err(BankError::ShortContact)?;
        }
        Ok(Self {
            geometry: BankGeometry::new(equipment, rail, pocket)?,
            contact: CushionContact::new(equipment),
            cloth: ClothMotion::new(equipment),
            equipment: equipment.clone(),
            model,
        })
    }

    /// The table's distances.
    pub fn geometry(&self) -> &BankGeometry {
        &self.geometry
    }

    /// The equipment it is played with.
    pub fn equipment(&self) -> &Equipment {
        &self.equipment
    }

    /// The rail model.
    pub fn model(&self) -> RailModel {
        self.model
    }

    /// The effect of the cushion on a ball.
    pub(crate) fn contact(&self) -> &CushionContact {
        &self.contact
    }

    /// The effect of the cloth on a ball.
    pub(crate) fn cloth(&self) -> ClothMotion {
        self.cloth
    }
}
