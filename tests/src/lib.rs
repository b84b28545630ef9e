//! Things that the cross-cutting tests share: the shipped equipment, read as a user reads it.

pub mod fuzz;
mod program_run;
pub mod random;

pub use program_run::ProgramRun;

use railproof::profile::{find_partial, find_profile, shipped_names};
use railproof_engine::equipment::Equipment;
use railproof_engine::sweep::Input;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;
use std::time::Duration;

/// A shipped complete profile.
///
/// # Panics
/// When there is none of that name, or it is not complete.
pub fn shipped_equipment(name: &str) -> Equipment {
    find_profile(name, Path::new("")).unwrap_or_else(|fault| panic!("{name}: {fault}"))
}

/// Names of the shipped cushions that can be laid over a complete profile.
pub fn shipped_cushions() -> impl Iterator<Item = &'static str> {
    shipped_names().filter(|name| name.starts_with("cushions/"))
}

/// The shipped nine-foot profile with a shipped cushion in place of its own.
///
/// # Panics
/// When there is no cushion of that name.
pub fn nine_foot_with_cushion(name: &str) -> Equipment {
    find_partial(name, Path::new(""))
        .and_then(|cushion| cushion.over(&shipped_equipment("nine-foot")))
        .unwrap_or_else(|fault| panic!("{name}: {fault}"))
}

/// The real program, built once, in the profile of these tests.
///
/// # Panics
/// When it does not build.
pub fn program() -> &'static Path {
    static PROGRAM: OnceLock<PathBuf> = OnceLock::new();
    PROGRAM.get_or_init(|| {
        let build = escargot::CargoBuild::new().package("railproof").bin("railproof");
        let built = build.current_release().run();
        built
            .unwrap_or_else(|error| panic!("the program does not build: {error}"))
            .path()
            .to_owned()
    })
}

/// The program in a folder, without this process' wishes about colour and threads.
pub fn program_in(folder: &Path) -> Command {
    let mut command = Command::new(program());
    command.current_dir(folder);
    // The program tells its commands as it was called.
    #[cfg(unix)]
    std::os::unix::process::CommandExt::arg0(&mut command, "railproof");
    for name in ["NO_COLOR", "CLICOLOR_FORCE", "RAYON_NUM_THREADS", "CARGO_MANIFEST_DIR"] {
        command.env_remove(name);
    }
    command
}

/// True when `RAILPROOF_THOROUGH` is set: long tests then play all they have, else a part.
pub fn is_thorough() -> bool {
    std::env::var_os("RAILPROOF_THOROUGH").is_some()
}

/// An input of sweeps by its name.
///
/// # Panics
/// When none has the name.
pub fn input(name: &str) -> Input {
    Input::named(name).unwrap_or_else(|| panic!("there is no input {name}"))
}

/// The time that this thread has computed so far, which a busy machine does not lengthen; nothing
/// where the system does not say.
pub fn computed_time() -> Duration {
    // The first number is nanoseconds on a processor (Linux, `sched-stats.rst`).
    let said = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    let nanoseconds = said.split_whitespace().next().and_then(|text| text.parse().ok());
    Duration::from_nanos(nanoseconds.unwrap_or(0))
}
