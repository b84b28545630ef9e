//! A group told by the other axis of its map, where that says more: `any speed up to contact 2.5`.

use super::counts::{FindingAxis, FindingCount, FindingGroup, noun};
use super::rectangle::Rectangle;
use super::stretch::{PLAYABLE, Stretch, Told, stretch, sureness_of};

/// The other axis is taken where all holds at so many times more of its values. Chosen.
const SAYS_MORE: f64 = 1.5;

/// A part that holds throughout is told where it is so large a share of the map. Chosen.
const LARGE: f64 = 0.3;
/// It is told beside the values at which all holds where it is so many times larger. Chosen.
const LARGER: f64 = 1.2;

/// Where along an axis a group holds: at its values, at all of them for a run of the other axis' values, or, where
/// neither holds throughout, in the largest part of the map that does.
pub(super) fn answer(along: &FindingAxis, group: &FindingGroup, good: &str) -> Stretch {
    let plain = stretch(along, &group.counts, good);
    let Some(other) = &group.across else { return plain };
    let counts = other.counts();
    let (by_along, by_across) =
        (Told::new(along, &group.counts, good), Told::new(&other.axis, &counts, good));
    let nearly_all = ["any ", "nearly any "].iter().any(|it| plain.words().starts_with(it));
    if nearly_all {
        return plain;
    }
    let part = || {
        let (part, area) = in_part(&by_along, &by_across, &other.cells)?;
        match &plain {
            Stretch::Whole(told) => {
                let whole =
                    by_along.whole_share() * other.cells.iter().map(Vec::len).sum::<usize>() as f64;
                let larger = area as f64 > LARGER * whole;
                // Words on what can be played say of how many.
                let of_all = if told.contains(PLAYABLE) { "" } else { " for all" };
                larger.then(|| Stretch::Whole(format!("{part}; {told}{of_all}")))
            }
            _ => Some(Stretch::Whole(part)),
        }
    };
    if by_across.whole_share() <= SAYS_MORE * by_along.whole_share() {
        return part().unwrap_or(plain);
    }
    let Some(run) = by_across.one_run() else { return part().unwrap_or(plain) };
    let any = format!("any {}{run}", noun(&along.name));
    Stretch::Whole(match plain {
        Stretch::Whole(told) => format!("{any}, else {told}"),
        Stretch::Part(_) | Stretch::Nowhere => any,
    })
}

/// The largest part of a map that holds throughout: `3.25 m/s or more, from contact 1.75 on`.
fn in_part(along: &Told, across: &Told, cells: &[Vec<FindingCount>]) -> Option<(String, usize)> {
    if !along.has_runs() || !across.has_runs() {
        return None;
    }
    let row = |at: &usize| across.order().iter().map(|other| cells[*at][*other]).collect();
    let ordered: Vec<Vec<FindingCount>> = along.order().iter().map(row).collect();
    let found = Rectangle::of(&ordered, LARGE)?;
    let within = &ordered[found.along.0..=found.along.1];
    let within = within.iter().flat_map(|row| &row[found.across.0..=found.across.1]);
    let sureness = sureness_of(FindingCount::of(within.copied()));
    let [one, other] = [along.any_or_run(found.along), across.run_behind(found.across)];
    Some((format!("{one}, {other}{sureness}"), found.area()))
}
