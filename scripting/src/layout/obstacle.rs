//! The fields of a thing laid on the table.

use crate::fields::{Example, FieldValue, GroupValues, Refusal};
use railproof_engine::vector::Vec2;
use railproof_engine::world::Obstacle;

/// An obstacle of a name.
pub(crate) fn obstacle(name: &str, values: &GroupValues) -> Result<Obstacle, Refusal> {
    let of_rectangle = ["middle", "length", "width", "turned"];
    let rectangle = (values.vector("middle"), values.number("length"), values.number("width"));
    let shape = match (values.list("corners"), rectangle) {
        (Some(_), _) if of_rectangle.iter().any(|key| values.has(key)) => {
            let message = format!("{} has `corners` and a rectangle's keys", values.title);
            return Err(Refusal::new(message)
                .with_hint("give it either `corners`, or `middle`, `length` and `width`"));
        }
        (Some(corners), _) => {
            let corners = corners.iter().filter_map(FieldValue::vector);
            let corners = corners.map(|[x, y]| Vec2::new(x, y)).collect();
            Obstacle { corners, ..Obstacle::rectangle(name, Vec2::ZERO, 1.0, 1.0, 0.0) }
        }
        (None, (Some([x, y]), Some(length_m), Some(width_m))) => {
            let turned_rad = values.number_or_zero("turned");
            Obstacle::rectangle(name, Vec2::new(x, y), length_m, width_m, turned_rad)
        }
        _ => return Err(no_shape(values)),
    };
    Ok(Obstacle {
        height_m: values.number_or_zero("height"),
        restitution: values.number_or_zero("restitution"),
        friction: values.number_or_zero("friction"),
        ..shape
    })
}

fn no_shape(values: &GroupValues) -> Refusal {
    const NONE: Example = Example::Quantity(0.0, "m");
    const SOME: Example = Example::Quantity(0.1, "m");
    Refusal::new(format!("{} has no shape", values.title)).with_fields(
        &[(
            "corners",
            Example::List(&[
                Example::List(&[NONE, NONE]),
                Example::List(&[SOME, NONE]),
                Example::List(&[NONE, SOME]),
            ]),
        )],
        "; or give it `middle`, `length` and `width`",
    )
}
