//! The likelihood of filmed impacts.
//!
//! The true motion before the rail is not known exactly, so it is summed over and not taken from the film. Let E, A and
//! B be the covariances of a film's errors before, after, and between after and before; f what a member's rail makes of
//! a motion; J the slopes of f along the motion before, and K those along roll and side, which scatter by S. Then
//! what was seen after lies off f(what was seen before) by a normal law with the covariance
//! A − J·Bᵀ − B·Jᵀ + J·E·Jᵀ + K·S·Kᵀ.
//!
//! All films share the error of the groove's place, which adds to every contact time what the ball takes to go there and
//! back. So the likelihood of all films together is summed over it.

use super::film_rail::{CAUSES, FilmedRoll, MemberRail, PLAYS};
use super::{BeforeRail, FILMED_AMOUNTS, FilmedImpact};
use crate::ensemble::Member;
use crate::equipment::{Equipment, RailModel};
use crate::normal::share_between;
use core::f64::consts::PI;
use nalgebra::{Cholesky, Matrix2, Matrix4, Matrix4x2, Vector4};
use rayon::prelude::*;

/// The standard deviation of the place where a ball's centre meets the nose, as the table's sizes and the marks tell it,
/// m. Chosen: millimetres of a profile, and cloth over rubber.
pub const GROOVE_SD_M: f64 = 0.002;
/// The stretch of the groove's places, in deviations, and the cells into which it is cut.
const GROOVE_REACH: f64 = 3.0;
const GROOVE_CELLS: usize = 16;
const GROOVE_CELL: f64 = 2.0 * GROOVE_REACH / GROOVE_CELLS as f64;
/// Cells of an unknown roll, from none to natural.
const ROLL_CELLS: usize = 3;
/// Nothing is known better: what slopes are taken over, m/s and rad.
const LEAST_STEP: [f64; 2] = [1e-3, 1e-3];

/// Filmed impacts, ready to be held against members.
#[derive(Debug, Clone, Default)]
pub(super) struct Films {
    films: Vec<ReadyFilm>,
    /// The logarithm of the share of each place of the groove.
    log_shares: [f64; GROOVE_CELLS],
}

/// A film with the rolls that it could have had.
#[derive(Debug, Clone)]
struct ReadyFilm {
    film: FilmedImpact,
    cells: Vec<RollCell>,
    /// How far a deviation of the groove's place moves the contact time, s.
    groove_s: f64,
}

/// A stretch of rolls about its middle, with the deviations of all causes.
#[derive(Debug, Clone)]
struct RollCell {
    roll: FilmedRoll,
    /// The share of such films.
    share: f64,
    /// Speed and angle before, roll, side.
    sd: [f64; CAUSES],
}

/// A film as a member tells it: a normal law for each cell of the roll.
struct FilmOfMember {
    cells: Vec<CellLaw>,
    /// The density of a film that says nothing, times the share of such films.
    by_chance: f64,
    /// The logarithm of the density at each place of the groove.
    logs: [f64; GROOVE_CELLS],
}

/// The law of a cell: its logarithm is `at_nothing` + `slope`·d − `bend`·d²/2 at d deviations of the groove.
struct CellLaw {
    at_nothing: f64,
    slope: f64,
    bend: f64,
    share: f64,
    mean: Vector4<f64>,
    variance: Vector4<f64>,
}

/// One film as the others let expect it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilmExpected {
    /// Speed after, m/s, angle after, rad, contact time, s, slowing, m/s²: each with its deviation, of the members and
    /// of the film together.
    pub amounts: [(f64, f64); 4],
    /// The chance that the film is wrong altogether.
    pub slip: f64,
}

