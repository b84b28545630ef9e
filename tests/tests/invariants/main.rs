//! Properties that need no reference values, over the whole of what the engine accepts.
//!
//! Each property is tried on [`strategies::DEFAULT_CASES`] random inputs; the environment variable
//! `RAILPROOF_CASES` sets another number (100000 in continuous integration, 1000000 by hand before a
//! release). Properties that play many banks for one case take a stated fraction of it. A failing
//! input is written to `proptest-regressions`, which is committed, and is tried first ever after.

mod attribution;
mod ball_ball;
mod bank;
mod contact;
mod contact_time;
mod impact;
mod impulses;
mod inverse;
mod mirror;
mod motion;
mod obstacles;
mod penetration;
mod regressions;
mod shot;
mod similarity;
mod strategies;
mod stress;
mod stroke;
mod sweep;
