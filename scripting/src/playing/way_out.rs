//! What would hold where nothing that was asked for does: found by playing, never by a rule of thumb.

use super::{ADVISED_M_S, BankQuestion};
use railproof_engine::bank::{BankVerdict, Launch, exact_start, holding_starts};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Reading};
use railproof_engine::rule::{NamedRule, Rule};
use railproof_engine::sweep::{Axis, Input, Plan, StartRow, Values, compare, exact_starts, rank};

/// A sweep is looked at in so many banks at most, spread over its axes.
const MOST_POINTS: usize = 150;
/// Slopes are tried in steps of this, the size in which a head reckons.
const SLOPES_PER_ONE: f64 = 20.0;
const MOST_SLOPES: usize = 60;
/// A bank's slope is looked for among these multiples of its contact number.
const CONTACTS_ABOUT: [f64; 5] = [0.7, 0.85, 1.0, 1.15, 1.3];
/// Contact numbers beside the one that was asked for, diamonds.
const CONTACT_STEP: f64 = 0.25;
const MOST_CONTACT_STEPS: i32 = 12;
/// Speeds beside the one that was asked for differ by this factor, and are told to a tenth.
const SPEED_RATIO: f64 = 1.1;
const MOST_SPEED_STEPS: i32 = 16;

/// The rule start = slope × contact, groove reading, that holds the most of some banks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittingSlope {
    /// Diamonds of start per diamond of contact.
    pub slope: f64,
    /// The banks that it holds.
    pub holds: u64,
    /// The banks that were looked at.
    pub of: u64,
    /// The least and the greatest slope that any of them asks for to go through the middle of the mouth.
    pub wanted: (f64, f64),
}

impl FittingSlope {
    /// The share of the banks that it holds.
    pub fn share(&self) -> f64 {
        self.holds as f64 / self.of as f64
    }

    /// For the banks of a sweep, whatever starts it gives; `None` where none of those looked at has a start that goes
    /// through the middle of the mouth.
    pub fn of(plan: &Plan) -> Option<Self> {
        let plan = thinned(plan).filter(|plan| !has_slow_model(plan))?;
        let wanted = |row: &StartRow| {
            let start = row.start.as_ref().ok()?;
            (row.contact != 0.0).then(|| start / row.contact)
        };
        let wanted: Vec<f64> =
            exact_starts(&plan, &|| ()).ok()?.iter().filter_map(wanted).collect();
        let least = wanted.iter().copied().reduce(f64::min)?;
        let most = wanted.iter().copied().reduce(f64::max)?;
        let slopes = tried(least, most);
        let rule = |slope: &f64| Rule::linear(*slope, 0.0, Reading::Groove).map(NamedRule::from);
        let rules: Vec<NamedRule> = slopes.iter().map(rule).collect::<Result<_, _>>().ok()?;
        let rows = compare(&plan, &rules, &|| ()).ok()?;
        let best = rank(&rows, rules.len()).into_iter().next()?;
        Some(Self {
            slope: slopes[best.rule],
            holds: best.tally.holds(),
            of: best.tally.played(),
            wanted: (least, most),
        })
    }

    /// For balls sent as this one, at contact numbers about its own; `None` unless it holds its own.
    pub fn of_bank(question: &BankQuestion) -> Option<Self> {
        let BankQuestion { bank, line, launch, .. } = question;
        let mut equipment = bank.equipment().clone();
        equipment.cushion.rail_model = bank.model();
        let number = |input, value| Axis { input, values: Values::Numbers(vec![value]) };
        let contacts = CONTACTS_ABOUT.map(|share| share * line.contact).to_vec();
        let axes = vec![
            Axis { input: Input::Equipment, values: Values::Equipment(vec![equipment]) },
            Axis { input: Input::Rail, values: Values::Rails(vec![question.rail]) },
            Axis { input: Input::Pocket, values: Values::Pockets(vec![question.pocket]) },
            Axis { input: Input::Contact, values: Values::Numbers(contacts) },
            number(Input::OffRail, launch.off_rail_m),
            number(Input::Speed, launch.speed_m_s),
            number(Input::Roll, launch.roll),
            number(Input::RunningSide, launch.side),
            number(Input::AimError, launch.aim_error_rad),
        ];
        let found = Self::of(&Plan::new(axes).ok()?)?;
        let own = Line { start: found.slope * line.contact, ..*line };
        let outcome = bank.play(own, *launch).ok()?;
        (outcome.verdict() == BankVerdict::Holds).then_some(found)
    }
}

