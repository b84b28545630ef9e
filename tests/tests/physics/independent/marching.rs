//! A search for the first touch that knows no algebra: a gap closes no sooner than speed and
//! acceleration let it, so steps of that length never pass a touch. And a generator of cases.

use railproof_engine::vector::Vec2;
use railproof_tests::random::SplitMix;

/// Gap below which the search says that things touch, m.
pub const TOUCH_M: f64 = 1e-13;

/// A gap in time, its speed, and a bound on its acceleration.
pub struct Gap<G, S> {
    /// The gap, m.
    pub at: G,
    /// No slower than the gap changes, m/s.
    pub speed: S,
    /// No less than the speed changes, m/s².
    pub acceleration: f64,
}

impl<G: Fn(f64) -> f64, S: Fn(f64) -> f64> Gap<G, S> {
    /// The first time in the range at which the gap is below [`TOUCH_M`], and after how many steps.
    pub fn first_touch(&self, from_s: f64, until_s: f64) -> (Option<f64>, u64) {
        let mut time = from_s;
        let mut steps = 0;
        while time <= until_s {
            let gap = (self.at)(time);
            if gap < TOUCH_M {
                return (Some(time), steps);
            }
            time += self.step(time, gap);
            steps += 1;
        }
        (None, steps)
    }

    /// The first time after `from_s`, when they touch or overlap, at which they are clear by
    /// 1e-9 m.
    pub fn first_clear(&self, from_s: f64, until_s: f64) -> Option<f64> {
        let mut time = from_s;
        while time <= until_s {
            let gap = (self.at)(time);
            if gap > 1e-9 {
                return Some(time);
            }
            // Past that, or the steps would end there.
            time += self.step(time, 2e-9 - gap);
        }
        None
    }

    /// The time in which the gap changes by no more than this.
    fn step(&self, time: f64, change: f64) -> f64 {
        // |v|·s + ½|a|·s² = change.
        let speed = (self.speed)(time);
        2.0 * change / (speed + (speed * speed + 2.0 * self.acceleration * change).sqrt())
    }
}

/// Random inputs.
pub struct Draw(SplitMix);

impl Draw {
    pub const fn of(seed: u64) -> Self {
        Self(SplitMix(seed))
    }

    /// From 0 up to 1.
    pub fn share(&mut self) -> f64 {
        self.0.share()
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Every order of magnitude as likely.
    pub fn size(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.share())
    }

    pub fn direction(&mut self) -> Vec2 {
        let (sin, cos) = self.between(0.0, core::f64::consts::TAU).sin_cos();
        Vec2::new(cos, sin)
    }

    pub fn one_in(&mut self, count: f64) -> bool {
        self.share() * count < 1.0
    }

    /// Where two balls touch, m.
    pub fn distance(&mut self) -> f64 {
        if self.one_in(2.0) { 0.057_15 } else { self.between(0.02, 0.12) }
    }

    pub fn acceleration(&mut self) -> f64 {
        if self.one_in(8.0) { 0.0 } else { self.size(1e-3, 10.0) }
    }

    /// A time in which neither term of the motion takes it off the table's scale.
    pub fn until(&mut self, speed: f64, acceleration: f64) -> f64 {
        let reach_m = self.size(0.1, 10.0);
        let by_speed = reach_m / speed.max(1e-3);
        let by_acceleration = (2.0 * reach_m / acceleration.max(1e-3)).sqrt();
        by_speed.min(by_acceleration)
    }
}

/// The number of cases: 20,000, or as many as `RAILPROOF_CASES` says.
pub fn cases() -> u32 {
    match std::env::var("RAILPROOF_CASES") {
        Ok(text) => text.parse().unwrap_or_else(|error| panic!("RAILPROOF_CASES={text}: {error}")),
        Err(_) => 20_000,
    }
}
