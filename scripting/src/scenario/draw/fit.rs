//! `mine:draw_banks {}`, `mine:draw_numbers {}` and `mine:draw_pairs {}`: what measured banks tell.

use super::look::{headline, picture_look};
use crate::fit_picture::{banks_picture, numbers_picture, pairs_picture};
use crate::fitting::FitFindings;
use crate::lua::options::Options;
use crate::picture::FitPicture;
use crate::record::Picture;
use crate::scenario::session::Session;
use mlua::{Lua, Value};

const KEYS: &[&str] = &["title", "subtitle", "legend", "size", "name"];

/// A picture of a fit: the call, the name of its file, and how it is made.
#[derive(Debug, Clone, Copy)]
pub struct FitDrawing {
    pub call: &'static str,
    file: &'static str,
    of: fn(&FitFindings) -> FitPicture,
}

/// Every one.
pub const FIT_DRAWINGS: [FitDrawing; 3] = [
    FitDrawing { call: "draw_banks", file: "banks", of: banks_picture },
    FitDrawing { call: "draw_numbers", file: "numbers", of: numbers_picture },
    FitDrawing { call: "draw_pairs", file: "pairs", of: pairs_picture },
];

impl FitDrawing {
    pub fn draw(self, lua: &Lua, found: &FitFindings, argument: &Value) -> mlua::Result<()> {
        let options = Options::open(lua, self.call, argument, KEYS)?;
        let picture = with_look(&options, (self.of)(found))?;
        Session::of(lua)?.add_drawing(&options, self.file, Picture::Fit(picture))?;
        Ok(())
    }
}

/// A picture with the title, the subtitle and the look that the script gives it.
pub fn with_look(options: &Options, picture: FitPicture) -> mlua::Result<FitPicture> {
    let FitPicture { title, mut subtitles, body, notes, look } = picture;
    let asked = subtitles.remove(0);
    let (title, subtitles) = headline(options, &title, asked, subtitles)?;
    let look = picture_look(options, look)?;
    Ok(FitPicture { title, subtitles, body, notes, look })
}
