//! The answer of a search.

use crate::attribution::Attribution;
use crate::bank::{BankVerdict, Direction, Outcome};
use crate::sweep::Input;

/// The places where a rule holds and where it breaks, and the looks behind them.
#[derive(Debug, Clone, PartialEq)]
pub struct Frontier {
    /// The input along which each line was searched.
    pub along: Input,
    /// The input over which edges were traced from line to line.
    pub across: Option<Input>,
    /// Where every searched line was looked at to begin with, SI, ascending.
    pub probes: Vec<f64>,
    /// One for each combination of everything else, rules within a point, in the plan's order.
    pub sheets: Vec<Sheet>,
    /// Banks played to find the edges.
    pub banks_searching: u64,
    /// Banks sent off the rail again to say why they break: each impact once, with whatever follows.
    pub banks_explaining: u64,
    /// Banks of the dense grid whose steps are the tolerances, over the same ranges.
    pub dense_banks: u128,
}

impl Frontier {
    /// All banks played.
    pub fn banks_played(&self) -> u64 {
        self.banks_searching + self.banks_explaining
    }

    /// The banks of the dense grid, as a multiple of the banks played.
    pub fn saving(&self) -> f64 {
        self.dense_banks as f64 / self.banks_played().max(1) as f64
    }

    /// The widest stretch between two places that were looked at on a searched line and agree, SI.
    pub fn widest_gap(&self) -> f64 {
        let lines = self.sheets.iter().flat_map(|sheet| &sheet.lines);
        lines.filter_map(FrontierLine::widest_gap).fold(0.0, f64::max)
    }

    /// Stretches between probes that may still hide something, though looks ran out.
    pub fn unsettled(&self) -> usize {
        let lines = self.sheets.iter().flat_map(|sheet| &sheet.lines);
        lines.map(FrontierLine::unsettled).sum()
    }
}

/// Lines with everything else alike.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The index of each axis' value; meaningless for the inputs that were searched.
    pub digits: Vec<usize>,
    /// Index of the rule; 0 when the plan gives the start numbers itself.
    pub rule: usize,
    /// Its lines, one when nothing was traced over, else in ascending order across.
    pub lines: Vec<FrontierLine>,
    /// Intervals that hang together from line to line; empty when nothing was traced over.
    pub strips: Vec<Strip>,
}

/// One line: everything fixed but the input along it.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontierLine {
    /// The value of the input traced over, SI.
    pub across: Option<f64>,
    /// Where it holds, ascending.
    pub intervals: Vec<Interval>,
    /// The places looked at.
    pub looked: Certificate,
    /// The place of the most room where it holds nowhere: value along and outcome. Only for
    /// searched lines.
    pub nearest: Option<(f64, Outcome)>,
}

/// The looks at a line: its certificate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Certificate {
    /// Every probe, and the places they pointed at.
    Searched {
        /// Banks played on it.
        banks: usize,
        /// The widest stretch between two neighbouring places that were looked at and agree, SI: a
        /// gap or an island narrower than that may have been missed.
        widest_gap: f64,
        /// Stretches between probes that may still hide something, though looks ran out.
        unsettled: usize,
    },
    /// Only the edges that the lines beside it have.
    Followed,
}

/// A stretch where it holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Interval {
    /// Its lower end.
    pub low: IntervalEnd,
    /// Its upper end.
    pub high: IntervalEnd,
    /// The place with the most room that was looked at; on a followed line that is one of its ends.
    pub best: (f64, Outcome),
    /// The least and the greatest place looked at in it where the outcome is flagged (above the
    /// model's checked speed, or a hop).
    pub flagged: Option<(f64, f64)>,
}

/// An end of an interval.
#[derive(Debug, Clone, PartialEq)]
pub struct IntervalEnd {
    /// The outermost place where it was seen to hold, SI.
    pub holding: f64,
    /// The breaking place next to it; `None` at an end of the range, where it still holds.
    pub breaking: Option<Breaking>,
}

impl IntervalEnd {
    /// The middle of the bracket, or the end of the range.
    pub fn place(&self) -> f64 {
        match &self.breaking {
            Some(breaking) => 0.5 * (self.holding + breaking.at),
            None => self.holding,
        }
    }

