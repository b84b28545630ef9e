//! The whole motion of a free ball, as at most two stretches of constant acceleration.
//!
//! Sliding friction has a fixed direction and rolling resistance too, so each stretch is a
//! polynomial in time. A path is always asked by time and finds the stretch itself, so nothing can
//! step past the change from slide to roll.

use super::{BallState, first_root_in};
use crate::equipment::Equipment;
use crate::vector::{Vec2, Vec3};

/// The numbers of ball and cloth that free motion needs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClothMotion {
    /// Ball radius R, m.
    pub radius_m: f64,
    /// μs·g, m/s².
    pub sliding_deceleration_m_s2: f64,
    /// μr·g, m/s².
    pub rolling_deceleration_m_s2: f64,
    /// Decay rate of spin about the vertical, rad/s².
    pub pivot_deceleration_rad_s2: f64,
}

impl ClothMotion {
    /// Gathers them from validated equipment.
    pub fn new(equipment: &Equipment) -> Self {
        Self {
            radius_m: equipment.ball.radius_m(),
            sliding_deceleration_m_s2: equipment.sliding_deceleration_m_s2(),
            rolling_deceleration_m_s2: equipment.rolling_deceleration_m_s2(),
            pivot_deceleration_rad_s2: equipment.cloth.pivot_deceleration_rad_s2,
        }
    }
}

/// The motion of a free ball.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Phase {
    /// Its lowest point slips over the cloth.
    Slide,
    /// It rolls without slip.
    Roll,
    /// Its centre rests and it spins about the vertical.
    Pivot,
    /// It rests.
    Rest,
}

/// A stretch of constant acceleration: p(τ) = p₀ + v₀·τ + ½·a·τ² for 0 ≤ τ ≤ duration.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// Position at its beginning, m.
    pub position: Vec2,
    /// Velocity at its beginning, m/s.
    pub velocity: Vec2,
    /// Acceleration, m/s².
    pub acceleration: Vec2,
    /// Duration, s; infinite when nothing slows the ball.
    pub duration_s: f64,
}

impl Segment {
    /// Position after `time_s` of the stretch, m.
    pub fn position_at(&self, time_s: f64) -> Vec2 {
        self.position + self.velocity * time_s + self.acceleration * (0.5 * time_s * time_s)
    }

    /// Velocity after `time_s` of the stretch, m/s.
    pub fn velocity_at(&self, time_s: f64) -> Vec2 {
        self.velocity + self.acceleration * time_s
    }

    /// True when the two ends alone tell that a·τ² + b·τ + c never rises through zero: it only
    /// falls, or it only rises and both ends lie on one side.
    fn surely_misses(&self, a: f64, b: f64, c: f64) -> bool {
        let d = self.duration_s;
        if !d.is_finite() {
            return false;
        }
        let slope_at_end = b + 2.0 * a * d;
        if b <= 0.0 && slope_at_end <= 0.0 {
            return true;
        }
        b >= 0.0 && slope_at_end >= 0.0 && (c > 0.0 || (a * d + b) * d + c < 0.0)
    }

    /// First time after `after_s` at which `normal`·p = `offset_m` with the ball moving towards
    /// growing `normal`·p.
    pub fn first_crossing(&self, normal: Vec2, offset_m: f64, after_s: f64) -> Option<f64> {
        let (a, b) = (0.5 * normal.dot(self.acceleration), normal.dot(self.velocity));
        let c = normal.dot(self.position) - offset_m;
        if self.surely_misses(a, b, c) {
            return None;
        }
        let outward = |t: &f64| 2.0 * a * t + b > 0.0;
        let first = first_root_in(a, b, c, after_s, self.duration_s)?;
        if outward(&first) {
            return Some(first);
        }
        first_root_in(a, b, c, first, self.duration_s).filter(outward)
    }
}

/// A free ball's motion from now to rest.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Path {
    start: BallState,
    cloth: ClothMotion,
    slide: Segment,
    roll: Segment,
    /// Direction of slip while sliding.
    slip: Vec2,
    /// When spin about the vertical has died, s.
    spin_dies_s: f64,
}

