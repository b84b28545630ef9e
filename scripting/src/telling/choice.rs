//! Bank or cut, in words.

use super::chance_words::{behind_words, chance_words};
use super::detail::Detail;
use super::wording::{capital, count};
use crate::playing::ChoiceFindings;
use railproof_engine::aim::NoAim;
use railproof_engine::ask::PairedDifference;
use railproof_engine::choice::{BallWay, Better, FoundChoice, InTheWay, NoLine};
use railproof_engine::units::short_number;
use railproof_engine::verdict::PocketVerdict;
use std::fmt::Write as _;

/// Kisses and scratches that are rarer are not told.
const WORTH_TELLING: f64 = 0.03;

/// A way in words, such as `the bank off the left rail into the foot-right pocket`.
pub fn ball_way_words(way: BallWay) -> String {
    match way {
        BallWay::Cut(pocket) => format!("the cut into the {} pocket", pocket.name()),
        BallWay::Bank(rail, pocket) => {
            format!("the bank off the {} rail into the {} pocket", rail.name(), pocket.name())
        }
        BallWay::TwoRails(first, second, pocket) => format!(
            "the bank off the {} rail and the {} rail into the {} pocket",
            first.name(),
            second.name(),
            pocket.name()
        ),
    }
}

/// The answer: which is better and by how much, or that it can't be told, and what else happens to the bank.
pub fn bank_or_cut_sentence(found: &ChoiceFindings) -> String {
    let of = |it: &FoundChoice| {
        it.tally.as_ref().map_or_else(String::new, |tally| chance_words(tally.chance()))
    };
    let way = |it: &FoundChoice| ball_way_words(it.way);
    let player = &found.player;
    let mut text = match (found.choice.better(), found.bank(), found.cut()) {
        (Better::CantBeTold, Some(bank), Some(cut)) => format!(
            "Either: {player} makes {} {} times in a hundred and {} {} times, and the two can't be told apart.",
            way(cut),
            of(cut),
            way(bank),
            of(bank)
        ),
        (Better::Bank, Some(bank), Some(cut)) => format!(
            "Bank it: {player} makes {} {} times in a hundred, {} {} times.",
            way(bank),
            of(bank),
            way(cut),
            of(cut)
        ),
        (Better::Cut, Some(bank), Some(cut)) => format!(
            "Cut it: {player} makes {} {} times in a hundred, {} {} times.",
            way(cut),
            of(cut),
            way(bank),
            of(bank)
        ),
        (Better::Bank, Some(bank), _) => format!(
            "Bank it: {player} makes {} {} times in a hundred, and no cut.{}",
            way(bank),
            of(bank),
            nearest(found, false)
        ),
        (Better::Cut, _, Some(cut)) => format!(
            "Cut it: {player} makes {} {} times in a hundred, and no bank.{}",
            way(cut),
            of(cut),
            nearest(found, true)
        ),
        _ => neither(found),
    };
    for (which, one) in [("bank", found.bank()), ("cut", found.cut())] {
        let Some(tally) = one.and_then(|one| one.tally.as_ref()) else { continue };
        let kissed = (tally.kissed, "the balls kiss");
        let scratched = (tally.scratched(), "the cue ball drops");
        let told: Vec<String> = [kissed, scratched]
            .into_iter()
            .filter(|(share, _)| *share >= WORTH_TELLING)
            .map(|(share, what)| format!("{what} {:.0} times in a hundred", 100.0 * share))
            .collect();
        if !told.is_empty() {
            let _ = write!(text, " On the {which} {}.", told.join(" and "));
        }
    }
    text
}

