//! Rules that a search has found, in sentences.

use super::amounts::grouped;
use super::wording::count;
use crate::discovering::{AskedBalls, DiscoverQuestion, Discovered};
use railproof_engine::ask::PairedDifference;
use railproof_engine::chance::Chance;
use railproof_engine::discover::{EffortWeights, FrontRule, HeadRule};
use railproof_engine::units::short_number;
use std::fmt::Write as _;

/// All that was found: the rule to take first, then the front, rules in common use, and what other weights change.
pub fn discovered_sentences(question: &DiscoverQuestion, found: &Discovered) -> String {
    let Some(named) = found.front.rules.get(found.front.named) else {
        return "There were no rules to search.\n".to_owned();
    };
    let mut text = first_words(question, found, named);
    let _ = writeln!(text, "\n{}", ground_words(question, found));
    text += &front_table(found);
    text += &common_table(found);
    for other in &found.other_weights {
        let _ = writeln!(text, "\n{}", other_words(question.weights, other));
    }
    text
}

/// The rule to take, what it makes, and the simpler one that makes nearly as much.
fn first_words(question: &DiscoverQuestion, found: &Discovered, named: &FrontRule) -> String {
    let mut text = format!("Take this rule: {}.\n", named.rule.words());
    let _ = writeln!(
        text,
        "With it {} makes {} balls of a hundred; no such rule can make more than {}.",
        question.asked.player.name,
        chance_words(named.chance),
        hundredths(found.best_possible)
    );
    if found.front.named + 1 < found.front.rules.len() {
        text += "Rules below it in the list make about as many and take more effort.\n";
    }
    let mut before = found.front.rules.iter().take(found.front.named);
    if let Some(simpler) = before.find(|it| FrontRule::ties(it.behind_named)) {
        let _ = writeln!(
            text,
            "Simpler, and as good as far as the two can be told apart: {}. It makes {} fewer.",
            simpler.rule.words(),
            behind_words(simpler.behind_named)
        );
    }
    text
}

fn front_table(found: &Discovered) -> String {
    let mut text = String::from(
        "\nEffort (steps + numbers to remember), balls of a hundred, how many fewer than the rule above, rule:\n",
    );
    for (at, it) in found.front.rules.iter().enumerate() {
        let mark = if at == found.front.named { '>' } else { ' ' };
        let effort = format!("{}+{}", it.effort.operations, it.effort.numbers);
        let (chance, behind) = (chance_words(it.chance), behind_words(it.behind));
        let _ =
            writeln!(text, "{mark} {effort:>5}  {chance:>10}  {behind:>10}  {}", it.rule.words());
    }
    text
}

fn common_table(found: &Discovered) -> String {
    if found.common.is_empty() {
        return String::new();
    }
    let mut text = String::from(
        "\nRules in common use on the same balls, and how many fewer they make than the rule to take:\n",
    );
    for it in &found.common {
        let tie = if FrontRule::ties(it.behind) { " (a tie)" } else { "" };
        let (chance, behind) = (chance_words(it.chance), behind_words(it.behind));
        let _ = writeln!(text, "  {chance:>10}  {behind:>10}  {}{tie}", it.name);
    }
    text
}

/// What the search was made on.
fn ground_words(question: &DiscoverQuestion, found: &Discovered) -> String {
    let rules = format!("{} rules", grouped(found.rules));
    searched_words(&question.asked, &rules, found.searched, found.told)
}

