//! A film as a bank.

use super::amounts::{AMOUNTS, Film, TrackAmount, on_table};
use super::legs::Legs;
use super::parabola::TimedPlace;
use super::picture_map::PictureMap;
use super::{LensKnown, TableMark, TrackError};
use crate::ensemble::MemberNumber;
use crate::equipment::Equipment;
use crate::evidence::{BeforeRail, FILMED_AMOUNTS, FilmedImpact, Scatter};
use crate::rail::Rail;
use crate::vector::Vec2;

/// The ball's place in the picture at a time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrackPoint {
    /// The time, s.
    pub time_s: f64,
    /// The place, pixels.
    pub image: Vec2,
}

/// The roll with which the ball came to the rail.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum RollAtRail {
    /// It rolled: the roll is 1.
    Rolls,
    /// It slid: less than 1, and at least as much as sliding gave it while it was filmed, unless it had draw.
    Slides {
        /// The roll gained, as a fraction of natural roll.
        gained: f64,
    },
    /// The slowing tells neither.
    NotDetermined,
}

/// A bank as its film tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrackedBank {
    /// The rail.
    pub rail: Rail,
    /// Speed as the ball comes to the rail, m/s.
    pub speed_before: TrackAmount,
    /// Angle of its way from the rail's normal, rad.
    pub angle_before: TrackAmount,
    /// Speed as it leaves the rail, m/s.
    pub speed_after: TrackAmount,
    /// Angle of that way from the normal, rad; negative when it goes back against the way it came.
    pub angle_after: TrackAmount,
    /// Speed square to the rail after over before.
    pub restitution: TrackAmount,
    /// Speed along the rail after over before; none when the ball may have come square.
    pub along_kept: Option<TrackAmount>,
    /// Slowing before the rail, m/s².
    pub slowing: TrackAmount,
    /// Time between coming to the groove and leaving it, s. Where the groove lies is taken for exact.
    pub held: TrackAmount,
    /// The roll at the rail.
    pub roll: RollAtRail,
    /// The same for a fit, as a ball that was sent without roll as the film begins.
    pub impact: FilmedImpact,
    /// Points fitted before and after the rail.
    pub fitted: (usize, usize),
    /// Scatter of the ball about its fits, m.
    pub scatter_m: f64,
    /// The coefficient of the lens that was undone; none for a lens that is taken to bend nothing.
    pub lens_k1: Option<TrackAmount>,
    /// The furthest that a mark lies from its place, m.
    pub worst_mark_m: f64,
    /// That mark, from 0.
    pub worst_mark: usize,
    /// How many marks there are. Four fit every plane map, and so don't check one another.
    pub marks: usize,
}

impl TrackedBank {
    /// Reads a film of a bank on a table.
    ///
    /// # Errors
    /// [`TrackError`]: see there.
    pub fn new(
        marks: &[TableMark],
        points: &[TrackPoint],
        table: &Equipment,
        lens: LensKnown,
    ) -> Result<Self, TrackError> {
        let map = PictureMap::new(marks, lens)?;
        let image: Vec<TimedPlace> =
            points.iter().map(|it| TimedPlace { time_s: it.time_s, place: it.image }).collect();
        let places = on_table(&map, &image);
        let furthest_m = table.table.length_m + table.table.width_m;
        let is_off = |it: &TimedPlace| !it.place.is_finite() || it.place.norm() > furthest_m;
        if let Some(at) = places.iter().position(is_off) {
            return Err(TrackError::OffTable { point: at + 1 });
        }
        let (groove, sides, legs) = Legs::find(&places, table)?;
        let film = Film { marks, map: &map, lens, image: &image, sides: &sides, groove, legs };
        let (amounts, _): ([TrackAmount; AMOUNTS], _) = film.amounts();
        let [
            speed_before,
            angle_before,
            speed_after,
            angle_after,
            restitution,
            along,
            slowing,
            held,
        ] = amounts;
        let filmed_s = legs.comes_s - places[sides.before.start].time_s;
        let near = sides.near_rail(&places, legs.leaves_s + AFTER_IN_A_FIT_S);
        let legs_near = Legs::fit(&places, &near, groove)?;
        let (in_a_fit, covariance) = Film { sides: &near, legs: legs_near, ..film }.amounts();
        let impact = FilmedImpact {
            told: IN_A_FIT.map(|at| in_a_fit[at].middle),
            covariance: IN_A_FIT
                .map(|row| IN_A_FIT.map(|column| covariance[(row, column)] * Legs::widened(&near))),
            is_told: [true; 2],
            way: way(in_a_fit[6].middle, (covariance[(6, 6)] * Legs::widened(&near)).sqrt(), table),
            run_s: legs.comes_s - places[0].time_s,
            is_to_the_right: groove.is_to_the_right(),
            roll_scatter: Scatter::CAREFUL.roll,
            side_scatter: Scatter::CAREFUL.side,
            wrong: Scatter::CAREFUL.wrong,
        };
        let off = marks.iter().map(|mark| map.residual_m(mark)).enumerate();
        let (worst_mark, worst_mark_m) = off.max_by(|a, b| a.1.total_cmp(&b.1)).unwrap_or_default();
        if worst_mark_m > MISPLACED_M {
            return Err(TrackError::MarkOff { mark: worst_mark + 1, off_mm: 1e3 * worst_mark_m });
        }
        Ok(Self {
            held,
            impact,
            rail: groove.rail,
            speed_before,
            angle_before,
            speed_after,
            angle_after,
            restitution,
            along_kept: (angle_before.ninety.0 > 0.0).then_some(along),
            slowing,
            roll: RollAtRail::of(slowing, speed_before.ninety.1, filmed_s, table),
            fitted: (sides.before.len(), sides.after.len()),
            scatter_m: legs.scatter_m(&sides),
            lens_k1: film.k1(),
            worst_mark_m,
            worst_mark,
            marks: marks.len(),
        })
    }
}

