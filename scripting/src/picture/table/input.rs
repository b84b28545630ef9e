//! The data that a picture of a table is drawn from.

use super::super::look::PictureLook;

/// One shot on a table as a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct TablePicture {
    /// Title of the picture.
    pub title: String,
    /// The conditions, in one line.
    pub subtitle: String,
    /// The outcome of the shot, in a sentence; it stands under the table.
    pub verdict: String,
    /// Cushions, pockets and sights.
    pub table: TableShape,
    /// Things that lie on the table.
    pub obstacles: Vec<DrawnObstacle>,
    /// Lines that were aimed along, as a rule counts them.
    pub guides: Vec<Guide>,
    /// Another play over it, such as one that is advised.
    pub other_play: Option<OtherPlay>,
    /// The balls with their paths.
    pub balls: Vec<BallTrack>,
    /// Where a ball stands in thought, such as the cue ball at the hit that was aimed for.
    pub ghosts: Vec<Ghost>,
    /// Events along the paths.
    pub marks: Vec<Mark>,
    /// Spin at places along the paths, told by number in a strip under the table.
    pub spins: Vec<SpinMark>,
    /// Numbers under the picture.
    pub numbers: Option<NumberTable>,
    /// The place that is shown enlarged.
    pub inset: Option<Inset>,
    /// Footnotes.
    pub notes: Vec<String>,
    /// Its look.
    pub look: PictureLook,
}

impl TablePicture {
    /// Most stretches of path, all balls together.
    pub const MOST_PIECES: usize = 20_000;

    /// Puts another title over a page; what its own one said, the verdict says first.
    pub fn retitle(&mut self, title: String) {
        if self.verdict != self.title {
            self.verdict = format!("{} {}", self.title, self.verdict);
        }
        self.title = title;
    }
}

/// A place on the table, m: x along its long side, y upwards, the origin at its centre.
pub type TablePoint = (f64, f64);

/// The table itself.
#[derive(Debug, Clone, PartialEq)]
pub struct TableShape {
    /// Playing length, nose to nose, m.
    pub length_m: f64,
    /// Playing width, nose to nose, m.
    pub width_m: f64,
    /// From the noses to the wood's outer edge, m.
    pub rail_m: f64,
    /// The cushions, each from its one end by the nose to its other end.
    pub cushions: Vec<CushionLine>,
    /// The pockets.
    pub pockets: Vec<PocketShape>,
    /// The sights.
    pub sights: Vec<Sight>,
    /// Whether rails and pockets carry their names: the head on the left, the foot on the right.
    pub named: bool,
}

/// A cushion: jaw facing, rounded point, nose, rounded point, jaw facing, each piece beginning
/// where the one before it ends. The line from the last end to the first is its back.
#[derive(Debug, Clone, PartialEq)]
pub struct CushionLine {
    /// Its pieces in order.
    pub pieces: Vec<CushionPiece>,
}

/// A piece of a cushion's edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CushionPiece {
    /// A straight piece.
    Line {
        /// One end.
        from: TablePoint,
        /// The other end.
        to: TablePoint,
    },
    /// A rounded point.
    Arc {
        /// Centre of the circle.
        centre: TablePoint,
        /// Its radius, m.
        radius_m: f64,
        /// Angle at which the arc begins, counter-clockwise from the x axis, rad.
        from_rad: f64,
        /// Angle that it runs through, counter-clockwise if positive, rad.
        sweep_rad: f64,
    },
}

/// A pocket's opening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PocketShape {
    /// The two points between which the mouth lies.
    pub mouth: [TablePoint; 2],
    /// The ends of the line past which a ball drops, in the order of the mouth.
    pub drop: [TablePoint; 2],
    /// Whether the shot is meant for it, and the numbers are counted from it.
    pub target: bool,
}

/// A sight on the rail.
#[derive(Debug, Clone, PartialEq)]
pub struct Sight {
    /// Where it is.
    pub at: TablePoint,
    /// Its number, counted from the target pocket; empty for none.
    pub number: String,
}

