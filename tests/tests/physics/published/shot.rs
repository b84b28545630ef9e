//! Whole banks by hand: what can be drawn and calculated on paper.

use super::{exact, printed, table};
use railproof_engine::bank::{Bank, BankEnding, BankVerdict, Launch};
use railproof_engine::equipment::{Equipment, RailModel};
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_engine::units::INCH_M;
use railproof_engine::vector::Vec2;

fn bank(equipment: Equipment) -> Bank {
    let equipment = equipment.validated().expect("it is within range");
    Bank::new(&equipment, Rail::Left, Pocket::FootRight, RailModel::Planar).expect("it is a bank")
}

/// R = 28.575 mm, centre 0.3 m from its contact position, path 30° off the normal, 2 m/s, no spin,
/// μs = 0.2, g = 9.81: contact after 0.1911218 s at 1.6250189 m/s, computed by several independent
/// programs. Derived: the ball slides all the way (rolling would begin after 0.291 s), so
/// v² = v₀² − 2·μs·g·d with d = 0.3/cos 30°, and t = (v₀ − v)/(μs·g).
#[test]
fn the_reference_shot_arrives_at_the_rail() {
    let mut equipment = table::nine_foot();
    equipment.gravity_m_s2 = 9.81;
    equipment.cloth.sliding_friction = 0.2;
    equipment.cushion.restitution = 0.85;
    equipment.cushion.restitution_loss_s_m = 0.0;
    equipment.cushion.nose_friction = 0.2;
    let bank = bank(equipment);
    let geometry = bank.geometry();
    let lean = 30.0_f64.to_radians();
    let start = 3.0 + geometry.span_m * lean.tan() / geometry.diamond_m;
    let launch = Launch { off_rail_m: 0.3, ..Launch::frozen_stun(2.0) };
    let outcome = bank.play(Line::new(3.0, start), launch).expect("it is within range");
    let at_rail = outcome.at_rail.expect("it comes to the rail");
    printed(at_rail.time_s, "0.1911218");
    printed(at_rail.state.velocity.norm(), "1.6250189");

    let friction = 0.2 * 9.81;
    let distance = 0.3 / lean.cos();
    let speed = (4.0 - 2.0 * friction * distance).sqrt();
    exact(at_rail.time_s, (2.0 - speed) / friction);
    exact(at_rail.state.velocity.norm(), speed);
    exact(at_rail.incidence_rad(), lean);
    exact(at_rail.contact, 3.0);

    // Off the rail by the planar impact: the topspin that the cloth gave on the way stays, the
    // tangential impulse is the smaller of μ·(1 + e)·vn and (2/7)·vt.
    let (along, into) = (speed * lean.sin(), speed * lean.cos());
    let rebound = outcome.rebound.expect("it comes off the rail").state;
    let impulse = (0.2 * 1.85 * into).min(2.0 / 7.0 * along);
    exact(rebound.velocity.x, -(along - impulse));
    exact(rebound.velocity.y, -0.85 * into);
    let gained = 2.5 * (2.0 - speed);
    exact(rebound.spin.x * equipment_radius(), -gained * lean.cos());
    exact(rebound.spin.y * equipment_radius(), -gained * lean.sin());
}

fn equipment_radius() -> f64 {
    1.125 * INCH_M
}

