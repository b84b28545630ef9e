//! From the machine to the text: the place of a Rust function's call, and the fault that an error of Lua's
//! own means.

use super::amount_slips;
use super::calls::{FieldPart, PathStep, locate};
use super::host::Host;
use super::slips;
use super::source::Source;
use super::taken_names;
use super::tokens::TokenKind;
use crate::exit::Exit;
use crate::fault::{Fault, Place};
use mlua::{Error, Lua};
use std::rc::Rc;

impl From<Fault> for Error {
    fn from(fault: Fault) -> Self {
        Self::external(fault)
    }
}

/// A place for a fault that has none yet.
pub trait Placed {
    /// The same fault at a place; the one it already has is kept.
    #[must_use]
    fn placed(self, place: Option<Place>) -> Self;
}

impl Placed for Fault {
    fn placed(mut self, place: Option<Place>) -> Self {
        self.place = self.place.or(place);
        self
    }
}

/// Frames searched upwards for one with a line: callbacks and library functions have none.
const FRAMES: usize = 16;

/// Where a Rust function was called from.
#[derive(Debug, Clone)]
pub struct CallSite {
    source: Rc<Source>,
    line: usize,
}

impl CallSite {
    /// The innermost line of a scenario that is being run, if any.
    pub fn find(lua: &Lua) -> Option<Self> {
        (0..FRAMES).find_map(|level| {
            let frame = lua.inspect_stack(level, |frame| {
                let chunk = frame.source().source.map(std::borrow::Cow::into_owned);
                chunk.zip(frame.current_line())
            })?;
            let (chunk, line) = frame?;
            Some(Self { source: Host::source_of(lua, &chunk)?, line })
        })
    }

