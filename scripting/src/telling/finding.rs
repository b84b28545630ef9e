//! The finding of a table of results in one short line: where along an axis everything holds, group by
//! group. It is computed from the results and claims nothing between or beyond them.

use super::wording::{capital, joined};

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
}

/// Results under one heading.
#[derive(Debug, Clone)]
pub struct FindingGroup {
    /// Its conditions in words; empty when there is one group.
    pub label: String,
    /// For each value along the axis, the results that hold and all that were played.
    pub counts: Vec<(usize, usize)>,
}

/// Groups that are told one by one; of more, the best and the worst.
const MOST_TOLD: usize = 4;

/// The finding: `Frozen: nearly any speed. 10 in off: 3.5 m/s or more.` Without a heading `good` begins
/// it, the word for a good result: `Holds at 3.5 m/s or more.` So it does where all headings have one answer:
/// `Holds with stun in both panels.` Empty when nothing was played.
pub fn finding(along: &FindingAxis, groups: &[FindingGroup], good: &str) -> String {
    let played: Vec<&FindingGroup> =
        groups.iter().filter(|group| group.counts.iter().any(|(_, all)| *all > 0)).collect();
    match played.as_slice() {
        [] => String::new(),
        [only] if only.label.is_empty() => {
            format!("{}.", alone(along, stretch(along, &only.counts, good), good))
        }
        several => several_groups(along, several, good),
    }
}

fn several_groups(along: &FindingAxis, groups: &[&FindingGroup], good: &str) -> String {
    // Groups with one answer are told together, in the order of the first of them.
    let mut told: Vec<(Vec<String>, String)> = Vec::new();
    for group in groups {
        let answer = stretch(along, &group.counts, good).words();
        let label = short(&group.label);
        match told.iter_mut().find(|(_, known)| *known == answer) {
            Some((labels, _)) => labels.push(label),
            None => told.push((vec![label], answer)),
        }
    }
    if let ([(labels, _)], [first, _, ..]) = (told.as_slice(), groups) {
        let all =
            if labels.len() == 2 { "both".to_owned() } else { format!("all {}", labels.len()) };
        let answer = alone(along, stretch(along, &first.counts, good), good);
        return format!("{answer} in {all} panels.");
    }
    let sentence = |(labels, answer): &(Vec<String>, String)| {
        capital(&format!("{}: {answer}.", joined(labels)))
    };
    if groups.len() <= MOST_TOLD {
        return told.iter().map(sentence).collect::<Vec<_>>().join(" ");
    }
    let share = |group: &&FindingGroup| {
        let (held, all) = total(group);
        held as f64 / all as f64
    };
    let by_share = |a: &&&FindingGroup, b: &&&FindingGroup| share(a).total_cmp(&share(b));
    // The first of equals.
    let best = groups.iter().rev().max_by(by_share);
    let worst = groups.iter().min_by(by_share);
    let told = [("Best", best), ("Worst", worst)].into_iter().filter_map(|(word, group)| {
        let group = group?;
        let answer = stretch(along, &group.counts, good).words();
        let alike = groups.iter().filter(|it| same_share(total(it), total(group))).count() - 1;
        let tie = match alike {
            0 => String::new(),
            1 => " (a tie with 1 other)".to_owned(),
            _ => format!(" (a tie with {alike} others)"),
        };
        Some(format!("{word}: {}{tie}: {answer}.", short(&group.label)))
    });
    told.collect::<Vec<_>>().join(" ")
}

/// An answer that stands without a heading: `Holds at 3 m/s or more`.
fn alone(along: &FindingAxis, stretch: Stretch, good: &str) -> String {
    match stretch {
        Stretch::Nowhere => format!("{good} nowhere"),
        Stretch::Part(told) => capital(&told),
        Stretch::Whole(told) => {
            let any = told.starts_with("any ") || told.starts_with("nearly any ");
            match along.name.as_str() {
                "spin" | "roll" | "running_side" | "rule" | "rail_model" => {
                    format!("{good} with {told}")
                }
                "equipment" => format!("{good} on {told}"),
                "rail" | "pocket" => format!("{good} for {told}"),
                "off_rail" if !any => format!("{good} {told}"),
                _ => format!("{good} at {told}"),
            }
        }
    }
}

fn total(group: &FindingGroup) -> (usize, usize) {
    group.counts.iter().fold((0, 0), |(held, all), (h, a)| (held + h, all + a))
}

