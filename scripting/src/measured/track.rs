//! A film of a ball: marks whose places are known, and the ball's places over time.

use super::csv_cells::CsvCells;
use super::csv_header::{CsvColumn, CsvHeader};
use super::csv_row::{CsvRow, csv_rows};
use crate::called;
use crate::fault::{Fault, Place};
use crate::yaml::InputText;
use railproof_engine::equipment::{Equipment, Parameter};
use railproof_engine::track::{
    Homography, LensKnown, TableMark, TrackError, TrackPoint, TrackedBank,
};
use railproof_engine::units::Dimension;
use railproof_engine::vector::Vec2;
use std::fmt::Write;
use std::path::Path;

/// The most rows of the ball.
pub const MOST_POINTS: usize = 100_000;
/// Room for [`MOST_POINTS`] rows, with notes.
const LARGEST_FILM: u64 = 16 << 20;
/// Fewer can't show a turn.
const FEWEST_POINTS: usize = 6;
/// Each is moved to see what it does.
const MOST_MARKS: usize = 100;

/// A column of either block.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum TrackColumn {
    TableMark,
    X,
    Y,
    Time,
    U,
    V,
    Notes,
}

impl TrackColumn {
    const ALL: [Self; 7] =
        [Self::TableMark, Self::X, Self::Y, Self::Time, Self::U, Self::V, Self::Notes];
    const OF_MARKS: [Self; 5] = [Self::TableMark, Self::X, Self::Y, Self::U, Self::V];
    const OF_BALL: [Self; 3] = [Self::Time, Self::U, Self::V];

    const fn parameter(self) -> Parameter {
        match self {
            Self::X => Parameter::new("x", Dimension::Length, -5.0, 5.0, "m"),
            Self::Y => Parameter::new("y", Dimension::Length, -5.0, 5.0, "m"),
            Self::Time => Parameter::new("time", Dimension::Time, 0.0, 1e5, "s"),
            Self::U => Parameter::new("u", Dimension::Ratio, -1e5, 1e5, ""),
            Self::V => Parameter::new("v", Dimension::Ratio, -1e5, 1e5, ""),
            Self::TableMark => Parameter::new("mark", Dimension::Ratio, 0.0, 0.0, ""),
            Self::Notes => Parameter::new("notes", Dimension::Ratio, 0.0, 0.0, ""),
        }
    }
}

impl CsvColumn for TrackColumn {
    const TAKES_UNITS: bool = true;

    fn all() -> impl Iterator<Item = Self> + Clone {
        Self::ALL.into_iter()
    }

    fn name(self) -> &'static str {
        self.parameter().name
    }

    fn meaning(self) -> &'static str {
        match self {
            Self::TableMark => "a mark's name",
            Self::X => "its place along the table, from the middle towards the foot, such as 50 in",
            Self::Y => {
                "its place across, from the middle to the left seen from the head, such as 25 in"
            }
            Self::Time => "when, such as 0.25 s",
            Self::U => "where in the picture, to the right, in pixels",
            Self::V => "where in the picture, down, in pixels",
            Self::Notes => "anything",
        }
    }
}

/// The columns of a block.
struct TrackBlock(CsvHeader<TrackColumn>);

/// A film as it is written down.
#[derive(Debug, Clone)]
pub struct TrackFile {
    /// The marks.
    pub marks: Vec<TableMark>,
    /// The ball.
    pub points: Vec<TrackPoint>,
    marks_place: Place,
    ball_place: Place,
    mark_places: Vec<usize>,
    point_places: Vec<usize>,
}

/// Reads a film.
///
/// # Errors
/// A [`Fault`] at its line: no file, no block of marks or of the ball, a column that is unknown, twice or missing, a cell
/// that is no number or lacks its unit, times that don't increase, marks that decide no map, too few or too many rows.
pub fn read_track(path: &Path) -> Result<TrackFile, Fault> {
    read(&InputText::open_within(LARGEST_FILM, path)?)
}

/// Reads a film from text; `label` is what messages call it.
///
/// # Errors
/// As [`read_track`].
pub fn parse_track(text: &str, label: &str) -> Result<TrackFile, Fault> {
    read(&InputText::within(LARGEST_FILM, label, text)?)
}

