//! The time of one call, as the fastest of several rounds: what the work costs when nothing else
//! gets in its way.

use std::fmt;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// Time of one call.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Time {
    /// Seconds.
    pub seconds: f64,
}

impl Time {
    /// This time as a multiple of the other.
    pub fn over(self, other: Self) -> f64 {
        self.seconds / other.seconds
    }
}

impl fmt::Display for Time {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match self.seconds {
            s if s < 1e-6 => format!("{:.0} ns", 1e9 * s),
            s if s < 1e-3 => format!("{:.2} µs", 1e6 * s),
            s => format!("{:.2} ms", 1e3 * s),
        };
        write!(out, "{text:>10}")
    }
}

/// True for a quick pass.
pub fn is_short() -> bool {
    std::env::var_os("RAILPROOF_BENCH").is_some_and(|value| value == "short")
}

/// Times `work`.
pub fn time<T>(mut work: impl FnMut() -> T) -> Time {
    let round = Duration::from_millis(if is_short() { 20 } else { 120 });
    let rounds = if is_short() { 3 } else { 9 };
    let mut calls = 1_u32;
    // As many calls as fill a round.
    loop {
        let begun = Instant::now();
        for _ in 0..calls {
            black_box(work());
        }
        if begun.elapsed() >= round || calls > u32::MAX / 2 {
            break;
        }
        calls *= 2;
    }
    let fastest = (0..rounds)
        .map(|_| {
            let begun = Instant::now();
            for _ in 0..calls {
                black_box(work());
            }
            begun.elapsed().as_secs_f64() / f64::from(calls)
        })
        .fold(f64::INFINITY, f64::min);
    Time { seconds: fastest }
}
