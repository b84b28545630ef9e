//! The rivals a closed-form bank is measured against, each solving the same shot, so that its error
//! can stand beside its time.

pub mod draws;
pub mod fixed_step_impact;
pub mod numba_rival;
pub mod rigid_body;
pub mod rigid_table;
pub mod runge_kutta;
pub mod shot;
pub mod table;
pub mod timing;