impl Films {
    pub(super) fn new(films: &[FilmedImpact]) -> Self {
        let ready = |film: &FilmedImpact| {
            let [speed, angle, speed_after, angle_after, ..] = film.told;
            let takes = |speed: f64, angle: f64| 1.0 / (speed * libm::cos(angle));
            let cells = rolls(film).into_iter().map(|(roll, share, roll_sd)| {
                let of: [f64; 2] =
                    core::array::from_fn(|at| film.covariance[at][at].sqrt().max(LEAST_STEP[at]));
                RollCell { roll, share, sd: [of[0], of[1], roll_sd, film.side_scatter] }
            });
            ReadyFilm {
                film: *film,
                cells: cells.collect(),
                groove_s: GROOVE_SD_M * (takes(speed, angle) + takes(speed_after, angle_after)),
            }
        };
        Self { films: films.iter().map(ready).collect(), log_shares: log_shares() }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.films.is_empty()
    }

    /// The logarithm of the likelihood of all films together.
    pub(super) fn log_likelihood(
        &self,
        table: &Equipment,
        model: RailModel,
        member: &Member,
    ) -> f64 {
        log_sum(&by_groove(&self.log_shares, &self.told(table, model, member), None))
    }

    fn told(&self, table: &Equipment, model: RailModel, member: &Member) -> Vec<FilmOfMember> {
        let rail = MemberRail::new(table, model, member);
        let balls = self
            .films
            .iter()
            .flat_map(|ready| ready.cells.iter().map(|cell| (&ready.film, cell.roll, cell.sd)));
        let after = rail.after(balls);
        let mut left = &after[..];
        let of_film = |film: &ReadyFilm| {
            let (mine, others) = left.split_at(PLAYS * film.cells.len());
            left = others;
            film.of(&rail, mine)
        };
        self.films.iter().map(of_film).collect()
    }

    /// Each film as the others let members expect it.
    pub(super) fn expected(
        &self,
        table: &Equipment,
        model: RailModel,
        members: &[Member],
    ) -> Vec<FilmExpected> {
        let told: Vec<Vec<FilmOfMember>> =
            members.par_iter().map(|member| self.told(table, model, member)).collect();
        let shares = &self.log_shares;
        let whole = |films: &Vec<FilmOfMember>| log_sum(&by_groove(shares, films, None));
        let wholes: Vec<f64> = told.iter().map(whole).collect();
        (0..self.films.len())
            .into_par_iter()
            .map(|at| expected(shares, &told, &wholes, at, self.films[at].groove_s))
            .collect()
    }
}

/// The ways in which a film's ball may have come: each with its share and the deviation of the roll about it.
fn rolls(film: &FilmedImpact) -> Vec<(FilmedRoll, f64, f64)> {
    let unrolled = (FilmedRoll::Unrolled, film.roll_scatter);
    let rolls = (FilmedRoll::Rolls, ROLLING_SD);
    match film.way {
        BeforeRail::Slides => vec![(unrolled.0, 1.0, unrolled.1)],
        BeforeRail::Rolls => vec![(rolls.0, 1.0, rolls.1)],
        BeforeRail::Unknown => {
            let width = 1.0 / ROLL_CELLS as f64;
            let sd = width / 12.0_f64.sqrt();
            let some = (0..ROLL_CELLS).map(|at| {
                let middle = (at as f64 + 0.5) * width;
                (FilmedRoll::AtRail(middle), OF_EACH_WAY * width, sd)
            });
            let ends = [unrolled, rolls].map(|(roll, sd)| (roll, OF_EACH_WAY, sd));
            ends.into_iter().chain(some).collect()
        }
    }
}

/// Of a ball of which nothing is known each of three ways is as likely: sent without roll, sent with some, rolling.
/// Chosen.
const OF_EACH_WAY: f64 = 1.0 / 3.0;
/// A ball that rolls is near natural roll by this. Chosen.
const ROLLING_SD: f64 = 0.01;

