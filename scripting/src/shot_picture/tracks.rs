//! The shot's pieces as paths.

use super::stepped;
use super::subject::{ShotPaths, ShotPicture, point};
use crate::picture::{
    BallTrack, Motion, TablePicture, TableShape, TrackEnd, TrackPath, TrackPiece,
};
use railproof_engine::shot::{Ending, Piece, PieceKind};
use railproof_engine::vector::Vec2;

pub(super) fn tracks(from: &ShotPicture<'_>, table: &TableShape) -> Vec<BallTrack> {
    let mut room = TablePicture::MOST_PIECES;
    from.balls
        .iter()
        .enumerate()
        .map(|(ball, (name, radius_m))| {
            let (pieces, ends, start) = match from.shot {
                ShotPaths::Event(shot) => (
                    // What would be drawn over and over is cut off: nobody could follow it.
                    shot.pieces(ball).iter().take(room).map(track_piece).collect(),
                    &shot.ends,
                    shot.state_at(ball, 0.0),
                ),
                ShotPaths::Stepped(shot) => (
                    stepped::pieces(shot, ball, *radius_m, room),
                    &shot.ends,
                    shot.state_at(ball, 0.0),
                ),
            };
            room -= pieces.len();
            let dropped =
                ends.get(ball).is_some_and(|end| matches!(end.ending, Ending::Dropped(_)));
            BallTrack {
                name: (*name).to_owned(),
                radius_m: *radius_m,
                is_cue: from.cue == Some(ball),
                start: point(start.map_or(Vec2::ZERO, |state| state.position)),
                pieces,
                end: if dropped { TrackEnd::Drop } else { TrackEnd::Rest },
            }
            .within(table)
        })
        .collect()
}

fn track_piece(piece: &Piece) -> TrackPiece {
    let [from, control, to] = piece.curve().map(point);
    let path = if piece.motion.acceleration == Vec2::ZERO {
        TrackPath::Line { from, to }
    } else {
        TrackPath::Parabola { from, control, to }
    };
    let motion = match piece.kind {
        PieceKind::Slide => Motion::Slide,
        PieceKind::Roll => Motion::Roll,
        PieceKind::Held => Motion::Cushion,
    };
    TrackPiece { path, motion }
}
