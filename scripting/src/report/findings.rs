//! The findings of a run, a line each.

use super::tables;
use crate::record::{Picture, Record};
use crate::telling::{
    THROUGH_THE_DIAMONDS, capital, outcome_counts, shot_counts, without_sureness,
};
use railproof_engine::sweep::Tally;

/// One line for each table of results.
pub(super) fn findings(record: &Record) -> Vec<String> {
    let headlines: Vec<Headline<'_>> =
        record.drawings.iter().filter_map(|it| Headline::of(&it.picture)).collect();
    let mut found: Vec<String> =
        headlines.iter().map(|headline| headline.among(&headlines)).collect();
    // No two titles are alike.
    let alike = |at: usize| (0..at).any(|other| found[other] == found[at]);
    let twins: Vec<usize> = (0..found.len()).filter(|at| alike(*at)).collect();
    for at in twins {
        headlines[at].title.clone_into(&mut found[at]);
    }
    for map in &record.maps {
        let counts = outcome_counts(&Tally::of(&map.rows), map.units);
        let best = tables::best(map);
        found.push(
            best.unwrap_or_else(|| counts.into_iter().take(2).collect::<Vec<_>>().join("; ")),
        );
    }
    for starts in &record.starts {
        found.extend(tables::fits(starts).into_iter().nth(1));
    }
    for shots in &record.shots {
        found.push(shot_counts(&shots.tally()).into_iter().take(2).collect::<Vec<_>>().join("; "));
    }
    for drawing in &record.drawings {
        if let Picture::Table(picture) = &drawing.picture {
            // Under a page's title stands what else there is to say.
            let is_page = picture.numbers.is_some() && picture.title != picture.verdict;
            let stop = if picture.title.ends_with(['.', '?', '!']) { "" } else { "." };
            let title = if is_page { format!("{}{stop} ", picture.title) } else { String::new() };
            found.push(title + &picture.verdict);
        }
    }
    found
}

/// The headline of a picture.
struct Headline<'a> {
    title: &'a str,
    finding: &'a str,
    /// Its conditions, each once.
    conditions: Vec<&'a str>,
}

impl<'a> Headline<'a> {
    fn of(picture: &'a Picture) -> Option<Self> {
        let (title, finding, lines) = match picture {
            Picture::Map(picture) => (&picture.title, &picture.finding, &picture.subtitles),
            Picture::Frontier(picture) => (&picture.title, &picture.finding, &picture.subtitles),
            Picture::Difference(_)
            | Picture::BeforeAfter(_)
            | Picture::Lines(_)
            | Picture::Table(_)
            | Picture::Fit(_) => return None,
        };
        // A sentence is no condition.
        let told = lines.iter().filter(|line| !line.ends_with('.'));
        // The other reading sets nothing apart.
        let conditions = told.flat_map(|line| line.split("; ")).flat_map(|it| it.split(", "));
        let conditions = conditions.filter(|it| !it.starts_with(THROUGH_THE_DIAMONDS));
        Some(Self { title, finding, conditions: conditions.collect() })
    }

    /// The finding with the title that the script gave it, or else with the conditions that set it apart
    /// from the others.
    fn among(&self, all: &[Self]) -> String {
        /// More conditions are in the picture only.
        const MOST: usize = 3;
        // Of two alike, one has a condition behind it.
        let found = [self.finding.to_owned(), without_sureness(self.finding)];
        let is_finding = found.iter().any(|it| self.title.starts_with(it.trim_end_matches('.')));
        let apart: Vec<&str> = if self.finding.is_empty() {
            Vec::new()
        } else if is_finding {
            let common = |it: &&str| all.iter().all(|other| other.conditions.contains(it));
            self.conditions.iter().filter(|it| !common(it)).take(MOST).copied().collect()
        } else {
            vec![self.title.trim_end_matches('.')]
        };
        let told = if self.finding.is_empty() { self.title } else { self.finding };
        // Headings of the finding say theirs.
        let heads = |it: &&str| told.to_lowercase().starts_with(&format!("{}:", it.to_lowercase()));
        let apart: Vec<&str> = apart.into_iter().filter(|it| !heads(it)).collect();
        if apart.is_empty() {
            return told.to_owned();
        }
        // A question is told by its end: the rule, for `Where the rule holds: …`.
        let ends = apart.iter().map(|it| it.rsplit(": ").next().unwrap_or_default());
        let ends = capital(&ends.collect::<Vec<_>>().join(", "));
        // A title that asks ends in its own mark.
        let stop = if ends.ends_with(['?', '!']) { "" } else { "." };
        format!("{ends}{stop} {told}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn headline<'a>(title: &'a str, finding: &'a str, conditions: &[&'a str]) -> Headline<'a> {
        Headline { title, finding, conditions: conditions.to_vec() }
    }

    #[test]
    fn findings_that_differ_by_a_condition_name_it() {
        let all = [
            headline("Holds nowhere.", "Holds nowhere.", &["Where the rule holds: 2 ×", "stun"]),
            headline("Any roll.", "Any roll.", &["Where the rule holds: 3 ×", "stun"]),
            headline("Mine", "", &["stun"]),
        ];
        assert_eq!(all[0].among(&all[..1]), "Holds nowhere.");
        let told: Vec<String> = all.iter().map(|it| it.among(&all)).collect();
        assert_eq!(told, ["2 ×. Holds nowhere.", "3 ×. Any roll.", "Mine"]);
    }

    #[test]
    fn a_title_of_its_own_keeps_the_finding() {
        let all = [headline("Saturday", "Holds nowhere.", &["stun"])];
        assert_eq!(all[0].among(&all), "Saturday. Holds nowhere.");
        let asks = [headline("Does it hold?", "Holds nowhere.", &["stun"])];
        assert_eq!(asks[0].among(&asks), "Does it hold? Holds nowhere.");
    }
}
