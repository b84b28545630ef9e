//! Names without a value, played with something else and told so, since a picture helps more than none: the
//! name's other half, or the value that a line gave it which is gone. Only lines that are run are told.

use super::call_mends::{CallSlip, call_slips, gives_value, near_function};
use super::missing_value::{Missing, UsualTable};
use super::own_names::{LONGEST, OwnName, own_names, reads};
use super::source::Source;
use super::stray_names::{KnownName, meant};
use super::taken_names::{is_value, rename, taken};
use super::tokens::{KEYWORDS, TokenKind};
use super::worker::declared;
use crate::fault::Fault;
use std::collections::BTreeSet;

/// The function that notes a mend when its line is run, and gives the value in the name's place. It takes the
/// mend's number, and the value, or nothing and a function that makes it, or two times nothing and the name of
/// something of the program's own, or the number alone where nothing can stand in.
pub const STAND_IN: &str = "__stand_in";

/// The mends of a text, each as a fault, in the order of their numbers.
#[derive(Debug)]
pub struct Mends(pub Vec<Fault>);

/// Something in the place of a name.
enum Mend<'a> {
    Meant(OwnName<'a>),
    Missing(Missing),
    /// A name of the program's own, which the text gives to a value.
    Taken(OwnName<'a>),
    /// A call that is clear all the same.
    Call(CallSlip<'a>),
}

/// The text with something in the place of every name without a value, as far as that is clear; lines stay
/// where they are.
pub fn mended(source: &Source, known: &[KnownName], table: &UsualTable) -> (String, Mends) {
    let reads = reads(source);
    let own = own_names(source);
    let strays = strays(source, &own, known, table);
    let all_reads = |at: usize| {
        let name = source.tokens()[at].text(source.text());
        reads.get(name).cloned().unwrap_or_default()
    };
    let mut mends: Vec<(Mend<'_>, Vec<usize>)> =
        strays.into_iter().map(|(at, mend)| (mend, all_reads(at))).collect();
    let taken = taken(source, &own, known, &declared(source.text(), source.tokens())).into_iter();
    mends.extend(taken.map(|it| (Mend::Taken(it.own), it.calls)));
    let slips = call_slips(source, &own, known).into_iter();
    mends.extend(slips.map(|(at, slip)| (Mend::Call(slip), vec![at])));
    let mut places: Vec<(usize, String)> = Vec::new();
    for (number, (mend, at)) in mends.iter().enumerate() {
        let value = match mend {
            Mend::Meant(own) => format!("{STAND_IN}({number}, {})", own.name),
            Mend::Missing(Missing { value: Some(value), .. }) => {
                format!("{STAND_IN}({number}, nil, function() return {value} end)")
            }
            Mend::Missing(_) => format!("{STAND_IN}({number})"),
            Mend::Taken(own) => format!("{STAND_IN}({number}, nil, nil, {:?})", own.name),
            Mend::Call(slip) => {
                let name = at.first().map_or("", |at| source.tokens()[*at].text(source.text()));
                format!("{STAND_IN}({number}, {})", slip.value(name))
            }
        };
        if let (Mend::Call(CallSlip::Dotted(_)), [at]) = (mend, at.as_slice()) {
            places.push((at + 1, ":".to_owned()));
        }
        if let (Mend::Call(CallSlip::Given(_)), [at]) = (mend, at.as_slice()) {
            places.push((at - 1, " =".to_owned()));
        }
        places.extend(at.iter().map(|at| (*at, value.clone())));
    }
    places.sort_unstable();
    let mut text = String::new();
    let mut copied = 0;
    for (at, value) in places {
        let token = source.tokens()[at];
        text.push_str(&source.text()[copied..token.start]);
        text.push_str(&value);
        copied = token.end;
    }
    text.push_str(&source.text()[copied..]);
    let told = |(mend, at): &(Mend<'_>, Vec<usize>)| Some(told(source, *at.first()?, mend));
    (text, Mends(mends.iter().filter_map(told).collect()))
}

fn told(source: &Source, at: usize, mend: &Mend<'_>) -> Fault {
    let token = source.tokens()[at];
    let name = token.text(source.text());
    let line = source.line_of(token.start);
    let mut fault = match mend {
        Mend::Meant(meant) => Fault::bad_input(format!(
            "nothing is called `{name}`; `{}` of line {} stands in, so that the rest can be played",
            meant.name, meant.line
        ))
        .with_hint(format!(
            "write `{}` on line {line}, or `{name}` on line {}",
            meant.name, meant.line
        )),
        Mend::Missing(missing) => Fault::bad_input(match &missing.stands_in {
            Some(stands_in) => format!("nothing is called `{name}`; {stands_in} stands in"),
            None => format!("nothing is called `{name}`"),
        })
        .with_hint(missing.hint.clone()),
        Mend::Taken(own) => {
            Fault::bad_input(format!("{}; railproof's own stands in here", is_value(own)))
                .with_hint(rename(own))
        }
        Mend::Call(slip) => {
            let (message, hint) = slip.told(name);
            Fault::bad_input(message).with_hint(hint)
        }
    };
    fault.place = Some(source.place(token.start, token.end));
    fault
}

/// The first read of each name without a value, with what stands in.
fn strays<'a>(
    source: &'a Source,
    own: &[OwnName<'a>],
    known: &'a [KnownName],
    table: &UsualTable,
) -> Vec<(usize, Mend<'a>)> {
    let reads = reads(source);
    let text = source.text();
    let all = source.tokens();
    if all.len() > LONGEST {
        return Vec::new();
    }
    let mut seen: BTreeSet<&str> = declared(text, all).into_iter().collect();
    seen.extend(own.iter().map(|own| own.name));
    seen.extend(assigned(source));
    let mut found = Vec::new();
    for (at, token) in all.iter().enumerate() {
        let name = token.text(text);
        let new =
            token.kind == TokenKind::Name && !KEYWORDS.contains(&name) && !seen.contains(name);
        let is_first = reads.get(name).and_then(|read| read.first()) == Some(&at);
        if !new || !is_first || gives_value(source, own, known, at) {
            continue;
        }
        seen.insert(name);
        let of_program = known.iter().any(|known| known.name == name);
        let mend = meant(source, own, known, at).map(Mend::Meant).or_else(|| {
            // Of a scenario without names of its own nothing is known to be missing.
            let missing = || {
                let found = (!own.is_empty()).then(|| Missing::of(source, own, token.end, table));
                found.flatten().map(Mend::Missing)
            };
            let near = || near_function(source, known, at).map(Mend::Call);
            (!of_program).then(|| near().or_else(missing)).flatten()
        });
        found.extend(mend.map(|mend| (at, mend)));
    }
    found
}

/// Names that are given a value anywhere, as far as the text alone shows it.
fn assigned(source: &Source) -> Vec<&str> {
    let text = source.text();
    let all = source.tokens();
    let mut depth = 0_usize;
    let mut found = Vec::new();
    for (at, token) in all.iter().enumerate() {
        if token.opens(text) {
            depth += 1;
        } else if token.closes(text) {
            depth = depth.saturating_sub(1);
        }
        let next = all.get(at + 1).is_some_and(|next| next.is(text, "=") || next.is(text, ","));
        if depth == 0 && token.kind == TokenKind::Name && next {
            found.push(token.text(text));
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(text: &str) -> (String, Vec<String>) {
        let known = ["grid", "compare", "bank", "print", "inches", "equipment", "expect", "rule"];
        let known = known.map(|name| KnownName { name: name.to_owned(), function: true });
        let (text, Mends(faults)) =
            mended(&Source::new("a.lua", text), &known, &UsualTable("my-table.yaml".into()));
        (text, faults.into_iter().map(|fault| fault.message).collect())
    }

    #[test]
    fn a_colon_before_a_value_is_read_as_the_sign_for_it() {
        let (text, told) = of("local b = grid { contact: bank(1), expect: inches(3) }");
        assert_eq!(
            text,
            "local b = grid { contact = __stand_in(0, bank)(1), expect = __stand_in(1, inches)(3) }"
        );
        assert_eq!(told[0], "`contact` is given its value by a colon; it is read as =");
        // A method of one of the text's own names is what it says.
        let (text, told) = of("local b = bank(1)\nlocal c = { b:expect(1) }");
        assert!(text.contains("{ b:expect(1) }") && told.is_empty(), "{text} {told:?}");
    }

    #[test]
    fn a_name_changed_in_one_place_is_taken_for_the_other() {
        let (text, told) =
            of("local club = equipment 'a'\nlocal b = grid { equipment = hall, hall.x }\n");
        assert!(
            text.contains("{ equipment = __stand_in(0, club), __stand_in(0, club).x }"),
            "{text}"
        );
        assert_eq!(
            told,
            [
                "nothing is called `hall`; `club` of line 1 stands in, so that the rest can be played"
            ]
        );
        let (text, told) =
            of("local hall = equipment 'a'\nlocal r = rule.linear {}\nlocal other = \
                               equipment 'b'\nlocal map = compare(banks, ratio)\nchart:draw {}\n\
                               expect(map)\nexpect(part:where {})\n");
        assert_eq!(
            told,
            [
                "nothing is called `banks`; a small grid stands in",
                "nothing is called `ratio`; `r` of line 2 stands in, so that the rest can be played",
                "nothing is called `chart`; `map` of line 4 stands in, so that the rest can be played",
                "nothing is called `part`",
            ],
            "{text}"
        );
        let (text, _) = of("local banks = 1\nlocal other = 2\nprint(banks, other, other, bnks)\n");
        assert!(text.ends_with("print(banks, other, other, __stand_in(0, banks))\n"), "{text}");
        let (text, _) = of("local banks = grid {}\ncompare(bank, 1)\n");
        assert!(text.ends_with("compare(__stand_in(0, banks), 1)\n"), "{text}");
    }

    #[test]
    fn a_name_of_the_programs_that_means_a_value_is_called_as_the_programs() {
        let (text, told) = of("local rule = rule.linear {\n  1 }\nlocal b = rule.linear {}\n\
                               local c = rule.start\nlocal expect = expect\nexpect(b)\n");
        assert!(text.starts_with("local rule = rule.linear {\n  1 }\nlocal b = __stand_in(0, nil, nil, \"rule\").linear {}\n"), "{text}");
        assert!(
            text.ends_with("local c = rule.start\nlocal expect = expect\nexpect(b)\n"),
            "{text}"
        );
        assert_eq!(
            told,
            ["`rule` has been the name of a value since line 1; railproof's own stands in here"]
        );
    }

    #[test]
    fn a_line_removed_is_put_back_as_far_as_it_is_clear() {
        let (text, told) =
            of("local b = grid { equipment = hall }\nlocal r = rule.linear {}\nmap:draw {}\n");
        assert!(
            text.contains("__stand_in(0, nil, function() return equipment \"my-table.yaml\" end)"),
            "{text}"
        );
        assert!(
            text.contains("__stand_in(1, nil, function() return compare(b, r) end):draw {}"),
            "{text}"
        );
        assert_eq!(told[0], "nothing is called `hall`; the table my-table.yaml stands in");
        let (text, told) = of("local map = compare(1, 2)\nprint(map)\nexpect(frozen)\n");
        assert!(text.ends_with("expect(__stand_in(0))\n"), "{text}");
        assert_eq!(told, ["nothing is called `frozen`"]);
    }

    #[test]
    fn a_call_with_a_slip_in_it_is_read_as_it_is_meant() {
        let (text, told) = of("local map = compare(1)\nmap.draw { x = inces(3) }\n");
        assert!(
            text.ends_with("\n__stand_in(1, map):draw { x = __stand_in(0, inches)(3) }\n"),
            "{text}"
        );
        assert_eq!(
            told,
            [
                "nothing is called `inces`; `inches` stands in",
                "`draw` is called with a colon before it; it is read so"
            ]
        );
        let (text, _) = of("print(inces(3))\n");
        assert_eq!(text, "print(__stand_in(0, inches)(3))\n", "without a name of its own");
        let (text, told) = of("local a = 1\nprint(span(1, 3), span(1, f(2, 4), 3))\n");
        assert!(text.contains("print(__stand_in(0, function(a, b) return span(a, b, (b - a) / 8) end)(1, 3), span(1, f(2, 4), 3))"), "{text}");
        assert_eq!(told, ["the span's step is missing; an eighth of the way stands in"]);
        // Members of tables of one's own, and a span of one's own.
        for text in [
            "local my = { draw = 1 }\nprint(my.draw)\n",
            "local function span(a, b) return a end\nprint(span(1, 2))\n",
        ] {
            assert_eq!(of(text), (text.to_owned(), vec![]));
        }
    }

    #[test]
    fn a_text_in_which_every_name_is_known_stays() {
        for text in [
            "local a, b = 1, 2\nfor i, c in a do print(i, b.x, c:y(), { z = 1 }) end\n",
            "x = 1\ny, z = x, 2\nprint(y, z)\nlocal unread = 3\n",
            "local unread = 1\nlocal function f(n: number) return n end\nprint(bank { pocket = f(2) })\n",
        ] {
            assert_eq!(of(text), (text.to_owned(), vec![]));
        }
    }

    #[test]
    fn a_name_that_is_unlike_all_others_stays_unknown() {
        for text in [
            "local one = 1\nlocal two = 2\nprint(hall)\n",
            "local x = 1\nprint(pointt)\n",
            "local point = 1\nif pointt then print(point) end\n",
            "local banks = grid {}\nmap:draw {}\n",
            // Nothing reads a name before its line.
            "print(hall)\nlocal club = 1\n",
        ] {
            assert_eq!(of(text), (text.to_owned(), vec![]));
        }
    }
}
