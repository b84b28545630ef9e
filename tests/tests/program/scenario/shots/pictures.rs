//! Pictures of shots and of sweeps: what goes into them.

use super::BANK;
use railproof::picture::CellKind;
use railproof::record::Picture;
use railproof_engine::units::INCH_M;

#[test]
fn a_shot_is_drawn_on_its_table_with_its_sentence() {
    let record = crate::scenario::run(&format!(
        "{BANK}local b = bank()
local shot = b:play {{ stroke = b:overcut {{ speed = mps(4) }}.stroke }}
shot:draw {{ name = 'mine', title = 'Mine' }}"
    ));
    assert_eq!(record.drawings[0].name, "mine");
    let Picture::Table(picture) = &record.drawings[0].picture else { panic!() };
    assert_eq!(picture.title, "Mine");
    assert!(picture.verdict.starts_with("The object ball drops"), "{}", picture.verdict);
    assert_eq!(picture.balls.len(), 2);
    assert_eq!(picture.guides.len(), 1);
    assert!(picture.to_svg().unwrap().contains("Mine"));
}

#[test]
fn a_map_has_each_verdict_in_its_cell() {
    let record = crate::scenario::run(&format!(
        "{BANK}local set = shots {{ over = {{ cut = {{ degrees(-20), degrees(0), degrees(20) }}, speed = {{ mps(3), mps(4) }} }},
  shot = function(p) return bank {{ cut = p.cut }}, {{ speed = p.speed, ghost = 'line' }} end }}
set:draw {{ x = 'speed', y = 'cut' }}
set:draw_lines {{ x = 'cut', y = 'miss', series = 'speed' }}"
    ));
    let Picture::Map(map) = &record.drawings[0].picture else { panic!() };
    assert_eq!(map.x.ticks, ["3", "4"]);
    let cut = "angle of the cut: outside (+) or inside (−)";
    assert_eq!((map.y.title.as_str(), map.y.unit.as_str()), (cut, "deg"));
    let rows = &record.shots[0].rows;
    for cut in 0..3 {
        for speed in 0..2 {
            let (cell, row) = (map.panels[0].cells[cut * 2 + speed], &rows[cut * 2 + speed]);
            assert_eq!(cell.miss_mm, row.miss_m().map(|miss| 1e3 * miss));
            match row.verdict_name() {
                "missed-long" => assert!(matches!(cell.kind, CellKind::Long | CellKind::Kisses)),
                "missed-short" => assert!(matches!(cell.kind, CellKind::Short | CellKind::Kisses)),
                "dropped-clean" => assert_eq!(cell.kind, CellKind::Drops),
                _ => assert!(cell.kind.is_of_shot()),
            }
        }
    }
    let Picture::Lines(lines) = &record.drawings[1].picture else { panic!() };
    assert_eq!(lines.series[1].label, "4 m/s");
    assert_eq!(
        lines.series[1].points[2],
        (20.0, rows[5].miss_m().unwrap() * (1e3 / (1e3 * INCH_M)))
    );
}