/// What a search was made on, and that its chances come from elsewhere.
pub(super) fn searched_words(
    asked: &AskedBalls,
    tried: &str,
    searched: (usize, usize),
    told: (usize, usize),
) -> String {
    let half = |(balls, tables): (usize, usize)| {
        let balls = count(balls as u64, "ball", "balls");
        if tables > 1 { format!("{balls} on {tables} tables") } else { balls }
    };
    let others = half(told).replacen(" ball", " other ball", 1).replace(" tables", " other tables");
    let balls = &asked.balls;
    let off = match balls.hands {
        0 => "frozen to it".to_owned(),
        hands => format!("up to {} off it", count(u64::from(hands), "hand", "hands")),
    };
    let words: Vec<&str> = balls.words().iter().map(|word| word.name()).collect();
    let speeds = match words.as_slice() {
        [one] => (*one).to_owned(),
        [one, other] => format!("{one} or {other}"),
        _ => "at every speed word".to_owned(),
    };
    let sliding = if balls.rolling { "half of them rolling" } else { "all sliding" };
    let side = match balls.side {
        0.0 => String::new(),
        side => format!(
            ", a third with running and a third with reverse side of {}",
            short_number(side, 2)
        ),
    };
    format!(
        "{}, {} rail to the {} pocket, {} rail model. {tried} were tried on {}. The chances come from {others}, so \
         that luck on the first ones does not count. After ± stands twice the standard error. The balls lie \
         from {} to {} diamonds along the rail, {off}, {speeds}, {sliding}{side}. Only clean balls count: one that \
         touches a point of the mouth does not.",
        asked.table.name,
        balls.rail.name(),
        balls.pocket.name(),
        asked.model.name(),
        half(searched),
        short_number(balls.numbers.0, 2),
        short_number(balls.numbers.1, 2),
    )
}

fn other_words(usual: EffortWeights, other: &crate::discovering::OtherWeights) -> String {
    let dearer = if other.weights.operation > usual.operation {
        "If a step costs twice as much"
    } else {
        "If a number costs twice as much"
    };
    if other.enter.is_empty() && other.leave.is_empty() {
        return format!("{dearer}, the list stays.");
    }
    let list = |rules: &[HeadRule]| {
        let words: Vec<String> = rules.iter().map(HeadRule::words).collect();
        format!("\n  {}", words.join("\n  "))
    };
    let mut parts = Vec::new();
    if !other.enter.is_empty() {
        parts.push(format!("come in:{}", list(&other.enter)));
    }
    if !other.leave.is_empty() {
        parts.push(format!("go:{}", list(&other.leave)));
    }
    format!("{dearer}, these {}", parts.join("\nthese "))
}

/// In place of a chance that is as good as none.
const HARDLY_EVER: &str = "hardly ever";

/// What somebody makes of it: `makes it about 28 in 100`.
pub(super) fn makes_words(chance: Chance) -> String {
    match about_words(chance) {
        told if told == HARDLY_EVER => format!("{told} makes it"),
        told => format!("makes it {told}"),
    }
}

/// A chance as it is told in passing: `about 28 in 100`.
pub(super) fn about_words(chance: Chance) -> String {
    rounded(chance, "about ")
}

/// The same where there is no room for a word more: `31 in 100`.
pub fn times_words(chance: Chance) -> String {
    rounded(chance, "")
}

fn rounded(chance: Chance, before: &str) -> String {
    match (100.0 * chance.chance).round() {
        0.0 => HARDLY_EVER.to_owned(),
        100.0 => "nearly always".to_owned(),
        whole => format!("{before}{whole} in 100"),
    }
}

/// A chance in hundredths, with twice its error.
pub fn chance_words(chance: Chance) -> String {
    format!("{} ±{}", hundredths(chance.chance), error_words(chance.error))
}

/// A difference likewise; ties are said to be ties.
pub fn behind_words(behind: PairedDifference) -> String {
    let sign = if behind.difference < 0.0 { "-" } else { "" };
    let size = hundredths(behind.difference.abs());
    format!("{sign}{size} ±{}", error_words(behind.error))
}

/// Twice an error in hundredths, never rounded down to nothing.
fn error_words(error: f64) -> String {
    let tenths = (2000.0 * error).ceil();
    format!("{:.1}", tenths / 10.0)
}

fn hundredths(share: f64) -> String {
    format!("{:.1}", 100.0 * share)
}
