//! Questions asked of all the tables that one could be, in a scenario.

use super::{all_held, run, try_run};

const HEAD: &str = "local hall = equipment 'harbour-hall' local wide = unmeasured_table(hall) \
     local ratio = rule.linear { slope = 2.2, reading = 'groove' } \
     local function banks(of) return grid { equipment = of, contact = { 2, 2.5 }, off_rail = { inches(0), inches(4) }, \
     speed = mps(3), spin = 'stun' } end ";

#[track_caller]
fn held(body: &str) {
    all_held(&format!("{HEAD}{body}"));
}

#[track_caller]
fn refused(body: &str, words: &[&str]) {
    let fault = try_run(&format!("{HEAD}{body}")).expect_err(body);
    let told = format!("{} {}", fault.message, fault.hint.unwrap_or_default());
    for word in words {
        assert!(told.contains(word), "no `{word}` in `{told}` of {body}");
    }
}

#[test]
fn a_grid_of_all_tables_gives_the_shares_of_one_of_their_middle() {
    held(
        "local all, middle = wide:shares(banks(wide), ratio), wide:shares(banks(wide.middle), ratio) \
         for _, contact in ipairs { 2, 2.5 } do for _, off in ipairs { 0, 4 } do \
         local here = { contact = contact, off_rail = inches(off) } \
         expect_that('the same share', all:at(here).share == middle:at(here).share) end end",
    );
}

#[test]
fn a_ranking_tells_the_shares_of_shares_and_a_rule_twice_ties_with_itself() {
    held(
        "local shares = wide:shares(banks(wide), ratio) local sum = 0 \
         for _, contact in ipairs { 2, 2.5 } do for _, off in ipairs { 0, 4 } do \
         sum = sum + shares:at { contact = contact, off_rail = inches(off) }.share end end \
         local ranking = wide:rank(banks(wide), { ratio, rule.linear { slope = 1.5, reading = 'groove', name = 'far' }, \
         rule.linear { slope = 2.2, reading = 'groove', name = 'again' } }) \
         expect_number(ranking:rows()[1].share):near(sum / 4, 1e-9) \
         expect_that('tied', ranking:rows()[2].tied and ranking:rows()[2].behind_error == 0) \
         expect_that('named so', string.find(ranking:sentence(), 'tied with the first') ~= nil) \
         expect(ranking):ties_with_the_first('again') \
         expect_that('far is not tied', not ranking:rows()[3].tied) \
         expect_number(ranking:rows()[1].rms.from):within(millimetres(0), ranking:rows()[1].rms.middle)",
    );
}

#[test]
fn exact_starts_fit_the_slope_that_a_table_tells_of_itself() {
    // A table's own slope is of the first 512 of its members: near, not the same.
    held(
        "local starts = wide:exact_starts(grid { equipment = wide, contact = { 1.5, 2, 2.5, 3, 3.5 }, off_rail = inches(0), \
         speed = mps(4), spin = 'stun' }) local slope = starts:fit().slope \
         expect_number(slope.middle):near(wide.slope.middle, 0.01) \
         expect_number(slope.from):near(wide.slope.from, 0.02) expect_number(slope.to):near(wide.slope.to, 0.02) \
         local two = starts:at { contact = 2 } \
         expect_that('in order', two.from < two.half_from and two.half_from < two.middle and two.middle < two.half_to \
         and two.half_to < two.to) starts:draw_lines { x = 'contact' }",
    );
}

#[test]
fn a_band_ends_where_the_shares_say_so() {
    held(
        "local band = wide:frontier { banks = grid { equipment = wide, contact = { 2, 2.5 }, \
         off_rail = span(inches(0), inches(16), inches(4)), speed = mps(3), spin = 'stun' }, rule = ratio, \
         along = 'off_rail', tolerance = inches(0.1) } \
         local line = band:at { contact = 2 } local edge = line.edges[#line.edges] \
         local function share(off) return wide:shares(grid { equipment = wide, contact = 2, off_rail = off, speed = mps(3), \
         spin = 'stun' }, ratio):least() end \
         expect_that('fewer beyond', share(edge.at + inches(0.06)) <= edge.share and share(edge.at - inches(0.06)) >= edge.share) \
         expect_number(edge.at):within(edge.from, edge.to) \
         expect(band):misses_between(inches(15), inches(16)) band:draw { x = 'contact' } \
         for _, sentence in ipairs(band:sentences()) do expect_that('told', string.find(sentence, 'misses beyond') ~= nil) end",
    );
}

#[test]
fn facts_that_chose_the_tables_are_marked_and_check_nothing() {
    held(
        "local common = practice_table(hall) \
         for number, fact in ipairs(common.facts) do expect_that('no share of what chose them', fact.chose == (fact.share == nil)) \
         expect_that('wide ones chose nothing', wide.facts[number].chose == false and wide.facts[number].share ~= nil) end \
         expect_that('all of them come true', common.all_choosing.share == 1) \
         expect_number(common.members / common.tried):near(wide.all_choosing.share, 3 * wide.all_choosing.error) \
         expect_that('their own name', common.name ~= wide.name and common.middle.name == common.name)",
    );
}

#[test]
fn claims_that_are_not_so_fail() {
    for claim in [
        "expect(wide:shares(banks(wide), ratio)):is_sure_to_hold()",
        "expect(wide:shares(banks(wide), ratio)):holds_on_at_least(0.99)",
        "expect(wide:rank(banks(wide), { ratio, rule.mirror() })):ranks_first('mirror geometry')",
        "expect(wide:exact_starts(banks(wide))):starts_within(4.3, 4.31)",
        "expect(wide:exact_starts(banks(wide))):slope_within(2.2, 2.21)",
    ] {
        let record = run(&format!("{HEAD}{claim}"));
        let fails: Vec<bool> = record.expectations.iter().map(|one| one.held).collect();
        assert_eq!(fails, [false], "{claim}");
    }
}

#[test]
fn what_one_table_only_can_answer_is_refused_with_what_to_ask_instead() {
    refused("compare(banks(wide), ratio)", &["all the tables that one could be", "mine:shares"]);
    refused("exact_starts(banks(wide))", &["all the tables", "mine:exact_starts"]);
    refused("plan(banks(wide), ratio)", &["all the tables"]);
    refused(
        "frontier { banks = banks(wide), rule = ratio, along = 'off_rail', tolerance = inches(0.1) }",
        &["all the tables", "mine:frontier"],
    );
    refused(
        "bank { equipment = wide, contact = 2, rule = ratio, speed = mps(3) }",
        &["must be one table", "mine.middle"],
    );
    refused(
        "wide:shares(banks(hall), ratio)",
        &["each of these tables has its own", "equipment = mine"],
    );
    refused("wide:shares(banks(wide), { ratio, rule.mirror() })", &["takes one rule", "mine:rank"]);
    refused("wide:rank(banks(wide), ratio)", &["only one rule"]);
    refused(
        "wide:frontier { banks = banks(wide), rule = ratio, along = 'contact', tolerance = 9 }",
        &["`tolerance` must be"],
    );
    refused(
        "wide:shares(grid { equipment = wide, contact = span(1, 3, 0.01), off_rail = span(inches(0), inches(12), inches(0.05)), \
         speed = mps(3), spin = 'stun' }, ratio)",
        &["are too many", "at most 39,062 banks"],
    );
}
