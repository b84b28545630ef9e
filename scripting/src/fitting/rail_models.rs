//! The same banks under every rail model that a fit can use.

use super::FitQuestion;
use super::asked::{ASKED, evenly};
use super::findings::{interval, without};
use railproof_engine::ask::{CredibleInterval, best_slopes};
use railproof_engine::bank::BankError;
use railproof_engine::column::{Hand, Landing, columns};
use railproof_engine::equipment::RailModel;
use railproof_engine::evidence::Evidence;
use railproof_engine::narrow::{NarrowSettings, Narrowed, narrow};
use railproof_engine::planning::usual_banks;

/// The models that are compared: the stepped one is too slow for a fit.
const MODELS: [RailModel; 3] = [RailModel::NoseAndCloth, RailModel::NoseOnly, RailModel::Planar];
/// Samplers run for each model; their spread is the error.
const RUNS: u64 = 3;
/// Members of each.
const MEMBERS: usize = 1024;
/// Beside the runs' spread: against plain weighting of 196,608 members a run's log evidence stood up to 0.1 high.
const LEAST_ERROR: f64 = 0.1;

/// What the banks say under one rail model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RailModelFit {
    /// The model.
    pub model: RailModel,
    /// The logarithm of the banks' chance under it, all its tables together.
    pub log_evidence: f64,
    /// Its standard error.
    pub error: f64,
    /// The sum over the banks of the logarithm of each one's chance by the others.
    pub left_out: f64,
    /// The best slope.
    pub slope: CredibleInterval,
    /// Where contact 2 from 4.4 comes to from 12 in off at 3 m/s, along the unrolled rails, m.
    pub off_rail_m: Option<CredibleInterval>,
}

/// Fits under every model; the likeliest first.
///
/// # Errors
/// [`BankError`] for a table without the banks.
pub fn rail_models(question: &FitQuestion) -> Result<Vec<RailModelFit>, BankError> {
    let mut fits = MODELS
        .into_iter()
        .map(|model| one(question, model))
        .collect::<Result<Vec<_>, BankError>>()?;
    fits.sort_by(|a, b| b.log_evidence.total_cmp(&a.log_evidence));
    Ok(fits)
}

fn one(question: &FitQuestion, model: RailModel) -> Result<RailModelFit, BankError> {
    let evidence = Evidence::new(&question.table, model, question.measurements.banks.clone())?
        .with_films(&question.films.films);
    let runs = (0..RUNS)
        .map(|run| {
            let seed = question.settings.seed + run;
            narrow(&evidence, NarrowSettings { members: MEMBERS, seed, ..question.settings })
        })
        .collect::<Result<Vec<Narrowed>, BankError>>()?;
    let mean = runs.iter().map(|run| run.log_evidence).sum::<f64>() / RUNS as f64;
    let off = |run: &Narrowed| (run.log_evidence - mean) * (run.log_evidence - mean);
    let variance = runs.iter().map(off).sum::<f64>() / (RUNS - 1) as f64;
    let last = &runs[0];
    let some = evenly(&last.ensemble, ASKED);
    // Far off the rail, where models differ most.
    let [_, far] = usual_banks();
    let column = columns(&question.table, model, some.members(), &[far], Hand::Exact)?.remove(0);
    let places: Vec<f64> = column.iter().map(|landing: &Landing| landing.along_m).collect();
    Ok(RailModelFit {
        model,
        log_evidence: mean,
        error: (variance / RUNS as f64 + LEAST_ERROR * LEAST_ERROR).sqrt(),
        left_out: (0..question.measurements.banks.len()).map(|bank| left_out(last, bank)).sum(),
        slope: interval(&best_slopes(&question.table, model, &some)?),
        off_rail_m: CredibleInterval::of(&places, some.weights()),
    })
}

/// The logarithm of a bank's chance by the others: that of the mean of one over its likelihood, turned round.
fn left_out(narrowed: &Narrowed, bank: usize) -> f64 {
    let least = narrowed.log_likelihoods.iter().map(|row| row[bank]).fold(f64::INFINITY, f64::min);
    let weights = without(narrowed, bank);
    least - libm::log(weights.iter().sum::<f64>() / weights.len() as f64)
}
