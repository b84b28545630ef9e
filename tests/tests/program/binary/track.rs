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

/// The lens is found from the demonstration's marks, which were seen through none; a lens that is given is undone.
#[test]
fn a_lens_is_found_or_given() {
    let place = place(FILM);
    let with =
        |args: &[&str]| place.run(&[&["track", "film.csv", "--on", "harbour-hall"], args].concat());
    let found = with(&["--lens", "find", "--picture", "1920x1080"]).code(0).out;
    assert!(
        found.contains("The lens is undone") && found.contains("as the marks tell it"),
        "{found}"
    );
    assert!(!found.contains("a lens that bends straight lines"), "{found}");
    let json = with(&["--lens", "find", "--picture", "1920x1080", "--json"]).code(0).out;
    let answer: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    let number = |at: usize| answer["lens_k1"]["ninety"][at].as_f64().expect("a number");
    assert!(number(0) < 0.0 && 0.0 < number(1), "{json}");
    let given = with(&["--lens", "-0.02", "--picture", "1920 x 1080"]).code(0).out;
    assert!(given.contains("k1 is -0.02, as it was given"), "{given}");
    let none = with(&["--lens", "0", "--picture", "1920x1080"]).code(0).out;
    // A lens that bends nothing changes nothing.
    assert_eq!(none.lines().next(), with(&[]).code(0).out.lines().next());
    for (args, words) in [
        (&["--lens", "find"][..], "--picture"),
        (&["--picture", "1920x1080"], "--lens"),
        (&["--lens", "find", "--picture", "1920"], "write it like 1920x1080"),
        (&["--lens", "find", "--picture", "0x1080"], "`--picture`"),
        (&["--lens", "find", "--picture", "axb"], "`--picture`"),
        (&["--lens", "find", "--picture", "1e9x1080"], "`--picture`"),
        (&["--lens", "0.5", "--picture", "1920x1080"], "from -0.14 to 0.14"),
        (&["--lens", "nan", "--picture", "1920x1080"], "`--lens`"),
        (&["--lens", "wide", "--picture", "1920x1080"], "`find`"),
        (&["--lens", "-0.14", "--picture", "300x200"], "this lens shows nothing there"),
    ] {
        with(args).code(2).says(words);
    }
    // Four marks tell the plane and nothing more.
    let is_kept = |line: &&str| !line.starts_with("mark 5") && !line.starts_with("mark 6");
    let few: Vec<&str> = FILM.lines().filter(is_kept).collect();
    place.write("film.csv", &few.join("\n"));
    with(&["--lens", "find", "--picture", "1920x1080"]).code(2).says("six or more are needed");
}

/// Twice the same film is one row, and a fit takes it without any other bank.
#[test]
fn a_film_becomes_a_row_that_a_fit_takes() {
    let place = place(FILM);
    for _ in 0..2 {
        let told =
            place.run(&["track", "film.csv", "--on", "harbour-hall", "--measure", "rows.csv"]);
        let told = told.code(0).out;
        assert!(told.contains("row written: rows.csv"), "{told}");
    }
    let rows = std::fs::read_to_string(place.path("rows.csv")).expect("rows");
    let rows: Vec<&str> = rows.lines().filter(|line| !line.starts_with('#')).collect();
    assert_eq!(rows.len(), 2, "{rows:?}");
    assert!(rows[1].starts_with("film,right,tip,slides,"), "{rows:?}");
    let fit = ["fit", "--films", "rows.csv", "--on", "harbour-hall", "--members", "256", "--full"];
    let told = place.run(&fit).code(0).out;
    for words in ["line 5 (film): left at ", "contact time: ", "1 bank says little", "1 film"] {
        assert!(told.contains(words), "no `{words}` in {told}");
    }
    // A file of banks is none of films, and neither is a file of other columns.
    let refused = place.run(&["fit", "--films", "film.csv"]).code(2).err;
    assert!(refused.contains("--measure"), "{refused}");
}
