//! Friction between balls that changes with their slip while they are in contact.
//!
//! The slip u falls along its own direction by (7/2)·μ(u)/m per normal impulse, m = m₁m₂/(m₁ + m₂), for
//! a tangential impulse moves the surface of a uniform ball alike in every tangential direction. So
//! with s = (7/2)·Pn/m the whole contact is du/ds = −μ(u) in one dimension, until u is nothing.

use crate::equipment::{BallContact, FrictionLaw};
use core::f64::consts::LN_10;

/// The slip that a contact takes away, m/s: at most `slip_m_s`, and exactly that where it stops.
///
/// `impulse_m_s` is s above, not negative. The exponential law is in closed form; the log-linear one is
/// integrated to rounding.
pub(super) fn slip_lost_m_s(contact: &BallContact, slip_m_s: f64, impulse_m_s: f64) -> f64 {
    if slip_m_s <= 0.0 || impulse_m_s <= 0.0 {
        return 0.0;
    }
    match contact.friction_law {
        FrictionLaw::Exponential => exponential(contact, slip_m_s, impulse_m_s),
        FrictionLaw::LogLinear => log_linear(contact, slip_m_s, impulse_m_s),
    }
}

/// With w = e^(c·u) the law μ = a + b·e^(−c·u) makes dw/ds = −c·(a·w + b), which is linear: with
/// x = a·c·s and g = b·c·s·(1 − e^(−x))/x it ends at w = e^(c·u₀ − x) − g, and the slip stops at w = 1.
fn exponential(contact: &BallContact, slip: f64, impulse: f64) -> f64 {
    let fall = contact.friction_fall_s_m;
    let x = contact.friction_far * fall * impulse;
    let share = if x > 0.0 { -libm::expm1(-x) / x } else { 1.0 };
    let left = fall * slip - x;
    let grip = contact.friction_rise * fall * impulse * share * libm::exp(-left);
    if left <= 0.0 || grip >= -libm::expm1(-left) {
        return slip;
    }
    ((x - libm::log1p(-grip)) / fall).min(slip)
}

/// Stretch by stretch of the law, downwards.
fn log_linear(contact: &BallContact, slip: f64, impulse: f64) -> f64 {
    let [low, middle, high] =
        [contact.friction_at_0_1, contact.friction_at_1, contact.friction_at_10];
    // From above a slip, friction there, and how much it grows when the slip grows e-fold.
    let stretches = [
        (10.0, high, 0.0),
        (1.0, middle, (high - middle) / LN_10),
        (0.1, low, (middle - low) / LN_10),
        (0.0, low, 0.0),
    ];
    // Friction that only rises as the slip falls ends what its first value already ends.
    if low >= middle && middle >= high && contact.friction_at(slip) * impulse >= slip {
        return slip;
    }
    let mut flow = SlipFlow { slip, left: impulse, lost: 0.0 };
    for (end, at_end, growth) in stretches {
        if flow.slip <= end {
            continue;
        }
        let over = if growth == 0.0 {
            flow.evenly(end, at_end)
        } else {
            flow.unevenly(end, contact.friction_at(flow.slip), growth)
        };
        if over {
            return flow.lost.min(slip);
        }
    }
    slip
}

/// Longest piece in the logarithm of the slip; in it friction changes at most twofold as well, so that
/// ten nodes are exact to rounding.
const LONGEST: f64 = 1.2;

/// The greatest share of the slip at which [`SlipPiece::series`] may guess, and correct to rounding.
const GUESSED: f64 = 0.5;
const CORRECTED: f64 = 1e-3;

