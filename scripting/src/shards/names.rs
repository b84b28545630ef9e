//! What a shard's file is called: its number and the start of its content's digest, so that a file
//! that is not what it was shows.

use crate::plan::sha256;

/// Hexadecimal digits of the digest in a name.
const DIGITS: usize = 16;
const ENDING: &str = ".parquet";

/// The file's name.
pub fn shard_name(shard: u64, bytes: &[u8]) -> String {
    format!("{shard:06}-{}{ENDING}", digest(bytes))
}

/// The start of a content's digest.
pub fn digest(bytes: &[u8]) -> String {
    let mut digest = sha256(bytes);
    digest.truncate(DIGITS);
    digest
}

/// Shard number and digest of a file's name; nothing when it is no shard's.
pub fn parse(name: &str) -> Option<(u64, &str)> {
    let (shard, digest) = name.strip_suffix(ENDING)?.split_once('-')?;
    let number = shard.parse().ok()?;
    let right = shard.len() >= 6
        && shard.bytes().all(|byte| byte.is_ascii_digit())
        && digest.len() == DIGITS
        && digest.bytes().all(|byte| byte.is_ascii_hexdigit() && !byte.is_ascii_uppercase());
    right.then_some((number, digest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_reads_back_and_others_do_not() {
        let name = shard_name(42, b"abc");
        assert_eq!(name, "000042-ba7816bf8f01cfea.parquet");
        assert_eq!(parse(&name), Some((42, "ba7816bf8f01cfea")));
        assert_eq!(parse(&shard_name(1_234_567, b"")).map(|found| found.0), Some(1_234_567));
        for other in [
            "42-ba7816bf8f01cfea.parquet",
            "000042-ba78.parquet",
            "map.parquet",
            "+00042-ba7816bf8f01cfea.parquet",
        ] {
            assert_eq!(parse(other), None, "{other}");
        }
    }
}
