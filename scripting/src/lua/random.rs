//! The generator behind `math.random`: the same numbers in every process.
//!
//! xoshiro256++ (D. Blackman and S. Vigna, "Scrambled linear pseudorandom number generators", ACM
//! Transactions on Mathematical Software 47, 2021), its state filled by `SplitMix64` (G. Steele,
//! D. Lea and C. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014) as its
//! authors advise.

use super::place::{self, Placed};
use crate::fault::Fault;
use mlua::{Lua, Table, Value, Variadic};
use std::cell::RefCell;
use std::rc::Rc;

/// The seed of a scenario that sets none.
pub const DEFAULT_SEED: u64 = 0;

/// Whole numbers up to this size are exact in Lua's numbers (2^53).
const LARGEST_WHOLE: f64 = 9_007_199_254_740_992.0;

/// The state of xoshiro256++.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Generator([u64; 4]);

impl Generator {
    /// A generator for a seed; any seed is good.
    pub fn new(seed: u64) -> Self {
        let mut state = seed;
        Self(std::array::from_fn(|_| split_mix(&mut state)))
    }

    /// The next 64 bits.
    pub fn next_bits(&mut self) -> u64 {
        let s = &mut self.0;
        let result = s[0].wrapping_add(s[3]).rotate_left(23).wrapping_add(s[0]);
        let shifted = s[1] << 17;
        s[2] ^= s[0];
        s[3] ^= s[1];
        s[1] ^= s[2];
        s[0] ^= s[3];
        s[2] ^= shifted;
        s[3] = s[3].rotate_left(45);
        result
    }

    /// A number in [0, 1), a multiple of 2^-53.
    pub fn unit(&mut self) -> f64 {
        (self.next_bits() >> 11) as f64 / LARGEST_WHOLE
    }

    /// A whole number below `bound`, all equally likely; 0 when `bound` is 0.
    pub fn below(&mut self, bound: u64) -> u64 {
        if bound == 0 {
            return 0;
        }
        // The bits above the last whole multiple of `bound` would favour small results.
        let rejected = (u64::MAX % bound + 1) % bound;
        loop {
            let bits = self.next_bits();
            if bits <= u64::MAX - rejected {
                return bits % bound;
            }
        }
    }
}

fn split_mix(state: &mut u64) -> u64 {
    *state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let mut mixed = *state;
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^ (mixed >> 31)
}

/// Puts `random` and `randomseed` of this generator into the `math` table.
///
/// `random()` gives a number in [0, 1), `random(m)` a whole number from 1 to m, `random(m, n)` one
/// from m to n.
///
/// # Errors
/// Only when Lua has no memory left.
pub fn install(lua: &Lua, math: &Table) -> mlua::Result<()> {
    let generator = Rc::new(RefCell::new(Generator::new(DEFAULT_SEED)));
    let shared = Rc::clone(&generator);
    math.raw_set(
        "random",
        lua.create_function(move |lua, bounds: Variadic<Value>| {
            draw(&mut shared.borrow_mut(), &bounds)
                .map_err(|fault| fault.placed(place::call(lua, Some("random"))).into())
        })?,
    )?;
    math.raw_set(
        "randomseed",
        lua.create_function(move |lua, seed: Value| {
            let Some(seed) = whole(&seed) else {
                return Err(Fault::bad_input("math.randomseed needs a whole number")
                    .placed(place::call(lua, Some("randomseed")))
                    .into());
            };
            *generator.borrow_mut() = Generator::new(seed.cast_unsigned());
            Ok(())
        })?,
    )
}

/// The names that a rule function can't use.
pub const REFUSED: [&str; 2] = ["random", "randomseed"];

/// The refusal to a function that draws numbers and is called for every point.
pub fn refused(name: &str) -> Fault {
    Fault::bad_input(format!("math.{name} can't be used in a function of a rule or a plan"))
        .with_hint("the same plan must always give the same results; sample { … } draws numbers")
}

/// Puts functions that say so into the `math` table of a machine in which nothing is random.
///
/// # Errors
/// Only when Lua has no memory left.
pub fn refuse(lua: &Lua, math: &Table) -> mlua::Result<()> {
    for name in REFUSED {
        let refuse = lua.create_function(move |lua, _: Variadic<Value>| -> mlua::Result<()> {
            Err(refused(name).placed(place::call_line(lua)).into())
        })?;
        math.raw_set(name, refuse)?;
    }
    Ok(())
}

fn draw(generator: &mut Generator, bounds: &[Value]) -> Result<f64, Fault> {
    let (low, high) = match bounds {
        [] => return Ok(generator.unit()),
        [high] => (Some(1), whole(high)),
        [low, high] => (whole(low), whole(high)),
        _ => return Err(Fault::bad_input("math.random takes at most two whole numbers")),
    };
    let (Some(low), Some(high)) = (low, high) else {
        return Err(Fault::bad_input("math.random takes whole numbers")
            .with_hint("math.random() gives a number from 0 to 1"));
    };
    if low > high {
        return Err(Fault::bad_input(format!(
            "math.random has no whole number from {low} to {high}"
        )));
    }
    let choices = (high - low).cast_unsigned() + 1;
    let drawn = generator.below(choices).cast_signed();
    Ok((low + drawn) as f64)
}

/// A whole number that Lua holds exactly.
#[expect(clippy::cast_possible_truncation, reason = "checked to be whole and within 2^53")]
fn whole(value: &Value) -> Option<i64> {
    match value {
        Value::Integer(whole) if whole.unsigned_abs() <= 1 << 53 => Some(*whole),
        Value::Number(number) if number.fract() == 0.0 && number.abs() <= LARGEST_WHOLE => {
            Some(*number as i64)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First outputs for the state 1, 2, 3, 4 by hand from the definition: rotl(1 + 4, 23) + 1;
    /// then the state is (7, 0, 262146, 6·2^45), so rotl(7 + 6·2^45, 23) + 7.
    #[test]
    fn follows_the_published_step() {
        let mut generator = Generator([1, 2, 3, 4]);
        assert_eq!(generator.next_bits(), (5 << 23) + 1);
        assert_eq!(generator.next_bits(), (7_u64 + (6 << 45)).rotate_left(23) + 7);
    }

    /// The seed sequence for 1234567 as commonly listed; the values are from memory.
    #[test]
    fn seeds_as_split_mix_does() {
        let mut state = 1_234_567;
        assert_eq!(split_mix(&mut state), 6_457_827_717_110_365_317);
        assert_eq!(split_mix(&mut state), 3_203_168_211_198_807_973);
    }

    #[test]
    fn whole_numbers_below_a_bound_are_even() {
        let mut generator = Generator::new(7);
        let mut counts = [0_u32; 6];
        for _ in 0..60_000 {
            counts[usize::try_from(generator.below(6)).unwrap()] += 1;
        }
        // Standard deviation of a count is 91; five of them.
        assert!(counts.iter().all(|count| count.abs_diff(10_000) < 460), "{counts:?}");
    }
}
