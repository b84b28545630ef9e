//! The chance of every ball over start number and spread of reading, ready to be looked up.

use super::HeadRule;
use super::chance_sheet::ChanceSheet;
use super::corrections::SeenBall;
use super::rule_block::{BLOCK, OfRules, RuleBlock};
use crate::chance::{HoldWindows, Skill};
use crate::rail::Reading;
use rayon::prelude::*;

/// The chances of many balls for one person.
#[derive(Debug, Clone)]
pub struct Ground {
    balls: Vec<GroundBall>,
}

/// One ball: how rules' lines pass through it, and its chances.
#[derive(Debug, Clone)]
pub(super) struct GroundBall {
    pub(super) seen: SeenBall,
    number: f64,
    /// In the groove, then through the sights.
    readings: [ReadBall; 2],
    /// The spread with which its contact is read.
    misread: f64,
    off_rail_m: f64,
    skill: Skill,
    end: f64,
    chances: ChanceSheet,
}

/// A ball as one reading sees it.
#[derive(Debug, Clone, Copy)]
struct ReadBall {
    /// Its place between the line where contacts are read (0) and that where starts are (1).
    fraction: f64,
    /// The growth of the start number in the groove with the mark that is read.
    start_per_mark: f64,
    /// The spread of that number for whoever aims at the contact that was read.
    by_contact: f64,
}

impl Ground {
    /// Of hold windows and a person, for rules of slopes up to `steepest`.
    pub fn new(windows: &HoldWindows, skill: &Skill, steepest: f64) -> Self {
        let balls = (0..windows.conditions().len())
            .into_par_iter()
            .map(|at| GroundBall::of(windows, at, skill, steepest))
            .collect();
        Self { balls }
    }

    /// The number of balls.
    pub fn len(&self) -> usize {
        self.balls.len()
    }

    /// True without balls.
    pub fn is_empty(&self) -> bool {
        self.balls.is_empty()
    }

    pub(super) fn balls(&self) -> &[GroundBall] {
        &self.balls
    }

    /// The mean chance of a rule.
    pub fn chance(&self, rule: &HeadRule) -> f64 {
        self.chances(std::slice::from_ref(rule))[0]
    }

    /// The mean chance of each rule; rules in blocks share their turn at each ball's sheet.
    pub fn chances(&self, rules: &[HeadRule]) -> Vec<f64> {
        let of_block = |block: &[HeadRule]| {
            let lines = RuleBlock::of(block);
            let mut sums = vec![0.0; block.len()];
            let mut tenths = [0.0; BLOCK];
            for ball in &self.balls {
                for (rule, tenths) in block.iter().zip(&mut tenths) {
                    *tenths = f64::from(rule.corrections.for_ball(ball.seen));
                }
                let chances = ball.chances(&lines, &tenths);
                sums.iter_mut().zip(chances).for_each(|(sum, chance)| *sum += chance);
            }
            let balls = self.balls.len().max(1) as f64;
            for sum in &mut sums {
                *sum /= balls;
            }
            sums
        };
        rules.par_chunks(BLOCK).flat_map_iter(of_block).collect()
    }
}

impl GroundBall {
    fn of(windows: &HoldWindows, at: usize, skill: &Skill, steepest: f64) -> Self {
        let condition = &windows.conditions()[at];
        let geometry = windows.geometry(at);
        let end = geometry.high_end_number();
        let misread = skill.contact_read_at(condition.off_rail_m);
        let readings = [Reading::Groove, Reading::Sight].map(|reading| {
            let outside_m = geometry.read_outside_m(reading);
            ReadBall {
                fraction: (outside_m + condition.off_rail_m) / (geometry.span_m + 2.0 * outside_m),
                start_per_mark: windows.places(at).start_per_mark(outside_m),
                by_contact: misread * windows.places(at).start_per_contact(outside_m),
            }
        });
        let least =
            readings[1].start_per_mark * skill.mark_spread(condition.off_rail_m, 1.0, 0.0, end);
        let farthest = condition.number.abs() * steepest;
        let most = skill.mark_spread(condition.off_rail_m, steepest, farthest, end);
        Self {
            seen: SeenBall::of(condition),
            number: condition.number,
            readings,
            misread,
            off_rail_m: condition.off_rail_m,
            skill: *skill,
            end,
            chances: ChanceSheet::of(windows, at, skill.aim_rad, (least, most)),
        }
    }

    /// The chance with each rule of a block, to which so many tenths are added.
    pub(super) fn chances(&self, block: &RuleBlock, tenths: &OfRules) -> OfRules {
        let mut places = [(0.0, 0.0); BLOCK];
        for at in 0..block.rules.min(BLOCK) {
            places[at] = self.place(block, at, tenths[at]);
        }
        let mut chances = [0.0; BLOCK];
        for (chance, place) in chances.iter_mut().zip(places).take(block.rules) {
            *chance = self.chances.at(place);
        }
        chances
    }

    /// Where the start of a rule's line and its spread stand in the sheet.
    #[inline]
    fn place(&self, block: &RuleBlock, at: usize, tenths: f64) -> (f64, f64) {
        let [groove, sight] = &self.readings;
        let sees = |groove: f64, sight: f64| if block.sights[at] { sight } else { groove };
        let (first, second, bend) = (block.slope[at], block.second[at], block.bend[at]);
        let far = sees(groove.fraction, sight.fraction);
        let near = 1.0 - far;
        let start_per_mark = sees(groove.start_per_mark, sight.start_per_mark);
        let offset = 0.1 * (block.offset[at] + tenths);
        // Where the line through the bend passes the ball's distance off the rail.
        let bend_start = first * bend + offset;
        let past = self.number > near * bend + far * bend_start;
        let slope = if past { second } else { first };
        let offset = if past { bend_start - second * bend } else { offset };
        let contact = (self.number - far * offset) / (near + far * slope);
        let mark = slope * contact + offset;
        let start = self.number + (mark - self.number) * start_per_mark;
        let slope_at = |contact: f64| if contact > bend { second } else { first };
        let growth = 0.5 * (slope_at(contact - self.misread) + slope_at(contact + self.misread));
        let by_mark = start_per_mark * self.mark_spread(growth, mark);
        let spread = by_mark.min(sees(groove.by_contact, sight.by_contact));
        self.chances.place(start, spread)
    }

    #[inline]
    fn mark_spread(&self, growth: f64, mark: f64) -> f64 {
        self.skill.mark_spread(self.off_rail_m, growth, mark, self.end)
    }
}
