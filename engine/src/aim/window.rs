//! Ranges of aim and speed that make a bank.

use super::{NoAim, Setup};
use crate::root::last_true;
use crate::stroke::Stroke;

/// A range in which something holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AimWindow {
    /// Its lower end.
    pub from: f64,
    /// Its upper end.
    pub to: f64,
}

impl AimWindow {
    /// Its width.
    pub fn width(&self) -> f64 {
        self.to - self.from
    }
}

/// Looks at the aims, either side of the middle one.
const AIM_LOOKS: usize = 400;
/// Looks at the speeds.
const SPEED_LOOKS: usize = 160;

/// Where `holds` is true between `from` and `to`: looked at in `looks` equal steps (or equal ratios
/// when `by_ratio`), each change then closed in on to `tolerance`. A range narrower than a step can
/// be missed.
///
/// # Errors
/// The first error of `holds`.
pub fn intervals<E>(
    mut holds: impl FnMut(f64) -> Result<bool, E>,
    (from, to): (f64, f64),
    looks: usize,
    by_ratio: bool,
    tolerance: f64,
) -> Result<Vec<AimWindow>, E> {
    let place = |index: usize| {
        let share = index as f64 / looks as f64;
        match (index, by_ratio) {
            (0, _) => from,
            (last, _) if last == looks => to,
            (_, true) => from * libm::pow(to / from, share),
            (_, false) => from + (to - from) * share,
        }
    };
    let mut found: Vec<AimWindow> = Vec::new();
    let mut open: Option<f64> = None;
    let mut last = from;
    for index in 0..=looks {
        let here = place(index);
        match (holds(here)?, open) {
            (true, None) => {
                let begins = if index == 0 {
                    here
                } else {
                    last_true((here, last), |_| tolerance, &mut holds)?
                };
                open = Some(begins);
            }
            (false, Some(begins)) => {
                found.push(AimWindow {
                    from: begins,
                    to: last_true((last, here), |_| tolerance, &mut holds)?,
                });
                open = None;
            }
            _ => {}
        }
        last = here;
    }
    if let Some(begins) = open {
        found.push(AimWindow { from: begins, to });
    }
    Ok(found)
}

/// Whether a stroke makes the bank; one for which the cue has no room does not.
fn made_by(setup: &Setup<'_>, stroke: &Stroke) -> Result<bool, NoAim> {
    match setup.judge(stroke) {
        Err(error) if error.is_no_room() => Ok(false),
        judged => Ok(judged?.1.is_made()),
    }
}

/// The windows of aims that make the bank, rad, within `reach_rad` either side of the stroke's own,
/// to 1e-8 rad.
///
/// # Errors
/// [`NoAim::NeverMade`] with what happens at the stroke's own aim, and the first refusal.
pub fn aims_that_make(
    setup: &Setup<'_>,
    stroke: &Stroke,
    reach_rad: f64,
) -> Result<Vec<AimWindow>, NoAim> {
    let made =
        |aim_rad: f64| -> Result<bool, NoAim> { made_by(setup, &Stroke { aim_rad, ..*stroke }) };
    let range = (stroke.aim_rad - reach_rad, stroke.aim_rad + reach_rad);
    let found = intervals(made, range, 2 * AIM_LOOKS, false, 1e-8)?;
    if found.is_empty() {
        let why = setup.judge(stroke)?.1.pocket.name();
        let looked = 2 * AIM_LOOKS + 1;
        return Err(NoAim::NeverMade { from: range.0, to: range.1, unit: "rad", looked, why });
    }
    Ok(found)
}

/// The windows of speeds that make the bank between `from` and `to`, m/s, to 1e-6 m/s.
///
/// # Errors
/// As [`aims_that_make`].
pub fn speeds_that_make(
    setup: &Setup<'_>,
    stroke: &Stroke,
    (from, to): (f64, f64),
) -> Result<Vec<AimWindow>, NoAim> {
    let made = |speed_m_s: f64| -> Result<bool, NoAim> {
        made_by(setup, &Stroke { speed_m_s, ..*stroke })
    };
    let found = intervals(made, (from, to), SPEED_LOOKS, true, 1e-6)?;
    if found.is_empty() {
        let middle = Stroke { speed_m_s: (from * to).sqrt(), ..*stroke };
        let why = setup.judge(&middle)?.1.pocket.name();
        let looked = SPEED_LOOKS + 1;
        return Err(NoAim::NeverMade { from, to, unit: "m/s", looked, why });
    }
    Ok(found)
}
