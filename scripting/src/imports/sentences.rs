//! Every sentence and message that the code can say, with its place, in one file to be read aloud.

use super::root;
use super::tokens::texts;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// Words that a coach would not say, and the reason.
const UNSAID: &[(&str, &str)] = &[
    ("with less behind it", "say that it is less sure"),
    ("at no speed", "say that no speed holds"),
    ("is sent off by", "say who hits whom"),
    ("roll backwards", "say draw"),
    ("` is no ", "say that it is not one"),
    ("this is no ", "say that it is not one"),
    ("stands in quotes", "say that it goes in quotes"),
    ("knows no ", "say that there is none"),
    ("every other time", "say half the time"),
    ("to be expected", "say where it was expected"),
    ("shows itself", "say that it shows up"),
    ("take it away", "say delete or remove"),
    ("behind each", "say after each"),
    ("Whoever ", "say if you"),
    ("a head can do", "say what you can work out in your head"),
    ("is asked of a", "say what is needed"),
    ("from where to where", "say the range"),
    ("that could be,", "say possible"),
    ("so many ", "say how many, or this many"),
];

/// Where the file goes: beside what is built.
const SENTENCES: &str = "target/sentences.txt";

/// A text as it is said: without its quotes, its line ends and its escapes.
fn said(text: &str) -> String {
    let inside = text.trim_start_matches(['b', 'r', '#']).trim_end_matches('#');
    let inside = inside.strip_prefix('"').and_then(|it| it.strip_suffix('"')).unwrap_or(inside);
    let joined = inside.split("\\\n").map(str::trim_start).collect::<String>();
    joined.replace("\\\"", "\"").replace("\\n", " ")
}

/// Adds the sentences of every file of a folder, by name.
fn read(folder: &Path, out: &mut Vec<(String, usize, String)>) {
    let entries = fs::read_dir(folder).unwrap_or_else(|error| panic!("{folder:?}: {error}"));
    let mut paths: Vec<_> = entries.map(|entry| entry.expect("it is there").path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            if !path.ends_with("tests") && !path.ends_with("imports") {
                read(&path, out);
            }
        } else if path.extension().is_some_and(|it| it == "rs") && !path.ends_with("tests.rs") {
            let source = fs::read_to_string(&path).expect("source is text");
            let name = path.strip_prefix(root()).unwrap_or(&path).display().to_string();
            for text in texts(&source) {
                let at = text.as_ptr() as usize - source.as_ptr() as usize;
                let line = 1 + source[..at].matches('\n').count();
                let words = said(text);
                if words.trim().contains(' ') && words.contains(|it: char| it.is_alphabetic()) {
                    out.push((name.clone(), line, words));
                }
            }
        }
    }
}

#[test]
fn every_sentence_stands_in_one_file_and_says_nothing_that_is_not_said() {
    let mut sentences = Vec::new();
    for folder in ["engine/src", "scripting/src"] {
        read(&root().join(folder), &mut sentences);
    }
    assert!(sentences.len() > 1000, "only {} were found", sentences.len());
    let mut page = String::new();
    let mut wrong = String::new();
    for (name, line, words) in &sentences {
        let _ = writeln!(page, "{name}:{line}  {words}");
        for (unsaid, instead) in UNSAID.iter().filter(|(unsaid, _)| words.contains(unsaid)) {
            let _ = writeln!(wrong, "{name}:{line}: {unsaid:?} ({instead})");
        }
    }
    fs::create_dir_all(root().join("target")).expect("a folder can be made");
    fs::write(root().join(SENTENCES), page).expect("the file can be written");
    assert!(wrong.is_empty(), "{wrong}");
}

#[test]
fn a_text_is_said_as_it_is_printed() {
    assert_eq!(said("\"one \\\n    line and \\\"two\\\"\""), "one line and \"two\"");
    assert_eq!(said("r#\"a \"b\"\"#"), "a \"b\"");
}
