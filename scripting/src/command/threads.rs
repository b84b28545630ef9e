//! The number of threads that play banks.

use crate::exit::Exit;
use crate::fault::Fault;

/// Flags of commands that play many banks.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
pub struct Threads {
    /// Threads to play banks on; all the machine has unless given. Results do not depend on it.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
}

impl Threads {
    /// Starts the threads.
    ///
    /// # Errors
    /// [`Exit::CouldNotFinish`] when the system refuses them.
    pub fn start(self) -> Result<(), Fault> {
        // Zero leaves the number to the machine and to RAYON_NUM_THREADS.
        let number = self.threads.map_or(0, usize::from);
        rayon::ThreadPoolBuilder::new().num_threads(number).build_global().map_err(|error| {
            Fault::new(Exit::CouldNotFinish, format!("the threads could not be started: {error}"))
                .with_hint("try fewer with --threads")
        })
    }
}