    /// The way in which it breaks there.
    pub fn way(&self) -> Option<BreakKind> {
        self.breaking.as_ref().map(|breaking| BreakKind::of(breaking.outcome.verdict()))
    }
}

/// A bank that breaks, next to one that holds.
#[derive(Debug, Clone, PartialEq)]
pub struct Breaking {
    /// The place along the line, SI.
    pub at: f64,
    /// The outcome there. Right at an edge a ball that goes long or short touches that point.
    pub outcome: Outcome,
    /// The miss as a sum over what differs from the place of the most room, whose miss is the
    /// remainder; for searched lines, where it can be attributed.
    pub why: Option<Attribution>,
}

/// The way in which a rule breaks at an edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BreakKind {
    /// Past the long point, or onto it.
    Long,
    /// Before the short point, or onto it.
    Short,
    /// The ball stops on its way.
    Stops,
    /// It meets another rail, goes into another pocket, or has no room to begin with.
    Elsewhere,
}

impl BreakKind {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Long, Self::Short, Self::Stops, Self::Elsewhere];

    /// Of a verdict that does not hold.
    pub const fn of(verdict: BankVerdict) -> Self {
        match verdict {
            BankVerdict::Long | BankVerdict::TouchesPoint(Direction::Long) => Self::Long,
            BankVerdict::Short | BankVerdict::TouchesPoint(Direction::Short) => Self::Short,
            BankVerdict::StoppedBeforeRail | BankVerdict::StoppedBeforeMouth => Self::Stops,
            BankVerdict::Holds
            | BankVerdict::OtherRail
            | BankVerdict::OtherPocket
            | BankVerdict::NoRoom => Self::Elsewhere,
        }
    }

    /// The name used in files and scripts.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Long => "long",
            Self::Short => "short",
            Self::Stops => "stops",
            Self::Elsewhere => "elsewhere",
        }
    }
}

/// Intervals of successive lines, each beside one and only one of the next line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Strip {
    /// Which part of the holding region it belongs to, from 0; different parts are not connected.
    pub part: usize,
    /// Index of its first line in the sheet.
    pub first_line: usize,
    /// Index of its interval on that line and on each line after it.
    pub intervals: Vec<usize>,
}

/// A piece of the boundary of the holding region on which the rule breaks in one way.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// The part that it bounds.
    pub part: usize,
    /// True where it holds above the curve, false where it holds below.
    pub lower: bool,
    /// The way in which the rule breaks beyond it.
    pub way: BreakKind,
    /// (across, along), SI, ascending across.
    pub points: Vec<(f64, f64)>,
}

