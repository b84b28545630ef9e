//! Words that stand for values, the same in scenarios, files and flags.

use railproof_engine::equipment::{FrictionLaw, RailModel};
use railproof_engine::rail::{Pocket, PocketChoice, Rail, RailChoice, Reading};
use railproof_engine::units::SpeedWord;

/// A thing that people choose by its word.
pub(crate) trait Worded: Copy + 'static {
    /// All of them, in the order in which they are listed.
    const ALL: &'static [Self];

    /// The word.
    fn word(self) -> &'static str;
}

macro_rules! worded {
    ($($thing:ty: $all:expr;)+) => {
        $(impl Worded for $thing {
            const ALL: &'static [Self] = &$all;

            fn word(self) -> &'static str {
                self.name()
            }
        })+
    };
}

worded! {
    Rail: Self::ALL;
    RailChoice: Self::ALL;
    Pocket: Self::ALL;
    PocketChoice: Self::ALL;
    Reading: [Self::Groove, Self::Sight];
    RailModel: Self::ALL;
    FrictionLaw: Self::ALL;
    SpeedWord: Self::ALL;
}

/// The words for every one of a thing.
pub(crate) fn words<T: Worded>() -> Vec<&'static str> {
    T::ALL.iter().map(|one| one.word()).collect()
}

/// The one that a word stands for.
pub(crate) fn meant<T: Worded>(word: &str) -> Option<T> {
    T::ALL.iter().copied().find(|one| one.word() == word)
}
