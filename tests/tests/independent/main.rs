//! The engine against other methods that share no code with it: a general rigid-body solver, plain
//! fixed-step integration of the published equations, and dense sampling.

mod ball_by_steps;
mod crossings;
mod free_motion;
mod nose_and_cloth;
mod planar_by_rigid_body;
mod square_hit;
mod table;
