//! Where along an axis every result of a group holds, or where most do.

use super::counts::{FindingAxis, FindingCount, noun};
use crate::telling::wording::{capital, joined};

/// Behind what holds, where the model is less sure of it.
/// Behind a number of results where others can't be played.
pub(super) const PLAYABLE: &str = "that can be played";
const LESS_SURE: &str = " (less sure)";
const MOSTLY_LESS_SURE: &str = " (mostly less sure)";

/// Of a finding whose parts are less sure.
const MOSTLY_OF_ALL: &str = "The model is less sure of most of this.";

/// A finding without the words on how sure it is.
pub fn without_sureness(finding: &str) -> String {
    finding.replace(MOSTLY_LESS_SURE, "").replace(LESS_SURE, "")
}

/// A finding with the words on how sure it is once, at its end, where they stand in it several times.
pub fn sureness_once(finding: &str) -> String {
    let times = finding.matches(LESS_SURE).count() + finding.matches(MOSTLY_LESS_SURE).count();
    if times < 2 {
        finding.to_owned()
    } else {
        format!("{} {}", without_sureness(finding), MOSTLY_OF_ALL)
    }
}

/// Nearly all results, as a share.
const NEARLY_ALL: f64 = 0.8;

/// Where every result holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Stretch {
    Nowhere,
    /// At these values.
    Whole(String),
    /// At no value do all hold: the most that do.
    Part(String),
}

impl Stretch {
    pub(super) fn words(&self) -> &str {
        match self {
            Self::Nowhere => "nowhere",
            Self::Whole(told) | Self::Part(told) => told,
        }
    }

    /// As the beginning of a sentence without a heading: `Holds at 3 m/s or more`.
    pub(super) fn sentence(&self, along: &FindingAxis, good: &str) -> String {
        let told = match self {
            Self::Nowhere => return format!("{good} nowhere"),
            Self::Part(told) => return capital(told),
            Self::Whole(told) => told,
        };
        let any = told.starts_with("any ") || told.starts_with("nearly any ");
        match along.name.as_str() {
            "spin" | "roll" | "running_side" | "rule" | "rail_model" => {
                format!("{good} with {told}")
            }
            "equipment" => format!("{good} on {told}"),
            "rail" | "pocket" => format!("{good} for {told}"),
            "off_rail" if !any => format!("{good} {told}"),
            _ if told.starts_with("up to") => format!("{good} {told}"),
            _ => format!("{good} at {told}"),
        }
    }

    /// With a remark behind it.
    fn with(self, remark: &str) -> Self {
        match self {
            Self::Nowhere => Self::Nowhere,
            Self::Whole(told) => Self::Whole(told + remark),
            Self::Part(told) => Self::Part(told + remark),
        }
    }
}

pub(super) fn stretch(along: &FindingAxis, counts: &[FindingCount], good: &str) -> Stretch {
    let told = Told::new(along, counts, good);
    let all = FindingCount::of(counts.iter().copied());
    let noun = noun(&along.name);
    match told.order.as_slice() {
        [] => Stretch::Part("can't be played".to_owned()),
        _ if all.held == 0 => Stretch::Nowhere,
        [one] if all.is_whole() => {
            told.of_playable(Stretch::Whole(along.labels[*one].clone()), &told.order)
        }
        [_] => told.at_best(),
        _ if all.is_whole() => told.of_playable(Stretch::Whole(format!("any {noun}")), &told.order),
        // One in ten fails, at most.
        _ if 10 * (all.all - all.held) <= all.all => {
            told.of_playable(Stretch::Whole(format!("nearly any {noun}")), &told.order)
        }
        _ => told.some(),
    }
}

/// The parts from which a stretch is told; `order` has the places that were played, least first.
pub(super) struct Told<'a> {
    along: &'a FindingAxis,
    counts: &'a [FindingCount],
    order: Vec<usize>,
    good: &'a str,
}

impl<'a> Told<'a> {
    pub(super) fn new(along: &'a FindingAxis, counts: &'a [FindingCount], good: &'a str) -> Self {
        let mut order: Vec<usize> = (0..counts.len()).filter(|at| counts[*at].all > 0).collect();
        if !along.amounts.is_empty() {
            order.sort_by(|a, b| along.amounts[*a].total_cmp(&along.amounts[*b]));
        }
        Self { along, counts, order, good }
    }

    /// The share of the values at which every result holds.
    pub(super) fn whole_share(&self) -> f64 {
        let whole = self.order.iter().filter(|at| self.counts[**at].is_whole()).count();
        whole as f64 / self.order.len() as f64
    }

