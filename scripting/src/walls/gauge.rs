//! What this process takes: its memory, and a thread's time on the processor.

use std::fs::File;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

/// Reads how much memory this process holds. Opened before walls are raised, it goes on afterwards.
#[derive(Debug)]
pub struct MemoryGauge {
    pages: File,
    page_bytes: u64,
}

impl MemoryGauge {
    /// Where the system tells it.
    pub fn open() -> Option<Self> {
        let pages = File::open("/proc/self/statm").ok()?;
        Some(Self { pages, page_bytes: page_bytes()? })
    }

    /// Bytes in memory now.
    pub fn bytes(&self) -> Option<u64> {
        let mut text = [0; 128];
        let length = read_from_start(&self.pages, &mut text)?;
        // Pages in all, pages in memory (proc(5)).
        let resident = std::str::from_utf8(&text[..length]).ok()?.split(' ').nth(1)?;
        Some(resident.parse::<u64>().ok()? * self.page_bytes)
    }
}

#[cfg(unix)]
fn page_bytes() -> Option<u64> {
    u64::try_from(rustix::param::page_size()).ok()
}

#[cfg(unix)]
fn read_from_start(file: &File, into: &mut [u8]) -> Option<usize> {
    std::os::unix::fs::FileExt::read_at(file, into, 0).ok()
}

#[cfg(not(unix))]
fn page_bytes() -> Option<u64> {
    None
}

#[cfg(not(unix))]
fn read_from_start(_: &File, _: &mut [u8]) -> Option<usize> {
    None
}

/// Where threads have no clock of their own.
static SINCE: OnceLock<Instant> = OnceLock::new();

/// The time that this thread has run on a processor; elsewhere than on Unix, the time that has passed.
///
/// A machine that is busy with other things takes none of it.
pub fn thread_time() -> Duration {
    #[cfg(unix)]
    {
        let time = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
        if let (Ok(seconds), Ok(nanoseconds)) =
            (u64::try_from(time.tv_sec), u32::try_from(time.tv_nsec))
        {
            return Duration::new(seconds, nanoseconds);
        }
    }
    SINCE.get_or_init(Instant::now).elapsed()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(target_os = "linux")]
    #[test]
    fn memory_and_time_are_those_of_what_was_done() {
        let gauge = MemoryGauge::open().unwrap();
        let before = gauge.bytes().unwrap();
        let block = std::hint::black_box(vec![1_u8; 200 << 20]);
        let grown = gauge.bytes().unwrap() - before;
        assert!((190 << 20..260 << 20).contains(&grown), "{grown}");
        drop(block);
        let began = thread_time();
        std::thread::sleep(Duration::from_millis(50));
        assert!(thread_time().saturating_sub(began) < Duration::from_millis(20));
        let since = Instant::now();
        while thread_time().saturating_sub(began) < Duration::from_millis(20) {
            assert!(since.elapsed() < Duration::from_secs(20));
        }
    }
}