/// A thing that lies on the table.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawnObstacle {
    /// Its name.
    pub name: String,
    /// Its corners in order.
    pub corners: Vec<TablePoint>,
}

/// A line that was aimed along, such as a rule's line from one sight to another.
#[derive(Debug, Clone, PartialEq)]
pub struct Guide {
    /// One end.
    pub from: TablePoint,
    /// The other end.
    pub to: TablePoint,
    /// Words at either end; empty for none.
    pub labels: [String; 2],
}

/// Another play over the one that is drawn, such as one that is advised: its line of aim and the ways of its balls.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherPlay {
    /// Its name in the key.
    pub name: String,
    /// What it is, in the key.
    pub about: String,
    /// It is what should not be done again, and drawn in grey.
    pub is_past: bool,
    /// Its line of aim, where that is another one.
    pub guide: Option<Guide>,
    /// The ways of its balls' centres.
    pub ways: Vec<Vec<TrackPath>>,
    /// Balls that lie elsewhere before it: their places and radii, m.
    pub starts: Vec<(TablePoint, f64)>,
}

impl TablePicture {
    /// Whether its own line of aim is not the one to take: another is advised.
    pub(super) fn is_superseded(&self) -> bool {
        self.other_play.as_ref().is_some_and(|other| !other.is_past && other.guide.is_some())
    }
}

/// A table of numbers under the picture.
#[derive(Debug, Clone, PartialEq)]
pub struct NumberTable {
    /// Its title.
    pub title: String,
    /// Headings of the columns.
    pub columns: Vec<String>,
    /// Headings of the rows.
    pub rows: Vec<String>,
    /// The cells, row by row; `None` where there is no number.
    pub cells: Vec<Vec<Option<NumberCell>>>,
}

/// A cell of a table of numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NumberCell {
    /// Its number.
    pub number: String,
    /// Small words under it; empty for none.
    pub under: String,
    /// It stands in a frame.
    pub marked: bool,
}

/// A ball and where it ran.
#[derive(Debug, Clone, PartialEq)]
pub struct BallTrack {
    /// Its name.
    pub name: String,
    /// Its radius, m.
    pub radius_m: f64,
    /// Whether it is the cue ball.
    pub is_cue: bool,
    /// Whether it is the ball that is meant for the pocket.
    pub is_object: bool,
    /// Where its centre stands before the shot.
    pub start: TablePoint,
    /// Its centre's path in order; none for a ball that stays.
    pub pieces: Vec<TrackPiece>,
    /// Its state at the end of its path.
    pub end: TrackEnd,
}

impl BallTrack {
    /// Where its centre is at the end.
    pub fn finish(&self) -> TablePoint {
        self.pieces.last().map_or(self.start, |piece| piece.path.to())
    }

    /// Whether it has a path.
    pub fn moves(&self) -> bool {
        !self.pieces.is_empty()
    }

    /// Whether its path hides under the ball itself.
    pub(super) fn runs_short(&self) -> bool {
        let far = |(x, y): (f64, f64)| (x - self.start.0).hypot(y - self.start.1);
        self.moves() && self.pieces.iter().all(|piece| far(piece.path.to()) < 2.2 * self.radius_m)
    }
}

/// A ball's state at the end of its path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TrackEnd {
    /// It comes to rest, or has never moved.
    Rest,
    /// It drops into a pocket.
    Drop,
    /// It still moves where its path ends.
    Moving,
    /// It leaves the table; its path must end at the wood's edge or before, see
    /// [`BallTrack::within`].
    Gone,
}

/// A stretch of a path in which the ball does one thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrackPiece {
    /// The stretch.
    pub path: TrackPath,
    /// The ball's motion there.
    pub motion: Motion,
}

/// A stretch of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TrackPath {
    /// A straight stretch.
    Line {
        /// Where it begins.
        from: TablePoint,
        /// Where it ends.
        to: TablePoint,
    },
    /// A stretch of a parabola as a quadratic Bézier curve.
    Parabola {
        /// Where it begins.
        from: TablePoint,
        /// Where the tangents at both ends meet.
        control: TablePoint,
        /// Where it ends.
        to: TablePoint,
    },
}

