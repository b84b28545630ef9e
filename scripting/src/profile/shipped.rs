//! The profiles that travel inside the binary.

macro_rules! profile {
    ($name:literal) => {
        ($name, include_str!(concat!("../../../scenarios/profiles/", $name, ".yaml")))
    };
}

/// Name and text. A partial profile in a folder of its own goes by `folder/name`.
const SHIPPED: &[(&str, &str)] = &[
    profile!("nine-foot"),
    profile!("eight-foot"),
    profile!("home-eight-foot"),
    profile!("seven-foot"),
    profile!("harbour-hall"),
    profile!("cushions/steep-fading"),
    profile!("cushions/even-bounce"),
    profile!("cushions/grippy-nose"),
    profile!("cushions/slick-nose"),
];

/// The names of the shipped profiles.
pub fn shipped_names() -> impl Iterator<Item = &'static str> + Clone {
    SHIPPED.iter().map(|&(name, _)| name)
}

/// The text of a shipped profile.
pub fn shipped_text(name: &str) -> Option<&'static str> {
    SHIPPED.iter().find(|(shipped, _)| *shipped == name).map(|&(_, text)| text)
}
