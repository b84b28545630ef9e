//! The engine against other methods that share no code with it: a general rigid-body solver, plain
//! fixed-step integration of the published equations, and dense sampling.

mod ball_by_steps;
mod ball_friction_by_rigid_body;
mod ball_friction_in_time;
mod contacts;
mod contacts_on_paths;
mod crossings;
mod cue_room;
mod edges;
mod free_motion;
mod marching;
mod nose_and_cloth;
mod planar_by_rigid_body;
mod square_hit;
mod stepped_books;
mod stepped_clusters;
mod stepped_convergence;
mod stepped_cushion;
mod stepped_layouts;
mod stroke_by_impulse;
mod table;
mod time_reversal;
