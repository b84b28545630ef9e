//! The command `railproof`.

use railproof::command;
use std::process::ExitCode;

fn main() -> ExitCode {
    match command::read(std::env::args_os()) {
        Ok(line) => command::dispatch(&line).into(),
        Err(exit) => exit.into(),
    }
}
