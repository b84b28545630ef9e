//! The players that travel inside the binary.

macro_rules! player {
    ($name:literal) => {
        ($name, include_str!(concat!("../../../scenarios/profiles/players/", $name, ".yaml")))
    };
}

/// Name and text, the surest hand first.
const SHIPPED: &[(&str, &str)] = &[player!("steady"), player!("club"), player!("beginner")];

/// The names of the shipped players.
pub fn shipped_player_names() -> impl Iterator<Item = &'static str> + Clone {
    SHIPPED.iter().map(|&(name, _)| name)
}

/// The text of a shipped player.
pub fn shipped_player_text(name: &str) -> Option<&'static str> {
    SHIPPED.iter().find(|(shipped, _)| *shipped == name).map(|&(_, text)| text)
}
