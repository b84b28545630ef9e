//! Expectations of shots hold and fail as they should, and say what was found.

use super::BANK;

#[track_caller]
fn held(script: &str) -> Vec<(bool, String)> {
    let record = crate::scenario::run(&format!("{BANK}{script}"));
    record.expectations.iter().map(|it| (it.held, it.found.clone())).collect()
}

const SHOTS: &str = "local plain = bank { cut = degrees(15) }:play { speed = mps(4), ghost = 'line' }
local b = bank()
local good = b:play { stroke = b:overcut { speed = mps(4) }.stroke }
local frozen = bank { contact = 0.5, off_rail = inches(0), distance = millimetres(1) }:play { speed = mps(3), send = 'line' }
";

#[test]
fn of_one_shot() {
    let found = held(&format!(
        "{SHOTS}expect(good):drops() expect(plain):drops()
expect(plain):goes 'short' expect(plain):goes 'long' expect(plain):misses() expect(good):misses()
expect(plain):shorter_than(good) expect(plain):longer_than(good)
expect(good):misses_within(millimetres(1)) expect(plain):misses_within(millimetres(1))
expect(frozen):kisses() expect(frozen):clears() expect(good):clears() expect(good):kisses()
expect(good):rattles_out() expect(good):scratches()"
    ));
    let kept: Vec<bool> = found.iter().map(|(held, _)| *held).collect();
    let expected = [
        true, false, true, false, true, false, true, false, true, false, true, false, true, false,
        false, false,
    ];
    assert_eq!(kept, expected, "{found:?}");
    assert!(found[1].1.contains("misses the foot-right pocket short"), "{found:?}");
}

#[test]
fn of_many_shots() {
    let found = held(
        "local set = shots { over = { cut = span(degrees(-15), degrees(15), degrees(5)) }, shot = function(p)
  return bank { cut = p.cut }, { speed = mps(4), ghost = 'line' } end }
local along = shots { over = { cut = span(degrees(-15), degrees(15), degrees(5)) }, shot = function(p)
  return bank { cut = p.cut }, { speed = mps(4), send = 'line' } end }
expect(set):miss_falls_along 'cut' expect(set):miss_rises_along 'cut'
expect(set:where { cut = degrees(15) }):goes 'short' expect(set):goes 'short'
expect(set):drops() expect(set):share_within(0, 1) expect(set):share_within(0.99, 1)
local out = { cut = { degrees(10), degrees(15) } }
expect(along:where(out)):longer_than(set:where(out)) expect(along:where(out)):shorter_than(set:where(out))
expect(set:where { cut = degrees(0) }):clears() expect(set):kisses()",
    );
    let kept: Vec<bool> = found.iter().map(|(held, _)| *held).collect();
    let expected = [true, false, true, false, false, true, false, true, false, true, false];
    assert_eq!(kept, expected, "{found:?}");
    assert!(found[4].1.contains("of 7 drop; the first that does not, cut -15 deg"), "{found:?}");
}

/// A shot that never comes to the pocket breaks an expectation about a miss, as such a bank does.
#[test]
fn a_shot_without_a_miss_passes_no_expectation_about_one() {
    let found = held(
        "local set = shots { over = { speed = { mps(0.1), mps(3), mps(4) } }, shot = function(p)
  return bank {}, { speed = p.speed, ghost = 'line' } end }
local comes = set:where { speed = { from = mps(3) } }
expect(set):miss_rises_along 'speed' expect(set):miss_falls_along 'speed'
expect(comes):miss_rises_along 'speed' expect(comes):miss_falls_along 'speed'
expect(set):longer_than(set) expect(set):shorter_than(set)",
    );
    let kept: Vec<bool> = found.iter().map(|(held, _)| *held).collect();
    assert!(kept[2] != kept[3], "it changes one way: {found:?}");
    assert_eq!([kept[0], kept[1], kept[4], kept[5]], [false; 4], "{found:?}");
    assert!(found[0].1.contains("speed 0.1 m/s: never comes to the pocket"), "{found:?}");
}

/// `kissed` means the same of a played shot, an aim, another way and a row of a sweep.
#[test]
fn kissed_means_the_same_wherever_it_stands() {
    let lines = super::printed(
        "local set = shots { over = { contact = { 0.5, 1, 2, 2.5 }, speed = { mps(3), mps(7) } }, shot = function(p)
  return bank { contact = p.contact, off_rail = inches(2) }, { speed = p.speed, send = 'line' } end }
for _, row in set:rows() do
  local b = bank { contact = row.contact, off_rail = inches(2) }
  local aim = b:aim { speed = row.speed }
  local shot = b:play { stroke = aim.stroke }
  local hit = b:kiss { stroke = aim.stroke }
  local told = string.find(shot.sentence, 'double kiss') ~= nil
  print(row.kissed, aim.kissed, shot.kissed, hit.kisses, told)
end",
    );
    let mut seen = std::collections::BTreeSet::new();
    for line in &lines {
        let words: Vec<&str> = line.split_whitespace().collect();
        assert!(words.iter().all(|word| *word == words[0]), "{lines:?}");
        seen.insert(words[0]);
    }
    assert_eq!(seen.len(), 2, "{lines:?}");
}

#[test]
fn of_anything_that_can_be_worked_out() {
    let found = held("expect_that('one is one', 1 == 1) expect_that('one is two', 1 == 2)");
    let kept: Vec<bool> = found.iter().map(|(held, _)| *held).collect();
    assert_eq!(kept, [true, false]);
}
