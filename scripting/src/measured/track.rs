//! A film of a ball: marks whose places are known, and the ball's places over time.

use super::csv_row::{CsvRow, csv_rows};
use crate::called;
use crate::fault::{Fault, Place};
use crate::fields::{Mismatch, Scalar, WrittenText, in_range};
use crate::renamed;
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

    const fn name(self) -> &'static str {
        self.parameter().name
    }

    const fn meaning(self) -> &'static str {
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

/// The columns of a block, each with the unit that its header gives to every cell below.
struct TrackBlock {
    columns: Vec<(TrackColumn, Option<String>)>,
    place: Place,
}

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
        row.fits(block.columns.len())?;
        if block.is_of_ball() && block.is_unseen(&row) {
            continue;
        }
        let image =
            Vec2::new(block.number(&row, TrackColumn::U)?, block.number(&row, TrackColumn::V)?);
        if !block.is_of_ball() {
            if marks.len() == MOST_MARKS {
                return Err(Fault::bad_input(format!("more than {MOST_MARKS} marks")).at(row.place));
            }
            let table =
                Vec2::new(block.number(&row, TrackColumn::X)?, block.number(&row, TrackColumn::Y)?);
            mark_places.push(row.place.span().start);
            marks.push(TableMark { image, table });
            continue;
        }
        if points.len() == MOST_POINTS {
            return Err(Fault::bad_input(format!("more than {MOST_POINTS} points of the ball"))
                .at(row.place)
                .with_hint("cut the film to a second before the rail and a second after it"));
        }
        let time_s = block.number(&row, TrackColumn::Time)?;
        if points.last().is_some_and(|last| time_s <= last.time_s) {
            return Err(Fault::bad_input("the times must increase from row to row")
                .at(block.place_of(&row, TrackColumn::Time)));
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
        let mut columns = Vec::<(TrackColumn, Option<String>)>::new();
        for (at, cell) in row.record.iter().enumerate() {
            let (name, unit) = match cell.split_once('(') {
                Some((name, unit)) => {
                    (name.trim(), Some(unit.trim_end_matches(')').trim().to_owned()))
                }
                None => (cell, None),
            };
            let refused = |message: String| Fault::bad_input(message).at(row.cell_place(at));
            let Some(column) = TrackColumn::ALL.into_iter().find(|it| it.name() == name) else {
                let names = TrackColumn::ALL.iter().map(|it| it.name());
                return Err(refused(format!("there is no column `{name}`"))
                    .with_hint(renamed::hint_or_all(name, names, "the columns are")));
            };
            if columns.iter().any(|(other, _)| *other == column) {
                return Err(refused(format!("the column `{name}` is given twice")));
            }
            columns.push((column, unit));
        }
        let block = Self { columns, place: row.place.clone() };
        let needed: &[TrackColumn] =
            if block.is_of_ball() { &TrackColumn::OF_BALL } else { &TrackColumn::OF_MARKS };
        match needed.iter().find(|column| block.at(**column).is_none()) {
            Some(missing) => Err(Fault::bad_input(format!(
                "this row names the columns, and `{}` is not among them",
                missing.name()
            ))
            .at(block.place)
            .with_hint(missing.meaning())),
            None => Ok(block),
        }
    }

    fn at(&self, column: TrackColumn) -> Option<usize> {
        self.columns.iter().position(|(other, _)| *other == column)
    }

    fn is_of_ball(&self) -> bool {
        self.at(TrackColumn::Time).is_some()
    }

    /// True for a picture in which nobody clicked the ball.
    fn is_unseen(&self, row: &CsvRow) -> bool {
        let is_empty = |column| self.at(column).and_then(|at| row.cell(at)).is_none();
        is_empty(TrackColumn::U) && is_empty(TrackColumn::V)
    }

    fn place_of(&self, row: &CsvRow, column: TrackColumn) -> Place {
        self.at(column).map_or_else(|| row.place.clone(), |at| row.cell_place(at))
    }

    fn number(&self, row: &CsvRow, column: TrackColumn) -> Result<f64, Fault> {
        let parameter = column.parameter();
        let at = self.at(column).unwrap_or_default();
        let Some(cell) = row.cell(at) else {
            return Err(Fault::bad_input(format!("`{}` is empty", column.name()))
                .at(row.place.clone())
                .with_hint(column.meaning()));
        };
        let text = match &self.columns[at].1 {
            // A cell may have its own unit all the same.
            Some(unit) if cell.parse::<f64>().is_ok() => format!("{cell} {unit}"),
            _ => cell.to_owned(),
        };
        let read = WrittenText(&text).quantity(&parameter);
        let checked = read.and_then(|(si, shown)| in_range(&parameter, si, &shown));
        checked.map_err(|mismatch: Mismatch| {
            let fault = Fault::bad_input(mismatch.about(column.name())).at(row.cell_place(at));
            match mismatch.hint {
                Some(hint) => fault.with_hint(hint),
                None => fault,
            }
        })
    }
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