    /// The places that were played, least first.
    pub(super) fn order(&self) -> &[usize] {
        &self.order
    }

    /// Whether its values are numbers with runs between them.
    pub(super) fn has_runs(&self) -> bool {
        !self.along.amounts.is_empty() && !self.along.by_word
    }

    /// A run of values, or all of them: `any speed`.
    pub(super) fn any_or_run(&self, run: (usize, usize)) -> String {
        if run == (0, self.order.len() - 1) {
            return format!("any {}", noun(&self.along.name));
        }
        self.run(run)
    }

    /// The one run of values at which every result holds, if these are most of them, behind what holds there: ` up to contact 2.5`.
    pub(super) fn one_run(&self) -> Option<String> {
        let runs = runs(&self.order, |at| self.counts[*at].is_whole());
        let [run] = runs.as_slice() else { return None };
        let (length, all) = (run.1 - run.0 + 1, self.order.len());
        let told = self.has_runs();
        (told && length > 1 && length < all && 2 * length >= all).then(|| {
            // One in the middle has no word before it that joins it on.
            let apart = if run.0 == 0 || run.1 + 1 == all { "" } else { "," };
            let words = if run.1 + 1 < all { self.run(*run) } else { self.run_behind(*run) };
            format!("{apart} {words}{}", self.sureness(&self.places(&runs)))
        })
    }

    fn some(&self) -> Stretch {
        let runs = runs(&self.order, |at| self.counts[*at].is_whole());
        let places = self.places(&runs);
        match runs.as_slice() {
            [] => self.at_best(),
            _ if !self.has_runs() => {
                let labels: Vec<String> =
                    places.iter().map(|at| self.along.labels[*at].clone()).collect();
                self.of_playable(Stretch::Whole(joined(&labels)), &places)
            }
            _ if 3 * places.len() <= self.order.len()
                && let Some(most) = self.most(2 * places.len()) =>
            {
                most
            }
            few if few.len() <= 2 => {
                let told: Vec<String> = few.iter().map(|run| self.run(*run)).collect();
                self.of_playable(Stretch::Whole(joined(&told)), &places)
            }
            _ => {
                let all = FindingCount::of(self.counts.iter().copied());
                let hold = plural(self.good);
                Stretch::Part(format!("{} of {} {hold}, here and there", all.held, all.all))
            }
        }
    }

    /// The longest run of values at which nearly all hold, if it is long enough: one result that never holds would hide
    /// it.
    fn most(&self, least_length: usize) -> Option<Stretch> {
        let nearly = |at: &usize| self.counts[*at].share() >= NEARLY_ALL;
        let length = |run: &(usize, usize)| run.1 - run.0 + 1;
        let run = runs(&self.order, nearly).into_iter().max_by_key(length)?;
        let listed = !self.has_runs();
        let places = self.places(&[run]);
        let FindingCount { all, unplayable, .. } = self.counts[*places.first()?];
        let alike = places.iter().all(|at| self.counts[*at].all == all);
        if listed || unplayable > 0 || !alike || length(&run) < least_length {
            return None;
        }
        let held = places.iter().map(|at| self.counts[*at].held).min()?;
        let along = self.run_behind(run);
        let hold = plural(self.good);
        let told = format!("at least {held} of {all} {hold}, {along}");
        Some(Stretch::Part(told).with(self.sureness(&places)))
    }

    /// The values at which most hold, where they hold throughout at none.
    fn at_best(&self) -> Stretch {
        let counts = self.counts;
        let by_share = |a: &&usize, b: &&usize| counts[**a].share().total_cmp(&counts[**b].share());
        // The first of equals.
        let Some(best) = self.order.iter().rev().max_by(by_share) else {
            return Stretch::Nowhere;
        };
        let FindingCount { held, all, unplayable, .. } = counts[*best];
        let alike = |at: &usize| (counts[*at].held, counts[*at].all) == (held, all);
        let runs = runs(&self.order, alike);
        if let Some(most) = self.most(self.places(&runs).len() + 1) {
            return most;
        }
        let listed = !self.has_runs();
        let told = match runs.as_slice() {
            [run] if run.0 < run.1 && !listed => self.run_behind(*run),
            _ => {
                let places = self.places(&runs);
                let label = |at: &usize| self.along.labels[*at].clone();
                match places.as_slice() {
                    [first, .., last] if places.len() > 3 && !listed => {
                        format!(
                            "at {} values from {} to {}",
                            places.len(),
                            label(first),
                            label(last)
                        )
                    }
                    [first, rest @ ..] if rest.len() > 2 => {
                        format!("at {} and {} more", label(first), rest.len())
                    }
                    few => format!("at {}", joined(&few.iter().map(label).collect::<Vec<_>>())),
                }
            }
        };
        let of = if unplayable > 0 { format!("the {all} {PLAYABLE}") } else { all.to_string() };
        let hold = plural(self.good);
        Stretch::Part(format!("at best {held} of {of} {hold}, {told}"))
            .with(self.sureness(&self.places(&runs)))
    }

