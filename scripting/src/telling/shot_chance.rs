//! How often a player makes a shot, in a sentence.

use super::chance_words::about_words;
use super::wording::capital;
use crate::player::PlayerProfile;
use crate::playing::ShotChance;
use railproof_engine::verdict::{Miss, PocketVerdict};

/// Rarer ends are not told.
const WORTH_TELLING: f64 = 0.03;

/// The chance, and what happens else, the commonest first.
pub fn shot_chance_sentence(player: &PlayerProfile, found: &ShotChance) -> String {
    let mut others: Vec<(f64, &str)> = PocketVerdict::ALL
        .into_iter()
        .zip(&found.shares)
        .filter(|(kind, share)| !kind.is_made() && **share >= WORTH_TELLING)
        .map(|(kind, share)| (*share, words(kind)))
        .collect();
    others.sort_by(|a, b| b.0.total_cmp(&a.0));
    let others: Vec<String> =
        others.into_iter().map(|(share, words)| format!("{:.0} {words}", 100.0 * share)).collect();
    let others = if others.is_empty() {
        String::new()
    } else {
        format!("; of the others {}", others.join(", "))
    };
    format!(
        "{} who tries this stroke makes it {}, off a point or not{others}. The line is known, and nothing is read off a rail.\n",
        capital(&player.name),
        about_words(found.made)
    )
}

const fn words(kind: PocketVerdict) -> &'static str {
    match kind {
        PocketVerdict::Clean | PocketVerdict::OffJaw => "drop",
        PocketVerdict::RattledOut => "rattle out",
        PocketVerdict::Missed(Miss::Long) => "go long",
        PocketVerdict::Missed(Miss::Short) => "fall short",
        PocketVerdict::Missed(Miss::Left) => "pass on the left",
        PocketVerdict::Missed(Miss::Right) => "pass on the right",
        PocketVerdict::OtherPocket(_) => "drop elsewhere",
        PocketVerdict::NotReached => "never come there",
        PocketVerdict::Scratched => "scratch",
        PocketVerdict::GivenUp => "never end",
    }
}
