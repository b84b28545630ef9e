//! Spin as a small round sign: a curved arrow around it for side, a bar through it for roll or
//! draw.

use super::super::canvas::{Canvas, Paint, Pen};
use super::super::colours::{FRAME, INK, PAPER, Rgb};
use super::super::contour::{Contour, PagePoint, on_circle};
use std::f64::consts::{FRAC_PI_2, PI};

/// Radius of the sign.
pub(super) const RADIUS: f64 = 13.0;
/// Room that the sign takes from its middle, arrow included.
pub(super) const REACH: f64 = 23.0;

/// Radius of the curved arrow.
const ARROW: f64 = 18.0;
/// The arrow's sweep at a side of 1, and at most.
const SWEEP_AT_ONE: f64 = PI;
const MOST_SWEEP: f64 = 1.7 * PI;
/// Less side than this shows no arrow.
const LEAST_SIDE: f64 = 0.01;
/// Length of the bar at natural roll, and at most.
const NATURAL: f64 = 9.0;
const MOST_BAR: f64 = 12.4;
const LEAST_BAR: f64 = 1.2;

/// Side and roll as the engine gives them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spin {
    /// Direction of travel on the page.
    pub(super) travel: (f64, f64),
    /// Positive counter-clockwise.
    pub(super) side: f64,
    /// 1 for natural roll.
    pub(super) along: f64,
}

/// The angle of the curved arrow on the page, clockwise positive.
pub(super) fn sweep(side: f64) -> f64 {
    if side.abs() < LEAST_SIDE {
        0.0
    } else {
        -(side * SWEEP_AT_ONE).clamp(-MOST_SWEEP, MOST_SWEEP)
    }
}

/// The length of the bar, forwards positive.
pub(super) fn bar(along: f64) -> f64 {
    (along * NATURAL).clamp(-MOST_BAR, MOST_BAR)
}

/// Draws the sign.
pub(super) fn draw(canvas: &mut Canvas, at: PagePoint, spin: Spin, colour: Rgb) {
    let length = spin.travel.0.hypot(spin.travel.1);
    let (dx, dy) =
        if length > 0.0 { (spin.travel.0 / length, spin.travel.1 / length) } else { (0.0, -1.0) };
    let toward =
        |far: f64, across: f64| (at.0 + far * dx - across * dy, at.1 + far * dy + across * dx);
    let face = Paint::edged(PAPER, Pen::plain(1.0, FRAME));
    canvas.curve(Contour::circle(at, RADIUS), face);
    // Ticks at natural roll, before and behind, and the way of travel outside the circle.
    for far in [NATURAL, -NATURAL] {
        let tick = [toward(far, -3.6), toward(far, 3.6)];
        let tick = Contour::through(&tick, false);
        canvas.trace(tick, Pen::plain(0.9, FRAME));
    }
    let bar = bar(spin.along);
    if bar.abs() >= LEAST_BAR {
        canvas.stroke(&[at, toward(bar, 0.0)], 4.4, colour);
    }
    canvas.disc(at, 2.2, INK);
    curved_arrow(canvas, at, libm::atan2(dy, dx), sweep(spin.side), colour);
}

/// An arrow around the sign that begins at the front.
fn curved_arrow(canvas: &mut Canvas, at: PagePoint, front: f64, sweep: f64, colour: Rgb) {
    if sweep == 0.0 {
        return;
    }
    // A short arrow has a small head.
    let small = (sweep.abs() * ARROW / 11.0).clamp(0.5, 1.0);
    let head = 7.0 * small / ARROW;
    let sign = sweep.signum();
    // The shaft ends inside the head.
    let shaft = sign * (sweep.abs() - 0.6 * head).max(0.0);
    canvas.trace(Contour::arc(at, ARROW, front, shaft), Pen::plain(2.2, colour));
    // Where the sweep begins.
    let on = |angle: f64, radius: f64| on_circle(at, radius, angle);
    let foot = Contour::through(&[on(front, ARROW - 3.2), on(front, ARROW + 3.2)], false);
    canvas.trace(foot, Pen::plain(1.6, colour));
    let tip = front + sweep;
    let along = tip + sign * FRAC_PI_2;
    let way = (libm::cos(along), libm::sin(along));
    // The head leans in with the arc.
    let base = on(tip - sign * head, ARROW);
    let out = (libm::cos(tip), libm::sin(tip));
    let half = 4.2 * small;
    let corners = [
        on(tip, ARROW),
        (base.0 + half * out.0 - 0.8 * way.0, base.1 + half * out.1 - 0.8 * way.1),
        (base.0 - half * out.0 - 0.8 * way.0, base.1 - half * out.1 - 0.8 * way.1),
    ];
    let triangle = Contour::through(&corners, true);
    canvas.area(triangle, colour);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_arrow_grows_with_side_and_turns_with_its_sign() {
        assert_eq!(sweep(0.0), 0.0);
        // Counter-clockwise on the table is against the page's angles.
        assert!(sweep(0.2) < 0.0 && sweep(-0.2) > 0.0);
        assert_eq!(sweep(0.2), -sweep(-0.2));
        assert!(
            (1..8).all(|i| sweep(f64::from(i + 1) * 0.2).abs() > sweep(f64::from(i) * 0.2).abs())
        );
        assert_eq!(sweep(9.0), sweep(90.0));
    }

    #[test]
    fn the_bar_reaches_its_tick_at_natural_roll() {
        assert_eq!(bar(1.0), NATURAL);
        assert_eq!(bar(0.0), 0.0);
        assert!(bar(-0.5) < 0.0 && bar(99.0) < RADIUS);
    }
}
