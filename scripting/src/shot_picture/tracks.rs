//! The shot's pieces as paths.

use super::stepped;
use super::subject::{ShotPaths, ShotPicture, point};
use crate::picture::{
    BallTrack, Motion, TablePicture, TableShape, TrackEnd, TrackPath, TrackPiece,
};
use railproof_engine::shot::{End, Ending, Piece, PieceKind};
use railproof_engine::vector::Vec2;

pub(super) fn tracks(from: &ShotPicture<'_>, table: &TableShape) -> Vec<BallTrack> {
    let mut room = TablePicture::MOST_PIECES;
    from.balls
        .iter()
        .enumerate()
        .map(|(ball, (name, radius_m))| {
            let (mut pieces, ends, start) = match from.shot {
                ShotPaths::Event(shot) => (
                    // What would be drawn over and over is cut off: nobody could follow it.
                    shot.pieces(ball).iter().take(room + 1).map(track_piece).collect(),
                    &shot.ends,
                    shot.state_at(ball, 0.0),
                ),
                ShotPaths::Stepped(shot) => (
                    stepped::pieces(shot, ball, *radius_m, room + 1),
                    &shot.ends,
                    shot.state_at(ball, 0.0),
                ),
            };
            let cut_off = pieces.len() > room;
            pieces.truncate(room);
            room -= pieces.len();
            let end = match ends.get(ball) {
                _ if cut_off => TrackEnd::Moving,
                Some(end) => track_end(end),
                None => TrackEnd::Rest,
            };
            BallTrack {
                name: (*name).to_owned(),
                radius_m: *radius_m,
                is_cue: from.cue == Some(ball),
                is_object: from.target.is_some_and(|(target, _)| target == ball),
                start: point(start.map_or(Vec2::ZERO, |state| state.position)),
                pieces,
                end,
            }
            .within(table)
        })
        .collect()
}

fn track_end(end: &End) -> TrackEnd {
    let still = end.state.velocity == Vec2::ZERO;
    match end.ending {
        Ending::Dropped(_) => TrackEnd::Drop,
        Ending::TimeOver | Ending::Unending | Ending::GivenUp if !still => TrackEnd::Moving,
        Ending::AtRest | Ending::TimeOver | Ending::Unending | Ending::GivenUp => TrackEnd::Rest,
    }
}

/// The way of a piece.
pub(super) fn track_path(piece: &Piece) -> TrackPath {
    let [from, control, to] = piece.curve().map(point);
    if piece.motion.acceleration == Vec2::ZERO {
        TrackPath::Line { from, to }
    } else {
        TrackPath::Parabola { from, control, to }
    }
}

fn track_piece(piece: &Piece) -> TrackPiece {
    let motion = match piece.kind {
        PieceKind::Slide => Motion::Slide,
        PieceKind::Roll => Motion::Roll,
        PieceKind::Held => Motion::Cushion,
    };
    TrackPiece { path: track_path(piece), motion }
}