/// Whether a rail model resolves contacts in time, which is too slow to be asked again and again.
fn has_slow_model(plan: &Plan) -> bool {
    plan.axes().iter().any(|axis| match &axis.values {
        Values::Models(models) => models.contains(&RailModel::Compliant),
        Values::Equipment(tables) => {
            tables.iter().any(|table| table.cushion.rail_model == RailModel::Compliant)
        }
        _ => false,
    })
}

/// Round slopes from the least to the greatest that any bank asks for.
fn tried(least: f64, most: f64) -> Vec<f64> {
    let (first, last) = ((least * SLOPES_PER_ONE).floor(), (most * SLOPES_PER_ONE).ceil());
    let step = ((last - first) / MOST_SLOPES as f64).ceil().max(1.0);
    let steps = (0..=MOST_SLOPES).map(|at| first + at as f64 * step);
    steps.take_while(|at| *at <= last).map(|at| at / SLOPES_PER_ONE).collect()
}

/// A sweep without starts of its own, of few values along each axis, its ends among them.
fn thinned(plan: &Plan) -> Option<Plan> {
    let mut axes: Vec<Axis> =
        plan.axes().iter().filter(|axis| axis.input != Input::Start).cloned().collect();
    for axis in &mut axes {
        if let Values::Range(span) = &axis.values {
            let middle = f64::midpoint(span.low, span.high);
            axis.values = Values::Numbers(vec![span.low, middle, span.high]);
        }
    }
    let size = |axes: &[Axis]| axes.iter().map(|axis| axis.values.len()).product::<usize>();
    while size(&axes) > MOST_POINTS {
        let longest = axes.iter_mut().max_by_key(|axis| axis.values.len())?;
        let keep = (longest.values.len() / 2 + 1).min(longest.values.len() - 1);
        longest.values = spread(&longest.values, keep);
    }
    Plan::new(axes).ok()
}

/// As many of the values, evenly among them, the first and the last of them.
fn spread(values: &Values, keep: usize) -> Values {
    fn some<T: Clone>(all: &[T], keep: usize) -> Vec<T> {
        let last = keep.max(2) - 1;
        (0..keep).map(|at| all[at * (all.len() - 1) / last].clone()).collect()
    }
    match values {
        Values::Numbers(all) => Values::Numbers(some(all, keep)),
        Values::Range(span) => Values::Range(*span),
        Values::Equipment(all) => Values::Equipment(some(all, keep)),
        Values::Rails(all) => Values::Rails(some(all, keep)),
        Values::Pockets(all) => Values::Pockets(some(all, keep)),
        Values::Models(all) => Values::Models(some(all, keep)),
    }
}

/// A bank beside the one that was asked for, which goes through the middle of the mouth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearestBank {
    /// Its line.
    pub line: Line,
    /// Its speed, m/s.
    pub speed_m_s: f64,
}

impl NearestBank {
    /// The nearest speed at which the contact number has a start, and the nearest contact number that has one at the
    /// speed.
    pub fn of(question: &BankQuestion) -> Vec<Self> {
        let BankQuestion { bank, line, launch, .. } = question;
        let holding = |contact: f64, speed_m_s: f64| {
            let launch = Launch { speed_m_s, ..*launch };
            let start = exact_start(bank, contact, launch).ok()?;
            holding_starts(bank, contact, launch, start)?;
            Some(Self { line: Line { contact, start }, speed_m_s })
        };
        let outwards = |most: i32| (1..=most).flat_map(|step| [f64::from(step), f64::from(-step)]);
        let speeds = outwards(MOST_SPEED_STEPS)
            .map(|step| (10.0 * launch.speed_m_s * libm::pow(SPEED_RATIO, step)).round() / 10.0);
        let geometry = bank.geometry();
        let rail = geometry.low_groove_m..=geometry.high_groove_m;
        let contacts = outwards(MOST_CONTACT_STEPS).map(|step| {
            let from = (line.contact / CONTACT_STEP).round() * CONTACT_STEP;
            from + step * CONTACT_STEP
        });
        let speed = speeds
            .filter(|speed_m_s| (ADVISED_M_S.0..=ADVISED_M_S.1).contains(speed_m_s))
            .find_map(|speed_m_s| holding(line.contact, speed_m_s));
        let contact = contacts
            .filter(|contact| rail.contains(&(contact * geometry.diamond_m)))
            .find_map(|contact| holding(contact, launch.speed_m_s));
        speed.into_iter().chain(contact).collect()
    }
}
