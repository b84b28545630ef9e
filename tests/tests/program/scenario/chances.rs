//! How often a player makes banks, and rules found for them, in a scenario.

use super::all_held;
use crate::binary::support::Place;
use railproof_engine::chance::SkillNumber;

const HEAD: &str = "local hall = equipment 'nine-foot' local me = player 'club' \
     local ratio = rule.linear { slope = 2.2, reading = 'groove', name = 'ratio' } \
     local function banks(of) return grid { equipment = of, contact = { 1.5, 2.5 }, off_rail = { inches(0), inches(4) }, \
     speed = 'medium', spin = 'stun' } end ";

#[track_caller]
fn held(body: &str) {
    all_held(&format!("{HEAD}{body}"));
}

#[test]
fn every_number_of_a_player_is_read_back_as_it_was_given() {
    let numbers: Vec<&str> = SkillNumber::ALL.map(SkillNumber::name).to_vec();
    for name in numbers {
        let value = match name {
            "aim" | "cut" => "milliradians(7)",
            _ => "0.07",
        };
        held(&format!(
            "local other = player {{ like = 'beginner', {name} = {value} }} \
             expect_that('so', other.{name} == {value}) \
             local like = player 'beginner' \
             for _, number in ipairs {{ 'aim', 'speed', 'side', 'reckons_to' }} do if number ~= '{name}' then \
             expect_that('as of the other', other[number] == like[number]) end end"
        ));
    }
}

#[test]
fn a_surer_hand_makes_more_and_an_exact_one_all_that_hold() {
    held(
        "local exact = player { aim = milliradians(0), speed = 0, side = 0, cut = milliradians(0), contact_read = 0, contact_read_off = 0, \
         start_read = 0, start_read_past_end = 0, reckons_to = 0 } \
         local map = compare(banks(hall), ratio) local sure = exact:chances(banks(hall), ratio) \
         for _, contact in ipairs { 1.5, 2.5 } do \
         local here = { contact = contact, off_rail = inches(0) } \
         local holds = map:where(here):share() \
         expect_number(sure:at(here).chance):near(holds, 1e-9) \
         local last = 1.1 for _, name in ipairs { 'steady', 'club', 'beginner' } do \
         local chance = player(name):chances(banks(hall), ratio):at(here).chance \
         expect_that(name, chance < last) last = chance end end",
    );
}

#[test]
fn a_rule_ties_with_itself_and_the_mean_is_that_of_the_ranking() {
    held(
        "local chances = me:chances(banks(hall), ratio, rule.linear { slope = 2.2, reading = 'groove', name = 'again' }, \
         rule.linear { slope = 1.5, reading = 'groove', name = 'far' }) \
         local ranking = chances:rank() \
         expect_number(ranking:rows()[1].chance):near(chances:where { rule = 'ratio' }:mean(), 1e-12) \
         expect_that('tied', ranking:rows()[2].tied and ranking:rows()[2].behind_error == 0) \
         expect_that('far is last', ranking:rows()[3].rule == 'far' and not ranking:rows()[3].tied) \
         expect(ranking):ties_with_the_first('again') \
         expect(chances:where { rule = 'far' }):chance_at_most(0.01) \
         expect_number(chances:where { rule = 'far' }:most()):within(0, 0.01)",
    );
}

#[test]
fn all_the_tables_of_an_ensemble_have_the_chance_between_their_extremes() {
    held(
        "local wide = unmeasured_table(hall) local many = wide:chances(me, banks(wide), ratio) \
         expect_number(many:at { contact = 2.5, off_rail = inches(0) }.chance):within(0.05, 0.9) \
         expect_number(many:at { contact = 2.5, off_rail = inches(0) }.error):within(0.0001, 0.05)",
    );
}

#[test]
fn a_search_names_a_rule_that_a_scenario_can_play() {
    held(
        "local found = discover { on = hall, player = me, balls = 64, corrections = false, straight = true } \
         local named = found.named \
         expect_number(named.slope):within(2, 2.4) \
         expect_that('no better than the best', named.chance < found.best_possible) \
         expect_number(found.tried):near(22 * 11 * 2, 0) \
         local last = 0 for _, one in ipairs(found:rules()) do local effort = one.steps + one.numbers \
         expect_that('more effort', effort > last) last = effort end \
         expect_number(compare(banks(hall), named.rule):count()):near(4, 0)",
    );
}

