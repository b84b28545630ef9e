//! Input made to hurt: always one clear fault, soon, and never a panic.

use proptest::prelude::*;
use railproof::fault::{Fault, Style};
use railproof::layout::parse_layout;
use railproof::profile::{find_profile, load_profile, parse_partial, parse_profile};
use railproof_tests::computed_time;
use std::fmt::Write;
use std::path::Path;
use std::time::Duration;

/// Generous: a text at the size limit takes a small part of it.
const SOON: Duration = Duration::from_secs(10);

fn refused_soon(what: &str, text: &str) -> Fault {
    let start = computed_time();
    let fault = match parse_profile(text, "hostile.yaml") {
        Ok(equipment) => panic!("{what} was accepted as {equipment:?}"),
        Err(fault) => fault,
    };
    let shown = fault.render(Style::PLAIN);
    let taken = computed_time().saturating_sub(start);
    assert!(taken < SOON, "{what} took {taken:?}");
    println!("{what}: {taken:?}: {fault}");
    assert!(!fault.message.is_empty() && shown.len() < 4000, "{what}: {shown}");
    assert!(fault.message.chars().count() < 400, "{what}: {shown}");
    assert_eq!(fault.exit.code(), 2, "{what}");
    fault
}

fn filled(piece: &str) -> String {
    piece.repeat((1 << 20) / piece.len())
}

#[test]
fn large_and_deep_texts() {
    for (what, text) in [
        ("open brackets", "[".repeat(200_000)),
        ("paired brackets", "[".repeat(100_000) + &"]".repeat(100_000)),
        ("open braces", "{a: ".repeat(200_000)),
        ("just under the limit of brackets", "[".repeat(10_000) + &filled("a,")[..1_000_000]),
        ("nested dashes", filled("- ")),
        ("nested question marks", filled("? ")),
        ("colons", filled(": ")),
        ("one long key", filled("k")),
        ("one long value", "name: ".to_owned() + &filled("v")[..1_000_000]),
        ("one long quoted value", "name: '".to_owned() + &filled("v")[..1_000_000]),
        ("one long quantity", "name: a\nball: {mass: ".to_owned() + &filled("1")[..1_000_000]),
        ("many keys", (0..80_000).fold(String::new(), |text, n| text + &format!("k{n}: 1\n"))),
        ("anchors", filled("- &a a\n")),
        ("tags", filled("!a ")),
        ("directives", filled("%YAML 1.1\n")),
        ("documents", filled("---\n")),
        ("comments", filled("# a\n")),
        ("blank lines", filled("\n")),
        ("tabs", filled("\t")),
        ("steps", (0..1400).fold(String::new(), |text, n| text + &" ".repeat(n) + "a:\n")),
    ] {
        assert!(text.len() <= 1 << 20, "{what}");
        refused_soon(what, &text);
    }
}

#[test]
fn an_alias_bomb() {
    let mut text = String::from("name: bomb\nabout: a\na0: &a0 [x, x]\n");
    for n in 1..60 {
        let before = n - 1;
        writeln!(text, "a{n}: &a{n} [*a{before}, *a{before}]").expect("a string takes it");
    }
    refused_soon("bomb among keys", &text);
    // The same where a mapping is wanted, and as a key's value that is read.
    let list = text.replace("name: bomb\nabout: a\n", "").replace('\n', ", ");
    refused_soon("bomb in a section", &format!("table: {{{list}}}"));
    refused_soon("an anchor in itself", "name: &a [*a]\n");
    refused_soon("sections in a ring", "table: &t {length: *t}\n");
}

#[test]
fn an_alias_is_allowed_where_it_makes_sense() {
    let text = super::nine_foot_with("sliding_friction: 0.22", "sliding_friction: &grip 0.22")
        .replace("  impact_cloth_friction: 0.18", "  impact_cloth_friction: *grip");
    let equipment = parse_profile(&text, "x").expect("an anchor and its alias are plain YAML");
    assert_eq!(equipment.cushion.impact_cloth_friction, Some(0.22));
}

#[test]
fn empty_and_binary() {
    for text in ["", "\n\n", "# only a comment\n", "---\n", "\u{feff}"] {
        assert!(refused_soon("nothing", text).message.contains("empty"), "{text:?}");
    }
    let fault = refused_soon("a NUL", "name: a\nabout: b\0c\n");
    assert!(fault.message.contains("U+0000"));
    assert_eq!(fault.place.expect("it has a place").line_column(), (2, 9));
}

