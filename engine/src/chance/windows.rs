//! Hold windows: the start numbers from which a ball goes clean into its pocket.

use super::grid::{Cut, StrataOf, over_strata};
use super::nodes::{SpreadGrid, SpreadNodes};
use super::search::windows_on;
use super::tables::PossibleTables;
use super::window::{WeightedWindow, Window, Windows};
use super::{AimedStart, BallLines, Condition, Skill};
use crate::ask::weighted_mean;
use crate::bank::BankError;
use crate::equipment::{Equipment, RailModel};
use crate::normal::share_between;
use crate::rail::BankGeometry;
use rayon::prelude::*;

/// A chance with its error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// The chance, 0 to 1.
    pub chance: f64,
    /// Its standard error: of the draw of tables, and of the integral over speed and side.
    pub error: f64,
}

/// The hold windows of conditions, on every table and at every speed and side of a person.
#[derive(Debug, Clone)]
pub struct HoldWindows {
    nodes: SpreadNodes,
    weights: Vec<f64>,
    conditions: Vec<Condition>,
    /// As the first table has them: noses differ by less than a millimetre.
    places: Vec<BallLines>,
    geometries: Vec<BankGeometry>,
    /// By table, then condition, then node.
    windows: Vec<Vec<Vec<Windows>>>,
    /// On a grid, by table, then condition: where windows end between its nodes.
    cuts: Vec<Vec<Vec<Cut>>>,
    strata: Option<usize>,
}

/// Rounds and steps of the search for the best start; it ends within a ten-thousandth of the windows' stretch.
const BEST_ROUNDS: usize = 4;
const BEST_STEPS_COUNT: u8 = 20;
const BEST_STEPS: f64 = BEST_STEPS_COUNT as f64;

/// Halvings of the stretch of speeds within which a window ends: to a hundredth of a deviation or closer on one table.
const CUT_ROUNDS: usize = 7;
const CUT_ROUNDS_OF_MANY: usize = 3;

/// Conditions that are looked at together on one table.
const TOGETHER: usize = 16;

impl HoldWindows {
    /// Looks for them all.
    ///
    /// # Errors
    /// [`BankError`] for a rail and a pocket that make no bank.
    pub fn find(
        tables: &PossibleTables,
        model: RailModel,
        nodes: SpreadNodes,
        conditions: &[Condition],
    ) -> Result<Self, BankError> {
        Self::find_with(tables, model, nodes, conditions, &|| ())
    }

    /// How often [`HoldWindows::find_with`] ticks.
    pub const fn ticks(tables: usize, conditions: usize) -> usize {
        tables * conditions.div_ceil(TOGETHER)
    }

    /// The same, with a tick for each piece of it.
    ///
    /// # Errors
    /// As [`HoldWindows::find`].
    pub fn find_with(
        tables: &PossibleTables,
        model: RailModel,
        nodes: SpreadNodes,
        conditions: &[Condition],
        tick: &(dyn Fn() + Sync),
    ) -> Result<Self, BankError> {
        let pieces: Vec<(usize, &[Condition])> = (0..tables.len())
            .flat_map(|table| conditions.chunks(TOGETHER).map(move |piece| (table, piece)))
            .collect();
        let found: Vec<Vec<Vec<Windows>>> = pieces
            .par_iter()
            .map(|(table, piece)| {
                let table = (&tables.equipment()[*table], tables.habits()[*table]);
                let found = windows_on(table, model, nodes.nodes(), piece);
                tick();
                found
            })
            .collect::<Result<_, _>>()?;
        let each = conditions.len().div_ceil(TOGETHER).max(1);
        let mut windows: Vec<Vec<Vec<Windows>>> = found.chunks(each).map(<[_]>::concat).collect();
        windows.resize(tables.len(), Vec::new());
        let cuts = match nodes.grid() {
            Some(grid) => cuts(tables, model, grid, conditions, &windows)?,
            None => Vec::new(),
        };
        let found =
            Self::assembled(&tables.equipment()[0], nodes, tables.weights(), conditions, windows)?;
        Ok(Self { cuts, ..found })
    }

