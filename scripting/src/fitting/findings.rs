//! The findings of a fit.

use super::asked::{ASKED, asked, first};
use super::{MeasuredTable, MissFindings, NextBanks, NumberUnit, TableOrigin};
use crate::fault::Fault;
use crate::measured::{FilmRows, Measurements};
use railproof_engine::ask::{CredibleInterval, SlopeAnswer, TiedNumbers, best_slopes};
use railproof_engine::bank::{Bank, BankError};
use railproof_engine::ensemble::{Ensemble, Member, MemberNumber};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::evidence::{Evidence, FilmExpected, LIKELY_SLIP, MeasuredBank};
use railproof_engine::misfit::Misfit;
use railproof_engine::narrow::{NarrowSettings, Narrowed, narrow_watched};
use railproof_engine::units::short_number;
use std::borrow::Cow;

/// The question of a fit.
#[derive(Debug, Clone)]
pub struct FitQuestion {
    /// The sizes of the table and its ball.
    pub table: Equipment,
    /// The table's profile gives its lengths in inches.
    pub in_inches: bool,
    /// The rail model.
    pub model: RailModel,
    /// The banks.
    pub measurements: Measurements,
    /// The films.
    pub films: FilmRows,
    /// The sampler's settings.
    pub settings: NarrowSettings,
}

/// A number before and after the banks.
#[derive(Debug, Clone)]
pub struct NumberFindings {
    /// The number of a member; none for a combination of them.
    pub number: Option<MemberNumber>,
    /// Its name in a word or two.
    pub title: Cow<'static, str>,
    /// The unit in which it is told.
    pub unit: NumberUnit,
    /// Before the banks.
    pub before: CredibleInterval,
    /// After them.
    pub after: CredibleInterval,
}

impl NumberFindings {
    /// The width that is left, as a share.
    pub fn left(&self) -> f64 {
        self.after.width() / self.before.width()
    }

    /// Banks that leave nine tenths of the width say nothing of a number.
    pub fn is_determined(&self) -> bool {
        self.left() < NOT_DETERMINED
    }
}

const NOT_DETERMINED: f64 = 0.9;

/// A measured bank beside what the ensemble expects of it.
#[derive(Debug, Clone, Copy)]
pub struct PredictedBank {
    /// The bank.
    pub bank: MeasuredBank,
    /// The line of the file.
    pub line: usize,
    /// The place that the other banks let expect along the unrolled rails, of table and shot together, m; `None`
    /// where no member's ball comes to one.
    pub expected_m: Option<CredibleInterval>,
    /// The chance that its result is a slip.
    pub slip: f64,
}

impl PredictedBank {
    /// Whether its result is rather a slip than not.
    pub fn is_likely_slip(&self) -> bool {
        self.slip > LIKELY_SLIP
    }
}

/// All that a fit finds.
#[derive(Debug, Clone)]
pub struct FitFindings {
    /// The table as it is known now.
    pub known: MeasuredTable,
    /// The sampler's own findings.
    pub narrowed: Narrowed,
    /// What its members say.
    pub told: TableFindings,
    /// The banks.
    pub predicted: Vec<PredictedBank>,
    /// The films, as the other ones and the banks let expect them.
    pub films: Vec<FilmExpected>,
    /// Whether the numbers that were read agree with any table that could be; `None` for too few.
    pub misfit: Option<Misfit>,
}

/// What the members of a table say, beside what was known before.
#[derive(Debug, Clone)]
pub struct TableFindings {
    /// The members' numbers, and combinations of them.
    pub numbers: Vec<NumberFindings>,
    /// Numbers that are known together better than apart.
    pub tied: Vec<TiedNumbers>,
    /// The best slope before and after.
    pub slope: NumberFindings,
    /// The next banks worth measuring.
    pub next: NextBanks,
}

/// Members before the banks, for intervals.
const BEFORE: usize = 1024;

