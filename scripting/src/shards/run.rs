//! A run of points that was played, of banks or of whole shots.

use crate::plan::{SweepPlan, Swept};
use crate::telling::caution::Cautions;
use crate::whole_shots::{ShotMaker, ShotPlayer, ShotRow};
use railproof_engine::sweep::{PlayedRows, Player, Tally};
use std::ops::Range;
use std::sync::atomic::{AtomicBool, Ordering};

/// Plays points of a plan on one thread.
#[derive(Debug)]
pub enum PlanPlayer<'a> {
    /// Banks of a lone ball.
    Banks(Box<Player<'a>>),
    /// Whole shots.
    Shots(ShotPlayer<'a>),
}

/// The rows of a run of points.
#[derive(Debug)]
pub enum PlayedRun {
    /// Banks of a lone ball, in columns.
    Banks(Box<PlayedRows>),
    /// Whole shots.
    Shots(PlayedShots),
}

/// The rows of a run of whole shots.
#[derive(Debug, Default)]
pub struct PlayedShots {
    /// Each row's point.
    pub points: Vec<u64>,
    /// The rows.
    pub rows: Vec<ShotRow>,
}

impl<'a> PlanPlayer<'a> {
    /// Gets ready.
    ///
    /// # Errors
    /// A plan that can't be played, in words.
    pub fn new(plan: &'a SweepPlan, maker: &'a dyn ShotMaker) -> Result<Self, String> {
        match &plan.played {
            Swept::Banks { banks, rules } => Player::new(banks, rules, plan.keep.wanted())
                .map(|player| Self::Banks(Box::new(player)))
                .map_err(|error| error.to_string()),
            Swept::Shots(shots) => Ok(Self::Shots(ShotPlayer::new(shots, maker))),
        }
    }

    /// The reason why the function that makes shots is not asked again.
    pub fn gave_up(&self) -> Option<&str> {
        match self {
            Self::Banks(_) => None,
            Self::Shots(player) => player.gave_up(),
        }
    }

    /// Plays the points and adds their rows; false when `stop` turned true before the end.
    pub fn play(&mut self, points: Range<u64>, into: &mut PlayedRun, stop: &AtomicBool) -> bool {
        match (self, into) {
            (Self::Banks(player), PlayedRun::Banks(played)) => player.play(points, played, stop),
            (Self::Shots(player), PlayedRun::Shots(played)) => {
                for point in points {
                    if stop.load(Ordering::Relaxed) {
                        return false;
                    }
                    if player.gave_up().is_some() {
                        break;
                    }
                    played.points.push(point);
                    played.rows.push(player.row(point));
                }
                true
            }
            _ => false,
        }
    }
}

impl PlayedRun {
    /// No rows.
    pub fn empty_of(plan: &SweepPlan) -> Self {
        match &plan.played {
            Swept::Banks { banks, .. } => Self::Banks(Box::new(PlayedRows::empty_of(banks))),
            Swept::Shots(_) => Self::Shots(PlayedShots::default()),
        }
    }

    /// The number of rows.
    pub fn len(&self) -> usize {
        match self {
            Self::Banks(played) => played.len(),
            Self::Shots(played) => played.rows.len(),
        }
    }

    /// Forgets all rows and keeps the memory.
    pub fn clear(&mut self) {
        match self {
            Self::Banks(played) => played.clear(),
            Self::Shots(PlayedShots { points, rows }) => {
                points.clear();
                rows.clear();
            }
        }
    }

    /// The first point that could not be played, and why.
    pub fn first_failure(&self) -> Option<(u64, String)> {
        match self {
            Self::Banks(played) => {
                let failure = played.failures.first()?;
                Some((played.point[failure.row], failure.error.to_string()))
            }
            Self::Shots(PlayedShots { points, rows }) => {
                let mut failed = points.iter().zip(rows);
                failed.find_map(|(point, row)| Some((*point, row.outcome.as_ref().err()?.clone())))
            }
        }
    }

    /// Adds another's rows that could not be played.
    pub fn append_failures(&mut self, other: &Self) {
        match (self, other) {
            (Self::Banks(own), Self::Banks(other)) => own.append_failures(other),
            (Self::Shots(own), Self::Shots(other)) => {
                for (point, row) in other.points.iter().zip(&other.rows) {
                    if row.outcome.is_err() {
                        own.points.push(*point);
                        own.rows.push(row.clone());
                    }
                }
            }
            _ => {}
        }
    }

    /// Counts the rows from one on, for each rule on its own.
    pub fn tallies(&self, from_row: usize, ways: usize) -> Vec<Tally> {
        match self {
            Self::Banks(played) => Tally::by_rule(played, from_row, ways),
            Self::Shots(played) => {
                let mut tally = Tally::default();
                played.rows[from_row..].iter().for_each(|row| row.count_in(&mut tally));
                vec![tally]
            }
        }
    }

    /// The cautions that playing came upon; those of banks follow from their plan.
    pub fn cautions(&self, from_row: usize) -> Cautions {
        match self {
            Self::Banks(_) => Cautions::default(),
            Self::Shots(played) => played.rows[from_row..]
                .iter()
                .fold(Cautions::default(), |all, row| all.and(&row.cautions)),
        }
    }
}
