//! The chance of one ball over start number and spread of reading, in a table between whose entries straight lines
//! serve.

use crate::chance::{HoldWindows, Window};

/// Chances over start (rows) and spread (columns), between whose entries straight lines serve.
#[derive(Debug, Clone)]
pub(super) struct ChanceSheet {
    first_start: f64,
    starts_per_step: f64,
    first_spread: f64,
    spreads_per_step: f64,
    values: Vec<f64>,
}

/// Columns of a sheet.
const SPREADS: usize = 16;
/// Steps of the start within the least spread.
const STEPS_A_SPREAD: f64 = 6.0;
/// Bins of the windows within a step.
const BINS: f64 = 2.0;
/// Spreads beyond which nothing comes from a window.
const FAR: f64 = 4.5;
/// A smaller spread than so many bins makes no difference.
const LEAST_BINS: f64 = 0.5;
/// No step is finer, diamonds, however exact the person.
const FINEST: f64 = 0.002;

impl ChanceSheet {
    /// Of spreads of reading between two.
    pub(super) fn of(
        windows: &HoldWindows,
        at: usize,
        aim_rad: f64,
        (least, most): (f64, f64),
    ) -> Self {
        let places = windows.places(at);
        let aim_least = aim_rad * places.start_per_rad(places.number);
        let step = (libm::hypot(least, aim_least) / STEPS_A_SPREAD).max(FINEST);
        let Some(covered) = Covered::of(windows, at, step / BINS) else {
            let values = vec![0.0; 2 * SPREADS];
            return Self {
                first_start: 0.0,
                starts_per_step: 1.0,
                first_spread: 0.0,
                spreads_per_step: 1.0,
                values,
            };
        };
        let farthest = covered.end().abs().max(covered.first.abs());
        let reach = FAR * libm::hypot(most, aim_rad * places.start_per_rad(farthest));
        let first_start = covered.first - reach;
        let steps = steps_to(covered.end() + reach - first_start, step);
        let columns = (SPREADS - 1) as f64;
        let spread_step = ((most - least) / columns).max(1e-9);
        let mut values = Vec::with_capacity(steps * SPREADS);
        for row in 0..steps {
            let start = first_start + step * row as f64;
            let aim = aim_rad * places.start_per_rad(start);
            for column in 0..SPREADS {
                let read = least + spread_step * column as f64;
                values.push(covered.share(start, libm::hypot(read, aim)));
            }
        }
        Self {
            first_start,
            starts_per_step: 1.0 / step,
            first_spread: least,
            spreads_per_step: 1.0 / spread_step,
            values,
        }
    }

    /// The row and the column of a start and a spread, with the share of the way to the next one.
    #[inline]
    pub(super) fn place(&self, start: f64, spread: f64) -> (f64, f64) {
        (
            (start - self.first_start) * self.starts_per_step,
            ((spread - self.first_spread) * self.spreads_per_step)
                .clamp(0.0, (SPREADS - 1) as f64 - 1e-9),
        )
    }

    /// The chance at a row and a column.
    #[inline]
    pub(super) fn at(&self, (row, column): (f64, f64)) -> f64 {
        let rows = self.values.len() / SPREADS;
        if row.is_nan() || row < 0.0 || row >= (rows - 1) as f64 {
            return 0.0;
        }
        let (whole_row, whole_column) = (floor(row), floor(column));
        let (down, right) = (row - whole_row as f64, column - whole_column as f64);
        let at = whole_row * SPREADS + whole_column;
        let between = |at: usize| self.values[at] + right * (self.values[at + 1] - self.values[at]);
        let (upper, lower) = (between(at), between(at + SPREADS));
        upper + down * (lower - upper)
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "positive and small")]
const fn floor(number: f64) -> usize {
    number as usize
}

fn steps_to(length: f64, step: f64) -> usize {
    floor((length / step).clamp(0.0, 1e6)) + 2
}

/// The share of tables, speeds and sides that hold from each start, in bins.
struct Covered {
    first: f64,
    bin: f64,
    shares: Vec<f64>,
}

impl Covered {
    /// `None` where nothing holds.
    fn of(windows: &HoldWindows, at: usize, bin: f64) -> Option<Self> {
        let all: Vec<(f64, Window)> = windows
            .weights()
            .iter()
            .enumerate()
            .flat_map(|(table, table_weight)| {
                let weighted = windows.weighted(table, at).into_iter();
                weighted.map(move |it| (table_weight * it.weight, it.window))
            })
            .filter(|(_, window)| window.to > window.from)
            .collect();
        let first = all.iter().map(|(_, window)| window.from).fold(f64::INFINITY, f64::min);
        let last = all.iter().map(|(_, window)| window.to).fold(f64::NEG_INFINITY, f64::max);
        if !first.is_finite() {
            return None;
        }
        let mut shares = vec![0.0; steps_to(last - first, bin)];
        for (weight, window) in all {
            let (from, to) = ((window.from - first) / bin, (window.to - first) / bin);
            for (place, share) in shares.iter_mut().enumerate().skip(floor(from)) {
                let here = (place as f64, place as f64 + 1.0);
                if here.0 >= to {
                    break;
                }
                *share += weight * (to.min(here.1) - from.max(here.0));
            }
        }
        Some(Self { first, bin, shares })
    }

    fn end(&self) -> f64 {
        self.first + self.bin * self.shares.len() as f64
    }

    /// The chance from a start with a spread: the shares under a normal law.
    fn share(&self, start: f64, spread: f64) -> f64 {
        let in_bins = (spread / self.bin).max(LEAST_BINS);
        let middle = (start - self.first) / self.bin - 0.5;
        let from = floor((middle - FAR * in_bins).max(0.0));
        let to = floor((middle + FAR * in_bins + 1.0).clamp(0.0, self.shares.len() as f64));
        if from >= to {
            return 0.0;
        }
        // e^(-z²/2) at steps of δ: each is the one before times a ratio that falls by e^(-δ²) each time.
        let delta = 1.0 / in_bins;
        let z = (from as f64 - middle) * delta;
        let mut weight = libm::exp(-0.5 * z * z);
        let mut ratio = libm::exp(-delta * (z + 0.5 * delta));
        let falls = libm::exp(-delta * delta);
        let mut share = 0.0;
        for covered in &self.shares[from..to] {
            share += weight * covered;
            weight *= ratio;
            ratio *= falls;
        }
        share * delta / (2.0 * core::f64::consts::PI).sqrt()
    }
}
