//! A sweep of whole shots, as plain data.

use crate::plan::{ShotAxis, digits};
use crate::telling::AskedUnits;
use crate::telling::caution::Cautions;
use crate::whole_shots::ShotRow;
use railproof_engine::equipment::Equipment;
use railproof_engine::sweep::Tally;

/// Every point of a grid, and the outcome of its shot.
#[derive(Debug)]
pub struct ShotsRecord {
    /// A name unique in the scenario, fit for a file name.
    pub name: String,
    /// The axes; the last one varies fastest.
    pub axes: Vec<ShotAxis>,
    /// The tables that were played on, each once.
    pub equipment: Vec<Equipment>,
    /// The text of the function that made the shots.
    pub made_by: String,
    /// One for each point, in order.
    pub rows: Vec<ShotRow>,
    /// The units in which people are told of them.
    pub units: AskedUnits,
}

impl ShotsRecord {
    /// The cautions of any of its shots.
    pub fn cautions(&self) -> Cautions {
        self.rows.iter().fold(Cautions::default(), |all, row| all.and(&row.cautions))
    }

    /// The counts of its shots.
    pub fn tally(&self) -> Tally {
        let mut tally = Tally::default();
        self.rows.iter().for_each(|row| row.count_in(&mut tally));
        tally
    }

    /// The places in the axes of a row.
    pub fn digits(&self, row: usize) -> Vec<usize> {
        digits(&self.axes, row as u64)
    }

    /// The tables that rows were played on, each once.
    pub fn tables(rows: &[ShotRow]) -> Vec<Equipment> {
        let mut tables: Vec<Equipment> = Vec::new();
        for one in rows.iter().filter_map(|row| row.equipment.as_deref()) {
            if tables.last() != Some(one) && !tables.contains(one) {
                tables.push(one.clone());
            }
        }
        tables
    }
}
