//! The places where a player's shots of one set-up come to.
//!
//! Far from resting, a place is normal about the exact shot's. A ball that barely comes to the rail is not: a share
//! of its shots rests before, and the place bends with the speed. Such a set-up is played at a few speeds; between
//! them places are straight lines, and the law of the speed is summed over its stretch that comes to a rail.

use crate::column::Landing;
use crate::normal::{density, share_below};

/// Where the shots come to: places with their shares, each normal about itself.
pub(super) struct Places {
    points: Points,
    /// The share of the shots that rest before they come to a place.
    stops: f64,
}

/// One place is the rule, and is made a million times in a fit.
enum Points {
    None,
    One([ShotPlace; 1]),
    Many(Box<[ShotPlace; POINTS]>),
}

/// A place and the share of the shots about it.
#[derive(Debug, Clone, Copy)]
pub(super) struct ShotPlace {
    pub(super) share: f64,
    pub(super) along_m: f64,
    pub(super) holds_m: (f64, f64),
    pub(super) mouth_m: (f64, f64),
    pub(super) variance_m2: f64,
}

/// The speeds at which a bank near its rest is played, in deviations from what was meant.
pub(super) const SPEEDS: [f64; 3] = [-1.2, 0.4, 2.0];
/// The places into which such a bank's stretch of speeds is cut.
const POINTS: usize = 12;
/// Nobody errs by more deviations.
const REACH: f64 = 3.2;

impl Places {
    /// Of a bank far from resting: one place with the whole variance.
    pub(super) fn about(landing: &Landing, variance_m2: f64) -> Self {
        let stops = if landing.is_stopped() { 1.0 } else { 0.0 };
        let place = ShotPlace {
            share: 1.0,
            along_m: landing.along_m,
            holds_m: landing.holds_m,
            mouth_m: landing.mouth_m,
            variance_m2,
        };
        let points = if landing.is_told() { Points::One([place]) } else { Points::None };
        Self { points, stops }
    }

    /// Of a bank near its rest, by its landings at [`SPEEDS`], the variance that the other causes give, the
    /// deviation of the speed as a share of it, and the lever of one such deviation, m.
    pub(super) fn over_speeds(
        landings: &[Landing],
        rest_m2: f64,
        speed_sd: f64,
        lever_m: f64,
    ) -> Self {
        let Some(slowest) = landings.iter().position(Landing::is_told) else {
            return Self::about(&landings[SPEEDS.len() - 1], rest_m2);
        };
        let line = SpeedLine { landings, slowest, lever_m };
        let stop = line.stop(speed_sd);
        let (from, to) = (stop.max(-REACH), REACH);
        let below = share_below(stop);
        let is_rest = slowest == 0 || landings[slowest - 1].is_stopped();
        let stops = if is_rest { below } else { 0.0 };
        let width = (to - from).max(0.0) / POINTS as f64;
        let mut points = core::array::from_fn(|at| {
            let speed = (at as f64 + 0.5) * width + from;
            line.place(speed, width, rest_m2)
        });
        let whole: f64 = points.iter().map(|place: &ShotPlace| place.share).sum();
        for place in &mut points {
            place.share *= (1.0 - below) / whole;
        }
        let is_any = width > 0.0 && whole > 0.0;
        let points = if is_any { Points::Many(Box::new(points)) } else { Points::None };
        Self { points, stops }
    }

    /// The same, so far past their places.
    pub(super) fn moved(mut self, past_m: f64) -> Self {
        let points: &mut [ShotPlace] = match &mut self.points {
            Points::None => &mut [],
            Points::One(place) => place,
            Points::Many(places) => &mut places[..],
        };
        for place in points {
            place.along_m += past_m;
        }
        self
    }

    /// The places.
    pub(super) fn all(&self) -> &[ShotPlace] {
        match &self.points {
            Points::None => &[],
            Points::One(place) => place,
            Points::Many(places) => &places[..],
        }
    }