    /// Windows that are known from elsewhere: one for every table and, within it, condition; at every speed and
    /// side the same.
    ///
    /// # Errors
    /// As [`HoldWindows::find`].
    pub fn known(
        table: &Equipment,
        weights: &[f64],
        conditions: &[Condition],
        windows: &[Vec<Window>],
    ) -> Result<Self, BankError> {
        let nodes = SpreadNodes::of(&Skill::EXACT, SpreadNodes::USUAL);
        let one = |window: &Window| vec![Windows::from_iter([*window])];
        let windows = windows.iter().map(|of_table| of_table.iter().map(one).collect()).collect();
        Self::assembled(table, nodes, weights, conditions, windows)
    }

    fn assembled(
        first: &Equipment,
        nodes: SpreadNodes,
        weights: &[f64],
        conditions: &[Condition],
        windows: Vec<Vec<Vec<Windows>>>,
    ) -> Result<Self, BankError> {
        let geometries: Vec<BankGeometry> = conditions
            .iter()
            .map(|it| BankGeometry::new(first, it.rail, it.pocket).map_err(BankError::from))
            .collect::<Result<_, _>>()?;
        let places = conditions.iter().zip(&geometries).map(|(it, frame)| it.on(frame)).collect();
        Ok(Self {
            nodes,
            weights: weights.to_vec(),
            conditions: conditions.to_vec(),
            places,
            geometries,
            windows,
            cuts: Vec::new(),
            strata: None,
        })
    }

    /// The same of conditions that were drawn: so many of each kind, one kind after the other, each in one of equal
    /// pieces of a stretch, from the first piece to the last. Others stand for themselves alone.
    #[must_use]
    pub const fn in_strata(mut self, each: usize) -> Self {
        self.strata = Some(each);
        self
    }

    /// How many of each kind were drawn, where they were.
    pub const fn strata(&self) -> Option<usize> {
        self.strata
    }

    /// The conditions.
    pub fn conditions(&self) -> &[Condition] {
        &self.conditions
    }

    /// The same of some conditions, in the order given; if they were drawn, of whole kinds.
    #[must_use]
    pub fn of_conditions(&self, kept: &[usize]) -> Self {
        let windows =
            self.windows.iter().map(|table| kept.iter().map(|&at| table[at].clone()).collect());
        Self {
            nodes: self.nodes.clone(),
            weights: self.weights.clone(),
            conditions: kept.iter().map(|&at| self.conditions[at]).collect(),
            places: kept.iter().map(|&at| self.places[at]).collect(),
            geometries: kept.iter().map(|&at| self.geometries[at].clone()).collect(),
            windows: windows.collect(),
            cuts: self
                .cuts
                .iter()
                .map(|table| kept.iter().map(|&at| table[at].clone()).collect())
                .collect(),
            strata: self.strata,
        }
    }

    /// The frame in which a condition's numbers are read.
    pub fn geometry(&self, condition: usize) -> &BankGeometry {
        &self.geometries[condition]
    }

    /// The lines through a condition's ball.
    pub fn places(&self, condition: usize) -> BallLines {
        self.places[condition]
    }

    /// The nodes.
    pub const fn nodes(&self) -> &SpreadNodes {
        &self.nodes
    }

    /// The tables' weights.
    pub fn weights(&self) -> &[f64] {
        &self.weights
    }

    /// The windows of one condition on one table, a node each.
    pub fn of(&self, table: usize, condition: usize) -> impl Iterator<Item = &[Window]> {
        self.windows[table][condition].iter().map(Windows::as_slice)
    }

    /// The middle of the start numbers that hold in a condition as it is meant, over the tables; NaN where none
    /// does.
    pub fn middle(&self, condition: usize) -> f64 {
        let (mut sum, mut whole) = (0.0, 0.0);
        for (table, weight) in self.weights.iter().enumerate() {
            let meant = self.windows[table][condition].first();
            if let Some(window) = meant.and_then(|windows| windows.first()) {
                sum += weight * window.middle();
                whole += weight;
            }
        }
        sum / whole
    }