fn refused_file(path: &Path) -> Fault {
    load_profile(path).expect_err("it is refused")
}

#[test]
fn files_that_are_not_profiles() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = |name: &str, bytes: &[u8]| {
        let path = folder.path().join(name);
        std::fs::write(&path, bytes).expect("it can be written");
        path
    };

    let latin = refused_file(&file("latin.yaml", b"name: a\nabout: gr\xfc\xdf\n"));
    assert!(latin.message.contains("not UTF-8"), "{latin}");
    assert_eq!(latin.place.as_ref().expect("it has a place").line_column(), (2, 10));
    let garbage: Vec<u8> = (0..4096_u32).map(|n| (n * n % 251) as u8).collect();
    assert!(refused_file(&file("garbage", &garbage)).render(Style::PLAIN).len() < 2000);

    let limit = file("limit.yaml", &vec![b'#'; 1 << 20]);
    assert!(refused_file(&limit).message.contains("empty"));
    let over = refused_file(&file("over.yaml", &vec![b'#'; (1 << 20) + 1]));
    assert!(over.message.contains("larger than 1 MiB"), "{over}");
    assert!(
        parse_profile(&"#".repeat((1 << 20) + 1), "x")
            .expect_err("it is too large")
            .message
            .contains("larger than 1 MiB")
    );

    assert!(refused_file(folder.path()).message.contains("is a folder"));
    let below = refused_file(&limit.join("below.yaml"));
    assert_eq!(below.exit.code(), 2, "{below}");

    let missing = refused_file(&folder.path().join("latin.yml"));
    assert!(missing.message.contains("there is no file"), "{missing}");
    assert!(missing.message.contains("latin.yml"), "{missing}");
    assert!(missing.hint.expect("a near name").contains("`latin.yaml`"));
    let missing = refused_file(&folder.path().join("limti.yaml"));
    assert!(missing.hint.expect("a near name").contains("`limit.yaml`"));
    assert_eq!(refused_file(&folder.path().join("zebra")).hint, None);

    let fault = find_profile("nine-fot", folder.path()).expect_err("no such name");
    assert_eq!(fault.hint.as_deref(), Some("did you mean `nine-foot`?"));
}

#[cfg(unix)]
#[test]
fn devices_and_pipes_are_refused_without_waiting() {
    for path in ["/dev/zero", "/dev/null", "/dev/stdin"] {
        let path = Path::new(path);
        if path.exists() && !path.is_file() {
            assert!(refused_file(path).message.contains("not an ordinary file"));
        }
    }
}

proptest! {
    #[test]
    fn no_text_makes_a_panic(text in "\\PC*") {
        let _ = parse_profile(&text, "x").map_err(|fault| fault.render(Style::PLAIN));
    }

    #[test]
    fn no_yaml_like_text_makes_a_panic(
        pieces in prop::collection::vec(prop::sample::select(&[
            "name", "about", "table", "ball", "cushion", "length", "mass", "balls", "equipment",
            "position", "until", ":", ": ", "\n", "\n  ", "\n    ", "- ", "? ", "[", "]", "{", "}",
            ",", "\"", "'", "|", ">-", "&a ", "*a", "!t ", "!!int ", "<<", "~", ".nan", "1 m",
            "170 g", "é", "🎱", "\t", "#", "%", "---\n", "\r\n", "\u{85}", "\u{2028}", "\u{7f}",
            "\u{1b}", "@", "`",
        ][..]), 0..60)
    ) {
        let text = pieces.concat();
        let _ = parse_profile(&text, "x").map_err(|fault| fault.render(Style { color: true }));
        let _ = parse_partial(&text, "x").map_err(|fault| fault.render(Style::PLAIN));
        let _ = parse_layout(&text, "x", Path::new("/nowhere"))
            .map_err(|fault| fault.render(Style::PLAIN));
    }

    /// Changing one character of a good profile never panics, and what is still accepted is still
    /// finite and in range.
    #[test]
    fn one_changed_character(at in 0_usize..4000, letter in any::<char>()) {
        let text = railproof::profile::shipped_text("nine-foot").expect("it ships");
        let at = text.floor_char_boundary(at % text.len());
        let end = text.ceil_char_boundary(at + 1);
        let changed = format!("{}{letter}{}", &text[..at], &text[end..]);
        match parse_profile(&changed, "x") {
            Ok(equipment) => prop_assert!(equipment.validated().is_ok()),
            Err(fault) => prop_assert!(fault.place.is_some(), "{}", fault),
        }
    }
}
