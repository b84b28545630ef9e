//! Records on a pipe: four bytes of length, and as many of JSON.

use serde::Serialize;
use serde::de::DeserializeOwned;
use std::io::{self, ErrorKind, Read, Write};

/// No record is longer.
const LONGEST: u32 = 256 << 20;

/// Writes a record.
///
/// # Errors
/// The system's own, or a record that is too long.
pub(super) fn write(out: &mut impl Write, record: &impl Serialize) -> io::Result<()> {
    let body = serde_json::to_vec(record)?;
    let length = u32::try_from(body.len()).ok().filter(|length| *length <= LONGEST);
    let length = length.ok_or_else(|| io::Error::new(ErrorKind::InvalidData, "it is too long"))?;
    let mut whole = Vec::with_capacity(body.len() + 4);
    whole.extend_from_slice(&length.to_le_bytes());
    whole.extend_from_slice(&body);
    out.write_all(&whole)?;
    out.flush()
}

/// Reads a record; none at the end of the pipe.
///
/// # Errors
/// The system's own, or something that is no record.
pub(super) fn read<T: DeserializeOwned>(from: &mut impl Read) -> io::Result<Option<T>> {
    let mut length = [0; 4];
    match from.read_exact(&mut length) {
        Err(error) if error.kind() == ErrorKind::UnexpectedEof => return Ok(None),
        other => other?,
    }
    let length = u32::from_le_bytes(length);
    if length > LONGEST {
        return Err(io::Error::new(ErrorKind::InvalidData, "it is not a record"));
    }
    // As much as comes, and not as much as is promised.
    let mut body = Vec::new();
    from.take(length.into()).read_to_end(&mut body)?;
    if body.len() != length as usize {
        return Err(ErrorKind::UnexpectedEof.into());
    }
    Ok(Some(serde_json::from_slice(&body)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn records_come_back_and_nothing_else_is_taken_for_one() {
        let mut pipe = Vec::new();
        let records = ["first", "second \u{1b}\n", ""];
        for record in records {
            write(&mut pipe, &record).unwrap();
        }
        let mut from = pipe.as_slice();
        for record in records {
            assert_eq!(read::<String>(&mut from).unwrap().as_deref(), Some(record));
        }
        assert_eq!(read::<String>(&mut from).unwrap(), None);
        // Cut off, a length beyond all bounds, another kind of value.
        assert!(read::<String>(&mut &pipe[..6]).is_err());
        assert!(read::<String>(&mut [0xff; 64].as_slice()).is_err());
        assert!(read::<u32>(&mut pipe.as_slice()).is_err());
    }
}
