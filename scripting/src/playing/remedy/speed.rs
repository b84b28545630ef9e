//! Another speed that makes the shot.

use super::RemedySearch;
use super::found::{CombinedChange, HitChange, SpeedChange, WrittenAim};
use crate::playing::ADVISED_M_S;
use railproof_engine::aim::{Sending, overcut};
use railproof_engine::stroke::Stroke;
use railproof_engine::units::Dimension;

/// They are told in about so small steps, m/s.
const STEP_M_S: f64 = 0.1;
/// A speed that fails when it is so much more or less is no remedy. Chosen: nobody meters finer.
const LEAST_ROOM: f64 = 0.03;
/// Rooms that are looked for first, the comfortable one before the other, and how far from the nearest speed. Chosen.
const COMFORTABLE_ROOMS: [f64; 2] = [0.15, 0.06];
const FURTHER: f64 = 2.0;

impl RemedySearch<'_> {
    /// The nearest comfortable speed, in the steps in which it is told; where none is near, the nearest that serves.
    pub(super) fn speed(&self, unit: &'static str) -> Option<SpeedChange> {
        let si = Dimension::Speed.si_of(unit);
        let asked = self.stroke.speed_m_s / si;
        let with_room = |amount: f64, room: f64| {
            let at = |share: f64| self.at_speed(amount * share * si);
            let makes = |share: f64| at(share).is_some_and(|stroke| self.makes(&stroke));
            let roomy = makes(1.0) && makes(1.0 - room) && makes(1.0 + room);
            let stroke = at(1.0).filter(|_| roomy)?;
            Some(SpeedChange { amount, unit, harder: amount > asked, stroke })
        };
        let told = self.told_speeds(si);
        let nearest = told.iter().find_map(|amount| with_room(*amount, LEAST_ROOM))?;
        let further = |amount: &f64| {
            let ratio =
                if nearest.harder { amount / nearest.amount } else { nearest.amount / amount };
            (1.0..=FURTHER).contains(&ratio)
        };
        let further: Vec<f64> = told.into_iter().filter(further).collect();
        let comfortable = COMFORTABLE_ROOMS
            .iter()
            .find_map(|room| further.iter().find_map(|amount| with_room(*amount, *room)));
        Some(comfortable.unwrap_or(nearest))
    }

    /// The nearest speed at which a hit that `overcut` solves for the line that was asked for makes it.
    pub(super) fn speed_and_hit(&self, unit: &'static str) -> Option<CombinedChange> {
        let asked = self.asked.filter(|asked| asked.by != Some(Sending::Overcut))?;
        let geared = asked.by == Some(Sending::Gear);
        let side_offset = if geared { 0.0 } else { self.stroke.side_offset };
        let si = Dimension::Speed.si_of(unit);
        let as_asked = self.stroke.speed_m_s / si;
        self.told_speeds(si).into_iter().find_map(|amount| {
            let at = |share: f64| {
                let speed_m_s = amount * share * si;
                let base = Stroke { speed_m_s, side_offset, ..self.stroke };
                let stroke = overcut(&self.setup, &base, asked.way).ok()?.stroke;
                self.makes(&stroke).then_some(stroke)
            };
            let stroke = at(1.0)?;
            let hit = self.told(&stroke)?;
            let roomy = at(1.0 - LEAST_ROOM).is_some() && at(1.0 + LEAST_ROOM).is_some();
            let written = WrittenAim::InPlaceOf(asked.key());
            let hit = HitChange { written, without_side: geared, ..hit };
            let speed = SpeedChange { amount, unit, harder: amount > as_asked, stroke };
            roomy.then_some(CombinedChange { hit, speed })
        })
    }

    /// The speeds in which one is told, in a unit, from the nearest on.
    fn told_speeds(&self, si: f64) -> Vec<f64> {
        let step = round_step(STEP_M_S / si);
        let (least, most) = (ADVISED_M_S.0 / si, ADVISED_M_S.1 / si);
        #[expect(clippy::cast_possible_truncation, reason = "some hundreds at most")]
        let steps = |amount: f64| (amount / step) as i32;
        let told = (steps(least)..=steps(most)).map(|count| {
            // Divided, not multiplied, so that 0.3 is the number that is read from "0.3".
            if step < 1.0 {
                f64::from(count) / (1.0 / step).round()
            } else {
                f64::from(count) * step
            }
        });
        let asked = self.stroke.speed_m_s / si;
        let mut told: Vec<f64> = told.filter(|it| (least..most).contains(it)).collect();
        let away = |amount: f64| libm::log(amount / asked).abs();
        told.sort_by(|a, b| away(*a).total_cmp(&away(*b)));
        told
    }

    /// The stroke as its layout would have it at another speed.
    fn at_speed(&self, speed_m_s: f64) -> Option<Stroke> {
        let stroke = Stroke { speed_m_s, ..self.stroke };
        match self.asked.and_then(|asked| Some((asked.by?, asked.way))) {
            Some((by, way)) => Some(by.solve(&self.setup, &stroke, way).ok()?.0),
            None => self.setup.raised(&stroke).ok(),
        }
    }
}

/// 1, 2 or 5 times a power of ten, not above this.
fn round_step(most: f64) -> f64 {
    let ten = libm::pow(10.0, libm::floor(libm::log10(most)));
    [5.0, 2.0, 1.0].into_iter().map(|it| it * ten).find(|it| *it <= most * 1.0001).unwrap_or(ten)
}
