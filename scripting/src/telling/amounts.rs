//! Counts, sizes and times as people say them.

use std::time::Duration;

/// A count with its thousands apart: `1,541,124`.
pub fn grouped(number: impl Into<u128>) -> String {
    let digits = number.into().to_string();
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// Bytes as people say them.
pub fn bytes(bytes: u64) -> String {
    let mut amount = bytes as f64;
    for unit in ["bytes", "kB", "MB", "GB"] {
        if amount < 1000.0 {
            return if unit == "bytes" {
                format!("{bytes} bytes")
            } else {
                format!("{amount:.1} {unit}")
            };
        }
        amount /= 1000.0;
    }
    format!("{amount:.1} TB")
}

/// A time as people say it.
pub fn duration(time: Duration) -> String {
    let seconds = time.as_secs_f64();
    match seconds {
        _ if seconds < 90.0 => format!("{seconds:.1} s"),
        _ if seconds < 5400.0 => format!("{:.0} min", seconds / 60.0),
        _ if seconds < 48.0 * 3600.0 => format!("{:.1} h", seconds / 3600.0),
        _ => format!("{:.1} days", seconds / 86400.0),
    }
}

/// A short time as people say it.
pub fn small(time: Duration) -> String {
    let seconds = time.as_secs_f64();
    if seconds < 1e-6 {
        format!("{:.0} ns", seconds * 1e9)
    } else if seconds < 1e-3 {
        format!("{:.2} µs", seconds * 1e6)
    } else {
        format!("{:.2} ms", seconds * 1e3)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_said_as_people_say_them() {
        assert_eq!(
            (grouped(7_u64), grouped(1_234_567_u64)),
            ("7".to_owned(), "1,234,567".to_owned())
        );
        assert_eq!((bytes(999), bytes(12_300_000)), ("999 bytes".to_owned(), "12.3 MB".to_owned()));
        assert_eq!(duration(Duration::from_secs(100)), "2 min");
        assert_eq!(duration(Duration::from_mins(150)), "2.5 h");
        assert_eq!(small(Duration::from_nanos(7_100)), "7.10 µs");
    }
}
