//! Two balls whose friction falls with slip, against a contact that is stepped in time: a spring that is
//! pressed together and comes back weaker, so that restitution is what it is, and at every step Coulomb's
//! law with the friction of the slip that the surfaces have then. Nothing there knows how slip falls
//! with impulse.

use super::ball_by_steps::{Moving, Three, dot, plus};
use railproof_engine::equipment::{BallContact, FrictionLaw};
use railproof_engine::impact::{Body, ball_ball};
use railproof_engine::vector::{Vec2, Vec3};

/// Steps of a spring's quarter swing.
const STEPS: f64 = 4_000.0;

struct Meeting {
    balls: [Moving; 2],
    arms: [Three; 2],
    normal: Three,
    /// Closing speed that a unit of normal impulse takes, and slip that a unit of friction does.
    per_impulse: [f64; 2],
}

impl Meeting {
    fn new(normal: Three, balls: [Moving; 2]) -> Self {
        let arms = [
            normal.map(|n| n * balls[0].body.radius_m),
            normal.map(|n| -n * balls[1].body.radius_m),
        ];
        let mut it = Self { balls, arms, normal, per_impulse: [0.0; 2] };
        // Found by trying, along the normal and along one tangent.
        let tangent = [-normal[1], normal[0], 0.0];
        let size = dot(tangent, tangent).sqrt();
        it.per_impulse = [normal, tangent.map(|t| t / size)].map(|way| {
            let mut tried = Self { balls, ..it };
            tried.push(way);
            dot(it.relative(), way) - dot(tried.relative(), way)
        });
        it
    }

    /// Surface velocity of the first over the second.
    fn relative(&self) -> Three {
        plus(self.balls[0].surface(self.arms[0]), self.balls[1].surface(self.arms[1]), -1.0)
    }

    fn closing(&self) -> f64 {
        dot(self.relative(), self.normal)
    }

    fn slip(&self) -> Three {
        let relative = self.relative();
        plus(relative, self.normal, -dot(relative, self.normal))
    }

    fn push(&mut self, impulse: Three) {
        self.balls[0].push(self.arms[0], impulse.map(|i| -i));
        self.balls[1].push(self.arms[1], impulse);
    }

    /// A portion of normal impulse with its friction, taken at the slip halfway.
    fn portion(&mut self, contact: &BallContact, impulse: f64) {
        let slip = self.slip();
        let size = dot(slip, slip).sqrt();
        let mut grip = 0.0;
        if size > 0.0 {
            let halfway = size - 0.5 * contact.friction_at(size) * impulse * self.per_impulse[1];
            let friction = contact.friction_at(halfway.max(0.0));
            grip = (friction * impulse).min(size / self.per_impulse[1]) / size;
        }
        self.push(plus(self.normal.map(|n| n * impulse), slip, grip));
    }

    /// Time is counted so that the spring and the balls swing with 1 rad per unit.
    fn in_time(mut self, contact: &BallContact) -> [Moving; 2] {
        let step = core::f64::consts::FRAC_PI_2 / STEPS;
        let stiffness = 1.0 / self.per_impulse[0];
        let weaker = contact.restitution * contact.restitution;
        let (mut pressed, mut deepest) = (0.0_f64, 0.0_f64);
        // Coming back it pushes less at every place, and nothing from a place on that is not yet the
        // first: the energy that comes back is e² of what went in.
        let force = |pressed: f64, deepest: f64| {
            if pressed >= deepest {
                stiffness * pressed
            } else {
                stiffness * (pressed - deepest * (1.0 - weaker)) / weaker
            }
        };
        loop {
            self.portion(contact, 0.5 * step * force(pressed, deepest).max(0.0));
            pressed += step * self.closing();
            deepest = deepest.max(pressed);
            let push = force(pressed, deepest);
            if push <= 0.0 {
                return self.balls;
            }
            self.portion(contact, 0.5 * step * push);
        }
    }
}

/// Full and thin hits, stun, follow, draw and side, slow and fast, alike and unlike in size and mass,
/// under both laws; sliding all through and stopping.
#[test]
fn friction_that_follows_the_slip_is_what_a_contact_in_time_gives() {
    let bodies = [
        Body { radius_m: 0.028_575, mass_kg: 0.17 },
        Body { radius_m: 0.03, mass_kg: 0.21 },
        Body { radius_m: 0.025, mass_kg: 0.12 },
    ];
    let spins = [Vec3::ZERO, Vec3::new(-14.0, 70.0, 30.0), Vec3::new(20.0, -90.0, -50.0)];
    let (mut slid, mut stuck, mut most_changed) = (0, 0, 0.0_f64);
    for law in FrictionLaw::ALL {
        let contact = BallContact::USUAL.under(law);
        for (first, second) in [(0, 0), (2, 1)] {
            let pair = [bodies[first], bodies[second]];
            for (speed, degrees) in
                [(0.5, 50.0), (1.0, 30.0), (4.0, 25.0), (4.0, 60.0), (9.0, 40.0), (16.0, 75.0)]
            {
                for spin in spins {
                    let (sin, cos) = f64::to_radians(degrees).sin_cos();
                    let before =
                        [(Vec2::new(speed, 0.0), spin * speed.min(2.0)), (Vec2::ZERO, Vec3::ZERO)];
                    let hit = ball_ball(&contact, Vec2::new(cos, sin), pair, before);
                    if hit.slides {
                        slid += 1;
                    } else {
                        stuck += 1;
                    }
                    let frozen = BallContact::constant(contact.restitution, hit.friction);
                    let as_at_first = ball_ball(&frozen, Vec2::new(cos, sin), pair, before);

                    let rise = pair[1].radius_m - pair[0].radius_m;
                    let apart = pair[0].radius_m + pair[1].radius_m;
                    let level = (apart * apart - rise * rise).sqrt() / apart;
                    let normal = [level * cos, level * sin, rise / apart];
                    let balls = [0, 1].map(|ball| Moving::new(pair[ball], before[ball]));
                    let stepped = Meeting::new(normal, balls).in_time(&contact);
                    for (ball, stepped) in stepped.iter().enumerate() {
                        let ((velocity, spin), radius) = (hit.after[ball], pair[ball].radius_m);
                        most_changed =
                            most_changed.max((velocity - as_at_first.after[ball].0).norm() / speed);
                        for (ours, theirs) in [
                            (velocity.x, stepped.velocity[0]),
                            (velocity.y, stepped.velocity[1]),
                            (radius * spin.x, radius * stepped.spin[0]),
                            (radius * spin.y, radius * stepped.spin[1]),
                            (radius * spin.z, radius * stepped.spin[2]),
                        ] {
                            // The stepped contact's own error, of second order in its steps.
                            let off = (ours - theirs).abs() / speed;
                            assert!(
                                off < 1e-6,
                                "{ours} and {theirs} at {speed} m/s, {degrees}°: {hit:?}"
                            );
                        }
                    }
                }
            }
        }
    }
    assert!(slid > 20 && stuck > 3, "{slid} slid, {stuck} stuck");
    // Freezing friction at the first slip would not do.
    assert!(most_changed > 0.01, "{most_changed}");
}