    /// The mean place of the shots that come to one, m, and the variance about it, m².
    pub(super) fn mean(&self) -> Option<(f64, f64)> {
        let whole: f64 = self.all().iter().map(|place| place.share).sum();
        let mean = |of: &dyn Fn(&ShotPlace) -> f64| {
            self.all().iter().map(|place| place.share * of(place)).sum::<f64>() / whole
        };
        let mean_m = mean(&|place| place.along_m);
        let off = |place: &ShotPlace| place.along_m - mean_m;
        (whole > 0.0).then(|| (mean_m, mean(&|place| place.variance_m2 + off(place) * off(place))))
    }

    /// The share of the shots that rest before they come to a place.
    pub(super) const fn stops(&self) -> f64 {
        self.stops
    }

    /// The place below which a share of the shots comes to, by the mixture's steps, and the variance about it;
    /// nothing where such a shot comes to no place.
    pub(super) fn at_share(&self, share: f64) -> Option<ShotPlace> {
        let mut below = 1.0 - self.all().iter().map(|place| place.share).sum::<f64>();
        self.all()
            .iter()
            .find(|place| {
                let (from, to) = (below, below + place.share);
                below = to;
                (from..to).contains(&share)
            })
            .copied()
    }
}

/// The landings over the speed, as pieces of straight lines.
struct SpeedLine<'a> {
    landings: &'a [Landing],
    /// The slowest that comes to a place.
    slowest: usize,
    lever_m: f64,
}

impl SpeedLine<'_> {
    /// The told landings beside one another at a speed, or the only one twice.
    fn piece(&self, speed: f64) -> (usize, usize) {
        let told = |at: &usize| self.landings[*at].is_told();
        let mut pairs = (self.slowest..SPEEDS.len() - 1).filter(|at| told(at) && told(&(at + 1)));
        let Some(mut from) = pairs.next() else { return (self.slowest, self.slowest) };
        for next in pairs {
            if SPEEDS[next] <= speed {
                from = next;
            }
        }
        (from, from + 1)
    }

    fn place(&self, speed: f64, width: f64, rest_m2: f64) -> ShotPlace {
        let (from, to) = self.piece(speed);
        let (first, second) = (&self.landings[from], &self.landings[to]);
        let past = speed - SPEEDS[from];
        let line = |first: f64, second: f64| {
            if first.is_nan() {
                second
            } else if second.is_nan() || from == to {
                first
            } else {
                first + past * (second - first) / (SPEEDS[to] - SPEEDS[from])
            }
        };
        let slope_m = if from == to {
            self.lever_m
        } else {
            (second.along_m - first.along_m) / (SPEEDS[to] - SPEEDS[from])
        };
        let within_m = slope_m * width;
        ShotPlace {
            share: density(speed) * width,
            along_m: first.along_m + past * slope_m,
            holds_m: (
                line(first.holds_m.0, second.holds_m.0),
                line(first.holds_m.1, second.holds_m.1),
            ),
            mouth_m: first.mouth_m,
            variance_m2: rest_m2 + within_m * within_m / 12.0,
        }
    }

    /// The speed below which the ball rests before it comes to a place, in deviations from what was meant.
    ///
    /// The square of the speed at the mouth falls with the square of the speed that is sent, as that of a ball that
    /// rolls down evenly does; it is drawn on to nothing.
    fn stop(&self, speed_sd: f64) -> f64 {
        let square = |at: usize| {
            let sent = SPEEDS[at] * speed_sd + 1.0;
            sent * sent
        };
        let slowest = self.slowest;
        let (least, most) =
            (if slowest == 0 { f64::NEG_INFINITY } else { SPEEDS[slowest - 1] }, SPEEDS[slowest]);
        let (from, to) = self.piece(SPEEDS[slowest]);
        if from == to {
            // Only one speed comes to a place: the middle to the next slower one, if that was played.
            return if slowest == 0 { least } else { 0.5 * (least + most) };
        }
        let left = |at: usize| self.landings[at].speed_m_s * self.landings[at].speed_m_s;
        let rise = (left(to) - left(from)) / (square(to) - square(from));
        let nothing = square(from) - left(from) / rise;
        if rise > 0.0 && nothing > 0.0 {
            ((nothing.sqrt() - 1.0) / speed_sd).clamp(least, most)
        } else {
            least
        }
    }
}
