//! The likelihood of measured banks.

use super::draws::NormalDraws;
use super::films::Films;
use super::places::{Places, SPEEDS, ShotPlace};
use super::{FilmExpected, FilmedImpact, Levers, MeasuredBank, Seen};
use crate::bank::BankError;
use crate::column::{Hand, Landing, SetUp, over_members};
use crate::ensemble::Member;
use crate::equipment::{Equipment, RailModel};
use crate::normal::{density, share_below, share_between};

/// Measured banks, ready to be held against members.
#[derive(Debug, Clone)]
pub struct Evidence {
    table: Equipment,
    model: RailModel,
    banks: Vec<MeasuredBank>,
    levers: Vec<Levers>,
    /// All that a member plays, and where each bank's plays begin among them.
    plays: Vec<SetUp>,
    begins: Vec<usize>,
    films: Films,
}

impl Evidence {
    /// Makes ready.
    ///
    /// # Errors
    /// As [`over_members`].
    pub fn new(
        table: &Equipment,
        model: RailModel,
        banks: Vec<MeasuredBank>,
    ) -> Result<Self, BankError> {
        let shots: Vec<_> = banks.iter().map(|bank| (bank.set_up, bank.scatter)).collect();
        let levers = Levers::of(table, model, &shots)?;
        let (mut plays, mut begins) = (Vec::new(), Vec::new());
        for (bank, levers) in banks.iter().zip(&levers) {
            begins.push(plays.len());
            if levers.is_near_rest() {
                plays.extend(SPEEDS.map(|deviations| {
                    let ratio = bank.set_up.speed_ratio * (1.0 + deviations * bank.scatter.speed);
                    SetUp { speed_ratio: ratio, ..bank.set_up }
                }));
            } else {
                plays.push(bank.set_up);
            }
        }
        begins.push(plays.len());
        Ok(Self {
            table: table.clone(),
            model,
            banks,
            levers,
            plays,
            begins,
            films: Films::default(),
        })
    }

    /// The same with filmed impacts.
    #[must_use]
    pub fn with_films(mut self, films: &[FilmedImpact]) -> Self {
        self.films = Films::new(films);
        self
    }

    /// Each film as the others, and the banks, let these members expect it.
    pub fn films_expected(&self, members: &[Member]) -> Vec<FilmExpected> {
        self.films.expected(&self.table, self.model, members)
    }

    /// The banks.
    pub fn banks(&self) -> &[MeasuredBank] {
        &self.banks
    }

    /// The logarithm of each member's likelihood of every bank, and behind the banks of all films together where there
    /// are some: a row for each member.
    ///
    /// # Errors
    /// As [`over_members`].
    pub fn log_likelihoods(&self, members: &[Member]) -> Result<Vec<Vec<f64>>, BankError> {
        self.of_members(members, |member, seen| {
            let banks = (0..self.banks.len())
                .map(|bank| self.log_likelihood(bank, &self.places(seen, bank, member)));
            let films = (!self.films.is_empty())
                .then(|| self.films.log_likelihood(&self.table, self.model, member));
            banks.chain(films).collect()
        })
    }

    /// What `of` makes of each member and its landings, from any thread.
    fn of_members<T: Send>(
        &self,
        members: &[Member],
        of: impl Fn(&Member, &[Landing]) -> T + Sync,
    ) -> Result<Vec<T>, BankError> {
        over_members(&self.table, self.model, members, &self.plays, Hand::Members, of)
    }

    /// Where a member's shots of a bank come to, by the landings of all that it plays.
    fn places(&self, seen: &[Landing], bank: usize, member: &Member) -> Places {
        let (levers, scatter) = (&self.levers[bank], &self.banks[bank].scatter);
        let begin = self.begins[bank];
        if levers.is_near_rest() {
            let landings: [_; SPEEDS.len()] = core::array::from_fn(|speed| seen[begin + speed]);
            let (rest_m2, lever_m) = levers.apart_from_speed(member, scatter);
            let [_, others_m] = levers.bends_m(member);
            Places::over_speeds(&landings, rest_m2, scatter.speed, lever_m).moved(others_m)
        } else {
            let past_m = levers.bends_m(member).iter().sum();
            Places::about(&seen[begin], levers.variance_m2(member, scatter)).moved(past_m)
        }
    }

    /// Places where each bank could come to when these members' players send it again, m: a row for each bank,
    /// with one place of every member, scattered as its shots scatter and read as well as the measured one.
    ///
    /// # Errors
    /// As [`over_members`].
    pub fn predictions(&self, members: &[Member], seed: u64) -> Result<Vec<Vec<f64>>, BankError> {
        let seen = self.of_members(members, |_, seen| seen.to_vec())?;
        let draws = NormalDraws { seed, uses: 2 * self.banks.len() };
        let place = |bank: usize, at: usize, member: &Member| {
            let read_to_m = match self.banks[bank].seen {
                Seen::At { read_to_m, .. } => read_to_m,
                _ => 0.0,
            };
            let speed = share_below(draws.normal(at as u64, 2 * bank + 1));
            self.places(&seen[at], bank, member).at_share(speed).map_or(f64::NAN, |place| {
                let sd_m = (place.variance_m2 + read_to_m * read_to_m).sqrt();
                place.along_m + sd_m * draws.normal(at as u64, 2 * bank)
            })
        };
        Ok((0..self.banks.len())
            .map(|bank| {
                members.iter().enumerate().map(|(at, member)| place(bank, at, member)).collect()
            })
            .collect())
    }

