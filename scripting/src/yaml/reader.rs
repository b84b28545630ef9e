//! One reading of one text: where it is, what it refused, and how that becomes a fault.

use super::{InputText, extent::extent, locate::locate, mapping::shortened, screen::screen};
use crate::fault::Fault;
use serde::de::{DeserializeSeed, Error};
use std::cell::RefCell;

/// Why a value or key is refused.
#[derive(Debug, Clone)]
pub(crate) struct Refusal {
    pub(crate) message: String,
    pub(crate) hint: Option<String>,
}

impl Refusal {
    pub(crate) fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), hint: None }
    }

    #[must_use]
    pub(crate) fn with_hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}

/// Where a refusal is shown.
enum RefusalPlace {
    /// Where the YAML reader stands.
    Here,
    /// At the key with this path.
    Key(Vec<String>),
}

/// The memory of one reading; it is not used again after a refusal. serde's errors carry only text, so a visitor leaves its refusal
/// here and lets serde's error carry the place.
#[derive(Default)]
pub(crate) struct Reader {
    path: RefCell<Vec<String>>,
    refused: RefCell<Option<(Refusal, RefusalPlace)>>,
}

impl Reader {
    /// Refuses the value or key that is being read.
    pub(crate) fn refuse<E: Error>(&self, refusal: Refusal) -> E {
        *self.refused.borrow_mut() = Some((refusal, RefusalPlace::Here));
        E::custom("refused")
    }

    /// Refuses the mapping that is being read, at the key that holds it.
    pub(crate) fn refuse_whole<E: Error>(&self, refusal: Refusal) -> E {
        let path = self.path.borrow().clone();
        let target = if path.is_empty() { RefusalPlace::Here } else { RefusalPlace::Key(path) };
        *self.refused.borrow_mut() = Some((refusal, target));
        E::custom("refused")
    }

    /// Goes into the value of a key; [`Reader::leave`] comes out again.
    pub(super) fn enter(&self, key: &str) {
        self.path.borrow_mut().push(key.to_owned());
    }

    pub(super) fn leave(&self) {
        self.path.borrow_mut().pop();
    }

    /// Reads the whole text.
    pub(crate) fn read<'de, S: DeserializeSeed<'de>>(
        &self,
        source: &'de InputText,
        seed: S,
    ) -> Result<S::Value, Fault> {
        screen(source)?;
        seed.deserialize(serde_yaml::Deserializer::from_str(&source.text))
            .map_err(|error| self.fault(source, &error))
    }

    fn fault(&self, source: &InputText, error: &serde_yaml::Error) -> Fault {
        let (refusal, target) = self
            .refused
            .borrow_mut()
            .take()
            .unwrap_or_else(|| (reworded(&error.to_string()), RefusalPlace::Here));
        let here = || match error.location() {
            Some(location) => source.place(extent(&source.text, location.index())),
            None => source.beginning(),
        };
        let place = match target {
            RefusalPlace::Here => here(),
            RefusalPlace::Key(path) => locate(source, &path).unwrap_or_else(here),
        };
        let fault = Fault::bad_input(refusal.message).at(place.clone());
        let at_tab = place.source()[place.span().start..].starts_with('\t');
        match refusal.hint {
            Some(hint) => fault.with_hint(hint),
            None if at_tab => fault.with_hint("indent with spaces; YAML does not allow tabs"),
            None => fault,
        }
    }
}

/// The YAML reader's own message without its path and position, which are shown otherwise.
fn reworded(text: &str) -> Refusal {
    for kind in ["invalid type: ", "invalid value: "] {
        if let Some((_, tail)) = text.split_once(kind) {
            let tail = without_position(tail);
            let (found, expected) = tail.split_once(", expected ").unwrap_or((&tail, ""));
            let found = shortened(&found.replace("unit value", "nothing"));
            return Refusal::new(format!("found {found} where {expected} belongs"));
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

fn without_position(text: &str) -> String {
    let cut = |text: &str| text.split(" at line ").next().unwrap_or_default().to_owned();
    match text.split_once(", while ") {
        Some((problem, context)) => format!("{}, while {}", cut(problem), cut(context)),
        None => cut(text),
    }
}