/// Where nothing can be counted on: what is still made, by luck most likely.
fn neither(found: &ChoiceFindings) -> String {
    let player = &found.player;
    let made = |it: &&FoundChoice| it.tally.as_ref().is_some_and(|it| it.chance().chance > 0.0);
    let share = |it: &FoundChoice| it.tally.as_ref().map_or(0.0, |it| it.chance().chance);
    let ways = [found.cut(), found.bank()].into_iter().flatten().filter(made);
    match ways.max_by(|a, b| share(a).total_cmp(&share(b))) {
        Some(best) => format!(
            "Neither can be counted on: {player} makes {} {} times in a hundred at best.",
            ball_way_words(best.way),
            best.tally.as_ref().map_or_else(String::new, |tally| chance_words(tally.chance()))
        ),
        None => format!("Neither: {player} makes no cut and no bank with this stroke."),
    }
}

/// Why the likeliest of a kind that is never made isn't: the one whose line something stands in.
fn nearest(found: &ChoiceFindings, bank: bool) -> String {
    let mut of_kind = found.choice.found.iter().filter(|it| it.way.is_bank() == bank);
    let Some(one) = of_kind.find(|it| it.in_the_way.is_some()) else { return String::new() };
    match one.in_the_way.map(|thing| obstruction(thing, found)) {
        Some(why) => format!(" {}: {why}.", capital(&ball_way_words(one.way))),
        None => String::new(),
    }
}

/// The sentence, what it rests on, and the ways that are made at times; in full every way, and the two best against
/// each other.
pub fn bank_or_cut_sentences(found: &ChoiceFindings, detail: Detail) -> String {
    let mut text = bank_or_cut_sentence(found);
    let judged = found.rule.as_ref().map_or_else(
        || "known, and its mark read by eye".to_owned(),
        |rule| format!("read by eye and worked out by the rule {rule}"),
    );
    let _ = write!(
        text,
        "\nStruck at {} m/s. The line of a cut is seen; that of a bank is {judged}. A ball that goes in off a point counts. A ± is twice the standard error. The `bank` command with a player is stricter: only clean balls count there, and unwanted side is the object ball's own, not the cue ball's.\n",
        short_number(found.speed_m_s, 2)
    );
    if detail.is_full() {
        text.push_str("The player allows for throw and squirt by habit.\n");
        if let Some(apart) = found.choice.apart {
            let (more, less) =
                if apart.difference < 0.0 { ("cut", "bank") } else { ("bank", "cut") };
            let _ = writeln!(
                text,
                "Against each other, each by strokes of its own: the {more} {} more than the {less}.",
                behind_words(PairedDifference { difference: apart.difference.abs(), ..apart })
            );
        }
    }
    text.push_str("\nMade of a hundred, way:\n");
    let mut played: Vec<&FoundChoice> =
        found.choice.found.iter().filter(|it| it.tally.is_some()).collect();
    let chance = |it: &FoundChoice| it.tally.as_ref().map_or(0.0, |it| it.chance().chance);
    played.sort_by(|a, b| chance(b).total_cmp(&chance(a)));
    let best = [found.bank(), found.cut()].map(|it| it.map(|it| it.way));
    let told =
        |it: &FoundChoice| detail.is_full() || chance(it) > 0.0 || best.contains(&Some(it.way));
    let mut left = found.choice.found.len();
    for one in played.into_iter().filter(|it| told(it)) {
        text.push_str(&played_way(one, found));
        left -= 1;
    }
    if detail.is_full() {
        for (why, ways) in ruled_out(found) {
            let _ = writeln!(text, "Ruled out, since {why}: {}.", ways.join("; "));
        }
    } else if left > 0 {
        let ways = count(left as u64, "way is", "ways are");
        let _ = writeln!(text, "{ways} never made; --full says why.");
    }
    text
}

