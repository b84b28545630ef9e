//! Why a bank breaks at an edge that holds further in.

use crate::bank::{Bank, Launch, Outcome};
use crate::equipment::{Equipment, RailModel};
use crate::rail::Line;

/// A factor is a cause when with the value it has further in at least this share of the change of
/// the miss is gone.
const LEAST_SHARE: f64 = 0.3;
/// Changes of the miss below this are not explained, m.
const LEAST_CHANGE_M: f64 = 1e-3;

/// What at the rail, or after it, may differ between an edge and further in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Factor {
    /// Roll at the rail, as a fraction of natural roll; negative is draw.
    Roll,
    /// Side at the rail over the speed, positive running.
    Side,
    /// The restitution that acted.
    Restitution,
    /// How far the ball went along the rail while that held it, m.
    CarriedAlong,
    /// The speed off the rail, m/s, by which the ball slides on, and its path bends, further.
    SlidingOn,
    /// Where and at which angle the ball met the rail: the angle from the rail's normal, rad.
    Line,
}

impl Factor {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Roll,
        Self::Side,
        Self::Restitution,
        Self::CarriedAlong,
        Self::SlidingOn,
        Self::Line,
    ];

    /// The name used in files and scripts.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Roll => "roll",
            Self::Side => "side",
            Self::Restitution => "restitution",
            Self::CarriedAlong => "carried-along",
            Self::SlidingOn => "sliding-on",
            Self::Line => "line",
        }
    }
}

/// Something that makes a bank break at an edge.
///
/// The bank at the edge is sent off again from the rail, as it met it; then with one factor as it
/// was at the place of most room further in. A factor that takes much of the change of the miss
/// away is a cause. The shares of all factors need not add up to 1: they act on each other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cause {
    /// What differs.
    pub factor: Factor,
    /// Its value at the edge.
    pub at_edge: f64,
    /// Its value further in.
    pub inside: f64,
    /// The share of the change of the miss that it makes.
    pub share: f64,
}

/// A bank from the rail on, as its factors.
#[derive(Debug, Clone, Copy)]
struct FromRail {
    line: Line,
    speed_m_s: f64,
    incidence_rad: f64,
    roll: f64,
    side: f64,
    restitution: f64,
    carried_m: f64,
    speed_off_m_s: f64,
    /// The speed that the times at and after the rail are scaled by.
    carried_as_at_m_s: f64,
    sliding_as_at_m_s: f64,
}

impl FromRail {
    fn of(bank: &Bank, outcome: &Outcome) -> Option<Self> {
        let (at_rail, rebound) = (outcome.at_rail?, outcome.rebound?);
        let (state, geometry) = (at_rail.state, bank.geometry());
        let radius = bank.equipment().ball.radius_m();
        let speed_m_s = state.velocity.norm();
        let sense = if state.velocity.x > 0.0 { 1.0 } else { -1.0 };
        let back = geometry.span_m / geometry.diamond_m / state.velocity.y;
        Some(Self {
            line: Line::new(at_rail.contact, at_rail.contact - state.velocity.x * back),
            speed_m_s,
            incidence_rad: at_rail.incidence_rad(),
            roll: state.natural_roll_fraction(radius)?,
            side: sense * radius * state.spin.z / speed_m_s,
            restitution: rebound.restitution,
            carried_m: (rebound.departure - at_rail.contact).abs() * geometry.diamond_m,
            speed_off_m_s: rebound.state.velocity.norm(),
            carried_as_at_m_s: speed_m_s,
            sliding_as_at_m_s: speed_m_s,
        })
    }

    /// The same with one factor as another has it.
    fn with(mut self, factor: Factor, other: &Self) -> Self {
        match factor {
            Factor::Roll => self.roll = other.roll,
            Factor::Side => self.side = other.side,
            Factor::Restitution => self.restitution = other.restitution,
            Factor::CarriedAlong => self.carried_as_at_m_s = other.carried_as_at_m_s,
            Factor::SlidingOn => self.sliding_as_at_m_s = other.sliding_as_at_m_s,
            Factor::Line => self.line = other.line,
        }
        self
    }

    fn value(&self, factor: Factor) -> f64 {
        match factor {
            Factor::Roll => self.roll,
            Factor::Side => self.side,
            Factor::Restitution => self.restitution,
            Factor::CarriedAlong => self.carried_m,
            Factor::SlidingOn => self.speed_off_m_s,
            Factor::Line => self.incidence_rad,
        }
    }

    /// The miss of this bank, m.
    ///
    /// At another speed and with its spins in proportion a ball that comes off the rail goes the
    /// same way when the cloth's decelerations are scaled with the speed's square, and so does one
    /// that the rail carries along for as much less time.
    fn miss_m(&self, table: &Bank) -> Option<f64> {
        let mut equipment: Equipment = table.equipment().clone();
        equipment.cushion.cloth_friction = Some(equipment.impact_cloth_friction());
        equipment.cushion.restitution = self.restitution;
        equipment.cushion.restitution_loss_s_m = 0.0;
        equipment.cushion.contact_time_s *= self.carried_as_at_m_s / self.speed_m_s;
        let slower = self.speed_m_s / self.sliding_as_at_m_s;
        equipment.cloth.sliding_friction *= slower * slower;
        equipment.cloth.rolling_resistance *= slower * slower;
        equipment.cloth.pivot_deceleration_rad_s2 *= slower * slower;
        let geometry = table.geometry();
        let bank = Bank::new(&equipment, geometry.rail, geometry.pocket, table.model()).ok()?;
        let launch = Launch {
            off_rail_m: 0.0,
            speed_m_s: self.speed_m_s,
            roll: self.roll,
            side: self.side,
            aim_error_rad: 0.0,
        };
        bank.play_validated(self.line, launch.validated(geometry.span_m).ok()?).miss_m()
    }
}

/// The causes of the break at an edge, the strongest first, against a bank that holds further in,
/// on the tables they were played on; and how many banks were played to find them. None when one of
/// them never came off the rail or to the mouth, when the miss hardly differs, or when no factor
/// makes enough of the difference.
pub(super) fn causes(
    (edge_table, edge): (&Bank, &Outcome),
    (inside_table, inside): (&Bank, &Outcome),
) -> (Vec<Cause>, u64) {
    let mut causes = Vec::new();
    let pair = (FromRail::of(edge_table, edge), FromRail::of(inside_table, inside));
    let (Some(here), Some(there)) = pair else { return (causes, 0) };
    // The compliant model's impact follows from the contact time and the stepped springs, so
    // neither its restitution nor that time can be set alone.
    let fixed = |factor: &Factor| {
        edge_table.model() == RailModel::Compliant
            && matches!(factor, Factor::Restitution | Factor::CarriedAlong)
    };
    let misses = (here.miss_m(edge_table), there.miss_m(inside_table));
    let mut played = 2;
    let (Some(miss), Some(miss_inside)) = misses else { return (causes, played) };
    let change = miss - miss_inside;
    if change.abs() < LEAST_CHANGE_M {
        return (causes, played);
    }
    for factor in Factor::ALL.into_iter().filter(|factor| !fixed(factor)) {
        let (at_edge, inside) = (here.value(factor), there.value(factor));
        if at_edge == inside {
            continue;
        }
        played += 1;
        let Some(without) = here.with(factor, &there).miss_m(edge_table) else { continue };
        let share = (miss - without) / change;
        if share >= LEAST_SHARE {
            causes.push(Cause { factor, at_edge, inside, share });
        }
    }
    causes.sort_by(|a, b| b.share.total_cmp(&a.share));
    (causes, played)
}