    /// The windows of one condition on one table with their weights in the integral over speed and side: those of
    /// the nodes, or on a grid those of many speeds and sides between them.
    pub(crate) fn weighted(&self, table: usize, condition: usize) -> Vec<WeightedWindow> {
        let own = &self.windows[table][condition];
        if let Some(grid) = self.nodes.grid() {
            return over_strata(grid, own, &self.cuts[table][condition], StrataOf::Whole);
        }
        let nodes = self.nodes.nodes().iter().zip(own);
        nodes
            .flat_map(|(node, windows)| {
                windows.iter().map(|window| WeightedWindow {
                    weight: node.weight,
                    rough_weight: node.rough_weight,
                    window: *window,
                })
            })
            .collect()
    }

    /// The chance of a target on every table.
    pub fn chances(&self, condition: usize, target: AimedStart, skill: &Skill) -> Vec<f64> {
        self.integrated(condition, target, skill).into_iter().map(|(chance, _)| chance).collect()
    }

    /// The chance of a target on every table, and the same with fewer speeds and sides.
    pub(super) fn integrated(
        &self,
        condition: usize,
        target: AimedStart,
        skill: &Skill,
    ) -> Vec<(f64, f64)> {
        let tables = self.on_tables(condition).into_iter();
        tables.map(|windows| self.integrals(condition, target, skill, &windows)).collect()
    }

    /// The standard error that a chance which falls in steps has of each stratum of the integral.
    pub(super) fn grain(&self) -> f64 {
        self.nodes.grid().map_or(0.0, SpreadGrid::grain)
    }

    /// The chance of a target over all tables.
    pub fn chance(&self, condition: usize, target: AimedStart, skill: &Skill) -> Chance {
        self.chance_in(condition, target, skill, &self.on_tables(condition))
    }

    /// The chances of several targets over all tables; 0 where there is none.
    pub fn chances_of_each(
        &self,
        condition: usize,
        targets: &[Option<AimedStart>],
        skill: &Skill,
    ) -> Vec<f64> {
        let chances = self.told_of_each(condition, targets, skill).into_iter();
        chances.map(|told| told.map_or(0.0, |told| told.chance)).collect()
    }

    /// The same with their errors; `None` where there is none.
    pub fn told_of_each(
        &self,
        condition: usize,
        targets: &[Option<AimedStart>],
        skill: &Skill,
    ) -> Vec<Option<Chance>> {
        let tables = self.on_tables(condition);
        let chance = |target| self.chance_in(condition, target, skill, &tables);
        targets.iter().map(|target| target.map(chance)).collect()
    }

    /// The start with the greatest chance for whoever reads so well, and that chance; `None` where nothing holds.
    pub fn best_start(
        &self,
        condition: usize,
        read_spread: f64,
        skill: &Skill,
    ) -> Option<(f64, Chance)> {
        let tables = self.on_tables(condition);
        let nodes = (0..self.weights.len()).flat_map(|table| self.of(table, condition));
        let all: Vec<Window> = nodes.flatten().copied().collect();
        let mut from = all.iter().map(|window| window.from).fold(f64::INFINITY, f64::min);
        let mut to = all.iter().map(|window| window.to).fold(f64::NEG_INFINITY, f64::max);
        if !from.is_finite() {
            return None;
        }
        let chance = |start: f64| {
            self.chance_in(condition, AimedStart { start, read_spread }, skill, &tables)
        };
        // Coarse steps, then finer ones about the best of them.
        for _ in 0..BEST_ROUNDS {
            let step = (to - from) / BEST_STEPS;
            let starts = (0..=BEST_STEPS_COUNT).map(|at| from + step * f64::from(at));
            let best = starts
                .map(|start| (start, chance(start).chance))
                .reduce(|a, b| if b.1 > a.1 { b } else { a })?;
            (from, to) = (best.0 - step, best.0 + step);
        }
        let start = 0.5 * (from + to);
        Some((start, chance(start)))
    }

    /// The windows of one condition on every table, as [`HoldWindows::weighted`] has them, and those by which the error
    /// is judged.
    fn on_tables(&self, condition: usize) -> Vec<Vec<WeightedWindow>> {
        let of_table = |table: usize| {
            let mut all = self.weighted(table, condition);
            if let Some(grid) = self.nodes.grid() {
                let (own, cuts) = (&self.windows[table][condition], &self.cuts[table][condition]);
                all.extend(over_strata(grid, own, cuts, StrataOf::Rough));
            }
            all
        };
        (0..self.weights.len()).map(of_table).collect()
    }

