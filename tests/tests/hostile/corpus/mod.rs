//! The corpus, a file for each kind.

mod baselines;
mod cluster;
mod errors;
mod escapes;
mod files;
mod flags;
mod injections;
mod loops;
mod memory;
mod names;
mod parquet;
mod plans;
mod work;
mod yaml;

use super::case::Case;

pub fn all() -> Vec<Case> {
    let kinds = [
        loops::cases(),
        work::cases(),
        memory::cases(),
        errors::cases(),
        escapes::cases(),
        files::cases(),
        injections::cases(),
        names::cases(),
        yaml::cases(),
        plans::cases(),
        parquet::cases(),
        baselines::cases(),
        flags::cases(),
        cluster::cases(),
    ];
    kinds.into_iter().flatten().collect()
}
