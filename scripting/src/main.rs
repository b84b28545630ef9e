//! The command `railproof`.

use railproof::{called, command};
use std::process::ExitCode;

fn main() -> ExitCode {
    // Cargo says so to whom it runs.
    let by_cargo = std::env::var_os("CARGO_MANIFEST_DIR").is_some();
    called::keep(std::env::args_os().next().as_deref(), by_cargo);
    match command::read(std::env::args_os()) {
        Ok(line) => command::dispatch(&line).into(),
        Err(exit) => exit.into(),
    }
}
