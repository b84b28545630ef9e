//! Cuts a function's own text out of a scenario.

use crate::fault::Fault;
use crate::lua::place::Placed;
use crate::lua::source::Source;
use crate::lua::tokens::{KEYWORDS, TokenKind};
use mlua::chunk::Compiler;
use std::ops::Range;

/// The longest function text in bytes: finding its end compiles it again at every `end`.
pub const LONGEST: usize = 16 << 10;

/// A function cut out.
#[derive(Debug)]
pub struct FunctionText {
    /// Its bytes in the scenario, from `function` to `end`.
    pub bytes: Range<usize>,
    /// One past the closing bracket of its parameters.
    pub head_end: usize,
    /// The name it was defined by, when that is a plain one.
    pub name: Option<String>,
    /// A chunk that gives the function.
    pub chunk: String,
}

/// The function whose `function` keyword stands on a line, told from others there by the number of
/// its parameters and its name.
///
/// # Errors
/// When several fit or the text is too long.
pub fn function_at(
    source: &Source,
    line: usize,
    parameters: usize,
    name: Option<&str>,
) -> Result<FunctionText, Fault> {
    let all = source.tokens();
    let mut heads: Vec<FunctionHead> = (0..all.len())
        .filter(|at| all[*at].is(source.text(), "function"))
        .filter(|at| source.line_of(all[*at].start) == line)
        .filter_map(|at| head(source, at))
        .filter(|head| head.parameters == parameters)
        .collect();
    if heads.len() > 1 && heads.iter().any(|head| head.name.as_deref() == name) {
        heads.retain(|head| head.name.as_deref() == name);
    }
    match heads.as_slice() {
        [only] => cut(source, only),
        [] => Err(Fault::bad_input("the function's text was not found")
            .placed(Some(source.place_of_line(line)))),
        [..] => {
            Err(Fault::bad_input("several functions with as many parameters begin on this line")
                .with_hint("put each rule function on a line of its own")
                .placed(Some(source.place_of_line(line))))
        }
    }
}

/// The function of a text that [`FunctionText::chunk`] is.
///
/// # Errors
/// When the text holds anything else.
pub fn only_function(source: &Source) -> Result<FunctionText, Fault> {
    let place = || Some(source.place_of_line(1));
    let other = || {
        Fault::bad_input("a rule function's text is one function and nothing beside it")
            .placed(place())
    };
    let head = head(source, 1).ok_or_else(other)?;
    let found = cut(source, &head)?;
    let whole = Source::new(source.name().clone(), found.chunk.as_str());
    let words = |source: &Source| -> Vec<String> {
        source.tokens().iter().map(|token| token.text(source.text()).to_owned()).collect()
    };
    if words(&whole) == words(source) { Ok(found) } else { Err(other()) }
}

struct FunctionHead {
    keyword: usize,
    /// Tokens of the parameters' opening and closing brackets.
    open: usize,
    close: usize,
    name: Option<String>,
    parameters: usize,
}

fn head(source: &Source, keyword: usize) -> Option<FunctionHead> {
    let all = source.tokens();
    let text = source.text();
    let open = (keyword + 1..all.len()).find(|at| all[*at].is(text, "("))?;
    let close = (open + 1..all.len()).find(|at| all[*at].is(text, ")"))?;
    let parameters = (open + 1..close)
        .filter(|at| all[*at].kind == TokenKind::Name && !all[*at - 1].is(text, ":"))
        .count();
    let name = (open == keyword + 2).then(|| all[keyword + 1].text(text).to_owned());
    Some(FunctionHead { keyword, open, close, name, parameters })
}

fn cut(source: &Source, head: &FunctionHead) -> Result<FunctionText, Fault> {
    let all = source.tokens();
    let text = source.text();
    let start = all[head.keyword].start;
    let head_end = all[head.close].end;
    let place = || Some(source.place(start, head_end));
    for token in all.iter().skip(head.close).filter(|token| token.is(text, "end")) {
        if token.end - start > LONGEST {
            break;
        }
        let body = &text[all[head.open].start..token.end];
        let chunk = match &head.name {
            // Under its own name, so that it may call itself.
            Some(name) if !KEYWORDS.contains(&name.as_str()) => {
                format!("local function {name}{body} return {name}")
            }
            _ => format!("return function{body}"),
        };
        // Cut short, a function is not a whole one; so the first `end` that makes it whole is its
        // own.
        if Compiler::new().compile(&chunk).is_ok() {
            return Ok(FunctionText {
                bytes: start..token.end,
                head_end,
                name: head.name.clone(),
                chunk,
            });
        }
    }
    Err(Fault::bad_input(format!("a rule function may be at most {LONGEST} bytes long"))
        .placed(place()))
}
