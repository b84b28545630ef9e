//! Expectations of shots hold and fail as they should, and say what was found.

use super::BANK;

#[track_caller]
fn held(script: &str) -> Vec<(bool, String)> {
    let record = crate::run(&format!("{BANK}{script}"));
    record.expectations.iter().map(|it| (it.held, it.found.clone())).collect()
}

const SHOTS: &str = "local plain = bank { cut = degrees(15) }:play { speed = mps(4), ghost = 'line' }
local b = bank()
local good = b:play { stroke = b:overcut { speed = mps(4) }.stroke }
local frozen = bank { contact = 0.5, off_rail = inches(0), distance = millimetres(1) }:play { speed = mps(3), along = 'line' }
";

#[test]
fn of_one_shot() {
    let found = held(&format!(
        "{SHOTS}expect_shot(good):drops() expect_shot(plain):drops()
expect_shot(plain):misses 'short' expect_shot(plain):misses 'long' expect_shot(plain):misses() expect_shot(good):misses()
expect_shot(plain):shorter_than(good) expect_shot(plain):longer_than(good)
expect_shot(good):misses_within(millimetres(1)) expect_shot(plain):misses_within(millimetres(1))
expect_shot(frozen):kisses() expect_shot(frozen):clears() expect_shot(good):clears() expect_shot(good):kisses()
expect_shot(good):rattles_out() expect_shot(good):scratches()"
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
  return bank { cut = p.cut }, { speed = mps(4), along = 'line' } end }
expect_shots(set):miss_falls_along 'cut' expect_shots(set):miss_rises_along 'cut'
expect_shots(set:where { cut = degrees(15) }):miss 'short' expect_shots(set):miss 'short'
expect_shots(set):drop() expect_shots(set):share_made_within(0, 1) expect_shots(set):share_made_within(0.99, 1)
local out = { cut = { degrees(10), degrees(15) } }
expect_shots(along:where(out)):longer_than(set:where(out)) expect_shots(along:where(out)):shorter_than(set:where(out))
expect_shots(set:where { cut = degrees(0) }):clear() expect_shots(set):kiss()",
    );
    let kept: Vec<bool> = found.iter().map(|(held, _)| *held).collect();
    let expected = [true, false, true, false, false, true, false, true, false, true, false];
    assert_eq!(kept, expected, "{found:?}");
    assert!(found[4].1.contains("of 7 drop; the first that does not, cut -15 deg"), "{found:?}");
}

#[test]
fn of_anything_that_can_be_worked_out() {
    let found = held("expect_that('one is one', 1 == 1) expect_that('one is two', 1 == 2)");
    let kept: Vec<bool> = found.iter().map(|(held, _)| *held).collect();
    assert_eq!(kept, [true, false]);
}
