//! Edges between holding and breaking over all tables of an ensemble: along an input, where the share of tables
//! that hold passes 95, 50 and 5 of a hundred.

use super::{Agreement, MemberShare};

/// The share of tables that hold at one place along an input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShareLook {
    /// The place.
    pub place: f64,
    /// The share there.
    pub share: MemberShare,
}

/// The shares that a band tells of, from sure to hold down to sure to miss.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ShareLevel {
    /// 95 of a hundred.
    Sure,
    /// Half of them.
    Half,
    /// 5 of a hundred.
    Misses,
}

impl ShareLevel {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Sure, Self::Half, Self::Misses];

    /// The share.
    pub const fn share(self) -> f64 {
        match self {
            Self::Sure => 1.0 - MemberShare::APART,
            Self::Half => 0.5,
            Self::Misses => MemberShare::APART,
        }
    }

    /// True where so many tables or more hold; sides are taken as [`MemberShare::agreement`] takes them.
    fn is_reached(self, share: f64) -> bool {
        match self {
            Self::Sure | Self::Half => share >= self.share(),
            Self::Misses => share > self.share(),
        }
    }
}

/// A place where the share passes a level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShareCrossing {
    /// The level.
    pub level: ShareLevel,
    /// The place: midway between two looks that are no further apart than the tolerance.
    pub place: f64,
    /// From where to where it would lie with other members, twice the share's standard error either way. It
    /// ends with the searched range where the share does not change so much.
    pub range: (f64, f64),
    /// True where fewer tables hold above the place than below it.
    pub falls: bool,
}

/// A stretch of a line on which the tables agree, or don't.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AgreementStretch {
    /// What they say.
    pub agreement: Agreement,
    /// Its lower end.
    pub from: f64,
    /// Its upper end.
    pub to: f64,
}

/// One line of a band.
#[derive(Debug, Clone, PartialEq)]
pub struct BandLine {
    /// The looks, by their places.
    pub looks: Vec<ShareLook>,
    /// The share's crossings, by their places.
    pub crossings: Vec<ShareCrossing>,
}

/// Halvings of the distance between two looks.
const MOST_ROUNDS: usize = 60;

/// Searches lines: every probe first, then between each two looks between which the share passes a level, until
/// they are no further apart than `tolerance`. A change between two probes that leaves both on their side of
/// every level is not seen.
///
/// `shares` tells the share at places of lines; `effective` members say it.
///
/// # Errors
/// Those of `shares`.
pub fn search_band<E>(
    lines: usize,
    probes: &[f64],
    tolerance: f64,
    effective: f64,
    mut shares: impl FnMut(&[(usize, f64)]) -> Result<Vec<MemberShare>, E>,
) -> Result<Vec<BandLine>, E> {
    let mut looks: Vec<Vec<ShareLook>> = vec![Vec::new(); lines];
    let mut asked: Vec<(usize, f64)> =
        (0..lines).flat_map(|line| probes.iter().map(move |place| (line, *place))).collect();
    for _ in 0..MOST_ROUNDS {
        if asked.is_empty() {
            break;
        }
        for ((line, place), share) in asked.iter().zip(shares(&asked)?) {
            looks[*line].push(ShareLook { place: *place, share });
        }
        asked.clear();
        for (line, looks) in looks.iter_mut().enumerate() {
            looks.sort_by(|a, b| a.place.total_cmp(&b.place));
            let open = looks.windows(2).filter(|pair| {
                pair[1].place - pair[0].place > tolerance
                    && ShareLevel::ALL.into_iter().any(|level| is_between(level, pair))
            });
            asked.extend(open.map(|pair| (line, midway(pair))));
        }
    }
    Ok(looks
        .into_iter()
        .map(|looks| BandLine { crossings: crossings(&looks, effective), looks })
        .collect())
}

fn is_between(level: ShareLevel, pair: &[ShareLook]) -> bool {
    level.is_reached(pair[0].share.share) != level.is_reached(pair[1].share.share)
}

const fn midway(pair: &[ShareLook]) -> f64 {
    0.5 * (pair[0].place + pair[1].place)
}

