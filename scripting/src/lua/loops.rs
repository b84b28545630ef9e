//! Sends `for … in` loops through what checks the order of their tables.
//!
//! Luau goes through a table without asking any function (`for key, value in list do`), so the
//! text is given a call around what a loop goes through, on the same line.

use crate::lua::addresses::IN_ORDER;
use crate::lua::source::Source;
use crate::lua::tokens::TokenKind;

/// The text of a rule function with every loop's list in a call.
///
/// # Errors
/// In words, for a loop that can't be told apart.
pub fn in_order(text: &str) -> Result<String, String> {
    wrapped(text, true)
}

/// The text of a scenario, with the same around the list of every loop that can be told apart.
pub fn in_order_where_clear(text: &str) -> String {
    wrapped(text, false).unwrap_or_else(|_| text.to_owned())
}

fn wrapped(text: &str, every: bool) -> Result<String, String> {
    let source = Source::new("function", text);
    let all = source.tokens();
    let text = source.text();
    let is = |at: usize, symbol: &str| all[at].is(text, symbol);
    let mut places: Vec<(usize, String)> = Vec::new();
    for at in 0..all.len() {
        let word = all[at].text(text);
        if word == IN_ORDER {
            return Err(format!("`{IN_ORDER}` can't be a name in a rule function"));
        }
        if every
            && all[at].kind == TokenKind::Text
            && word.starts_with('`')
            && holds_word(word, "for")
        {
            return Err("a rule function can't have a loop inside text between backticks".into());
        }
        // As a field's name (`t.for` is none) the word can't stand: it is Lua's own.
        if all[at].kind != TokenKind::Name || word != "for" {
            continue;
        }
        let Some(given) = (at + 1..all.len()).find(|at| is(*at, "in") || is(*at, "=")) else {
            continue;
        };
        if is(given, "=") {
            continue;
        }
        let end = match list_end(&source, given + 1) {
            Err(why) if every => return Err(why),
            Err(_) => continue,
            Ok(end) => end,
        };
        places.push((all[given].end, format!(" {IN_ORDER}(")));
        places.push((all[end].start, ") ".to_owned()));
    }
    places.sort_by_key(|(place, _)| *place);
    let mut out = String::with_capacity(text.len() + 32 * places.len());
    let mut from = 0;
    for (place, words) in places {
        out.push_str(&text[from..place]);
        out.push_str(&words);
        from = place;
    }
    out.push_str(&text[from..]);
    Ok(out)
}

/// The `do` that ends what a loop goes through.
fn list_end(source: &Source, from: usize) -> Result<usize, String> {
    let all = source.tokens();
    let text = source.text();
    let mut depth = 0_usize;
    for (at, token) in all.iter().enumerate().skip(from) {
        if token.opens(text) {
            depth += 1;
        } else if token.closes(text) {
            depth = depth.saturating_sub(1);
        } else if depth == 0 && token.is(text, "function") {
            return Err("give a loop's function a name of its own before the loop".into());
        } else if depth == 0 && token.is(text, "do") {
            return Ok(at);
        }
    }
    Err("a loop without its `do`".into())
}

fn holds_word(text: &str, wanted: &str) -> bool {
    text.split(|letter: char| !letter.is_alphanumeric() && letter != '_').any(|word| word == wanted)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loops_over_lists_are_wrapped_on_their_lines() {
        let wrapped = |text: &str| in_order(text).unwrap();
        assert_eq!(
            wrapped("for k, v in t do\n f(k) end for i = 1, 3 do end"),
            "for k, v in __in_order( t ) do\n f(k) end for i = 1, 3 do end"
        );
        assert_eq!(
            wrapped("for k in next, (function() for _ in u do end end)() do end"),
            "for k in __in_order( next, (function() for _ in __in_order( u ) do end end)() ) do end"
        );
        assert_eq!(wrapped("local x = 'for k in t do'"), "local x = 'for k in t do'");
        assert!(in_order("for k in function() end do end").is_err());
        assert!(in_order("return `{(function() for k in t do return k end end)()}`").is_err());
        assert!(in_order("local __in_order = 1").is_err());
        let odd = "for k in function() end do end for k in t do end";
        assert_eq!(
            in_order_where_clear(odd),
            "for k in function() end do end for k in __in_order( t ) do end"
        );
        assert_eq!(in_order_where_clear("local __in_order = 1"), "local __in_order = 1");
    }
}
