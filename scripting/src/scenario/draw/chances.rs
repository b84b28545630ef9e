//! `chances:draw { x, y, panels }` and `chances:draw_lines { x, series }`: how often a player makes each bank.

use super::PictureAxes;
use super::lines::{LinesLayout, band_between, fits};
use super::look::{headline, picture_look};
use super::map::{MapLayout, MapWords, map_picture};
use super::tables;
use crate::lua::options::Options;
use crate::picture::{CellKind, LinesPicture, MapCell, NumericAxis, PictureLook, hundredths};
use crate::record::Picture;
use crate::scenario::chance::chances::Chances;
use crate::scenario::session::Session;
use crate::telling::{SelectedBanks, capital, count as telling_count};
use mlua::{Lua, Value};
use railproof_engine::chance::Chance;

/// The question of both pictures.
const ASKED: &str = "How often is it made, clean off both points of the mouth?";

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw(lua: &Lua, this: &Chances, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "y", "panels", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw", &argument, KEYS)?;
    let axes = axes(this);
    let layout = MapLayout::read(&options, &axes)?;
    let telling = this.picked.telling();
    let words = MapWords {
        asked: ASKED.to_owned(),
        found: Some(best(this)),
        subtitles: subtitles(this),
        rule: telling.rule().to_owned(),
        model: telling.model(),
        notes: notes(this),
    };
    let cell = |row: usize| {
        let chance = this.of_row(row)?.chance;
        Some(MapCell {
            kind: CellKind::of_chance(chance),
            miss_mm: None,
            chance: Some(chance),
            flagged: false,
        })
    };
    let picture = map_picture(&options, &axes, &layout, words, &cell)?;
    Session::of(lua)?.add_drawing(&options, "chances", Picture::Map(picture))?;
    Ok(())
}

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub fn draw_lines(lua: &Lua, this: &Chances, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["x", "series", "title", "subtitle", "legend", "size", "name"];
    let options = Options::open(lua, "draw_lines", &argument, KEYS)?;
    let axes = axes(this);
    let layout = LinesLayout::read(&options, &axes)?;
    let of = |number: fn(f64, f64) -> f64| {
        layout.lines(&axes, |row| {
            this.of_row(row).map(|it| 100.0 * number(it.chance, it.error).clamp(0.0, 1.0))
        })
    };
    let drawn = of(|chance, _| chance);
    fits(&options, &drawn)?;
    let low = of(|chance, error| chance - 2.0 * error);
    let high = of(|chance, error| chance + 2.0 * error);
    let bands = low.iter().zip(&high).enumerate();
    let bands = bands
        .map(|(line, (low, high))| band_between(low, high, Some(line), "twice the error"))
        .collect();
    let (title, subtitles) = headline(&options, &best(this), ASKED.to_owned(), subtitles(this))?;
    let picture = LinesPicture {
        title,
        subtitles,
        x: layout.along(&axes),
        y: NumericAxis {
            title: "balls made".to_owned(),
            unit: "of a hundred".to_owned(),
            ..NumericAxis::default()
        },
        series: drawn,
        bands,
        notes: notes(this),
        look: picture_look(&options, PictureLook::default())?,
    };
    Session::of(lua)?.add_drawing(&options, "chance-lines", Picture::Lines(picture))?;
    Ok(())
}

/// The greatest and the least chance, and where they are.
fn best(this: &Chances) -> String {
    let of = |better: fn(f64, f64) -> bool| {
        this.kept().reduce(|a, b| if better(b.1.chance, a.1.chance) { b } else { a })
    };
    let said = |(row, chance): (usize, Chance)| {
        format!("{} of a hundred: {}", hundredths(chance.chance), this.picked.say_row(row))
    };
    let (most, least) = (of(|a, b| a > b), of(|a, b| a < b));
    let by = match this.picked.kept_rules.as_slice() {
        [only] => this.picked.rules.get(*only).map(|rule| format!("By {}: ", rule.name)),
        _ => None,
    };
    let (by, at_best) = by.map_or_else(|| (String::new(), "At best"), |by| (by, "at best"));
    match (most, least) {
        (Some(most), Some(least)) if most.0 != least.0 => {
            format!("{by}{at_best} {}; at worst {}", said(most), said(least))
        }
        (Some(only), _) => format!("{by}{}", said(only)),
        _ => String::new(),
    }
}

/// The axes, the contact told as the ball's own number: rules turn the line about it.
fn axes(this: &Chances) -> PictureAxes<'_> {
    let mut axes = PictureAxes::of(&this.picked);
    for axis in axes.axes.iter_mut().filter(|axis| axis.name == "contact") {
        "the ball's number along the rail".clone_into(&mut axis.title);
    }
    axes
}

fn subtitles(this: &Chances) -> Vec<String> {
    // A rule's line through a ball off the rail is not the one of its number.
    let mut subtitles = SelectedBanks { rules: Vec::new(), ..this.picked.telling() }.subtitles();
    subtitles.insert(0, capital(&this.player.name));
    subtitles
}

fn notes(this: &Chances) -> Vec<String> {
    let mut notes = this.picked.telling().notes();
    notes.extend(this.known.as_deref().map(tables));
    notes.push("A ball that touches a point of the mouth is not counted.".to_owned());
    if let Some((count, first)) = this.never() {
        let balls = telling_count(count as u64, "ball goes", "balls go");
        notes.push(format!(
            "{balls} in clean from no start number, sent as meant. {}.",
            capital(&first)
        ));
    }
    notes
}
