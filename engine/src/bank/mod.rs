//! One bank: conditions in, outcome out.
