//! A group told by the other axis of its map, where that says more: `any speed up to contact 2.5`.

use super::counts::{FindingAxis, FindingGroup, noun};
use super::stretch::{Stretch, Told, stretch};

/// The other axis is taken where all holds at so many times more of its values. Chosen.
const SAYS_MORE: f64 = 1.5;

/// Where along an axis a group holds: at its values, or at all of them for a run of the other axis' values.
pub(super) fn answer(along: &FindingAxis, group: &FindingGroup, good: &str) -> Stretch {
    let plain = stretch(along, &group.counts, good);
    let Some((axis, counts)) = &group.across else { return plain };
    let (by_along, by_across) =
        (Told::new(along, &group.counts, good), Told::new(axis, counts, good));
    let nearly_all = ["any ", "nearly any "].iter().any(|it| plain.words().starts_with(it));
    if nearly_all || by_across.whole_share() <= SAYS_MORE * by_along.whole_share() {
        return plain;
    }
    let Some(run) = by_across.one_run() else { return plain };
    let any = format!("any {} {run}", noun(&along.name));
    Stretch::Whole(match plain {
        Stretch::Whole(told) => format!("{any}, else {told}"),
        Stretch::Part(_) | Stretch::Nowhere => any,
    })
}