    /// The place of a field or argument in the call of `name`, as near as the text shows it.
    pub fn place(&self, name: Option<&str>, path: &[PathStep<'_>], mark: FieldPart) -> Place {
        let at = locate(&self.source, self.line, name, path, mark);
        self.source.place(at.start, at.end)
    }

    /// The place of an argument, counted from 1, in the call of `name`.
    pub fn place_of_argument(&self, name: &str, number: usize) -> Place {
        self.place(Some(name), &[PathStep::Argument(number)], FieldPart::Value)
    }

    /// The place of the line that is being run.
    pub fn place_of_line(&self) -> Place {
        self.source.place_of_line(self.line)
    }

    /// The scenario's text.
    pub fn source(&self) -> &Source {
        &self.source
    }

    /// The place of a name on the line that is being run, or of the whole line.
    pub fn place_of_name(&self, name: &str) -> Place {
        narrowed(&self.source, self.line, &format!("'{name}'"))
    }
}

/// The place of the running call of `name`, or of the line that is being run.
pub fn call(lua: &Lua, name: Option<&str>) -> Option<Place> {
    CallSite::find(lua).map(|site| site.place(name, &[], FieldPart::Key))
}

/// The place of the line that is being run: for operators, which have no call.
pub fn call_line(lua: &Lua) -> Option<Place> {
    CallSite::find(lua).map(|site| site.place_of_line())
}

/// Remembers the line that is being run: it may be to blame for an error which does not tell its own.
pub fn suspect(lua: &Lua) {
    if let Some(host) = Host::of(lua) {
        *host.0.suspected.borrow_mut() = call_line(lua);
    }
}

/// Keeps something that the person who wrote the scenario should know, with its line.
pub fn remark(lua: &Lua, words: &str) {
    let Some(host) = Host::of(lua) else { return };
    let line = call_line(lua).map(|place| place.line_column().0);
    host.keep_remark(line.map_or_else(|| words.to_owned(), |line| format!("line {line}: {words}")));
}

/// The place of an argument, counted from 1, in the running call of `name`.
pub fn argument(lua: &Lua, name: &str, number: usize) -> Option<Place> {
    CallSite::find(lua).map(|site| site.place_of_argument(name, number))
}

/// As [`fault_from`], while the scenario runs.
pub fn fault(lua: &Lua, error: &Error) -> Fault {
    fault_from(error, &|chunk| Host::source_of(lua, chunk))
}

/// Turns an error of the machine into a fault with its place. `sources` finds a text by the name
/// its chunk was given.
pub fn fault_from(error: &Error, sources: &dyn Fn(&str) -> Option<Rc<Source>>) -> Fault {
    match error {
        Error::ExternalError(inner) => match inner.downcast_ref::<Fault>() {
            Some(fault) => fault.clone(),
            None => from_text(&inner.to_string(), sources),
        },
        Error::CallbackError { cause, traceback } => {
            let fault = fault_from(cause, sources);
            let place = fault.place.is_none().then(|| place_in_traceback(traceback, sources));
            fault.placed(place.flatten())
        }
        Error::WithContext { cause, .. } => fault_from(cause, sources),
        Error::BadArgument { to, name: Some(name), .. } if name == "self" => {
            let method = to.as_deref().and_then(|to| to.rsplit('.').next()).unwrap_or("it");
            Fault::bad_input(format!("`{method}` is called with a colon before it"))
                .with_hint(format!("write a colon, as in name:{method}, not name.{method}"))
        }
        Error::BadArgument { cause, pos, .. } => {
            let fault = fault_from(cause, sources);
            Fault { message: format!("argument {pos}: {}", fault.message), ..fault }
        }
        Error::MemoryError(_) => {
            Fault::new(Exit::OverBudget, "the script needs more memory than it may use")
                .with_hint("look for a table or string that keeps growing")
        }
        Error::SyntaxError { message, .. } => {
            let told = split_prefix(message, sources).and_then(|(source, line, message)| {
                amount_slips::told(&source, line).or_else(|| slips::told(&source, line, message))
            });
            if let Some(fault) = told {
                return fault;
            }
            let fault = from_text(message, sources);
            let known = unquoted_name(&fault).or_else(|| comma_too_many(&fault));
            match known.or_else(|| grammar_hint(&fault.message).map(str::to_owned)) {
                Some(hint) => fault.with_hint(hint),
                None => fault,
            }
        }
        Error::RuntimeError(message) => from_text(message, sources),
        other => Fault::bad_input(other.to_string()),
    }
}

/// A hint on a word that takes a name, such as `equipment`, with the name behind it not in quotes.
fn unquoted_name(fault: &Fault) -> Option<String> {
    const TAKE_NAMES: [&str; 2] = ["equipment", "player"];
    let place =
        fault.place.as_ref().filter(|_| fault.message.starts_with("Incomplete statement"))?;
    let line = place.source().lines().nth(place.line_column().0 - 1)?;
    let code = line.split("--").next().unwrap_or_default();
    TAKE_NAMES.iter().find_map(|word| {
        let (before, name) = code.split_once(&format!("{word} "))?;
        let apart = before.is_empty() || before.ends_with([' ', '=', '(']);
        let name = name.trim();
        let plain = |letter: char| letter.is_alphanumeric() || "-_./".contains(letter);
        (apart && !name.is_empty() && name.chars().all(plain))
            .then(|| format!("text goes in quotes: {word} \"{name}\""))
    })
}

/// A hint on two commas with nothing between them.
fn comma_too_many(fault: &Fault) -> Option<String> {
    let place = fault.place.as_ref().filter(|_| fault.message.ends_with("got ','"))?;
    let line = place.source().lines().nth(place.line_column().0 - 1)?;
    let code: String = line.split("--").next()?.split_whitespace().collect();
    let hint = "a comma too many: one stands between two values";
    code.contains(",,").then(|| hint.to_owned())
}

/// The thing that a beginner most likely forgot, for a complaint about the grammar.
fn grammar_hint(message: &str) -> Option<&'static str> {
    if message.starts_with("Expected '(', '{' or <string>") {
        Some("text goes in quotes, as in :goes \"long\"")
    } else if message.starts_with("Expected '") {
        Some("a comma or a closing bracket is missing, perhaps on the line above")
    } else if message.starts_with("Expected function call arguments") {
        Some(
            "what you ask for stands behind it in braces, such as map:draw { x = \"speed\", y = \"contact\" }",
        )
    } else if message.starts_with("Expected identifier when parsing expression, got '") {
        Some("something above is not finished: look for a { or ( left open, or a missing value")
    } else if message.starts_with("Expected identifier when parsing method name") {
        Some("a value is given with =, as in speed = mps(3)")
    } else if message.starts_with("Expected identifier when parsing variable name") {
        Some("a name belongs here, as in local banks = grid { … }")
    } else if message.starts_with("Incomplete statement") {
        Some("text goes in quotes, and what you give to a word goes in brackets or braces")
    } else {
        None
    }
}

