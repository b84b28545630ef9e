//! The results along an axis, counted.

/// The axis along which a finding is told.
#[derive(Debug, Clone)]
pub struct FindingAxis {
    /// Its name in a script: `speed`.
    pub name: String,
    /// Its values as numbers; none for words.
    pub amounts: Vec<f64>,
    /// Each value without its unit: `12`.
    pub ticks: Vec<String>,
    /// Each value in words: `12 in off the rail`.
    pub labels: Vec<String>,
    /// Its numbers were given by words, such as soft, which are listed.
    pub by_word: bool,
}

/// The results at one value along the axis.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct FindingCount {
    /// Those that hold.
    pub held: usize,
    /// All that were played.
    pub all: usize,
    /// Those that hold, of which the model is less sure.
    pub less_sure: usize,
    /// Those that can't be played, such as a ball without room.
    pub unplayable: usize,
}

impl FindingCount {
    fn and(self, other: Self) -> Self {
        Self {
            held: self.held + other.held,
            all: self.all + other.all,
            less_sure: self.less_sure + other.less_sure,
            unplayable: self.unplayable + other.unplayable,
        }
    }

    /// Several together.
    pub fn of(counts: impl Iterator<Item = Self>) -> Self {
        counts.fold(Self::default(), Self::and)
    }

    pub(super) fn is_whole(self) -> bool {
        self.held == self.all
    }

    pub(super) fn share(self) -> f64 {
        self.held as f64 / self.all as f64
    }
}

/// Results under one heading.
#[derive(Debug, Clone)]
pub struct FindingGroup {
    /// Its conditions in words; empty when there is one group.
    pub label: String,
    /// For each value along the axis, its results.
    pub counts: Vec<FindingCount>,
    /// The same part by part, by the other axis of a map; nothing where there is none.
    pub across: Option<FindingAcross>,
}

/// Results by two axes.
#[derive(Debug, Clone)]
pub struct FindingAcross {
    /// The other axis.
    pub axis: FindingAxis,
    /// For each value along the first axis, the results at each value along the other.
    pub cells: Vec<Vec<FindingCount>>,
}

impl FindingAcross {
    /// For each value along the other axis, its results.
    pub(super) fn counts(&self) -> Vec<FindingCount> {
        let of = |at: usize| FindingCount::of(self.cells.iter().map(|row| row[at]));
        (0..self.axis.labels.len()).map(of).collect()
    }
}

/// The word after `any`; a name of the scenario's own as it is.
pub(super) fn noun(name: &str) -> String {
    let known = match name {
        "speed" | "lag" => "speed",
        "off_rail" => "distance off the rail",
        "contact" => "contact",
        "start" => "start",
        "roll" | "spin" => "roll",
        "running_side" => "side spin",
        "rule" => "rule",
        "equipment" => "table",
        own => return own.replace(['_', '.'], " "),
    };
    known.to_owned()
}
