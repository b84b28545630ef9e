//! A second opinion, stepped in time on a general rigid-body solver with every contact resolved while it
//! lasts: one [`bank`] of a lone ball, and a whole [`shot`] of several.
//!
//! Both share the solver's settings, the cloth's force for a step, and the spring and damper of a
//! contact ([`Softness`]).
//!
//! Settings that make the solver faithful (rapier2d 0.36):
//! - one biased pass and no relaxing pass, because the relaxing pass would make the contact rigid;
//!   no cap on the recovery speed; no contact margin, no continuous detection, no reuse of old
//!   contacts, no cap on rotation per step;
//! - the solver's soft contact is then a spring and damper integrated by the implicit Euler rule,
//!   which damps by itself as much as a damping ratio of ½·ω₀·step; the ratio that is passed is
//!   smaller by that amount (see [`Softness::for_step`]).

pub mod bank;
mod cloth;
pub mod shot;
mod softness;
mod solver;

pub use softness::Softness;
