//! The two languages' ways of writing, for messages and hints.

use railproof_engine::units::plain;
use std::fmt::Write;

/// The language that a person writes in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Writing {
    Lua,
    Yaml,
}

/// The constructors of quantities in Lua: name and unit.
pub(crate) const CONSTRUCTORS: [(&str, &str); 16] = [
    ("metres", "m"),
    ("centimetres", "cm"),
    ("millimetres", "mm"),
    ("inches", "in"),
    ("feet", "ft"),
    ("mps", "m/s"),
    ("kmh", "km/h"),
    ("mph", "mph"),
    ("lengths", "lengths"),
    ("degrees", "deg"),
    ("radians", "rad"),
    ("milliradians", "mrad"),
    ("seconds", "s"),
    ("milliseconds", "ms"),
    ("rad_per_s", "rad/s"),
    ("rev_per_s", "rev/s"),
];

/// A value to be shown as it is written in either language.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Example {
    Word(&'static str),
    Number(f64),
    Quantity(f64, &'static str),
    List(&'static [Self]),
    Fields(&'static [(&'static str, Self)]),
}

impl Writing {
    /// A word as it is written.
    pub(crate) fn word(self, word: &str) -> String {
        match self {
            Self::Lua => format!("\"{word}\""),
            Self::Yaml => format!("`{word}`"),
        }
    }

    /// A quantity as it is written.
    pub(crate) fn quantity(self, amount: f64, unit: &str) -> String {
        let number = plain_shown(amount);
        if unit.is_empty() {
            return number;
        }
        let constructor = CONSTRUCTORS.iter().find(|(_, symbol)| *symbol == unit);
        match (self, constructor) {
            (Self::Yaml, _) => format!("{number} {unit}"),
            (Self::Lua, Some((name, _))) => format!("{name}({number})"),
            (Self::Lua, None) => format!("quantity \"{number} {unit}\""),
        }
    }

    /// A whole value, between the marks that set code off from prose.
    pub(crate) fn code(self, example: &Example) -> String {
        self.marked(self.written(example))
    }

    /// Fields as they are added to a group that is there.
    pub(crate) fn added(self, fields: &'static [(&'static str, Example)]) -> String {
        self.marked(self.fields(fields))
    }

    fn marked(self, code: String) -> String {
        match self {
            Self::Lua => code,
            Self::Yaml => format!("`{code}`"),
        }
    }

    fn fields(self, fields: &[(&'static str, Example)]) -> String {
        let sign = if self == Self::Lua { " = " } else { ": " };
        let mut out = String::new();
        for (name, value) in fields {
            let comma = if out.is_empty() { "" } else { ", " };
            let _ = write!(out, "{comma}{name}{sign}{}", self.written(value));
        }
        out
    }

    fn written(self, example: &Example) -> String {
        match (self, example) {
            (Self::Lua, Example::Word(word)) => self.word(word),
            (Self::Yaml, Example::Word(word)) => (*word).to_owned(),
            (_, Example::Number(number)) => plain_shown(*number),
            (_, Example::Quantity(amount, unit)) => self.quantity(*amount, unit),
            (_, Example::List(items)) => {
                let items: Vec<String> = items.iter().map(|item| self.written(item)).collect();
                let (open, close) = if self == Self::Lua { ("{ ", " }") } else { ("[", "]") };
                format!("{open}{}{close}", items.join(", "))
            }
            (Self::Lua, Example::Fields(fields)) => format!("{{ {} }}", self.fields(fields)),
            (Self::Yaml, Example::Fields(fields)) => format!("{{{}}}", self.fields(fields)),
        }
    }
}

/// A number to twelve significant digits: what arithmetic leaves in the last bits is not shown.
pub fn plain_shown(number: f64) -> String {
    plain(format!("{number:.11e}").parse::<f64>().unwrap_or(number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_example_is_shown_in_either_language() {
        const AT: Example = Example::Fields(&[
            ("speed", Example::Quantity(2.0, "m/s")),
            ("to", Example::Fields(&[("pocket", Example::Word("foot-right"))])),
            ("at", Example::List(&[Example::Quantity(0.1, "m"), Example::Number(2.0)])),
        ]);
        assert_eq!(
            Writing::Lua.code(&AT),
            "{ speed = mps(2), to = { pocket = \"foot-right\" }, at = { metres(0.1), 2 } }"
        );
        assert_eq!(
            Writing::Yaml.code(&AT),
            "`{speed: 2 m/s, to: {pocket: foot-right}, at: [0.1 m, 2]}`"
        );
        assert_eq!(Writing::Lua.quantity(5.0, "kg"), "quantity \"5 kg\"");
    }
}
