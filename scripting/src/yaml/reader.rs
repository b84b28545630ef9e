//! One reading of one text: its place, its refusal, and the fault made of that.

use super::{InputText, extent::extent, locate::locate, slips};
use crate::fault::Fault;
use crate::fields::{Mismatch, Refusal, Within, Writing, shortened, subject};
use railproof_engine::units::plain;
use serde::de::Error;
use std::cell::RefCell;

/// A refusal and where it is shown: where the YAML reader stands, or at the key or item with a path.
type Refused = (Refusal, Option<Vec<Within>>);

/// The memory of one reading; it is not used again after a refusal. serde's errors carry only text, so
/// a visitor leaves its refusal here and lets serde's error carry the place.
#[derive(Default)]
pub(super) struct Reader {
    /// The file's lengths are in inches.
    pub(super) in_inches: bool,
    path: RefCell<Vec<Within>>,
    refused: RefCell<Option<Refused>>,
}

impl InputText {
    /// A refusal of what the values say together, at its place below a path of keys.
    pub(crate) fn refused(&self, refusal: &Refusal, above: &[&str]) -> Fault {
        let above = above.iter().map(|key| Within::Key((*key).to_owned()));
        let path: Vec<Within> = above.chain(refusal.within.iter().cloned()).collect();
        fault_of(refusal).at(locate(self, &path).unwrap_or_else(|| self.beginning()))
    }
}

fn fault_of(refusal: &Refusal) -> Fault {
    let fault = Fault::bad_input(refusal.message.as_str());
    match refusal.hint_in(Writing::Yaml) {
        Some(hint) => fault.with_hint(hint),
        None => fault,
    }
}

impl Reader {
    /// A reading of a file whose lengths are in inches, or are not.
    pub(super) fn new(in_inches: bool) -> Self {
        Self { in_inches, ..Self::default() }
    }

    /// Refuses the key that is being read.
    pub(super) fn refuse<E: Error>(&self, refusal: Refusal) -> E {
        *self.refused.borrow_mut() = Some((refusal, None));
        E::custom("refused")
    }

    /// Refuses the value that is being read.
    pub(super) fn refuse_value<E: Error>(&self, mismatch: Mismatch) -> E {
        let refusal =
            Refusal::new(format!("{} {}", subject(&self.path.borrow()), mismatch.message));
        self.refuse(match mismatch.hint {
            Some(hint) => refusal.with_hint(hint),
            None => refusal,
        })
    }

    /// Refuses the group that is being read, at the key that holds it.
    pub(super) fn refuse_whole<E: Error>(&self, refusal: Refusal) -> E {
        let path = self.path.borrow().clone();
        *self.refused.borrow_mut() = Some((refusal, Some(path).filter(|path| !path.is_empty())));
        E::custom("refused")
    }

    /// Reads what stands at a step.
    pub(super) fn within<T, E>(
        &self,
        step: Within,
        read: impl FnOnce() -> Result<T, E>,
    ) -> Result<T, E> {
        self.path.borrow_mut().push(step);
        let value = read()?;
        self.path.borrow_mut().pop();
        Ok(value)
    }

    /// The end of a reading that met an error.
    pub(super) fn fault(&self, source: &InputText, error: &serde_yaml::Error) -> Fault {
        let (refusal, path) = self
            .refused
            .borrow_mut()
            .take()
            .unwrap_or_else(|| (reworded(&error.to_string(), &self.path.borrow()), None));
        let here = || match error.location() {
            Some(location) => source.place(extent(&source.text, location.index())),
            None => source.beginning(),
        };
        let place = path.and_then(|path| locate(source, &path)).unwrap_or_else(here);
        let line = place.line_column().0;
        // The line after one that lacks its colon is blamed for it.
        if let Some((at, hint)) = slips::missing_colon(&source.text, line) {
            return fault_of(&refusal).at(source.line(at)).with_hint(hint);
        }
        if let Some((at, field)) = slips::too_far_left(&source.text, line, &refusal.message) {
            let message = format!("line {at} is too far left: `{field}`");
            return Fault::bad_input(message)
                .at(source.line(at))
                .with_hint(format!("indent `{field}` like the fields around it"));
        }
        let meant = slips::decimal_comma(&source.text, place.span())
            .or_else(|| slips::semicolon(&source.text, place.span()))
            .or_else(|| slips::run_on(&source.text, place.span()))
            .or_else(|| slips::outdented(&source.text, line, &refusal.message))
            .or_else(|| slips::taken_in(&source.text, place.span(), &refusal.message))
            .or_else(|| slips::needless_dash(&source.text, place.span(), &refusal.message))
            .or_else(|| slips::colon_in_brackets(&refusal.message));
        if let Some(hint) = meant {
            return fault_of(&refusal).at(place).with_hint(hint);
        }
        let at_tab = place.source()[place.span().start..].starts_with('\t');
        let fault = fault_of(&refusal).at(place);
        match refusal.hint {
            None if at_tab => fault.with_hint("indent with spaces; YAML does not allow tabs"),
            Some(_) => fault,
            None => match slips::hint(&source.text, line, &refusal.message) {
                Some(hint) => fault.with_hint(hint),
                None => fault,
            },
        }
    }
}

/// The YAML reader's own message without its path and position, which are shown otherwise. `path` leads
/// to the field that is being read.
fn reworded(text: &str, path: &[Within]) -> Refusal {
    for kind in ["invalid type: ", "invalid value: "] {
        if let Some((_, tail)) = text.split_once(kind) {
            let tail = without_position(tail);
            let (found, expected) = tail.split_once(", expected ").unwrap_or((&tail, ""));
            let found = found_in_words(found);
            let of_file = path.is_empty() || expected.starts_with("the name of");
            let refusal = Refusal::new(if of_file {
                format!("found {found} where {expected} belongs")
            } else {
                format!("{} must be {expected}, not {found}", subject(path))
            });
            let of_place = matches!(path.last(), Some(Within::Key(key)) if key == "position");
            return if of_place && found == TABLE {
                refusal.with_hint(PLACE_ITSELF)
            } else {
                refusal
            };
        }
    }
    if text.contains("more than one document") {
        return Refusal::new("the file holds more than one YAML document");
    }
    if text.contains("repetition limit") || text.contains("recursion limit") {
        return Refusal::new("the file is nested or repeated without end");
    }
    if text.contains("EOF while parsing") {
        return Refusal::new("the file ends too early");
    }
    Refusal::new(format!("this is not valid YAML: {}", without_position(text)))
}

const TABLE: &str = "a table of fields";
/// A place of another kind than a position.
const PLACE_ITSELF: &str = "a place on a rail or a line stands without `position`, such as \
                            {on_rail: left, number: 2}";

/// The kind of a value that serde names, in words of the file.
pub(crate) fn found_in_words(found: &str) -> String {
    match found {
        "sequence" => "a list".to_owned(),
        "map" => TABLE.to_owned(),
        "unit value" => "nothing".to_owned(),
        _ => match found.split_once(['`', '"']) {
            Some((kind, value)) => {
                let value = value.trim_end_matches(['`', '"']);
                let number = value.parse().ok().filter(|_| kind.starts_with("floating point"));
                format!("`{}`", number.map_or_else(|| shortened(value), plain))
            }
            None => found.to_owned(),
        },
    }
}

fn without_position(text: &str) -> String {
    let cut = |text: &str| text.split(" at line ").next().unwrap_or_default().to_owned();
    match text.split_once(", while ") {
        Some((problem, context)) => format!("{}, while {}", cut(problem), cut(context)),
        None => cut(text),
    }
}
