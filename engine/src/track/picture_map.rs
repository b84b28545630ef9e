//! The map from a picture to the table, through the lens.

use super::TrackError;
use super::homography::{Homography, TableMark};
use super::lens::{Lens, LensKnown, PictureSize};
use crate::vector::Vec2;

/// The lens undone, then the plane map.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PictureMap {
    lens: Option<Lens>,
    plane: Homography,
}

/// Fewer don't tell a lens beside the plane.
const FEWEST_FOR_LENS: usize = 6;
/// Coefficients that are tried before the best of them is followed.
const TRIED: i32 = 14;
/// By which the coefficient is moved to see what it does.
const STEP: f64 = 1e-5;
const ROUNDS: usize = 12;
/// A coefficient is not told when clicks off by a pixel leave it unsure by more than this. Chosen.
const MOST_UNSURE: f64 = 0.1;

impl PictureMap {
    /// The map that fits the marks best; a lens that is to be found is the one with which they fit best, by the squares
    /// in the picture.
    ///
    /// # Errors
    /// [`TrackError`] for marks that decide no map or no lens.
    pub(super) fn new(marks: &[TableMark], lens: LensKnown) -> Result<Self, TrackError> {
        match lens {
            LensKnown::Straight => Ok(Self { lens: None, plane: Homography::new(marks)? }),
            LensKnown::Given(lens) => Self::through(marks, lens),
            LensKnown::Found(picture) => Self::found(marks, picture),
        }
    }

    /// The place on the table of a point of the picture, m; not finite where it shows none.
    pub(super) fn to_table(&self, image: Vec2) -> Vec2 {
        self.plane.to_table(self.lens.map_or(image, |lens| lens.straightened(image)))
    }

    /// The point of the picture of a place on the table, pixels.
    pub(super) fn to_image(&self, table: Vec2) -> Vec2 {
        let straight = self.plane.to_image(table);
        self.lens.map_or(straight, |lens| lens.seen(straight))
    }

    /// How far a mark lies from its place, m.
    pub(super) fn residual_m(&self, mark: &TableMark) -> f64 {
        (self.to_table(mark.image) - mark.table).norm()
    }

    /// The coefficient of the lens.
    pub(super) fn k1(&self) -> Option<f64> {
        self.lens.map(|lens| lens.k1())
    }

    fn through(marks: &[TableMark], lens: Lens) -> Result<Self, TrackError> {
        let straight: Vec<TableMark> = marks
            .iter()
            .map(|mark| TableMark { image: lens.straightened(mark.image), ..*mark })
            .collect();
        if let Some(at) = straight.iter().position(|mark| !mark.image.is_finite()) {
            return Err(TrackError::BeyondLens { mark: at + 1 });
        }
        Ok(Self { lens: Some(lens), plane: Homography::new(&straight)? })
    }

    /// Gauss and Newton's steps of the one coefficient, from the best of some.
    fn found(marks: &[TableMark], picture: PictureSize) -> Result<Self, TrackError> {
        if marks.len() < FEWEST_FOR_LENS {
            return Err(TrackError::FewMarksForLens { marks: marks.len() });
        }
        let with = |k1: f64| -> Result<(Self, Vec<f64>), TrackError> {
            let k1 = k1.clamp(-Lens::MOST_K1, Lens::MOST_K1);
            let lens = Lens::new(picture, k1).ok_or(TrackError::LensNotTold)?;
            let map = Self::through(marks, lens)?;
            let off = map.off(marks);
            Ok((map, off))
        };
        // Marks that decide no plane map say so.
        let mut best = with(0.0)?;
        for step in -TRIED..=TRIED {
            let k1 = f64::from(step) * Lens::MOST_K1 / f64::from(TRIED);
            if let Ok(tried) = with(k1)
                && dot(&tried.1, &tried.1) < dot(&best.1, &best.1)
            {
                best = tried;
            }
        }
        for _ in 0..ROUNDS {
            let k1 = best.0.k1().unwrap_or_default();
            let (_, more) = with(k1 + STEP)?;
            let (_, less) = with(k1 - STEP)?;
            // At an end of the range both are the same distance apart that they are, not twice the step.
            let apart = (k1 + STEP).min(Lens::MOST_K1) - (k1 - STEP).max(-Lens::MOST_K1);
            let slope: Vec<f64> =
                more.iter().zip(&less).map(|(more, less)| (more - less) / apart).collect();
            let square = dot(&slope, &slope);
            let is_told = square.sqrt() * MOST_UNSURE >= 1.0;
            if !is_told {
                return Err(TrackError::LensNotTold);
            }
            let by = -dot(&slope, &best.1) / square;
            let next = with(k1 + by)?;
            if dot(&next.1, &next.1) >= dot(&best.1, &best.1) {
                break;
            }
            best = next;
        }
        Ok(best.0)
    }

    /// How far the marks lie off in the picture, pixels, a coordinate after the other.
    fn off(&self, marks: &[TableMark]) -> Vec<f64> {
        let off = marks.iter().map(|mark| self.to_image(mark.table) - mark.image);
        off.flat_map(|off| [off.x, off.y]).collect()
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
