//! Rules of the head in plain words.

use super::{Bend, Corrections, HeadRule, SpokenSlope};
use crate::rail::Reading;

impl HeadRule {
    /// The rule as it is said, such as `twice the contact and a fifth of the contact more, through the diamonds`.
    pub fn words(&self) -> String {
        let mut words = match self.bend {
            None => format!("{}{}", times(self.slope, "the contact"), added(self.offset)),
            Some(bend) => self.bent(bend),
        };
        words.push_str(match self.reading {
            Reading::Groove => ", across the grooves",
            Reading::Sight => ", through the diamonds",
        });
        for correction in self.corrections.words() {
            words.push_str("; ");
            words.push_str(&correction);
        }
        words
    }

    fn bent(&self, bend: Bend) -> String {
        let at = number(0.5 * f64::from(bend.at));
        let start =
            number(0.5 * f64::from(bend.at) * self.slope.value() + 0.1 * f64::from(self.offset));
        let first = format!("{}{}", times(self.slope, "the contact"), added(self.offset));
        let past = times(bend.slope, &format!("what is past {at}"));
        format!("{first}; past contact {at}: {start} and {past}")
    }
}

impl Corrections {
    /// Each correction as it is said.
    pub fn words(self) -> Vec<String> {
        self.rows()
            .map(|(what, tenths)| {
                let verb = if tenths < 0 { "take off" } else { "add" };
                format!("{verb} {} {}", tenths_of(tenths.unsigned_abs()), what.words())
            })
            .collect()
    }
}

fn times(slope: SpokenSlope, thing: &str) -> String {
    let whole = match slope.whole() {
        0 => String::new(),
        1 => thing.to_owned(),
        2 => format!("twice {thing}"),
        3 => format!("three times {thing}"),
        more => format!("{more} times {thing}"),
    };
    let (parts, of) = slope.fraction();
    if parts == 0 {
        return whole;
    }
    let part = part_of(parts, of);
    if whole.is_empty() {
        format!("{part} of {thing}")
    } else {
        format!("{whole} and {part} of {thing} more")
    }
}

fn part_of(parts: u8, of: u8) -> String {
    let one = match of {
        2 => return "half".to_owned(),
        3 => "third",
        4 => "quarter",
        5 => "fifth",
        10 => "tenth",
        _ => return format!("{parts}/{of}"),
    };
    match parts {
        1 => format!("a {one}"),
        more => format!("{} {one}s", small_number(more)),
    }
}

fn added(tenths: i8) -> String {
    match tenths {
        0 => String::new(),
        less if less < 0 => format!(" less {}", tenths_of(less.unsigned_abs())),
        more => format!(" and {}", tenths_of(more.unsigned_abs())),
    }
}

/// Tenths of a diamond.
fn tenths_of(tenths: u8) -> String {
    match tenths {
        1 => "a tenth of a diamond".to_owned(),
        5 => "half a diamond".to_owned(),
        10 => "a diamond".to_owned(),
        more => format!("{} tenths of a diamond", small_number(more)),
    }
}

fn small_number(number: u8) -> String {
    const WORDS: [&str; 10] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"];
    WORDS.get(usize::from(number)).map_or_else(|| number.to_string(), |word| (*word).to_owned())
}

fn number(value: f64) -> String {
    crate::units::short_number(value, 3)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_are_said_as_a_person_says_them() {
        let straight = |slope, offset| HeadRule::straight(Reading::Groove, slope, offset);
        assert_eq!(
            straight(SpokenSlope::new(2, 1, 5), 0).words(),
            "twice the contact and a fifth of the contact more, across the grooves"
        );
        assert_eq!(
            straight(SpokenSlope::new(2, 0, 1), 5).words(),
            "twice the contact and half a diamond, across the grooves"
        );
        let bent = HeadRule {
            reading: Reading::Sight,
            bend: Some(Bend { at: 5, slope: SpokenSlope::new(2, 1, 2) }),
            corrections: Corrections { hand: -1, soft: 3, rolling: -5, ..Corrections::NONE },
            ..straight(SpokenSlope::new(1, 3, 4), -2)
        };
        assert_eq!(
            bent.words(),
            "the contact and three quarters of the contact more less two tenths of a diamond; past contact 2.5: \
             4.175 and twice what is past 2.5 and half of what is past 2.5 more, through the diamonds; take off a \
             tenth of a diamond for each hand off the rail; add three tenths of a diamond if soft; take off half a \
             diamond if it rolls"
        );
    }
}
