//! A map over places of the object ball: where to bank it, and where to cut it.

use super::choice::{ASKED_KEYS, asked, rule_answered};
use super::layout::LayoutObject;
use crate::lua::options::{Options, number, object, ranged};
use crate::picture::{CellKind, MapCell, MapPicture, MissUnit, Panel, PictureAxis, PictureLook};
use crate::playing::{ChoiceAsked, ChoiceFindings};
use crate::record::Picture;
use crate::scenario::draw::look::{headline, picture_look};
use crate::scenario::inputs::Keys;
use crate::scenario::left_out::add_picture;
use crate::scenario::members;
use crate::scenario::rule_object::RuleObject;
use crate::scenario::session::Session;
use crate::telling::{ball_way_words, capital};
use mlua::{Lua, MetaMethod, UserData, UserDataFields, UserDataMethods, Value};
use railproof_engine::choice::{Better, ChoiceDraw};
use railproof_engine::units::short_number;
use railproof_engine::vector::Vec2;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::rc::Rc;

static KEYS: Keys = Keys::new(|| [ASKED_KEYS, &["step"]].concat());
/// Between two places, diamonds, unless said.
const STEP: f64 = 0.5;
const MEMBERS: &[&str] = &["sentence", "places", "bank", "cut", "cant_be_told", "neither", "draw"];

/// The answers over places.
#[derive(Debug)]
struct ChoiceMap {
    /// Diamonds from the head rail, and from the right rail.
    along: Vec<f64>,
    across: Vec<f64>,
    /// Row after row across; `None` where the ball has no room.
    cells: Vec<Option<Cell>>,
    conditions: Vec<String>,
    notes: Vec<String>,
}

/// The answer at one place.
#[derive(Debug, Clone)]
struct Cell {
    better: Better,
    /// The chance of the best way.
    chance: f64,
    /// That way in words.
    way: String,
}

/// A map in a script's hands.
#[derive(Debug, Clone)]
pub(super) struct ChoiceMapObject(Rc<ChoiceMap>);

/// `layout:bank_or_cut_map { … }`: asks at every place of a grid over the table.
#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn bank_or_cut_map(
    lua: &Lua,
    this: &LayoutObject,
    argument: Value,
) -> mlua::Result<ChoiceMapObject> {
    let options = Options::open(lua, "bank_or_cut_map", &argument, &KEYS)?;
    let asked = asked(lua, &options, this)?;
    let step = options.optional("step", ranged(number(), 0.2..=1.0, ""))?.unwrap_or(STEP);
    let equipment = asked.setup.world.equipment();
    let table = &equipment.table;
    let (long, end) = (table.long_rail_diamond_m(), table.end_rail_diamond_m());
    let along = places(table.length_m / long, step);
    let across = places(table.width_m / end, step);
    let at = |place: usize| {
        let (column, row) = (place % along.len(), place / along.len());
        Vec2::new(
            along[column] * long - 0.5 * table.length_m,
            across[row] * end - 0.5 * table.width_m,
        )
    };
    let count = along.len() * across.len();
    let found: Vec<Option<ChoiceFindings>> = Session::of(lua)?.work(lua, count, |tick| {
        (0..count)
            .into_par_iter()
            .map(|place| {
                let found = answer_at(&asked, at(place));
                tick();
                found
            })
            .collect()
    })?;
    let rule = options.optional("rule", object::<RuleObject>("a rule"))?;
    found.iter().flatten().try_for_each(|found| rule_answered(rule.as_ref(), found))?;
    let cells = found.iter().map(|found| found.as_ref().map(Cell::of)).collect();
    let cue = asked.setup.cue.state.position;
    let diamonds = |place: f64| short_number(place, 1);
    let judged = asked.rule.as_ref().map_or_else(
        || "banks along known lines, their marks read by eye".to_owned(),
        |rule| format!("banks by the rule {}", rule.name),
    );
    let conditions = vec![
        format!(
            "{}; {}; {} m/s at the cue ball, {} diamonds from the head rail and {} from the right rail",
            capital(&asked.player.name),
            equipment.name,
            short_number(asked.stroke.speed_m_s, 2),
            diamonds((cue.x + 0.5 * table.length_m) / long),
            diamonds((cue.y + 0.5 * table.width_m) / end),
        ),
        format!("Cuts along the line that is seen, {judged}"),
    ];
    let draw = ChoiceDraw::OF_A_MAP;
    let notes = vec![
        "Number: times in a hundred that the better way is made and the cue ball stays on the table."
            .to_owned(),
        format!(
            "Banks off one rail. Each place: {} strokes of every way choose the best bank and the best cut; {} others compare the two. \
             Either: apart by less than twice the standard error of the difference.",
            draw.first.replicates as u64 * draw.first.shots,
            draw.then.replicates as u64 * draw.then.shots
        ),
        format!(
            "Pockets: in the four corners of the map, and in the middle of its lower edge (side-right) and of its upper edge \
             (side-left). The cue ball lies at {} and {}; no number: the object ball has no room there.",
            diamonds((cue.x + 0.5 * table.length_m) / long),
            diamonds((cue.y + 0.5 * table.width_m) / end),
        ),
        format!("Model: {} rail.", equipment.cushion.rail_model.name()),
    ];
    Ok(ChoiceMapObject(Rc::new(ChoiceMap { along, across, cells, conditions, notes })))
}

