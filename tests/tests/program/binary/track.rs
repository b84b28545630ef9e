//! Films of banks: read, told, refused.

use super::support::Place;
use std::fmt::Write;

const FILM: &str = include_str!("../../../../scenarios/measured/track.csv");

fn place(film: &str) -> Place {
    let place = Place::new();
    place.write("film.csv", film);
    place
}

#[test]
fn a_film_is_told_with_its_ranges() {
    let told = place(FILM).run(&["track", "film.csv", "--on", "harbour-hall"]).code(0).out;
    assert!(told.starts_with("The ball came to the left rail at "), "{told}");
    for words in
        ["nine times in ten", "half the time", "still slid", "kept along it", "a phone that"]
    {
        assert!(told.contains(words), "no `{words}` in {told}");
    }
}

#[test]
fn a_film_is_answered_for_programs() {
    let told =
        place(FILM).run(&["track", "film.csv", "--on", "harbour-hall", "--json"]).code(0).out;
    let answer: serde_json::Value = serde_json::from_str(&told).expect("JSON");
    assert_eq!(answer["rail"], "left");
    assert_eq!(answer["state_at_rail"], "slides");
    let number =
        |key: &str, part: &str, at: usize| answer[key][part][at].as_f64().expect("a number");
    for key in ["speed_before_m_s", "angle_after_rad", "restitution", "along_kept"] {
        let middle = answer[key]["middle"].as_f64().expect("a number");
        assert!(number(key, "ninety", 0) < number(key, "half", 0), "{key}");
        assert!(number(key, "half", 0) < middle && middle < number(key, "half", 1), "{key}");
    }
}

/// Cells in inches, parted by semicolons, say the same as a header in millimetres.
#[test]
fn units_stand_in_the_header_or_in_the_cells() {
    let plain = place(FILM).run(&["track", "film.csv", "--on", "harbour-hall"]).code(0).out;
    let in_cells: String = FILM
        .replace(" (mm)", "")
        .lines()
        .map(|line| match line.split(',').collect::<Vec<_>>()[..] {
            [name, x, y, u, v] if name.starts_with("mark ") => {
                format!("{name};{x} mm;{y} mm;{u};{v}\n")
            }
            _ => format!("{}\n", line.replace(',', ";")),
        })
        .collect();
    let told = place(&in_cells).run(&["track", "film.csv", "--on", "harbour-hall"]).code(0).out;
    assert_eq!(told, plain);
}

#[test]
fn the_template_asks_for_what_is_missing_and_films_have_a_limit() {
    let place = Place::new();
    let text = place.run(&["track", "--template", "--on", "seven-foot"]).code(0).out;
    assert!(text.contains("mark,x (mm),y (mm),u,v") && text.contains("mind people"), "{text}");
    place.write("film.csv", &text);
    place.run(&["track", "film.csv"]).code(2).says("`u` is empty");
    place.run(&["track", "none.csv"]).code(2).says("none.csv");
    place.run(&["track", "film.csv", "--on", "nowhere"]).code(2).says("nowhere");
    let mut long = String::from(FILM.split_once("time (s)").expect("a block of the ball").0);
    long += "time (s),u,v\n";
    for at in 0..100_001 {
        let _ = writeln!(long, "{at},1,1");
    }
    place.write("film.csv", &long);
    place.run(&["track", "film.csv"]).code(2).says("more than 100000 points of the ball");
}