#[test]
fn the_program_and_a_scenario_say_the_same_of_a_bank() {
    let place = Place::new();
    let told =
        place.run(&["bank", "--contact", "2.5", "--speed", "medium", "--player", "club", "--json"]);
    let answer: serde_json::Value = serde_json::from_str(&told.code(0).out).expect("JSON");
    let chance = answer["player"]["chance"]["share"].as_f64().expect("a number");
    held(&format!(
        "expect_number(me:chances(banks(hall), ratio):at {{ contact = 2.5, off_rail = inches(0) }}.chance):near({chance}, 1e-12)"
    ));
}

/// On many tables a word for a speed is another speed on each, however it is asked.
#[test]
fn the_program_and_a_scenario_say_the_same_of_a_bank_on_many_tables() {
    let place = Place::new();
    let asked = ["bank", "--known-by", "practice", "--contact", "2", "--player", "club", "--json"];
    for (flag, value) in [("medium", "\"medium\""), ("2.7 m/s", "mps(2.7)")] {
        let told = place.run(&[&asked[..], &["--speed", flag]].concat()).code(0).out;
        let answer: serde_json::Value = serde_json::from_str(&told).expect("JSON");
        let share = |it: &serde_json::Value| it["share"].as_f64().expect("a number");
        let chance = share(&answer["player"]["chance"]);
        let holds = share(&answer["known_table"]["verdicts"]["holds"]);
        held(&format!(
            "local mine = practice_table(equipment \"nine-foot\")\n\
             local one = grid {{ equipment = mine, contact = 2, speed = {value} }}\n\
             expect_number(mine:chances(me, one, ratio):at {{ contact = 2 }}.chance):near({chance}, 0.01)\n\
             expect_number(mine:shares(one, ratio):at {{ contact = 2 }}.share):near({holds}, 1e-9)"
        ));
    }
}

#[test]
fn a_search_is_the_same_from_flags_in_json_and_on_any_number_of_threads() {
    let place = Place::new();
    let ask = |more: &[&str]| {
        let flags = ["discover", "--balls", "64", "--straight", "--no-corrections", "--json"];
        place.run(&[&flags[..], more].concat()).code(0).out
    };
    let first = ask(&[]);
    assert_eq!(first, ask(&[]));
    let answer: serde_json::Value = serde_json::from_str(&first).expect("JSON");
    assert_eq!(answer["rules_tried"], 22 * 11 * 2);
    let named = usize::try_from(answer["named"].as_u64().expect("a place")).expect("small");
    let rule = &answer["front"][named];
    assert!((2.0..2.4).contains(&rule["slope"].as_f64().expect("a number")), "{rule}");
    let pictures = place.path("out");
    let told = place.run(&["discover", "--balls", "64", "--straight", "--into", "out"]).code(0).out;
    assert!(pictures.join("front.png").exists() && told.contains("Take this rule: "), "{told}");
}

#[test]
fn a_whole_shot_has_the_same_chance_from_the_program_and_in_a_scenario() {
    let place = Place::new();
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/shots/side-bank.yaml");
    let told = place.run(&["shot", file, "--player", "club", "--json"]).code(0).out;
    let answer: serde_json::Value = serde_json::from_str(&told).expect("JSON");
    let player = &answer["player"];
    let chance = player["chance"]["share"].as_f64().expect("a number");
    let verdicts = player["verdicts"].as_object().expect("shares");
    let sum: f64 = verdicts.values().filter_map(serde_json::Value::as_f64).sum();
    assert!((sum - 1.0).abs() < 1e-12, "{player}");
    let share = |name: &str| verdicts.get(name).and_then(serde_json::Value::as_f64).unwrap_or(0.0);
    let made = share("dropped-clean") + share("dropped-off-a-jaw");
    assert!((chance - made).abs() < 1e-12 && (0.1..1.0).contains(&chance), "{player}");
    // A surer hand makes it more often, one that can't err as the file's own stroke does.
    let of = |name: &str| {
        let told = place.run(&["shot", file, "--player", name, "--json"]).code(0).out;
        let answer: serde_json::Value = serde_json::from_str(&told).expect("JSON");
        answer["player"]["chance"]["share"].as_f64().expect("a number")
    };
    assert!(of("steady") >= chance && chance > of("beginner"));
    let sentence = place.run(&["shot", file, "--player", "club"]).code(0).out;
    assert!(sentence.contains("A club player who tries this stroke makes it "), "{sentence}");
    held(
        "local exact = player { aim = milliradians(0), speed = 0, side = 0, cut = milliradians(0) } \
         for _, cut in ipairs { 0, 10 } do \
         local laid = bank_shot { equipment = hall, contact = 2, rule = ratio, off_rail = inches(4), \
         cue_distance = inches(14), cut = degrees(cut) } \
         local shot = laid:play { speed = mps(4), send = 'line' } \
         local own = shot:chance(me) \
         expect_number(shot:chance(exact).made):near(shot.made and 1 or 0, 0) \
         expect_that('most of what is meant well, little of what is not', (own.made > 0.5) == shot.made) \
         expect_number(own.error):within(0, 0.05) end",
    );
}

