//! The lasting parts of a bank's place, member by member.

use super::MissCause;
use crate::bank::BankError;
use crate::column::{Hand, SetUp, columns};
use crate::ensemble::{Ensemble, Member, MemberNumber};
use crate::equipment::{Equipment, RailModel};

/// Where each member's exact shot comes to, in parts that add up.
#[expect(clippy::struct_field_names, reason = "each carries its unit")]
pub(super) struct LastingParts {
    /// The line's own place: the mean over the tables, sent exactly, m.
    pub(super) line_m: f64,
    /// Each table's place, sent exactly, m; NaN where it comes to none.
    pub(super) exact_m: Vec<f64>,
    /// Table, aim, side and speed word: the parts of each member, m.
    pub(super) parts_m: Vec<[f64; LASTING]>,
}

/// The lasting causes but the line.
pub(super) const LASTING: usize = 4;
/// They, in the order of their parts.
pub(super) const CAUSES: [MissCause; LASTING] =
    [MissCause::Table, MissCause::AimAlways, MissCause::SideAlways, MissCause::SpeedWord];

const SPEED_WORDS: [MemberNumber; 3] =
    [MemberNumber::Soft, MemberNumber::Medium, MemberNumber::Firm];

impl LastingParts {
    pub(super) fn of(
        table: &Equipment,
        model: RailModel,
        ensemble: &Ensemble,
        set_up: &SetUp,
    ) -> Result<Self, BankError> {
        let members = ensemble.members();
        let usual_words = SPEED_WORDS.map(|number| mean_place(ensemble, number));
        let without = |aim: bool, side: bool, speed: bool| -> Result<Vec<f64>, BankError> {
            let others: Vec<Member> = members
                .iter()
                .map(|member| {
                    let mut other = *member;
                    // The middle of a bias is none.
                    if aim {
                        other.place[MemberNumber::AimBias.place()] = 0.5;
                    }
                    if side {
                        other.place[MemberNumber::SideBias.place()] = 0.5;
                    }
                    if speed {
                        for (number, usual) in SPEED_WORDS.iter().zip(usual_words) {
                            other.place[number.place()] = usual;
                        }
                    }
                    other
                })
                .collect();
            let column = columns(table, model, &others, &[*set_up], Hand::Members)?.remove(0);
            Ok(column.iter().map(|landing| landing.along_m).collect())
        };
        let whole = without(false, false, false)?;
        let no_aim = without(true, false, false)?;
        let no_side = without(false, true, false)?;
        let no_speed = without(false, false, true)?;
        let exact_m = without(true, true, true)?;
        let known =
            || exact_m.iter().zip(ensemble.weights()).filter(|(place, _)| place.is_finite());
        let weight: f64 = known().map(|(_, weight)| weight).sum();
        let line_m = known().map(|(place, weight)| place * weight).sum::<f64>() / weight;
        let parts_m = (0..members.len())
            .map(|at| {
                let (aim, side) = (whole[at] - no_aim[at], whole[at] - no_side[at]);
                let speed = whole[at] - no_speed[at];
                [whole[at] - aim - side - speed - line_m, aim, side, speed]
            })
            .collect();
        Ok(Self { line_m, exact_m, parts_m })
    }
}

fn mean_place(ensemble: &Ensemble, number: MemberNumber) -> f64 {
    let weighted = ensemble.members().iter().zip(ensemble.weights());
    weighted.map(|(member, weight)| member.place[number.place()] * weight).sum()
}