/// True where one holds as often as the other.
const fn same_share((held, all): (usize, usize), (other_held, other_all): (usize, usize)) -> bool {
    held * other_all == other_held * all
}

/// Where along the axis every result holds.
enum Stretch {
    Nowhere,
    /// At these values.
    Whole(String),
    /// At no value do all hold: the most that do.
    Part(String),
}

impl Stretch {
    fn words(self) -> String {
        match self {
            Self::Nowhere => "nowhere".to_owned(),
            Self::Whole(told) | Self::Part(told) => told,
        }
    }
}

fn stretch(along: &FindingAxis, counts: &[(usize, usize)], good: &str) -> Stretch {
    let mut order: Vec<usize> = (0..counts.len()).filter(|at| counts[*at].1 > 0).collect();
    let numbers = !along.amounts.is_empty();
    if numbers {
        order.sort_by(|a, b| along.amounts[*a].total_cmp(&along.amounts[*b]));
    }
    let (held, all) = counts.iter().fold((0, 0), |(held, all), (h, a)| (held + h, all + a));
    let noun = noun(&along.name);
    if held == 0 {
        return Stretch::Nowhere;
    }
    if held == all {
        return Stretch::Whole(format!("any {noun}"));
    }
    // One in ten fails, at most.
    if 10 * (all - held) <= all {
        return Stretch::Whole(format!("nearly any {noun}"));
    }
    let whole = |at: &usize| counts[*at].0 == counts[*at].1;
    let runs: Vec<(usize, usize)> = runs(&order, whole);
    let last = order.len() - 1;
    let label = |place: usize| along.labels[order[place]].clone();
    match runs.as_slice() {
        [] => at_best(along, counts, &order, good),
        _ if !numbers => {
            let whole = order.iter().filter(|at| whole(at));
            let labels: Vec<String> = whole.map(|at| along.labels[*at].clone()).collect();
            Stretch::Whole(joined(&labels))
        }
        few if few.len() <= 2 => {
            let told: Vec<String> = few
                .iter()
                .map(|&(from, to)| match (from == 0, to == last) {
                    (true, _) if from == to => format!("{} only", label(from)),
                    (true, _) => format!("up to {}", label(to)),
                    (_, true) if from == to => format!("{} only", label(from)),
                    (_, true) => format!("{} or more", label(from)),
                    _ if from == to => label(from),
                    _ => format!("{} to {}", along.ticks[order[from]], label(to)),
                })
                .collect();
            Stretch::Whole(joined(&told))
        }
        _ => Stretch::Part(format!("{held} of {all} {}, here and there", plural(good))),
    }
}

