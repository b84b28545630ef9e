//! The pictures of a search: the effort of rules against the balls that they make, the rows of corrections likewise, and the
//! lines that meet in a spot.

mod corrected;
mod spot;

pub use corrected::corrected_picture;
pub use spot::spot_picture;

use crate::discovering::{DiscoverQuestion, Discovered};
use crate::picture::{Band, BandEdges, LinesPicture, NumericAxis, PictureLook, Series};
use crate::telling::capital;

/// The picture.
pub fn front_picture(question: &DiscoverQuestion, found: &Discovered) -> LinesPicture {
    let weights = found.front.weights;
    let hundred = |share: f64| 100.0 * share;
    let at = |place: usize| found.front.rules[place].effort.weighed(weights);
    let told = |place: usize| found.front.rules[place].chance;
    let places = 0..found.front.rules.len();
    let points = places.clone().map(|place| (at(place), hundred(told(place).chance))).collect();
    let edges = places
        .clone()
        .map(|place| BandEdges {
            x: at(place),
            from: hundred(told(place).chance - 2.0 * told(place).error),
            to: hundred(told(place).chance + 2.0 * told(place).error),
        })
        .collect();
    let best = places.map(|place| (at(place), hundred(found.best_possible))).collect();
    let named_at = (0..found.front.rules.len()).filter(|place| *place == found.front.named);
    let named_at = named_at.map(|place| (at(place), hundred(told(place).chance))).collect();
    let named = found.front.rules.get(found.front.named);
    let title = named.map_or_else(String::new, |it| {
        let words = capital(&it.rule.words());
        format!("{words}: {:.0} balls of a hundred", hundred(it.chance.chance))
    });
    LinesPicture {
        title,
        subtitles: vec![
            "How many balls does a rule make, and how hard is it to use?".to_owned(),
            capital(&format!(
                "{}, {}, {} rail to the {} pocket",
                question.asked.player.name,
                question.asked.table.name,
                question.asked.balls.rail.name(),
                question.asked.balls.pocket.name()
            )),
        ],
        x: NumericAxis {
            title: "effort".to_owned(),
            unit: "steps and numbers to remember".to_owned(),
            ..NumericAxis::default()
        },
        y: NumericAxis {
            title: "balls made".to_owned(),
            unit: "of a hundred".to_owned(),
            ..NumericAxis::default()
        },
        series: vec![
            Series { label: "the best rule for its effort".to_owned(), points },
            Series { label: "no such rule can make more of these balls".to_owned(), points: best },
            Series { label: "the rule to take".to_owned(), points: named_at },
        ],
        bands: vec![Band { edges, line: Some(0), label: "twice its error".to_owned() }],
        notes: [
            vec![
                "The chances are for balls that took no part in the search.".to_owned(),
                "A ball that touches a point of the mouth is not counted.".to_owned(),
            ],
            question.asked.cautions().lines(),
        ]
        .concat(),
        look: PictureLook::default(),
    }
}
