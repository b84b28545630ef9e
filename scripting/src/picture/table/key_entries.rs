//! Which lines of the legend a picture needs: those whose signs it shows.

use super::input::{BallTrack, MarkKind, Motion, TablePicture, TablePoint, TrackEnd};
use super::key::{KeyEntry, KeySample};

/// A path shorter than this is not seen, m. Chosen: some 2 mm on a printed page.
const SEEN_M: f64 = 0.02;

/// How far a ball runs with a motion, m.
fn runs_m(ball: &BallTrack, motion: Motion) -> f64 {
    let with = ball.pieces.iter().filter(|piece| piece.motion == motion);
    with.map(|piece| distance_m(piece.path.from(), piece.path.to())).sum()
}

fn distance_m(from: TablePoint, to: TablePoint) -> f64 {
    (to.0 - from.0).hypot(to.1 - from.1)
}

/// The entries of the ball that is meant for the pocket, and of the others.
fn balls_but_the_cue(balls: &[BallTrack]) -> [Option<(KeySample, &'static str)>; 2] {
    let others = balls.iter().filter(|ball| !ball.is_cue && !ball.is_object).count();
    let has_object = balls.iter().any(|ball| ball.is_object);
    let object = if balls.len() == 1 { "ball" } else { "object ball" };
    let sample = if has_object { KeySample::OtherStart } else { KeySample::Start };
    // Others than the object ball, or than the cue ball.
    let term = match (others, balls.len() > others) {
        (1, true) => "other ball",
        (_, true) => "other balls",
        (1, false) => "ball",
        (_, false) => "balls",
    };
    [has_object.then_some((KeySample::Start, object)), (others > 0).then_some((sample, term))]
}

/// The legend of a picture, in reading order.
pub(super) fn of<'p>(picture: &'p TablePicture) -> Vec<KeyEntry<'p>> {
    let mut out = Vec::new();
    let mut need = |needed: bool, sample: KeySample, term: &'p str, phrase: &'p str| {
        if needed {
            out.push(KeyEntry { sample, term, phrase });
        }
    };
    let balls = &picture.balls;
    let does = |motion: Motion| balls.iter().any(|ball| runs_m(ball, motion) > SEEN_M);
    let ends = |end: TrackEnd| balls.iter().any(|ball| ball.moves() && ball.end == end);
    let rests = |ball: &BallTrack| {
        ball.end == TrackEnd::Rest && distance_m(ball.start, ball.finish()) > SEEN_M
    };
    let marked =
        |wanted: fn(&MarkKind) -> bool| picture.marks.iter().any(|mark| wanted(&mark.kind));
    need(
        does(Motion::Slide),
        KeySample::Line(Motion::Slide),
        "slides",
        "the ball slips on the cloth",
    );
    need(does(Motion::Roll), KeySample::Line(Motion::Roll), "rolls", "arrowheads show the way");
    need(
        // Short, but thick.
        balls.iter().flat_map(|ball| &ball.pieces).any(|it| it.motion == Motion::Cushion),
        KeySample::Line(Motion::Cushion),
        "on the cushion",
        "carried along while the cushion holds it",
    );
    need(does(Motion::Hop), KeySample::Line(Motion::Hop), "in the air", "off the cloth");
    need(balls.iter().any(|ball| ball.is_cue), KeySample::CueStart, "cue ball", "before the shot");
    for (sample, term) in balls_but_the_cue(balls).into_iter().flatten() {
        need(true, sample, term, "before the shot");
    }
    need(balls.iter().any(rests), KeySample::Rest, "at rest", "where a ball stops");
    need(
        ends(TrackEnd::Moving),
        KeySample::Moving,
        "still moving",
        "when the time was over, or where its path is followed no further",
    );
    need(ends(TrackEnd::Drop), KeySample::Drop, "drops", "past the drop line of a pocket");
    need(ends(TrackEnd::Gone), KeySample::Gone, "gone", "leaves the table");
    need(
        !picture.ghosts.is_empty(),
        KeySample::Ghost,
        "ghost ball",
        "where a ball stands at the hit that was aimed for",
    );
    need(
        marked(|kind| matches!(kind, MarkKind::Rail { .. })),
        KeySample::Rail,
        "meets a cushion",
        "full dot: the point of the nose; small dot: the ball's centre",
    );
    need(
        marked(|kind| *kind == MarkKind::BallHit),
        KeySample::BallHit,
        "balls meet",
        "the point where they touch",
    );
    need(marked(|kind| *kind == MarkKind::Note), KeySample::Note, "place", "named beside it");
    let is_superseded = picture.is_superseded();
    let line = if is_superseded { "line as asked" } else { "line of aim" };
    let sample = KeySample::Guide { is_superseded };
    need(!picture.guides.is_empty(), sample, line, "from sight to sight");
    if let Some(other) = &picture.other_play {
        let sample = KeySample::OtherPlay { is_past: other.is_past };
        need(true, sample, &other.name, &other.about);
    }
    need(!picture.obstacles.is_empty(), KeySample::Obstacle, "obstacle", "lies on the table");
    let target = picture.table.pockets.iter().any(|pocket| pocket.target);
    let numbers = picture.table.sights.iter().any(|sight| !sight.number.trim().is_empty());
    let phrase = if numbers { "numbers at the sights count from it" } else { "meant by the shot" };
    need(target, KeySample::Target, "target pocket", phrase);
    let spins = !picture.spins.is_empty();
    need(
        spins,
        KeySample::Side,
        "side, seen from above",
        "The arrow starts in front and turns as the ball does. It grows with the side: half a turn \
         where spin × radius equals the speed.",
    );
    need(
        spins,
        KeySample::Roll,
        "roll and draw",
        "The bar points along the travel for follow, against it for draw; at the tick the ball \
         rolls. Dot alone: stun.",
    );
    out
}
