//! The fields of a place.

use super::draft::SpotDraft;
use super::read::{heading, line};
use super::tables::TO_POCKET;
use crate::fields::{Example, FieldValue, GroupValues, Refusal};

/// The keys that say where, one of which must be there.
const PLACES: [&str; 6] = ["position", "on_rail", "on_line", "between", "behind", "in_front_of"];

/// The keys that belong to others.
const COMPANIONS: [(&str, &[&str]); 6] = [
    ("number", &["on_rail"]),
    ("counted_from", &["on_rail"]),
    ("off_rail", &["on_rail", "on_line"]),
    ("share", &["between"]),
    ("heading", &["behind", "in_front_of"]),
    ("gap", &["behind", "in_front_of"]),
];

/// Where something lies, and the key that says it.
pub(super) fn spot(values: &GroupValues) -> Result<(SpotDraft, &'static str), Refusal> {
    const POINT: Example =
        Example::List(&[Example::Quantity(0.1, "m"), Example::Quantity(-0.2, "m")]);
    let what = &values.title;
    let mut places = PLACES.into_iter().filter(|key| values.has(key));
    let Some(place) = places.next() else {
        return Err(Refusal::new(format!("{what} has no place")).with_fields(
            &[("position", POINT)],
            &format!("; it takes one of {}", PLACES.join(", ")),
        ));
    };
    if let Some(second) = places.next() {
        return Err(Refusal::new(format!("{what} has both `{place}` and `{second}`"))
            .with_hint("it lies in one place: take one of them out"));
    }
    for (companion, belongs) in COMPANIONS {
        if values.has(companion) && !belongs.contains(&place) {
            let belongs = belongs.join("` or `");
            return Err(Refusal::new(format!(
                "{what}: `{companion}` goes with `{belongs}`, not with `{place}`"
            )));
        }
    }
    let missing = |key: &str| Refusal::new(format!("{what} has `{place}` and no `{key}`"));
    let off_rail_m = values.number_or_zero("off_rail");
    let spot =
        match place {
            "position" => SpotDraft::At(values.needed(values.vector("position"))?),
            "on_rail" => SpotDraft::OnRail {
                rail: values.needed(values.meant("on_rail"))?,
                number: values.number("number").ok_or_else(|| {
                    missing("number").with_fields(&[("number", Example::Number(2.0))], "")
                })?,
                counted_from: values.meant("counted_from"),
                off_rail_m,
            },
            "on_line" => {
                let line = values.needed(values.read("on_line", line)?)?;
                SpotDraft::OnLine { line, off_rail_m }
            }
            "between" => SpotDraft::Between {
                ends: Box::new([end(values, 1)?, end(values, 2)?]),
                share: values.number_or_zero("share"),
            },
            beside => SpotDraft::Beside {
                ball: values.needed(values.text(beside))?.to_owned(),
                heading: Box::new(values.read("heading", heading)?.ok_or_else(|| {
                    missing("heading").with_fields(&[("heading", TO_POCKET)], "")
                })?),
                ahead: beside == "in_front_of",
                gap_m: values.number_or_zero("gap"),
            },
        };
    Ok((spot, place))
}

/// One of the two places between which something lies.
fn end(values: &GroupValues, number: usize) -> Result<SpotDraft, Refusal> {
    let ends = values.list("between").unwrap_or_default();
    let end = values.needed(ends.get(number - 1))?;
    place(end).map_err(|refusal| refusal.at_item(number).under("between"))
}

/// A place: a ball's name, or values that say where.
pub(crate) fn place(value: &FieldValue) -> Result<SpotDraft, Refusal> {
    let values = match value {
        FieldValue::Group(values) => values,
        FieldValue::Text(name) => return Ok(SpotDraft::Ball(name.clone())),
        _ => return Err(Refusal::new("this is not a place")),
    };
    let Some(pocket) = values.meant("pocket") else { return Ok(spot(values)?.0) };
    if values.given().count() > 1 {
        return Err(Refusal::new("the place has `pocket` and something else")
            .with_hint("it is one place: take one of them out"));
    }
    Ok(SpotDraft::Pocket(pocket))
}
