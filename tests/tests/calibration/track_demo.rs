//! The demonstration's film is that of a hidden bank, seen by a made-up camera.

use crate::film::{Filming, MARKS, launch};
use railproof_engine::equipment::RailModel;
use railproof_engine::rail::{Line, Pocket, Rail};
use railproof_tests::shipped_equipment;
use std::fmt::Write;
use std::path::Path;

fn text() -> String {
    let table = shipped_equipment("harbour-hall");
    let filming = Filming {
        rail: Rail::Left,
        pocket: Pocket::FootRight,
        line: Line::new(1.8, 3.7),
        launch: launch(0.7, 3.2, 0.0),
        model: RailModel::NoseAndCloth,
        pictures: 120.0,
        click: 1.0,
        is_until_roll: false,
        k1: 0.0,
        marks: &MARKS,
        seed: 20_261_129,
    };
    let film = filming.film(&table);
    let mut text = format!(
        "# INVENTED: no such film exists. A hidden bank in the invented Harbour Hall, seen by a made-up camera \
         and\n# clicked to a pixel (seed {}); a test of this repository makes it.\n\
         # `railproof track scenarios/measured/track.csv --on harbour-hall` says what it tells.\n\
         mark,x (mm),y (mm),u,v\n",
        filming.seed
    );
    for (at, mark) in (1..).zip(&film.marks) {
        let (table, image) = (mark.table * 1e3, mark.image);
        let _ =
            writeln!(text, "mark {at},{:.1},{:.1},{:.1},{:.1}", table.x, table.y, image.x, image.y);
    }
    text += "time (s),u,v\n";
    for point in film.points {
        let _ = writeln!(text, "{:.5},{:.1},{:.1}", point.time_s, point.image.x, point.image.y);
    }
    text
}

#[test]
fn the_film_is_that_of_the_hidden_bank() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/measured/track.csv");
    let made = text();
    if std::env::var_os("RAILPROOF_ACCEPT").is_some() {
        std::fs::write(&path, &made).expect("written");
    }
    let shipped = std::fs::read_to_string(&path).unwrap_or_default();
    assert_eq!(shipped, made, "RAILPROOF_ACCEPT=1 writes it anew");
}
