//! Paths that leave the table, cut where they pass the wood's edge.

use super::input::{BallTrack, TablePoint, TableShape, TrackEnd, TrackPath, TrackPiece};
use crate::picture::contour::bezier;

impl BallTrack {
    /// The track up to where its centre first passes the edge of the wood; there it is
    /// [`TrackEnd::Gone`]. A track that stays inside comes back unchanged.
    #[must_use]
    pub fn within(mut self, table: &TableShape) -> Self {
        let half = (0.5 * table.length_m + table.rail_m, 0.5 * table.width_m + table.rail_m);
        let leaves = self
            .pieces
            .iter()
            .enumerate()
            .find_map(|(index, piece)| Some((index, leaving(&piece.path, half)?)));
        if let Some((index, share)) = leaves {
            self.pieces.truncate(index + 1);
            if let Some(last) = self.pieces.last_mut() {
                *last = TrackPiece { path: first_part(&last.path, share), ..*last };
            }
            self.end = TrackEnd::Gone;
        }
        self
    }
}

/// The control point of a stretch; a straight one has it in the middle.
fn control_of(path: &TrackPath) -> TablePoint {
    match *path {
        TrackPath::Line { from, to } => (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1)),
        TrackPath::Parabola { control, .. } => control,
    }
}

/// The share of a stretch's parameter at which it first passes a side of the box.
fn leaving(path: &TrackPath, half: (f64, f64)) -> Option<f64> {
    let (from, control, to) = (path.from(), control_of(path), path.to());
    let sides = [
        (from.0, control.0, to.0, half.0),
        (-from.0, -control.0, -to.0, half.0),
        (from.1, control.1, to.1, half.1),
        (-from.1, -control.1, -to.1, half.1),
    ];
    sides
        .into_iter()
        .filter_map(|(from, control, to, bound)| passing(from - bound, control - bound, to - bound))
        .min_by(f64::total_cmp)
}

/// The first share at which a quadratic Bézier coordinate rises through zero.
fn passing(from: f64, control: f64, to: f64) -> Option<f64> {
    if from > 0.0 {
        return Some(0.0);
    }
    // from + 2·b·s + a·s² = 0
    let (a, b) = (from - 2.0 * control + to, control - from);
    let root = (b * b - a * from).sqrt();
    // Of the two roots, both written without a difference of near-equal numbers.
    let roots = if b >= 0.0 {
        [-from / (b + root), -(b + root) / a]
    } else {
        [(root - b) / a, from / (root - b)]
    };
    roots
        .into_iter()
        // At a rise the slope b + a·s is positive.
        .filter(|share| (0.0..1.0).contains(share) && b + a * share > 0.0)
        .min_by(f64::total_cmp)
}

/// A stretch up to a share of its parameter (de Casteljau's division).
fn first_part(path: &TrackPath, share: f64) -> TrackPath {
    let between =
        |a: TablePoint, b: TablePoint| (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1));
    match *path {
        TrackPath::Line { from, to } => TrackPath::Line { from, to: between(from, to) },
        TrackPath::Parabola { from, control, to } => TrackPath::Parabola {
            from,
            control: between(from, control),
            to: bezier(from, control, to, share),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::super::input::Motion;
    use super::*;

    fn table() -> TableShape {
        TableShape {
            length_m: 2.0,
            width_m: 1.0,
            rail_m: 0.1,
            cushions: Vec::new(),
            pockets: Vec::new(),
            sights: Vec::new(),
            named: false,
        }
    }

    fn track(paths: &[TrackPath]) -> BallTrack {
        BallTrack {
            name: "a".into(),
            radius_m: 0.03,
            is_cue: false,
            is_object: false,
            start: (0.0, 0.0),
            pieces: paths
                .iter()
                .map(|path| TrackPiece { path: *path, motion: Motion::Hop })
                .collect(),
            end: TrackEnd::Rest,
        }
    }

    #[test]
    fn a_path_is_cut_where_it_first_passes_the_edge() {
        let fly = TrackPath::accelerated((0.5, 0.0), (3.0, 2.4), (-1.0, 0.5), 0.6);
        let stay = TrackPath::Line { from: (0.0, 0.0), to: (0.5, 0.0) };
        let cut = track(&[stay, fly, stay]).within(&table());
        assert_eq!((cut.pieces.len(), cut.end), (2, TrackEnd::Gone));
        assert_eq!(cut.pieces[0].path, stay);
        // The first time at which 0.5 + 3t − 0.5t² = 1.1 or 2.4t + 0.25t² = 0.6.
        let time = 3.0 - (9.0_f64 - 1.2).sqrt();
        assert!(2.4 * time + 0.25 * time * time < 0.6, "it passes the end first");
        let TrackPath::Parabola { from, control, to } = cut.pieces[1].path else { panic!() };
        assert!((to.0 - 1.1).abs() < 1e-12, "{to:?}");
        // What is left is the same motion for a shorter time.
        let same = TrackPath::accelerated((0.5, 0.0), (3.0, 2.4), (-1.0, 0.5), time);
        let TrackPath::Parabola { control: wanted, .. } = same else { panic!() };
        assert!((control.0 - wanted.0).hypot(control.1 - wanted.1) < 1e-12);
        assert_eq!(from, (0.5, 0.0));
        assert!((to.0 - same.to().0).hypot(to.1 - same.to().1) < 1e-12);
    }

    #[test]
    fn paths_that_come_back_in_time_or_start_on_the_edge_are_judged_by_where_they_are() {
        let bow =
            |top| TrackPath::Parabola { from: (-0.5, 0.0), control: (0.0, top), to: (0.5, 0.0) };
        // The top of the bow lies at half the control point's height.
        let inside = track(&[bow(1.19)]);
        assert_eq!(inside.clone().within(&table()), inside);
        assert_eq!(track(&[bow(1.21)]).within(&table()).end, TrackEnd::Gone);
        let edge = TrackPath::Line { from: (1.1, 0.0), to: (0.0, 0.0) };
        assert_eq!(track(&[edge]).within(&table()).end, TrackEnd::Rest);
        let out = TrackPath::Line { from: (0.0, 0.0), to: (0.0, -0.9) };
        let cut = track(&[out]).within(&table());
        assert!((cut.finish().1 + 0.6).abs() < 1e-12, "{cut:?}");
        let still = TrackPath::Line { from: (0.2, 0.2), to: (0.2, 0.2) };
        assert_eq!(track(&[still]).within(&table()).end, TrackEnd::Rest);
        let numberless = TrackPath::Line { from: (f64::NAN, 0.0), to: (9.0, 0.0) };
        let _ = track(&[numberless]).within(&table());
    }
}
