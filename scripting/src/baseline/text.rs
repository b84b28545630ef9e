//! The text of a baseline file: a few lines about itself, then one line a bank.

use super::entries::{BaselineRows, Entry};
use super::rules::StoredRule;
use super::table_lines;
use crate::fault::Fault;
use crate::renamed;
use crate::yaml::InputText;
use railproof_engine::bank::BankVerdict;
use railproof_engine::sweep::Input;
use std::collections::BTreeSet;
use std::fmt::Write;

/// The first line; the number grows when the layout changes.
const FIRST_LINE: &str = "# railproof baseline, format 2";
/// The first line of files of before, which hold no numbers of tables and rules.
const FIRST_LINE_BEFORE: &str = "# railproof baseline, format 1";
const FAMILY: &str = "# railproof baseline, format ";
const UNITS: &str = "SI as named in the columns; miss in mm, positive long";
/// In place of a rule's name or a miss that there is none of.
const NONE: &str = "-";
const LAST_COLUMNS: [&str; 3] = ["rule", "verdict", "miss_mm"];

/// The file's text.
pub(super) fn write(entries: &BaselineRows) -> String {
    let mut out =
        format!("{FIRST_LINE}\n# question_sha256: {}\n# units: {UNITS}\n", entries.question_sha256);
    if let Some(engine) = &entries.engine {
        let _ = writeln!(out, "# engine: {engine}");
    }
    table_lines::write(entries, &mut out);
    for (name, value) in &entries.constants {
        let _ = writeln!(out, "# {name}: {value}");
    }
    for column in &entries.columns {
        let _ = write!(out, "{column}\t");
    }
    let _ = writeln!(out, "{}", LAST_COLUMNS.join("\t"));
    for entry in &entries.rows {
        for value in &entry.inputs {
            let _ = write!(out, "{value}\t");
        }
        let rule = if entry.rule.is_empty() { NONE } else { &entry.rule };
        let _ = writeln!(out, "{rule}\t{}\t{}", entry.verdict.name(), miss_text(entry.miss_mm));
    }
    out
}

/// A miss with three decimals, or `-`.
pub(super) fn miss_text(miss_mm: Option<f64>) -> String {
    /// Decimals say nothing of a number that large, which only a file of others holds.
    const LARGE: f64 = 1e12;
    let text = match miss_mm {
        None => NONE.to_owned(),
        Some(miss) if miss.abs() >= LARGE => format!("{miss:e}"),
        Some(miss) => format!("{miss:.3}"),
    };
    if text == "-0.000" { "0.000".to_owned() } else { text }
}

/// Reads a file's text back.
pub(super) fn read(source: &InputText) -> Result<BaselineRows, Fault> {
    let mut lines = Lines { source, offset: 0 };
    let holds_numbers = match lines.next() {
        Some(TextPiece { text: FIRST_LINE, .. }) => true,
        Some(TextPiece { text: FIRST_LINE_BEFORE, .. }) => false,
        first => return Err(not_a_baseline(source, first)),
    };
    let mut entries = BaselineRows::default();
    for line in lines.by_ref() {
        let Some(note) = line.text.strip_prefix('#') else {
            entries.columns = columns(source, &line)?;
            break;
        };
        let Some((name, value)) = note.split_once(':') else {
            return Err(fault(source, &line, "this line is not `# name: value`"));
        };
        match (name.trim(), value.trim()) {
            // Files of before said `plan_sha256`, which is another digest in a plan's own file.
            ("question_sha256" | "plan_sha256", value) => {
                value.clone_into(&mut entries.question_sha256);
            }
            ("units", _) => {}
            ("engine", value) if holds_numbers => entries.engine = Some(value.to_owned()),
            (name, value) => {
                if holds_numbers
                    && table_lines::take(&mut entries, name, value).map_err(|(message, hint)| {
                        let fault = fault(source, &line, &message);
                        match hint {
                            Some(hint) => fault.with_hint(hint),
                            None => fault,
                        }
                    })?
                {
                    continue;
                }
                check_input(source, &line, name)?;
                entries.constants.push((name.to_owned(), value.to_owned()));
            }
        }
    }
    for line in lines.filter(|line| !line.text.trim().is_empty()) {
        entries.rows.push(entry(source, &line, entries.columns.len())?);
    }
    if entries.rows.is_empty() {
        return Err(Fault::bad_input("this baseline holds no banks").at(source.beginning()));
    }
    if !holds_numbers {
        let mut seen = BTreeSet::new();
        let names = entries.rows.iter().map(|row| &row.rule).filter(|name| !name.is_empty());
        let names: Vec<String> = names.filter(|name| seen.insert(*name)).cloned().collect();
        entries.rules = names.into_iter().map(StoredRule::named).collect();
    }
    Ok(entries)
}

