//! A share of a sweep's shards, for one of several machines.

use std::fmt;
use std::str::FromStr;

/// The `part`-th of `of` shares, counted from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Share {
    part: u64,
    of: u64,
}

impl Share {
    /// True for a shard of this share: every `of`-th.
    pub const fn holds(self, shard: u64) -> bool {
        shard % self.of == self.part - 1
    }
}

impl FromStr for Share {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = || format!("`{text}` is not a share; write 2/7 for the second of seven");
        let (part, of) = text.split_once('/').ok_or_else(wrong)?;
        let number = |digits: &str| digits.parse::<u64>().map_err(|_| wrong());
        let (part, of) = (number(part)?, number(of)?);
        if part == 0 || part > of || of > 1_000_000 {
            return Err(format!(
                "{part}/{of}: shares are counted from 1 to their number, at most a million"
            ));
        }
        Ok(Self { part, of })
    }
}

impl fmt::Display for Share {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}/{}", self.part, self.of)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_cover_every_shard_once() {
        for of in [1_u64, 4, 7] {
            let shares: Vec<Share> =
                (1..=of).map(|part| format!("{part}/{of}").parse().unwrap()).collect();
            for shard in 0..100 {
                assert_eq!(shares.iter().filter(|share| share.holds(shard)).count(), 1);
            }
        }
    }

    #[test]
    fn what_is_no_share_is_refused() {
        for text in ["", "1", "0/4", "5/4", "1/0", "a/b", "-1/2", "1/2/3", "1/99999999"] {
            assert!(text.parse::<Share>().is_err(), "{text}");
        }
    }
}
