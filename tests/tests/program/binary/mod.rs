//! The program as people run it: what it ends with, what it writes, and what it does when its
//! output has nowhere to go. No outside reference; these are promises of the program itself.

mod accept;
mod baselines;
mod edits;
mod fit;
mod fit_reasons;
mod flags;
mod folder;
mod guide;
mod inputs;
mod lines_removed;
mod new;
mod obeyed;
mod outputs;
mod page_edits;
mod readme;
mod shot;
mod slips;
mod slurm;
mod speed_words;
mod stale_baselines;
mod streams;
pub mod support;
mod test_command;
mod track;
mod way_out;
