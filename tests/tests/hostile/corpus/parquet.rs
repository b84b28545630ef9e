//! Shards that are crafted: their sizes, notes and pages say what is not so.

use crate::case::Case;
use railproof::exit::Exit::{BadInput, CouldNotFinish, Held, NotWhole};
use railproof_tests::program_in;
use sha2::{Digest, Sha256};
use std::fs;
use std::path::{Path, PathBuf};

pub fn cases() -> Vec<Case> {
    let verified = |name, craft: fn(&Path)| {
        Case::command(
            name,
            &["verify", "swept", "--time", "5 s", "--memory", "512 MiB"],
            &[NotWhole, BadInput, CouldNotFinish],
        )
        .within(5)
        .file("source.lua", PLAN)
        .prepared(sweep)
        .prepared(craft)
    };
    vec![
        verified("parquet: nothing", |work| craft(work, |_| Vec::new())),
        verified("parquet: other bytes", |work| craft(work, |bytes| vec![0x41; bytes.len()])),
        verified("parquet: cut off", |work| craft(work, |bytes| bytes[..bytes.len() / 2].to_vec())),
        verified("parquet: a footer longer than the file", |work| {
            craft(work, |bytes| footer_of(bytes, u32::MAX));
        }),
        verified("parquet: a footer of nothing", |work| craft(work, |bytes| footer_of(bytes, 0))),
        verified("parquet: a footer of other bytes", |work| {
            craft(work, |bytes| {
                let mut bytes = bytes.to_vec();
                let end = bytes.len() - 8;
                let from = end - 200;
                bytes[from..end].fill(0xff);
                bytes
            });
        }),
        verified("parquet: pages of other bytes", |work| {
            craft(work, |bytes| {
                let mut bytes = bytes.to_vec();
                let end = bytes.len() / 2;
                bytes[4..end].fill(0x7f);
                bytes
            });
        }),
        verified("parquet: a byte turned in every tenth", |work| {
            craft(work, |bytes| {
                let turned = bytes.iter().enumerate();
                turned.map(|(at, byte)| if at % 10 == 9 { byte ^ 0x55 } else { *byte }).collect()
            });
        }),
        verified("parquet: a link out", |work| {
            let shard = first_shard(work);
            fs::remove_file(&shard).unwrap();
            std::os::unix::fs::symlink("../../../outside/secret", &shard).unwrap();
        }),
        Case::command(
            "parquet: a sweep goes on over it",
            &["sweep", "source.lua", "--into", "out", "--quiet"],
            &[Held, NotWhole, BadInput],
        )
        .within(5)
        .file("source.lua", PLAN)
        .file("out/shards/rows-000000-0000000000000000.parquet", [0x41; 100]),
        Case::command(
            "parquet: merged from nowhere",
            &["merge", "swept", "nowhere"],
            &[NotWhole, BadInput],
        )
        .within(5)
        .file("source.lua", PLAN)
        .prepared(sweep),
    ]
}

const PLAN: &str = r#"
plan(grid { equipment = equipment "nine-foot", contact = span(1, 4, 0.1), off_rail = inches(0), speed = span(mps(2), mps(5), mps(0.5)), spin = "stun", name = "rows" },
  rule.linear { slope = 2.2, reading = "groove" })
"#;

fn sweep(work: &Path) {
    let swept =
        program_in(work).args(["sweep", "source.lua", "--into", "swept", "--quiet"]).output();
    let swept = swept.unwrap();
    assert!(swept.status.success(), "{swept:?}");
}

fn first_shard(work: &Path) -> PathBuf {
    let shards = fs::read_dir(work.join("swept/shards")).unwrap();
    let mut shards: Vec<PathBuf> = shards.map(|entry| entry.unwrap().path()).collect();
    shards.retain(|path| path.extension().is_some_and(|ending| ending == "parquet"));
    shards.sort();
    shards.swap_remove(0)
}

/// Puts other bytes in the place of a shard, under the name that belongs to them.
fn craft(work: &Path, change: impl Fn(&[u8]) -> Vec<u8>) {
    let shard = first_shard(work);
    let bytes = change(&fs::read(&shard).unwrap());
    let name = shard.file_name().unwrap().to_str().unwrap().to_owned();
    let digest = hex(&Sha256::digest(&bytes));
    // The part between the last dash and the ending is the beginning of the digest.
    let (stem, ending) = name.rsplit_once('.').unwrap();
    let (number, old) = stem.rsplit_once('-').unwrap();
    fs::remove_file(&shard).unwrap();
    let renamed = format!("{number}-{}.{ending}", &digest[..old.len()]);
    fs::write(shard.with_file_name(renamed), bytes).unwrap();
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |text, byte| text + &format!("{byte:02x}"))
}

/// With another length of the footer, which stands before the last four bytes (Apache Parquet, "File format").
fn footer_of(bytes: &[u8], length: u32) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    let at = bytes.len() - 8;
    bytes[at..at + 4].copy_from_slice(&length.to_le_bytes());
    bytes
}
