//! The engine held to sources, to common practice, to other methods and to itself.

mod batch;
mod frontier;
mod independent;
mod practice;
mod published;
mod rules;
mod shot;
mod spin_hold;
mod whole_table;
