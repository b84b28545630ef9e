//! The chance of every ball over start number and spread of reading, ready to be looked up.

use super::HeadRule;
use super::corrections::SeenBall;
use crate::chance::{HoldWindows, Skill, Window};
use crate::rail::Reading;
use rayon::prelude::*;

/// The chances of many balls for one person.
#[derive(Debug, Clone)]
pub struct Ground {
    balls: Vec<GroundBall>,
}

/// One ball: how rules' lines pass through it, and its chances.
#[derive(Debug, Clone)]
pub(super) struct GroundBall {
    pub(super) seen: SeenBall,
    number: f64,
    /// In the groove, then through the sights.
    readings: [ReadBall; 2],
    off_rail_m: f64,
    skill: Skill,
    end: f64,
    chances: ChanceSheet,
}

/// A ball as one reading sees it.
#[derive(Debug, Clone, Copy)]
struct ReadBall {
    /// Its place between the line where contacts are read (0) and that where starts are (1).
    fraction: f64,
    /// The growth of the start number in the groove with the mark that is read.
    start_per_mark: f64,
}

/// Chances over start (rows) and spread (columns), between whose entries straight lines serve.
#[derive(Debug, Clone)]
struct ChanceSheet {
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

impl Ground {
    /// Of hold windows and a person, for rules of slopes up to `steepest`.
    pub fn new(windows: &HoldWindows, skill: &Skill, steepest: f64) -> Self {
        let balls = (0..windows.conditions().len())
            .into_par_iter()
            .map(|at| GroundBall::of(windows, at, skill, steepest))
            .collect();
        Self { balls }
    }

    /// The number of balls.
    pub fn len(&self) -> usize {
        self.balls.len()
    }

    /// True without balls.
    pub fn is_empty(&self) -> bool {
        self.balls.is_empty()
    }

    pub(super) fn balls(&self) -> &[GroundBall] {
        &self.balls
    }

    /// The mean chance of a rule.
    pub fn chance(&self, rule: &HeadRule) -> f64 {
        let line = RuleNumbers::of(rule);
        let sum: f64 = self
            .balls
            .iter()
            .map(|ball| ball.chance(&line, rule.corrections.for_ball(ball.seen)))
            .sum();
        sum / self.balls.len().max(1) as f64
    }
}

/// A rule's numbers, ready to be asked for lines.
#[derive(Debug, Clone, Copy)]
pub(super) struct RuleNumbers {
    reading: Reading,
    slope: f64,
    /// Tenths of a diamond.
    offset: i16,
    /// The contact past which the second slope holds; infinite without a bend.
    bend: f64,
    second: f64,
}

impl RuleNumbers {
    pub(super) fn of(rule: &HeadRule) -> Self {
        let slope = rule.slope.value();
        Self {
            reading: rule.reading,
            slope,
            offset: i16::from(rule.offset),
            bend: rule.bend.map_or(f64::INFINITY, |bend| 0.5 * f64::from(bend.at)),
            second: rule.bend.map_or(slope, |bend| bend.slope.value()),
        }
    }
}

impl GroundBall {
    fn of(windows: &HoldWindows, at: usize, skill: &Skill, steepest: f64) -> Self {
        let condition = &windows.conditions()[at];
        let geometry = windows.geometry(at);
        let end = geometry.high_end_number();
        let readings = [Reading::Groove, Reading::Sight].map(|reading| {
            let outside_m = geometry.read_outside_m(reading);
            ReadBall {
                fraction: (outside_m + condition.off_rail_m) / (geometry.span_m + 2.0 * outside_m),
                start_per_mark: windows.places(at).start_per_mark(outside_m),
            }
        });
        let least =
            readings[1].start_per_mark * skill.mark_spread(condition.off_rail_m, 1.0, 0.0, end);
        let farthest = condition.number.abs() * steepest;
        let most = skill.mark_spread(condition.off_rail_m, steepest, farthest, end);
        Self {
            seen: SeenBall::of(condition),
            number: condition.number,
            readings,
            off_rail_m: condition.off_rail_m,
            skill: *skill,
            end,
            chances: ChanceSheet::of(windows, at, skill.aim_rad, (least, most)),
        }
    }

    /// The chance with a rule to which so many tenths are added.
    pub(super) fn chance(&self, rule: &RuleNumbers, tenths: i16) -> f64 {
        let read = &self.readings[rule.reading as usize];
        let offset = 0.1 * f64::from(rule.offset + tenths);
        let (near, far) = (1.0 - read.fraction, read.fraction);
        // Where the line through the bend passes the ball's distance off the rail.
        let bend_start = rule.slope * rule.bend + offset;
        let past = self.number > near * rule.bend + far * bend_start;
        let (slope, offset) = if past {
            (rule.second, bend_start - rule.second * rule.bend)
        } else {
            (rule.slope, offset)
        };
        let contact = (self.number - far * offset) / (near + far * slope);
        let mark = slope * contact + offset;
        let start = self.number + (mark - self.number) * read.start_per_mark;
        let misread = self.skill.contact_read_at(self.off_rail_m);
        let slope_at = |contact: f64| if contact > rule.bend { rule.second } else { rule.slope };
        let growth = 0.5 * (slope_at(contact - misread) + slope_at(contact + misread));
        let spread = read.start_per_mark * self.mark_spread(growth, mark);
        self.chances.at(start, spread)
    }

    fn mark_spread(&self, growth: f64, mark: f64) -> f64 {
        self.skill.mark_spread(self.off_rail_m, growth, mark, self.end)
    }
}

impl ChanceSheet {
    fn of(windows: &HoldWindows, at: usize, aim_rad: f64, (least, most): (f64, f64)) -> Self {
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

    fn at(&self, start: f64, spread: f64) -> f64 {
        let rows = self.values.len() / SPREADS;
        let row = (start - self.first_start) * self.starts_per_step;
        if row.is_nan() || row < 0.0 || row >= (rows - 1) as f64 {
            return 0.0;
        }
        let column = ((spread - self.first_spread) * self.spreads_per_step)
            .clamp(0.0, (SPREADS - 1) as f64 - 1e-9);
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