/// The value at which most holds, where none holds throughout.
fn at_best(along: &FindingAxis, counts: &[(usize, usize)], order: &[usize], good: &str) -> Stretch {
    let share = |at: &usize| counts[*at].0 as f64 / counts[*at].1 as f64;
    let Some(best) = order.iter().rev().max_by(|a, b| share(a).total_cmp(&share(b))) else {
        return Stretch::Nowhere;
    };
    let (held, all) = counts[*best];
    let hold = plural(good);
    let ties: Vec<String> = order
        .iter()
        .filter(|at| same_share(counts[**at], counts[*best]))
        .map(|at| along.labels[*at].clone())
        .collect();
    let place = match ties.len() {
        1..=3 => joined(&ties),
        many => format!("{} and {} others alike", along.labels[*best], many - 1),
    };
    Stretch::Part(format!("at best {held} of {all} {hold}, at {place}"))
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

/// The word after `any`; a name of the scenario's own as it is.
fn noun(name: &str) -> String {
    let known = match name {
        "speed" | "lag" => "speed",
        "off_rail" => "distance off the rail",
        "contact" => "contact",
        "start" => "start",
        "roll" | "spin" => "roll",
        "running_side" => "side spin",
        "rule" => "rule",
        "equipment" => "table",
        own => return own.replace(['_', '.'], " "),
    };
    known.to_owned()
}

/// A heading of a few words: the rail is in the subtitle.
fn short(label: &str) -> String {
    let label = label.strip_suffix(" the rail").unwrap_or(label);
    label.strip_suffix(" to").unwrap_or(label).to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn speeds() -> FindingAxis {
        let ticks: Vec<String> = ["2", "2.5", "3", "3.5"].map(str::to_owned).to_vec();
        FindingAxis {
            name: "speed".to_owned(),
            amounts: vec![2.0, 2.5, 3.0, 3.5],
            labels: ticks.iter().map(|tick| format!("{tick} m/s")).collect(),
            ticks,
        }
    }

    fn group(label: &str, held: [usize; 4]) -> FindingGroup {
        FindingGroup { label: label.to_owned(), counts: held.map(|held| (held, 10)).to_vec() }
    }

    fn alone(held: [usize; 4]) -> String {
        finding(&speeds(), &[group("", held)], "Holds")
    }

    #[test]
    fn a_stretch_is_told_by_its_ends() {
        assert_eq!(alone([10, 10, 10, 10]), "Holds at any speed.");
        assert_eq!(alone([7, 10, 10, 10]), "Holds at nearly any speed.");
        assert_eq!(alone([0, 9, 10, 10]), "Holds at 3 m/s or more.");
        assert_eq!(alone([10, 10, 9, 0]), "Holds at up to 2.5 m/s.");
        assert_eq!(alone([0, 10, 10, 0]), "Holds at 2.5 to 3 m/s.");
        assert_eq!(alone([10, 0, 10, 10]), "Holds at 2 m/s only and 3 m/s or more.");
        assert_eq!(alone([0, 0, 8, 3]), "At best 8 of 10 hold, at 3 m/s.");
        assert_eq!(alone([0, 8, 8, 3]), "At best 8 of 10 hold, at 2.5 m/s and 3 m/s.");
        assert_eq!(alone([8, 8, 8, 8]), "At best 8 of 10 hold, at 2 m/s and 3 others alike.");
        assert_eq!(alone([0, 0, 0, 0]), "Holds nowhere.");
    }

    #[test]
    fn headings_are_short_and_equal_answers_are_told_once() {
        let groups = [
            group("frozen to the rail", [10, 9, 10, 10]),
            group("5 in off the rail", [0, 0, 10, 10]),
            group("10 in off the rail", [0, 0, 10, 10]),
        ];
        assert_eq!(
            finding(&speeds(), &groups, "Holds"),
            "Frozen: nearly any speed. 5 in off and 10 in off: 3 m/s or more."
        );
    }

    #[test]
    fn one_answer_under_every_heading_is_a_sentence_of_its_own() {
        let words = |held: [usize; 4], count: usize, name: &str| {
            let groups: Vec<FindingGroup> =
                (0..count).map(|at| group(&format!("contact {at}"), held)).collect();
            let axis = FindingAxis { name: name.to_owned(), ..speeds() };
            finding(&axis, &groups, "Holds")
        };
        assert_eq!(words([0, 0, 10, 10], 2, "speed"), "Holds at 3 m/s or more in both panels.");
        assert_eq!(
            words([10, 10, 10, 10], 3, "tip_side"),
            "Holds at any tip side in all 3 panels."
        );
        assert_eq!(words([10, 0, 0, 0], 2, "spin"), "Holds with 2 m/s only in both panels.");
        assert_eq!(words([10, 10, 0, 0], 7, "off_rail"), "Holds up to 2.5 m/s in all 7 panels.");
        assert_eq!(words([0, 0, 0, 0], 2, "speed"), "Holds nowhere in both panels.");
        assert_eq!(
            words([0, 0, 8, 3], 2, "speed"),
            "At best 8 of 10 hold, at 3 m/s in both panels."
        );
    }

    #[test]
    fn of_many_headings_the_best_and_the_worst_are_told() {
        let many: Vec<FindingGroup> = (0..6)
            .map(|at| group(&format!("contact {at}"), [0, 0, if at > 2 { 10 } else { at }, 10]))
            .collect();
        assert_eq!(
            finding(&speeds(), &many, "Holds"),
            "Best: contact 3 (a tie with 2 others): 3 m/s or more. Worst: contact 0: 3.5 m/s only."
        );
    }

    #[test]
    fn values_stand_in_their_order_and_words_are_listed() {
        let mut axis = speeds();
        axis.amounts.reverse();
        axis.labels.reverse();
        axis.ticks.reverse();
        let groups = [group("", [10, 10, 0, 0])];
        assert_eq!(finding(&axis, &groups, "Drops"), "Drops at 3 m/s or more.");
        let words = FindingAxis { name: "spin".to_owned(), amounts: Vec::new(), ..speeds() };
        assert_eq!(finding(&words, &groups, "Holds"), "Holds with 2 m/s and 2.5 m/s.");
        assert_eq!(finding(&speeds(), &[], "Holds"), "");
    }
}