#[test]
fn a_layout_without_a_stroke_and_the_stepped_engine_refuse_a_player() {
    let place = Place::new();
    let lone = "equipment: nine-foot\nballs:\n  object: {position: [0 m, 0 m], launch: {speed: 2 m/s, heading: {angle: 0 deg}}}\n";
    place.write("lone.yaml", lone);
    let refused = place.run(&["shot", "lone.yaml", "--player", "club"]).code(2);
    assert!(refused.err.contains("a chance needs a stroke"), "{refused:#?}");
    let unknown = place.run(&["shot", "lone.yaml", "--player", "clubb"]).code(2);
    assert!(unknown.err.contains("`--player`") && unknown.err.contains("club"), "{unknown:#?}");
}

#[test]
fn an_edge_lies_where_a_dense_grid_passes_the_share() {
    // A grid as fine as this takes 301 banks a line; the edges start from six.
    held(
        "local function along(values) return me:chances(grid { equipment = hall, contact = { 2, 3 }, \
         off_rail = values, speed = 'medium', spin = 'stun' }, ratio) end \
         local dense = along(span(inches(0), inches(15), inches(0.05))) \
         local edges = along(span(inches(0), inches(15), inches(3))) \
         for _, share in ipairs { 0.25, 0.5 } do for _, contact in ipairs { 2, 3 } do \
         local found = edges:where { contact = contact }:edges { along = 'off_rail', at = share } \
         expect(found):fall_once() local edge = found:rows()[1] \
         local function chance(place) return dense:at { contact = contact, off_rail = inches(0.05 * place) } end \
         local last = 0 while chance(last).chance >= share do last = last + 1 end \
         local from, to = inches(0.05 * (last - 1)), inches(0.05 * last) \
         expect(found):lie_between(from - 2 * edge.error, to + 2 * edge.error) \
         expect_that('within the step', from <= edge.value and edge.value <= to) \
         local slope = (chance(last - 1).chance - chance(last).chance) / 0.05 \
         local there = along({ edge.value }):at { contact = contact, off_rail = edge.value } \
         expect_number(edge.error / inches(1)):near(there.error / slope, 0.1 * there.error / slope) \
         end end",
    );
}

#[test]
fn edges_of_all_tables_are_less_sure_and_other_inputs_are_looked_along_as_well() {
    held(
        "local wide = unmeasured_table(hall) \
         local function asked(of) return grid { equipment = of, contact = 2.5, \
         off_rail = span(inches(0), inches(12), inches(4)), speed = mps(3), spin = 'stun' } end \
         local one = me:chances(asked(hall), ratio):edges { along = 'off_rail', at = 0.3 } \
         local many = wide:chances(me, asked(wide), ratio):edges { along = 'off_rail', at = 0.3 } \
         expect_number(one:count()):near(1, 0) expect_number(many:count()):near(1, 0) \
         expect_that('less sure', many:rows()[1].error > one:rows()[1].error) \
         local speeds = grid { equipment = hall, contact = 2.5, off_rail = inches(4), \
         speed = span(mps(1.5), mps(3), mps(0.5)), spin = 'stun' } \
         local rises = me:chances(speeds, ratio):edges { along = 'speed', at = 0.3 }:rows() \
         expect_that('rises', #rises == 1 and not rises[1].falls) \
         local none = me:chances(speeds, ratio):edges { along = 'speed', at = 0.99 } \
         expect_number(none:count()):near(0, 0) \
         expect_that('said', none:sentence():find('never passes 99 of a hundred') ~= nil)",
    );
}

