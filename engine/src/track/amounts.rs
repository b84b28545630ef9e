//! What a film tells, each with its uncertainty.

use super::homography::TableMark;
use super::legs::{FittedSides, Groove, Legs};
use super::lens::LensKnown;
use super::parabola::{Parabola, TimedPlace};
use super::picture_map::PictureMap;
use super::students_t;
use crate::vector::Vec2;
use nalgebra::{SMatrix, SVector, Vector3};

/// The amounts that a film tells.
pub const AMOUNTS: usize = 8;

type AmountsColumn = SVector<f64, AMOUNTS>;
/// The covariance of the errors of all amounts.
pub(super) type AmountsCovariance = SMatrix<f64, AMOUNTS, AMOUNTS>;

/// By which a coefficient is moved to see what it does, m.
const STEP_M: f64 = 1e-5;

/// An amount with its intervals.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrackAmount {
    /// The likeliest.
    pub middle: f64,
    /// The interval that holds it with the chance ½.
    pub fifty: (f64, f64),
    /// The interval that holds it nine times in ten.
    pub ninety: (f64, f64),
}

impl TrackAmount {
    /// By a variance, at these many deviations.
    fn around(middle: f64, variance: f64, half: f64, most: f64) -> Self {
        let error = variance.sqrt();
        let around = |t: f64| (middle - t * error, middle + t * error);
        Self { middle, fifty: around(half), ninety: around(most) }
    }
}

/// A film whose legs are found.
pub(super) struct Film<'a> {
    pub(super) marks: &'a [TableMark],
    pub(super) map: &'a PictureMap,
    pub(super) lens: LensKnown,
    /// The ball's places in the picture, with their times.
    pub(super) image: &'a [TimedPlace],
    pub(super) sides: &'a FittedSides,
    pub(super) groove: Groove,
    pub(super) legs: Legs,
}

