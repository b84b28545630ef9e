//! How much a piece of work may take.

use bytesize::ByteSize;
use serde::{Deserialize, Serialize};
use std::time::Duration;

/// The most that a piece of work may take.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Budget {
    /// From its start to its end; unbounded unless given.
    pub time: Option<Duration>,
    /// Memory of the process, bytes.
    pub memory: u64,
    /// Bytes of each file that it writes.
    pub output: u64,
}

impl Budget {
    /// The least that makes sense: the program alone takes some of it.
    const LEAST_TIME: Duration = Duration::from_millis(100);
    const LEAST_MEMORY: u64 = 64 << 20;
    const LEAST_OUTPUT: u64 = 1 << 10;

    /// The usual budget.
    pub const USUAL: Self =
        Self { time: Some(Duration::from_mins(10)), memory: 4 << 30, output: 4 << 30 };

    /// That of nights: as long as they take.
    pub const UNTIMED: Self = Self { time: None, output: u64::MAX, ..Self::USUAL };

    /// That of fits and searches: as long as they take too, and the usual output.
    pub const PATIENT: Self = Self { time: None, ..Self::USUAL };

    /// The time in words.
    pub fn time_in_words(&self) -> String {
        self.time.map_or_else(
            || "any time".to_owned(),
            |time| humantime::format_duration(time).to_string(),
        )
    }

    /// The memory in words.
    pub fn memory_in_words(&self) -> String {
        in_words(self.memory)
    }

    /// The output in words.
    pub fn output_in_words(&self) -> String {
        in_words(self.output)
    }
}

fn in_words(bytes: u64) -> String {
    ByteSize::b(bytes).display().iec().to_string()
}

/// Reads a time such as `90 s`, `10 min` or `2 h`.
///
/// # Errors
/// In words, with an example.
pub fn duration_of_text(text: &str) -> Result<Duration, String> {
    let time = humantime::parse_duration(text.trim())
        .map_err(|_| "give a time such as \"90 s\", \"10 min\" or \"2 h\"".to_owned())?;
    if time < Budget::LEAST_TIME {
        return Err("give 100 ms or more".to_owned());
    }
    Ok(time)
}

/// Reads an amount of memory or of output such as `512 MiB` or `4 GiB`, from the given least on.
///
/// # Errors
/// In words, with an example.
fn bytes_from(text: &str, least: u64) -> Result<u64, String> {
    let bytes = text
        .trim()
        .parse::<ByteSize>()
        .map_err(|_| "give an amount such as \"512 MiB\" or \"4 GiB\"".to_owned())?
        .as_u64();
    if bytes < least {
        return Err(format!("give {} or more", in_words(least)));
    }
    Ok(bytes)
}

/// Reads an amount of memory (`of_memory`) or of output.
///
/// # Errors
/// In words, with an example.
pub fn bytes_of_text(text: &str, of_memory: bool) -> Result<u64, String> {
    bytes_from(text, if of_memory { Budget::LEAST_MEMORY } else { Budget::LEAST_OUTPUT })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_are_read_as_people_write_them() {
        for (text, seconds) in [("90 s", 90.0), ("10min", 600.0), ("2 h", 7200.0), ("500ms", 0.5)] {
            let read = duration_of_text(text).map(|time| time.as_secs_f64());
            assert_eq!(read, Ok(seconds), "{text}");
        }
        for wrong in ["", "10", "soon", "-3 s", "1 ms", "0"] {
            assert!(duration_of_text(wrong).is_err(), "{wrong}");
        }
        for (text, bytes) in [("512 MiB", 512 << 20), ("4GiB", 4 << 30), ("100 MB", 100_000_000)] {
            assert_eq!(bytes_of_text(text, true), Ok(bytes), "{text}");
        }
        for wrong in ["", "much", "-1 GiB", "1 KiB"] {
            assert!(bytes_of_text(wrong, true).is_err(), "{wrong}");
        }
    }
}
