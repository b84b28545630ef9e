//! The measures of a part of a result, by their names.

use railproof_engine::results::{Measure, MeasureReading, ResultKind, ResultPart};
use serde_json::{Map, Value};

/// Null for a measure that the result has not, and for a time that never comes.
pub fn measures<K: ResultKind>(
    list: &[Measure<K>],
    result: &K::Result<'_>,
    part: ResultPart,
) -> Map<String, Value> {
    let own = list.iter().filter(|measure| measure.part == part);
    own.map(|measure| {
        let value = match measure.reading {
            MeasureReading::Word(of) => of(result).into(),
            MeasureReading::Flag(of) => of(result).into(),
            // Adding zero turns −0 into 0.
            MeasureReading::Number(_, of) | MeasureReading::Diamonds(of) => {
                of(result).map(|number| number + 0.0).into()
            }
            MeasureReading::Count(of) => of(result).into(),
        };
        (measure.column_inside(), value)
    })
    .collect()
}
