//! A player by their own repeated banks, in sentences.

use super::wording::{capital, count};
use crate::fitting::OwnPlayer;
use railproof_engine::chance::SkillNumber;
use railproof_engine::repeated::NotTold;
use railproof_engine::units::{Dimension, short_number};
use std::fmt::Write as _;

/// The spreads that are told, those that are not, and what was left out.
pub fn own_player_sentences(found: &OwnPlayer) -> String {
    let like = &found.like;
    let mut text = format!(
        "{}, by {} along {}.\n\n",
        capital(&found.player.name),
        count(u64::from(found.own.shots), "shot", "shots"),
        count(found.own.lines as u64, "line", "lines")
    );
    let _ = writeln!(text, "Spread, nine times in ten from, to; {}:", like.name);
    for it in &found.own.numbers {
        let told = if it.is_told() { "" } else { "   (hardly told: rather the other player's)" };
        let of = |value| spread_text(it.number, value);
        let _ = writeln!(
            text,
            "  {:<6} {:>10}   {:>9} {:>10}   {:>9}{told}",
            it.number.name(),
            of(it.after.middle),
            of(it.after.ninety.0),
            of(it.after.ninety.1),
            of(like.skill.number(it.number)),
        );
    }
    let _ = write!(
        text,
        "\nOf the cut, of reading and of reckoning these banks say nothing: they are those of {}. What you always do, \
         aim or side, is no spread; `fit` finds it.",
        like.name
    );
    for (why, shots) in &found.own.left_out {
        let why = match why {
            NotTold::ByCueBall => "the cue ball sent them, whose errors are others",
            NotTold::NearRest => "the ball may rest before it comes to a rail there",
        };
        let _ =
            write!(text, " Left out: {}, since {why}.", count(u64::from(*shots), "shot", "shots"));
    }
    text.push('\n');
    text
}

/// A spread with its unit.
fn spread_text(number: SkillNumber, si: f64) -> String {
    match number.parameter().dimension {
        Dimension::Angle => format!("{} mrad", short_number(1e3 * si, 1)),
        _ => short_number(si, 3),
    }
}

/// What a file says of such a player.
pub fn own_player_about(found: &OwnPlayer) -> String {
    format!(
        "Aim, speed and side by {} along {}; all else as of {}.",
        count(u64::from(found.own.shots), "shot", "shots"),
        count(found.own.lines as u64, "line", "lines"),
        found.like.name
    )
}
