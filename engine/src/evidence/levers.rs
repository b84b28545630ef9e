//! The change of a bank's landing for a change of each cause.

use super::Scatter;
use crate::bank::BankError;
use crate::column::{Hand, Landings, SetUp, columns};
use crate::ensemble::{Ensemble, Member, MemberNumber};
use crate::equipment::{Equipment, RailModel};
use crate::rail::BankGeometry;
use nalgebra::{SMatrix, SVector};

/// The levers of one set-up: the change of its landing per unit of each cause, m, as planes over the members'
/// coordinates.
///
/// A plane is fitted by least squares to differences between banks one standard deviation to either side, on
/// [`Levers::MEMBERS`] wide members. A member's own levers would cost a dozen banks for each of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Levers {
    planes: [Plane; Scatter::CAUSES],
}

/// A constant and a slope for each coordinate.
type Plane = SVector<f64, TERMS>;
const TERMS: usize = MemberNumber::COUNT + 1;

impl Levers {
    /// The number of members on which planes are fitted.
    pub const MEMBERS: usize = 256;

    /// The levers of every set-up.
    ///
    /// # Errors
    /// As [`columns`].
    pub fn of(
        table: &Equipment,
        model: RailModel,
        shots: &[(SetUp, Scatter)],
    ) -> Result<Vec<Self>, BankError> {
        let wide = Ensemble::wide(Self::MEMBERS, 1);
        let seen = seen_either_side(table, model, wide.members(), shots)?;
        Ok(seen
            .chunks_exact(2 * Scatter::CAUSES)
            .zip(shots)
            .map(|(of_bank, (_, scatter))| Self {
                planes: core::array::from_fn(|cause| {
                    let (less, more) = (&of_bank[2 * cause], &of_bank[2 * cause + 1]);
                    let width = 2.0 * scatter.causes()[cause];
                    let levers = less.iter().zip(more).map(|(less, more)| {
                        if width > 0.0 { (more.along_m - less.along_m) / width } else { 0.0 }
                    });
                    plane(wide.members(), levers)
                }),
            })
            .collect())
    }

    /// The variance of a member's landing about its place, m².
    pub fn variance_m2(&self, member: &Member, scatter: &Scatter) -> f64 {
        let terms = terms(member);
        self.planes
            .iter()
            .zip(scatter.causes())
            .map(|(plane, sd)| {
                let moved_m = plane.dot(&terms) * sd;
                moved_m * moved_m
            })
            .sum()
    }
}

/// The mean variance of each shot's landing about its place over these members, m².
///
/// # Errors
/// As [`columns`].
pub fn mean_variances_m2(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    shots: &[(SetUp, Scatter)],
) -> Result<Vec<f64>, BankError> {
    let seen = seen_either_side(table, model, members, shots)?;
    Ok(seen
        .chunks_exact(2 * Scatter::CAUSES)
        .map(|of_bank| {
            let squares = of_bank.chunks_exact(2).map(|pair| {
                let (sum, count) = pair[0]
                    .iter()
                    .zip(&pair[1])
                    .map(|(less, more)| 0.5 * (more.along_m - less.along_m))
                    .filter(|moved_m| moved_m.is_finite())
                    .fold((0.0, 0.0), |(sum, count), moved_m| {
                        (sum + moved_m * moved_m, count + 1.0)
                    });
                if count > 0.0 { sum / count } else { 0.0 }
            });
            squares.sum()
        })
        .collect())
}

/// The landings of every shot with each cause one standard deviation less, then more.
fn seen_either_side(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    shots: &[(SetUp, Scatter)],
) -> Result<Vec<Landings>, BankError> {
    let mut moved = Vec::with_capacity(2 * Scatter::CAUSES * shots.len());
    for (set_up, scatter) in shots {
        let diamond_m = BankGeometry::new(table, set_up.rail, set_up.pocket)?.diamond_m;
        for cause in 0..Scatter::CAUSES {
            for sign in [-1.0, 1.0] {
                moved.push(with_cause(set_up, scatter, diamond_m, cause, sign));
            }
        }
    }
    columns(table, model, members, &moved, Hand::Exact)
}

fn with_cause(set_up: &SetUp, scatter: &Scatter, diamond_m: f64, cause: usize, sign: f64) -> SetUp {
    let mut moved = *set_up;
    let by = sign * scatter.causes()[cause];
    match cause {
        0 => moved.aim_error_rad += by,
        1 => moved.speed_ratio *= 1.0 + by,
        2 => moved.side += by,
        3 => moved.roll += by,
        4 => moved.line.contact += by / diamond_m,
        _ => moved.line.start += by / diamond_m,
    }
    moved
}

fn terms(member: &Member) -> Plane {
    let mut terms = Plane::zeros();
    terms[0] = 1.0;
    for (term, place) in terms.iter_mut().skip(1).zip(member.place) {
        *term = place - 0.5;
    }
    terms
}

/// The plane nearest to a lever that members have; members that have none are left out.
fn plane(members: &[Member], levers: impl Iterator<Item = f64>) -> Plane {
    let mut squares = SMatrix::<f64, TERMS, TERMS>::zeros();
    let mut products = Plane::zeros();
    for (member, lever) in members.iter().zip(levers).filter(|(_, lever)| lever.is_finite()) {
        let terms = terms(member);
        for row in 0..TERMS {
            for column in 0..TERMS {
                squares[(row, column)] += terms[row] * terms[column];
            }
            products[row] += terms[row] * lever;
        }
    }
    // A little of nothing, so that too few members give a flat plane.
    for at in 0..TERMS {
        squares[(at, at)] += 1e-6;
    }
    squares.cholesky().map_or_else(Plane::zeros, |factor| factor.solve(&products))
}
