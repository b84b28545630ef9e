//! Why a group of fields is refused although each value is of its kind.

use super::writing::{Example, Writing};

/// One step from a group into what stands in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Within {
    /// Under a name.
    Key(String),
    /// At a place of a list, counted from 1.
    Item(usize),
}

/// The beginning of a message about the value at a path.
pub(crate) fn subject(path: &[Within]) -> String {
    let key = path.iter().rposition(|step| matches!(step, Within::Key(_)));
    let Some(Within::Key(key_name)) = key.and_then(|at| path.get(at)) else {
        return "this".to_owned();
    };
    let items = path.iter().skip(key.map_or(0, |at| at + 1)).filter_map(|step| match step {
        Within::Item(number) => Some(number.to_string()),
        Within::Key(_) => None,
    });
    let items: Vec<String> = items.collect();
    if items.is_empty() {
        return format!("`{key_name}`");
    }
    format!("`{key_name}`, item {},", items.join("."))
}

/// Advice on a value to write instead.
#[derive(Debug, Clone)]
pub(crate) enum Hint {
    Text(String),
    /// A whole value.
    Instance(Example),
    /// Fields to add, and words after them.
    Add(&'static [(&'static str, Example)], String),
}

impl Hint {
    pub(crate) fn shown(&self, writing: Writing) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Instance(example) => format!("for instance {}", writing.code(example)),
            Self::Add(fields, after) => format!("for instance {}{after}", writing.added(fields)),
        }
    }
}

/// Why values don't go together, and where: the steps lead from the group that is read.
#[derive(Debug, Clone)]
pub(crate) struct Refusal {
    pub(crate) message: String,
    pub(crate) hint: Option<Hint>,
    pub(crate) within: Vec<Within>,
}

impl Refusal {
    pub(crate) fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), hint: None, within: Vec::new() }
    }

    #[must_use]
    pub(crate) fn with_hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(Hint::Text(hint.into()));
        self
    }

    /// With a whole value as its hint.
    #[must_use]
    pub(crate) fn with_instance(mut self, example: Example) -> Self {
        self.hint = Some(Hint::Instance(example));
        self
    }

    /// With fields to add as its hint, and words after them.
    #[must_use]
    pub(crate) fn with_fields(
        mut self,
        fields: &'static [(&'static str, Example)],
        after: &str,
    ) -> Self {
        self.hint = Some(Hint::Add(fields, after.to_owned()));
        self
    }

    /// The same seen from the group that has this one under a key.
    #[must_use]
    pub(crate) fn under(mut self, key: &str) -> Self {
        self.within.insert(0, Within::Key(key.to_owned()));
        self
    }

    /// The same seen from the list that has this at a place, counted from 1.
    #[must_use]
    pub(crate) fn at_item(mut self, number: usize) -> Self {
        self.within.insert(0, Within::Item(number));
        self
    }

    /// The hint in a language.
    pub(crate) fn hint_in(&self, writing: Writing) -> Option<String> {
        self.hint.as_ref().map(|hint| hint.shown(writing))
    }
}
