//! Intervals cover as often as they say: tables whose truth is known are measured, fitted and asked.
//!
//! Truths are drawn from the wide ensemble, shots scatter by the stated law, and what is seen is fitted with the
//! settings that ship. Then the truth's rank among the members is even (S. Talts, M. Betancourt, D. Simpson, A. Vehtari
//! and A. Gelman 2018, arXiv:1804.06788), and intervals hold it as often as they say. Ranks alone would pass
//! where intervals are too narrow, so both are held, at one level for the whole family.

mod apart;
mod binomial;
mod coverage;
mod demo;
mod film;
mod filmed;
mod gain;
mod misfit;
mod missed;
mod own_misses;
mod promises;
mod protocol;
mod python;
mod template;
mod track_demo;
mod tracks;