impl FitFindings {
    /// Why the bank on this line of the file missed, as far as the other banks can tell; `None` where no bank
    /// stands there.
    ///
    /// # Errors
    /// [`BankError`] for a table without the bank.
    pub fn why_missed(&self, line: usize) -> Option<Result<MissFindings, BankError>> {
        let at = self.predicted.iter().position(|bank| bank.line == line)?;
        let members = self.known.ensemble.members().to_vec();
        let ensemble = Ensemble::weighted(members, without(&self.narrowed, at));
        let others = MeasuredTable { ensemble, ..self.known.clone() };
        Some(MissFindings::of(&others, self.predicted[at].bank))
    }

    /// No measured bank stands on this line.
    pub fn no_bank_at(&self, line: usize) -> Fault {
        let fault = Fault::bad_input(format!("line {line} of the file holds no measured bank"));
        match (self.predicted.first(), self.predicted.last()) {
            (Some(first), Some(last)) => fault.with_hint(format!(
                "banks stand on lines {} to {}; lines are counted as an editor counts them",
                first.line, last.line
            )),
            _ => fault,
        }
    }

    /// Fits.
    ///
    /// # Errors
    /// [`BankError`] for a table without the banks.
    pub fn of(question: &FitQuestion) -> Result<Self, BankError> {
        Self::watched(question, &|_, _| ())
    }

    /// As [`Self::of`]; `watch` is told of each stage and of the power that it reached.
    ///
    /// # Errors
    /// As [`Self::of`].
    pub fn watched(question: &FitQuestion, watch: &dyn Fn(usize, f64)) -> Result<Self, BankError> {
        let FitQuestion { table, model, measurements, films, settings, .. } = question;
        let evidence =
            Evidence::new(table, *model, measurements.banks.clone())?.with_films(&films.films);
        let narrowed = narrow_watched(&evidence, *settings, watch)?;
        let mut known = MeasuredTable {
            table: table.clone(),
            in_inches: question.in_inches,
            model: *model,
            ensemble: narrowed.ensemble.clone(),
            origin: TableOrigin::Banks(measurements.banks.len() + films.films.len()),
            seed: settings.seed,
            square_speeds: Vec::new(),
        };
        known.square_speeds = square_speeds(question, &known)?;
        let slips = evidence.chances_of_a_slip(&narrowed.log_likelihoods);
        Ok(Self {
            told: TableFindings::of(&known)?,
            misfit: Misfit::of(&evidence.read_numbers(known.ensemble.members(), &slips)?),
            predicted: predicted(question, &evidence, &narrowed, &slips)?,
            films: evidence.films_expected(known.ensemble.members()),
            known,
            narrowed,
        })
    }
}

impl TableFindings {
    /// Asks the members of a table.
    ///
    /// # Errors
    /// [`BankError`] for a table without the banks.
    pub fn of(known: &MeasuredTable) -> Result<Self, BankError> {
        let MeasuredTable { table, model, ensemble, seed, .. } = known;
        let wide = Ensemble::wide(BEFORE, *seed);
        let some = asked(known);
        let slopes = best_slopes(table, *model, &some)?;
        let before = best_slopes(table, *model, &first(&wide, ASKED))?;
        Ok(Self {
            numbers: numbers(&wide, ensemble, &known.square_speeds),
            tied: TiedNumbers::of(ensemble),
            slope: NumberFindings {
                number: None,
                title: "best slope".into(),
                unit: NumberUnit::plain(2),
                before: interval(&before),
                after: interval(&slopes),
            },
            next: NextBanks::usual(known, &some, &slopes.slopes)?,
        })
    }
}

pub(super) fn interval(slopes: &SlopeAnswer) -> CredibleInterval {
    let nothing = (f64::NAN, f64::NAN);
    slopes.interval.unwrap_or(CredibleInterval { middle: f64::NAN, half: nothing, ninety: nothing })
}

