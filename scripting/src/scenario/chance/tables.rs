//! A table that is known, or all that one could be, as an option.

use crate::fitting::MeasuredTable;
use crate::lua::options::{Kind, Mismatch};
use crate::scenario::equipment::{EquipmentObject, OneTable};
use crate::scenario::measured_table::object::MeasuredTableObject;
use mlua::Value;
use railproof_engine::equipment::{Equipment, RailModel};
use std::rc::Rc;

/// What was given.
#[derive(Debug, Clone)]
pub enum AskedOf {
    /// One table.
    One(Rc<Equipment>),
    /// All that one could be.
    Many(Rc<MeasuredTable>),
}

impl AskedOf {
    /// The table, or the middle one.
    pub fn table(&self) -> Equipment {
        match self {
            Self::One(table) => (**table).clone(),
            Self::Many(known) => known.middle(),
        }
    }

    /// The rail model.
    pub fn model(&self) -> RailModel {
        match self {
            Self::One(table) => table.cushion.rail_model,
            Self::Many(known) => known.model,
        }
    }

    /// All that the table could be, where it isn't known exactly.
    pub fn known(&self) -> Option<&Rc<MeasuredTable>> {
        match self {
            Self::One(_) => None,
            Self::Many(known) => Some(known),
        }
    }
}

/// Reads either, off a rail that is quick to compute.
#[derive(Debug, Clone, Copy)]
pub struct OneOrManyTables;

impl Kind for OneOrManyTables {
    type Output = AskedOf;

    fn expected(&self) -> String {
        "an equipment, or all the tables that one could be".to_owned()
    }

    fn read(&self, value: &Value) -> Result<AskedOf, Mismatch> {
        if let Value::UserData(data) = value
            && let Ok(object) = data.borrow::<MeasuredTableObject>()
        {
            return Ok(AskedOf::Many(Rc::clone(&object.known)));
        }
        let EquipmentObject(table) = OneTable.read(value).map_err(|mismatch| {
            let named = matches!(value, Value::String(_)) && mismatch.hint.is_none();
            if named {
                mismatch.with_hint("write it like on = equipment \"nine-foot\"")
            } else {
                mismatch
            }
        })?;
        if table.cushion.rail_model == RailModel::Compliant {
            return Err(Mismatch::message("has a stepped rail model, which is too slow here")
                .with_hint("hall:with { rail_model = \"nose-and-cloth\" }"));
        }
        Ok(AskedOf::One(table))
    }
}
