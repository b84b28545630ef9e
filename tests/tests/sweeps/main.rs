//! Sweeps played in shards: killed, starved of disk, shared out, damaged, and read back by others.

mod addresses;
mod cautions;
mod damage;
mod details;
mod determinism;
mod disk_faults;
mod disk_full;
mod every_input;
mod functions;
mod hostile_plans;
mod kills;
mod locked;
mod maps;
mod misplaced;
mod read_back;
mod samples;
mod shots;
mod strays;
mod support;
mod verify;
