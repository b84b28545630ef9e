//! The file of filmed impacts: read, and written row by row.

use super::Sent;
use super::csv_cells::CsvCells;
use super::csv_header::CsvHeader;
use super::csv_row::{CsvRow, csv_rows};
use super::film_column::{FilmAmount, FilmColumn, RUN};
use crate::called;
use crate::fault::Fault;
use crate::fields::Worded;
use crate::files::write_whole;
use crate::yaml::InputText;
use railproof_engine::equipment::Parameter;
use railproof_engine::evidence::{BeforeRail, FILMED_AMOUNTS, FilmedImpact};
use std::path::Path;

/// The most films of a file.
pub const MOST_FILMS: usize = 200;
/// Below the diagonal of six errors.
const CORRELATIONS: usize = FILMED_AMOUNTS * (FILMED_AMOUNTS - 1) / 2;

/// The filmed impacts of a file.
#[derive(Debug, Clone, Default)]
pub struct FilmRows {
    /// The impacts, a row each.
    pub films: Vec<FilmedImpact>,
    /// The name of each; empty where it has none.
    pub names: Vec<String>,
    /// The line of the file in which each stands.
    pub lines: Vec<usize>,
    /// The file's text.
    pub text: String,
}

/// The way along the rail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Toward {
    Left,
    Right,
}

impl Worded for Toward {
    const ALL: &'static [Self] = &[Self::Left, Self::Right];

    fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// The motion before the rail, as it is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct WayBefore(BeforeRail);

impl Worded for WayBefore {
    const ALL: &'static [Self] =
        &[Self(BeforeRail::Slides), Self(BeforeRail::Rolls), Self(BeforeRail::Unknown)];

    fn word(self) -> &'static str {
        match self.0 {
            BeforeRail::Slides => "slides",
            BeforeRail::Rolls => "rolls",
            BeforeRail::Unknown => "unknown",
        }
    }
}

/// Reads filmed impacts.
///
/// # Errors
/// A [`Fault`] at its line: no file, no header, a column that is unknown, twice or missing, a cell that is not what its
/// column takes, errors that can't be, more than [`MOST_FILMS`] films.
pub fn read_films(path: &Path) -> Result<FilmRows, Fault> {
    read(&InputText::open(path)?)
}

/// Reads filmed impacts from text; `label` is what messages call it.
///
/// # Errors
/// As [`read_films`].
pub fn parse_films(text: &str, label: &str) -> Result<FilmRows, Fault> {
    read(&InputText::new(label, text)?)
}

fn read(input: &InputText) -> Result<FilmRows, Fault> {
    let mut columns: Option<CsvHeader<FilmColumn>> = None;
    let mut rows = FilmRows { text: input.text.to_string(), ..FilmRows::default() };
    for row in csv_rows(input) {
        let row = row?;
        let Some(header) = &columns else {
            columns = Some(header(&row)?);
            continue;
        };
        if rows.films.len() == MOST_FILMS {
            return Err(Fault::bad_input(format!("more than {MOST_FILMS} films"))
                .at(row.place)
                .with_hint("keep the best twenty: more say little more"));
        }
        row.fits(header.count())?;
        let cells = FilmCells(CsvCells { header, row: &row });
        rows.films.push(cells.film()?);
        rows.names.push(cells.0.text(FilmColumn::Film).unwrap_or_default().to_owned());
        rows.lines.push(row.line);
    }
    if columns.is_none() {
        return Err(Fault::bad_input(format!("`{}` holds no films", input.label)).with_hint(
            format!("`{}` writes such a file", called::command("track FILM --measure FILE")),
        ));
    }
    Ok(rows)
}

