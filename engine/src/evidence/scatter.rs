//! The scatter of a person's shots about what was meant.

/// Standard deviations of one shot about what was meant, and the share of results that say nothing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scatter {
    /// Of the aim, rad.
    pub aim_rad: f64,
    /// Of the speed, as a share of it.
    pub speed: f64,
    /// Of the side, as R·wz/v.
    pub side: f64,
    /// Of the fraction of natural roll at the hit.
    pub roll: f64,
    /// Of the place where the line meets the rail, m.
    pub contact_m: f64,
    /// Of the place where the line begins, m.
    pub start_m: f64,
    /// The share of results that are wrong altogether: another ball, a slip of the pen.
    pub wrong: f64,
}

impl Scatter {
    /// A careful person with a tape measure. Chosen, no source.
    pub const CAREFUL: Self = Self {
        aim_rad: 0.002,
        speed: 0.06,
        side: 0.02,
        roll: 0.05,
        contact_m: 0.003,
        start_m: 0.003,
        wrong: 0.02,
    };

    /// The number of causes.
    pub(crate) const CAUSES: usize = 6;

    /// The causes, in the order of a bank's levers.
    pub(super) const fn causes(&self) -> [f64; Self::CAUSES] {
        [self.aim_rad, self.speed, self.side, self.roll, self.contact_m, self.start_m]
    }
}
