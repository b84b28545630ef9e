//! Grouping, quoting, and the text run by bash with stand-ins for the cluster's commands.

mod grouping;
#[cfg(unix)]
mod running;
mod text;
