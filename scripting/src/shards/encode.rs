//! Columns as one Parquet file in memory.

use super::columns::{ColumnValues, FileColumn};
use super::field_notes::{SCHEMA_KEY, schema_note};
use parquet::basic::{Compression, Encoding, LogicalType, Repetition, Type as Physical, ZstdLevel};
use parquet::data_type::{BoolType, ByteArray, ByteArrayType, DataType, DoubleType, Int64Type};
use parquet::errors::{ParquetError, Result};
use parquet::file::metadata::KeyValue;
use parquet::file::properties::{EnabledStatistics, WriterProperties};
use parquet::file::writer::{
    SerializedColumnWriter, SerializedFileWriter, SerializedRowGroupWriter,
};
use parquet::schema::types::{ColumnPath, Type};
use serde_json::{Map, Value, json};
use std::sync::Arc;

/// The key of a file's metadata under which its columns' units and meanings stand.
pub const COLUMNS_KEY: &str = "railproof.columns";

/// The quickest of zstd's usual levels: numbers of a simulation hardly shrink further.
const ZSTD_LEVEL: i32 = 1;

/// The file's bytes: the same for the same columns and notes. Every column has as many rows.
///
/// # Errors
/// Only what the writer itself refuses.
pub fn parquet_file(columns: &[FileColumn<'_>], notes: Vec<(String, String)>) -> Result<Vec<u8>> {
    if let Some(twice) = (1..columns.len())
        .find(|at| columns[..*at].iter().any(|other| other.about.name == columns[*at].about.name))
    {
        let name = &columns[twice].about.name;
        return Err(ParquetError::General(format!("two columns are called {name}")));
    }
    let fields = columns.iter().map(field).collect::<Result<Vec<_>>>()?;
    let schema = Type::group_type_builder("rows").with_fields(fields).build()?;
    let mut about = vec![KeyValue::new(COLUMNS_KEY.to_owned(), columns_note(columns))];
    about.push(KeyValue::new(SCHEMA_KEY.to_owned(), schema_note(columns)));
    about.extend(notes.into_iter().map(|(key, value)| KeyValue::new(key, value)));
    let mut properties = WriterProperties::builder()
        .set_created_by(format!("railproof {}", env!("CARGO_PKG_VERSION")))
        .set_key_value_metadata(Some(about))
        .set_compression(Compression::ZSTD(ZstdLevel::try_new(ZSTD_LEVEL)?))
        .set_statistics_enabled(EnabledStatistics::Chunk)
        .set_offset_index_disabled(true)
        .set_max_row_group_row_count(None)
        .set_dictionary_enabled(false)
        .set_write_batch_size(1 << 16);
    for column in columns {
        let path = ColumnPath::from(column.about.name.as_str());
        properties = match column.values {
            ColumnValues::Words { .. } | ColumnValues::Few(_) => {
                properties.set_column_dictionary_enabled(path, true)
            }
            // Points rise by one, which takes next to no room.
            ColumnValues::Whole(_) => {
                properties.set_column_encoding(path, Encoding::DELTA_BINARY_PACKED)
            }
            // Bytes of like weight stand together, which compresses better.
            ColumnValues::Numbers(_) => {
                properties.set_column_encoding(path, Encoding::BYTE_STREAM_SPLIT)
            }
            ColumnValues::Counts(_) | ColumnValues::Flags(_) => properties,
        };
    }
    let mut file =
        SerializedFileWriter::new(Vec::new(), Arc::new(schema), Arc::new(properties.build()))?;
    let mut group = file.next_row_group()?;
    let mut present = Vec::new();
    for column in columns {
        write_column(&mut group, column, &mut present)?;
    }
    group.close()?;
    file.into_inner()
}

fn field(column: &FileColumn<'_>) -> Result<Arc<Type>> {
    let (physical, repetition, logical) = match column.values {
        ColumnValues::Whole(_) => (Physical::INT64, Repetition::REQUIRED, None),
        ColumnValues::Numbers(_) | ColumnValues::Few(_) => {
            (Physical::DOUBLE, Repetition::OPTIONAL, None)
        }
        ColumnValues::Counts(_) => (Physical::INT64, Repetition::OPTIONAL, None),
        ColumnValues::Flags(_) => (Physical::BOOLEAN, Repetition::OPTIONAL, None),
        ColumnValues::Words { .. } => {
            (Physical::BYTE_ARRAY, Repetition::OPTIONAL, Some(LogicalType::String))
        }
    };
    let built = Type::primitive_type_builder(&column.about.name, physical)
        .with_repetition(repetition)
        .with_logical_type(logical)
        .build()?;
    Ok(Arc::new(built))
}

fn columns_note(columns: &[FileColumn<'_>]) -> String {
    let entries: Map<String, Value> = columns
        .iter()
        .map(|FileColumn { about, .. }| {
            (about.name.clone(), json!({ "unit": about.unit, "meaning": about.meaning }))
        })
        .collect();
    Value::Object(entries).to_string()
}

/// `present` is memory for the definition levels.
fn write_column(
    group: &mut SerializedRowGroupWriter<'_, Vec<u8>>,
    column: &FileColumn<'_>,
    present: &mut Vec<i16>,
) -> Result<()> {
    let Some(mut writer) = group.next_column()? else { return Ok(()) };
    match &column.values {
        ColumnValues::Whole(values) => {
            writer.typed::<Int64Type>().write_batch(values, None, None)?;
        }
        ColumnValues::Counts(values) => write_some::<Int64Type>(&mut writer, values, present)?,
        ColumnValues::Flags(values) => write_some::<BoolType>(&mut writer, values, present)?,
        ColumnValues::Numbers(values) | ColumnValues::Few(values) => {
            write_numbers(&mut writer, values, present)?;
        }
        ColumnValues::Words { list, codes } => {
            let words: Vec<ByteArray> =
                list.iter().map(|word| ByteArray::from(word.as_bytes().to_vec())).collect();
            present.clear();
            present.extend(codes.iter().map(|code| i16::from((*code as usize) < words.len())));
            let values: Vec<ByteArray> =
                codes.iter().filter_map(|code| words.get(*code as usize).cloned()).collect();
            writer.typed::<ByteArrayType>().write_batch(&values, Some(present), None)?;
        }
    }
    writer.close()
}

fn write_some<T: DataType>(
    writer: &mut SerializedColumnWriter<'_>,
    values: &[Option<T::T>],
    present: &mut Vec<i16>,
) -> Result<()> {
    present.clear();
    present.extend(values.iter().map(|value| i16::from(value.is_some())));
    let there: Vec<T::T> = values.iter().flatten().cloned().collect();
    writer.typed::<T>().write_batch(&there, Some(present), None)?;
    Ok(())
}

fn write_numbers(
    writer: &mut SerializedColumnWriter<'_>,
    values: &[f64],
    present: &mut Vec<i16>,
) -> Result<()> {
    let all_there = values.iter().all(|value| value.is_finite());
    present.clear();
    if all_there {
        present.resize(values.len(), 1);
        writer.typed::<DoubleType>().write_batch(values, Some(present), None)?;
    } else {
        present.extend(values.iter().map(|value| i16::from(value.is_finite())));
        let there: Vec<f64> = values.iter().copied().filter(|value| value.is_finite()).collect();
        writer.typed::<DoubleType>().write_batch(&there, Some(present), None)?;
    }
    Ok(())
}
