//! The options of a stroke, and a stroke in a script's hands.

use super::layout::{InOptions, ScenarioLayout, no_cue};
use super::spots::{heading_or_line, place};
use crate::fault::Fault;
use crate::fields::{FEWER_LENGTHS, GroupValues};
use crate::layout::draft::{HeadingDraft, SpotDraft};
use crate::layout::names::Names;
use crate::layout::places::lay_fault;
use crate::layout::tables::{AIMS, GEAR_FINDS_SIDE, SCENARIO_STROKE};
use crate::lua::options::{Options, object};
use crate::lua::quantity::Quantity;
use crate::scenario::inputs::Keys;
use crate::scenario::members;
use mlua::{UserData, UserDataFields, UserDataMethods};
use railproof_engine::aim::Sending;
use railproof_engine::bank::speed_on;
use railproof_engine::equipment::Equipment;
use railproof_engine::lay::{angle_rad, direction, place as place_of};
use railproof_engine::stroke::{Stroke, StrokeError};
use railproof_engine::units::DEGREE_RAD;
use railproof_engine::vector::Vec2;

/// The keys of a stroke; `stroke` is one that was solved before.
pub(super) static STROKE_KEYS: Keys =
    Keys::new(|| SCENARIO_STROKE.all().map(|field| field.name).chain(["stroke"]).collect());

/// A stroke whose aim may still have to be solved.
#[derive(Debug, Clone, Copy)]
pub(super) struct StrokePlan {
    /// The stroke, its aim 0 where it is to be solved.
    pub stroke: Stroke,
    pub aim: AimPlan,
}

/// Where the cue points.
#[derive(Debug, Clone, Copy)]
pub(super) enum AimPlan {
    /// As the stroke says; and where the ghost ball is that it was pointed at, if one was.
    Given(Option<Vec2>),
    /// At the ghost ball here, for the object ball to go this way.
    Ghost(Vec2, Vec2),
    /// Solved so that the object ball goes this way.
    Solved(Sending, Vec2),
}

/// A solved stroke in a script's hands.
#[derive(Debug, Clone, Copy)]
pub(super) struct StrokeObject(pub Stroke);

/// The stroke that the options give; nothing when they give none.
pub(super) fn stroke(
    options: &Options,
    laid: &ScenarioLayout,
) -> Result<Option<StrokePlan>, Fault> {
    if let Some(StrokeObject(stroke)) =
        options.optional("stroke", object::<StrokeObject>("a stroke"))?
    {
        let beside = STROKE_KEYS.iter().find(|key| **key != "stroke" && options.has(key));
        if let Some(key) = beside {
            return Err(options
                .complain(key, format!("`stroke` and `{key}` contradict each other"))
                .with_hint("a solved stroke is played as it is; leave the other out"));
        }
        checked(options, laid, &stroke)?;
        return Ok(Some(StrokePlan { stroke, aim: AimPlan::Given(None) }));
    }
    let given: Vec<&'static str> = AIMS.into_iter().filter(|key| options.has(key)).collect();
    if given.is_empty() && !options.has("speed") {
        if let Some(key) = STROKE_KEYS.iter().find(|key| options.has(key)) {
            return Err(options.complain(key, format!("`{key}` needs a stroke: give it a `speed`")));
        }
        return Ok(None);
    }
    let values = options.group(&SCENARIO_STROKE)?;
    let level = level_of(&values, laid.world.equipment());
    checked(options, laid, &level)?;
    let aim = match given.as_slice() {
        [] => {
            return Err(options
                .complain_of_call("where does the cue point?")
                .with_hint(format!("give one of {}", AIMS.join(", "))));
        }
        [only] => *only,
        [first, second, ..] => {
            return Err(options
                .complain(second, format!("`{first}` and `{second}` contradict each other"))
                .with_hint("the cue points one way: give one of them"));
        }
    };
    let turned = |aim_rad: f64, ghost: Option<Vec2>| {
        Ok(Some(StrokePlan { stroke: Stroke { aim_rad, ..level }, aim: AimPlan::Given(ghost) }))
    };
    let cue = laid.cue().ok_or_else(|| no_cue(options))?;
    let from = laid.layout.balls[cue].state.position;
    let one_place =
        || options.complain(aim, "the cue is pointed at the very place where the ball lies");
    match aim {
        "aim" => turned(values.number_or_zero("aim"), None),
        "aim_at" => {
            let Some(spot) = place(options, "aim_at")? else { return Ok(None) };
            let at = resolved_place(options, laid, cue, "aim_at", &spot)?;
            let is_ghost = matches!(&spot, SpotDraft::Beside { gap_m, .. } if *gap_m == 0.0);
            turned(angle_rad(from, at).ok_or_else(one_place)?, is_ghost.then_some(at))
        }
        "ghost" => {
            let way = way(options, laid, "ghost")?;
            let setup = laid.setup(options)?;
            let at = setup.object.state.position - way * setup.contact_m();
            let stroke = Stroke { aim_rad: angle_rad(from, at).ok_or_else(one_place)?, ..level };
            Ok(Some(StrokePlan { stroke, aim: AimPlan::Ghost(at, way) }))
        }
        solved => {
            let by = Sending::ALL.into_iter().find(|by| by.name() == solved);
            let by = by.unwrap_or(Sending::Along);
            if by == Sending::Gear && options.has("tip_side") {
                return Err(options
                    .complain("tip_side", GEAR_FINDS_SIDE.0)
                    .with_hint(GEAR_FINDS_SIDE.1));
            }
            let way = way(options, laid, by.name())?;
            laid.setup(options)?;
            Ok(Some(StrokePlan { stroke: level, aim: AimPlan::Solved(by, way) }))
        }
    }
}