fn crossings(looks: &[ShareLook], effective: f64) -> Vec<ShareCrossing> {
    let mut crossings = Vec::new();
    for (at, pair) in looks.windows(2).enumerate() {
        for level in ShareLevel::ALL.into_iter().filter(|level| is_between(*level, pair)) {
            let falls = level.is_reached(pair[0].share.share);
            let wanted = level.share();
            let off = 2.0 * (wanted * (1.0 - wanted) / effective).sqrt();
            let (more, fewer) = ((wanted + off).min(1.0), (wanted - off).max(0.0));
            let (below, above) = if falls { (more, fewer) } else { (fewer, more) };
            let place = midway(pair);
            let low = where_reached(looks[..=at].iter().rev(), place, wanted, below);
            let high = where_reached(looks[at + 1..].iter(), place, wanted, above);
            crossings.push(ShareCrossing { level, place, range: (low, high), falls });
        }
    }
    crossings
}

/// Where the share first comes to `wanted` on the way from a place with the share `share` through looks, on
/// straight lines between them; the last look where it never does.
fn where_reached<'a>(
    looks: impl Iterator<Item = &'a ShareLook>,
    mut place: f64,
    mut share: f64,
    wanted: f64,
) -> f64 {
    let rises = wanted > share;
    for look in looks {
        let there = look.share.share;
        if (rises && there >= wanted) || (!rises && there <= wanted) {
            let part = if there == share { 1.0 } else { (wanted - share) / (there - share) };
            return place + (look.place - place) * part;
        }
        (place, share) = (look.place, there);
    }
    place
}

impl BandLine {
    /// Its stretches, from the lowest place on.
    pub fn stretches(&self) -> Vec<AgreementStretch> {
        let Some(first) = self.looks.first() else { return Vec::new() };
        let stretch = |agreement, from| AgreementStretch { agreement, from, to: from };
        let mut stretches = vec![stretch(first.share.agreement(), first.place)];
        for pair in self.looks.windows(2) {
            let here = pair[1].share.agreement();
            let last = stretches.len() - 1;
            if here == stretches[last].agreement {
                stretches[last].to = pair[1].place;
            } else {
                let place = midway(pair);
                stretches[last].to = place;
                stretches.push(AgreementStretch { to: pair[1].place, ..stretch(here, place) });
            }
        }
        stretches
    }

    /// The crossings of a level.
    pub fn crossings_of(&self, level: ShareLevel) -> impl Iterator<Item = &ShareCrossing> {
        self.crossings.iter().filter(move |crossing| crossing.level == level)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Tables whose edges stand evenly from 2 to 4: the share that holds at x is (4 - x) / 2 between them.
    fn even(tables: u16, tolerance: f64) -> BandLine {
        let edges: Vec<f64> =
            (0..tables).map(|at| 2.0 + 2.0 * (f64::from(at) + 0.5) / f64::from(tables)).collect();
        let weights = vec![1.0 / f64::from(tables); usize::from(tables)];
        let shares = |asked: &[(usize, f64)]| -> Result<Vec<MemberShare>, ()> {
            let share = |x: f64| MemberShare::of(edges.iter().map(|edge| x < *edge), &weights);
            Ok(asked.iter().map(|(_, x)| share(*x)).collect())
        };
        let probes = [0.0, 1.0, 3.0, 6.0];
        let found = search_band(1, &probes, tolerance, f64::from(tables), shares);
        found.expect("no fault").remove(0)
    }

    #[test]
    fn edges_spread_evenly_give_their_own_quantiles() {
        let line = even(1000, 0.001);
        let places: Vec<f64> = line.crossings.iter().map(|crossing| crossing.place).collect();
        for (place, wanted) in places.iter().zip([2.1, 3.0, 3.9]) {
            // A table more or less is 0.002, a look 0.001.
            assert!((place - wanted).abs() <= 0.0025, "{places:?}");
        }
        let said: Vec<Agreement> = line.stretches().iter().map(|it| it.agreement).collect();
        assert_eq!(said, [Agreement::All, Agreement::Depends, Agreement::None]);
    }

    #[test]
    fn a_places_range_is_twice_the_error_of_its_share_over_the_shares_slope() {
        // The share falls by a half per unit: the place errs by twice as much as the share.
        let line = even(1000, 0.001);
        let half = line.crossings_of(ShareLevel::Half).next().expect("one");
        let wanted = 2.0 * 2.0 * (0.25_f64 / 1000.0).sqrt();
        for side in [half.place - half.range.0, half.range.1 - half.place] {
            assert!((side - wanted).abs() < 0.1 * wanted, "{half:?}, not {wanted}");
        }
    }

    #[test]
    fn looks_close_in_on_crossings_alone() {
        let line = even(1000, 0.001);
        // Four probes; the rest halves what is left round three crossings.
        assert!(line.looks.len() < 4 + 3 * 14, "{}", line.looks.len());
        assert!(line.looks.iter().filter(|look| look.place < 1.0 || look.place > 5.0).count() <= 3);
    }
}
