//! What to say beside an answer that the model is less sure of, or that can hurt.

/// From this speed at the start on, the usual caution about hard shots is shown, m/s. Chosen, not
/// measured: about what a firm break of the balls is, by common practice less than half of a hard
/// one.
const HARD_M_S: f64 = 5.0;

/// The cautions that apply.
pub(super) fn cautions(
    outside_checked_speed: bool,
    hop: bool,
    checked_speed_m_s: f64,
    speed_m_s: f64,
) -> Vec<String> {
    let mut cautions = Vec::new();
    if outside_checked_speed {
        cautions.push(format!(
            "Caution: the rail model has only been checked up to {checked_speed_m_s} m/s square to \
             the rail; this is faster."
        ));
    }
    if hop {
        cautions.push(
            "Caution: a real ball would hop at the cushion here; the model keeps it on the cloth."
                .to_owned(),
        );
    }
    if speed_m_s >= HARD_M_S {
        cautions.push(
            "Caution: balls hit this hard can leave the table. Mind people nearby, and keep to the \
             house's rules and to what the table's maker says."
                .to_owned(),
        );
    }
    cautions
}
