//! A lens that bends straight lines.

use crate::vector::Vec2;

/// A lens with one radial coefficient.
///
/// A point that a lens without bending would show at a distance r from the picture's middle it shows at
/// r·(1 + k₁·(r/d)²), where d is half the picture's diagonal (D. Brown 1966, *Decentering distortion of lenses*,
/// Photogrammetric Engineering 32(3):444–462, its first radial term; from memory). Negative k₁ draws the corners in, as
/// wide lenses do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lens {
    picture: PictureSize,
    k1: f64,
}

/// The size of a picture, pixels; the lens' axis goes through its middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PictureSize {
    /// To the right.
    pub width: f64,
    /// Down.
    pub height: f64,
}

/// The way in which a film's lens is known.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum LensKnown {
    /// It bends nothing.
    #[default]
    Straight,
    /// Its coefficient is known.
    Given(Lens),
    /// Its coefficient is found from the marks of such a picture.
    Found(PictureSize),
}

impl PictureSize {
    fn middle(self) -> Vec2 {
        Vec2::new(0.5 * self.width, 0.5 * self.height)
    }

    fn half_diagonal(self) -> f64 {
        self.middle().norm()
    }
}

/// Steps of Newton's method; they double the digits of a start that is near.
const STEPS: usize = 60;

impl Lens {
    /// The greatest size of k₁, either way. Below -4/27 a picture's corners are the image of nothing.
    pub const MOST_K1: f64 = 0.14;

    /// A lens; `None` for a coefficient past [`Lens::MOST_K1`].
    pub fn new(picture: PictureSize, k1: f64) -> Option<Self> {
        (k1.abs() <= Self::MOST_K1).then_some(Self { picture, k1 })
    }

    /// The coefficient.
    pub const fn k1(&self) -> f64 {
        self.k1
    }

    /// Where a lens without bending would show what this one shows there, pixels; not finite where this one shows
    /// nothing.
    pub fn straightened(&self, seen: Vec2) -> Vec2 {
        let off = (seen - self.picture.middle()) * (1.0 / self.picture.half_diagonal());
        let wanted = off.norm();
        if wanted == 0.0 {
            return seen;
        }
        // For k₁ < 0 the place lies further out, as far as the way out turns back; else further in.
        let turn = if self.k1 < 0.0 { 1.0 / (-3.0 * self.k1).sqrt() } else { wanted };
        let (mut low, mut high) = if self.k1 < 0.0 { (wanted, turn) } else { (0.0, wanted) };
        // Neither is true of what is no number.
        let is_shown = wanted.is_finite() && self.bent(high) >= wanted;
        if !is_shown {
            return Vec2::new(f64::NAN, f64::NAN);
        }
        let mut at = wanted;
        for _ in 0..STEPS {
            let over = self.bent(at) - wanted;
            if over > 0.0 {
                high = at;
            } else {
                low = at;
            }
            let newton = at - over / (1.0 + 3.0 * self.k1 * at * at);
            let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
            if next == at {
                break;
            }
            at = next;
        }
        self.picture.middle() + off * (at / wanted * self.picture.half_diagonal())
    }

    /// Where this lens shows what one without bending would show there, pixels.
    pub fn seen(&self, straight: Vec2) -> Vec2 {
        let off = straight - self.picture.middle();
        let share = off.norm() / self.picture.half_diagonal();
        self.picture.middle() + off * (1.0 + self.k1 * share * share)
    }

    fn bent(&self, distance: f64) -> f64 {
        distance * (1.0 + self.k1 * distance * distance)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PICTURE: PictureSize = PictureSize { width: 1920.0, height: 1080.0 };

    #[test]
    fn straightening_undoes_the_lens_over_the_whole_picture() {
        for k1 in [-0.14, -0.05, -1e-6, 0.0, 0.05, 0.14] {
            let lens = Lens::new(PICTURE, k1).expect("a lens");
            for at in 0..41 {
                for across in 0..41 {
                    let seen = Vec2::new(48.0 * f64::from(at), 27.0 * f64::from(across));
                    let back = lens.seen(lens.straightened(seen));
                    assert!((back - seen).norm() < 1e-9, "{k1} {seen:?} {back:?}");
                }
            }
        }
    }

    #[test]
    fn a_point_is_moved_by_the_stated_law() {
        // By hand: 0.5 half diagonals out, k₁ = -0.1: 0.5·(1 - 0.1·0.25) = 0.4875.
        let lens = Lens::new(PICTURE, -0.1).expect("a lens");
        let d = PICTURE.half_diagonal();
        let seen = lens.seen(Vec2::new(960.0 + 0.5 * d, 540.0));
        assert!((seen.x - (960.0 + 0.4875 * d)).abs() < 1e-9 && seen.y == 540.0, "{seen:?}");
    }

    #[test]
    fn where_nothing_is_shown_nothing_is_told() {
        let lens = Lens::new(PICTURE, -0.14).expect("a lens");
        // 2/3/√0.42 = 1.0287 half diagonals is the furthest that this lens shows.
        let at = |share: f64| Vec2::new(960.0 + share * PICTURE.half_diagonal(), 540.0);
        assert!(!lens.straightened(at(1.03)).is_finite());
        assert!(lens.straightened(at(1.028)).is_finite());
        assert!(!lens.straightened(at(f64::INFINITY)).is_finite());
        assert!(Lens::new(PICTURE, 0.15).is_none() && Lens::new(PICTURE, f64::NAN).is_none());
    }
}