impl TrackFile {
    /// The bank that it shows.
    ///
    /// # Errors
    /// A [`Fault`] at the block that doesn't do.
    pub fn bank(&self, table: &Equipment, lens: LensKnown) -> Result<TrackedBank, Fault> {
        TrackedBank::new(&self.marks, &self.points, table, lens).map_err(|error| {
            let (place, hint) = match error {
                TrackError::FewMarks { .. } | TrackError::MarksInLine => {
                    (self.marks_place.clone(), MARKS_HINT)
                }
                TrackError::FewMarksForLens { .. } | TrackError::LensNotTold => {
                    (self.marks_place.clone(), LENS_HINT)
                }
                TrackError::BeyondLens { mark } => (
                    self.marks_place.moved(self.row_at(self.mark_places[mark - 1])),
                    "look at this row, and at `--picture` and `--lens`",
                ),
                TrackError::MarkOff { mark, .. } => (
                    self.marks_place.moved(self.row_at(self.mark_places[mark - 1])),
                    "look at the place and the click of every mark: two may have been given one place",
                ),
                TrackError::OffTable { point } => (
                    self.ball_place.moved(self.row_at(self.point_places[point - 1])),
                    "look at this row, and at the marks",
                ),
                TrackError::FewOnASide => {
                    (self.ball_place.clone(), "film from well before the rail to well after it")
                }
                TrackError::NoRail => (
                    self.ball_place.clone(),
                    "look at the marks' places, at `--on`, and that one rail is in the film",
                ),
            };
            Fault::bad_input(error.to_string()).at(place).with_hint(hint)
        })
    }

    fn row_at(&self, start: usize) -> std::ops::Range<usize> {
        let line = self.ball_place.source()[start..].split('\n').next().unwrap_or_default();
        start..start + line.trim_end().len()
    }
}

const MARKS_HINT: &str =
    "mark four or more places of the table, such as the pockets' corners, no three in one line";

const LENS_HINT: &str = "click eight or more places all over the table, some near the picture's edges, some near its middle";

fn read(input: &InputText) -> Result<TrackFile, Fault> {
    let mut block: Option<TrackBlock> = None;
    let (mut marks, mut points) = (Vec::new(), Vec::<TrackPoint>::new());
    let (mut marks_place, mut ball_place) = (None, None);
    let (mut mark_places, mut point_places) = (Vec::new(), Vec::new());
    for row in csv_rows(input) {
        let row = row?;
        if is_header(&row) {
            let new = TrackBlock::new(&row)?;
            let (is_known, which) = if new.is_of_ball() {
                (&mut ball_place, "the ball")
            } else {
                (&mut marks_place, "marks")
            };
            if is_known.is_some() {
                return Err(Fault::bad_input(format!("a second block of {which}")).at(row.place));
            }
            *is_known = Some(row.place.clone());
            block = Some(new);
            continue;
        }
        let Some(block) = &block else {
            return Err(Fault::bad_input("the first row must name the columns")
                .at(row.place)
                .with_hint("such as: mark,x,y,u,v"));
        };
        row.fits(block.0.count())?;
        let cells = block.cells(&row);
        if block.is_of_ball() && is_unseen(&cells) {
            continue;
        }
        let image = Vec2::new(number(&cells, TrackColumn::U)?, number(&cells, TrackColumn::V)?);
        if !block.is_of_ball() {
            if marks.len() == MOST_MARKS {
                return Err(Fault::bad_input(format!("more than {MOST_MARKS} marks")).at(row.place));
            }
            let table = Vec2::new(number(&cells, TrackColumn::X)?, number(&cells, TrackColumn::Y)?);
            mark_places.push(row.place.span().start);
            marks.push(TableMark { image, table });
            continue;
        }
        if points.len() == MOST_POINTS {
            return Err(Fault::bad_input(format!("more than {MOST_POINTS} points of the ball"))
                .at(row.place)
                .with_hint("cut the film to a second before the rail and a second after it"));
        }
        let time_s = number(&cells, TrackColumn::Time)?;
        if points.last().is_some_and(|last| time_s <= last.time_s) {
            return Err(Fault::bad_input("the times must increase from row to row")
                .at(cells.place_of(TrackColumn::Time)));
        }
        point_places.push(row.place.span().start);
        points.push(TrackPoint { time_s, image });
    }
    let Some(marks_place) = marks_place else {
        return Err(no_block(input, "marks", "mark,x,y,u,v"));
    };
    let Some(ball_place) = ball_place else { return Err(no_block(input, "the ball", "time,u,v")) };
    if let Err(error) = Homography::new(&marks) {
        return Err(Fault::bad_input(error.to_string()).at(marks_place).with_hint(MARKS_HINT));
    }
    if points.len() < FEWEST_POINTS {
        let message =
            format!("{} points of the ball; {FEWEST_POINTS} or more are needed", points.len());
        return Err(Fault::bad_input(message).at(ball_place).with_hint(
            "film in slow motion: thirty before the rail and thirty after it tell much",
        ));
    }
    Ok(TrackFile { marks, points, marks_place, ball_place, mark_places, point_places })
}

