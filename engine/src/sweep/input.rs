//! The inputs that a sweep can vary: those of the launch and the line, the words that choose a bank,
//! and every number of the equipment that a lone ball's bank depends on.

use crate::bank::Launch;
use crate::equipment::{EquipmentNumber, Parameter};
use crate::rail::Line;
use crate::units::{Dimension, column_name};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// An input of a bank.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Input {
    /// The equipment as a whole.
    Equipment,
    /// The rail banked off.
    Rail,
    /// The target pocket.
    Pocket,
    /// The rail model.
    RailModel,
    /// Contact number, diamonds, groove reading.
    Contact,
    /// Explicit start number, diamonds, groove reading.
    Start,
    /// Distance off the rail, m.
    OffRail,
    /// Speed at launch, m/s.
    Speed,
    /// Speed at launch in table lengths (see [`crate::units::Speed`]).
    Lag,
    /// Fraction of natural roll at launch.
    Roll,
    /// Side spin at launch, R·wz/v, positive running.
    RunningSide,
    /// Aim error, rad.
    AimError,
    /// A number of the equipment.
    Number(EquipmentNumber),
}

/// The name, title and meaning of an input that is no number of the equipment.
struct InputEntry {
    name: &'static str,
    /// Title of a picture's axis.
    title: &'static str,
    meaning: &'static str,
    kind: InputKind,
}

/// The kind of an input's values.
enum InputKind {
    /// From words; another word is another table.
    Word,
    /// By a number of the launch or the line.
    Launch(Parameter),
    /// The same, counted in a unit of its own.
    Counted(Parameter, &'static str),
}

const LAG: Parameter = Parameter::new("lag", Dimension::Ratio, 0.01, 200.0, "");

/// The table of inputs: the entry of each, and a match that the compiler holds to be complete.
macro_rules! inputs {
    ($($input:ident: $name:literal, $title:literal, $meaning:literal, $kind:expr;)*) => {
        const LISTED: &[Input] = &[$(Input::$input),*];

        impl Input {
            /// The name, title and meaning of an input that is no number of the equipment.
            fn entry(self) -> Option<InputEntry> {
                let (name, title, meaning, kind) = match self {
                    $(Self::$input => ($name, $title, $meaning, $kind),)*
                    Self::Number(_) => return None,
                };
                Some(InputEntry { name, title, meaning, kind })
            }
        }
    };
}

#[rustfmt::skip]
inputs! {
    Equipment: "equipment", "table", "the equipment", InputKind::Word;
    Rail: "rail", "rail banked off", "the rail banked off", InputKind::Word;
    Pocket: "pocket", "target pocket", "the target pocket", InputKind::Word;
    RailModel: "rail_model", "rail model", "the rail model", InputKind::Word;
    Contact: "contact", "contact number", "contact number", InputKind::Counted(Line::CONTACT, "diamonds");
    Start: "start", "start number", "start number", InputKind::Counted(Line::START, "diamonds");
    OffRail: "off_rail", "distance off the rail", "distance off the rail", InputKind::Launch(Launch::OFF_RAIL);
    Speed: "speed", "speed at launch", "speed", InputKind::Launch(Launch::SPEED);
    Lag: "lag", "speed at launch", "speed in table lengths", InputKind::Counted(LAG, "table lengths");
    Roll: "roll", "roll at launch", "fraction of natural roll", InputKind::Launch(Launch::ROLL);
    RunningSide: "running_side", "side spin at launch", "side spin, positive running", InputKind::Launch(Launch::RUNNING_SIDE);
    AimError: "aim_error", "aim error, positive towards the pocket's end", "aim error, positive towards the pocket's end", InputKind::Launch(Launch::AIM_ERROR);
}

impl Input {
    /// All inputs, in the order in which they are listed to people.
    pub fn all() -> impl Iterator<Item = Self> {
        let numbers = EquipmentNumber::all().filter(|number| number.is_swept());
        LISTED.iter().copied().chain(numbers.map(Self::Number))
    }

