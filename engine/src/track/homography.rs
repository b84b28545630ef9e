//! The plane map from a picture to the table.

use super::TrackError;
use crate::vector::Vec2;
use nalgebra::{DMatrix, Matrix3, SVD, Vector3};

/// A point whose places in the picture and on the table are known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TableMark {
    /// Its place in the picture, pixels.
    pub image: Vec2,
    /// Its place on the table, m.
    pub table: Vec2,
}

/// The map from the picture to the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Homography {
    to_table: Matrix3<f64>,
    to_image: Matrix3<f64>,
}

/// Fewer don't decide a plane map.
const FEWEST_MARKS: usize = 4;
/// Least ratio of the eighth singular value of the equations, and of the last of the map, to the first.
/// Marks in one line, up to a thousandth of their spread, stay below. Chosen.
const LEAST_RATIO: f64 = 2e-3;

impl Homography {
    /// The map that fits the marks best.
    ///
    /// # Errors
    /// [`TrackError::FewMarks`] for fewer than four, [`TrackError::MarksInLine`] when they don't decide a map.
    pub fn new(marks: &[TableMark]) -> Result<Self, TrackError> {
        if marks.len() < FEWEST_MARKS {
            return Err(TrackError::FewMarks { marks: marks.len() });
        }
        let image = Normalised::new(marks.iter().map(|mark| mark.image))?;
        let table = Normalised::new(marks.iter().map(|mark| mark.table))?;
        // A ninth row of zeros for four marks, so that the null direction is among the right vectors.
        let mut equations = DMatrix::zeros((2 * marks.len()).max(9), 9);
        for (at, mark) in marks.iter().enumerate() {
            let (from, to) = (image.at(mark.image), table.at(mark.table));
            let [u, v, x, y] = [from.x, from.y, to.x, to.y];
            let rows = [
                [0.0, 0.0, 0.0, -u, -v, -1.0, y * u, y * v, y],
                [u, v, 1.0, 0.0, 0.0, 0.0, -x * u, -x * v, -x],
            ];
            for (half, row) in rows.iter().enumerate() {
                for (column, value) in row.iter().enumerate() {
                    equations[(2 * at + half, column)] = *value;
                }
            }
        }
        let solved = SVD::new(equations, false, true);
        let right = solved.v_t.ok_or(TrackError::MarksInLine)?;
        let singular = &solved.singular_values;
        if singular[7] <= LEAST_RATIO * singular[0] {
            return Err(TrackError::MarksInLine);
        }
        let map = Matrix3::from_fn(|row, column| right[(8, 3 * row + column)]);
        let sizes = map.singular_values();
        if sizes[2] <= LEAST_RATIO * sizes[0] {
            return Err(TrackError::MarksInLine);
        }
        let back = table.matrix().try_inverse().ok_or(TrackError::MarksInLine)?;
        let to_table = back * map * image.matrix();
        let to_image = to_table.try_inverse().ok_or(TrackError::MarksInLine)?;
        Ok(Self { to_table, to_image })
    }

    /// The place on the table of a point of the picture, m; not finite beyond the horizon's line.
    pub fn to_table(&self, image: Vec2) -> Vec2 {
        mapped(&self.to_table, image)
    }

    /// The point of the picture of a place on the table, pixels.
    pub fn to_image(&self, table: Vec2) -> Vec2 {
        mapped(&self.to_image, table)
    }

    /// How far a mark lies from its place, m.
    pub fn residual_m(&self, mark: &TableMark) -> f64 {
        (self.to_table(mark.image) - mark.table).norm()
    }
}

fn mapped(map: &Matrix3<f64>, point: Vec2) -> Vec2 {
    let to = map * Vector3::new(point.x, point.y, 1.0);
    Vec2::new(to.x / to.z, to.y / to.z)
}

/// Points moved to their mean and scaled to a mean distance of √2 from it.
struct Normalised {
    middle: Vec2,
    scale: f64,
}

impl Normalised {
    fn new(points: impl ExactSizeIterator<Item = Vec2> + Clone) -> Result<Self, TrackError> {
        let count = points.len() as f64;
        let middle = points.clone().fold(Vec2::ZERO, |sum, point| sum + point) * (1.0 / count);
        let distance = points.map(|point| (point - middle).norm()).sum::<f64>() / count;
        let scale = core::f64::consts::SQRT_2 / distance;
        if scale.is_finite() { Ok(Self { middle, scale }) } else { Err(TrackError::MarksInLine) }
    }

    fn at(&self, point: Vec2) -> Vec2 {
        (point - self.middle) * self.scale
    }

    fn matrix(&self) -> Matrix3<f64> {
        let Self { middle, scale } = self;
        Matrix3::new(*scale, 0.0, -scale * middle.x, 0.0, *scale, -scale * middle.y, 0.0, 0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A camera two metres up that looks along the table: focal length 1,500 pixels, no noise.
    fn seen(table: Vec2) -> Vec2 {
        let (right, ahead) = (table.y + 0.1, table.x + 3.0);
        let (sin, cos) = (0.55_f64, (1.0 - 0.55_f64 * 0.55).sqrt());
        let depth = ahead * cos + 2.0 * sin;
        let down = 2.0 * cos - ahead * sin;
        Vec2::new(960.0 + 1500.0 * right / depth, 540.0 + 1500.0 * down / depth)
    }

    fn marks(places: &[(f64, f64)]) -> Vec<TableMark> {
        let at = places.iter().map(|&(x, y)| Vec2::new(x, y));
        at.map(|table| TableMark { image: seen(table), table }).collect()
    }

    const CORNERS: [(f64, f64); 4] = [(-1.27, -0.63), (-1.27, 0.63), (1.27, -0.63), (1.27, 0.63)];

    #[test]
    fn a_camera_without_noise_is_undone_to_a_nanometre() {
        let more = [CORNERS.as_slice(), &[(0.0, 0.63), (0.3, -0.2)]].concat();
        for places in [CORNERS.as_slice(), &more] {
            let map = Homography::new(&marks(places)).expect("marks of a table");
            for at in 0..50 {
                let table = Vec2::new(-1.2 + 0.05 * f64::from(at), 0.6 - 0.024 * f64::from(at));
                assert!((map.to_table(seen(table)) - table).norm() < 1e-9, "{table:?}");
                assert!((map.to_image(table) - seen(table)).norm() < 1e-6, "{table:?}");
            }
        }
    }

    #[test]
    fn marks_that_decide_no_map_are_refused() {
        assert_eq!(Homography::new(&marks(&CORNERS[..3])), Err(TrackError::FewMarks { marks: 3 }));
        let line = [(-1.2, 0.6), (-0.4, 0.6), (0.4, 0.6), (1.2, 0.6)];
        let three = [(-1.2, 0.6), (0.0, 0.6), (1.2, 0.6), (0.4, -0.6)];
        let twice = [(-1.2, 0.6), (-1.2, 0.6), (1.2, 0.6), (0.4, -0.6)];
        let one = [(0.1, 0.2); 4];
        for places in [line, three, twice, one] {
            let mut marks = marks(&places);
            assert_eq!(Homography::new(&marks), Err(TrackError::MarksInLine), "{places:?}");
            marks[1].image.y += 0.7;
            assert_eq!(Homography::new(&marks), Err(TrackError::MarksInLine), "{places:?}");
        }
    }
}
