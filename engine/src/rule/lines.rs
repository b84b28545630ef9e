//! A rule of known lines and a way of going between them.

use super::RuleError;
use super::crossing::{Crossing, shifted};
use super::error::finite;
use crate::rail::{Line, Reading};
use serde::{Deserialize, Serialize};

/// Rounding allowed before a point counts as past a known line, diamonds.
const ON_THE_LINE: f64 = 1e-12;

/// Ways to go between known lines.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum WayBetween {
    /// The start number is linear in the contact number from one known line to the next.
    Interpolate {
        /// The answer outside the known lines.
        outside: Outside,
    },
    /// A known line is moved by δ at its contact and ratio·δ at its start.
    ProportionalShift {
        /// Diamonds at the start for each at the contact.
        ratio: f64,
        /// Which line is moved.
        from: ShiftFrom,
    },
    /// A known line is moved parallel to itself: a proportional shift of ratio 1.
    ParallelShift {
        /// Which line is moved.
        from: ShiftFrom,
    },
}

/// Interpolation outside the known lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outside {
    /// It has no answer.
    #[default]
    Refuse,
    /// It goes on as between the two lines at that end.
    Extrapolate,
}

/// Which known line is shifted until it passes through the point. Past the ends of the table it is
/// the line at that end, whichever is chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ShiftFrom {
    /// The one that needs the smallest shift of its contact; of two alike, the lower.
    #[default]
    Nearest,
    /// The nearest of those that must be moved to a higher contact number.
    Lower,
    /// The nearest of those that must be moved to a lower contact number.
    Upper,
}

/// Known lines, by growing contact number, in one reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LineTable {
    reading: Reading,
    lines: Vec<Line>,
    way: WayBetween,
}

impl LineTable {
    /// Checks the lines and the way between them.
    ///
    /// # Errors
    /// A number that is not finite, contacts that do not grow, or fewer lines than one (two for
    /// interpolation).
    pub fn new(reading: Reading, lines: Vec<Line>, way: WayBetween) -> Result<Self, RuleError> {
        let needed = match way {
            WayBetween::Interpolate { .. } => 2,
            WayBetween::ProportionalShift { .. } | WayBetween::ParallelShift { .. } => 1,
        };
        if lines.len() < needed {
            return Err(RuleError::TooFewLines { given: lines.len(), needed });
        }
        if let WayBetween::ProportionalShift { ratio, .. } = way {
            finite("shift ratio", ratio)?;
        }
        for line in &lines {
            finite("a known line's contact", line.contact)?;
            finite("a known line's start", line.start)?;
        }
        for (index, (before, line)) in lines.iter().zip(lines.iter().skip(1)).enumerate() {
            if line.contact <= before.contact {
                return Err(RuleError::LinesOutOfOrder {
                    position: index + 2,
                    contact: line.contact,
                    before: before.contact,
                });
            }
        }
        Ok(Self { reading, lines, way })
    }

    /// The same lines with another way between them.
    ///
    /// # Errors
    /// As [`LineTable::new`].
    pub fn with_way(&self, way: WayBetween) -> Result<Self, RuleError> {
        Self::new(self.reading, self.lines.clone(), way)
    }

    /// The reading of the lines' numbers.
    pub const fn reading(&self) -> Reading {
        self.reading
    }

    /// The known lines.
    pub fn lines(&self) -> &[Line] {
        &self.lines
    }

    /// The way between them.
    pub const fn way(&self) -> WayBetween {
        self.way
    }

    pub(super) fn lines_through(&self, crossing: &Crossing) -> Result<Vec<Line>, RuleError> {
        match self.way {
            WayBetween::Interpolate { outside } => self.blends_through(crossing, outside),
            WayBetween::ProportionalShift { ratio, from } => self.shift_to(crossing, ratio, from),
            WayBetween::ParallelShift { from } => self.shift_to(crossing, 1.0, from),
        }
    }