    fn chance_in(
        &self,
        condition: usize,
        target: AimedStart,
        skill: &Skill,
        tables: &[Vec<WeightedWindow>],
    ) -> Chance {
        let (chances, rough): (Vec<f64>, Vec<f64>) =
            tables.iter().map(|windows| self.integrals(condition, target, skill, windows)).unzip();
        let (chance, error) = weighted_mean(chances.into_iter(), &self.weights);
        let (rough, _) = weighted_mean(rough.into_iter(), &self.weights);
        let grain = if chance > 0.0 && chance < 1.0 { self.grain() } else { 0.0 };
        Chance { chance, error: libm::hypot(libm::hypot(error, chance - rough), grain) }
    }

    /// The chance on one table, and the same with fewer speeds and sides: their difference tells what is left out.
    fn integrals(
        &self,
        condition: usize,
        target: AimedStart,
        skill: &Skill,
        windows: &[WeightedWindow],
    ) -> (f64, f64) {
        windows.iter().fold((0.0, 0.0), |(chance, rough), it| {
            let share = self.share(condition, target, skill, it.window);
            (chance + it.weight * share, rough + it.rough_weight * share)
        })
    }

    /// The share of a person's lines that fall into a window.
    fn share(&self, condition: usize, target: AimedStart, skill: &Skill, window: Window) -> f64 {
        let places = &self.places[condition];
        let aimed_rad = places.angle_rad(target.start);
        let away = |start: f64| deviations(places, target, aimed_rad, skill.aim_rad, start);
        // An edge between the nodes may have passed the other: then nothing holds.
        share_between(away(window.from), away(window.to)).max(0.0)
    }
}

/// Where windows end between the nodes of a grid, by table, then condition.
fn cuts(
    tables: &PossibleTables,
    model: RailModel,
    grid: &SpreadGrid,
    conditions: &[Condition],
    windows: &[Vec<Vec<Windows>>],
) -> Result<Vec<Vec<Vec<Cut>>>, BankError> {
    let rounds = if tables.len() == 1 { CUT_ROUNDS } else { CUT_ROUNDS_OF_MANY };
    let of_table = |table: usize| {
        let played = (&tables.equipment()[table], tables.habits()[table]);
        let of_condition = |(condition, windows): (&Condition, &Vec<Windows>)| {
            let mut cuts = Cut::between(grid, windows);
            for cut in &mut cuts {
                for _ in 0..rounds {
                    let node = grid.at(cut.middle(), grid.sides[cut.side]);
                    let found =
                        windows_on(played, model, &[node], core::slice::from_ref(condition))?;
                    cut.close_in(found.into_iter().flatten().next().unwrap_or_default());
                }
            }
            Ok(cuts)
        };
        let each = conditions.par_iter().zip(&windows[table]);
        each.map(of_condition).collect::<Result<Vec<_>, BankError>>()
    };
    (0..tables.len()).into_par_iter().map(of_table).collect()
}

/// How many standard deviations a start number lies from the one that is aimed from.
///
/// Aim errs in angles, reading in numbers. A line that is read wrong by δ is turned by δ·(angle between the two
/// lines)/(number between them), so both add up as spreads of the angle; either alone is exact.
fn deviations(
    places: &BallLines,
    target: AimedStart,
    aimed_rad: f64,
    aim_rad: f64,
    start: f64,
) -> f64 {
    let (away, turn_rad) = (start - target.start, places.angle_rad(start) - aimed_rad);
    let per_number =
        if away.abs() > 1e-6 { turn_rad / away } else { 1.0 / places.start_per_rad(target.start) };
    let read_rad = target.read_spread * per_number;
    let spread_rad = (aim_rad * aim_rad + read_rad * read_rad).sqrt();
    if spread_rad > 0.0 {
        turn_rad / spread_rad
    } else if turn_rad == 0.0 {
        0.0
    } else {
        f64::INFINITY.copysign(turn_rad)
    }
}