/// For an error raised with an empty text.
const WORDLESS: &str = "an error without a message";

/// Lua's text for an error that is no text: a kind and an address, which differs from run to run.
fn without_address(text: &str) -> String {
    for kind in ["table", "function", "thread", "userdata", "buffer"] {
        if text.strip_prefix(kind).is_some_and(|rest| rest.starts_with(": 0x")) {
            return format!("an error was raised that is a {kind}, not a message");
        }
    }
    match text {
        "" => WORDLESS.to_owned(),
        "nil" => "an error was raised that is nil, not a message".to_owned(),
        other => other.to_owned(),
    }
}

/// Lua puts `file:line: ` before its messages.
fn from_text(text: &str, sources: &dyn Fn(&str) -> Option<Rc<Source>>) -> Fault {
    let text = text.split("\nstack traceback:").next().unwrap_or(text);
    let Some((source, line, message)) = split_prefix(text, sources) else {
        return Fault::bad_input(without_address(text));
    };
    if message.contains("not enough memory") {
        return fault_from(&Error::MemoryError(String::new()), sources)
            .placed(Some(source.place_of_line(line)));
    }
    if message.starts_with("attempt to call a")
        && let Some(fault) = taken_names::told(&source, line)
    {
        return fault;
    }
    Fault::bad_input(if message.is_empty() { WORDLESS } else { message })
        .placed(Some(narrowed(&source, line, message)))
}

/// The text, the line and the rest of `name:line: rest`.
fn split_prefix<'a>(
    text: &'a str,
    sources: &dyn Fn(&str) -> Option<Rc<Source>>,
) -> Option<(Rc<Source>, usize, &'a str)> {
    // The name itself may hold colons.
    text.match_indices(':').find_map(|(colon, _)| {
        let source = sources(&text[..colon])?;
        let rest = &text[colon + 1..];
        let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
        let line = rest[..digits].parse().ok()?;
        let message = rest[digits..].strip_prefix(':').unwrap_or(&rest[digits..]);
        Some((source, line, message.trim_start()))
    })
}

/// The first name on the line that the message quotes, or the whole line.
fn narrowed(source: &Source, line: usize, message: &str) -> Place {
    let (start, end) = source.line_range(line);
    let quoted = message.split('\'').skip(1).step_by(2).find_map(|name| {
        source.tokens().iter().find(|token| {
            token.kind == TokenKind::Name
                && token.start >= start
                && token.end <= end
                && token.text(source.text()) == name
        })
    });
    match quoted {
        Some(token) => source.place(token.start, token.end),
        None => source.place_of_line(line),
    }
}

fn place_in_traceback(
    traceback: &str,
    sources: &dyn Fn(&str) -> Option<Rc<Source>>,
) -> Option<Place> {
    traceback.lines().find_map(|line| {
        let (source, line, _) = split_prefix(line.trim(), sources)?;
        Some(source.place_of_line(line))
    })
}
