//! From metres on the table to places on the page.

use super::super::contour::{Contour, ContourPiece, PagePoint};
use super::crowd::Crowd;
use super::input::{CushionPiece, TablePoint, TableShape, TrackPath};

/// The most that the table may take on the page.
pub(super) const ROOM: (f64, f64) = (1020.0, 640.0);

/// Space around the wood for the numbers of the sights.
const NUMBERS: f64 = 22.0;

/// Where the table lies on the page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct TableFrame {
    centre: PagePoint,
    /// Points to a metre.
    scale: f64,
    /// Half the playing area, points.
    half: (f64, f64),
    rail: f64,
}

impl TableFrame {
    pub(super) fn new(table: &TableShape, middle: f64, top: f64) -> Self {
        let numbered = table.sights.iter().any(|sight| !sight.number.trim().is_empty());
        let aside = if numbered || table.named { NUMBERS } else { 0.0 };
        let (length, width) =
            (table.length_m + 2.0 * table.rail_m, table.width_m + 2.0 * table.rail_m);
        let scale = ((ROOM.0 - 2.0 * aside) / length).min((ROOM.1 - 2.0 * aside) / width);
        let half = (0.5 * table.length_m * scale, 0.5 * table.width_m * scale);
        let rail = table.rail_m * scale;
        Self { centre: (middle, top + aside + rail + half.1), scale, half, rail }
    }

    /// The table enlarged so that one of its places lies at a place of the page.
    pub(super) fn enlarged(
        table: &TableShape,
        at: TablePoint,
        onto: PagePoint,
        scale: f64,
    ) -> Self {
        Self {
            centre: (onto.0 - at.0 * scale, onto.1 + at.1 * scale),
            scale,
            half: (0.5 * table.length_m * scale, 0.5 * table.width_m * scale),
            rail: table.rail_m * scale,
        }
    }

    pub(super) fn length(&self, metres: f64) -> f64 {
        metres * self.scale
    }

    pub(super) fn at(&self, (x, y): TablePoint) -> PagePoint {
        (self.centre.0 + x * self.scale, self.centre.1 - y * self.scale)
    }

    /// Upper left corner and size of the playing area.
    pub(super) fn play(&self) -> (PagePoint, (f64, f64)) {
        let corner = (self.centre.0 - self.half.0, self.centre.1 - self.half.1);
        (corner, (2.0 * self.half.0, 2.0 * self.half.1))
    }

    /// Upper left corner and size of the wood.
    pub(super) fn wood(&self) -> (PagePoint, (f64, f64)) {
        let ((x, y), (w, h)) = self.play();
        let rail = self.rail;
        ((x - rail, y - rail), (w + 2.0 * rail, h + 2.0 * rail))
    }

    /// Where the page goes on under the table.
    pub(super) fn bottom(&self) -> f64 {
        let ((_, y), (_, h)) = self.wood();
        y + h + NUMBERS + 8.0
    }

    /// The middle of the table.
    pub(super) fn centre(&self) -> PagePoint {
        self.centre
    }

    pub(super) fn crowd(&self) -> Crowd {
        Crowd::new(self.wood(), self.play())
    }

    /// A cushion's edge.
    pub(super) fn cushion(&self, pieces: &[CushionPiece]) -> Option<Contour> {
        let curves = pieces.iter().map(|piece| match *piece {
            CushionPiece::Line { from, to } => {
                Contour::through(&[self.at(from), self.at(to)], false)
            }
            // Angles turn round with the y axis.
            CushionPiece::Arc { centre, radius_m, from_rad, sweep_rad } => {
                Contour::arc(self.at(centre), self.length(radius_m), -from_rad, -sweep_rad)
            }
        });
        curves.reduce(|mut edge, next| {
            if edge.end() != next.start {
                edge.pieces.push(ContourPiece::Line { to: next.start });
            }
            edge.pieces.extend(next.pieces);
            edge
        })
    }

    /// A stretch of path as a piece of a curve.
    pub(super) fn stretch(&self, path: &TrackPath) -> ContourPiece {
        match *path {
            TrackPath::Line { to, .. } => ContourPiece::Line { to: self.at(to) },
            TrackPath::Parabola { control, to, .. } => {
                ContourPiece::Parabola { control: self.at(control), to: self.at(to) }
            }
        }
    }
}
