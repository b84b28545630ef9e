//! Where the ball leaves the rail: a contact lasts, and meanwhile the ball goes on along the rail.

use super::BankEnding;
use crate::rail::{BankGeometry, Side};
use crate::vector::Vec2;

/// A stretch of the banked rail's groove along which there is cushion, m.
#[derive(Debug, Clone, Copy)]
pub(super) struct CushionStretch {
    low_m: f64,
    high_m: f64,
}

impl CushionStretch {
    /// The stretch around the place where a ball reaches the rail.
    ///
    /// # Errors
    /// The end of the way, if the ball meets no cushion there.
    pub(super) fn around(geometry: &BankGeometry, place: Vec2) -> Result<Self, BankEnding> {
        let (mut low_m, mut high_m) = (geometry.low_groove_m, geometry.high_groove_m);
        let along_m = place.x;
        if along_m < low_m {
            return Err(BankEnding::OtherRail(Side::Low, place));
        }
        if along_m > high_m {
            return Err(BankEnding::OtherRail(Side::High, place));
        }
        for opening in geometry.openings.iter().filter(|opening| opening.side == Side::Banked) {
            if opening.to_m <= along_m {
                low_m = low_m.max(opening.to_m);
            } else if opening.from_m >= along_m {
                high_m = high_m.min(opening.from_m);
            } else {
                return Err(BankEnding::OtherPocket(opening.pocket, place));
            }
        }
        Ok(Self { low_m, high_m })
    }

    /// Where a ball leaves that met the rail at `met`, on this stretch, and is held for
    /// `contact_time_s`: further along the groove by the mean of its speeds along the rail before
    /// and after, times that.
    ///
    /// The mean is exact for an impulse that is alike in both halves of the contact (the first half
    /// of a spring's push mirrors the second); otherwise it errs by a share of the change of speed.
    ///
    /// # Errors
    /// The ending of a ball that runs off the cushion's end meanwhile, see [`CushionStretch::left_by`].
    pub(super) fn departure(
        self,
        geometry: &BankGeometry,
        met: Vec2,
        along_m_s: (f64, f64),
        contact_time_s: f64,
    ) -> Result<Vec2, BankEnding> {
        let (before, after) = along_m_s;
        let place = Vec2::new(met.x + 0.5 * (before + after) * contact_time_s, met.y);
        if place.x >= self.low_m && place.x <= self.high_m {
            Ok(place)
        } else {
            Err(self.left_by(geometry, place.x))
        }
    }

    /// The ending of a ball that is held up to `to_m`, if that is past this stretch.
    #[cfg(feature = "world")]
    pub(super) fn runs_past(self, geometry: &BankGeometry, to_m: f64) -> Option<BankEnding> {
        (to_m < self.low_m || to_m > self.high_m).then(|| self.left_by(geometry, to_m))
    }

    /// The end of the way of a ball that is held past this stretch. Where a pocket opens, the ball has lost
    /// the cushion and is still on its way in, so it goes into that pocket from the cushion's end. Past the
    /// rail's whole length it meets the rail there.
    #[cold]
    fn left_by(self, geometry: &BankGeometry, to_m: f64) -> BankEnding {
        let (side, end_m) =
            if to_m < self.low_m { (Side::Low, self.low_m) } else { (Side::High, self.high_m) };
        let place = Vec2::new(end_m, geometry.span_m);
        geometry
            .openings
            .iter()
            .find(|opening| {
                let begins_m = if side == Side::Low { opening.to_m } else { opening.from_m };
                opening.side == Side::Banked && begins_m == end_m
            })
            .map_or(BankEnding::OtherRail(side, place), |opening| {
                BankEnding::OtherPocket(opening.pocket, place)
            })
    }
}