    /// The numbers that were read of banks that are no likely slip, and what each member expects of them.
    ///
    /// # Errors
    /// As [`over_members`].
    pub fn read_numbers(
        &self,
        members: &[Member],
        slips: &[f64],
    ) -> Result<Vec<ReadNumber>, BankError> {
        let seen = self.of_members(members, |_, seen| seen.to_vec())?;
        let number = |(bank, measured): (usize, &MeasuredBank)| {
            let Seen::At { along_m, read_to_m } = measured.seen else { return None };
            if slips[bank] > LIKELY_SLIP {
                return None;
            }
            let (mut means_m, mut variances) = (Vec::with_capacity(members.len()), (0.0, 0.0));
            for (at, member) in members.iter().enumerate() {
                let told = self.places(&seen[at], bank, member).mean();
                means_m.push(told.map_or(f64::NAN, |(mean_m, _)| mean_m));
                if let Some((_, variance_m2)) = told {
                    variances = (variances.0 + variance_m2, variances.1 + 1.0);
                }
            }
            let of_shots_m2 = if variances.1 > 0.0 { variances.0 / variances.1 } else { 0.0 };
            Some(ReadNumber {
                bank,
                seen_m: along_m,
                means_m,
                variance_m2: of_shots_m2 + read_to_m * read_to_m,
            })
        };
        Ok(self.banks.iter().enumerate().filter_map(number).collect())
    }

    /// The chance that each bank's result is wrong altogether, over members of equal weight: by the rows that
    /// [`Evidence::log_likelihoods`] gives.
    pub fn chances_of_a_slip(&self, rows: &[Vec<f64>]) -> Vec<f64> {
        let chance = |bank: usize, row: &Vec<f64>| {
            let measured = &self.banks[bank];
            let whole = libm::exp(row[bank] / f64::from(measured.repeats));
            measured.scatter.wrong * measured.seen.by_chance() / whole
        };
        (0..self.banks.len())
            .map(|bank| rows.iter().map(|row| chance(bank, row)).sum::<f64>() / rows.len() as f64)
            .collect()
    }

    fn log_likelihood(&self, bank: usize, places: &Places) -> f64 {
        let measured = &self.banks[bank];
        let over = |likely: &dyn Fn(&ShotPlace) -> f64| -> f64 {
            places.all().iter().map(|place| place.share * likely(place)).sum()
        };
        let likely = match measured.seen {
            Seen::At { along_m, read_to_m } => {
                over(&|place| number_density(along_m, read_to_m, place))
            }
            Seen::Stops => places.stops(),
            word => over(&|place| word_share(word, place)),
        };
        let wrong = measured.scatter.wrong;
        f64::from(measured.repeats)
            * libm::log((1.0 - wrong) * likely + wrong * measured.seen.by_chance())
    }
}

/// A result that is a slip with this chance is taken for one.
pub const LIKELY_SLIP: f64 = 0.5;

/// A number that was read, and what each member expects of it.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadNumber {
    /// Which bank it was.
    pub bank: usize,
    /// The place that was read, along the unrolled rails, m.
    pub seen_m: f64,
    /// The mean place of each member's shots, m; NaN where they come to none.
    pub means_m: Vec<f64>,
    /// The variance of reading one of its shots, m².
    pub variance_m2: f64,
}

/// The density of a number that was read, over the member's shots about a place.
///
/// Only a ball that missed the mouth has a number: of the places from which this number is read, those in the mouth
/// are left out.
fn number_density(seen_m: f64, read_to_m: f64, place: &ShotPlace) -> f64 {
    let (shot_m2, read_m2) = (place.variance_m2, read_to_m * read_to_m);
    let whole_m2 = shot_m2 + read_m2;
    let sd_m = whole_m2.sqrt();
    let came_to_m = (place.along_m * read_m2 + seen_m * shot_m2) / whole_m2;
    let within_m = (shot_m2 * read_m2 / whole_m2).sqrt().max(LEAST_SD_M);
    let (from, to) = place.mouth_m;
    let missed =
        share_below((from - came_to_m) / within_m) + share_below((came_to_m - to) / within_m);
    density((seen_m - place.along_m) / sd_m) / sd_m * missed
}

/// The share of a member's shots of which this word is said.
fn word_share(word: Seen, place: &ShotPlace) -> f64 {
    let sd_m = place.variance_m2.sqrt().max(LEAST_SD_M);
    let between = |from: f64, to: f64| {
        if to > from {
            share_between((from - place.along_m) / sd_m, (to - place.along_m) / sd_m)
        } else {
            0.0
        }
    };
    let (mouth_from, mouth_to) = place.mouth_m;
    let (from, to) = place.holds_m;
    // A ball that would rest before the mouth line holds nowhere.
    let is_known = from < to;
    let holds = if is_known { between(from.max(mouth_from), to.min(mouth_to)) } else { 0.0 };
    match word {
        Seen::Holds => holds,
        Seen::Touches => (between(mouth_from, mouth_to) - holds).max(0.0),
        Seen::Long => between(mouth_to, f64::INFINITY),
        Seen::Short => between(f64::NEG_INFINITY, mouth_from),
        Seen::Stops | Seen::At { .. } => 0.0,
    }
}

/// Nobody sends a ball more exactly, m.
const LEAST_SD_M: f64 = 1e-6;
