//! A field, its kind, and groups of fields.

use super::refusal::Refusal;
use super::words::words;
use super::writing::{Example, Writing};
use crate::renamed;
use railproof_engine::equipment::Parameter;
use railproof_engine::units::{Dimension, SpeedWord};

/// A field that people may write.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Field {
    pub(crate) name: &'static str,
    pub(crate) kind: FieldKind,
    pub(crate) without: Without,
    pub(crate) meaning: &'static str,
    /// A common number, SI, to show where there is none.
    pub(crate) common: Option<f64>,
}

/// The rule for a field that is left out.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Without {
    /// It can't be left out.
    Needed,
    /// Nothing is said about it.
    Nothing,
    /// This number, SI.
    Number(f64),
    Word(&'static str),
    Flag(bool),
    /// The meaning of these words.
    Says(&'static str),
}

/// The values that a field takes.
#[derive(Debug, Clone, Copy)]
pub(crate) enum FieldKind {
    /// A number with its unit, within a range.
    Number(Parameter),
    /// A number, or a word that stands for none.
    NumberOr(Parameter, &'static str),
    /// A speed with its unit or in table lengths, or a word that the equipment says the speed of.
    Speed(Parameter),
    /// A speed with its unit or in table lengths.
    PlainSpeed(Parameter),
    /// As many numbers as there are directions; `whole` bounds the vector's length as well.
    Vector {
        each: Parameter,
        count: usize,
        whole: bool,
    },
    /// Points, each with two coordinates.
    Points {
        each: Parameter,
        most: usize,
    },
    /// One of a few words.
    Word(fn() -> Vec<&'static str>),
    Flag,
    /// A short line of text.
    Name,
    /// Free text.
    Text,
    Group(&'static Group),
    /// A word that stands for a group, or the group.
    WordOr(&'static str, &'static Group),
    /// A name or a group, and both in words.
    NameOr(&'static str, fn() -> &'static Group),
    /// Two of the same.
    Two(&'static Self),
    /// Things of one kind under names of one's own, at most so many.
    Each {
        thing: &'static str,
        group: &'static Group,
        most: usize,
    },
}

/// Fields that stand together.
#[derive(Debug)]
pub(crate) struct Group {
    /// Its name in messages; nothing for a group that goes by its key.
    pub(crate) title: &'static str,
    /// Its fields, in parts that other groups may have too.
    pub(crate) parts: &'static [&'static [Field]],
    /// An example of it.
    pub(crate) example: Option<Example>,
}

impl Field {
    /// A field that can't be left out.
    pub(crate) const fn needed(name: &'static str, kind: FieldKind, meaning: &'static str) -> Self {
        Self { name, kind, without: Without::Needed, meaning, common: None }
    }

    /// A field of which nothing holds when it is left out.
    pub(crate) const fn new(name: &'static str, kind: FieldKind, meaning: &'static str) -> Self {
        Self { name, kind, without: Without::Nothing, meaning, common: None }
    }

    /// The same field with something that holds when it is left out.
    pub(crate) const fn or(self, without: Without) -> Self {
        Self { without, ..self }
    }

    /// A number that goes by its parameter's name.
    pub(crate) const fn number(parameter: Parameter, meaning: &'static str) -> Self {
        Self::new(parameter.name, FieldKind::Number(parameter), meaning)
    }

    /// Its default in words; nothing where there is none.
    pub(crate) fn default_shown(&self) -> String {
        match (self.without, self.kind) {
            (Without::Needed, _) => "needed".to_owned(),
            (
                Without::Number(si),
                FieldKind::Number(parameter)
                | FieldKind::PlainSpeed(parameter)
                | FieldKind::NumberOr(parameter, _),
            ) => parameter.shown(si),
            (Without::Nothing | Without::Number(_), _) => String::new(),
            (Without::Word(words) | Without::Says(words), _) => words.to_owned(),
            (Without::Flag(flag), _) => flag.to_string(),
        }
    }
}

impl Group {
    pub(crate) fn all(&self) -> impl Iterator<Item = &'static Field> + Clone {
        self.parts.iter().copied().flatten()
    }

    pub(crate) fn field(&self, name: &str) -> Option<&'static Field> {
        self.all().find(|field| field.name == name)
    }

    /// The name in messages of the group under a key.
    pub(crate) fn title_under(&self, key: &str) -> String {
        if self.title.is_empty() { format!("`{key}`") } else { self.title.to_owned() }
    }

    /// The field of this name, or why there is none.
    pub(crate) fn known(&self, title: &str, name: &str) -> Result<&'static Field, Refusal> {
        self.field(name).ok_or_else(|| {
            let names = self.all().map(|field| field.name);
            let refusal = Refusal::new(format!("{title} has no field `{}`", shortened(name)));
            refusal.with_hint(renamed::hint_or_all(name, names, "it can have"))
        })
    }
}

impl FieldKind {
    /// The group that it takes, where it takes one.
    pub(crate) fn group(&self) -> Option<&'static Group> {
        match self {
            Self::Group(group) | Self::WordOr(_, group) => Some(group),
            Self::NameOr(_, group) => Some(group()),
            _ => None,
        }
    }

    /// The expected value, in words that follow "must be".
    pub(crate) fn expected(&self, writing: Writing) -> String {
        let table = if writing == Writing::Lua { "a table" } else { "a table of fields" };
        match self {
            Self::Number(parameter) | Self::PlainSpeed(parameter) => {
                quantity_expected(parameter.dimension)
            }
            Self::NumberOr(parameter, word) => {
                format!("{} or {}", quantity_expected(parameter.dimension), writing.word(word))
            }
            Self::Speed(parameter) => {
                let words = listed(&words::<SpeedWord>(), writing);
                format!("{}, or {words}", quantity_expected(parameter.dimension))
            }
            Self::Vector { count, .. } => format!("a list of {count} quantities"),
            Self::Points { .. } => "a list of points".to_owned(),
            Self::Word(words) => listed(&words(), writing),
            Self::Flag => "true or false".to_owned(),
            Self::Name | Self::Text => "text".to_owned(),
            Self::Group(_) | Self::Each { .. } => table.to_owned(),
            Self::WordOr(word, _) => format!("{} or {table}", writing.word(word)),
            Self::NameOr(what, _) => (*what).to_owned(),
            Self::Two(_) => "two places".to_owned(),
        }
    }
}

/// A quantity of a dimension, in words that follow "must be".
pub(crate) fn quantity_expected(dimension: Dimension) -> String {
    match dimension {
        Dimension::Ratio => "a plain number".to_owned(),
        dimension => format!("{} with its unit", with_article(dimension.name())),
    }
}

/// `a` or `an` and the word.
pub(crate) fn with_article(word: &str) -> String {
    let an = word.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {word}", if an { "an" } else { "a" })
}

/// Words between commas, the last one after "or".
pub(crate) fn listed(words: &[&str], writing: Writing) -> String {
    let words: Vec<String> = words.iter().map(|word| writing.word(word)).collect();
    match words.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, others)) => format!("{} or {last}", others.join(", ")),
        None => "nothing".to_owned(),
    }
}

/// A text short enough for a message.
pub(crate) fn shortened(text: &str) -> String {
    const LONGEST: usize = 60;
    if text.chars().count() <= LONGEST {
        return text.to_owned();
    }
    text.chars().take(LONGEST).chain(['…']).collect()
}
