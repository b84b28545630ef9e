//! Draws sample pictures of shots on a table, from invented layouts, into a folder to be looked at.
//!
//! `cargo run -p railproof --example table_pictures -- FOLDER`

mod motion;
mod samples;
mod table;

use std::path::PathBuf;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::env::args_os().nth(1).map_or_else(|| PathBuf::from("."), PathBuf::from);
    std::fs::create_dir_all(&folder)?;
    for (name, picture) in samples::all() {
        std::fs::write(folder.join(format!("{name}.svg")), picture.to_svg()?)?;
        std::fs::write(folder.join(format!("{name}.png")), picture.to_png()?)?;
    }
    Ok(())
}
