//! A person's spreads: how far from what was meant aim, speed, side and reading fall.

use crate::equipment::Parameter;
use crate::units::Dimension;

/// Standard deviations of a person's shots, and of what they read off the rails by eye.
///
/// Errors are taken to be normal and independent of each other. They have no bias but what the player of a member of
/// an ensemble always does ([`Habit`](crate::ensemble::Habit)).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Skill {
    /// Of the aim, rad: the ball leaves along a line turned by so much about its place.
    pub aim_rad: f64,
    /// Of the speed, as a share of it.
    pub speed: f64,
    /// Of the side that the ball gets unwanted, as R·wz/v.
    pub side: f64,
    /// Of the cut, rad, where a cue ball sends the object ball from [`Skill::CUT_FROM_M`] away: it adds to the aim.
    pub cut_rad: f64,
    /// Of the contact number read for a ball at the rail, diamonds.
    pub contact_read: f64,
    /// The growth of that for a ball off the rail, diamonds a metre.
    pub contact_read_off: f64,
    /// Of a place on the other rail, diamonds.
    pub start_read: f64,
    /// The growth of that past the rail's end, diamonds for each diamond past it.
    pub start_read_past_end: f64,
    /// The step to which numbers are reckoned in the head, diamonds; the error is even within a step.
    pub reckons_to: f64,
}

/// One number of a person's spreads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SkillNumber {
    /// [`Skill::aim_rad`].
    Aim,
    /// [`Skill::speed`].
    Speed,
    /// [`Skill::side`].
    Side,
    /// [`Skill::cut_rad`].
    Cut,
    /// [`Skill::contact_read`].
    ContactRead,
    /// [`Skill::contact_read_off`].
    ContactReadOff,
    /// [`Skill::start_read`].
    StartRead,
    /// [`Skill::start_read_past_end`].
    StartReadPastEnd,
    /// [`Skill::reckons_to`].
    ReckonsTo,
}

impl SkillNumber {
    /// All of them, in the order of the fields.
    pub const ALL: [Self; 9] = [
        Self::Aim,
        Self::Speed,
        Self::Side,
        Self::Cut,
        Self::ContactRead,
        Self::ContactReadOff,
        Self::StartRead,
        Self::StartReadPastEnd,
        Self::ReckonsTo,
    ];

    /// Its name in files and scripts.
    pub const fn name(self) -> &'static str {
        self.entry().0
    }

    /// Its meaning, in a few words.
    pub const fn meaning(self) -> &'static str {
        self.entry().1
    }

    /// Its kind and range.
    pub const fn parameter(self) -> Parameter {
        let (name, _, dimension, most, unit) = self.entry();
        Parameter::new(name, dimension, 0.0, most, unit)
    }

    /// Name, meaning, kind, largest value and its unit. The least of all is 0.
    const fn entry(self) -> (&'static str, &'static str, Dimension, f64, &'static str) {
        match self {
            Self::Aim => ("aim", "spread of the aim", Dimension::Angle, 200.0, "mrad"),
            Self::Speed => ("speed", "spread of the speed, as a share", Dimension::Ratio, 0.3, ""),
            Self::Side => ("side", "spread of unwanted side", Dimension::Ratio, 0.5, ""),
            Self::Cut => (
                "cut",
                "spread of the cut, with a cue ball half a metre away; grows with the distance",
                Dimension::Angle,
                200.0,
                "mrad",
            ),
            Self::ContactRead => (
                "contact_read",
                "spread of a contact number read at the rail, diamonds",
                Dimension::Ratio,
                1.0,
                "",
            ),
            Self::ContactReadOff => (
                "contact_read_off",
                "how much that grows off the rail, diamonds a metre",
                Dimension::Ratio,
                2.0,
                "",
            ),
            Self::StartRead => (
                "start_read",
                "spread of a start number read on the other rail, diamonds",
                Dimension::Ratio,
                1.0,
                "",
            ),
            Self::StartReadPastEnd => (
                "start_read_past_end",
                "how much that grows for each diamond past the rail's end",
                Dimension::Ratio,
                2.0,
                "",
            ),
            Self::ReckonsTo => (
                "reckons_to",
                "step to which start numbers are worked out, diamonds",
                Dimension::Ratio,
                1.0,
                "",
            ),
        }
    }
}

