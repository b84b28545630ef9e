//! The balls, the tables and the player of a search, from its options.

use super::player::{PlayerObject, player_at};
use super::tables::OneOrManyTables;
use crate::discovering::{AskedBalls, FEWEST_BALLS, MOST_BALLS, MOST_HANDS, MOST_SIDE};
use crate::fault::Fault;
use crate::lua::options::{Options, boolean, list, number, ranged, whole_number, word};
use crate::player::{USUAL_PLAYER, find_player};
use crate::scenario::session::Session;
use mlua::Lua;
use railproof_engine::discover::BallSpread;
use railproof_engine::rail::{BankGeometry, PocketChoice, RailChoice};
use railproof_engine::units::SpeedWord;

pub const ASKED_KEYS: &[&str] = &[
    "on", "player", "rail", "pocket", "from", "to", "hands", "rolling", "speeds", "side", "balls",
];

/// What the options ask for.
pub fn asked_balls(lua: &Lua, options: &Options) -> mlua::Result<AskedBalls> {
    let session = Session::of(lua)?;
    let asked = options.required("on", OneOrManyTables)?;
    let player = match player_at(lua, options, "player")? {
        Some(PlayerObject(player)) => (*player).clone(),
        None => find_player(USUAL_PLAYER, session.folder())?,
    };
    let usual = BallSpread::USUAL;
    let table = asked.table();
    let pocket = options.optional("pocket", word::<PocketChoice>())?;
    let rail = options.optional("rail", word::<RailChoice>())?;
    let pocket = pocket.unwrap_or(PocketChoice::Corner);
    let rail = rail.unwrap_or(RailChoice::Long).facing(pocket);
    let pocket = pocket.across_from(rail);
    let geometry = BankGeometry::new(&table, rail, pocket).map_err(|error| {
        let key = if options.has("pocket") { "pocket" } else { "rail" };
        options.complain(key, format!("this makes no bank: {error}"))
    })?;
    let place = || ranged(number(), 0.1..=7.9, "");
    let numbers = (
        options.optional("from", place())?.unwrap_or(usual.numbers.0),
        options.optional("to", place())?.unwrap_or(usual.numbers.1),
    );
    if numbers.0 >= numbers.1 {
        return Err(options.complain("to", "`to` must be more than `from`").into());
    }
    let (_, end) = geometry.contacts();
    if numbers.1 >= end {
        let key = if options.has("to") { "to" } else { "rail" };
        return Err(options
            .complain(key, format!("the balls must lie on the rail, which ends at {end:.2}"))
            .with_hint("give a smaller `to`")
            .into());
    }
    let counted = |key: &'static str, (least, most): (u64, u64)| -> Result<Option<u64>, Fault> {
        let count = options.optional(key, whole_number())?;
        match count.filter(|count| !(least..=most).contains(count)) {
            Some(count) => {
                let message = format!("`{key}` must be from {least} to {most}, not {count}");
                Err(options.complain(key, message))
            }
            None => Ok(count),
        }
    };
    let hands =
        counted("hands", (0, MOST_HANDS.into()))?.and_then(|count| u8::try_from(count).ok());
    let balls = counted("balls", (FEWEST_BALLS as u64, MOST_BALLS as u64))?;
    let balls = balls.and_then(|count| usize::try_from(count).ok());
    let rolling = options.optional("rolling", boolean())?.unwrap_or(false);
    let speeds = options.optional("speeds", list(word::<SpeedWord>()))?.unwrap_or_default();
    if let Some(twice) = speeds.iter().enumerate().find(|(at, it)| speeds[..*at].contains(it)) {
        return Err(options
            .complain("speeds", format!("{} stands here twice", twice.1.name()))
            .into());
    }
    let side = options.optional("side", ranged(number(), 0.0..=MOST_SIDE, ""))?.unwrap_or(0.0);
    Ok(AskedBalls {
        table,
        known: asked.known().map(|known| (**known).clone()),
        model: asked.model(),
        player,
        balls: BallSpread {
            rail,
            pocket,
            numbers,
            hands: hands.unwrap_or(usual.hands),
            rolling,
            words: SpeedWord::ALL.map(|word| speeds.contains(&word)),
            side,
        },
        count: balls.unwrap_or(BallSpread::COUNT),
    })
}