impl Path {
    /// The motion that follows from `start`.
    pub fn new(start: BallState, cloth: ClothMotion) -> Self {
        let slip = start.cloth_slip(cloth.radius_m);
        let slip_speed = slip.norm();
        let friction = cloth.sliding_deceleration_m_s2;
        // What is left of slip after rounding is roll.
        let size = start.velocity.x.abs() + start.velocity.y.abs() + slip_speed;
        let slides = slip_speed > 1e-13 * size;
        let slide_s = match (slides, friction > 0.0) {
            (false, _) => 0.0,
            (true, true) => slip_speed * (2.0 / 7.0 / friction),
            (true, false) => f64::INFINITY,
        };
        // Slide takes two sevenths of the slip off the velocity, half of that on average on the way.
        let (position, velocity) = if slide_s.is_finite() && slide_s > 0.0 {
            let mean = start.velocity - slip * (1.0 / 7.0);
            (start.position + mean * slide_s, start.velocity - slip * (2.0 / 7.0))
        } else {
            (start.position, start.velocity)
        };
        let slip = if slides { slip * (1.0 / slip_speed) } else { Vec2::ZERO };
        let slide = Segment {
            position: start.position,
            velocity: start.velocity,
            acceleration: slip * -friction,
            duration_s: slide_s,
        };
        let speed = velocity.norm();
        let roll_s = match (speed > 0.0, cloth.rolling_deceleration_m_s2 > 0.0) {
            (false, _) => 0.0,
            (true, true) => speed * (1.0 / cloth.rolling_deceleration_m_s2),
            (true, false) => f64::INFINITY,
        };
        let acceleration = if speed > 0.0 {
            velocity * (-cloth.rolling_deceleration_m_s2 / speed)
        } else {
            Vec2::ZERO
        };
        let roll = Segment { position, velocity, acceleration, duration_s: roll_s };
        let spin_dies_s = if start.spin.z == 0.0 {
            0.0
        } else if cloth.pivot_deceleration_rad_s2 > 0.0 {
            start.spin.z.abs() / cloth.pivot_deceleration_rad_s2
        } else {
            f64::INFINITY
        };
        Self { start, cloth, slide, roll, slip, spin_dies_s }
    }

    /// A motion that something else than the cloth prescribes: the centre follows `position`,
    /// `velocity` and `acceleration` for as long as it is asked, and the spin stays.
    pub fn prescribed(start: BallState, acceleration: Vec2, radius_m: f64) -> Self {
        let along = Segment {
            position: start.position,
            velocity: start.velocity,
            acceleration,
            duration_s: f64::INFINITY,
        };
        let cloth = ClothMotion {
            radius_m,
            sliding_deceleration_m_s2: 0.0,
            rolling_deceleration_m_s2: 0.0,
            pivot_deceleration_rad_s2: 0.0,
        };
        Self {
            start,
            cloth,
            slide: along,
            roll: along,
            slip: Vec2::ZERO,
            spin_dies_s: f64::INFINITY,
        }
    }

    /// When slide turns into roll, s; infinite on a frictionless cloth.
    pub fn rolls_from_s(&self) -> f64 {
        self.slide.duration_s
    }

    /// When the centre comes to rest, s; infinite when nothing slows it.
    pub fn centre_rests_from_s(&self) -> f64 {
        self.slide.duration_s + self.roll.duration_s
    }

    /// When all motion has ended, s.
    pub fn rests_from_s(&self) -> f64 {
        self.centre_rests_from_s().max(self.spin_dies_s)
    }

    /// When its motion changes for the last time, s: 0 when it goes on as it began for ever.
    pub fn last_change_s(&self) -> f64 {
        [self.rests_from_s(), self.centre_rests_from_s(), self.rolls_from_s()]
            .into_iter()
            .find(|time_s| time_s.is_finite())
            .unwrap_or(0.0)
    }

    /// The sliding stretch, from time 0.
    pub fn slide(&self) -> &Segment {
        &self.slide
    }

    /// The rolling stretch, from [`Path::rolls_from_s`].
    pub fn roll(&self) -> &Segment {
        &self.roll
    }

    /// The stretch that begins at time 0: the slide, or the roll of a ball that does not slide.
    pub fn first_stretch(&self) -> &Segment {
        if self.slide.duration_s > 0.0 { &self.slide } else { &self.roll }
    }

    /// The phase of the ball at a time ≥ 0, s. A change belongs to the phase after it.
    pub fn phase_at(&self, time_s: f64) -> Phase {
        if time_s < self.slide.duration_s {
            Phase::Slide
        } else if time_s < self.centre_rests_from_s() {
            Phase::Roll
        } else if time_s < self.spin_dies_s {
            Phase::Pivot
        } else {
            Phase::Rest
        }
    }

    /// The centre at a time ≥ 0, m; as [`Path::state_at`] has it.
    pub fn position_at(&self, time_s: f64) -> Vec2 {
        if time_s < self.slide.duration_s {
            return self.slide.position_at(time_s);
        }
        let rests = time_s >= self.centre_rests_from_s();
        self.roll.position_at(if rests {
            self.roll.duration_s
        } else {
            time_s - self.slide.duration_s
        })
    }