fn header(row: &CsvRow) -> Result<CsvHeader<FilmColumn>, Fault> {
    let hint = |name: &str| match name {
        "contact" | "start" | "pocket" | "seen" | "number" => Some(
            "banks that were seen and films go into files of their own: `fit BANKS --films FILMS`"
                .to_owned(),
        ),
        "mark" | "x" | "y" | "time" | "u" | "v" => {
            Some(format!("`{}` makes rows of a film", called::command("track FILM --measure FILE")))
        }
        _ => None,
    };
    let needed = FilmColumn::all().filter(|column| column.is_needed());
    CsvHeader::read(row, hint)?.with(needed, row, "the first row")
}

/// A row as a filmed impact.
struct FilmCells<'a>(CsvCells<'a, FilmColumn>);

impl FilmCells<'_> {
    fn film(&self) -> Result<FilmedImpact, Fault> {
        let toward = self.0.needed_word::<Toward>(FilmColumn::Toward)?;
        let sent = self.0.word(FilmColumn::Sent)?.unwrap_or(Sent::Tip);
        let way = self.0.needed_word::<WayBefore>(FilmColumn::Before)?.0;
        let run_s = self.0.needed(FilmColumn::Run, RUN)?;
        let (mut told, mut sds) = ([0.0; FILMED_AMOUNTS], [1.0; FILMED_AMOUNTS]);
        let mut is_told = [false; FILMED_AMOUNTS];
        for (at, amount) in FilmAmount::ALL.into_iter().enumerate() {
            let (value, sd) = (FilmColumn::Amount(amount), FilmColumn::Sd(amount));
            let is_empty = self.0.text(value).is_none() && self.0.text(sd).is_none();
            if !amount.is_needed() && is_empty {
                continue;
            }
            is_told[at] = true;
            told[at] = self.0.needed(value, amount.parameter())?;
            sds[at] = self.0.needed(sd, amount.sd_parameter())?;
        }
        let scatter = sent.scatter();
        Ok(FilmedImpact {
            told,
            covariance: self.covariance(sds)?,
            is_told: [is_told[4], is_told[5]],
            way,
            run_s,
            is_to_the_right: toward == Toward::Right,
            roll_scatter: scatter.roll,
            side_scatter: scatter.side,
            wrong: scatter.wrong,
        })
    }

    fn covariance(
        &self,
        sds: [f64; FILMED_AMOUNTS],
    ) -> Result<[[f64; FILMED_AMOUNTS]; FILMED_AMOUNTS], Fault> {
        let column = FilmColumn::Correlations;
        let refused = |message: &str| {
            Fault::bad_input(format!("`{}` {message}", column.name()))
                .at(self.0.place_of(column))
                .with_hint(column.meaning())
        };
        let mut shares = [0.0; CORRELATIONS];
        if let Some(text) = self.0.text(column) {
            let numbers: Vec<f64> = text
                .split_whitespace()
                .map(str::parse)
                .collect::<Result<_, _>>()
                .map_err(|_| refused("holds a word that is no number"))?;
            shares = numbers.try_into().map_err(|numbers: Vec<f64>| {
                refused(&format!("holds {} numbers, not {CORRELATIONS}", numbers.len()))
            })?;
            if !shares.iter().all(|share| share.abs() <= 1.0) {
                return Err(refused("must lie from -1 to 1"));
            }
        }
        let mut of = [[0.0; FILMED_AMOUNTS]; FILMED_AMOUNTS];
        let mut shares = shares.into_iter();
        for row in 0..FILMED_AMOUNTS {
            of[row][row] = sds[row] * sds[row];
            for column in 0..row {
                let share = shares.next().unwrap_or_default();
                of[row][column] = share * sds[row] * sds[column];
                of[column][row] = of[row][column];
            }
        }
        if FilmedImpact::is_covariance(&of) {
            Ok(of)
        } else {
            Err(refused("can't be: no six errors go together like this"))
        }
    }
}

