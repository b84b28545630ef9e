//! Sweeps played in shards: killed, starved of disk, shared out, damaged, and read back by others.

mod cautions;
mod damage;
mod determinism;
mod disk_faults;
mod disk_full;
mod functions;
mod hostile_plans;
mod kills;
mod read_back;
mod samples;
mod support;
