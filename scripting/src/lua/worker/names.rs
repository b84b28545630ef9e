//! Which names a rule function may use, and the check that it uses no others.

use super::function_text::FunctionText;
use crate::fault::Fault;
use crate::fields::CONSTRUCTORS;
use crate::lua::addresses::IN_ORDER;
use crate::lua::place::Placed;

use crate::lua::random;
use crate::lua::source::Source;
use crate::lua::tokens::{KEYWORDS, Token, TokenKind};
use mlua::{Lua, Value};

/// The globals a rule function has.
const ALLOWED: &[&str] = &[
    "math", "string", "table", "bit32", "ipairs", "pairs", "next", "select", "tostring",
    "tonumber", "type", "typeof", "error", "assert", "unpack", "pcall",
];

/// The words for which a shot's function has a scenario's meaning, beside those of quantities.
const SHOT_WORDS: &[&str] = &["lay", "bank_shot", "route", "rule", "span", "quantity"];

/// The purpose of a function, which decides the words that it may use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FunctionKind {
    /// It gives the start number of a rule.
    Rule,
    /// It makes a shot of a point.
    Shot,
}

impl FunctionKind {
    /// True for a global that it has.
    fn has(self, name: &str) -> bool {
        let of_shots =
            || SHOT_WORDS.contains(&name) || CONSTRUCTORS.iter().any(|(unit, _)| *unit == name);
        ALLOWED.contains(&name) || (self == Self::Shot && of_shots())
    }

    /// It in a sentence.
    pub(super) const fn noun(self) -> &'static str {
        match self {
            Self::Rule => "a rule function",
            Self::Shot => "a plan's shot function",
        }
    }

    const fn hint(self) -> &'static str {
        match self {
            Self::Rule => {
                "a rule function can use its own arguments and locals, math, string and table; \
                 write the value inside it"
            }
            Self::Shot => {
                "a plan's shot function can use its own arguments and locals, math, string, table, \
                 units, lay, bank_shot, route and rule; write the value inside it, or hand over \
                 equipment by `with`"
            }
        }
    }
}

/// Refuses a function that uses a name from outside itself.
///
/// Its declarations are taken together, whatever their scope; what slips through that is caught by
/// the count of captured locals here, or by the machine when the function runs.
pub fn check(
    source: &Source,
    cut: &FunctionText,
    captured_locals: u8,
    kind: FunctionKind,
) -> Result<(), Fault> {
    let text = source.text();
    let all: Vec<Token> =
        source.tokens().iter().filter(|token| cut.bytes.contains(&token.start)).copied().collect();
    let mut known = declared(text, &all);
    known.extend(cut.name.as_deref());
    let mut brackets = Vec::new();
    for (at, token) in all.iter().enumerate() {
        if token.opens(text) {
            brackets.push(token.text(text));
        } else if token.closes(text) {
            brackets.pop();
        }
        let name = token.text(text);
        let follows = |symbol: &str| at > 0 && all[at - 1].is(text, symbol);
        let precedes = |symbol: &str| all.get(at + 1).is_some_and(|next| next.is(text, symbol));
        let is_key = brackets.last() == Some(&"{")
            && precedes("=")
            && (follows("{") || follows(",") || follows(";"));
        if cut.name.as_deref() == Some(name) && precedes("=") && !is_key && !follows(".") {
            return Err(Fault::bad_input(format!("`{name}` changes itself"))
                .with_hint(kind.hint())
                .placed(Some(source.place(token.start, token.end))));
        }
        let of_math = || at > 1 && all[at - 2].is(text, "math") && !known.contains(&"math");
        if follows(".") && random::REFUSED.contains(&name) && of_math() {
            return Err(
                random::refused(name).placed(Some(source.place(all[at - 2].start, token.end)))
            );
        }
        if token.kind != TokenKind::Name
            || KEYWORDS.contains(&name)
            || follows(".")
            || follows(":")
            || is_key
            || known.contains(&name)
            || kind.has(name)
        {
            continue;
        }
        return Err(Fault::bad_input(format!("`{name}` comes from outside the function"))
            .with_hint(kind.hint())
            .placed(Some(source.place(token.start, token.end))));
    }
    let itself = cut
        .name
        .as_deref()
        .is_some_and(|name| all.iter().skip(2).any(|token| token.is(text, name)));
    if captured_locals > u8::from(itself) {
        return Err(Fault::bad_input("the function uses a local from outside itself")
            .with_hint(kind.hint())
            .placed(Some(source.place(cut.bytes.start, cut.head_end))));
    }
    Ok(())
}

/// Every name given by `local`, `for`, a parameter or a function's own name.
pub fn declared<'a>(text: &'a str, all: &[Token]) -> Vec<&'a str> {
    let mut found = Vec::new();
    for (at, token) in all.iter().enumerate() {
        let ends: &[&str] = if token.is(text, "local") {
            &["=", ";"]
        } else if token.is(text, "for") {
            &["=", "in"]
        } else if token.is(text, "function") {
            &[")"]
        } else {
            continue;
        };
        // A list of names: `a, b: number, c`. It ends at the first thing that is no part of one.
        let mut expects_name = true;
        for next in &all[at + 1..] {
            let word = next.text(text);
            if ends.contains(&word) || (KEYWORDS.contains(&word) && word != "function") {
                break;
            }
            if next.kind == TokenKind::Name && word != "function" {
                if !expects_name {
                    break;
                }
                found.push(word);
                expects_name = false;
            } else if matches!(word, "," | ":" | "(" | "function" | "." | "...") {
                expects_name = true;
            } else {
                break;
            }
        }
    }
    found
}

/// Takes everything but the allowed names from a machine's globals and refuses to read others.
pub fn leave_only_libraries(lua: &Lua, kind: FunctionKind) -> mlua::Result<()> {
    let globals = lua.globals();
    let names: Vec<String> = globals
        .pairs::<String, Value>()
        .filter_map(|pair| pair.ok().map(|(name, _)| name))
        .collect();
    for name in names.iter().filter(|name| !ALLOWED.contains(&name.as_str()) && *name != IN_ORDER) {
        globals.raw_set(name.as_str(), Value::Nil)?;
    }
    let metatable = lua.create_table()?;
    metatable.raw_set(
        "__index",
        lua.create_function(move |_, (_, name): (Value, Value)| -> mlua::Result<Value> {
            let name = name.to_string()?;
            Err(Fault::bad_input(format!("nothing is called `{name}` in {}", kind.noun()))
                .with_hint(kind.hint())
                .into())
        })?,
    )?;
    globals.set_metatable(Some(metatable))
}