fn not_a_baseline(source: &InputText, first: Option<TextPiece<'_>>) -> Fault {
    let place = source.place(0..source.text.lines().next().map_or(0, str::len));
    match first.and_then(|line| line.text.strip_prefix(FAMILY)) {
        Some(format) => Fault::bad_input(format!(
            "this baseline has format {}; this version reads formats 1 and 2",
            format.trim()
        ))
        .at(place),
        None => Fault::bad_input("this is not a baseline")
            .at(place)
            .with_hint(format!("a baseline begins with `{FIRST_LINE}`")),
    }
}

fn columns(source: &InputText, line: &TextPiece<'_>) -> Result<Vec<String>, Fault> {
    let names: Vec<TextPiece<'_>> = line.fields().collect();
    let Some((inputs, last)) = names.split_last_chunk::<3>() else {
        return Err(fault(source, line, "there are too few columns")
            .with_hint(format!("the last are {}", LAST_COLUMNS.join(", "))));
    };
    for (found, expected) in last.iter().zip(LAST_COLUMNS) {
        if found.text != expected {
            return Err(fault(source, found, &format!("this column should be `{expected}`")));
        }
    }
    for name in inputs {
        check_input(source, name, name.text)?;
    }
    Ok(inputs.iter().map(|name| name.text.to_owned()).collect())
}

fn check_input(source: &InputText, at: &TextPiece<'_>, name: &str) -> Result<(), Fault> {
    let known: Vec<String> = Input::all().map(Input::column).collect();
    if known.iter().any(|column| column == name) {
        return Ok(());
    }
    let fault = fault(source, at, &format!("`{name}` is not an input of a bank"));
    Err(match renamed::hint(name, known.iter().map(String::as_str)) {
        Some(hint) => fault.with_hint(hint),
        None => fault,
    })
}

fn entry(source: &InputText, line: &TextPiece<'_>, inputs: usize) -> Result<Entry, Fault> {
    let fields: Vec<TextPiece<'_>> = line.fields().collect();
    let needed = inputs + LAST_COLUMNS.len();
    let (values, [rule, verdict, miss]) = match fields.split_last_chunk::<3>() {
        Some(split) if fields.len() == needed => split,
        _ => {
            let found = fields.len();
            return Err(fault(
                source,
                line,
                &format!("this line has {found} fields; the columns need {needed}"),
            )
            .with_hint("put a tab between fields"));
        }
    };
    let miss_mm = match miss.text {
        NONE => None,
        text => match text.parse::<f64>() {
            Ok(number) if number.is_finite() => Some(number),
            _ => {
                let message = format!("`{text}` is not a miss in mm");
                return Err(fault(source, miss, &message).with_hint("a number, or `-` for none"));
            }
        },
    };
    Ok(Entry {
        inputs: values.iter().map(|value| value.text.to_owned()).collect(),
        rule: if rule.text == NONE { String::new() } else { rule.text.to_owned() },
        verdict: verdict_of(source, verdict)?,
        miss_mm,
        clearance_mm: None,
    })
}

fn verdict_of(source: &InputText, field: &TextPiece<'_>) -> Result<BankVerdict, Fault> {
    if let Some(found) = BankVerdict::ALL.into_iter().find(|verdict| verdict.name() == field.text) {
        return Ok(found);
    }
    let fault = fault(source, field, &format!("`{}` is not a verdict", field.text));
    let names = BankVerdict::ALL.into_iter().map(BankVerdict::name);
    Err(fault.with_hint(renamed::hint_or_all(field.text, names, "verdicts")))
}

fn fault(source: &InputText, at: &TextPiece<'_>, message: &str) -> Fault {
    let end = at.start + at.text.len();
    Fault::bad_input(message).at(source.place(at.start..end))
}

/// A stretch of the text and where it begins.
struct TextPiece<'a> {
    text: &'a str,
    start: usize,
}

impl<'a> TextPiece<'a> {
    fn fields(&self) -> impl Iterator<Item = TextPiece<'a>> {
        let mut start = self.start;
        self.text.split('\t').map(move |text| {
            let piece = TextPiece { text, start };
            start += text.len() + 1;
            piece
        })
    }
}

/// The lines, without their breaks.
struct Lines<'a> {
    source: &'a InputText,
    offset: usize,
}

impl<'a> Iterator for Lines<'a> {
    type Item = TextPiece<'a>;

    fn next(&mut self) -> Option<TextPiece<'a>> {
        let rest = self.source.text.get(self.offset..).filter(|rest| !rest.is_empty())?;
        let start = self.offset;
        let text = rest.split('\n').next().unwrap_or_default();
        self.offset += text.len() + 1;
        Some(TextPiece { text: text.strip_suffix('\r').unwrap_or(text), start })
    }
}