/// The stroke without its aim.
pub(super) fn level(options: &Options, equipment: &Equipment) -> Result<Stroke, Fault> {
    Ok(level_of(&options.group(&SCENARIO_STROKE)?, equipment))
}

fn level_of(values: &GroupValues, equipment: &Equipment) -> Stroke {
    let elevation = values.number("elevation");
    Stroke {
        speed_m_s: values.speed("speed").map_or(0.0, |speed| speed_on(speed, equipment)),
        aim_rad: 0.0,
        side_offset: values.number_or_zero("tip_side"),
        height_offset: values.number_or_zero("tip_height"),
        elevation_rad: elevation.unwrap_or(0.0),
        least_elevation: elevation.is_none(),
        allow_miscue: values.flag("allow_miscue"),
    }
}

/// Refuses a stroke that can't be played, at the key to change.
pub(super) fn checked(
    options: &Options,
    laid: &ScenarioLayout,
    stroke: &Stroke,
) -> Result<(), Fault> {
    let cue = laid.cue().ok_or_else(|| no_cue(options))?;
    let struck = stroke.strike(&laid.layout.balls[cue].ball, &laid.world.equipment().cue);
    let Err(error) = struck else { return Ok(()) };
    let key = match &error {
        StrokeError::Miscue { .. } | StrokeError::OutsideBall { .. } => {
            if stroke.side_offset.abs() >= stroke.height_offset.abs() {
                "tip_side"
            } else {
                "tip_height"
            }
        }
        _ => "speed",
    };
    let fault = if options.knows(key) && options.has(key) {
        options.complain(key, error.to_string())
    } else {
        options.complain_of_call(error.to_string())
    };
    Err(match error {
        StrokeError::NoSuchLag => fault.with_hint(FEWER_LENGTHS),
        StrokeError::Miscue { .. } => fault.with_hint(
            "put the tip nearer the middle, or write allow_miscue = true to play on as if it did not slip",
        ),
        _ => fault,
    })
}

/// The way at a key: `"line"` for a bank shot's own, or a heading; the line when it is left out.
pub(super) fn way(
    options: &Options,
    laid: &ScenarioLayout,
    key: &'static str,
) -> Result<Vec2, Fault> {
    let Some(draft) = heading_or_line(options, key)? else {
        return Ok(laid.bank_line(options)?.direction);
    };
    let target = laid.layout.target.ok_or_else(|| {
        options
            .complain(key, "which ball is to go that way?")
            .with_hint("give the layout a `pocket`")
    })?;
    resolved_way(options, laid, target.ball, key, &draft)
}

fn names<'a>(places: &'a InOptions<'a>, laid: &'a ScenarioLayout) -> Names<'a> {
    Names {
        source: places,
        equipment: laid.world.equipment(),
        balls: &laid.draft.balls,
        target: laid.layout.target.map(|target| target.pocket),
        lines: Vec::new(),
    }
}

fn resolved_way(
    options: &Options,
    laid: &ScenarioLayout,
    ball: usize,
    key: &'static str,
    draft: &HeadingDraft,
) -> Result<Vec2, Fault> {
    let places = InOptions(options);
    let mut names = names(&places, laid);
    let heading = names.heading(draft, &[key])?;
    let known: Vec<_> = laid.layout.balls.iter().map(|it| (it.ball, it.state.position)).collect();
    direction(&laid.world, &known, ball, known[ball].1, &heading)
        .map_err(|error| lay_fault(&names, &laid.draft, &laid.world, Some(&[key]), &error))
}

fn resolved_place(
    options: &Options,
    laid: &ScenarioLayout,
    ball: usize,
    key: &'static str,
    draft: &SpotDraft,
) -> Result<Vec2, Fault> {
    let places = InOptions(options);
    let mut names = names(&places, laid);
    let spot = names.spot(draft, &[key])?;
    let known: Vec<_> = laid.layout.balls.iter().map(|it| (it.ball, it.state.position)).collect();
    place_of(&laid.world, &known, ball, &spot)
        .map_err(|error| lay_fault(&names, &laid.draft, &laid.world, Some(&[key]), &error))
}

impl UserData for StrokeObject {
    fn add_fields<F: UserDataFields<Self>>(fields: &mut F) {
        fields.add_meta_field("__type", "stroke");
        fields.add_field_method_get("speed", |_, this| Ok(Quantity::new(this.0.speed_m_s, "m/s")?));
        fields.add_field_method_get("aim", |_, this| {
            Ok(Quantity::new(this.0.aim_rad / DEGREE_RAD, "deg")?)
        });
        fields.add_field_method_get("tip_side", |_, this| Ok(this.0.side_offset));
        fields.add_field_method_get("tip_height", |_, this| Ok(this.0.height_offset));
        fields.add_field_method_get("elevation", |_, this| {
            Ok(Quantity::new(this.0.elevation_rad / DEGREE_RAD, "deg")?)
        });
    }

    fn add_methods<M: UserDataMethods<Self>>(methods: &mut M) {
        members::only(
            methods,
            "a stroke",
            &["speed", "aim", "tip_side", "tip_height", "elevation"],
        );
    }
}
