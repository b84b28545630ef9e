//! The change of a bank's landing for a change of each cause.

use super::Scatter;
use crate::bank::BankError;
use crate::column::{Hand, Landing, Landings, SetUp, columns};
use crate::ensemble::{Ensemble, Member, MemberNumber};
use crate::equipment::{Equipment, RailModel};
use crate::rail::BankGeometry;
use nalgebra::{SMatrix, SVector};

/// The levers of one set-up: the change of its landing per unit of each cause, m, as planes over the members'
/// coordinates.
///
/// What the planes leave of the levers stands beside them as a variance; so does the bend of the places, which moves the
/// mean of scattered shots past the exact one.
///
/// A plane is fitted by least squares to differences between banks one standard deviation to either side, on
/// [`Levers::MEMBERS`] wide members. A member's own levers would cost a dozen banks for each of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Levers {
    planes: [Plane; Scatter::CAUSES],
    /// The mean square of what the planes leave of the levers.
    left: [f64; Scatter::CAUSES],
    /// How far the mean of scattered shots lies past the exact shot, m: the speed's share, and that of the others.
    bends: [Plane; 2],
    is_near_rest: bool,
}

/// The speed's place among the causes.
const SPEED: usize = 1;
/// The plays of one bank: either side of each cause, then exactly.
const PLAYS: usize = 2 * Scatter::CAUSES + 1;
const EXACT: usize = PLAYS - 1;

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
        let seen = seen_either_side(table, model, wide.members(), shots, Hand::Exact)?;
        Ok(seen
            .chunks_exact(PLAYS)
            .zip(shots)
            .map(|(of_bank, (_, scatter))| Self::fitted(wide.members(), of_bank, scatter))
            .collect())
    }

    fn fitted(members: &[Member], of_bank: &[Landings], scatter: &Scatter) -> Self {
        let place_m = |play: usize, member: usize| of_bank[play][member].along_m;
        let lever = |cause: usize, member: usize| {
            let width = 2.0 * scatter.causes()[cause];
            let moved_m = place_m(2 * cause + 1, member) - place_m(2 * cause, member);
            if width > 0.0 { moved_m / width } else { 0.0 }
        };
        let bend_m = |cause: usize, member: usize| {
            let either_side = place_m(2 * cause, member) + place_m(2 * cause + 1, member);
            0.5 * either_side - place_m(EXACT, member)
        };
        let count = members.len();
        let planes: [Plane; Scatter::CAUSES] = core::array::from_fn(|cause| {
            plane(members, (0..count).map(|member| lever(cause, member)))
        });
        let left = core::array::from_fn(|cause| {
            let squares = members.iter().enumerate().map(|(at, member)| {
                let off = lever(cause, at) - planes[cause].dot(&terms(member));
                off * off
            });
            let known = squares.filter(|square| square.is_finite());
            let (sum, count) = known.fold((0.0, 0.0), |(sum, count), it| (sum + it, count + 1.0));
            if count > 0.0 { sum / count } else { 0.0 }
        });
        let others = |member: usize| {
            let bends = (0..Scatter::CAUSES).filter(|cause| *cause != SPEED);
            bends.map(|cause| bend_m(cause, member)).sum::<f64>()
        };
        let bends = [
            plane(members, (0..count).map(|member| bend_m(SPEED, member))),
            plane(members, (0..count).map(others)),
        ];
        let is_near_rest = of_bank[2 * SPEED].iter().any(Landing::is_stopped);
        Self { planes, left, bends, is_near_rest }
    }

    /// True for a set-up that some player's shots, a deviation too slow, leave at rest before its target.
    pub(super) const fn is_near_rest(&self) -> bool {
        self.is_near_rest
    }

    /// The variance of a member's landing from every cause but the speed, m², and the way that it moves for one
    /// deviation of the speed, m.
    pub(super) fn apart_from_speed(&self, member: &Member, scatter: &Scatter) -> (f64, f64) {
        let speed_m = self.planes[SPEED].dot(&terms(member)) * scatter.speed;
        let left_m2 = self.left[SPEED] * scatter.speed * scatter.speed;
        (self.variance_m2(member, scatter) - speed_m * speed_m - left_m2, speed_m)
    }

    /// The way that a member's landing moves for one deviation of each cause, m.
    pub(crate) fn moves_m(&self, member: &Member, scatter: &Scatter) -> [f64; Scatter::CAUSES] {
        let (terms, causes) = (terms(member), scatter.causes());
        core::array::from_fn(|cause| self.planes[cause].dot(&terms) * causes[cause])
    }

    /// The variance of a member's landing about its place, m².
    pub fn variance_m2(&self, member: &Member, scatter: &Scatter) -> f64 {
        let moves = self.moves_m(member, scatter).map(|moved_m| moved_m * moved_m);
        let left = self.left.iter().zip(scatter.causes()).map(|(left, sd)| left * sd * sd);
        moves.iter().sum::<f64>() + left.sum::<f64>()
    }

    /// How far the mean of a member's scattered shots lies past its exact one, m: the speed's share, and that of
    /// the other causes.
    pub(super) fn bends_m(&self, member: &Member) -> [f64; 2] {
        let terms = terms(member);
        self.bends.map(|plane| plane.dot(&terms))
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
    let seen = seen_either_side(table, model, members, shots, Hand::Exact)?;
    Ok(seen
        .chunks_exact(PLAYS)
        .map(|of_bank| {
            let squares = of_bank[..EXACT].chunks_exact(2).map(|pair| {
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

/// The way that each member's landing moves for one deviation of each cause about its own hand, m: half of what lies
/// between a deviation less and one more. Nothing where a ball stops.
///
/// # Errors
/// As [`columns`].
pub(crate) fn moves_of_members_m(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    shot: (SetUp, Scatter),
) -> Result<Vec<[f64; Scatter::CAUSES]>, BankError> {
    let seen = seen_either_side(table, model, members, &[shot], Hand::Members)?;
    let moves = |member: usize| {
        core::array::from_fn(|cause| {
            let [less, more] = [0, 1].map(|side| seen[2 * cause + side][member].along_m);
            let moved_m = 0.5 * (more - less);
            if moved_m.is_finite() { moved_m } else { 0.0 }
        })
    };
    Ok((0..members.len()).map(moves).collect())
}

/// The landings of every shot with each cause one standard deviation less, then more, then of the exact shot.
fn seen_either_side(
    table: &Equipment,
    model: RailModel,
    members: &[Member],
    shots: &[(SetUp, Scatter)],
    hand: Hand,
) -> Result<Vec<Landings>, BankError> {
    let mut moved = Vec::with_capacity(PLAYS * shots.len());
    for (set_up, scatter) in shots {
        let diamond_m = BankGeometry::new(table, set_up.rail, set_up.pocket)?.diamond_m;
        for cause in 0..Scatter::CAUSES {
            for sign in [-1.0, 1.0] {
                moved.push(with_cause(set_up, scatter, diamond_m, cause, sign));
            }
        }
        moved.push(*set_up);
    }
    columns(table, model, members, &moved, hand)
}

fn with_cause(set_up: &SetUp, scatter: &Scatter, diamond_m: f64, cause: usize, sign: f64) -> SetUp {
    let mut moved = *set_up;
    let by = sign * scatter.causes()[cause];
    match cause {
        0 => moved.aim_error_rad += by,
        SPEED => moved.speed_ratio *= 1.0 + by,
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
