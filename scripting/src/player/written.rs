//! A player as the text of a file.

use super::PlayerProfile;
use crate::profile::quoted;
use railproof_engine::chance::SkillNumber;
use railproof_engine::units::{Dimension, short_number};
use std::fmt::Write as _;

/// A player's file, which [`parse_player`](super::parse_player) reads back. Numbers are rounded to three figures or so.
pub fn player_text(player: &PlayerProfile, about: &str) -> String {
    let mut text = format!("name: {}\nabout: {}\n", quoted(&player.name), quoted(about));
    for number in SkillNumber::ALL {
        let si = player.skill.number(number);
        let value = match number.parameter().dimension {
            Dimension::Angle => format!("{} mrad", short_number(1e3 * si, 3)),
            _ => short_number(si, 5),
        };
        let _ = writeln!(text, "{}: {value}   # {}", number.name(), number.meaning());
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::player::{find_player, parse_player, shipped_player_names};
    use std::path::Path;

    #[test]
    fn a_written_player_is_read_back() {
        for name in shipped_player_names() {
            let mut player = find_player(name, Path::new("")).expect("it is shipped");
            player.name = "Ann \"Banker\"".to_owned();
            let read = parse_player(&player_text(&player, "Invented: two\nlines."), "ann.yaml");
            let read = read.expect("it is a player");
            assert_eq!(read.name, player.name);
            for number in SkillNumber::ALL {
                let (own, its) = (player.skill.number(number), read.skill.number(number));
                assert!((own - its).abs() < 1e-9, "{}: {own} and {its}", number.name());
            }
        }
    }
}
