//! One shot on a table: balls and obstacles, paths, and the outcome.
//!
//! This module lays plain data out on a page, in metres of the table's own frame: the origin
//! at its centre, x along the long side to the right, y upwards.

mod balls;
mod crowd;
mod edge;
mod frame;
mod glyphs;
mod ground;
mod input;
mod inset;
mod key;
mod key_entries;
mod labels;
mod looks;
mod marks;
mod numbers;
mod strip;
mod tracks;

pub use input::{
    BallTrack, CushionLine, CushionPiece, DrawnObstacle, Ghost, Guide, Inset, InsetCircle, Mark,
    MarkKind, Motion, NumberCell, NumberTable, OtherPlay, PocketShape, Sight, SpinMark,
    TablePicture, TablePoint, TableShape, TrackEnd, TrackPath, TrackPiece,
};

use super::canvas::{Canvas, Lettering};
use super::colours::{INK, Rgb};
use super::error::PictureError;
use super::font::{self, Weight};
use super::page::{self, MARGIN};
use frame::TableFrame;

const VERDICT: Lettering = Lettering { em: 15.0, weight: Weight::Bold, colour: INK };
const MOST_VERDICT_LINES: usize = 5;

impl TablePicture {
    #[expect(clippy::unnecessary_wraps, reason = "as every other kind of picture")]
    pub(super) fn canvas(&self) -> Result<Canvas, PictureError> {
        let mut canvas = Canvas::new(font::clean(&self.title), self.description());
        canvas.width = 2.0 * MARGIN + frame::ROOM.0;
        canvas.printed = true;
        let top = page::header(&mut canvas, &self.title, std::slice::from_ref(&self.subtitle));
        let frame = TableFrame::new(&self.table, canvas.width / 2.0, top);
        let mut crowd = frame.crowd();

        ground::draw(&mut canvas, &frame, &mut crowd, &self.table);
        marks::draw_under(&mut canvas, &frame, &mut crowd, self);
        let looks = looks::looks(self);
        tracks::draw(&mut canvas, &frame, &mut crowd, &self.balls, &looks);
        marks::draw_other_play(&mut canvas, &frame, &mut crowd, self);
        marks::draw_over(&mut canvas, &frame, &mut crowd, self);
        balls::draw(&mut canvas, &frame, &mut crowd, &self.balls, &looks);
        marks::draw_on_top(&mut canvas, &frame, self);
        tracks::draw_ways(&mut canvas, &frame, &mut crowd, &self.balls, &looks);
        if let Some(inset) = &self.inset {
            inset::mark(&mut canvas, &frame, inset);
        }
        if self.table.named {
            ground::draw_rail_names(&mut canvas, &frame, &mut crowd);
        }
        let crowded = labels::draw(&mut canvas, &frame, &mut crowd, self, &looks);

        let mut y = self.draw_verdict(&mut canvas, frame.bottom());
        let colours: Vec<Rgb> =
            self.spins.iter().map(|spin| looks::colour_at(self, &looks, spin.at)).collect();
        y = strip::draw(&mut canvas, &self.spins, &colours, y);
        let mut beside = if self.inset.is_some() { inset::SIZE.0 + key::GAP } else { 0.0 };
        let inset_bottom =
            self.inset.as_ref().map_or(y, |it| inset::draw(&mut canvas, self, it, &looks, y + 4.0));
        if let Some(table) = &self.numbers {
            let bottom = numbers::draw(&mut canvas, table, (beside, y + 4.0));
            // The key goes under both.
            (beside, y) = (0.0, bottom.max(inset_bottom));
        }
        if self.look.legend {
            y = key::draw(
                &mut canvas,
                &key_entries::of(self),
                looks::object_colour(self),
                (beside, y),
            );
        }
        y = y.max(inset_bottom);
        let mut notes: Vec<String> = self.notes.clone();
        if !crowded.is_empty() {
            notes.push(format!("Left out for want of room: {}.", crowded.join(", ")));
        }
        page::footer(&mut canvas, &notes, y + 18.0);
        Ok(canvas)
    }

    /// Writes the sentence under the table, beside a bar.
    fn draw_verdict(&self, canvas: &mut Canvas, top: f64) -> f64 {
        const INDENT: f64 = 16.0;
        let room = frame::ROOM.0 - INDENT;
        // The headline is not said twice.
        let told = self.verdict == self.title;
        let verdict = if told { String::new() } else { font::clean(&self.verdict) };
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
                TrackEnd::Moving => format!("{name} runs and is still moving."),
                TrackEnd::Drop => format!("{name} runs and drops."),
                TrackEnd::Gone => format!("{name} leaves the table."),
            });
        }
        parts.retain(|part| !part.is_empty());
        parts.join(" ")
    }
}
