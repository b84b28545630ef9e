//! Where a change of verdict may hide between two neighbouring looks that agree.

use super::probe::Probe;

/// The factor by which a dip may be deeper than its estimate: a dip that would reach zero if it were
/// this much deeper is looked at.
const MISTRUST: f64 = 2.0;
/// Looks keep this share of the stretch away from its ends.
const INSIDE: f64 = 0.05;
/// Places at which a cubic is read to find its least value.
const STEPS: usize = 16;

/// The place between looks `index` and `index + 1`, which agree, where what the rooms do says that
/// it is worth a look; `None` where they speak against any hidden change.
///
/// Three signs count: both break, but on opposite sides, so that the path swept over the mouth in
/// between; a room bends towards zero between the two (by the cubic with the slopes of the
/// parabolas through the neighbours); or a room runs towards zero where the path stops arriving.
pub(super) fn suspicion<T>(looks: &[Probe<T>], index: usize, probes_apart: f64) -> Option<f64> {
    let (a, b) = (&looks[index], &looks[index + 1]);
    let place = match (a.rooms, b.rooms) {
        (Some(_), Some(_)) => match (a.broken_side(), b.broken_side()) {
            (Some(one), Some(other)) if one != other => swept_over(a, b),
            _ if a.holds => (0..2).find_map(|side| bends_to_zero(looks, index, side)),
            (Some(side), Some(_)) => bends_to_zero(looks, index, side),
            _ => None,
        },
        (Some(_), None) => runs_to_zero(looks.get(index.wrapping_sub(1)), a, b.at, probes_apart),
        (None, Some(_)) => runs_to_zero(looks.get(index + 2), b, a.at, probes_apart),
        (None, None) => None,
    }?;
    let width = b.at - a.at;
    Some(place.clamp(a.at + INSIDE * width, b.at - INSIDE * width))
}

/// Where the miss is expected to vanish.
fn swept_over<T>(a: &Probe<T>, b: &Probe<T>) -> Option<f64> {
    let miss = |one: &Probe<T>| one.rooms.map(|[long, short]| short - long);
    let (from, to) = (miss(a)?, miss(b)?);
    Some(a.at + (b.at - a.at) * from / (from - to))
}

/// Where one room comes nearest to zero, if it may reach it.
fn bends_to_zero<T>(looks: &[Probe<T>], index: usize, side: usize) -> Option<f64> {
    let point = |at: usize| {
        let one = looks.get(at)?;
        Some((one.at, one.room(side)?))
    };
    let (a, b) = (point(index)?, point(index + 1)?);
    if (a.1 > 0.0) != (b.1 > 0.0) {
        return None;
    }
    // Turned so that zero lies below.
    let sign = if a.1 > 0.0 { 1.0 } else { -1.0 };
    let width = b.0 - a.0;
    let chord = (b.1 - a.1) / width;
    let bend = |c: (f64, f64)| ((c.1 - b.1) / (c.0 - b.0) - chord) / (c.0 - a.0);
    let before = index.checked_sub(1).and_then(point).map(bend);
    let after = point(index + 2).map(bend);
    let at_a = before.or(after)?;
    let at_b = after.or(before)?;
    // Slopes of the parabolas at the two ends, over the width.
    let (slope_a, slope_b) =
        (sign * width * (chord - at_a * width), sign * width * (chord + at_b * width));
    let (value_a, value_b) = (sign * a.1, sign * b.1);
    let cubic = |s: f64| {
        let t = 1.0 - s;
        value_a * t * t * (1.0 + 2.0 * s) + value_b * s * s * (3.0 - 2.0 * s) + slope_a * s * t * t
            - slope_b * s * s * t
    };
    let (place, least) = (1..STEPS)
        .map(|k| k as f64 / STEPS as f64)
        .map(|s| (s, cubic(s)))
        .fold((0.0, f64::INFINITY), |best, next| if next.1 < best.1 { next } else { best });
    let dip = value_a.min(value_b) - least;
    (dip > 0.0 && least - (MISTRUST - 1.0) * dip <= 0.0).then_some(a.0 + place * width)
}

/// Midway between a look that arrives but breaks and the next one, which does not arrive, until
/// they are a quarter of the probes' distance apart, and further on unless the missing room grows
/// away from there. What it does further off is no guide: a ball that is about to stop turns ever
/// faster with its speed.
fn runs_to_zero<T>(
    further: Option<&Probe<T>>,
    nearer: &Probe<T>,
    limit: f64,
    probes_apart: f64,
) -> Option<f64> {
    let side = nearer.broken_side()?;
    let here = nearer.room(side)?;
    let before = further.and_then(|further| further.room(side));
    let wide = (nearer.at - limit).abs() > 0.26 * probes_apart;
    (wide || before.is_none_or(|before| before < here)).then_some(0.5 * (nearer.at + limit))
}
