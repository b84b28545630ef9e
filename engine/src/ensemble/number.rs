//! The numbers that all shots of one player on one table share, and their spread before any bank is seen.

use crate::equipment::{Equipment, EquipmentNumber, SpokenSpeeds};

/// The spread of a number before anything is known, as the value at a share of the way through it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Spread {
    /// Every value between the two is as likely.
    Even {
        /// The least value.
        from: f64,
        /// The greatest value.
        to: f64,
    },
    /// Every ratio to the middle, up to this factor either way, is as likely.
    Factor {
        /// The middle.
        middle: f64,
        /// The greatest ratio.
        most: f64,
    },
    /// About nothing, by the logistic law: tails a little longer than the normal law's.
    About {
        /// The standard deviation.
        sd: f64,
    },
}

impl Spread {
    /// The value below which a share in [0, 1) of all lies.
    pub fn value_at(self, share: f64) -> f64 {
        match self {
            Self::Even { from, to } => from + (to - from) * share,
            Self::Factor { middle, most } => middle * libm::pow(most, 2.0 * share - 1.0),
            Self::About { sd } => {
                let share = share.clamp(LEAST_SHARE, 1.0 - LEAST_SHARE);
                sd * LOGISTIC_SCALE_PER_SD * libm::log(share / (1.0 - share))
            }
        }
    }

    /// The share of all that lies below a value: the way back from [`Self::value_at`]. An even spread is drawn on
    /// past its ends, so that a value outside has a share below 0 or from 1 on.
    pub fn share_of(self, value: f64) -> f64 {
        match self {
            Self::Even { from, to } => (value - from) / (to - from),
            Self::Factor { middle, most } => {
                0.5 + 0.5 * libm::log(value / middle) / libm::log(most)
            }
            Self::About { sd } => 1.0 / (1.0 + libm::exp(-value / (sd * LOGISTIC_SCALE_PER_SD))),
        }
    }

    /// The width that holds this share of all, from quantile to quantile.
    pub fn width_of(self, share: f64) -> f64 {
        let tail = 0.5 * (1.0 - share);
        self.value_at(1.0 - tail) - self.value_at(tail)
    }
}

/// √3/π: the logistic law's scale for a standard deviation of 1.
const LOGISTIC_SCALE_PER_SD: f64 = 0.551_328_895_421_792_1;
/// Beyond it the logistic law has no number: 2⁻⁵³, the step of a coordinate.
const LEAST_SHARE: f64 = 1.0 / (1_u64 << 53) as f64;

/// A number that one player's shots on one table share.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MemberNumber {
    /// Restitution at vanishing speed.
    Restitution,
    /// Its loss per speed square to the rail.
    RestitutionLoss,
    /// Friction between ball and nose.
    NoseFriction,
    /// Friction between ball and cloth while the cushion acts.
    ImpactClothFriction,
    /// Friction of a sliding ball.
    SlidingFriction,
    /// Resistance to a rolling ball.
    RollingResistance,
    /// Height of the nose, in ball diameters.
    NoseHeight,
    /// Contact time with a rail.
    ContactTime,
    /// The speed that this player calls soft.
    Soft,
    /// The speed that this player calls medium.
    Medium,
    /// The speed that this player calls firm.
    Firm,
    /// The aim error that this player always has.
    AimBias,
    /// The side that this player always gives, positive to the right of the ball's middle.
    SideBias,
}

/// The spread of a number, and what it sets.
struct SpreadEntry {
    number: MemberNumber,
    /// The equipment's number of this name; nothing for the player's.
    equipment: Option<&'static str>,
    spread: Spread,
    source: &'static str,
}

const fn of_table(
    number: MemberNumber,
    equipment: &'static str,
    (from, to): (f64, f64),
    source: &'static str,
) -> SpreadEntry {
    SpreadEntry { number, equipment: Some(equipment), spread: Spread::Even { from, to }, source }
}

const fn of_word(number: MemberNumber, equipment: &'static str, middle: f64) -> SpreadEntry {
    let spread = Spread::Factor { middle, most: MOST_OFF_A_SPEED_WORD };
    SpreadEntry { number, equipment: Some(equipment), spread, source: SPEED_WORDS }
}

const fn of_player(number: MemberNumber, sd: f64, source: &'static str) -> SpreadEntry {
    SpreadEntry { number, equipment: None, spread: Spread::About { sd }, source }
}

/// Players differ by a third in what they call soft, medium and firm: chosen.
const MOST_OFF_A_SPEED_WORD: f64 = 4.0 / 3.0;
const SPEED_WORDS: &str = "common practice, no source; a third either way is chosen";

