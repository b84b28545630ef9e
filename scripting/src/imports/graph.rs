//! Which file of a crate imports from which, and the circles among them.

use super::paths::{NamedPath, paths};
use super::tokens::tokens;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// A module by its words from the crate's root, which has none.
type Module = Vec<String>;

/// The files of a crate and their imports from one another.
pub(super) struct Graph {
    /// The files from which each imports.
    pub(super) imports: BTreeMap<Module, BTreeSet<Module>>,
    named: BTreeMap<Module, Vec<NamedPath>>,
}

/// A module as its path in the source folder, without the ending.
pub(super) fn shown(module: &[String]) -> String {
    if module.is_empty() { "lib".to_owned() } else { module.join("/") }
}

impl Graph {
    /// Of the source folder of a crate, its tests left out.
    pub(super) fn of(source: &Path) -> Self {
        let mut named = BTreeMap::new();
        read(source, &Module::new(), &mut named);
        let mut graph = Self { imports: BTreeMap::new(), named };
        for (module, paths) in &graph.named {
            let from = paths.iter().filter_map(|path| graph.file_of(module, path));
            let from = from.filter(|from| from != module).collect();
            graph.imports.insert(module.clone(), from);
        }
        graph
    }

    /// The file in which the thing stands that a path names; `None` for one of another crate, and for a
    /// module that only passes on what stands in one below it.
    fn file_of(&self, from: &Module, path: &NamedPath) -> Option<Module> {
        let found = self.follow(from, path, 0)?;
        let below = found.len() > from.len() && found.starts_with(from);
        (!(path.passed_on && below)).then_some(found)
    }

    fn follow(&self, from: &Module, path: &NamedPath, depth: usize) -> Option<Module> {
        let (mut module, words) = self.resolve(from, &path.words)?;
        let mut words = words;
        while let [next, rest @ ..] = words {
            module.push(next.clone());
            if !self.named.contains_key(&module) {
                module.pop();
                break;
            }
            words = rest;
        }
        // What a module passes on stands elsewhere.
        let passed = words.first().and_then(|name| {
            let of_module = self.named.get(&module)?;
            of_module.iter().find(|path| path.passed_on && path.known_as == *name)
        });
        match passed {
            Some(passed) if depth < 8 => self.follow(&module, passed, depth + 1).or(Some(module)),
            _ => Some(module),
        }
    }

    /// The module at which a path begins, and the words after it.
    fn resolve<'a>(&self, from: &Module, words: &'a [String]) -> Option<(Module, &'a [String])> {
        let mut module = from.clone();
        let mut rest = words;
        match words.first()?.as_str() {
            "crate" => return Some((Module::new(), &words[1..])),
            "self" => rest = &words[1..],
            "super" => {
                while rest.first().is_some_and(|word| word == "super") {
                    module.pop();
                    rest = &rest[1..];
                }
            }
            child => {
                let below = [from.as_slice(), &[child.to_owned()]].concat();
                self.named.get(&below)?;
            }
        }
        Some((module, rest))
    }

    /// Files that import from one another, each set once.
    pub(super) fn circles(&self) -> Vec<BTreeSet<Module>> {
        let reach: BTreeMap<&Module, BTreeSet<&Module>> =
            self.imports.keys().map(|module| (module, self.reached(module))).collect();
        let mut circles: Vec<BTreeSet<Module>> = Vec::new();
        for (module, reached) in &reach {
            if !reached.contains(module) || circles.iter().any(|known| known.contains(*module)) {
                continue;
            }
            let back = |other: &&&Module| reach.get(**other).is_some_and(|it| it.contains(module));
            circles.push(reached.iter().filter(back).map(|other| (*other).clone()).collect());
        }
        circles
    }

    fn reached(&self, from: &Module) -> BTreeSet<&Module> {
        let mut reached = BTreeSet::new();
        let mut next: Vec<&Module> = self.imports[from].iter().collect();
        while let Some(module) = next.pop() {
            if reached.insert(module) {
                next.extend(self.imports.get(module).into_iter().flatten());
            }
        }
        reached
    }
}

/// Reads a module's folder; modules compiled for tests only are left out.
fn read(folder: &Path, module: &Module, named: &mut BTreeMap<Module, Vec<NamedPath>>) {
    let entries = std::fs::read_dir(folder).expect("the sources can be read");
    for path in entries.map(|entry| entry.expect("the sources can be read").path()) {
        let stem = path.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default().to_owned();
        let own = matches!(stem.as_str(), "mod" | "lib");
        let inner = if own {
            module.clone()
        } else {
            [module.as_slice(), std::slice::from_ref(&stem)].concat()
        };
        if matches!(stem.as_str(), "tests" | "testing" | "imports" | "main") {
            continue;
        }
        if path.is_dir() {
            read(&path, &inner, named);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let source = std::fs::read_to_string(&path).expect("the sources can be read");
            named.insert(inner, paths(&tokens(&source)));
        }
    }
}
