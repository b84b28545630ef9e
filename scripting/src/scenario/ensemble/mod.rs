//! Questions asked of all the tables that one could be: shares, rankings, exact starts, edges as bands.

pub mod band;
pub mod band_object;
pub mod claims;
mod cost;
pub mod question;
pub mod ranking;
pub mod shares;
pub mod starts;
mod words;
