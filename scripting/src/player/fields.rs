//! The fields of a player: made from the list of a person's spreads.

use super::USUAL_PLAYER;
use super::shipped::shipped_player_text;
use crate::fields::{Field, FieldKind, Group, Without};
use railproof_engine::chance::SkillNumber;
use railproof_engine::units::parse_quantity;
use std::sync::LazyLock;

const NAME: Field = Field::new("name", FieldKind::Name, "what people call them");
const ABOUT: Field = Field::new("about", FieldKind::Text, "free text");

/// A player in a file of its own.
pub(crate) static PLAYER: LazyLock<Group> = LazyLock::new(|| {
    group("the player", const { &[NAME.or(Without::Needed), ABOUT] }, |_| Without::Needed)
});

/// A player in a scenario, who is like another in all that isn't said.
pub(crate) static INLINE_PLAYER: LazyLock<Group> = LazyLock::new(|| {
    let like = const {
        &[
            Field::new("like", FieldKind::Name, "a shipped player, or a file")
                .or(Without::Word(USUAL_PLAYER)),
            NAME,
        ]
    };
    group("the player", like, |_| Without::Says("as of the one they are like"))
});

fn group(
    title: &'static str,
    own: &'static [Field],
    without: impl Fn(SkillNumber) -> Without,
) -> Group {
    let numbers = SkillNumber::ALL.into_iter().map(|number| {
        let field = Field::number(number.parameter(), number.meaning());
        Field { common: usual(number), ..field }.or(without(number))
    });
    let parts: Vec<&'static [Field]> = vec![own, numbers.collect::<Vec<_>>().leak()];
    Group { title, parts: parts.leak(), example: None }
}

/// The number of the usual player, looked up as text: these fields are needed to read players.
fn usual(number: SkillNumber) -> Option<f64> {
    let key = format!("{}: ", number.name());
    let text =
        shipped_player_text(USUAL_PLAYER)?.lines().find_map(|line| line.strip_prefix(&key))?;
    let text = text.split('#').next()?.trim();
    parse_quantity(text, number.parameter().dimension).ok()
}
