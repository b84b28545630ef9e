//! The finding of several groups of results.

use super::across::answer;
use super::counts::{FindingAxis, FindingCount, FindingGroup};
use super::stretch::Stretch;
use crate::telling::wording::{capital, joined};

/// Groups that are told one by one; of more, the best and the worst.
const MOST_TOLD: usize = 4;

/// The finding: `Frozen: nearly any speed. 10 in off: 3.5 m/s or more.` Without a heading `good` begins
/// it, the word for a good result: `Holds at 3.5 m/s or more.` So it does where all headings have one answer:
/// `Holds with stun in both cases.` Empty when there is no result.
pub fn finding(along: &FindingAxis, groups: &[FindingGroup], good: &str) -> String {
    let is_any = |group: &&FindingGroup| {
        let all = FindingCount::of(group.counts.iter().copied());
        all.all + all.unplayable > 0
    };
    match groups.iter().filter(is_any).collect::<Vec<_>>().as_slice() {
        [] => String::new(),
        [only] if only.label.is_empty() => {
            format!("{}.", answer(along, only, good).sentence(along, good))
        }
        several => several_groups(along, several, good),
    }
}

fn several_groups(along: &FindingAxis, groups: &[&FindingGroup], good: &str) -> String {
    // Groups with one answer are told together, in the order of the first of them.
    let mut told: Vec<(Vec<String>, Stretch)> = Vec::new();
    for group in groups {
        let answer = answer(along, group, good);
        let label = short(&group.label);
        match told.iter_mut().find(|(_, known)| *known == answer) {
            Some((labels, _)) => labels.push(label),
            None => told.push((vec![label], answer)),
        }
    }
    if let ([(labels, answer)], [_, _, ..]) = (told.as_slice(), groups) {
        if *answer == Stretch::Nowhere {
            return match labels.len() {
                2 => format!("{good} in neither case."),
                all => format!("{good} in none of the {all} cases."),
            };
        }
        let all =
            if labels.len() == 2 { "both".to_owned() } else { format!("all {}", labels.len()) };
        return format!("{} in {all} cases.", answer.sentence(along, good));
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
        let (group, share) = group?;
        let answer = answer(along, group, good);
        let tie = match rated.iter().filter(|(_, other)| other == share).count() - 1 {
            0 => String::new(),
            1 => " (a tie with 1 other)".to_owned(),
            alike => format!(" (a tie with {alike} others)"),
        };
        Some(format!("{word}: {}{tie}: {}.", short(&group.label), answer.words()))
    });
    told.collect::<Vec<_>>().join(" ")
}

/// A heading of a few words: the rail is in the subtitle.
fn short(label: &str) -> String {
    let label = label.strip_suffix(" the rail").unwrap_or(label);
    label.strip_suffix(" to").unwrap_or(label).to_owned()
}