#[test]
fn an_edge_that_is_not_there_or_lies_elsewhere_fails_the_claim() {
    let text = format!(
        "{HEAD} local chances = me:chances(banks(hall), ratio):where {{ contact = 2.5 }} \
         expect(chances:edges {{ along = 'off_rail', at = 0.95 }}):lie_between(inches(0), inches(4)) \
         expect(chances:edges {{ along = 'off_rail', at = 0.95 }}):fall_once() \
         expect(chances:edges {{ along = 'off_rail', at = 0.5 }}):lie_between(inches(0), inches(1))"
    );
    let record = super::run(&text);
    assert_eq!(record.expectations.len(), 3);
    assert!(record.expectations.iter().all(|one| !one.held), "{:#?}", record.expectations);
}

#[test]
fn a_map_has_lines_of_equal_chance_only_between_numbers_in_order() {
    let place = Place::new();
    let lined = |contacts: &str, y: &str| {
        let script = format!(
            "local hall = equipment 'nine-foot' local rules = {{ rule.linear {{ slope = 2.2 }}, rule.mirror() }} \
             player('club'):chances(grid {{ equipment = hall, contact = {{ {contacts} }}, off_rail = {{ inches(0), \
             inches(8), inches(16) }}, speed = mps(3), spin = 'stun' }}, table.unpack(rules)):where {{ {y} }}"
        );
        place.write("lines.lua", &script);
        place.run(&["run", "lines.lua"]).code(0);
        let svg = std::fs::read_to_string(place.path("out/lines/chances.svg")).expect("a picture");
        svg.contains("lines: 25, 50, 75, 90")
    };
    let numbers = "rule = '2.2 × contact, groove' }:draw { x = 'off_rail', y = 'contact'";
    assert!(lined("1.5, 2, 3", numbers));
    assert!(lined("3, 2, 1.5", numbers));
    assert!(!lined("2, 1.5, 3", numbers));
    assert!(!lined("2, 3", "contact = 2 }:draw { x = 'off_rail', y = 'rule'"));
}

#[test]
fn corrections_are_the_same_from_flags_and_in_a_scenario() {
    let place = Place::new();
    let flags =
        ["correct", "--balls", "128", "--rolling", "--speeds", "soft,firm", "--side", "0.2"];
    let told = place.run(&[&flags[..], &["--json"]].concat()).code(0).out;
    let answer: serde_json::Value = serde_json::from_str(&told).expect("JSON");
    let named = usize::try_from(answer["named"].as_u64().expect("a place")).expect("small");
    let table = &answer["tables"][named];
    let gain = table["gain"]["share"].as_f64().expect("a number");
    let running = table["add_diamonds"]["running"].as_f64().unwrap_or(0.0);
    assert!(running < 0.0, "{table}");
    let rows = answer["rows"].as_array().expect("rows").len();
    held(&format!(
        "local found = corrections {{ on = hall, player = me, rule = ratio, balls = 128, rolling = true, \
         speeds = {{ 'soft', 'firm' }}, side = 0.2 }} \
         expect_number(found.named.gain):near({gain}, 1e-12) expect_number(found.named.running):near({running}, 1e-12) \
         expect_that('rows', #found.rows == {rows}) \
         for _, row in ipairs(found.rows) do expect_that(row.what, found.named[row.what] == row.add) end"
    ));
    let text = place.run(&flags).code(0).out;
    assert!(text.contains("with running side") && text.contains("soft or firm"), "{text}");
}

#[test]
fn a_player_by_their_own_misses_plays_wherever_a_name_does() {
    let place = Place::new();
    let misses = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/measured/misses.csv");
    place.write("misses.csv", &std::fs::read_to_string(misses).expect("it ships"));
    let flags =
        ["player", "misses.csv", "--on", "harbour-hall", "--name", "Ann", "--out", "ann.yaml"];
    let told = place.run(&flags).code(0).out;
    assert!(told.starts_with("Ann, by 60 shots along 5 lines."), "{told}");
    let asked = ["bank", "--contact", "2", "--speed", "firm", "--player", "ann.yaml", "--json"];
    let answer: serde_json::Value =
        serde_json::from_str(&place.run(&asked).code(0).out).expect("JSON");
    assert_eq!(answer["player"]["name"], "Ann");
    let same = "local found = player_of { banks = 'misses.csv', on = equipment 'harbour-hall', name = 'Ann' } \
                local read = player 'ann.yaml' expect_number(found.player.speed):near(read.speed, 1e-5) \
                expect_that('name', found.player.name == read.name) expect_that('shots', found.shots == 60)";
    place.write("same.lua", same);
    place.run(&["test", "same.lua"]).code(0);
    let few: String = std::fs::read_to_string(misses)
        .expect("it ships")
        .lines()
        .take(6)
        .fold(String::new(), |text, line| text + line + "\n");
    place.write("few.csv", &few);
    let refused = place.run(&["player", "few.csv", "--on", "harbour-hall"]).code(2);
    assert!(refused.err.contains("sent again and again"), "{}", refused.err);
}

