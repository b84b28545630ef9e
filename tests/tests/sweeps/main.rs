//! Sweeps played in shards: killed, starved of disk, shared out, damaged, and read back by others.

mod kills;
mod support;
