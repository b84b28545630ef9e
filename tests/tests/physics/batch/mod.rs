//! Many banks at once against the same banks alone: every column to the bit.

mod alike;
mod edges;
mod support;
