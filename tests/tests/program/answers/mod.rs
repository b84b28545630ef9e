//! Answers and refusals of `railproof shot` and `railproof bank`.

#![expect(clippy::float_cmp, reason = "what is held to the bit is meant to be")]

mod banks;
mod reasons;
mod refusals;
mod remedies;
mod shots;
mod speeds;
mod support;