#[test]
fn bank_or_cut_of_a_shot_is_that_of_its_layout_with_the_same_stroke() {
    held(
        "local open = bank_shot { equipment = hall, contact = 2, start = 4.4, off_rail = inches(8), cue_distance = inches(12) } \
         local by_shot = open:play { speed = mps(3), send = 'line' }:bank_or_cut { player = me } \
         local by_layout = open:bank_or_cut { player = me, speed = mps(3) } \
         expect_that('which', by_shot.better == by_layout.better) \
         expect_that('sentence', by_shot.sentence == by_layout.sentence) \
         for at, way in ipairs(by_shot.ways) do expect_that('made', way.made == by_layout.ways[at].made) end",
    );
}

#[test]
fn an_aim_that_is_always_off_moves_the_start_by_as_much() {
    held(
        "local here = { equipment = hall, contact = 2.5, off_rail = inches(0), speed = mps(3), spin = 'stun' } \
         local function with(more) local all = {} for k, v in pairs(here) do all[k] = v end \
         for k, v in pairs(more) do all[k] = v end return grid(all) end \
         local off = me:chances(with { aim_error = { milliradians(-20), milliradians(0), milliradians(20) } }, ratio) \
         local straight = me:chances(with {}, ratio):at { contact = 2.5 } \
         expect_number(off:at { aim_error = milliradians(0) }.chance):near(straight.chance, 1e-12) \
         expect_that('it matters', math.min(off:at { aim_error = milliradians(20) }.chance, off:at { aim_error = milliradians(-20) }.chance) < 0.9 * straight.chance) \
         expect_that('either way', off:at { aim_error = milliradians(-20) }.chance ~= off:at { aim_error = milliradians(20) }.chance)",
    );
}

#[test]
fn chances_are_rows_for_a_script_and_in_a_file() {
    let place = Place::new();
    let text = format!(
        "scenario {{ shows = 'rows' }} {HEAD} local chances = me:chances(banks(hall), ratio, \
         rule.linear {{ slope = 2, reading = 'groove', name = 'two' }}) \
         expect_number(#chances:rows()):near(8, 0) \
         local one = chances:where {{ contact = from_to(2, 3), off_rail = inches(4), rule = 'two' }}:rows()[1] \
         expect_number(one.chance):near(chances:at {{ contact = 2.5, off_rail = inches(4), rule = 'two' }}.chance, 0) \
         expect_that('its inputs', one.contact == 2.5 and one.rule == 'two') \
         discover {{ on = hall, balls = 64, straight = true, corrections = false }}"
    );
    std::fs::write(place.path("rows.lua"), text).expect("it can be written");
    place.run(&["run", "rows.lua"]).code(0);
    let read = |name: &str| -> Vec<csv::StringRecord> {
        let mut reader = csv::Reader::from_path(place.path("out/rows").join(name)).expect(name);
        reader.records().collect::<Result<_, _>>().expect("CSV")
    };
    let rows = read("chance-rows.csv");
    assert_eq!(rows.len(), 8);
    for row in &rows {
        let cells: Vec<&str> = row.iter().collect();
        let [.., rule, chance, error] = cells[..] else { panic!("{row:?}") };
        assert!(rule == "ratio" || rule == "two", "{row:?}");
        assert!((0.0..1.0).contains(&chance.parse::<f64>().expect("a number")), "{row:?}");
        assert!((0.0..0.02).contains(&error.parse::<f64>().expect("a number")), "{row:?}");
    }
    let front = read("front-rows.csv");
    assert_eq!(front.iter().filter(|row| row.iter().next_back() == Some("true")).count(), 1);
}

