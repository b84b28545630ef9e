//! Placeholder.

pub mod lua;
