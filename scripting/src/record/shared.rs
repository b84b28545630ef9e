//! A record that grows on one thread and can be taken on another, when the first can't be waited for.

use super::Record;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, TryLockError};
use std::time::{Duration, Instant};

/// A record as it grows.
#[derive(Debug, Clone, Default)]
pub struct SharedRecord(Arc<Mutex<Record>>);

impl SharedRecord {
    /// Of a record as it begins.
    pub fn new(record: Record) -> Self {
        Self(Arc::new(Mutex::new(record)))
    }

    /// The record, to be read and changed. Let go of it before anything else is called that may ask for it.
    pub fn lock(&self) -> MutexGuard<'_, Record> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Takes out what was recorded.
    pub fn take(&self) -> Record {
        std::mem::take(&mut *self.lock())
    }

    /// Takes out what was recorded, unless another thread keeps hold of it.
    pub fn take_within(&self, patience: Duration) -> Option<Record> {
        let since = Instant::now();
        loop {
            match self.0.try_lock() {
                Ok(mut record) => return Some(std::mem::take(&mut *record)),
                Err(TryLockError::Poisoned(record)) => {
                    return Some(std::mem::take(&mut *record.into_inner()));
                }
                Err(TryLockError::WouldBlock) if since.elapsed() > patience => return None,
                Err(TryLockError::WouldBlock) => std::thread::sleep(Duration::from_millis(5)),
            }
        }
    }
}