impl ReadyFilm {
    fn of(&self, rail: &MemberRail, after: &[[f64; 2]]) -> FilmOfMember {
        let film = &self.film;
        let is_taken = film.is_taken();
        let plays = after.chunks_exact(PLAYS);
        let laws = self.cells.iter().zip(plays).map(|(cell, plays)| {
            let slowing = rail.slowing(film, cell.roll);
            self.law(cell, plays, rail.contact_time_s, slowing, is_taken)
        });
        let cells: Vec<CellLaw> = laws.collect();
        // Speeds up to that before, angles to either side, a twentieth of a second, 5 m/s².
        let widths = [film.told[0], PI, 0.05, 5.0];
        let taken = widths.iter().zip(is_taken).filter(|(_, is_taken)| *is_taken);
        let by_chance = film.wrong * taken.map(|(width, _)| 1.0 / width).product::<f64>();
        let logs = core::array::from_fn(|at| {
            let likely: f64 = cells.iter().map(|law| law.density(groove(at))).sum();
            libm::log((1.0 - film.wrong) * likely + by_chance)
        });
        FilmOfMember { cells, by_chance, logs }
    }

    fn law(
        &self,
        cell: &RollCell,
        plays: &[[f64; 2]],
        contact_time_s: f64,
        (slowing, slowing_variance): (f64, f64),
        is_taken: [bool; 4],
    ) -> CellLaw {
        let of = |row: usize, column: usize| self.film.covariance[row][column];
        let [mut along, mut across] = [Matrix4x2::zeros(); 2];
        let mut mean = Vector4::new(plays[0][0], plays[0][1], contact_time_s, slowing);
        for row in 0..2 {
            for (cause, sd) in cell.sd.iter().enumerate() {
                let [less, more] = [2 * cause + 1, 2 * cause + 2].map(|play| plays[play][row]);
                let moved = 0.5 * (more - less);
                let bend = 0.5 * (more + less) - plays[0][row];
                match cause.checked_sub(2) {
                    // What was seen before is the truth and an error; the truth lies under the bend.
                    None => {
                        along[(row, cause)] = moved / sd;
                        mean[row] -= bend;
                    }
                    Some(latent) => {
                        across[(row, latent)] = moved;
                        mean[row] += bend;
                    }
                }
            }
        }
        let before = Matrix2::from_fn(of);
        let between = Matrix4x2::from_fn(|row, column| of(2 + row, column));
        let mixed = along * between.transpose();
        let mut covariance =
            Matrix4::from_fn(|row, column| of(2 + row, 2 + column)) - mixed - mixed.transpose()
                + along * before * along.transpose()
                + across * across.transpose();
        let within_s = GROOVE_CELL * self.groove_s;
        covariance[(2, 2)] += within_s * within_s / 12.0;
        covariance[(3, 3)] += slowing_variance;
        let variance = covariance.diagonal();
        let seen = Vector4::from_fn(|row, _| self.film.told[2 + row]);
        let mut off = seen - mean;
        let mut groove = Vector4::new(0.0, 0.0, self.groove_s, 0.0);
        for at in (0..4).filter(|at| !is_taken[*at]) {
            covariance.fill_row(at, 0.0);
            covariance.fill_column(at, 0.0);
            covariance[(at, at)] = 1.0;
            off[at] = 0.0;
            groove[at] = 0.0;
        }
        let taken = is_taken.iter().filter(|taken| **taken).count() as f64;
        let share = cell.share;
        // Rounding alone leaves one that is no covariance: it says nothing.
        let Some(factor) = Cholesky::new(covariance) else {
            return CellLaw {
                at_nothing: f64::NEG_INFINITY,
                slope: 0.0,
                bend: 0.0,
                share,
                mean,
                variance,
            };
        };
        let (solved, solved_groove) = (factor.solve(&off), factor.solve(&groove));
        let log_size: f64 = factor.l().diagonal().iter().map(|it| libm::log(*it)).sum();
        CellLaw {
            at_nothing: libm::log(share)
                - 0.5 * off.dot(&solved)
                - log_size
                - 0.5 * taken * libm::log(2.0 * PI),
            slope: solved_groove.dot(&off),
            bend: solved_groove.dot(&groove),
            share,
            mean,
            variance,
        }
    }
}