#[test]
fn a_ranking_tells_the_error_of_its_mean_and_not_how_much_its_banks_differ() {
    held(
        "local chances = me:chances(banks(hall), ratio, rule.linear { slope = 2.2001, reading = 'groove', name = 'near' }, \
         rule.linear { slope = 2.3, reading = 'groove', name = 'off' }) \
         local rows = chances:rank():rows() \
         for _, row in ipairs(rows) do expect_number(row.error):within(0, 0.003) end \
         expect_that('within one of a hundred is a tie', rows[2].tied and rows[2].behind_error < 0.001) \
         expect_that('more is none', not rows[3].tied) \
         expect_number(#rows[1].bias_by_number):near(2, 0) \
         local sum = 0 for _, one in ipairs(rows[1].bias_by_number) do sum = sum + one.bias end \
         expect_number(sum / 2):near(rows[1].bias, 1e-12)",
    );
}

#[test]
fn a_map_of_chances_says_its_rule_and_why_a_ball_is_never_made() {
    let place = Place::new();
    let text = format!(
        "scenario {{ shows = 'never' }} {HEAD} local never = grid {{ equipment = hall, pocket = 'side', contact = {{ 1, 4 }}, \
         off_rail = {{ inches(0), inches(4) }}, speed = 'medium', spin = 'stun' }} \
         me:chances(never, rule.mirror {{ name = 'equal angles' }}):draw {{ x = 'contact', y = 'off_rail', name = 'never' }}"
    );
    std::fs::write(place.path("never.lua"), text).expect("it can be written");
    place.run(&["run", "never.lua"]).code(0);
    let drawn = std::fs::read_to_string(place.path("out/never/never.svg")).expect("a picture");
    let words = drawn.replace("</text>", " ");
    for said in ["By equal angles: at best", "in clean from no start number, sent as meant"] {
        assert!(words.contains(said), "{said}");
    }
}

#[test]
fn bank_or_cut_is_expected_of() {
    held(
        "local found = lay { equipment = hall, balls = { cue = { position = { centimetres(-20), centimetres(-40) } }, \
         object = { position = { centimetres(30), centimetres(20) } } } }:bank_or_cut { player = me, speed = mps(3) } \
         expect(found):cut_is_better():cut_made_at_least(0.5):bank_made_at_least(0.4)",
    );
}

#[test]
fn a_spot_is_the_same_from_flags_and_in_a_scenario() {
    let place = Place::new();
    let told = place.run(&["spot", "--contacts", "1.5,2.5", "--speed", "4 m/s", "--json"]);
    let answer: serde_json::Value = serde_json::from_str(&told.code(0).out).expect("JSON");
    let slope = answer["slope"].as_f64().expect("a number");
    held(&format!(
        "local spot = one_spot {{ on = hall, contacts = {{ 1.5, 2.5 }}, rail = 'left', pocket = 'foot-right' }} \
         expect_number(spot.slope):near({slope}, 1e-12) spot:draw {{}} \
         expect_that('nothing has no sign', tostring(spot.number) == '0')"
    ));
    let drawn = place.run(&["spot", "--into", "out"]).code(0).out;
    assert!(place.path("out").join("spot.png").exists());
    assert!(drawn.contains("left rail to the foot-right pocket"), "{drawn}");
}

#[test]
fn a_list_of_few_balls_says_so_and_counts_from_its_last_rule() {
    let place = Place::new();
    let told = |more: &[&str]| {
        let flags = ["discover", "--straight", "--no-corrections"];
        place.run(&[&flags[..], more].concat()).code(0).out
    };
    let few = told(&["--balls", "32"]);
    assert!(few.contains("36 other balls") && few.contains("These are few balls"), "{few}");
    let all = told(&["--balls", "2.56e2", "--side", "0.1", "--hands", "1", "--speeds", "soft"]);
    assert!(!all.contains("These are few balls"), "{all}");
    assert!(all.contains("None of these rules has a correction for side"), "{all}");
    assert!(all.contains("how many fewer than the last of the list"), "{all}");
    assert_eq!(all.matches("Take this rule").count(), 1);
    let why = ["It is the simplest", "No simpler rule"];
    assert_eq!(why.iter().map(|why| all.matches(why).count()).sum::<usize>(), 1, "{all}");
    let drawn = place.run(&["correct", "--balls", "72", "--into", "out"]).code(0).out;
    assert!(place.path("out").join("corrections.svg").exists(), "{drawn}");
}