impl Sheet {
    /// The lines and intervals of a strip.
    pub fn along_strip<'a>(
        &'a self,
        strip: &'a Strip,
    ) -> impl Iterator<Item = (&'a FrontierLine, &'a Interval)> {
        let lines = self.lines.get(strip.first_line..).unwrap_or_default();
        lines
            .iter()
            .zip(&strip.intervals)
            .filter_map(|(line, at)| line.intervals.get(*at).map(|interval| (line, interval)))
    }

    /// Where the lower and the upper edge of a strip end before its first and after its last line:
    /// midway to the next line, unless that is the end of the traced range. Where the strip
    /// closes, or a gap between two strips does, both edges end in the middle of it.
    pub fn strip_ends(&self, strip: &Strip) -> [Option<[(f64, f64); 2]>; 2] {
        let last_line = strip.first_line + strip.intervals.len().saturating_sub(1);
        [
            self.edges_end(
                strip.first_line,
                strip.first_line.checked_sub(1),
                strip.intervals.first(),
            ),
            self.edges_end(last_line, Some(last_line + 1), strip.intervals.last()),
        ]
    }

    fn edges_end(
        &self,
        line: usize,
        beyond: Option<usize>,
        interval: Option<&usize>,
    ) -> Option<[(f64, f64); 2]> {
        let (here, beyond, at) = (self.lines.get(line)?, self.lines.get(beyond?)?, *interval?);
        let interval = here.intervals.get(at)?;
        let across = 0.5 * (here.across? + beyond.across?);
        let joined: Vec<&Interval> =
            beyond.intervals.iter().filter(|other| other.beside(interval)).collect();
        let (low, high) = (interval.low.place(), interval.high.place());
        if joined.is_empty() {
            return Some([(across, 0.5 * (low + high)); 2]);
        }
        // A neighbour on the same line that runs into the same interval: the gap between closes.
        let runs_in = |other: &&Interval| joined.iter().any(|joined| joined.beside(other));
        let below = at.checked_sub(1).and_then(|at| here.intervals.get(at)).filter(runs_in);
        let above = here.intervals.get(at + 1).filter(runs_in);
        Some([
            (across, below.map_or(low, |below| 0.5 * (below.high.place() + low))),
            (across, above.map_or(high, |above| 0.5 * (high + above.low.place()))),
        ])
    }

    /// The boundary curves, strip by strip.
    pub fn curves(&self) -> Vec<Curve> {
        let mut curves = Vec::new();
        for strip in &self.strips {
            let [opens, closes] = self.strip_ends(strip);
            let count = strip.intervals.len();
            for lower in [true, false] {
                let mut open: Option<Curve> = None;
                for (at, (line, interval)) in self.along_strip(strip).enumerate() {
                    let end = if lower { &interval.low } else { &interval.high };
                    let (Some(across), way) = (line.across, end.way()) else { continue };
                    if open.as_ref().is_some_and(|curve| Some(curve.way) != way) {
                        curves.extend(open.take());
                    }
                    let Some(way) = way else { continue };
                    let begin = || Curve { part: strip.part, lower, way, points: Vec::new() };
                    let curve = open.get_or_insert_with(begin);
                    if at == 0 {
                        curve.points.extend(opens.map(|ends| ends[usize::from(!lower)]));
                    }
                    curve.points.push((across, end.place()));
                    if at + 1 == count {
                        curve.points.extend(closes.map(|ends| ends[usize::from(!lower)]));
                    }
                }
                curves.extend(open);
            }
        }
        curves
    }

    /// Whether it holds at a place between its lines, as the traced edges have it; `None` outside
    /// the range traced over.
    pub fn holds(&self, across: f64, along: f64) -> Option<bool> {
        let right = self.lines.partition_point(|line| line.across.is_some_and(|at| at < across));
        let right = right.clamp(1, self.lines.len().saturating_sub(1).max(1));
        let (a, b) = (self.lines.get(right - 1)?, self.lines.get(right)?);
        let share = (across - a.across?) / (b.across? - a.across?);
        if !(0.0..=1.0).contains(&share) {
            return None;
        }
        let between =
            |a: &IntervalEnd, b: &IntervalEnd| a.place() + share * (b.place() - a.place());
        Some(a.intervals.iter().any(|of_a| {
            b.intervals.iter().filter(|of_b| of_a.beside(of_b)).any(|of_b| {
                along >= between(&of_a.low, &of_b.low) && along <= between(&of_a.high, &of_b.high)
            })
        }))
    }
}

impl FrontierLine {
    /// Whether it was looked at all along, and not only where its neighbours have edges.
    pub fn is_searched(&self) -> bool {
        matches!(self.looked, Certificate::Searched { .. })
    }

    /// The widest stretch between two neighbouring places that were looked at and agree, SI; `None`
    /// where only edges were followed.
    pub fn widest_gap(&self) -> Option<f64> {
        match self.looked {
            Certificate::Searched { widest_gap, .. } => Some(widest_gap),
            Certificate::Followed => None,
        }
    }

    /// Stretches between probes that may still hide something, though looks ran out.
    pub fn unsettled(&self) -> usize {
        match self.looked {
            Certificate::Searched { unsettled, .. } => unsettled,
            Certificate::Followed => 0,
        }
    }

    /// Whether it holds at a place along this line.
    pub fn holds(&self, along: f64) -> bool {
        self.intervals
            .iter()
            .any(|interval| along >= interval.low.place() && along <= interval.high.place())
    }
}

impl Interval {
    /// Whether this and one of a neighbouring line lie side by side.
    fn beside(&self, other: &Self) -> bool {
        self.low.place().max(other.low.place()) <= self.high.place().min(other.high.place())
    }
}
