//! The inputs: one column for each input of a bank.

use crate::bank::Launch;
use crate::rail::Line;

/// Inputs of many banks on one table, one entry each. All columns are of one length.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Inputs {
    /// Contact numbers, diamonds (groove reading).
    pub contact: Vec<f64>,
    /// Start numbers, diamonds (groove reading).
    pub start: Vec<f64>,
    /// Distances off the rail, m; 0 is frozen.
    pub off_rail_m: Vec<f64>,
    /// Speeds, m/s.
    pub speed_m_s: Vec<f64>,
    /// Fractions of natural roll.
    pub roll: Vec<f64>,
    /// Side spins as R·wz/v; positive is running side.
    pub side: Vec<f64>,
    /// Errors of the aim, rad.
    pub aim_error_rad: Vec<f64>,
}

impl Inputs {
    /// Room for `banks` of them, none in it.
    pub fn with_capacity(banks: usize) -> Self {
        let column = || Vec::with_capacity(banks);
        Self {
            contact: column(),
            start: column(),
            off_rail_m: column(),
            speed_m_s: column(),
            roll: column(),
            side: column(),
            aim_error_rad: column(),
        }
    }

    /// The number of banks: the length of the shortest column.
    pub fn len(&self) -> usize {
        self.columns().into_iter().map(<[f64]>::len).min().unwrap_or(0)
    }

    /// True when there are none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Takes all banks out and keeps the memory.
    pub fn clear(&mut self) {
        for column in self.columns_mut() {
            column.clear();
        }
    }

    /// Adds a bank.
    pub fn push(&mut self, line: Line, launch: Launch) {
        self.contact.push(line.contact);
        self.start.push(line.start);
        self.off_rail_m.push(launch.off_rail_m);
        self.speed_m_s.push(launch.speed_m_s);
        self.roll.push(launch.roll);
        self.side.push(launch.side);
        self.aim_error_rad.push(launch.aim_error_rad);
    }

    /// Adds all of another's banks.
    pub fn append(&mut self, other: &Self) {
        for (column, more) in self.columns_mut().into_iter().zip(other.columns()) {
            column.extend_from_slice(more);
        }
    }

    /// The line of a bank.
    ///
    /// # Panics
    /// When there are not so many.
    pub fn line(&self, index: usize) -> Line {
        Line::new(self.contact[index], self.start[index])
    }

    /// The launch of a bank.
    ///
    /// # Panics
    /// When there are not so many.
    pub fn launch(&self, index: usize) -> Launch {
        Launch {
            off_rail_m: self.off_rail_m[index],
            speed_m_s: self.speed_m_s[index],
            roll: self.roll[index],
            side: self.side[index],
            aim_error_rad: self.aim_error_rad[index],
        }
    }

    /// The columns in the order of the fields.
    pub(super) fn columns(&self) -> [&[f64]; 7] {
        [
            &self.contact,
            &self.start,
            &self.off_rail_m,
            &self.speed_m_s,
            &self.roll,
            &self.side,
            &self.aim_error_rad,
        ]
    }

    fn columns_mut(&mut self) -> [&mut Vec<f64>; 7] {
        [
            &mut self.contact,
            &mut self.start,
            &mut self.off_rail_m,
            &mut self.speed_m_s,
            &mut self.roll,
            &mut self.side,
            &mut self.aim_error_rad,
        ]
    }
}
