//! The wide ensemble narrowed by measured banks: sequential Monte Carlo.
//!
//! P. Del Moral, A. Doucet and A. Jasra 2006, *Sequential Monte Carlo samplers*, J. R. Statist. Soc. B
//! 68(3):411–436. The likelihood is raised from the power 0 to 1 in stages; each stage weighs the members,
//! draws them again by weight and moves them so that they stay a sample of their stage. Every random number is a
//! function of the seed, the stage and the member, so threads change no bit.

mod moves;
mod stage;
mod temper;

pub(crate) use temper::drawn_again;

pub use stage::{NarrowSettings, Narrowed, narrow, narrow_watched};