/// Places a step apart, in the middle of the table's length or width, in diamonds.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a few dozen")]
fn places(diamonds: f64, step: f64) -> Vec<f64> {
    // A rail's own cushion leaves less than a quarter of a diamond.
    let either = ((0.5 * diamonds - 0.2) / step).floor() as usize;
    (0..=2 * either).map(|at| 0.5 * diamonds + (at as f64 - either as f64) * step).collect()
}

/// The answer for the object ball at a place; `None` where it has no room.
fn answer_at(asked: &ChoiceAsked<'_>, place: Vec2) -> Option<ChoiceFindings> {
    let mut moved = asked.clone();
    moved.setup.object.state.position = place;
    let setup = &moved.setup;
    let outline = setup.world.outline();
    let inside = place.x.abs() <= outline.half_length_m - outline.groove_m
        && place.y.abs() <= outline.half_width_m - outline.groove_m;
    let apart_m = setup.contact_m();
    let free = core::iter::once(&setup.cue)
        .chain(&setup.others)
        .all(|ball| (ball.state.position - place).norm() > apart_m);
    if !inside || !free {
        return None;
    }
    Some(moved.answer_off_one_rail(ChoiceDraw::OF_A_MAP))
}

impl Cell {
    fn of(found: &ChoiceFindings) -> Self {
        let chance = |one: Option<&railproof_engine::choice::FoundChoice>| {
            one.and_then(|one| one.tally.as_ref()).map_or(0.0, |tally| tally.chance().chance)
        };
        let (bank, cut) = (chance(found.bank()), chance(found.cut()));
        let best = if bank > cut { found.bank() } else { found.cut() };
        Self {
            better: found.choice.better(),
            chance: bank.max(cut),
            way: best.map_or_else(String::new, |best| ball_way_words(best.way)),
        }
    }

    const fn kind(&self) -> CellKind {
        match self.better {
            Better::Bank => CellKind::BankIsBetter,
            Better::Cut => CellKind::CutIsBetter,
            Better::CantBeTold => CellKind::CantBeTold,
            Better::Neither => CellKind::NeitherIsMade,
        }
    }
}

impl ChoiceMap {
    fn count(&self, better: Better) -> usize {
        self.cells.iter().flatten().filter(|cell| cell.better == better).count()
    }

    fn places(&self) -> usize {
        self.cells.iter().flatten().count()
    }

