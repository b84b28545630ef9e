//! The chance to pocket a bank, and the rules found by it, held to closed forms, to shots drawn at random and to
//! searches by brute force.

mod chance;
mod choice;
mod corrected;
mod discovered;
mod support;
mod windows;
