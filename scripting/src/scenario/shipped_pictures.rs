//! Every picture of the shipped scenarios: its words stay whole, on the page and off each other.

use super::{RunOptions, run_scenario};
use crate::picture::tests::{assert_tidy, shown};
use crate::picture::true_minus;
use crate::record::{Picture, Record};
use std::path::Path;

fn svg(picture: &Picture) -> String {
    match picture {
        Picture::Map(it) => it.to_svg(),
        Picture::Difference(it) => it.to_svg(),
        Picture::BeforeAfter(it) => it.to_svg(),
        Picture::Lines(it) => it.to_svg(),
        Picture::Frontier(it) => it.to_svg(),
        Picture::Table(it) => it.to_svg(),
        Picture::Fit(it) => it.to_svg(),
    }
    .expect("it can be drawn")
}

fn set_size(picture: &mut Picture, size: f64) {
    match picture {
        Picture::Map(it) => it.look.size = size,
        Picture::Difference(it) => it.look.size = size,
        Picture::BeforeAfter(it) => it.look.size = size,
        Picture::Lines(it) => it.look.size = size,
        Picture::Frontier(it) => it.look.size = size,
        Picture::Table(it) => it.look.size = size,
        Picture::Fit(it) => it.look.size = size,
    }
}

#[test]
fn words_of_shipped_pictures_stay_whole_and_apart_at_every_size() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
    let mut pictures = 0;
    for entry in std::fs::read_dir(folder).expect("it ships") {
        let file = entry.expect("a file").path();
        if file.extension().is_none_or(|extension| extension != "lua") {
            continue;
        }
        let record = run_scenario(&file, &RunOptions::default()).and_then(Record::whole);
        let mut record = record.unwrap_or_else(|fault| panic!("{fault}"));
        for drawing in &mut record.drawings {
            let name = format!("{} of {}", drawing.name, file.display());
            for (_, size) in crate::layout::PICTURE_SIZES {
                set_size(&mut drawing.picture, *size);
                let svg = svg(&drawing.picture);
                assert_tidy(&svg, &name);
                let all = shown(&svg);
                assert!(all.iter().all(|it| !it.text.contains('…')), "{name}: {all:#?}");
                // The headline comes first, line after line, and is there to its last word.
                let title = true_minus(drawing.picture.title());
                let mut told = String::new();
                for line in &all {
                    if told.len() >= title.len() {
                        break;
                    }
                    told = format!("{told} {}", line.text).trim_start().to_owned();
                }
                assert_eq!(told, title, "{name}");
                let raw = |text: &str| text.contains('_') || text.contains(".3333");
                assert!(all.iter().all(|it| !raw(&it.text)), "{name}: {all:#?}");
            }
            pictures += 1;
        }
    }
    assert!(pictures > 30, "{pictures}");
}
