//! `bank_shot { … }`: an object ball on a line of rail numbers, and the cue ball where it must come
//! from.

use super::layout::{BankLine, LayoutObject, put_down};
use super::spots::balls;
use crate::fault::Fault;
use crate::fields::{Field, FieldKind, Group, GroupValues, Without, words};
use crate::layout::draft::{BallDraft, LineDraft, SpotDraft, TargetDraft};
use crate::layout::tables::{CONTACT, OFF_RAIL, START};
use crate::layout::{CUE, OBJECT};
use crate::lua::options::{Options, object};
use crate::lua::place::Placed;
use crate::scenario::equipment::OneTable;
use crate::scenario::grid::contradiction;
use crate::scenario::inputs::Keys;
use crate::scenario::rule_answers::failed;
use crate::scenario::rule_object::RuleObject;
use mlua::{Lua, Value};
use railproof_engine::aim::{LineSetup, NoAim, Setup};
use railproof_engine::equipment::Parameter;
use railproof_engine::rail::{BankGeometry, Line, PocketChoice, RailChoice, Reading};
use railproof_engine::units::Dimension;

const CUE_DISTANCE: Parameter = Parameter::new("cue_distance", Dimension::Length, 0.0001, 4.0, "m");
const CUT: Parameter = Parameter::new("cut", Dimension::Angle, -89.0, 89.0, "deg");

/// The fields of a bank shot, beside the equipment, a rule, other balls and obstacles.
pub(crate) static BANK_SHOT: Group = Group {
    title: "",
    parts: &[&[
        Field::new("rail", FieldKind::Word(words::<RailChoice>), "the rail it banks off")
            .or(Without::Word(RailChoice::Long.name())),
        Field::new("pocket", FieldKind::Word(words::<PocketChoice>), "the pocket meant")
            .or(Without::Word(PocketChoice::Corner.name())),
        Field::needed("contact", FieldKind::Number(CONTACT), "contact number, in diamonds"),
        Field::number(START, "start number, in diamonds").or(Without::Says("the rule's")),
        Field::new("reading", FieldKind::Word(words::<Reading>), "how its numbers are read")
            .or(Without::Says(Reading::Groove.name())),
        Field::number(OFF_RAIL, "how far off the rail the ball lies").or(Without::Number(0.0)),
        Field::number(CUE_DISTANCE, "from the cue ball to where it hits").or(Without::Number(0.3)),
        Field::number(CUT, "angle of the cut: outside (+) or inside (−)").or(Without::Number(0.0)),
    ]],
    example: None,
};

static KEYS: Keys = Keys::new(|| {
    let own = BANK_SHOT.all().map(|field| field.name);
    ["equipment", "rule", "others", "obstacles"].into_iter().chain(own).collect()
});

#[expect(clippy::needless_pass_by_value, reason = "what Lua hands over")]
pub(super) fn bank_shot(lua: &Lua, argument: Value) -> mlua::Result<LayoutObject> {
    let options = Options::open(lua, "bank_shot", &argument, &KEYS)?;
    let equipment = options.required("equipment", OneTable)?;
    let values = options.group(&BANK_SHOT)?;
    let rail = values.meant("rail").unwrap_or(RailChoice::Long);
    let pocket = values.meant("pocket").unwrap_or(PocketChoice::Corner);
    let rail = rail.facing(pocket);
    let pocket = pocket.across_from(rail);
    let geometry = BankGeometry::new(&equipment.0, rail, pocket).map_err(|error| {
        let key = if options.has("pocket") { "pocket" } else { "rail" };
        options.complain(key, format!("this makes no bank: {error}"))
    })?;
    let rule = options.optional("rule", object::<RuleObject>("a rule"))?;
    let line = line(&options, &values, &geometry, rule.as_ref())?;
    let off_rail_m = values.number_or_zero("off_rail");
    let cue_distance_m = values.number_or_zero("cue_distance");
    let cut_rad = values.number_or_zero("cut");
    let at = LineSetup { rail, pocket, line, off_rail_m, cue_distance_m, cut_rad };
    let world = super::worlds::world_of(lua, &equipment.0, &[]).map_err(|error| {
        options.complain("equipment", format!("there is no such table: {error}"))
    })?;
    let (setup, direction) = Setup::on_line(&world, &at)
        .map_err(|error: NoAim| options.complain_of_call(error.to_string()))?;

    let ball = |name: &str, spot, spot_key| BallDraft {
        name: name.to_owned(),
        spot,
        spot_key,
        velocity: None,
        spin: None,
        launch: None,
        diameter_m: None,
        mass_kg: None,
    };
    let on_line = LineDraft {
        rail: choice_of(rail),
        counted_from: Some(pocket),
        contact: line.contact,
        start: line.start,
        reading: Reading::Groove,
    };
    let cue = setup.cue.state.position;
    let mut drafts = vec![
        ball(CUE, SpotDraft::At([cue.x, cue.y]), "position"),
        ball(OBJECT, SpotDraft::OnLine { line: on_line, off_rail_m }, "on_line"),
    ];
    for draft in balls(&options, "others")? {
        if draft.name == CUE || draft.name == OBJECT {
            let message = format!("`{}` is laid by the line already", draft.name);
            return Err(options.complain("others", message).into());
        }
        drafts.push(draft);
    }
    let target = TargetDraft { pocket, ball: Some(OBJECT.to_owned()) };
    let line = BankLine { at, direction, rule };
    Ok(put_down(lua, &options, &equipment, drafts, Some(target), Some(line))?)
}

/// The line that the options give, groove reading.
fn line(
    options: &Options,
    values: &GroupValues,
    geometry: &BankGeometry,
    rule: Option<&RuleObject>,
) -> Result<Line, Fault> {
    contradiction(options, "start", "rule")?;
    let contact = values.number_or_zero("contact");
    let start = values.number("start");
    let reading = values.meant::<Reading>("reading");
    if let (Some(_), Some(_)) = (rule, reading) {
        return Err(options.complain("reading", "the rule has its own reading"));
    }
    match (start, rule) {
        (Some(start), _) => {
            Ok(Line::new(contact, start).groove_from(reading.unwrap_or_default(), geometry))
        }
        (None, Some(rule)) => line_by(options, rule, contact, geometry),
        (None, None) => {
            Err(options.complain_of_call("a bank shot needs a `start` number or a `rule`"))
        }
    }
}

/// The line that a rule gives for a contact number.
pub(super) fn line_by(
    options: &Options,
    rule: &RuleObject,
    contact: f64,
    geometry: &BankGeometry,
) -> Result<Line, Fault> {
    rule.0.named.rule.line_for_contact(contact, geometry).map_err(|error| {
        let key = if options.has("rule") { "rule" } else { "contact" };
        failed(&rule.0, &error).placed(options.complain(key, "").place)
    })
}

fn choice_of(rail: railproof_engine::rail::Rail) -> RailChoice {
    use railproof_engine::rail::Rail;
    match rail {
        Rail::Head => RailChoice::Head,
        Rail::Foot => RailChoice::Foot,
        Rail::Left => RailChoice::Left,
        Rail::Right => RailChoice::Right,
    }
}