fn numbers(before: &Ensemble, after: &Ensemble, speeds: &[f64]) -> Vec<NumberFindings> {
    let of = |ensemble: &Ensemble, value: &dyn Fn(&Member) -> f64| {
        let values: Vec<f64> = ensemble.members().iter().map(value).collect();
        CredibleInterval::of(&values, ensemble.weights())
    };
    let both = |number, title: Cow<'static, str>, unit, value: &dyn Fn(&Member) -> f64| {
        Some(NumberFindings {
            number,
            title,
            unit,
            before: of(before, value)?,
            after: of(after, value)?,
        })
    };
    let single = MemberNumber::all().map(|number| {
        let value = move |member: &Member| member.value(number);
        both(Some(number), number.title().into(), NumberUnit::of(number), &value)
    });
    let speeds = if speeds.is_empty() { &[SQUARE_SPEED_M_S] } else { speeds };
    let at_speeds = speeds.iter().map(|&speed_m_s| {
        let title = format!("restitution at {} m/s", short_number(speed_m_s, 1));
        let value = move |member: &Member| {
            member.value(MemberNumber::Restitution)
                - speed_m_s * member.value(MemberNumber::RestitutionLoss)
        };
        both(None, title.into(), NumberUnit::plain(3), &value)
    });
    single.chain(at_speeds).flatten().collect()
}

/// The speed square to the rail at which restitution is told where nothing was measured, m/s.
const SQUARE_SPEED_M_S: f64 = 2.0;
/// The step to which such speeds are told, m/s.
const SPEED_STEP_M_S: f64 = 0.5;

/// The slowest, the middle and the fastest speed square to the rail with which the measured balls came there, m/s: those
/// of the banks as the middle table plays them.
fn square_speeds(question: &FitQuestion, known: &MeasuredTable) -> Result<Vec<f64>, BankError> {
    let films = question.films.films.iter();
    let mut speeds: Vec<f64> = films.map(|film| film.told[0] * film.told[1].cos()).collect();
    if let Some(member) = known.ensemble.middle_member() {
        let equipment = member.equipment(&known.table);
        for MeasuredBank { set_up, .. } in &question.measurements.banks {
            let bank = Bank::new(&equipment, set_up.rail, set_up.pocket, known.model)?;
            let played = bank.play(set_up.line, set_up.launch(&equipment)).ok();
            speeds.extend(played.and_then(|it| it.at_rail).map(|it| it.state.velocity.y.abs()));
        }
    }
    let mut steps: Vec<f64> = speeds
        .into_iter()
        .filter(|speed| speed.is_finite())
        .map(|speed| (speed / SPEED_STEP_M_S).round().max(1.0) * SPEED_STEP_M_S)
        .collect();
    steps.sort_by(f64::total_cmp);
    steps.dedup();
    Ok(match steps.as_slice() {
        [first, .., last] if steps.len() > 3 => vec![*first, steps[steps.len() / 2], *last],
        _ => steps,
    })
}

fn predicted(
    question: &FitQuestion,
    evidence: &Evidence,
    narrowed: &Narrowed,
    slips: &[f64],
) -> Result<Vec<PredictedBank>, BankError> {
    let members = narrowed.ensemble.members();
    let places = evidence.predictions(members, question.settings.seed)?;
    let banks = question.measurements.banks.iter().zip(&question.measurements.lines);
    Ok(banks
        .zip(places.iter().zip(slips))
        .enumerate()
        .map(|(at, ((&bank, &line), (places, &slip)))| PredictedBank {
            bank,
            line,
            expected_m: CredibleInterval::of(places, &without(narrowed, at)),
            slip,
        })
        .collect())
}

/// The weights of members that have not seen a bank: by one over its likelihood, which a slip's chance keeps from
/// nothing; A. Gelfand, D. Dey and H. Chang 1992, *Model determination using predictive distributions*, Bayesian
/// Statistics 4:147–167.
pub(super) fn without(narrowed: &Narrowed, bank: usize) -> Vec<f64> {
    let logs = narrowed.log_likelihoods.iter().map(|row| -row[bank]);
    let most = logs.clone().fold(f64::NEG_INFINITY, f64::max);
    logs.map(|log| libm::exp(log - most)).collect()
}