/// Gauss-Legendre of ten nodes on −1..1: nodes and weights, each for both signs.
const NODES: [(f64, f64); 5] = [
    (0.148_874_338_981_631_22, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_35),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

/// A contact on its way.
struct SlipFlow {
    /// Slip now, m/s.
    slip: f64,
    /// Impulse that is left, m/s.
    left: f64,
    /// Slip lost so far, m/s.
    lost: f64,
}

impl SlipFlow {
    /// Under one friction down to a slip; true when the impulse ends before.
    fn evenly(&mut self, end: f64, friction: f64) -> bool {
        let room = self.slip - end;
        let takes = friction * self.left;
        if takes < room {
            self.lost += takes;
            return true;
        }
        self.left -= room / friction;
        self.lost += room;
        self.slip = end;
        false
    }

    /// Under a friction that grows by `growth` when the slip grows e-fold, down to a slip; true when the
    /// impulse ends before.
    fn unevenly(&mut self, end: f64, friction: f64, growth: f64) -> bool {
        let mut piece = SlipPiece { slip: self.slip, friction, growth };
        loop {
            let takes = piece.friction * self.left;
            // So little that friction does not change, and what has come to rest on a slip without
            // friction.
            if takes <= 1e-18 * piece.slip {
                self.lost += takes.max(0.0);
                return true;
            }
            let full = libm::log(piece.slip / end);
            if full <= 0.0 {
                // Rounding has taken the last piece to the end or a hair past it.
                self.slip = end;
                return false;
            }
            let steps = if growth > 0.0 { 0.5 } else { 1.0 };
            let length = full.min(LONGEST).min(steps * piece.friction / growth.abs());
            let share = takes / piece.slip;
            let guess = if piece.is_small(share, GUESSED) { piece.series(share) } else { length };
            match piece.end_of(self.left, guess.clamp(0.0, length), length) {
                PieceEnd::After(found) => {
                    self.lost += piece.loses(found);
                    return true;
                }
                PieceEnd::Beyond(needs) => {
                    self.left -= needs;
                    self.lost += piece.loses(length);
                }
            }
            if length >= full {
                self.slip = end;
                return false;
            }
            piece = piece.after(length);
        }
    }
}

/// Where an impulse ends.
enum PieceEnd {
    /// After this length of a piece.
    After(f64),
    /// Beyond the piece, which takes so much, m/s.
    Beyond(f64),
}

/// A piece of the log-linear law, followed downwards: after a length δ the slip is u·e^(−δ) and the
/// friction μ − growth·δ.
struct SlipPiece {
    slip: f64,
    friction: f64,
    growth: f64,
}

impl SlipPiece {
    fn after(&self, length: f64) -> Self {
        Self {
            slip: self.slip * libm::exp(-length),
            friction: self.friction - self.growth * length,
            growth: self.growth,
        }
    }

    /// Slip lost over a length.
    fn loses(&self, length: f64) -> f64 {
        -self.slip * libm::expm1(-length)
    }

    /// Impulse over a length, ∫ du/μ.
    fn impulse(&self, length: f64) -> f64 {
        let half = 0.5 * length;
        let middle = self.friction - self.growth * half;
        let mut sum = 0.0;
        for (node, weight) in NODES {
            let grown = libm::exp(half * node);
            let change = self.growth * half * node;
            sum += weight * (grown / (middle + change) + 1.0 / (grown * (middle - change)));
        }
        self.slip * libm::exp(-half) * half * sum
    }

    /// Whether a share of the slip, and what it changes in friction, is below a bound.
    fn is_small(&self, share: f64, bound: f64) -> bool {
        share.abs() * (1.0 + (self.growth / self.friction).abs()) < bound
    }

    /// The length after an impulse that, under the friction at the piece's beginning, would take this
    /// share of the slip: its first four powers.
    fn series(&self, share: f64) -> f64 {
        let bend = self.growth / self.friction;
        let (first, second) = (1.0 - bend, 1.0 - 2.0 * bend);
        let third = second + first * first;
        let fourth = 1.0 - 3.0 * bend + first * (4.0 * second + first * first);
        share * (1.0 + share / 2.0 * (first + share / 3.0 * (third + share / 4.0 * fourth)))
    }

    /// Where an impulse ends, from a guess of its length in a piece that is `longest` long.
    fn end_of(&self, impulse: f64, guess: f64, longest: f64) -> PieceEnd {
        let (mut low, mut high) = (0.0, longest);
        let mut length = guess;
        loop {
            let takes = self.impulse(length);
            let left = impulse - takes;
            if left > 0.0 {
                low = length;
                if low >= longest {
                    return PieceEnd::Beyond(takes);
                }
            } else {
                high = length;
            }
            let here = self.after(length);
            let share = left * here.friction / here.slip;
            let next = length + here.series(share.clamp(-GUESSED, GUESSED));
            if here.is_small(share, CORRECTED) || high - low <= 1e-15 * high {
                return if next <= longest {
                    PieceEnd::After(next.max(0.0))
                } else {
                    PieceEnd::Beyond(self.impulse(longest).min(impulse))
                };
            }
            // A step out of what is known to hold it is halved.
            length = if next > low && next < high {
                next
            } else if left > 0.0 && high == longest {
                longest
            } else {
                0.5 * (low + high)
            };
        }
    }
}