fn no_block(input: &InputText, which: &str, header: &str) -> Fault {
    Fault::bad_input(format!("`{}` has no block of {which}: `{header}`", input.label))
        .with_hint(format!("`{}` shows what to write", called::command("track --template")))
}

/// Only a header names the picture's two columns.
fn is_header(row: &CsvRow) -> bool {
    ["u", "v"].iter().all(|name| row.record.iter().any(|cell| cell == *name))
}

impl TrackBlock {
    fn new(row: &CsvRow) -> Result<Self, Fault> {
        let block = Self(CsvHeader::read(row, |_| None)?);
        let needed: &[TrackColumn] =
            if block.is_of_ball() { &TrackColumn::OF_BALL } else { &TrackColumn::OF_MARKS };
        Ok(Self(block.0.with(needed.iter().copied(), row, "this row")?))
    }

    fn is_of_ball(&self) -> bool {
        self.0.at(TrackColumn::Time).is_some()
    }

    fn cells<'a>(&'a self, row: &'a CsvRow) -> CsvCells<'a, TrackColumn> {
        CsvCells { header: &self.0, row }
    }
}

/// True for a picture in which nobody clicked the ball.
fn is_unseen(cells: &CsvCells<'_, TrackColumn>) -> bool {
    [TrackColumn::U, TrackColumn::V].iter().all(|column| cells.text(*column).is_none())
}

fn number(cells: &CsvCells<'_, TrackColumn>, column: TrackColumn) -> Result<f64, Fault> {
    cells.needed(column, column.parameter())
}

/// A file to write a film into: the marks of a table's corners, and a few rows of a ball.
pub fn track_template(table: &Equipment) -> String {
    let (x, y) = (500.0 * table.table.length_m, 500.0 * table.table.width_m);
    let corners =
        [("head-left", -x, y), ("head-right", -x, -y), ("foot-left", x, y), ("foot-right", x, -y)];
    let mut text = String::from(
        "# A bank off your phone's film. Lines that begin with # are notes.\n\
         # Fix the phone, high up and still; film in slow motion, with the whole table in the picture.\n\
         # In one picture, click four or more marks and write their pixels into u (to the right) and v (down).\n\
         # A mark's x runs along the table from its middle to the foot, y across it, to the left seen from the head.\n\
         # The corners below are where the lines of two noses meet. Then click the spot where the ball stands on the\n\
         # cloth, picture by picture: from a second before the rail to a second after it. Time runs as it was on\n\
         # the table: at 240 pictures a second a picture is 1/240 s. One ball, one rail.\n\
         # A ball hit hard can leave the table: mind people and the phone, and keep to the house's rules.\n\
         mark,x (mm),y (mm),u,v\n",
    );
    for (name, x, y) in corners {
        let _ = writeln!(text, "{name},{x:.0},{y:.0},,");
    }
    text + "time (s),u,v\n0,,\n0.0042,,\n0.0083,,\n"
}
