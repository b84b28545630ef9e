//! Units as people spell them.

/// Each spelling with its symbol; letters may be large or small.
const SPELLINGS: &[(&str, &str)] = &[
    ("inch", "in"),
    ("inches", "in"),
    ("in.", "in"),
    ("\"", "in"),
    ("″", "in"),
    ("”", "in"),
    ("''", "in"),
    ("foot", "ft"),
    ("feet", "ft"),
    ("ft.", "ft"),
    ("'", "ft"),
    ("′", "ft"),
    ("’", "ft"),
    ("metre", "m"),
    ("metres", "m"),
    ("meter", "m"),
    ("meters", "m"),
    ("centimetre", "cm"),
    ("centimetres", "cm"),
    ("centimeter", "cm"),
    ("centimeters", "cm"),
    ("millimetre", "mm"),
    ("millimetres", "mm"),
    ("millimeter", "mm"),
    ("millimeters", "mm"),
    ("mps", "m/s"),
    ("kmh", "km/h"),
    ("kph", "km/h"),
    ("°", "deg"),
    ("degree", "deg"),
    ("degrees", "deg"),
    ("radian", "rad"),
    ("radians", "rad"),
    ("second", "s"),
    ("seconds", "s"),
    ("millisecond", "ms"),
    ("milliseconds", "ms"),
    ("gram", "g"),
    ("grams", "g"),
    ("kilogram", "kg"),
    ("kilograms", "kg"),
    ("ounce", "oz"),
    ("ounces", "oz"),
    ("table lengths", "lengths"),
    ("table length", "length"),
];

/// The symbol of a unit that may be spelt out; any other text as it is.
pub fn unit_symbol(text: &str) -> &str {
    let spelt = SPELLINGS.iter().find(|(spelling, _)| spelling.eq_ignore_ascii_case(text));
    spelt.map_or(text, |(_, symbol)| symbol)
}

/// Whether a unit of length or speed is counted in inches, feet or miles.
pub fn is_imperial(symbol: &str) -> bool {
    matches!(symbol, "in" | "ft" | "in/s" | "ft/s" | "mph")
}
