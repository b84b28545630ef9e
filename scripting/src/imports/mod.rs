//! Imports go one way: a module imports only from those before it in the tables of `DEVELOPERS.md`, and no
//! two files import from one another, but for recursive grammars. A type's name stands for one type.

mod graph;
mod paths;
mod sentences;
mod tokens;
mod types;

use graph::{Graph, shown};
use std::collections::BTreeSet;
use std::path::Path;
use types::Types;

/// Files of one recursive grammar, which can't but call each other: why, and which.
const GRAMMARS: &[(&str, &str)] =
    &[("a heading leads to a spot, and a spot may lie along a heading", "layout/read layout/spot")];

/// The names in the first column of the table after a line of `DEVELOPERS.md`, in order.
fn order(after: &str) -> Vec<String> {
    let text = std::fs::read_to_string(root().join("DEVELOPERS.md")).expect("the page is there");
    let (_, text) = text.split_once(after).expect("the page has the table");
    let rows = text.lines().skip_while(|line| !line.starts_with('|'));
    let rows = rows.take_while(|line| line.starts_with('|'));
    let first = rows.filter_map(|row| row.split('|').nth(1));
    first.flat_map(|cell| cell.split('`').skip(1).step_by(2).map(str::to_owned)).collect()
}

fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}

/// Every import against the order, and every module that the table lacks.
fn against_the_order(graph: &Graph, order: &[String]) -> Vec<String> {
    let place = |module: &[String]| order.iter().position(|name| *name == module[0]);
    let mut wrong = Vec::new();
    for (from, imports) in graph.imports.iter().filter(|(from, _)| !from.is_empty()) {
        if place(from).is_none() {
            wrong.push(format!("`{}` is not in the table", shown(from)));
        }
        for to in imports.iter().filter(|to| !to.is_empty() && to[0] != from[0]) {
            if place(to) >= place(from) {
                wrong.push(format!("`{}` imports from `{}`", shown(from), shown(to)));
            }
        }
    }
    wrong
}

/// Each circle as the list of its files.
fn circles(graph: &Graph) -> BTreeSet<String> {
    let listed = |circle: BTreeSet<Vec<String>>| {
        circle.iter().map(|module| shown(module)).collect::<Vec<_>>().join(" ")
    };
    graph.circles().into_iter().map(listed).collect()
}

#[test]
fn modules_import_from_those_before_them_only() {
    for (source, after) in
        [("engine/src", "The engine's layers"), ("scripting/src", "The modules of `scripting/`")]
    {
        let wrong = against_the_order(&Graph::of(&root().join(source)), &order(after));
        assert!(wrong.is_empty(), "{source}:\n{}", wrong.join("\n"));
    }
}

#[test]
fn no_files_import_from_one_another_but_those_of_a_grammar() {
    let mut found = circles(&Graph::of(&root().join("engine/src")));
    found.extend(circles(&Graph::of(&root().join("scripting/src"))));
    let known: BTreeSet<String> = GRAMMARS.iter().map(|(_, files)| (*files).to_owned()).collect();
    let new: Vec<&String> = found.difference(&known).collect();
    assert!(new.is_empty(), "these import from one another:\n{new:#?}");
    let gone: Vec<&String> = known.difference(&found).collect();
    assert!(gone.is_empty(), "these do not any more, and leave the list:\n{gone:#?}");
}

#[test]
fn an_import_is_found_however_it_is_written() {
    let source = "//! use crate::a;\nuse crate::{b::C, d::{self, E as F}};\npub use g::H;\n\
                  fn f() -> super::I { crate::j::k(\"crate::l::m\", 'x', r#\"crate::n::o\"#) }\n\
                  #[cfg(test)]\nmod tests {\n use crate::p::Q;\n}\n";
    let found: Vec<String> =
        paths::paths(&tokens::tokens(source)).iter().map(|path| path.words.join("::")).collect();
    assert_eq!(
        found,
        ["crate::b::C", "crate::d::self", "crate::d::E", "g::H", "super::I", "crate::j::k"]
    );
}

#[test]
fn no_two_types_have_one_name() {
    let mut types = Types::default();
    types.read(&root().join("engine/src"));
    types.read(&root().join("scripting/src"));
    let shared = types.shared();
    assert!(shared.is_empty(), "these names stand for more than one type:\n{}", shared.join("\n"));
}

#[test]
fn a_type_is_found_however_it_is_defined() {
    let source = "// struct A;\npub(super) struct B<'a> { c: D }\nenum E { F }\ntype G = H;\n\
                  pub trait I { type J; }\nimpl I for B<'_> { type J = K; fn f() { struct L; } }\n\
                  const T: &str = \"struct M\";\n#[cfg(test)]\nmod tests {\n struct N;\n}\n";
    assert_eq!(types::defined(&tokens::tokens(source)), ["B", "E", "G", "I", "L"]);
}
