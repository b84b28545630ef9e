//! The number of threads that play banks.

use crate::exit::Exit;
use crate::fault::Fault;
use crate::walled::Inside;

/// Flags of commands that play many banks.
#[derive(Debug, Clone, Copy, Default, clap::Args)]
pub struct Threads {
    /// Threads to play banks on; all the machine has unless given. Results do not depend on it.
    #[arg(long, value_name = "N", value_parser = count_of_threads)]
    pub threads: Option<u16>,
}

impl Threads {
    /// The number of threads that [`Self::start`] would start.
    pub fn number(self) -> usize {
        let wished = std::env::var("RAYON_NUM_THREADS").ok().and_then(|text| text.parse().ok());
        let usual = || wished.filter(|number| *number > 0).unwrap_or_else(of_machine);
        self.threads.map_or_else(usual, usize::from)
    }

    /// Starts the threads.
    ///
    /// # Errors
    /// [`Exit::CouldNotFinish`] when the system refuses them.
    pub fn start(self) -> Result<(), Fault> {
        // Zero leaves the number to the machine and to RAYON_NUM_THREADS; inside walls the parent has asked it.
        let usual = Inside::this().map_or(0, |inside| inside.threads);
        let number = self.threads.map_or(usual, usize::from);
        rayon::ThreadPoolBuilder::new().num_threads(number).build_global().map_err(|error| {
            Fault::new(Exit::CouldNotFinish, format!("the threads could not be started: {error}"))
                .with_hint("try fewer with --threads")
        })
    }
}

fn of_machine() -> usize {
    std::thread::available_parallelism().map_or(1, std::num::NonZero::get)
}

/// The most threads.
const MOST_THREADS: u16 = 1024;

fn count_of_threads(text: &str) -> Result<u16, String> {
    let number = text.trim().parse().ok().filter(|number| (1..=MOST_THREADS).contains(number));
    number.ok_or_else(|| format!("give a whole number from 1 to {MOST_THREADS}, such as 2"))
}
