//! Files that have no business in a sweep's folder: refused by name by every command, and never
//! touched.

use super::support::{Planned, Recipe, digests, play, play_all};
use railproof::files::RealDisk;
use railproof::plan::Keep;
use std::fs;
use std::path::{Path, PathBuf};

fn first_file(folder: &Path) -> PathBuf {
    let mut paths: Vec<_> =
        fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths[0].clone()
}

/// Puts something foreign into a folder of shards and gives its name.
type Stray = fn(&Planned, &Path) -> String;

fn text(_: &Planned, shards: &Path) -> String {
    fs::write(shards.join("notes.txt"), "bring chalk").unwrap();
    "notes.txt".into()
}

fn folder(_: &Planned, shards: &Path) -> String {
    fs::create_dir(shards.join("more")).unwrap();
    "more".into()
}

fn hidden(_: &Planned, shards: &Path) -> String {
    fs::write(shards.join(".index"), "").unwrap();
    ".index".into()
}

/// A shard of another plan under its own name.
fn of_another_plan(planned: &Planned, shards: &Path) -> String {
    let other = Recipe { rules: "rule.mirror {}".into(), ..Recipe::grid() }.plan();
    let path = planned.place.path("other");
    play_all(&other, &path, &RealDisk).unwrap();
    let file = first_file(&path.join("shards"));
    let name = file.file_name().unwrap().to_str().unwrap().to_owned();
    fs::copy(&file, shards.join(&name)).unwrap();
    name
}

/// The same under a name that no shard has.
fn parquet(planned: &Planned, shards: &Path) -> String {
    let name = of_another_plan(planned, shards);
    fs::rename(shards.join(name), shards.join("extra.parquet")).unwrap();
    "extra.parquet".into()
}

/// An own shard's copy under such a name.
fn a_copy(_: &Planned, shards: &Path) -> String {
    fs::copy(first_file(shards), shards.join("copy-of-000000.parquet")).unwrap();
    "copy-of-000000.parquet".into()
}

/// Parquet of another program, named as shards are.
fn named_like_a_shard(_: &Planned, shards: &Path) -> String {
    use parquet::file::{properties::WriterProperties, writer::SerializedFileWriter};
    let schema = parquet::schema::parser::parse_message_type("message a { required int64 b; }");
    let schema = std::sync::Arc::new(schema.unwrap());
    let properties = std::sync::Arc::new(WriterProperties::builder().build());
    let mut bytes = Vec::new();
    SerializedFileWriter::new(&mut bytes, schema, properties).unwrap().close().unwrap();
    let name = "000003-0123456789abcdef.parquet";
    fs::write(shards.join(name), bytes).unwrap();
    name.into()
}

fn past_the_last(_: &Planned, shards: &Path) -> String {
    let name = "999999-0123456789abcdef.parquet";
    fs::write(shards.join(name), "PAR1").unwrap();
    name.into()
}

const STRAYS: [Stray; 8] =
    [text, folder, hidden, of_another_plan, parquet, a_copy, named_like_a_shard, past_the_last];

#[test]
fn every_stray_is_refused_by_name_by_every_command_and_stays() {
    for keep in [Keep::Rows, Keep::Map] {
        for whole in [true, false] {
            for stray in STRAYS {
                let planned = Recipe::with_failures().keeping(keep).placed();
                let out = planned.place.path("out");
                if whole {
                    play_all(&planned.plan, &out, &RealDisk).unwrap();
                } else {
                    play(&planned.plan, &[0], &out, &RealDisk).unwrap();
                }
                let name = stray(&planned, &out.join("shards"));
                let before = digests(&out);
                for line in [
                    "sweep plan.json --into out",
                    "sweep plan.json --into out --dry-run",
                    "merge put out",
                ] {
                    planned.place.run(line).code(6).says(&name).says("does not belong there");
                }
                let ended = planned.place.run("verify out").code(6);
                assert!(ended.out.contains(&name), "{ended:#?}");
                if whole {
                    planned.place.run("merge out").code(6).says(&name);
                }
                assert_eq!(digests(&out), before, "{name} was touched");
                // Taken away, the sweep goes on.
                let path = out.join("shards").join(&name);
                if path.is_dir() { fs::remove_dir(path) } else { fs::remove_file(path) }.unwrap();
                planned.place.run("sweep plan.json --into out --quiet").code(0);
                planned.place.run("verify out").code(0);
            }
        }
    }
}

#[test]
fn files_that_others_are_writing_are_no_strays() {
    let planned = Recipe::grid().placed();
    let out = planned.place.path("out");
    play(&planned.plan, &[0], &out, &RealDisk).unwrap();
    // Of a share on another machine.
    let name = ".unfinished-000001-0123456789abcdef.parquet-1-2";
    fs::write(out.join("shards").join(name), "").unwrap();
    planned.place.run("sweep plan.json --into out --shard 1/2 --quiet").code(0);
    assert!(out.join("shards").join(name).exists());
    planned.place.run("sweep plan.json --into out --quiet").code(0);
    assert!(!out.join("shards").join(name).exists());
}