    /// The centre's acceleration at a time ≥ 0, m/s².
    pub fn acceleration_at(&self, time_s: f64) -> Vec2 {
        if time_s < self.slide.duration_s {
            self.slide.acceleration
        } else if time_s < self.centre_rests_from_s() {
            self.roll.acceleration
        } else {
            Vec2::ZERO
        }
    }

    /// Corners of a box that holds the centre from now until `until_s`, m: low and high.
    pub fn box_until(&self, until_s: f64) -> [Vec2; 2] {
        let mut reach = Reach::at(self.first_stretch().position);
        reach.take(&self.slide, until_s);
        if until_s > self.slide.duration_s {
            reach.take(&self.roll, until_s - self.slide.duration_s);
        }
        [reach.low, reach.high]
    }

    /// The state at a time ≥ 0, s.
    pub fn state_at(&self, time_s: f64) -> BallState {
        let spin_z = self.spin_z_at(time_s);
        let radius = self.cloth.radius_m;
        if time_s < self.slide.duration_s {
            let impulse = 2.5 * self.cloth.sliding_deceleration_m_s2 * time_s / radius;
            return BallState {
                position: self.slide.position_at(time_s),
                velocity: self.slide.velocity_at(time_s),
                spin: Vec3::new(
                    self.start.spin.x - impulse * self.slip.y,
                    self.start.spin.y + impulse * self.slip.x,
                    spin_z,
                ),
            };
        }
        // Rounding in the difference of times must not keep a ball moving that rests.
        let rests = time_s >= self.centre_rests_from_s();
        let rolled = if rests { self.roll.duration_s } else { time_s - self.slide.duration_s };
        let velocity = if rests { Vec2::ZERO } else { self.roll.velocity_at(rolled) };
        BallState {
            position: self.roll.position_at(rolled),
            velocity,
            spin: Vec3::new(0.0, 0.0, spin_z),
        }
        .rolling(radius)
    }

    fn spin_z_at(&self, time_s: f64) -> f64 {
        if time_s >= self.spin_dies_s {
            return 0.0;
        }
        let decay = self.cloth.pivot_deceleration_rad_s2 * time_s;
        if self.start.spin.z > 0.0 { self.start.spin.z - decay } else { self.start.spin.z + decay }
    }

    /// First time after `after_s` at which the centre crosses the line `normal`·p = `offset_m`
    /// going towards growing `normal`·p, s; exact (a quadratic in each stretch).
    pub fn first_crossing(&self, normal: Vec2, offset_m: f64, after_s: f64) -> Option<f64> {
        let slide_s = self.slide.duration_s;
        if after_s < slide_s
            && let Some(time_s) = self.slide.first_crossing(normal, offset_m, after_s)
        {
            return Some(time_s);
        }
        if !slide_s.is_finite() {
            return None;
        }
        // A crossing at the very change may fall a rounding error before the roll.
        let after_roll = if after_s < slide_s { -1e-12 * slide_s } else { after_s - slide_s };
        self.roll
            .first_crossing(normal, offset_m, after_roll)
            .map(|time_s| slide_s + time_s.max(0.0))
    }
}

/// A growing box.
struct Reach {
    low: Vec2,
    high: Vec2,
}

impl Reach {
    fn at(point: Vec2) -> Self {
        Self { low: point, high: point }
    }

    fn take_point(&mut self, point: Vec2) {
        // Written so that what is not a number counts as without bound.
        let wide = |number: f64, bound: f64| if number.is_nan() { bound } else { number };
        self.low.x = self.low.x.min(wide(point.x, f64::NEG_INFINITY));
        self.low.y = self.low.y.min(wide(point.y, f64::NEG_INFINITY));
        self.high.x = self.high.x.max(wide(point.x, f64::INFINITY));
        self.high.y = self.high.y.max(wide(point.y, f64::INFINITY));
    }

    /// Takes in a stretch up to `until_s`: its end, and where either coordinate turns.
    fn take(&mut self, stretch: &Segment, until_s: f64) {
        let until_s = until_s.min(stretch.duration_s);
        if until_s.is_nan() || until_s <= 0.0 {
            return;
        }
        self.take_point(stretch.position_at(until_s));
        let turns = [
            -stretch.velocity.x / stretch.acceleration.x,
            -stretch.velocity.y / stretch.acceleration.y,
        ];
        for turn_s in turns {
            if turn_s > 0.0 && turn_s < until_s {
                self.take_point(stretch.position_at(turn_s));
            }
        }
    }
}