    /// A run of values behind what is said of it: `from 3 m/s on`.
    pub(super) fn run_behind(&self, (from, to): (usize, usize)) -> String {
        match (from == 0, to + 1 == self.order.len()) {
            (true, true) => format!("at any {}", noun(&self.along.name)),
            (_, true) => format!("from {} on", self.label(from)),
            (true, _) => format!("up to {}", self.label(to)),
            _ => format!("from {}", self.between(from, to)),
        }
    }

    fn label(&self, place: usize) -> &str {
        &self.along.labels[self.order[place]]
    }

    /// A run of values: `2.5 to 3 m/s`.
    fn run(&self, (from, to): (usize, usize)) -> String {
        match (from == 0, to + 1 == self.order.len()) {
            (true, _) | (_, true) if from == to => format!("{} only", self.label(from)),
            (true, _) => format!("up to {}", self.label(to)),
            (_, true) => format!("{} or more", self.label(from)),
            _ if from == to => self.label(from).to_owned(),
            _ => self.between(from, to),
        }
    }

    /// Two ends, of which one tells the unit: `2.5 to 3 m/s`, `contact 2 to 3`.
    fn between(&self, from: usize, to: usize) -> String {
        let tick = |place: usize| self.along.ticks[self.order[place]].as_str();
        let (low, high) = (self.label(from), self.label(to));
        if low.ends_with(tick(from)) && high.ends_with(tick(to)) {
            format!("{low} to {}", tick(to))
        } else if let Some(at) = high.find(tick(to)).filter(|_| low.contains(tick(from))) {
            // A word may stand before the number, and the unit behind it: `aim error −5 to 10 mrad`.
            format!("{}{} to {}", &high[..at], tick(from), &high[at..])
        } else {
            format!("{} to {high}", tick(from))
        }
    }

    /// The values of runs, as places along the axis.
    fn places(&self, runs: &[(usize, usize)]) -> Vec<usize> {
        runs.iter().flat_map(|(from, to)| &self.order[*from..=*to]).copied().collect()
    }

    /// Words where all or most of what holds at these values is less sure.
    fn sureness(&self, places: &[usize]) -> &'static str {
        sureness_of(FindingCount::of(places.iter().map(|at| self.counts[*at])))
    }

    /// A stretch with a remark on results that can't be played, and on its sureness.
    fn of_playable(&self, stretch: Stretch, places: &[usize]) -> Stretch {
        let FindingCount { all, unplayable, .. } = self.counts[places[0]];
        let alike = |it: &FindingCount| (it.all, it.unplayable) == (all, unplayable);
        let remark = if self.counts.iter().all(|it| it.unplayable == 0) {
            String::new()
        } else if self.counts.iter().all(alike) {
            format!(", for the {all} of {} {PLAYABLE}", all + unplayable)
        } else {
            ", where it can be played".to_owned()
        };
        stretch.with(self.sureness(places)).with(&remark)
    }
}

/// Words where all or most of what holds is less sure.
pub(super) const fn sureness_of(there: FindingCount) -> &'static str {
    match there {
        FindingCount { held: 0, .. } => "",
        FindingCount { held, less_sure, .. } if less_sure == held => LESS_SURE,
        FindingCount { held, less_sure, .. } if 2 * less_sure > held => MOSTLY_LESS_SURE,
        _ => "",
    }
}

/// `hold`, for `Holds`.
fn plural(good: &str) -> String {
    good.trim_end_matches('s').to_lowercase()
}

/// Runs of places whose results hold, first and last.
fn runs(order: &[usize], whole: impl Fn(&usize) -> bool) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (place, at) in order.iter().enumerate() {
        if !whole(at) {
            continue;
        }
        match runs.last_mut() {
            Some((_, to)) if *to + 1 == place => *to = place,
            _ => runs.push((place, place)),
        }
    }
    runs
}