/// The amounts of a film that a fit takes: speeds and angles before and after, contact time, slowing.
const IN_A_FIT: [usize; FILMED_AMOUNTS] = [0, 1, 2, 3, 7, 6];

/// A fit takes the film after the rail up to this, s: a ball that came sliding slides on for longer. (Sent at 3.5 m/s or
/// more it leaves at 2.5 and more and turns its roll against its way, which takes 0.3 s and more to be lost.)
const AFTER_IN_A_FIT_S: f64 = 0.25;

/// The motion before the rail by its slowing, m/s², and the deviation of its error: only where the other one is out of
/// the question on any cloth that could be. A likely guess would be wrong of some films, and a fit would believe it.
fn way(slowing: f64, sd: f64, table: &Equipment) -> BeforeRail {
    let off = |number: MemberNumber| {
        let [from, to] =
            [0.0, 1.0].map(|share| number.spread().value_at(share) * table.gravity_m_s2);
        (from - slowing).max(slowing - to).max(0.0) / sd
    };
    let (slides, rolls) =
        (off(MemberNumber::SlidingFriction), off(MemberNumber::RollingResistance));
    let log_ratio = 0.5 * (rolls * rolls - slides * slides);
    if log_ratio > OUT_OF_THE_QUESTION {
        BeforeRail::Slides
    } else if log_ratio < -OUT_OF_THE_QUESTION {
        BeforeRail::Rolls
    } else {
        BeforeRail::Unknown
    }
}

/// A mark farther off than this is another mark's place, or a slip of the pen, m. Chosen: more than anybody misses it by.
const MISPLACED_M: f64 = 0.1;

/// A thousand to one, as a logarithm. Chosen.
const OUT_OF_THE_QUESTION: f64 = 6.907_755_278_982_137;

/// A cloth's friction is known to a tenth at best. Chosen.
const UNSURE: f64 = 0.1;

impl RollAtRail {
    /// From the slowing of the way to the rail: μ·g of a ball that slides, the rolling resistance of one that rolls.
    /// A ball that slides gains spin at 5/2 μg/R (Coriolis 1835); on a slicker cloth and at the most speed that the
    /// film allows the least.
    fn of(slowing: TrackAmount, most_speed_m_s: f64, filmed_s: f64, table: &Equipment) -> Self {
        let gravity = table.gravity_m_s2;
        let (slides, rolls) =
            (table.cloth.sliding_friction * gravity, table.cloth.rolling_resistance * gravity);
        let unsure = UNSURE * slides;
        let may = |it: f64| (slowing.ninety.0 - unsure..=slowing.ninety.1 + unsure).contains(&it);
        match (may(slides), may(rolls)) {
            (false, true) => Self::Rolls,
            (true, false) => {
                let least = slides - unsure;
                Self::Slides { gained: (2.5 * least * filmed_s / most_speed_m_s).min(1.0) }
            }
            _ => Self::NotDetermined,
        }
    }
}
