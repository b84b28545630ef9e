//! A bank run backwards: the exact start number, and the aim error that a line bears.

use super::edge::edge;
use super::{Bank, BankVerdict, Launch, LaunchError, Outcome};
use crate::rail::Line;
use crate::root::bracketed_root;
use thiserror::Error;

/// The starts that were tried; a rail's end can leave one alone.
fn tried(from: f64, to: f64) -> String {
    if from < to { format!(" from {from} to {to}") } else { String::new() }
}

/// Why a question has no answer.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NoAnswer {
    /// The launch itself is refused.
    #[error(transparent)]
    Launch(#[from] LaunchError),
    /// No start number sends the ball through the middle of the mouth.
    #[error(
        "no start number{} brings contact {contact} to the middle of the mouth; the nearest try: {}",
        tried(*from, *to),
        verdict.replace('-', " ")
    )]
    NoExactStart {
        /// The contact number.
        contact: f64,
        /// Smallest start tried.
        from: f64,
        /// Largest start tried.
        to: f64,
        /// The outcome of the last try.
        verdict: &'static str,
    },
    /// The line holds at no speed in the range.
    #[error("no speed from {from_m_s} to {to_m_s} m/s makes the line hold ({looked} tried)")]
    NeverHolds {
        /// Slowest speed tried.
        from_m_s: f64,
        /// Fastest speed tried.
        to_m_s: f64,
        /// Number of speeds looked at.
        looked: usize,
    },
    /// There is no margin to measure, since the bank does not hold as it is.
    #[error("the bank does not hold as aimed: {verdict}", verdict = verdict.name())]
    DoesNotHold {
        /// The outcome instead.
        verdict: BankVerdict,
    },
}

/// Search for an exact start begins here, as a multiple of the contact number.
const FIRST_GUESS: f64 = 2.0;
/// And goes this far from the contact number, diamonds.
const FARTHEST: f64 = 30.0;

/// The start number that brings the ball through the middle of the mouth: equal clearance to both
/// mouth points. Found to 1e-11 diamonds or to rounding.
///
/// # Errors
/// [`NoAnswer::NoExactStart`] when no start does (the ball stops, or meets something else), and for
/// a refused launch.
pub fn exact_start(bank: &Bank, contact: f64, launch: Launch) -> Result<f64, NoAnswer> {
    let launch = launch.validated(bank.geometry().span_m)?;
    let miss = |start: f64| {
        let outcome = bank.play_validated(Line::new(contact, start), launch);
        outcome.miss_m().ok_or_else(|| outcome.verdict())
    };
    let lost = |from: f64, to: f64, verdict: BankVerdict| NoAnswer::NoExactStart {
        contact,
        from,
        to,
        verdict: verdict.name(),
    };
    let (low, high) = bracket(contact, &miss).map_err(|(a, b, verdict)| lost(a, b, verdict))?;
    if low.1 == 0.0 {
        return Ok(low.0);
    }
    let (start, left) =
        bracketed_root(&miss, low, high).map_err(|verdict| lost(low.0, high.0, verdict))?;
    // A jump over zero is no root.
    if left.abs() > 1e-6 {
        return Err(lost(low.0, high.0, BankVerdict::OtherRail));
    }
    Ok(start)
}

type SpeedSample = (f64, f64);

/// Two starts whose misses differ in sign, stepping outwards from the guess.
fn bracket(
    contact: f64,
    miss: &impl Fn(f64) -> Result<f64, BankVerdict>,
) -> Result<(SpeedSample, SpeedSample), (f64, f64, BankVerdict)> {
    let guess = FIRST_GUESS * contact;
    let mut here = (guess, miss(guess).map_err(|verdict| (guess, guess, verdict))?);
    // A line that starts further along comes off further along: too long means start nearer. For a
    // pocket played from its other side everything is mirrored.
    let sense = if contact < 0.0 { -1.0 } else { 1.0 };
    let mut step = if here.1 > 0.0 { -0.125 } else { 0.125 } * sense;
    while (here.0 - contact).abs() < FARTHEST {
        let next = here.0 + step;
        let there =
            (next, miss(next).map_err(|verdict| (guess.min(next), guess.max(next), verdict))?);
        if (there.1 > 0.0) != (here.1 > 0.0) {
            return Ok(if here.0 < there.0 { (here, there) } else { (there, here) });
        }
        here = there;
        step *= 1.6;
    }
    Err((guess.min(here.0), guess.max(here.0), BankVerdict::OtherRail))
}

