//! Each column's unit and meaning on its own field, as readers of the Arrow family look for them.
//!
//! They take a file's Arrow schema from the note `ARROW:schema`: an encapsulated Schema message of
//! the Arrow IPC format (Apache Arrow columnar format 1.5, `format/Schema.fbs` and `Message.fbs`),
//! in base 64. Only what columns here are is written.

use super::columns::{ColumnValues, FileColumn};
use base64::Engine;
use flatbuffers::{FlatBufferBuilder, UnionWIPOffset, VOffsetT, WIPOffset};

/// The note's key.
pub const SCHEMA_KEY: &str = "ARROW:schema";

type Anything = WIPOffset<UnionWIPOffset>;

/// Where the n-th field of a table stands (a union takes two).
const fn slot(number: VOffsetT) -> VOffsetT {
    4 + 2 * number
}

/// Metadata version V5.
const VERSION: i16 = 4;
/// A Message whose header is a Schema.
const HEADER_SCHEMA: u8 = 1;
/// Kinds of the union Type.
const INT: u8 = 2;
const FLOATING_POINT: u8 = 3;
const UTF8: u8 = 5;
const BOOL: u8 = 6;
/// Precision DOUBLE.
const DOUBLE: i16 = 2;
/// The marker at the beginning of an encapsulated message.
const CONTINUATION: u32 = u32::MAX;

/// The note's value.
pub fn schema_note(columns: &[FileColumn<'_>]) -> String {
    let mut build = FlatBufferBuilder::new();
    let fields: Vec<Anything> = columns.iter().map(|column| field(&mut build, column)).collect();
    let fields = build.create_vector(&fields);
    let table = build.start_table();
    // Little-endian, 0, is the default.
    build.push_slot_always(slot(1), fields);
    let schema = build.end_table(table);
    let table = build.start_table();
    build.push_slot(slot(0), VERSION, 0);
    build.push_slot(slot(1), HEADER_SCHEMA, 0);
    build.push_slot_always(slot(2), schema);
    let message = build.end_table(table);
    build.finish_minimal(message);
    let data = build.finished_data();
    let padded = data.len().next_multiple_of(8);
    let mut bytes = Vec::with_capacity(padded + 8);
    bytes.extend(CONTINUATION.to_le_bytes());
    bytes.extend(u32::try_from(padded).unwrap_or(u32::MAX).to_le_bytes());
    bytes.extend(data);
    bytes.resize(padded + 8, 0);
    base64::engine::general_purpose::STANDARD.encode(bytes)
}

fn field(build: &mut FlatBufferBuilder<'_>, column: &FileColumn<'_>) -> Anything {
    let about = &column.about;
    let name = build.create_string(&about.name);
    let notes: Vec<Anything> = [("unit", about.unit), ("meaning", about.meaning.as_str())]
        .into_iter()
        .map(|(key, value)| {
            let (key, value) = (build.create_string(key), build.create_string(value));
            let table = build.start_table();
            build.push_slot_always(slot(0), key);
            build.push_slot_always(slot(1), value);
            WIPOffset::new(build.end_table(table).value())
        })
        .collect();
    let notes = build.create_vector(&notes);
    let children = build.create_vector::<Anything>(&[]);
    let table = build.start_table();
    let (kind, nullable) = match column.values {
        ColumnValues::Whole(_) | ColumnValues::Counts(_) => {
            build.push_slot(slot(0), 64_i32, 0);
            build.push_slot(slot(1), true, false);
            (INT, matches!(column.values, ColumnValues::Counts(_)))
        }
        ColumnValues::Numbers(_) | ColumnValues::Few(_) => {
            build.push_slot(slot(0), DOUBLE, 0);
            (FLOATING_POINT, true)
        }
        ColumnValues::Flags(_) => (BOOL, true),
        ColumnValues::Words { .. } => (UTF8, true),
    };
    let of_kind = build.end_table(table);
    let table = build.start_table();
    build.push_slot_always(slot(0), name);
    build.push_slot(slot(1), nullable, false);
    build.push_slot(slot(2), kind, 0);
    build.push_slot_always(slot(3), of_kind);
    build.push_slot_always(slot(5), children);
    build.push_slot_always(slot(6), notes);
    WIPOffset::new(build.end_table(table).value())
}
