//! Cautions: sentences beside an answer or a summary that can hurt someone or does not carry over to a
//! real table. The condition and the words of each stand here and nowhere else.
//!
//! A result of which the model is merely less sure has a flag in the data, explained once under a
//! summary ([`FLAGGED`]), so that people go on reading cautions.

mod of_fit;
mod of_plan;
mod of_play;
mod of_shot;
#[cfg(test)]
mod tests;

pub use crate::playing::HARD_M_S;
use railproof_engine::equipment::Table;
use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::collections::BTreeSet;
use std::time::Duration;

/// From this elevation of the cue on a stroke is steep, degrees. Chosen, by common practice: rails and
/// balls in the way ask for less, massé strokes for more.
pub const STEEP_DEG: f64 = 30.0;

/// A computation as long as this or longer is a load to prepare for. Chosen.
pub const LONG_LOAD: Duration = Duration::from_hours(1);

macro_rules! flagged {
    () => {
        "meets the rail faster than its model was checked for, or would hop"
    };
}

/// What a bank with a flag does, in a phrase.
pub const FLAGGED_BANK: &str = flagged!();

/// The meaning of a flag on a bank, in a phrase.
pub const FLAGGED: &str = concat!(flagged!(), ": its verdict is less sure");

/// The same of several, in short.
pub const LESS_SURE: &str = "meet a rail harder than was checked, or would hop";

/// A reason to be careful.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Caution {
    /// A ball starts at [`HARD_M_S`] or more.
    Hard,
    /// A stroke with the cue raised by [`STEEP_DEG`] or more.
    Steep,
    /// A stroke so steep and hard that a real ball would jump.
    Jump,
    /// A stroke whose tip would slip off, played on.
    Miscue,
    /// A ball that would hop at a cushion.
    Hop,
    /// Obstacles on the table.
    Obstacles,
    /// A table whose length is not about twice its width.
    Proportions,
}

impl Caution {
    /// Every one.
    const ALL: [Self; 7] = [
        Self::Hard,
        Self::Steep,
        Self::Jump,
        Self::Miscue,
        Self::Hop,
        Self::Obstacles,
        Self::Proportions,
    ];

    /// The sentence, the same wherever it is shown.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Hard => {
                "Caution: balls hit at 5 m/s (11 mph) or more can leave the table. Mind people \
                 nearby, and keep to the house's rules and to what the table's maker says."
            }
            Self::Steep => {
                "Caution: a cue raised this far (30° or more) can tear the cloth and make the ball jump \
                 off the table. Ask the house first, and mind people nearby."
            }
            Self::Jump => {
                "Caution: a cue that points down so steeply at this speed makes the ball jump by 5 mm or \
                 more, which the model does not follow; it can leave the table. Mind people nearby, and keep to the \
                 house's rules and to what the table's maker says."
            }
            Self::Miscue => {
                "Caution: the tip would slip off here (a miscue), and the ball could go anywhere; it is played \
                 as if the tip held."
            }
            Self::Hop => {
                "Caution: a real ball would hop at the cushion here; the model keeps it on the cloth."
            }
            Self::Obstacles => {
                "Caution: obstacles are simulated only: no bounce off one was measured. Do not put hard things \
                 on a table: they damage balls and cloth and can send a ball off it."
            }
            Self::Proportions => {
                "Caution: this table's length is not about twice its width. Measure both from nose to \
                 nose; if they are right, it counts its diamonds like any other."
            }
        }
    }
}

/// The cautions that apply to something, each once, in a fixed order. In JSON, a list of sentences.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Cautions(BTreeSet<Caution>);

impl Cautions {
    /// Those of a ball that starts at this speed, m/s.
    pub fn of_speed(speed_m_s: f64) -> Self {
        Self::default().with(Caution::Hard, speed_m_s >= HARD_M_S)
    }

    /// Those of a table.
    pub fn of_table(table: &Table) -> Self {
        let longer = table.length_m / (2.0 * table.width_m);
        Self::default().with(Caution::Proportions, !(0.95..=1.05).contains(&longer))
    }

    /// With one more, when it applies.
    #[must_use]
    pub fn with(mut self, caution: Caution, applies: bool) -> Self {
        if applies {
            self.0.insert(caution);
        }
        self
    }

    /// With those of something else.
    #[must_use]
    pub fn and(mut self, other: &Self) -> Self {
        self.add(other);
        self
    }

    /// Adds those of something else.
    pub fn add(&mut self, other: &Self) {
        self.0.extend(&other.0);
    }

    /// True when none applies.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The sentences.
    pub fn lines(&self) -> Vec<String> {
        self.0.iter().map(|caution| caution.words().to_owned()).collect()
    }
}

impl Serialize for Cautions {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.iter().map(|caution| caution.words()))
    }
}

impl<'de> Deserialize<'de> for Cautions {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        let read = Vec::<String>::deserialize(reader)?.into_iter().map(|words| {
            let known = Caution::ALL.into_iter().find(|caution| caution.words() == words);
            known.ok_or_else(|| D::Error::custom("a caution that is none"))
        });
        read.collect::<Result<_, _>>().map(Self)
    }
}

/// The caution of a computation that keeps `threads` threads busy for so long.
pub fn of_load(time: Duration, threads: usize) -> Option<String> {
    (time >= LONG_LOAD).then(|| {
        format!(
            "Caution: {threads} threads will be busy for hours, and a computer under such load gets hot: keep \
             it well ventilated, with nothing over its vents, or use fewer with --threads."
        )
    })
}