    /// Blends of two neighbours that pass through the point. Start linear in contact means that
    /// both numbers, and so the place at any distance off the rail, are the same blend of theirs.
    fn blends_through(
        &self,
        crossing: &Crossing,
        outside: Outside,
    ) -> Result<Vec<Line>, RuleError> {
        let last = self.lines.len().saturating_sub(2);
        let mut found: Vec<Line> = Vec::new();
        for (index, (lower, upper)) in self.lines.iter().zip(self.lines.iter().skip(1)).enumerate()
        {
            let (from, to) = (crossing.place_of(*lower), crossing.place_of(*upper));
            let (apart, to_go) = (to - from, crossing.number - from);
            if apart == 0.0 {
                if to_go == 0.0 {
                    let sought = crossing.sought;
                    return Err(RuleError::LinesMeet { sought, number: crossing.number });
                }
                continue;
            }
            let past_the_end = match outside {
                Outside::Refuse => (ON_THE_LINE / apart).abs(),
                Outside::Extrapolate => f64::INFINITY,
            };
            let low = if index == 0 { -past_the_end } else { 0.0 };
            let high = if index == last { 1.0 + past_the_end } else { 1.0 };
            let share = to_go / apart;
            if share < low || share > high {
                continue;
            }
            let blend = |a: f64, b: f64| (1.0 - share) * a + share * b;
            let line =
                Line::new(blend(lower.contact, upper.contact), blend(lower.start, upper.start));
            // A known line ends one piece and begins the next.
            if found.last() != Some(&line) {
                found.push(line);
            }
        }
        match (self.lines.first(), self.lines.last()) {
            (Some(first), Some(last)) if found.is_empty() => Err(RuleError::OutsideLines {
                sought: crossing.sought,
                first: first.contact,
                last: last.contact,
                reading: self.reading.name(),
            }),
            _ => Ok(found),
        }
    }

    /// The chosen known line, shifted until it passes through the point.
    ///
    /// *Nearest* is judged by the shift that the point needs and not by halves of the stretch
    /// between two contacts: for a contact number in the table's own reading the two are the same,
    /// and for a ball off the rail, where lines shifted from below and from above leave a gap at the
    /// halves or overlap, there is still exactly one answer, the one a player would take.
    fn shift_to(
        &self,
        crossing: &Crossing,
        ratio: f64,
        from: ShiftFrom,
    ) -> Result<Vec<Line>, RuleError> {
        let mut shifts = Vec::with_capacity(self.lines.len());
        for line in &self.lines {
            shifts.push((crossing.shift_of(*line, ratio)?, *line));
        }
        let smallest = |allowed: fn(f64) -> bool| {
            shifts
                .iter()
                .filter(|(shift, _)| allowed(*shift))
                .min_by(|(a, _), (b, _)| a.abs().total_cmp(&b.abs()))
        };
        let chosen = match from {
            ShiftFrom::Nearest => smallest(|_| true),
            ShiftFrom::Lower => smallest(|shift| shift >= -ON_THE_LINE).or(shifts.first()),
            ShiftFrom::Upper => smallest(|shift| shift <= ON_THE_LINE).or(shifts.last()),
        };
        Ok(chosen.map(|(shift, line)| shifted(*line, ratio, *shift)).into_iter().collect())
    }

    /// d start/d contact, in the table's own reading; at a known line that of the piece above it.
    pub(super) fn slope_at(&self, contact: f64) -> f64 {
        match self.way {
            WayBetween::ProportionalShift { ratio, .. } => ratio,
            WayBetween::ParallelShift { .. } => 1.0,
            WayBetween::Interpolate { .. } => {
                let pieces = self.lines.len().saturating_sub(1);
                let below = self.lines.partition_point(|line| line.contact <= contact);
                let index = below.saturating_sub(1).min(pieces.saturating_sub(1));
                match self.lines.get(index..index + 2) {
                    Some([lower, upper]) => {
                        (upper.start - lower.start) / (upper.contact - lower.contact)
                    }
                    _ => 1.0,
                }
            }
        }
    }
}
