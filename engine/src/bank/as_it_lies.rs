//! The line that makes a bank of a ball which lies off the rail and stays there.

use super::{Bank, BankVerdict, Launch};
use crate::rail::Line;
use crate::root::bracketed_root;

/// Contact numbers are tried in so many steps to either side, diamonds.
const STEPS: u32 = 75;
const STEP: f64 = 0.02;

/// The line nearest to this one that goes through the same place `launch.off_rail_m` from the rail, on which the ball
/// comes through the middle of the mouth. `None` for a ball on the rail, where the contact is its place, and where no
/// line near this one holds.
pub fn line_as_it_lies(bank: &Bank, line: Line, launch: Launch) -> Option<Line> {
    let launch = launch.validated(bank.geometry().span_m).ok()?;
    let share = launch.off_rail_m / bank.geometry().span_m;
    if share == 0.0 {
        return None;
    }
    let place = line.contact + share * (line.start - line.contact);
    let through = |contact: f64| Line { contact, start: contact + (place - contact) / share };
    let miss = |contact: f64| bank.play_validated(through(contact), launch).miss_m().ok_or(());
    let asked = (line.contact, miss(line.contact).ok()?);
    let nearest = |sense: f64| {
        let mut last = asked;
        for step in 1..=STEPS {
            let contact = line.contact + sense * STEP * f64::from(step);
            let next = (contact, miss(contact).ok()?);
            if (next.1 > 0.0) != (last.1 > 0.0) {
                let (low, high) = if sense > 0.0 { (last, next) } else { (next, last) };
                let found = through(bracketed_root(miss, low, high).ok()?.0);
                let holds = bank.play_validated(found, launch).verdict() == BankVerdict::Holds;
                return holds.then_some(found);
            }
            last = next;
        }
        None
    };
    let away = |found: &Line| (found.contact - line.contact).abs();
    [-1.0, 1.0].into_iter().filter_map(nearest).min_by(|a, b| away(a).total_cmp(&away(b)))
}
