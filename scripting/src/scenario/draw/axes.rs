//! The axes of a table of results as a picture's options name them.

use crate::fault::Fault;
use crate::lua::options::{Options, text};
use crate::scenario::results::{ResultAxis, ResultTable};
use mlua::Value;

/// A table's axes, and its rows by their places along them.
pub struct PictureAxes<'a> {
    table: &'a dyn ResultTable,
    pub axes: Vec<ResultAxis>,
    rows: Vec<usize>,
}

impl<'a> PictureAxes<'a> {
    pub fn of(table: &'a dyn ResultTable) -> Self {
        Self { table, axes: table.axes(), rows: table.rows() }
    }

    /// The axis that an option names.
    pub fn axis(&self, options: &Options, key: &'static str) -> Result<Option<usize>, Fault> {
        let name = options.optional(key, text()).map_err(|fault| match options.raw(key) {
            Value::Table(several) => {
                let first = several.get::<String>(1).unwrap_or_else(|_| "off_rail".to_owned());
                fault.with_hint(format!(
                    "it shows one input: {key} = \"{first}\"; first choose one value of each other, with :where"
                ))
            }
            _ => fault,
        })?;
        let Some(name) = name else { return Ok(None) };
        self.table
            .axis(&name)
            .map(Some)
            .map_err(|(message, hint)| options.complain(key, message).with_hint(hint))
    }

    /// As [`PictureAxes::axis`], for an option that must be given.
    pub fn required(&self, options: &Options, key: &'static str) -> Result<usize, Fault> {
        options.required(key, text())?;
        self.axis(options, key)?
            .ok_or_else(|| options.complain_of_call(format!("this picture needs `{key}`")))
    }

    /// The number of rows.
    pub fn count(&self) -> usize {
        self.rows.len()
    }

    /// The number of values kept of an axis.
    pub fn count_along(&self, axis: usize) -> usize {
        self.axes[axis].labels.len()
    }

    /// The row at these places of these axes, the first of every other.
    pub fn row(&self, places: &[(usize, usize)]) -> Option<usize> {
        let place = |axis: usize| {
            places.iter().find(|(known, _)| *known == axis).map_or(0, |(_, place)| *place)
        };
        let at = (0..self.axes.len()).fold(0, |at, axis| at * self.count_along(axis) + place(axis));
        self.rows.get(at).copied()
    }

    /// Refuses one axis in two places.
    pub fn apart(options: &Options, shown: &[(&'static str, usize)]) -> Result<(), Fault> {
        for (at, (key, axis)) in shown.iter().enumerate() {
            if let Some((other, _)) = shown[..at].iter().find(|(_, earlier)| earlier == axis) {
                return Err(options.complain(key, format!("`{key}` shows the same as `{other}`")));
            }
        }
        Ok(())
    }

    /// The axes that vary and are not shown.
    pub fn left(&self, shown: &[usize]) -> Vec<usize> {
        let varies = |axis: &usize| self.count_along(*axis) > 1 && !shown.contains(axis);
        (0..self.axes.len()).filter(varies).collect()
    }

    /// Refuses a picture that would have to leave out an axis that varies.
    pub fn nothing_left(
        &self,
        options: &Options,
        shown: &[usize],
        places: &str,
    ) -> Result<(), Fault> {
        let left = self.left(shown);
        let Some(first) = left.first() else { return Ok(()) };
        let counted: Vec<String> = left
            .iter()
            .map(|axis| format!("`{}` ({} values)", self.axes[*axis].name, self.count_along(*axis)))
            .collect();
        let ResultAxis { name, .. } = &self.axes[*first];
        let value = self.axes[*first].written(0);
        Err(options
            .complain_of_call(format!("the picture has no room for {}", counted.join(", ")))
            .with_hint(format!(
                "show it as one of {places}, or first select one value: :where {{ {name} = {value} }}"
            )))
    }
}
