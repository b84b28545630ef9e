//! Names of shards' files: the number and the start of the content's digest, so that a changed file
//! shows.

/// Hexadecimal digits of the digest in a name.
const DIGITS: usize = 16;
const ENDING: &str = ".parquet";

/// The name of the file of a shard whose content has this SHA-256.
pub fn shard_name(shard: u64, sha256: &str) -> String {
    format!("{shard:06}-{}{ENDING}", start_of(sha256))
}

/// The part of a digest that stands in a name.
pub fn start_of(sha256: &str) -> &str {
    sha256.get(..DIGITS).unwrap_or(sha256)
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
    use crate::plan::sha256;

    #[test]
    fn a_name_reads_back_and_others_do_not() {
        let name = shard_name(42, &sha256(b"abc"));
        assert_eq!(name, "000042-ba7816bf8f01cfea.parquet");
        assert_eq!(parse(&name), Some((42, "ba7816bf8f01cfea")));
        assert_eq!(
            parse(&shard_name(1_234_567, &sha256(b""))).map(|found| found.0),
            Some(1_234_567)
        );
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