impl Skill {
    /// Who errs in nothing.
    pub const EXACT: Self = Self {
        aim_rad: 0.0,
        speed: 0.0,
        side: 0.0,
        cut_rad: 0.0,
        contact_read: 0.0,
        contact_read_off: 0.0,
        start_read: 0.0,
        start_read_past_end: 0.0,
        reckons_to: 0.0,
    };

    /// One of its numbers, SI.
    pub const fn number(&self, number: SkillNumber) -> f64 {
        match number {
            SkillNumber::Aim => self.aim_rad,
            SkillNumber::Speed => self.speed,
            SkillNumber::Side => self.side,
            SkillNumber::Cut => self.cut_rad,
            SkillNumber::ContactRead => self.contact_read,
            SkillNumber::ContactReadOff => self.contact_read_off,
            SkillNumber::StartRead => self.start_read,
            SkillNumber::StartReadPastEnd => self.start_read_past_end,
            SkillNumber::ReckonsTo => self.reckons_to,
        }
    }

    /// Sets one of its numbers, SI; its range is the caller's to check.
    pub const fn set(&mut self, number: SkillNumber, value: f64) {
        *match number {
            SkillNumber::Aim => &mut self.aim_rad,
            SkillNumber::Speed => &mut self.speed,
            SkillNumber::Side => &mut self.side,
            SkillNumber::Cut => &mut self.cut_rad,
            SkillNumber::ContactRead => &mut self.contact_read,
            SkillNumber::ContactReadOff => &mut self.contact_read_off,
            SkillNumber::StartRead => &mut self.start_read,
            SkillNumber::StartReadPastEnd => &mut self.start_read_past_end,
            SkillNumber::ReckonsTo => &mut self.reckons_to,
        } = value;
    }

    /// The distance between cue ball and hit for which the error of the cut is told, m: chosen.
    pub const CUT_FROM_M: f64 = 0.5;

    /// The same who sends the object ball with a cue ball from so far away: errors of the cut add to the aim's.
    ///
    /// A cue that points wrong by an angle misses its place on the object ball by the angle times the way there, so the
    /// error of the cut grows with the distance.
    #[must_use]
    pub fn with_cue_ball(mut self, away_m: f64) -> Self {
        self.aim_rad = libm::hypot(self.aim_rad, self.cut_rad * away_m / Self::CUT_FROM_M);
        self
    }

    /// The spread of a contact number read for a ball so far off the rail, diamonds.
    pub fn contact_read_at(&self, off_rail_m: f64) -> f64 {
        self.contact_read + self.contact_read_off * off_rail_m
    }

    /// The spread of a place on the other rail at a number, on a rail that ends at `end`, diamonds.
    pub fn start_read_at(&self, start: f64, end: f64) -> f64 {
        self.start_read + self.start_read_past_end * (start - end).max(0.0)
    }

    /// The spread of a number from being reckoned in steps: that of an even law over one step, step/√12.
    pub fn reckoned(&self) -> f64 {
        self.reckons_to / 12.0_f64.sqrt()
    }

    /// The spread of the mark that is aimed at, diamonds in the rule's own reading.
    ///
    /// A contact misread by δ moves the mark by growth·δ; reckoning and reading add to it.
    pub fn mark_spread(&self, off_rail_m: f64, growth: f64, start: f64, end: f64) -> f64 {
        let contact = growth * self.contact_read_at(off_rail_m);
        let read = self.start_read_at(start, end);
        let reckoned = self.reckoned();
        (contact * contact + read * read + reckoned * reckoned).sqrt()
    }
}
