//! Columns read back from a file, by name.

use parquet::column::reader::get_typed_column_reader;
use parquet::data_type::{BoolType, ByteArray, ByteArrayType, DataType, DoubleType, Int64Type};
use parquet::errors::{ParquetError, Result};
use parquet::file::reader::{FileReader, SerializedFileReader};

/// The most rows of a file that are read: no shard has more.
const MOST_ROWS: i64 = 1 << 25;

/// A file whose columns are read.
pub struct ColumnFile {
    reader: SerializedFileReader<bytes::Bytes>,
    rows: usize,
}

impl ColumnFile {
    /// Opens a file in memory.
    ///
    /// # Errors
    /// A text that is no Parquet file, or one with more rows than any shard.
    pub fn open(bytes: bytes::Bytes) -> Result<Self> {
        let reader = SerializedFileReader::new(bytes)?;
        let rows = reader.metadata().file_metadata().num_rows();
        if !(0..=MOST_ROWS).contains(&rows) {
            return Err(ParquetError::General(format!("{rows} rows")));
        }
        Ok(Self { reader, rows: usize::try_from(rows).unwrap_or(0) })
    }

    /// The number of rows.
    pub const fn rows(&self) -> usize {
        self.rows
    }

    /// The columns' names, in order.
    pub fn names(&self) -> Vec<&str> {
        let schema = self.reader.metadata().file_metadata().schema();
        schema.get_fields().iter().map(|field| field.name()).collect()
    }

    /// A column of numbers; an absent one is not a number.
    ///
    /// # Errors
    /// No such column, or one that can't be read.
    pub fn numbers(&self, name: &str) -> Result<Vec<f64>> {
        let mut all = Vec::with_capacity(self.rows);
        self.read::<DoubleType>(name, &mut |value| all.push(value.copied().unwrap_or(f64::NAN)))?;
        Ok(all)
    }

    /// A column of whole numbers.
    ///
    /// # Errors
    /// As [`ColumnFile::numbers`].
    pub fn whole(&self, name: &str) -> Result<Vec<i64>> {
        let mut all = Vec::with_capacity(self.rows);
        self.read::<Int64Type>(name, &mut |value| all.push(value.copied().unwrap_or(-1)))?;
        Ok(all)
    }

    /// A column of yes and no; an absent one is no.
    ///
    /// # Errors
    /// As [`ColumnFile::numbers`].
    pub fn flags(&self, name: &str) -> Result<Vec<bool>> {
        let mut all = Vec::with_capacity(self.rows);
        self.read::<BoolType>(name, &mut |value| all.push(value.copied().unwrap_or(false)))?;
        Ok(all)
    }

    /// A column of words.
    ///
    /// # Errors
    /// As [`ColumnFile::numbers`].
    pub fn words(&self, name: &str) -> Result<Vec<Option<ByteArray>>> {
        let mut all = Vec::with_capacity(self.rows);
        self.read::<ByteArrayType>(name, &mut |value| all.push(value.cloned()))?;
        Ok(all)
    }

    fn read<T: DataType>(&self, name: &str, take: &mut dyn FnMut(Option<&T::T>)) -> Result<()> {
        let wrong = |why: &str| ParquetError::General(format!("the column {name} {why}"));
        let at = self.names().iter().position(|known| *known == name);
        let at = at.ok_or_else(|| wrong("is missing"))?;
        let kind = self.reader.metadata().file_metadata().schema_descr().column(at);
        if kind.physical_type() != T::get_physical_type() || kind.max_rep_level() > 0 {
            return Err(wrong("is of another kind"));
        }
        let most = kind.max_def_level();
        let mut taken = 0;
        for group in 0..self.reader.num_row_groups() {
            let group = self.reader.get_row_group(group)?;
            let mut column = get_typed_column_reader::<T>(group.get_column_reader(at)?);
            loop {
                let (mut values, mut levels) = (Vec::new(), Vec::new());
                let (rows, ..) = column.read_records(
                    self.rows.max(1),
                    (most > 0).then_some(&mut levels),
                    None,
                    &mut values,
                )?;
                if rows == 0 {
                    break;
                }
                taken += rows;
                if taken > self.rows {
                    return Err(wrong("has more rows than the file"));
                }
                let mut there = values.iter();
                if most > 0 {
                    for level in &levels {
                        take(if *level == most { there.next() } else { None });
                    }
                } else {
                    there.for_each(|value| take(Some(value)));
                }
            }
        }
        if taken == self.rows { Ok(()) } else { Err(wrong("has fewer rows than the file")) }
    }
}
