//! The program and its library: what they read, refuse, answer and write.

mod answers;
mod binary;
mod layouts;
mod profiles;
mod refusals;
mod scenario;
mod scripts;
