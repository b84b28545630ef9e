//! The command `railproof`.

#![forbid(unsafe_code)]

use railproof::exit::Exit;
use railproof::{called, command, walled, walls};
use std::process::ExitCode;

fn main() -> ExitCode {
    // Cargo says so to whom it runs.
    let by_cargo = std::env::var_os("CARGO_MANIFEST_DIR").is_some();
    called::keep(std::env::args_os().next().as_deref(), by_cargo);
    let arguments: Vec<_> = std::env::args_os().collect();
    if arguments.get(1).is_some_and(|first| first == walled::MARK) && arguments.len() == 2 {
        return command::work().into();
    }
    walls::end_with(Exit::CouldNotFinish.code(), false);
    match command::read(&arguments) {
        Ok(line) => command::dispatch(&line, arguments).into(),
        Err(exit) => exit.into(),
    }
}
