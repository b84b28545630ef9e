//! The finding of a table of results in one short line: where along an axis everything holds, group by
//! group. It is computed from the results and claims nothing between or beyond them.

mod stretch;
#[cfg(test)]
mod tests;

use super::wording::{capital, joined};
use stretch::{Stretch, stretch};

/// The axis along which a finding is told.
#[derive(Debug, Clone)]
pub struct FindingAxis {
    /// Its name in a script: `speed`.
    pub name: String,
    /// Its values as numbers; none for words.
    pub amounts: Vec<f64>,
    /// Each value without its unit: `12`.
    pub ticks: Vec<String>,
    /// Each value in words: `12 in off the rail`.
    pub labels: Vec<String>,
    /// Its numbers were given by words, such as soft, which are listed.
    pub by_word: bool,
}

/// The results at one value along the axis.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct FindingCount {
    /// Those that hold.
    pub held: usize,
    /// All that were played.
    pub all: usize,
    /// Those that hold, of which the model is less sure.
    pub less_sure: usize,
    /// Those that can't be played, such as a ball without room.
    pub unplayable: usize,
}

impl FindingCount {
    fn and(self, other: Self) -> Self {
        Self {
            held: self.held + other.held,
            all: self.all + other.all,
            less_sure: self.less_sure + other.less_sure,
            unplayable: self.unplayable + other.unplayable,
        }
    }

    fn of(counts: impl Iterator<Item = Self>) -> Self {
        counts.fold(Self::default(), Self::and)
    }

    fn is_whole(self) -> bool {
        self.held == self.all
    }

    fn share(self) -> f64 {
        self.held as f64 / self.all as f64
    }
}

/// Results under one heading.
#[derive(Debug, Clone)]
pub struct FindingGroup {
    /// Its conditions in words; empty when there is one group.
    pub label: String,
    /// For each value along the axis, its results.
    pub counts: Vec<FindingCount>,
}

/// Groups that are told one by one; of more, the best and the worst.
const MOST_TOLD: usize = 4;

/// The finding: `Frozen: nearly any speed. 10 in off: 3.5 m/s or more.` Without a heading `good` begins
/// it, the word for a good result: `Holds at 3.5 m/s or more.` Empty when there is no result.
pub fn finding(along: &FindingAxis, groups: &[FindingGroup], good: &str) -> String {
    let is_any = |group: &&FindingGroup| {
        let all = FindingCount::of(group.counts.iter().copied());
        all.all + all.unplayable > 0
    };
    match groups.iter().filter(is_any).collect::<Vec<_>>().as_slice() {
        [] => String::new(),
        [only] if only.label.is_empty() => {
            format!("{}.", stretch(along, &only.counts, good).sentence(good))
        }
        several => several_groups(along, several, good),
    }
}

fn several_groups(along: &FindingAxis, groups: &[&FindingGroup], good: &str) -> String {
    // Groups with one answer are told together, in the order of the first of them.
    let mut told: Vec<(Vec<String>, Stretch)> = Vec::new();
    for group in groups {
        let answer = stretch(along, &group.counts, good);
        let label = short(&group.label);
        match told.iter_mut().find(|(_, known)| *known == answer) {
            Some((labels, _)) => labels.push(label),
            None => told.push((vec![label], answer)),
        }
    }
    if let [(labels, answer)] = told.as_slice()
        && labels.len() > 1
    {
        return format!("{}, in all {} panels.", answer.sentence(good), labels.len());
    }
    let sentence = |(labels, answer): &(Vec<String>, Stretch)| {
        capital(&format!("{}: {}.", joined(labels), answer.words()))
    };
    if groups.len() <= MOST_TOLD {
        return told.iter().map(sentence).collect::<Vec<_>>().join(" ");
    }
    // A group of which nothing can be played is no worst.
    let share = |group: &&&FindingGroup| {
        let all = FindingCount::of(group.counts.iter().copied());
        if all.all == 0 { None } else { Some(all.share()) }
    };
    let rated: Vec<(&FindingGroup, f64)> =
        groups.iter().filter_map(|group| Some((*group, share(&group)?))).collect();
    // The first of equals.
    let best = rated.iter().rev().max_by(|a, b| a.1.total_cmp(&b.1));
    let worst = rated.iter().min_by(|a, b| a.1.total_cmp(&b.1));
    let told = [("Best", best), ("Worst", worst)].into_iter().filter_map(|(word, group)| {
        let (group, _) = group?;
        let answer = stretch(along, &group.counts, good);
        Some(format!("{word}: {}: {}.", short(&group.label), answer.words()))
    });
    told.collect::<Vec<_>>().join(" ")
}

/// The word after `any`.
pub fn noun(name: &str) -> &str {
    match name {
        "speed" | "lag" => "speed",
        "off_rail" => "distance off the rail",
        "contact" => "contact",
        "start" => "start",
        "roll" | "spin" => "roll",
        "running_side" => "side spin",
        "rule" => "rule",
        "equipment" => "table",
        _ => "value",
    }
}

/// A heading of a few words: the rail is in the subtitle.
fn short(label: &str) -> String {
    let label = label.strip_suffix(" the rail").unwrap_or(label);
    label.strip_suffix(" to").unwrap_or(label).to_owned()
}