/// A cloth and a planar cushion without friction leave two straight lines, and between them the way
/// along the rail while it holds the ball, at the same speed along it. On paper: the corner's
/// nose lines meet at (0, −R·cosθ) in the frame whose x runs along the rail from the pocket and
/// whose y runs from the opposite groove; the mouth points are mouth/√2 from there.
#[test]
fn a_bank_without_friction_is_drawn_with_a_ruler() {
    for (restitution, held_s) in [(1.0, 0.0), (0.9, 0.0), (0.75, 0.0), (1.0, 0.012), (0.8, 0.02)] {
        let mut equipment = table::nine_foot();
        equipment.cloth.sliding_friction = 0.0;
        equipment.cloth.rolling_resistance = 0.0;
        equipment.cushion.restitution = restitution;
        equipment.cushion.restitution_loss_s_m = 0.0;
        equipment.cushion.restitution_floor = 0.0;
        equipment.cushion.nose_friction = 0.0;
        equipment.cushion.contact_time_s = held_s;
        let (mouth, groove) = (equipment.table.corner_mouth_m, equipment.groove_m());
        let bank = bank(equipment);
        let (mut held, mut missed) = (0, 0);
        for contact in [0.5, 1.5, 2.5, 3.4] {
            for ratio in [1.6, 1.95, 2.0, 2.05, 2.2, 2.6] {
                for off_rail_m in [0.0, 0.4] {
                    let line = Line::new(contact, ratio * contact);
                    let launch = Launch { off_rail_m, ..Launch::frozen_stun(3.0) };
                    let outcome = bank.play(line, launch).expect("it is within range");
                    let drawn =
                        Drawn::new(line, (off_rail_m, 3.0 * held_s), restitution, mouth, groove);
                    let arrival = outcome.arrival.expect("nothing stops it");
                    assert!((arrival.miss_m - drawn.miss_m).abs() < 1e-12, "{line:?}");
                    let long = drawn.to_long_point_m - groove;
                    let short = drawn.to_short_point_m - groove;
                    assert!((arrival.clearance_long_m - long).abs() < 1e-12, "{line:?}");
                    assert!((arrival.clearance_short_m - short).abs() < 1e-12, "{line:?}");
                    exact(arrival.time_s, held_s + drawn.time_s(3.0, restitution));
                    let at_rail = outcome.at_rail.expect("nothing stops it");
                    assert!((at_rail.time_s - drawn.run_in_m / 3.0).abs() < 1e-12);
                    if long.min(short) > 0.0 {
                        held += 1;
                        assert_eq!(outcome.verdict(), BankVerdict::Holds);
                        assert_eq!(outcome.ending, BankEnding::AtMouth);
                    } else {
                        missed += 1;
                        assert_ne!(outcome.verdict(), BankVerdict::Holds);
                    }
                }
            }
        }
        assert!(held > 0 && missed > 0, "{held} held and {missed} missed at e = {restitution}");
    }
}

/// The drawing: distances in metres on a table 50 in wide with sights 12.5 in apart.
struct Drawn {
    run_in_m: f64,
    run_out_m: f64,
    lean: f64,
    miss_m: f64,
    to_long_point_m: f64,
    to_short_point_m: f64,
}

impl Drawn {
    /// `way_m`: the distance off the rail, and how far a ball goes while a rail holds one.
    fn new(line: Line, way_m: (f64, f64), restitution: f64, mouth: f64, groove: f64) -> Self {
        let diamond = 12.5 * INCH_M;
        let span = 50.0 * INCH_M - 2.0 * groove;
        let (off_rail_m, held_m) = way_m;
        let lean = ((line.start - line.contact) * diamond / span).atan();
        let contact = Vec2::new(line.contact * diamond - held_m * lean.sin(), span);
        // The normal speed is cut by e, the one along the rail kept.
        let out = (lean.tan() / restitution).atan();
        let travel = Vec2::new(-out.sin(), -out.cos());
        let cut = mouth / 2.0_f64.sqrt();
        let long = Vec2::new(0.0, cut - groove);
        let short = Vec2::new(cut, -groove);
        // Left of the travel is towards the opposite rail's higher numbers: the short side.
        let left_of = |point: Vec2| travel.cross(point - contact);
        let middle = (long + short) * 0.5;
        // Along the travel until the mouth line, which is 45° to both rails.
        let square = Vec2::new(-0.5_f64.sqrt(), -0.5_f64.sqrt());
        let run_out_m = square.dot(middle - contact) / square.dot(travel);
        Self {
            run_in_m: off_rail_m / lean.cos(),
            run_out_m,
            lean,
            miss_m: left_of(middle),
            to_long_point_m: -left_of(long),
            to_short_point_m: left_of(short),
        }
    }

    fn time_s(&self, speed: f64, restitution: f64) -> f64 {
        let (along, into) = (speed * self.lean.sin(), restitution * speed * self.lean.cos());
        self.run_out_m / (along * along + into * into).sqrt()
    }
}