/// The text of a file of filmed impacts with this one: in place of the row of its name, or behind all others.
///
/// # Errors
/// A [`Fault`] for a text that is no such file.
pub fn with_film(
    text: &str,
    label: &str,
    name: &str,
    film: &FilmedImpact,
) -> Result<String, Fault> {
    let row = film_row(name, film);
    if text.trim().is_empty() {
        return Ok(format!("{}{}\n{row}\n", ABOUT, header_row()));
    }
    let known = parse_films(text, label)?;
    let first = text.lines().find(|line| !line.trim().is_empty() && !line.starts_with('#'));
    if first.map(str::trim) != Some(header_row().as_str()) {
        return Err(Fault::bad_input(format!(
            "`{label}` has other columns than this program writes"
        ))
        .with_hint("give the name of a new file"));
    }
    let replaced = known.names.iter().position(|other| other == name);
    let mut lines: Vec<&str> = text.lines().collect();
    match replaced {
        Some(at) => lines[known.lines[at] - 1] = &row,
        None => lines.push(&row),
    }
    Ok(lines.join("\n") + "\n")
}

/// Puts a filmed impact into a file, which is made where there is none.
///
/// # Errors
/// As [`with_film`], and for a file that can't be written.
pub fn add_film(path: &Path, name: &str, film: &FilmedImpact) -> Result<(), Fault> {
    let (label, text) = if path.exists() {
        let input = InputText::open(path)?;
        (input.label.to_string(), input.text.to_string())
    } else {
        (path.display().to_string(), String::new())
    };
    let whole = with_film(&text, &label, name, film)?;
    write_whole(path, |out| out.write_all(whole.as_bytes()))
}

const ABOUT: &str = "# Filmed impacts, one row each, as `railproof track FILM --measure FILE` writes them.\n\
                     # Correct `sent`, `before` and `run` where you know better. `run` is the time from the hit to the rail:\n\
                     # it is right where the film begins with the hit.\n";

fn header_row() -> String {
    let cell = |column: FilmColumn| match column.unit() {
        "" => column.name().to_owned(),
        unit => format!("{} ({unit})", column.name()),
    };
    FilmColumn::all().map(cell).collect::<Vec<_>>().join(",")
}

/// A row as it is written.
fn film_row(name: &str, film: &FilmedImpact) -> String {
    let cell = |column: FilmColumn| match column {
        FilmColumn::Film => csv_cell(name),
        FilmColumn::Toward => {
            if film.is_to_the_right { Toward::Right } else { Toward::Left }.word().to_owned()
        }
        FilmColumn::Sent => Sent::Tip.word().to_owned(),
        FilmColumn::Before => WayBefore(film.way).word().to_owned(),
        FilmColumn::Run => written(film.run_s, RUN),
        FilmColumn::Amount(amount) => written(film.told[amount as usize], amount.parameter()),
        FilmColumn::Sd(amount) => {
            let at = amount as usize;
            written(film.covariance[at][at].sqrt(), amount.sd_parameter())
        }
        FilmColumn::Correlations => correlations(film),
        FilmColumn::Notes => String::new(),
    };
    FilmColumn::all().map(cell).collect::<Vec<_>>().join(",")
}

fn written(si: f64, parameter: Parameter) -> String {
    format!("{:.4}", parameter.in_unit(si))
}

fn correlations(film: &FilmedImpact) -> String {
    let of = &film.covariance;
    let pairs = (0..FILMED_AMOUNTS).flat_map(|row| (0..row).map(move |column| (row, column)));
    let share = |(row, column): (usize, usize)| {
        let share: f64 = of[row][column] / (of[row][row] * of[column][column]).sqrt();
        // Cut, not rounded, so that they stay possible.
        format!("{:.4}", (share * 1e4).trunc() / 1e4)
    };
    pairs.map(share).collect::<Vec<_>>().join(" ")
}

/// A name as a cell: without what would end one.
fn csv_cell(name: &str) -> String {
    name.chars()
        .map(
            |sign| {
                if matches!(sign, ',' | ';' | '"' | '\t') || sign.is_control() { ' ' } else { sign }
            },
        )
        .collect()
}
