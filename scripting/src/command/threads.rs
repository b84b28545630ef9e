//! The number of threads that play banks.

use crate::exit::Exit;
use crate::fault::Fault;

/// Flags of commands that play many banks.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
pub struct Threads {
    /// Threads to play banks on; all the machine has unless given. Results do not depend on it.
    #[arg(long, value_name = "N", value_parser = count_of_threads)]
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

/// The most threads.
const MOST_THREADS: u16 = 1024;

fn count_of_threads(text: &str) -> Result<u16, String> {
    let number = text.trim().parse().ok().filter(|number| (1..=MOST_THREADS).contains(number));
    number.ok_or_else(|| format!("give a whole number from 1 to {MOST_THREADS}, such as 2"))
}