impl CellLaw {
    /// The density with the groove so many deviations off.
    fn density(&self, groove: f64) -> f64 {
        libm::exp(self.at_nothing + groove * (self.slope - 0.5 * groove * self.bend))
    }
}

impl FilmOfMember {
    /// Mean and variance of an amount after the rail.
    fn amount(&self, at: usize) -> (f64, f64) {
        let over_cells = |of: &dyn Fn(&CellLaw) -> f64| {
            self.cells.iter().map(|law| law.share * of(law)).sum::<f64>()
        };
        let mean = over_cells(&|law| law.mean[at]);
        let variance = over_cells(&|law| {
            let off = law.mean[at] - mean;
            law.variance[at] + off * off
        });
        (mean, variance)
    }
}

/// A place of the groove, the middle of its cell, in deviations.
fn groove(at: usize) -> f64 {
    (at as f64 + 0.5) * GROOVE_CELL - GROOVE_REACH
}

/// The logarithm of the share of each place of the groove.
fn log_shares() -> [f64; GROOVE_CELLS] {
    core::array::from_fn(|at| {
        let from = at as f64 * GROOVE_CELL - GROOVE_REACH;
        libm::log(share_between(from, from + GROOVE_CELL))
    })
}

/// All films but one at each place of the groove: the logarithm of its share and of their likelihood.
fn by_groove(
    shares: &[f64; GROOVE_CELLS],
    told: &[FilmOfMember],
    but: Option<usize>,
) -> [f64; GROOVE_CELLS] {
    core::array::from_fn(|groove| {
        let films = told.iter().enumerate().filter(|(at, _)| Some(*at) != but);
        shares[groove] + films.map(|(_, film)| film.logs[groove]).sum::<f64>()
    })
}

/// The logarithm of a sum of which the logarithms are given.
fn log_sum(logs: &[f64]) -> f64 {
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    most + libm::log(logs.iter().map(|log| libm::exp(log - most)).sum())
}

/// One film as the others let expect it, by weighing each member with one over what the film adds.
fn expected(
    shares: &[f64; GROOVE_CELLS],
    told: &[Vec<FilmOfMember>],
    wholes: &[f64],
    at: usize,
    groove_s: f64,
) -> FilmExpected {
    let others = |films: &Vec<FilmOfMember>| log_sum(&by_groove(shares, films, Some(at)));
    let logs: Vec<f64> =
        told.iter().zip(wholes).map(|(films, whole)| others(films) - whole).collect();
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = logs.iter().map(|log| libm::exp(log - most)).collect();
    let whole: f64 = weights.iter().sum();
    let mean = |of: &dyn Fn(&FilmOfMember) -> f64| {
        let parts = told.iter().zip(&weights).map(|(films, weight)| weight * of(&films[at]));
        parts.sum::<f64>() / whole
    };
    let amounts = core::array::from_fn(|amount| {
        let middle = mean(&|film| film.amount(amount).0);
        let variance = mean(&|film| {
            let (of_member, variance) = film.amount(amount);
            variance + (of_member - middle) * (of_member - middle)
        });
        let shared = if amount == 2 { groove_s * groove_s } else { 0.0 };
        (middle, (variance + shared).sqrt())
    });
    // Of the likelihood of all films, the share in which this one says nothing.
    let slip = |(films, whole): (&Vec<FilmOfMember>, &f64)| {
        let film = &films[at];
        let logs = by_groove(shares, films, None);
        let parts = logs.iter().zip(&film.logs).map(|(log, own)| libm::exp(log - own - whole));
        film.by_chance * parts.sum::<f64>()
    };
    let slips = told.iter().zip(wholes).map(slip).sum::<f64>();
    FilmExpected { amounts, slip: slips / told.len() as f64 }
}

const _: () = assert!(FILMED_AMOUNTS == 6, "two before, four after");