    /// Where to bank, in a sentence.
    fn sentence(&self) -> String {
        let places = self.places();
        let (bank, cut) = (self.count(Better::Bank), self.count(Better::Cut));
        let either = self.count(Better::CantBeTold);
        let mut text = format!(
            "Bank it from {bank} of {places} places of the object ball, cut it from {cut}; from {either} the two \
             can't be told apart"
        );
        let neither = self.count(Better::Neither);
        if neither > 0 {
            let _ = write!(text, ", from {neither} neither is made");
        }
        text.push('.');
        let mut ways: BTreeMap<&str, usize> = BTreeMap::new();
        for cell in self.cells.iter().flatten().filter(|cell| cell.better == Better::Bank) {
            *ways.entry(&cell.way).or_default() += 1;
        }
        if let Some((way, times)) = ways.into_iter().max_by_key(|(_, times)| *times) {
            let _ = write!(text, " Most often it is {way} ({times} of {bank}).");
        }
        text
    }

    fn picture(&self) -> MapPicture {
        let ticks = |places: &[f64]| places.iter().map(|it| short_number(*it, 2)).collect();
        let cell = |cell: &Option<Cell>| MapCell {
            kind: cell.as_ref().map_or(CellKind::Empty, Cell::kind),
            miss_mm: None,
            chance: cell.as_ref().map(|cell| cell.chance),
            flagged: false,
        };
        MapPicture {
            title: String::new(),
            finding: String::new(),
            subtitles: Vec::new(),
            x: PictureAxis {
                title:
                    "the object ball from the head rail (left edge) to the foot rail (right edge)"
                        .to_owned(),
                unit: "diamonds".to_owned(),
                ticks: ticks(&self.along),
            },
            y: PictureAxis {
                title: "from the right rail (lower edge) to the left rail (upper edge)".to_owned(),
                unit: "diamonds".to_owned(),
                ticks: ticks(&self.across),
            },
            panels: vec![Panel {
                caption: String::new(),
                cells: self.cells.iter().map(cell).collect(),
            }],
            rule: String::new(),
            model: String::new(),
            flag_label: String::new(),
            flag_meaning: String::new(),
            notes: self.notes.clone(),
            chance_lines: false,
            look: PictureLook::default(),
            unit: MissUnit::default(),
            shade_step: None,
        }
    }
}

/// `map:draw { … }`.
fn draw(lua: &Lua, this: &ChoiceMapObject, argument: Value) -> mlua::Result<()> {
    const KEYS: &[&str] = &["title", "subtitle", "legend", "size", "name"];
    let options = Options::open_or_none(lua, "draw", argument, KEYS)?;
    let asked = "Bank it or cut it, by where the object ball lies?".to_owned();
    let (title, subtitles) =
        headline(&options, &this.0.sentence(), asked, this.0.conditions.clone())?;
    let look = picture_look(&options, PictureLook::default())?;
    let finding = this.0.sentence();
    let picture = MapPicture { title, finding, subtitles, look, ..this.0.picture() };
    Session::of(lua)?.add_drawing(&options, "bank-or-cut", Picture::Map(picture))?;
    Ok(())
}

impl UserData for ChoiceMapObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "map of bank or cut");
        fields.add_field_method_get("places", |_, this| Ok(this.0.places()));
        fields.add_field_method_get("sentence", |_, this| Ok(this.0.sentence()));
        fields.add_field_method_get("bank", |_, this| Ok(this.0.count(Better::Bank)));
        fields.add_field_method_get("cut", |_, this| Ok(this.0.count(Better::Cut)));
        fields.add_field_method_get("neither", |_, this| Ok(this.0.count(Better::Neither)));
        fields.add_field_method_get("cant_be_told", |_, this| Ok(this.0.count(Better::CantBeTold)));
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        methods.add_meta_method(MetaMethod::ToString, |_, this, ()| Ok(this.0.sentence()));
        add_picture(methods, "draw", draw);
        members::only(methods, "a map of bank or cut", MEMBERS);
    }
}