/// The least and the greatest start number around `start` with which the bank still holds; `None` when it
/// does not hold from there (the first places where it breaks, looked for in steps of 0.01 diamonds).
pub fn holding_starts(bank: &Bank, contact: f64, launch: Launch, start: f64) -> Option<(f64, f64)> {
    const STEP: f64 = 0.01;
    let launch = launch.validated(bank.geometry().span_m).ok()?;
    let holds = |start: f64| {
        bank.play_validated(Line::new(contact, start), launch).verdict() == BankVerdict::Holds
    };
    if !holds(start) {
        return None;
    }
    let end = |sense: f64| {
        let mut last = start;
        while (last - start).abs() < FARTHEST {
            let next = last + sense * STEP;
            if !holds(next) {
                return edge(last, next, holds);
            }
            last = next;
        }
        last
    };
    Some((end(-1.0), end(1.0)))
}

/// The error of the aim, to either side, with which the bank still holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AimMargin {
    /// Turn towards long, rad.
    pub long_rad: f64,
    /// Turn towards short, rad.
    pub short_rad: f64,
    /// The same towards long, as a change of start number, diamonds.
    pub long_diamonds: f64,
    /// The same towards short, diamonds.
    pub short_diamonds: f64,
}

/// The angles by which the line may be turned about the ball's place, to either side, while the bank
/// holds (the first place where it breaks, looked for in steps of 0.25 mrad).
///
/// # Errors
/// [`NoAnswer::DoesNotHold`] when it does not hold as it is, or a refused launch.
pub fn aim_margin(bank: &Bank, line: Line, launch: Launch) -> Result<AimMargin, NoAnswer> {
    let launch = launch.validated(bank.geometry().span_m)?;
    let turned = |turn: f64| {
        let aim_error_rad = launch.aim_error_rad + turn;
        bank.play_validated(line, Launch { aim_error_rad, ..launch })
    };
    let straight = turned(0.0);
    if straight.verdict() != BankVerdict::Holds {
        return Err(NoAnswer::DoesNotHold { verdict: straight.verdict() });
    }
    let margin = |sense: f64| {
        const STEP: f64 = 0.25e-3;
        let holds = |turn: f64| turned(turn * sense).verdict() == BankVerdict::Holds;
        let mut last = 0.0;
        // Past a quarter turn nothing can hold.
        while last < 1.6 {
            let next = last + STEP;
            if !holds(next) {
                return sense * edge(last, next, holds);
            }
            last = next;
        }
        sense * last
    };
    let (a, b) = (margin(1.0), margin(-1.0));
    // Turning the line along the rail makes a frozen ball's bank longer, but moves the contact of a
    // ball off the rail, which makes it shorter: ask the outcome which is which.
    let a_is_long = turned(a).miss_m() >= turned(b).miss_m();
    let (long, short) = if a_is_long { (a, b) } else { (b, a) };
    let change =
        |turn: f64| (start_number(bank, &turned(turn)) - start_number(bank, &straight)).abs();
    Ok(AimMargin {
        long_rad: long.abs(),
        short_rad: short.abs(),
        long_diamonds: change(long),
        short_diamonds: change(short),
    })
}

/// Where the ball's line, extended backwards, crosses the opposite groove, diamonds.
fn start_number(bank: &Bank, outcome: &Outcome) -> f64 {
    let ball = outcome.launch;
    let back = ball.position.y / ball.velocity.y;
    (ball.position.x - ball.velocity.x * back) / bank.geometry().diamond_m
}