#[rustfmt::skip]
const ENTRIES: [SpreadEntry; MemberNumber::COUNT] = {
    use MemberNumber as N;
    [
        of_table(N::Restitution, "restitution", (0.88, 0.99), "0.98: Mathavan, Jackson & Parkin 2010, Proc. IMechE C 224(9):1863-1873; a tenth below and a hundredth above are chosen"),
        of_table(N::RestitutionLoss, "restitution_loss", (0.0, 0.035), "0: the models' own constant restitution; the other end is chosen, an eighth of the restitution at 3.5 m/s"),
        of_table(N::NoseFriction, "nose_friction", (0.09, 0.22), "0.14: Mathavan, Jackson & Parkin 2010; 0.2 and more at shallow angles: Han 2005, J. Mech. Sci. Tech. 19(4):976-984, from memory; the ends are chosen"),
        of_table(N::ImpactClothFriction, "impact_cloth_friction", (0.12, 0.28), "as sliding friction; wider, since nobody measured it in an impact"),
        of_table(N::SlidingFriction, "sliding_friction", (0.16, 0.26), "0.18 to 0.24: Mathavan et al. 2009, Am. J. Phys. 77:788; a tenth more either way for worn and new cloth is chosen"),
        of_table(N::RollingResistance, "rolling_resistance", (0.009, 0.015), "0.0127 to 0.0129: Mathavan et al. 2009; wider for quick and slow cloths is chosen"),
        of_table(N::NoseHeight, "nose_height", (0.625, 0.645), "62.5 to 64.5 % of the ball's diameter: WPA equipment specifications"),
        of_table(N::ContactTime, "contact_time", (0.005, 0.020), "order of 10 ms, from memory; the ends are chosen"),
        of_word(N::Soft, "speed_soft", SpokenSpeeds::USUAL.soft_m_s),
        of_word(N::Medium, "speed_medium", SpokenSpeeds::USUAL.medium_m_s),
        of_word(N::Firm, "speed_firm", SpokenSpeeds::USUAL.firm_m_s),
        of_player(N::AimBias, 0.002, "chosen: 2 mrad is 2 mm at a metre"),
        of_player(N::SideBias, 0.03, "chosen: a tip that stands a third of a millimetre off the middle"),
    ]
};

impl MemberNumber {
    /// The number of coordinates of a member.
    pub const COUNT: usize = 13;

    /// Those of the cushion.
    pub const CUSHION: [Self; 6] = [
        Self::Restitution,
        Self::RestitutionLoss,
        Self::NoseFriction,
        Self::ImpactClothFriction,
        Self::NoseHeight,
        Self::ContactTime,
    ];

    /// All of them, in the order of a member's coordinates.
    pub fn all() -> impl Iterator<Item = Self> + Clone {
        ENTRIES.iter().map(|entry| entry.number)
    }

    /// Its place among a member's coordinates.
    pub const fn place(self) -> usize {
        self as usize
    }

    const fn entry(self) -> &'static SpreadEntry {
        &ENTRIES[self as usize]
    }

    /// The number of the equipment that it is; nothing for a player's bias.
    pub fn equipment(self) -> Option<EquipmentNumber> {
        self.entry().equipment.and_then(EquipmentNumber::named)
    }

    /// Its spread before any bank is seen. The nose's height is told in ball diameters, all else in SI.
    pub const fn spread(self) -> Spread {
        self.entry().spread
    }

    /// The source of its spread.
    pub const fn source(self) -> &'static str {
        self.entry().source
    }

    /// The name in files.
    pub fn name(self) -> &'static str {
        match self {
            Self::AimBias => "aim_bias",
            Self::SideBias => "side_bias",
            _ => self.entry().equipment.unwrap_or_default(),
        }
    }

    /// In a word or two.
    pub fn title(self) -> &'static str {
        match self {
            Self::AimBias => "aim bias",
            Self::SideBias => "side bias",
            _ => self.equipment().map_or("", EquipmentNumber::title),
        }
    }

    /// Its value on a table, as its spread tells it; nothing for a player's bias.
    pub fn value_on(self, equipment: &Equipment) -> Option<f64> {
        let value = self.equipment()?.get(equipment);
        Some(if self == Self::NoseHeight { value / equipment.ball.diameter_m } else { value })
    }

    /// Its value on a table, SI; a player's bias sets nothing there.
    pub(super) fn set(self, equipment: &mut Equipment, value: f64) {
        let value =
            if self == Self::NoseHeight { value * equipment.ball.diameter_m } else { value };
        if let Some(number) = self.equipment() {
            number.set(equipment, value);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_of_a_value_leads_back_to_it() {
        for number in MemberNumber::all() {
            for share in [0.01, 0.3, 0.5, 0.97] {
                let spread = number.spread();
                let back = spread.share_of(spread.value_at(share));
                assert!((back - share).abs() < 1e-12, "{number:?}: {back} for {share}");
            }
        }
    }
}
