//! `railproof shot`.

use crate::exit::Exit;
use crate::fault::Fault;

/// One ball from a file.
#[derive(Debug, clap::Args)]
pub struct ShotArgs {}

/// Plays one ball.
///
/// # Errors
/// A wrong file.
pub fn run(_args: &ShotArgs) -> Result<Exit, Fault> {
    Err(Fault::bad_input("`shot` is not built yet"))
}
