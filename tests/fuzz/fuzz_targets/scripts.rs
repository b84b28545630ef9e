//! See `railproof_tests::fuzz`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| railproof_fuzz::run("scripts", bytes));
