//! A layout's values, as drafts.

use super::draft::{
    AimDraft, BallDraft, Draft, EquipmentSource, HeadingDraft, LaunchDraft, LineDraft, SpotDraft,
    StrokeDraft, TargetDraft,
};
use super::picture_words::picture_words;
use super::spot::{place, spot};
use super::tables::{AIMS, GEAR_FINDS_SIDE};
use super::{engine::EngineChoice, obstacle};
use crate::fields::{GroupValues, Refusal};
use crate::profile::sections;
use railproof_engine::aim::Sending;
use railproof_engine::rail::RailChoice;

/// A layout.
pub(super) fn layout(values: &GroupValues) -> Result<Draft, Refusal> {
    let equipment = match (values.text("equipment"), values.group("equipment")) {
        (_, Some(profile)) => EquipmentSource::Inline(Box::new(sections(profile))),
        (name, None) => EquipmentSource::Named(name.unwrap_or_default().to_owned()),
    };
    let balls = each(values, "balls", ball)?;
    if balls.is_empty() {
        return Err(Refusal::new("there are no balls in `balls`").under("balls"));
    }
    Ok(Draft {
        equipment,
        balls,
        target: values.read("target", target)?,
        stroke: values.read("stroke", stroke)?,
        obstacles: each(values, "obstacles", obstacle::obstacle)?,
        engine: values.meant("engine").unwrap_or(EngineChoice::Event),
        until_s: values.number("until"),
        picture: picture_words(values),
    })
}

/// The things at a key.
pub(crate) fn each<T>(
    values: &GroupValues,
    key: &str,
    read: impl Fn(&str, &GroupValues) -> Result<T, Refusal>,
) -> Result<Vec<T>, Refusal> {
    let things = values.each(key).unwrap_or_default().iter();
    things.map(|(name, own)| read(name, own).map_err(|it| it.under(name).under(key))).collect()
}

fn target(values: &GroupValues) -> Result<TargetDraft, Refusal> {
    let pocket = values.needed(values.meant("pocket"))?;
    Ok(TargetDraft { pocket, ball: values.text("ball").map(str::to_owned) })
}

/// A ball of a name.
pub(crate) fn ball(name: &str, values: &GroupValues) -> Result<BallDraft, Refusal> {
    let (spot, spot_key) = spot(values)?;
    let launch = values.read("launch", launch)?;
    if launch.is_some() && (values.has("velocity") || values.has("spin")) {
        let message = format!("{} has a `launch` and a velocity or spin", values.title);
        return Err(Refusal::new(message)
            .with_hint("a ball moves by one or the other: take one of them out"));
    }
    Ok(BallDraft {
        name: name.to_owned(),
        spot,
        spot_key,
        velocity: values.vector("velocity"),
        spin: values.vector("spin"),
        launch,
        diameter_m: values.number("diameter"),
        mass_kg: values.number("mass"),
    })
}

fn launch(values: &GroupValues) -> Result<LaunchDraft, Refusal> {
    Ok(LaunchDraft {
        speed: values.needed(values.speed("speed"))?,
        heading: values.needed(values.read("heading", heading)?)?,
        roll: values.number_or_zero("roll"),
        spin_side: values.number_or_zero("spin_side"),
    })
}

/// A line of rail numbers.
pub(super) fn line(values: &GroupValues) -> Result<LineDraft, Refusal> {
    Ok(LineDraft {
        rail: values.meant("rail").unwrap_or(RailChoice::Long),
        counted_from: values.meant("counted_from"),
        contact: values.needed(values.number("contact"))?,
        start: values.needed(values.number("start"))?,
        reading: values.meant("reading").unwrap_or_default(),
    })
}

/// A direction.
pub(crate) fn heading(values: &GroupValues) -> Result<HeadingDraft, Refusal> {
    let one = values.only_of(&["to", "line", "angle"])?;
    Ok(match (one, values.get(one)) {
        ("to", Some(value)) => HeadingDraft::To(place(value).map_err(|it| it.under("to"))?),
        ("line", _) => HeadingDraft::Line(values.needed(values.read("line", line)?)?),
        _ => HeadingDraft::Angle(values.number_or_zero("angle")),
    })
}

fn stroke(values: &GroupValues) -> Result<StrokeDraft, Refusal> {
    let aim_key = values.only_of(&AIMS)?;
    let sent = || values.needed(values.read(aim_key, sent)?);
    let aim = match aim_key {
        "aim" => AimDraft::Angle(values.number_or_zero("aim")),
        "ghost" => {
            let (ball, heading) = sent()?;
            let heading = Box::new(heading);
            AimDraft::At(SpotDraft::Beside { ball, heading, ahead: false, gap_m: 0.0 })
        }
        "aim_at" => {
            let value = values.needed(values.get(aim_key))?;
            AimDraft::At(place(value).map_err(|it| it.under(aim_key))?)
        }
        solved => {
            let by = Sending::ALL.into_iter().find(|by| by.name() == solved);
            let ((ball, heading), by) = (sent()?, values.needed(by)?);
            if by == Sending::Gear && values.has("tip_side") {
                return Err(Refusal::new(GEAR_FINDS_SIDE.0)
                    .with_hint(GEAR_FINDS_SIDE.1)
                    .under("tip_side"));
            }
            AimDraft::Send { by, ball, heading }
        }
    };
    Ok(StrokeDraft {
        ball: values.text("ball").map(str::to_owned),
        speed: values.needed(values.speed("speed"))?,
        aim,
        aim_key,
        tip_side: values.number_or_zero("tip_side"),
        tip_height: values.number_or_zero("tip_height"),
        elevation_rad: values.number("elevation"),
        allow_miscue: values.flag("allow_miscue"),
    })
}

/// A ball and the way it is to go.
fn sent(values: &GroupValues) -> Result<(String, HeadingDraft), Refusal> {
    let ball = values.needed(values.text("ball"))?.to_owned();
    Ok((ball, values.needed(values.read("heading", heading)?)?))
}
