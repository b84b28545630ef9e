//! Placeholder.

pub mod picture;
