//! Speeds on a table: of a word, and of a lag.

use crate::equipment::Equipment;
use crate::impact::{Bounce, CushionContact, bounce};
use crate::motion::{BallState, ClothMotion, Path};
use crate::root::bracketed_root;
use crate::units::Speed;
use crate::vector::{Vec2, Vec3};
use core::convert::Infallible;

/// No lag is looked for beyond this, m/s.
const FASTEST_M_S: f64 = 20.0;
/// A ball that comes off a cushion slower than this is at rest, m/s.
const AT_REST_M_S: f64 = 1e-9;

/// A speed on a table, m/s. A lag that no speed up to 20 m/s rolls is infinite.
pub fn speed_on(speed: Speed, equipment: &Equipment) -> f64 {
    match speed {
        Speed::MetresPerSecond(m_s) => m_s,
        Speed::Word(word) => equipment.speeds.m_s(word),
        Speed::TableLengths(lengths) => lag(equipment, lengths),
    }
}

/// The speed at which a rolling ball sets off at one end, to rest after so many lengths.
///
/// A length is the way of its centre from one end to the other. The cushions at the ends take what the
/// cushion's rail model takes of a ball that meets them squarely; the compliant model is taken as its hard
/// limit.
fn lag(equipment: &Equipment, lengths: f64) -> f64 {
    let span_m = equipment.table.length_m - 2.0 * equipment.groove_m();
    let wanted_m = lengths * span_m;
    // Nothing is met on the first length.
    let free = (2.0 * equipment.rolling_deceleration_m_s2() * wanted_m).sqrt();
    if lengths <= 1.0 || !free.is_finite() {
        return free;
    }
    let most = lengths.ceil() + 1.0;
    let beyond =
        |m_s: f64| Ok::<f64, Infallible>(rolled_m(equipment, m_s, span_m, most) - wanted_m);
    let (Ok(low), Ok(high)) = (beyond(free), beyond(FASTEST_M_S));
    if low >= 0.0 {
        return free;
    }
    if high < 0.0 || free > FASTEST_M_S {
        return f64::INFINITY;
    }
    let Ok((m_s, _)) = bracketed_root(beyond, (free, low), (FASTEST_M_S, high));
    m_s
}

/// The most lengths that a ball rolls on a table, as a lag counts them.
pub fn most_lengths(equipment: &Equipment) -> f64 {
    const MOST: f64 = 1000.0;
    let span_m = equipment.table.length_m - 2.0 * equipment.groove_m();
    rolled_m(equipment, FASTEST_M_S, span_m, MOST) / span_m
}

/// The way that a ball rolls between two cushions until it rests, m: at most so many lengths.
fn rolled_m(equipment: &Equipment, m_s: f64, span_m: f64, most: f64) -> f64 {
    let (cloth, contact) = (ClothMotion::new(equipment), CushionContact::new(equipment));
    let across = Vec2::new(0.0, 1.0);
    let ball = |velocity, spin| BallState { position: Vec2::ZERO, velocity, spin };
    let mut state = ball(Vec2::new(0.0, m_s), Vec3::ZERO).rolling(equipment.ball.radius_m());
    let mut whole = 0.0;
    while whole < most {
        let path = Path::new(state, cloth);
        let Some(time_s) = path.first_crossing(across, span_m, 0.0) else {
            return whole * span_m + path.position_at(path.centre_rests_from_s()).y.max(0.0);
        };
        whole += 1.0;
        let met = path.state_at(time_s);
        let incoming = Bounce { velocity: met.velocity, spin: met.spin };
        let off = bounce(equipment.cushion.rail_model, &contact, incoming);
        // The table is turned about, so that the ball sets off towards +y again.
        let velocity = Vec2::new(-off.velocity.x, -off.velocity.y);
        if velocity.y < AT_REST_M_S {
            return whole * span_m;
        }
        state = ball(velocity, Vec3::new(-off.spin.x, -off.spin.y, off.spin.z));
    }
    whole * span_m
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rail::testing::nine_foot;
    use crate::units::SpeedWord;

    #[test]
    fn a_lag_within_one_length_meets_no_cushion() {
        let table = nine_foot();
        let span_m = table.table.length_m - 2.0 * table.groove_m();
        let m_s = speed_on(Speed::TableLengths(0.5), &table);
        let rolled = m_s * m_s / (2.0 * table.rolling_deceleration_m_s2());
        assert!((rolled - 0.5 * span_m).abs() < 1e-12);
    }

    #[test]
    fn longer_lags_pay_for_the_cushions_they_meet() {
        let table = nine_foot();
        let span_m = table.table.length_m - 2.0 * table.groove_m();
        let mut last = 0.0;
        for lengths in [1.0, 1.5, 2.0, 3.0, 4.0] {
            let m_s = speed_on(Speed::TableLengths(lengths), &table);
            let free = (2.0 * table.rolling_deceleration_m_s2() * lengths * span_m).sqrt();
            assert!(m_s > last && (lengths <= 1.0 || m_s > 1.05 * free), "{lengths}: {m_s} {free}");
            let rolled = rolled_m(&table, m_s, span_m, 9.0);
            assert!((rolled / span_m - lengths).abs() < 1e-6, "{lengths}: {rolled}");
            last = m_s;
        }
        assert!(speed_on(Speed::TableLengths(200.0), &table).is_infinite());
    }

    #[test]
    fn a_word_is_what_the_equipment_says() {
        let mut table = nine_foot();
        table.speeds.firm_m_s = 6.0;
        assert_eq!(speed_on(Speed::Word(SpeedWord::Firm), &table), 6.0);
        assert_eq!(speed_on(Speed::MetresPerSecond(2.0), &table), 2.0);
    }
}