impl TrackPath {
    /// The path under constant acceleration, exactly. With s = t/T,
    /// p(t) = p0 + v·t + ½·a·t² is (1 − s)²·p0 + 2s(1 − s)·c + s²·p1 for c = p0 + ½·v·T and
    /// p1 = p0 + v·T + ½·a·T²: both are quadratics in t with the same ends and the same velocity
    /// at the start.
    ///
    /// Velocity in m/s, acceleration in m/s², duration T in s.
    pub fn accelerated(
        from: TablePoint,
        velocity: (f64, f64),
        acceleration: (f64, f64),
        duration_s: f64,
    ) -> Self {
        let half = 0.5 * duration_s;
        let control = (from.0 + half * velocity.0, from.1 + half * velocity.1);
        let to = (
            from.0 + duration_s * (velocity.0 + half * acceleration.0),
            from.1 + duration_s * (velocity.1 + half * acceleration.1),
        );
        Self::Parabola { from, control, to }
    }

    /// Where it begins.
    pub fn from(&self) -> TablePoint {
        match *self {
            Self::Line { from, .. } | Self::Parabola { from, .. } => from,
        }
    }

    /// Where it ends.
    pub fn to(&self) -> TablePoint {
        match *self {
            Self::Line { to, .. } | Self::Parabola { to, .. } => to,
        }
    }
}

/// A ball's motion on a stretch of its path.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Motion {
    /// It slides on the cloth.
    Slide,
    /// It rolls.
    Roll,
    /// The cushion holds it.
    Cushion,
    /// It is in the air.
    Hop,
}

/// Something that happened at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Its name.
    pub kind: MarkKind,
    /// Where: the ball's centre at a rail or jaw, the point of contact between two balls, or the
    /// place of a note.
    pub at: TablePoint,
    /// Words beside it; empty for none.
    pub label: String,
}

/// The thing that a mark marks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MarkKind {
    /// A ball meets a nose or a jaw.
    Rail {
        /// The point of the nose that it touches.
        nose: TablePoint,
        /// The ball's radius, m.
        radius_m: f64,
    },
    /// Two balls meet.
    BallHit,
    /// A place to look at.
    Note,
}

/// A ball that stands there in thought.
#[derive(Debug, Clone, PartialEq)]
pub struct Ghost {
    /// Its centre.
    pub at: TablePoint,
    /// Its radius, m.
    pub radius_m: f64,
    /// Words beside it; empty for none.
    pub label: String,
}

/// A ball's spin at a place.
#[derive(Debug, Clone, PartialEq)]
pub struct SpinMark {
    /// The ball's centre.
    pub at: TablePoint,
    /// Its radius, m.
    pub radius_m: f64,
    /// The direction of its travel, of any length but none.
    pub travel: (f64, f64),
    /// Spin about the vertical times radius over speed: positive counter-clockwise from above.
    pub side: f64,
    /// Spin about the level axis square to the travel, times radius over speed: 1 for natural
    /// roll, 0 for stun, negative for draw.
    pub along: f64,
    /// The ball and the moment, in words; empty for none.
    pub label: String,
}

/// A place of the table that is shown enlarged under it.
#[derive(Debug, Clone, PartialEq)]
pub struct Inset {
    /// Its middle.
    pub centre: TablePoint,
    /// Half its width, m.
    pub half_m: f64,
    /// The balls at the moments that matter.
    pub circles: Vec<InsetCircle>,
    /// Its title.
    pub title: String,
    /// The meaning of its numbers.
    pub words: String,
}

impl Inset {
    /// Its height as a share of its width.
    pub const HEIGHT_TO_WIDTH: f64 = 0.66;
}

/// A ball at a moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InsetCircle {
    /// Its centre.
    pub at: TablePoint,
    /// Its radius, m.
    pub radius_m: f64,
    /// The ball, by its place among the picture's balls.
    pub ball: usize,
    /// The moment's number, from 1.
    pub moment: usize,
}