    /// The input of this name.
    pub fn named(name: &str) -> Option<Self> {
        Self::all().find(|input| input.name() == name)
    }

    /// The name used in scripts and files.
    pub fn name(self) -> &'static str {
        match self {
            Self::Number(number) => number.name(),
            _ => self.entry().map_or("", |entry| entry.name),
        }
    }

    /// The name of a column of its values: with the SI unit, such as `off_rail_m`.
    pub fn column(self) -> String {
        let name = self.name();
        match (self, self.entry()) {
            (Self::Number(number), _) => number.column(),
            (_, Some(InputEntry { kind: InputKind::Counted(_, unit), .. })) => {
                format!("{name}_{}", unit.replace(' ', "_"))
            }
            (_, Some(InputEntry { kind: InputKind::Launch(parameter), .. })) => {
                column_name(name, parameter.dimension)
            }
            _ => name.to_owned(),
        }
    }

    /// The unit of that column; empty for words and plain numbers.
    pub fn unit(self) -> &'static str {
        match self.entry().map(|entry| entry.kind) {
            Some(InputKind::Counted(_, unit)) => unit,
            _ => self.parameter().map_or("", |parameter| parameter.dimension.si_symbol()),
        }
    }

    /// Title of its axis in a picture.
    pub fn title(self) -> &'static str {
        match self {
            Self::Number(number) => number.meaning(),
            _ => self.entry().map_or("", |entry| entry.title),
        }
    }

    /// Meaning, in a few words.
    pub fn meaning(self) -> &'static str {
        match self {
            Self::Number(number) => number.meaning(),
            _ => self.entry().map_or("", |entry| entry.meaning),
        }
    }

    /// Range and kind of a numeric input; `None` for one that is chosen from words.
    pub fn parameter(self) -> Option<Parameter> {
        if let Self::Number(number) = self {
            return Some(number.parameter());
        }
        match self.entry()?.kind {
            InputKind::Word => None,
            InputKind::Launch(parameter) | InputKind::Counted(parameter, _) => Some(parameter),
        }
    }

    /// True for an input of the launch or the line, false for one that makes another table.
    pub fn is_launch(self) -> bool {
        self.entry().is_some_and(|entry| !matches!(entry.kind, InputKind::Word))
    }
}

impl Serialize for Input {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

impl<'de> Deserialize<'de> for Input {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let name = std::borrow::Cow::<str>::deserialize(deserializer)?;
        Self::named(&name).ok_or_else(|| {
            let known: Vec<&str> = Self::all().map(Self::name).collect();
            let known = known.join("`, `");
            de::Error::custom(format!("unknown variant `{name}`, expected one of `{known}`"))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_input_has_a_name_a_meaning_and_a_column_of_its_own() {
        let names: BTreeSet<&str> = Input::all().map(Input::name).collect();
        let columns: BTreeSet<String> = Input::all().map(Input::column).collect();
        let count = Input::all().count();
        assert_eq!((names.len(), columns.len()), (count, count));
        for input in Input::all() {
            assert!(!input.meaning().is_empty() && !input.title().is_empty(), "{input:?}");
            assert_eq!(Input::named(input.name()), Some(input));
        }
        let column = |name: &str| Input::named(name).map(Input::column);
        assert_eq!(column("pivot_deceleration").as_deref(), Some("pivot_deceleration_rad_s2"));
        assert_eq!(column("restitution_loss").as_deref(), Some("restitution_loss_s_m"));
        assert_eq!(column("contact").as_deref(), Some("contact_diamonds"));
        assert_eq!(column("lag").as_deref(), Some("lag_table_lengths"));
        let unit = |name: &str| Input::named(name).map(Input::unit);
        assert_eq!((unit("lag"), unit("start")), (Some("table lengths"), Some("diamonds")));
        assert_eq!((unit("off_rail"), unit("roll"), unit("rail")), (Some("m"), Some(""), Some("")));
    }
}
