//! The colours of the balls.

use super::super::colours::{AS_ASKED, BALLS, CUE, INK, PAPER, Rgb, TARGET};
use super::input::{BallTrack, TablePicture};

/// The look of a ball and its path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct BallLook {
    pub(super) colour: Rgb,
    pub(super) is_cue: bool,
    /// Balls past the last colour begin again, with a ring inside.
    pub(super) ringed: bool,
}

/// The looks of the balls, in their order: the one that is meant for the pocket has the first colour.
pub(super) fn looks(picture: &TablePicture) -> Vec<BallLook> {
    let mut others = usize::from(picture.balls.iter().any(|ball| ball.is_object));
    picture
        .balls
        .iter()
        .map(|ball| {
            if ball.is_cue {
                return BallLook { colour: CUE, is_cue: true, ringed: false };
            }
            if ball.is_object {
                return BallLook { colour: object_colour(picture), is_cue: false, ringed: false };
            }
            let index = others;
            others += 1;
            BallLook {
                colour: BALLS[index % BALLS.len()],
                is_cue: false,
                ringed: (index / BALLS.len()) % 2 == 1,
            }
        })
        .collect()
}

/// The colour of the ball that is meant for the pocket, and of its path: what is advised has the colour of aims.
pub(super) fn object_colour(picture: &TablePicture) -> Rgb {
    let is_advised = picture.other_play.as_ref().is_some_and(|other| other.is_past);
    if is_advised { TARGET } else { AS_ASKED }
}

/// The colour inside a ball at its start, on which a name is read.
pub(super) fn inside(look: BallLook) -> Rgb {
    if look.is_cue || look.ringed { PAPER } else { look.colour }
}

/// The colour of the ball that passes nearest to a place.
pub(super) fn colour_at(picture: &TablePicture, looks: &[BallLook], (x, y): (f64, f64)) -> Rgb {
    let far = |at: (f64, f64)| (at.0 - x).hypot(at.1 - y);
    let nearest = |ball: &BallTrack| {
        let ends = ball.pieces.iter().flat_map(|piece| [piece.path.from(), piece.path.to()]);
        ends.chain([ball.start]).map(far).fold(f64::INFINITY, f64::min)
    };
    picture
        .balls
        .iter()
        .zip(looks)
        .min_by(|a, b| nearest(a.0).total_cmp(&nearest(b.0)))
        .map_or(INK, |(_, look)| look.colour)
}
