//! Two balls that meet, against the normal impulse dealt out in small portions: after each one the
//! slip at the contact is worked out anew from three-dimensional vectors, and friction acts against
//! it. Nothing there knows that the slip keeps its direction or how much impulse ends it.

use railproof_engine::equipment::BallContact;
use railproof_engine::impact::{Body, ball_ball};
use railproof_engine::vector::{Vec2, Vec3};

pub(crate) type Three = [f64; 3];

fn cross(a: Three, b: Three) -> Three {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(crate) fn dot(a: Three, b: Three) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(crate) fn plus(a: Three, b: Three, times: f64) -> Three {
    [a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]]
}

#[derive(Debug, Clone, Copy)]
pub(crate) struct Moving {
    pub body: Body,
    pub velocity: Three,
    pub spin: Three,
}

impl Moving {
    pub fn new(body: Body, (v, w): (Vec2, Vec3)) -> Self {
        Self { body, velocity: [v.x, v.y, 0.0], spin: [w.x, w.y, w.z] }
    }

    /// Velocity of the surface at `arm` from the centre.
    pub fn surface(&self, arm: Three) -> Three {
        plus(self.velocity, cross(self.spin, arm), 1.0)
    }

    pub fn push(&mut self, arm: Three, impulse: Three) {
        let Body { radius_m, mass_kg } = self.body;
        self.velocity = plus(self.velocity, impulse, 1.0 / mass_kg);
        let inertia = 0.4 * mass_kg * radius_m * radius_m;
        self.spin = plus(self.spin, cross(arm, impulse), 1.0 / inertia);
    }
}

/// Both balls after the same impact in `steps` portions of normal impulse, in free space.
fn by_steps(
    restitution: f64,
    friction: f64,
    normal: Three,
    mut balls: [Moving; 2],
    steps: u32,
) -> [Moving; 2] {
    let arms =
        [normal.map(|n| n * balls[0].body.radius_m), normal.map(|n| -n * balls[1].body.radius_m)];
    let relative =
        |balls: &[Moving; 2]| plus(balls[0].surface(arms[0]), balls[1].surface(arms[1]), -1.0);
    // What one portion changes is found by trying: closing is linear in it.
    let closing = dot(relative(&balls), normal);
    let mut tried = balls;
    tried[0].push(arms[0], normal.map(|n| -n));
    tried[1].push(arms[1], normal);
    let per_impulse = closing - dot(relative(&tried), normal);
    let portion = (1.0 + restitution) * closing / per_impulse / f64::from(steps);

    for _ in 0..steps {
        let relative = relative(&balls);
        let slip = plus(relative, normal, -dot(relative, normal));
        let size = dot(slip, slip).sqrt();
        // No more than would turn the slip about within the portion; by trying again.
        let share = if size > 0.0 {
            let mut tried = balls;
            let unit = slip.map(|s| s / size);
            tried[0].push(arms[0], unit.map(|u| -u));
            tried[1].push(arms[1], unit);
            let after = plus(tried[0].surface(arms[0]), tried[1].surface(arms[1]), -1.0);
            let ends = size / (size - dot(after, unit));
            (friction * portion).min(ends) / size
        } else {
            0.0
        };
        let impulse = plus(normal.map(|n| n * portion), slip, share);
        balls[0].push(arms[0], impulse.map(|i| -i));
        balls[1].push(arms[1], impulse);
    }
    balls
}

/// Alike, and the small one and the large one of two each way; follow, draw and side; sliding all
/// through and stopping. The portions only have to be fine enough to find where slip ends, and there
/// they are exact, so the two agree to rounding.
#[test]
fn a_meeting_is_what_small_portions_of_impulse_give() {
    let bodies = [
        Body { radius_m: 0.028_575, mass_kg: 0.17 },
        Body { radius_m: 0.03, mass_kg: 0.21 },
        Body { radius_m: 0.025, mass_kg: 0.12 },
    ];
    let motions = [
        (Vec2::new(2.0, 0.4), Vec3::new(0.0, 0.0, 0.0)),
        (Vec2::new(2.0, 0.4), Vec3::new(-14.0, 70.0, 30.0)),
        (Vec2::new(3.0, -1.0), Vec3::new(20.0, -90.0, -50.0)),
        (Vec2::new(0.5, 0.0), Vec3::new(100.0, 20.0, 10.0)),
    ];
    let others = [(Vec2::ZERO, Vec3::ZERO), (Vec2::new(-0.2, 0.3), Vec3::new(5.0, -9.0, 25.0))];
    let (mut slid, mut stuck) = (0, 0);
    for (first, second) in [(0, 0), (0, 1), (1, 0), (2, 1)] {
        let pair = [bodies[first], bodies[second]];
        for before in motions.iter().flat_map(|a| others.iter().map(move |b| [*a, *b])) {
            for (restitution, friction) in [(1.0, 0.03), (0.94, 0.06), (0.9, 0.3), (0.7, 0.5)] {
                let (sin, cos) = 0.3_f64.sin_cos();
                let contact = BallContact::constant(restitution, friction);
                let hit = ball_ball(&contact, Vec2::new(cos, sin), pair, before);
                if hit.slides {
                    slid += 1;
                } else {
                    stuck += 1;
                }

                // Centres at their own heights, one radius sum apart.
                let rise = pair[1].radius_m - pair[0].radius_m;
                let apart = pair[0].radius_m + pair[1].radius_m;
                let level = (apart * apart - rise * rise).sqrt() / apart;
                let normal = [level * cos, level * sin, rise / apart];
                let balls = [Moving::new(pair[0], before[0]), Moving::new(pair[1], before[1])];
                let stepped = by_steps(restitution, friction, normal, balls, 500);
                for ((velocity, spin), ball) in hit.after.iter().zip(stepped) {
                    let radius = ball.body.radius_m;
                    for (ours, theirs) in [
                        (velocity.x, ball.velocity[0]),
                        (velocity.y, ball.velocity[1]),
                        (radius * spin.x, radius * ball.spin[0]),
                        (radius * spin.y, radius * ball.spin[1]),
                        (radius * spin.z, radius * ball.spin[2]),
                    ] {
                        assert!((ours - theirs).abs() < 1e-11, "{ours} and {theirs}: {hit:?}");
                    }
                }
            }
        }
    }
    assert!(slid > 20 && stuck > 20, "{slid} slid, {stuck} stuck");
}
