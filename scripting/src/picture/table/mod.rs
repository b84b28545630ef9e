//! One shot on a table: what lay where, what ran where, and what came of it.
//!
//! What lives here lays plain data out on a page, in metres of the table's own frame: the origin
//! at its centre, x along the long side to the right, y upwards.

mod balls;
mod checks;
mod crowd;
mod edge;
mod frame;
mod glyphs;
mod ground;
mod input;
mod key;
mod key_entries;
mod labels;
mod marks;
mod tracks;

pub use input::{
    BallTrack, CushionLine, CushionPiece, Ghost, Guide, Mark, MarkKind, Motion, Obstacle,
    PocketShape, Sight, SpinMark, TablePoint, TableShape, TrackEnd, TrackPath, TrackPiece,
};

use super::canvas::{Canvas, Lettering};
use super::colours::INK;
use super::font::{self, Weight};
use super::page::{self, MARGIN};
use super::{PictureError, png_file, svg_file};
use frame::Frame;

const VERDICT: Lettering = Lettering { em: 15.0, weight: Weight::Bold, colour: INK };
const MOST_VERDICT_LINES: usize = 5;

/// One shot on a table as a picture.
#[derive(Debug, Clone, PartialEq)]
pub struct TablePicture {
    /// What the picture shows.
    pub title: String,
    /// The conditions, in one line.
    pub subtitle: String,
    /// What came of the shot, in a sentence; it stands under the table.
    pub verdict: String,
    /// Cushions, pockets and sights.
    pub table: TableShape,
    /// Things that lie on the table.
    pub obstacles: Vec<Obstacle>,
    /// Lines that were aimed along, as a rule counts them.
    pub guides: Vec<Guide>,
    /// The balls with their paths.
    pub balls: Vec<BallTrack>,
    /// Where a ball stands in thought, such as the cue ball at the hit that was aimed for.
    pub ghosts: Vec<Ghost>,
    /// What happened along the paths.
    pub marks: Vec<Mark>,
    /// Spin at places along the paths.
    pub spins: Vec<SpinMark>,
    /// Footnotes.
    pub notes: Vec<String>,
}

impl TablePicture {
    /// Most balls.
    pub const MOST_BALLS: usize = 32;
    /// Most stretches of path, all balls together.
    pub const MOST_PIECES: usize = 20_000;
    /// Longest path of all balls together, m.
    pub const LONGEST_PATH_M: f64 = 3000.0;
    /// Most of each other thing: obstacles, guides, ghosts, marks, spins, sights, pockets.
    pub const MOST_MARKS: usize = 400;
    /// Most pieces of cushion, or corners of obstacles, all together.
    pub const MOST_CORNERS: usize = 4000;

    /// The picture as a complete SVG document with its font inside. Stretches of parabola are
    /// quadratic Bézier curves in it, and circles are arcs: nothing is broken into chords.
    ///
    /// # Errors
    /// Refuses numbers that are not finite, places past the wood's edge, and more than the limits
    /// above.
    pub fn to_svg(&self) -> Result<String, PictureError> {
        svg_file::encode(&self.canvas()?)
    }

    /// The picture as the bytes of a PNG file.
    ///
    /// # Errors
    /// As [`Self::to_svg`].
    pub fn to_png(&self) -> Result<Vec<u8>, PictureError> {
        png_file::encode(&self.canvas()?)
    }

    fn canvas(&self) -> Result<Canvas, PictureError> {
        checks::check(self)?;
        let mut canvas = Canvas::new(&font::clean(&self.title), &self.description());
        canvas.width = 2.0 * MARGIN + frame::ROOM.0;
        let top = page::header(&mut canvas, &self.title, std::slice::from_ref(&self.subtitle));
        let frame = Frame::new(&self.table, canvas.width / 2.0, top);
        let mut crowd = frame.crowd();

        ground::draw(&mut canvas, &frame, &mut crowd, &self.table);
        marks::draw_under(&mut canvas, &frame, &mut crowd, self);
        let looks = balls::looks(&self.balls);
        tracks::draw(&mut canvas, &frame, &mut crowd, &self.balls, &looks);
        marks::draw_over(&mut canvas, &frame, &mut crowd, self);
        balls::draw(&mut canvas, &frame, &mut crowd, &self.balls, &looks);
        marks::draw_on_top(&mut canvas, &frame, self);
        let left_out = labels::draw(&mut canvas, &frame, &mut crowd, self, &looks);

        let mut y = self.draw_verdict(&mut canvas, frame.bottom());
        y = key::draw(&mut canvas, &key_entries::of(self), y);
        let mut notes: Vec<String> = self.notes.clone();
        if left_out > 0 {
            notes.push(format!("{left_out} labels are left out for want of room."));
        }
        page::footer(&mut canvas, &notes, y + 18.0);
        Ok(canvas)
    }

    /// Writes the sentence under the table, beside a bar.
    fn draw_verdict(&self, canvas: &mut Canvas, top: f64) -> f64 {
        const INDENT: f64 = 16.0;
        let room = frame::ROOM.0 - INDENT;
        let verdict = font::clean(&self.verdict);
        let lines = font::wrap(&verdict, VERDICT.em, VERDICT.weight, room, MOST_VERDICT_LINES);
        if lines.is_empty() {
            return top;
        }
        let bottom = page::paragraph(canvas, &lines, (MARGIN + INDENT, top), VERDICT);
        canvas.rectangle((MARGIN, top + 1.0), (4.0, bottom - top - 2.0), INK);
        bottom + 22.0
    }

    fn description(&self) -> String {
        let mut parts = vec![font::clean(&self.subtitle), font::clean(&self.verdict)];
        for ball in &self.balls {
            let name = font::clean(&ball.name);
            parts.push(match ball.end {
                _ if !ball.moves() => format!("{name} stays."),
                TrackEnd::Rest => format!("{name} runs and comes to rest."),
                TrackEnd::Drop => format!("{name} runs and drops."),
                TrackEnd::Gone => format!("{name} leaves the table."),
            });
        }
        parts.retain(|part| !part.is_empty());
        parts.join(" ")
    }
}
