//! `railproof bank`.

use crate::exit::Exit;
use crate::fault::Fault;

/// One bank from flags.
#[derive(Debug, clap::Args)]
pub struct BankArgs {}

/// Answers one bank.
///
/// # Errors
/// A wrong flag or profile.
pub fn run(_args: &BankArgs) -> Result<Exit, Fault> {
    Err(Fault::bad_input("`bank` is not built yet"))
}
