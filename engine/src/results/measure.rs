//! One number, word or flag of a result.

use crate::units::{Dimension, column_name};

/// A kind of result that measures are read from.
pub trait ResultKind: Copy + 'static {
    /// One result.
    type Result<'a>;
}

/// The part of a result that a measure belongs to: nested readers put its measures together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResultPart {
    /// The result as a whole.
    Whole,
    /// The table that it was played on.
    Table,
    /// The balls as they begin.
    Launch,
    /// The stroke.
    Stroke,
    /// The ball as it meets the rail.
    AtRail,
    /// The ball as it comes off the rail.
    Rebound,
    /// The ball at the mouth line.
    Arrival,
}

impl ResultPart {
    /// The key of its measures where they are nested, and how their names begin where one needs
    /// telling from another part's; empty for those that stand with the result itself.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Whole | Self::Table => "",
            Self::Launch => "launch",
            Self::Stroke => "stroke",
            Self::AtRail => "at_rail",
            Self::Rebound => "rebound",
            Self::Arrival => "arrival",
        }
    }
}

/// The way a measure is read off a result; nothing where the result has none.
pub enum MeasureReading<K: ResultKind> {
    /// An SI number of this kind of quantity.
    Number(Dimension, for<'a> fn(&K::Result<'a>) -> Option<f64>),
    /// A number counted in diamonds, groove reading.
    Diamonds(for<'a> fn(&K::Result<'a>) -> Option<f64>),
    /// A whole number.
    Count(for<'a> fn(&K::Result<'a>) -> Option<u64>),
    /// A word.
    Word(for<'a> fn(&K::Result<'a>) -> Option<&'static str>),
    /// Whether it is so.
    Flag(for<'a> fn(&K::Result<'a>) -> Option<bool>),
}

/// The unit in which people are shown a number: pictures and scripts have it, files have SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DisplayUnit {
    /// The unit.
    pub unit: &'static str,
    /// The number of these units in one SI unit.
    pub per_si: f64,
}

impl DisplayUnit {
    /// An SI number in the unit.
    pub fn of(self, si: f64) -> f64 {
        si * self.per_si
    }
}

/// One number, word or flag of a result.
pub struct Measure<K: ResultKind> {
    /// Which part of the result it belongs to.
    pub part: ResultPart,
    /// Its name, without a unit.
    pub name: &'static str,
    /// Title of a picture's axis; the meaning where it is empty.
    title: &'static str,
    /// The unit for people, where it is not that of its kind of quantity.
    shown: Option<DisplayUnit>,
    /// Meaning.
    pub meaning: &'static str,
    /// The way it is read off a result.
    pub reading: MeasureReading<K>,
}

impl<K: ResultKind> Measure<K> {
    /// A measure whose title is its meaning.
    pub(super) const fn new(
        part: ResultPart,
        name: &'static str,
        meaning: &'static str,
        reading: MeasureReading<K>,
    ) -> Self {
        Self { part, name, title: "", shown: None, meaning, reading }
    }

    /// The same with a title of its own.
    pub(super) const fn titled(self, title: &'static str) -> Self {
        Self { title, ..self }
    }

    /// The same shown in a unit of which so many make one SI unit.
    pub(super) const fn shown_in(self, unit: &'static str, per_si: f64) -> Self {
        Self { shown: Some(DisplayUnit { unit, per_si }), ..self }
    }

    /// Title of a picture's axis.
    pub const fn title(&self) -> &'static str {
        if self.title.is_empty() { self.meaning } else { self.title }
    }

    /// The name with its SI unit, such as `miss_m`: a column of a file, a key of JSON.
    pub fn column(&self) -> String {
        self.with_unit(self.name)
    }

    /// The same inside its part: `speed_m_s` for `at_rail_speed`.
    pub fn column_inside(&self) -> String {
        self.with_unit(self.key())
    }

    fn with_unit(&self, name: &str) -> String {
        match self.reading {
            MeasureReading::Number(dimension, _) => column_name(name, dimension),
            MeasureReading::Diamonds(_) if !name.ends_with("diamonds") => {
                format!("{name}_diamonds")
            }
            _ => name.to_owned(),
        }
    }

    /// Its SI unit; empty for plain numbers, words and flags.
    pub fn unit(&self) -> &'static str {
        match self.reading {
            MeasureReading::Number(dimension, _) => dimension.si_symbol(),
            MeasureReading::Diamonds(_) => "diamonds",
            MeasureReading::Count(_) | MeasureReading::Word(_) | MeasureReading::Flag(_) => "",
        }
    }

    /// Its name inside its part, where parts nest: `speed` for `at_rail_speed`.
    pub fn key(&self) -> &'static str {
        let inside = self.name.strip_prefix(self.part.name());
        inside.and_then(|rest| rest.strip_prefix('_')).unwrap_or(self.name)
    }

    /// The unit in which people are shown it.
    pub fn shown(&self) -> DisplayUnit {
        if let Some(shown) = self.shown {
            return shown;
        }
        let (unit, per_si) = match self.reading {
            MeasureReading::Number(Dimension::Length, _) => ("mm", 1e3),
            MeasureReading::Number(Dimension::Angle, _) => ("deg", 180.0 / std::f64::consts::PI),
            MeasureReading::Diamonds(_) => ("diamonds, groove", 1.0),
            _ => (self.unit(), 1.0),
        };
        DisplayUnit { unit, per_si }
    }

    /// Its number, SI, when it is one and the result has it.
    pub fn number(&self, result: &K::Result<'_>) -> Option<f64> {
        match self.reading {
            MeasureReading::Number(_, of) | MeasureReading::Diamonds(of) => of(result),
            MeasureReading::Count(of) => of(result).map(|count| count as f64),
            MeasureReading::Word(_) | MeasureReading::Flag(_) => None,
        }
    }

    /// True for a number.
    pub const fn is_number(&self) -> bool {
        !matches!(self.reading, MeasureReading::Word(_) | MeasureReading::Flag(_))
    }
}

/// The measure of this name, found while compiling: a name that no measure has does not compile.
///
/// # Panics
/// When no measure has the name; in a `const`, that is an error of the compiler.
pub(super) const fn measure_named<K: ResultKind>(
    list: &'static [Measure<K>],
    name: &str,
) -> &'static Measure<K> {
    let mut at = 0;
    while at < list.len() {
        if same_text(list[at].name, name) {
            return &list[at];
        }
        at += 1;
    }
    panic!("no measure has this name")
}

const fn same_text(one: &str, other: &str) -> bool {
    let (one, other) = (one.as_bytes(), other.as_bytes());
    let mut at = 0;
    while at < one.len() && at < other.len() && one[at] == other[at] {
        at += 1;
    }
    at == one.len() && at == other.len()
}