impl Film<'_> {
    /// The amounts of [`Legs::told`], each with its intervals, and the covariance of their errors.
    pub(super) fn amounts(&self) -> ([TrackAmount; AMOUNTS], AmountsCovariance) {
        let told = self.legs.told(self.groove);
        let covariance = self.covariance();
        let degrees = Legs::degrees(self.sides);
        let [half, most] = [0.5, 0.9].map(|share| students_t(share, degrees));
        let amount = |at: usize| TrackAmount::around(told[at], covariance[(at, at)], half, most);
        (core::array::from_fn(amount), covariance)
    }

    /// The coefficient of the lens; one that was given is taken for exact.
    pub(super) fn k1(&self) -> Option<TrackAmount> {
        let middle = self.map.k1()?;
        let error = self.ball_error().max(self.mark_error());
        let mut variance = 0.0;
        if self.is_lens_found() {
            self.with_marks_moved(error, &|map| Some([map.k1()?]), &mut |[slope]| {
                variance += error * error * slope * slope;
            });
        }
        let [half, most] = [0.5, 0.9].map(|share| students_t(share, Legs::degrees(self.sides)));
        Some(TrackAmount::around(middle, variance, half, most))
    }

    fn is_lens_found(&self) -> bool {
        matches!(self.lens, LensKnown::Found(_))
    }

    fn covariance(&self) -> AmountsCovariance {
        let mut sum = AmountsCovariance::zeros();
        let error = self.ball_error();
        self.add_side(&mut sum, error, true);
        self.add_side(&mut sum, error, false);
        self.add_marks(&mut sum, error.max(self.mark_error()));
        sum
    }

    /// The part of one side: every point is off by as much in the picture, so by more on the table where it is further
    /// from the camera.
    fn add_side(&self, sum: &mut AmountsCovariance, error: f64, is_before: bool) {
        let (fit, side) = if is_before {
            (&self.legs.before, &self.sides.before)
        } else {
            (&self.legs.after, &self.sides.after)
        };
        let [along_x, along_y] = [0, 1].map(|axis| self.slopes(fit, is_before, axis));
        for point in &self.image[side.clone()] {
            let to = |by: Vec2| self.map.to_table(point.place + by);
            let half = 0.5;
            let by_u = to(Vec2::new(half, 0.0)) - to(Vec2::new(-half, 0.0));
            let by_v = to(Vec2::new(0.0, half)) - to(Vec2::new(0.0, -half));
            let weights = fit.weights(point.time_s);
            let (mut u, mut v) = (AmountsColumn::zeros(), AmountsColumn::zeros());
            for at in 0..AMOUNTS {
                let pull = Vec2::new(weights.dot(&along_x[at]), weights.dot(&along_y[at]));
                (u[at], v[at]) = (error * by_u.dot(pull), error * by_v.dot(pull));
            }
            *sum += u * u.transpose() + v * v.transpose();
        }
    }

    /// The slopes of the amounts along the coefficients of one coordinate of a side.
    fn slopes(&self, fit: &Parabola, is_before: bool, axis: usize) -> [Vector3<f64>; AMOUNTS] {
        let mut slopes = [Vector3::zeros(); AMOUNTS];
        for number in 0..3 {
            let moved = |by: f64| {
                let mut fit = *fit;
                fit.of[axis][number] += by;
                let Legs { before, after, comes_s, leaves_s } = self.legs;
                let (before, after) = if is_before { (fit, after) } else { (before, fit) };
                let legs = Legs::at_groove(before, after, self.groove, (comes_s, leaves_s));
                legs.map(|legs| legs.told(self.groove))
            };
            for (slope, change) in slopes.iter_mut().zip(changes(moved(STEP_M), moved(-STEP_M))) {
                slope[number] = change / (2.0 * STEP_M);
            }
        }
        slopes
    }

    /// The part of the marks: each is off in the picture by as much as the ball is, or as the marks fit.
    fn add_marks(&self, sum: &mut AmountsCovariance, error: f64) {
        let told = |map: &PictureMap| {
            let places = on_table(map, self.image);
            let legs = Legs::fit(&places, self.sides, self.groove).ok()?;
            Some(legs.told(self.groove))
        };
        self.with_marks_moved(error, &told, &mut |slopes| {
            let column = AmountsColumn::from(slopes) * error;
            *sum += column * column.transpose();
        });
    }

    /// The slopes of what a map tells along each coordinate of each mark in the picture.
    fn with_marks_moved<const N: usize>(
        &self,
        error: f64,
        told: &dyn Fn(&PictureMap) -> Option<[f64; N]>,
        slopes: &mut dyn FnMut([f64; N]),
    ) {
        let step = (0.1 * error).max(1e-3);
        for at in 0..self.marks.len() {
            for way in [Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0)] {
                let moved = |by: f64| {
                    let mut marks = self.marks.to_vec();
                    marks[at].image += way * by;
                    told(&PictureMap::new(&marks, self.lens).ok()?)
                };
                slopes(changes(moved(step), moved(-step)).map(|change| change / (2.0 * step)));
            }
        }
    }

    /// The scatter of the ball in the picture, pixels.
    fn ball_error(&self) -> f64 {
        let side = |fit: &Parabola, points: &[TimedPlace]| -> f64 {
            let off = |it: &TimedPlace| self.map.to_image(fit.place_at(it.time_s)) - it.place;
            points.iter().map(|it| off(it).dot(off(it))).sum()
        };
        let sum = side(&self.legs.before, &self.image[self.sides.before.clone()])
            + side(&self.legs.after, &self.image[self.sides.after.clone()]);
        (sum / Legs::degrees(self.sides) as f64).sqrt()
    }

    /// The scatter of the marks in the picture, pixels; 0 for four, which fit whatever they are.
    fn mark_error(&self) -> f64 {
        let told = 8 + usize::from(self.is_lens_found());
        let Some(degrees) = (2 * self.marks.len()).checked_sub(told).filter(|it| *it > 0) else {
            return 0.0;
        };
        let off = |mark: &TableMark| self.map.to_image(mark.table) - mark.image;
        let sum: f64 = self.marks.iter().map(|mark| off(mark).dot(off(mark))).sum();
        (sum / degrees as f64).sqrt()
    }
}

/// Points of the picture on the table.
pub(super) fn on_table(map: &PictureMap, image: &[TimedPlace]) -> Vec<TimedPlace> {
    image.iter().map(|it| TimedPlace { place: map.to_table(it.place), ..*it }).collect()
}

/// Differences of the amounts; unknown ones make the variance infinite, so that nothing is claimed.
fn changes<const N: usize>(more: Option<[f64; N]>, less: Option<[f64; N]>) -> [f64; N] {
    match (more, less) {
        (Some(more), Some(less)) => core::array::from_fn(|at| more[at] - less[at]),
        _ => [f64::INFINITY; N],
    }
}
