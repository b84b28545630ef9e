//! The numbers that the banks tell best, pair by pair.

use super::page::{NO_BANK, picture};
use crate::fitting::{FitFindings, NumberUnit};
use crate::picture::{FitBody, FitPicture, PairAxis, PairPanel};
use crate::telling::amounts::grouped;
use crate::telling::capital;
use railproof_engine::ask::CredibleInterval;
use railproof_engine::ensemble::{Member, MemberNumber};
use railproof_engine::units::short_number;

/// Numbers that are drawn with each other.
const BEST: usize = 4;
/// Points of a panel.
const MOST_POINTS: usize = 600;
/// Numbers that go together less are told each by itself.
const TOGETHER: f64 = 0.3;

/// The picture of the pairs.
pub fn pairs_picture(found: &FitFindings) -> FitPicture {
    let members = found.known.ensemble.members();
    let pairs = pairs(found);
    let panels: Vec<PairPanel> = pairs.iter().map(|pair| panel(members, *pair)).collect();
    let step = step(members);
    let notes = (step > 1).then(|| {
        let drawn = members.iter().step_by(step).count();
        let all = grouped(members.len() as u64);
        format!("{drawn} of {all} tables are drawn, evenly spread.")
    });
    let asked = "Which numbers do the banks pin down only together?";
    let title = title(found, &pairs);
    picture(found, &title, asked, FitBody::Pairs(panels), notes.into_iter().collect())
}

/// All pairs of the best-determined numbers, and restitution against its loss; the closest tie first.
fn pairs(found: &FitFindings) -> Vec<(MemberNumber, MemberNumber)> {
    let mut told: Vec<(f64, MemberNumber)> = found
        .told
        .numbers
        .iter()
        .filter(|it| it.is_determined())
        .filter_map(|it| it.number.map(|number| (it.left(), number)))
        .collect();
    told.sort_by(|a, b| a.0.total_cmp(&b.0));
    told.truncate(BEST);
    let mut pairs = Vec::new();
    for (index, (_, first)) in told.iter().enumerate() {
        pairs.extend(told[index + 1..].iter().map(|(_, second)| (*first, *second)));
    }
    let one = (MemberNumber::Restitution, MemberNumber::RestitutionLoss);
    if !pairs.iter().any(|pair| *pair == one || *pair == (one.1, one.0)) {
        pairs.push(one);
    }
    let members = found.known.ensemble.members();
    let tie = |pair| correlation(members, pair).unwrap_or(0.0).abs();
    pairs.sort_by(|a, b| tie(*b).total_cmp(&tie(*a)));
    pairs
}

fn title(found: &FitFindings, pairs: &[(MemberNumber, MemberNumber)]) -> String {
    if found.predicted.is_empty() {
        return NO_BANK.to_owned();
    }
    let members = found.known.ensemble.members();
    let closest = pairs.first().and_then(|pair| Some((correlation(members, *pair)?, *pair)));
    match closest {
        Some((tie, (first, second))) if tie.abs() >= TOGETHER => capital(&format!(
            "{} and {} show together (correlation {})",
            first.title(),
            second.title(),
            short_number(tie, 2)
        )),
        _ => "The banks pin down each of these numbers by itself".to_owned(),
    }
}

/// Only each so many is drawn.
fn step(members: &[Member]) -> usize {
    members.len().div_ceil(MOST_POINTS).max(1)
}

fn panel(members: &[Member], (first, second): (MemberNumber, MemberNumber)) -> PairPanel {
    let units = (NumberUnit::of(first), NumberUnit::of(second));
    let axis = |number: MemberNumber, unit: NumberUnit| {
        let values: Vec<f64> = members.iter().map(|it| it.value(number) / unit.si).collect();
        let even = vec![1.0; values.len()];
        let ninety = CredibleInterval::of(&values, &even).map_or((0.0, 0.0), |it| it.ninety);
        PairAxis { title: unit.titled(number.title()), ninety }
    };
    let tie = correlation(members, (first, second));
    PairPanel {
        caption: tie.map_or_else(
            || "one of them is the same on all".to_owned(),
            |tie| format!("correlation {}", short_number(tie, 2)),
        ),
        x: axis(first, units.0),
        y: axis(second, units.1),
        points: members
            .iter()
            .step_by(step(members))
            .map(|it| (it.value(first) / units.0.si, it.value(second) / units.1.si))
            .collect(),
    }
}

/// Pearson's correlation of two numbers over the members; none where one of them never differs.
fn correlation(members: &[Member], (first, second): (MemberNumber, MemberNumber)) -> Option<f64> {
    let count = members.len() as f64;
    let mean = |number| members.iter().map(|it| it.value(number)).sum::<f64>() / count;
    let (a, b) = (mean(first), mean(second));
    let (mut aa, mut bb, mut ab) = (0.0, 0.0, 0.0);
    for member in members {
        let (x, y) = (member.value(first) - a, member.value(second) - b);
        aa += x * x;
        bb += y * y;
        ab += x * y;
    }
    let tie = ab / (aa * bb).sqrt();
    tie.is_finite().then_some(tie)
}
