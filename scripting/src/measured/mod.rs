//! Measured banks and films of a ball, as people write them down in CSV files.
//!
//! Every refusal names the row and the column. Nothing here decides what a bank says about a table.

mod column;
mod csv_cells;
mod csv_header;
mod csv_row;
mod file;
mod film_column;
mod films;
mod one_bank;
mod row;
mod sent;
mod track;

pub use column::MeasuredColumn;
pub use file::{
    MOST_BANKS, Measurements, parse_measurements, read_measurements, rows_of_plan, template,
};
pub use film_column::{FilmAmount, FilmColumn};
pub use films::{FilmRows, MOST_FILMS, add_film, parse_films, read_films, with_film};
pub use one_bank::{parse_bank, parse_seen};
pub use sent::Sent;
pub use track::{MOST_POINTS, TrackFile, parse_track, read_track, track_template};