/// A way that was played, in a line.
fn played_way(one: &FoundChoice, found: &ChoiceFindings) -> String {
    let Some(tally) = &one.tally else { return String::new() };
    let mut more = Vec::new();
    if let Some(start) = one.line.as_ref().ok().and_then(|line| line.start) {
        more.push(format!("start {}", short_number(start.start, 2)));
    }
    for (share, what) in [(tally.kissed, "kisses"), (tally.scratched(), "scratches")] {
        if share >= WORTH_TELLING {
            more.push(format!("{what} {:.0}", 100.0 * share));
        }
    }
    if let Some(why) = unmade(one, found) {
        more.push(why);
    }
    let more = if more.is_empty() { String::new() } else { format!("  ({})", more.join("; ")) };
    let made = tally.chance();
    let made =
        if made.chance > 0.0 { chance_words(made) } else { format!("0 of {}", tally.strokes) };
    format!("  {made:>10}  {}{more}\n", short_way(one.way))
}

/// A way in a list.
fn short_way(way: BallWay) -> String {
    match way {
        BallWay::Cut(pocket) => format!("cut into {}", pocket.name()),
        BallWay::Bank(rail, pocket) => {
            format!("bank off the {} rail into {}", rail.name(), pocket.name())
        }
        BallWay::TwoRails(first, second, pocket) => {
            let (first, second) = (first.name(), second.name());
            format!("bank off the {first} rail and the {second} rail into {}", pocket.name())
        }
    }
}

/// The ways without a line or an aim, by reason, in the order of the question.
fn ruled_out(found: &ChoiceFindings) -> Vec<(String, Vec<String>)> {
    let mut groups: Vec<(String, Vec<String>)> = Vec::new();
    for one in &found.choice.found {
        let why = match &one.line {
            // The outcomes of so many lines are for whoever asks for one of them.
            Err(NoLine::NotThere { .. }) => {
                Some("no line there leads through the mouth".to_owned())
            }
            _ => no_line(one),
        };
        let Some(why) = why else { continue };
        let way = short_way(one.way);
        match groups.iter_mut().find(|(known, _)| *known == why) {
            Some((_, ways)) => ways.push(way),
            None => groups.push((why, vec![way])),
        }
    }
    groups
}

/// Why there is no line, or no aim for it.
fn no_line(one: &FoundChoice) -> Option<String> {
    Some(match one.line.as_ref().err()? {
        NoLine::Aim(NoAim::BehindTheBall { .. }) => "the cut would pass 90°".to_owned(),
        NoLine::Aim(NoAim::OutOfReach { .. }) => "no aim cuts so thin".to_owned(),
        NoLine::Aim(NoAim::TooSoft { .. }) => "the cue ball stops before the ball".to_owned(),
        NoLine::NotThere { why } => {
            format!("no line there leads through the mouth: {}", super::phrase(why))
        }
        other => other.to_string(),
    })
}

/// Why a way has no line, or why its stroke as it is meant isn't made; `None` where it is.
pub fn why_not(one: &FoundChoice, found: &ChoiceFindings) -> Option<String> {
    no_line(one).or_else(|| unmade(one, found))
}

/// Why the stroke as it is meant isn't made; `None` where it is.
fn unmade(one: &FoundChoice, found: &ChoiceFindings) -> Option<String> {
    let meant = one.meant.filter(|meant| !meant.is_made())?;
    Some(match one.in_the_way {
        Some(thing) => obstruction(thing, found),
        None if meant.pocket == PocketVerdict::Scratched => {
            "as it is meant, the cue ball drops".to_owned()
        }
        None => format!("as it is meant: {}", super::phrase(meant.pocket.name())),
    })
}

fn obstruction(thing: InTheWay, found: &ChoiceFindings) -> String {
    let name = |at: usize| found.names.get(at).map_or("another ball", String::as_str);
    match thing {
        InTheWay::CueMeetsBall(at) => format!("the cue ball meets {} first", name(at)),
        InTheWay::CueMeetsOther => "the cue ball meets something else first".to_owned(),
        InTheWay::ObjectMeetsBall(at) => format!("the ball meets {} on its way", name(at)),
        InTheWay::ObjectMeetsObstacle => "the ball meets an obstacle on its way".to_owned(),
        InTheWay::Kiss => "the balls kiss".to_owned(),
    }
}
