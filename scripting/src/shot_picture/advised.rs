//! The play that is advised in place of a miss, over the picture of the miss.

use super::tracks::track_path;
use crate::picture::{Guide, MarkKind, OtherPlay, TablePicture, TablePoint, TrackPath, TrackPiece};
use crate::playing::{PlayedShot, Remedy};
use railproof_engine::shot::{EventKind, Shot};
use railproof_engine::stroke::Stroke;

impl PlayedShot<'_> {
    /// The first stroke that is advised where the shot was not made: the cue ball's way to the hit, and the way of
    /// the ball that is meant for the pocket.
    pub(super) fn advised(&self) -> Option<OtherPlay> {
        let (target, struck) = (self.layout.target?, self.layout.stroke?);
        let shot = self.with_stroke(&first(&self.remedy()?)?)?;
        let ways = two_ways(&shot, struck.ball, target.ball)?;
        Some(OtherPlay::by_advice(None, ways))
    }
}

/// The ways of the cue ball to the hit, and of the ball that is meant for the pocket.
pub(super) fn two_ways(shot: &Shot, cue: usize, target: usize) -> Option<Vec<Vec<TrackPath>>> {
    let hit = shot.events_of(cue).find(|it| matches!(it.kind, EventKind::Ball(_)))?;
    Some(vec![way(shot, cue, hit.time_s), way(shot, target, shot.ends.get(target)?.time_s)])
}

/// A ring that is off its ball by a smaller part of its radius is not seen.
const SEEN_APART: f64 = 0.3;
/// Behind what is said of a play whose ball lies elsewhere.
const ITS_PLACE: &str = "; the ring is where the ball lies for it";

impl TablePicture {
    /// Where the ball of a bank meets the rail after the one that it banks off.
    pub(super) fn missed_at(&self) -> Option<TablePoint> {
        let rails = self.marks.iter().filter(|it| matches!(it.kind, MarkKind::Rail { .. }));
        rails.map(|mark| mark.at).nth(1)
    }
}

impl OtherPlay {
    /// A bank that is advised, from its own picture: its line, and the ball's way.
    pub fn of_bank(picture: &TablePicture, is_other_line: bool) -> Self {
        let mut guide = picture.guides.first().filter(|_| is_other_line).cloned();
        if let Some(guide) = &mut guide {
            guide.labels[0] = guide.labels[0].replacen("start", "advised", 1);
            // The contact is the one that was asked for.
            guide.labels[1].clear();
        }
        let way = |pieces: &[TrackPiece]| pieces.iter().map(|it| it.path).collect();
        let ways = picture.balls.iter().map(|ball| way(&ball.pieces)).collect();
        let play = Self::by_advice(guide, ways);
        if !is_other_line {
            return play;
        }
        let starts = picture.balls.iter().map(|ball| (ball.start, ball.radius_m)).collect();
        Self { starts, ..play }
    }

    /// The bank that was asked for, over the one that is advised.
    pub fn of_asked(picture: &TablePicture, happening: &str) -> Self {
        let mut asked = Self::of_bank(picture, true);
        if let Some(guide) = &mut asked.guide {
            guide.labels[0] = guide.labels[0].replacen("advised", "asked", 1);
        }
        // Where it goes after its miss nobody asks.
        if let Some(missed_at) = picture.missed_at() {
            let is_before = |path: &&TrackPath| !is_near(path.from(), missed_at);
            for way in &mut asked.ways {
                *way = way.iter().take_while(is_before).copied().collect();
            }
        }
        let (name, about) = ("as asked".to_owned(), happening.to_owned());
        Self { name, about, is_past: true, ..asked }
    }

    /// The same over a picture: rings, and a word on them, for balls that are seen to lie elsewhere than its own.
    #[must_use]
    pub fn over(mut self, picture: &TablePicture) -> Self {
        let own = |place: &TablePoint, radius_m: f64| {
            let near = |own: TablePoint| (own.0 - place.0).hypot(own.1 - place.1);
            picture.balls.iter().any(|ball| near(ball.start) < SEEN_APART * radius_m)
        };
        self.starts.retain(|(place, radius_m)| !own(place, *radius_m));
        if !self.starts.is_empty() {
            self.about.push_str(ITS_PLACE);
        }
        self
    }

    fn by_advice(guide: Option<Guide>, ways: Vec<Vec<TrackPath>>) -> Self {
        let name = "advised".to_owned();
        let about = "how it runs by the first advice".to_owned();
        Self { name, about, is_past: false, guide, ways, starts: Vec::new() }
    }
}

/// Whether two places are one, to the rounding of a picture.
pub(super) fn is_near(one: TablePoint, other: TablePoint) -> bool {
    (one.0 - other.0).hypot(one.1 - other.1) < 1e-6
}

/// The stroke that stands first in the advice.
fn first(remedy: &Remedy) -> Option<Stroke> {
    let hit = remedy.hit.map(|it| it.stroke);
    let gearing = || remedy.gearing.map(|it| it.stroke);
    let speed = || remedy.speed.map(|it| it.stroke);
    let both = || remedy.both.map(|it| it.speed.stroke);
    hit.or_else(gearing).or_else(speed).or_else(both)
}

/// A ball's way until a time.
fn way(shot: &Shot, ball: usize, until_s: f64) -> Vec<TrackPath> {
    let pieces = shot.pieces(ball);
    let until = pieces.iter().take_while(|piece| piece.time_s < until_s);
    until.take(TablePicture::MOST_PIECES).map(track_path).collect()
}
