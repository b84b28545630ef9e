//! Rules that a search has found, in sentences.

use super::amounts::grouped;
use super::chance_words::{behind_words, chance_words, hundredths};
use super::wording::count;
use crate::discovering::{AskedBalls, DiscoverQuestion, Discovered};
use railproof_engine::ask::PairedDifference;
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

/// The rule to take, what it makes, and why it is that one.
fn first_words(question: &DiscoverQuestion, found: &Discovered, named: &FrontRule) -> String {
    let mut text = format!("Take this rule: {}.\n", named.rule.words());
    let _ = writeln!(
        text,
        "With it {} makes {} balls of a hundred; of these very balls no such rule can make more than {}.",
        question.asked.player.name,
        chance_words(named.chance),
        hundredths(found.best_possible)
    );
    let behind = named.behind;
    let last = found.front.named + 1 == found.front.rules.len();
    let why = if last {
        "No simpler rule of the list makes as many.".to_owned()
    } else if behind.difference <= PairedDifference::NO_MATTER {
        "It is the simplest that makes as many as the last of the list, within one ball of a hundred.".to_owned()
    } else {
        format!(
            "It is the simplest that can't be told from the last of the list, which makes {} more.",
            behind_words(behind)
        )
    };
    let _ = writeln!(text, "{why}");
    text
}

fn front_table(found: &Discovered) -> String {
    let mut text = String::from(
        "\nEffort (steps + numbers to remember), balls of a hundred, how many fewer than the last of the list, rule:\n",
    );
    let last = found.front.rules.len().saturating_sub(1);
    for (at, it) in found.front.rules.iter().enumerate() {
        let mark = if at == found.front.named { '>' } else { ' ' };
        let effort = format!("{}+{}", it.effort.operations, it.effort.numbers);
        let chance = chance_words(it.chance);
        let behind = if at == last { String::new() } else { behind_words(it.behind) };
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
        let PairedDifference { difference, error } = it.behind;
        let tie = match it.behind.is_tie() {
            // Nothing lies between a rule and itself.
            true if difference == 0.0 && error == 0.0 => " (the rule to take)",
            true => " (a tie)",
            false => "",
        };
        let (chance, behind) = (chance_words(it.chance), behind_words(it.behind));
        let _ = writeln!(text, "  {chance:>10}  {behind:>10}  {}{tie}", it.name);
    }
    text
}

/// What the search was made on.
fn ground_words(question: &DiscoverQuestion, found: &Discovered) -> String {
    let rules = format!("{} rules", grouped(found.rules));
    searched_words(&question.asked, &rules, found.searched, found.told, NO_SIDE)
}

/// Balls of one half that are enough to search on.
const ENOUGH_BALLS: usize = 120;
const FEW_BALLS: &str =
    " These are few balls: a rule that suits them by luck may be named. Take 256 or more.";
/// What is said of side where it is not corrected for.
const NO_SIDE: &str =
    " None of these rules has a correction for side; `correct` searches that for one rule.";

/// What a search was made on, and that its chances come from elsewhere; `side_note` stands where balls have side.
pub(super) fn searched_words(
    asked: &AskedBalls,
    tried: &str,
    searched: (usize, usize),
    told: (usize, usize),
    side_note: &str,
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
    let few = if told.0 < ENOUGH_BALLS { FEW_BALLS } else { "" };
    let sides = if balls.side > 0.0 { side_note } else { "" };
    format!(
        "{}, {} rail to the {} pocket, {} rail model. {tried} were tried on {}. The chances come from {others}, so \
         that luck on the first ones does not count. After ± stands twice the standard error. The balls lie \
         from {} to {} diamonds along the rail, {off}, {speeds}, {sliding}{side}. Only clean balls count: one that \
         touches a point of the mouth does not.{sides}{few}",
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
