//! Advice where everything misses, beside what was asked, and on a page to print: each is held to the play itself.

use super::support::{Place, scenario};

/// The number before ` × contact`.
fn slope(text: &str) -> String {
    let (before, _) = text.split_once(" × contact").unwrap_or_else(|| panic!("no slope in {text}"));
    before.rsplit([' ', '\n']).next().unwrap_or_default().to_owned()
}

/// No start and no speed of the rule makes a rolling ball from off the rail: the slope that is told does.
#[test]
fn the_slope_that_is_told_for_a_bank_makes_it() {
    let place = Place::new();
    let speeds = ["soft", "medium", "firm"];
    for (contact, off_rail) in [("2", "10 in"), ("3", "5 in")] {
        let mut told_slopes = Vec::new();
        for speed in speeds {
            let asked = ["bank", "--contact", contact, "--off-rail", off_rail, "--roll", "1"];
            let at = ["--speed", speed];
            let told = place.run(&[&asked[..], &at].concat()).code(0).out;
            assert!(
                told.contains("From ") && told.contains(" it holds at none of the speeds"),
                "{told}"
            );
            let (_, told) = told.split_once("For balls sent like this").expect("a way out");
            let slope = slope(told);
            let held = place.run(&[&asked[..], &at, &["--slope", &slope]].concat()).code(0).out;
            let holds = ["It holds", "It just holds"].iter().any(|it| held.starts_with(it));
            assert!(holds, "{slope}: {held}");
            told_slopes.push(slope);
        }
        // A ball that comes faster wants a start further off, as long as it rolls: the slope is computed.
        let numbers: Vec<f64> = told_slopes.iter().map(|it| it.parse().unwrap()).collect();
        assert!(numbers.windows(2).all(|pair| pair[0] <= pair[1]), "{numbers:?}");
        assert!(numbers[0] < numbers[2], "{numbers:?}");
    }
}

#[test]
fn a_contact_that_no_start_makes_is_answered_with_one_that_has_a_start() {
    let place = Place::new();
    let asked = ["bank", "--speed", "medium", "--contact"];
    let told = place.run(&[&asked[..], &["4"]].concat()).code(0).out;
    let (_, near) = told.split_once("What holds: contact ").unwrap_or_else(|| panic!("{told}"));
    let (contact, start) = near.split_once(" from ").unwrap();
    let start = start.split_once(".\n").unwrap().0;
    let held = place.run(&[&asked[..], &[contact, "--start", start]].concat()).code(0).out;
    assert!(held.starts_with("It holds"), "{contact} from {start}: {held}");
}

/// The share that is told of a map is that of the same map by the slope that is told.
#[test]
fn the_slope_that_is_told_for_a_map_holds_the_share_that_is_told() {
    let text =
        scenario("2.8", "map:draw { x = \"speed\", y = \"contact\", panels = \"off_rail\" }");
    let place = Place::with(&text);
    let told = place.run(&["run", "bank.lua"]).code(0).out.replace("\n  ", " ");
    assert!(told.contains("0 of 12 banks hold"), "{told}");
    let (_, told) = told.split_once("The best slope, ").unwrap_or_else(|| panic!("{told}"));
    let slope = slope(told);
    let (_, share) = told.split_once(" holds ").unwrap();
    let share = share.split_once(" of 12 of these banks").unwrap_or_else(|| panic!("{told}")).0;
    // The picture says it too.
    assert!(place.read("out/bank/map.svg").contains("The best slope, "));
    place.write("bank.lua", &text.replace("2.8", &slope));
    let held = place.run(&["run", "bank.lua"]).code(0).out;
    assert!(held.contains(&format!("of 12 banks hold ({share})")), "{share}: {held}");
    assert!(!held.contains("The best slope"), "{held}");
}

#[test]
fn the_advised_line_is_drawn_beside_one_that_misses() {
    let place = Place::new();
    let asked = ["bank", "--contact", "2", "--off-rail", "10 in", "--speed", "medium"];
    let told = place.run(&[&asked[..], &["--into", "out"]].concat()).code(0).out;
    let start = told.strip_prefix("Aim from ").unwrap().split_once(' ').unwrap().0;
    let drawn = place.read("out/bank.svg");
    assert!(drawn.contains(&format!("advised {start} (diamonds ")), "{start}");
    assert!(drawn.contains("how it runs by the"), "the key");
    // One that holds needs none.
    place.run(&[&asked[..], &["--start", start, "--into", "held"]].concat()).code(0);
    assert!(!place.read("held/bank.svg").contains("advised"));
    // Nor has the picture of a shot that drops, but that of a miss with a remedy.
    let layouts = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/shots/");
    for (layout, missed) in [("thrown-short", true), ("corner-bank", false)] {
        place.run(&["shot", &format!("{layouts}{layout}.yaml"), "--into", "shot"]).code(0);
        let drawn = place.read(&format!("shot/{layout}.svg"));
        assert_eq!(drawn.contains(">advised<"), missed, "{layout}");
    }
}

/// What a page advises at a table's hardest word is cautioned on it, however soft its own bank is.
#[test]
fn a_page_with_a_hard_column_has_the_caution() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    let page = |place: &Place| {
        let told = place.run(&["run", "lesson.lua"]).code(0).out;
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        let drawn = place.read("out/lesson/page.svg");
        [told.contains("can leave the table"), drawn.contains("can leave the table")]
    };
    assert_eq!(page(&place), [false, false]);
    let table = place.read("my-table.yaml");
    let firm = table.lines().find(|line| line.trim().starts_with("firm:")).unwrap();
    place.write("my-table.yaml", &table.replace(firm, "  firm: 6 m/s"));
    assert_eq!(page(&place), [true, true]);
}

/// Where a bank misses and its ball drops all the same, the words say what the picture shows.
#[test]
fn a_ball_that_drops_off_the_rail_that_it_misses_to_is_said_to() {
    let place = Place::new();
    let mut seen = [0, 0];
    for (rail, contact, off_rail, speed) in [
        ("end", "1", "10 in", "medium"),
        ("end", "2", "0", "soft"),
        ("long", "2.5", "12 in", "soft"),
        ("long", "4.4", "0", "soft"),
    ] {
        let asked = ["bank", "--rail", rail, "--contact", contact, "--off-rail", off_rail];
        let asked = [&asked[..], &["--speed", speed, "--into", "out"]].concat();
        let told = place.run(&asked).code(0).out;
        let drops = told.contains("drops off it all the same");
        let drawn = place.read("out/bank.svg");
        assert_eq!(drawn.contains(">drops<"), drops, "{told}");
        // Else it ends at the rail of its miss.
        assert_eq!(drawn.contains(">still moving<"), !drops, "{told}");
        seen[usize::from(drops)] += 1;
    }
    assert!(seen.iter().all(|count| *count > 0), "{seen:?}");
}

/// Every start in the table of a page is the one that the bank there is told.
#[test]
fn a_page_has_the_starts_that_each_bank_is_told() {
    let place = Place::new();
    let asked = ["bank", "--contact", "2", "--off-rail", "10 in", "--speed", "medium"];
    place.run(&[&asked[..], &["--page"]].concat()).code(2).says("add `--into out/page`");
    place.run(&[&asked[..], &["--into", "exact", "--page"]].concat()).code(0);
    let player = ["--player", "club", "--into", "club", "--page"];
    let told = place.run(&[&asked[..], &player].concat()).code(0).out;
    let pages = [place.read("exact/page.svg"), place.read("club/page.svg")];
    for (page, words) in
        pages.iter().zip(["the middle of the mouth", "a club player who is told it makes most"])
    {
        for words in ["Where to start for contact 2", "not to scale", words] {
            assert!(page.contains(words), "no {words:?}");
        }
    }
    assert!(pages[1].contains("A club player who reads contact and start by eye makes it about "));
    assert!(
        told.contains("A club player who reads contact and start by eye makes it about "),
        "{told}"
    );
    let stands = |page: &str, start: &str| {
        page.contains(&format!(">{start}<")) || page.contains(&format!(">{start} *<"))
    };
    let mut of_player = 0;
    for off_rail in ["0", "5 in", "10 in", "20 in"] {
        for speed in ["soft", "medium", "firm"] {
            let bank = ["bank", "--contact", "2", "--off-rail", off_rail, "--speed", speed];
            let told = place.run(&bank).code(0).out;
            let (_, start) = told.rsplit_once(", with most room from ").unwrap();
            let start = start.split_once(".\n").unwrap().0;
            assert!(stands(&pages[0], start), "{start}");
            let told = place.run(&[&bank[..], &["--player", "club"]].concat()).code(0).out;
            // Where another start is hardly better it is not told.
            if let Some((_, start)) = told.split_once("Aim from ") {
                let start = start.split_once(' ').unwrap().0;
                assert!(stands(&pages[1], start), "{start}");
                of_player += 1;
            }
        }
    }
    assert!(of_player >= 4, "{of_player}");
}

/// One start is advised. Where a person's best is another one than the middle of the mouth, `--full` says why.
#[test]
fn one_start_is_advised_and_another_is_explained() {
    let place = Place::new();
    let asked =
        ["bank", "--contact", "3", "--off-rail", "5 in", "--speed", "soft", "--player", "beginner"];
    let told = place.run(&asked).code(0).out;
    let start = told.split_once("Aim from ").unwrap().1.split_once(' ').unwrap().0;
    assert!(told.contains(&format!("; told to start from {start}, about ")), "{told}");
    assert!(!told.contains("comes to the middle"), "{told}");
    let full = place.run(&[&asked[..], &["--full"]].concat()).code(0).out;
    let better = format!("; with this player's errors {start} is better");
    assert!(full.contains(&better) && full.contains(", most of all because "), "{full}");
    // Of a steadier hand the two are one within what anybody reads, wherever the ball lies.
    for off_rail in ["0", "10 in"] {
        let bank = ["bank", "--contact", "2", "--off-rail", off_rail, "--speed", "medium"];
        let start = ["--start", "4.1", "--full"];
        let numbers = |player: &[&str], before: &str| -> f64 {
            let told = place.run(&[&bank[..], &start, player].concat()).code(0).out;
            let number = told.rsplit_once(before).unwrap_or_else(|| panic!("{told}")).1;
            let number = number.split([' ', ',', ';', '\n']).next().unwrap();
            number.trim_end_matches('.').parse().unwrap()
        };
        let middle = numbers(&[], ", with most room from ");
        let best = numbers(&["--player", "steady"], "; from ");
        assert!((middle - best).abs() < 0.03, "{off_rail}: {middle} and {best}");
    }
}

/// The line that a fit ends with is pasted into the scenario that `new` writes.
#[test]
fn the_step_after_a_fit_works_where_it_is_pasted() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    let banks = concat!(env!("CARGO_MANIFEST_DIR"), "/../scenarios/measured/hall.csv");
    let fit = ["fit", banks, "--on", "harbour-hall", "--into", "out"];
    let told = place.run(&fit).code(0).out;
    assert!(!told.contains("members"), "{told}");
    let (_, step) = told.split_once("in your mine.lua: ").unwrap();
    let (step, rest) = step.split_once('\n').unwrap();
    let mine = place.read("mine.lua");
    let old = mine.lines().find(|line| line.starts_with("local ratio")).unwrap();
    place.write("mine.lua", &mine.replace(old, step));
    let ended = place.run(&["run", "mine.lua"]);
    assert!(matches!(ended.code, Some(0 | 1)) && ended.err.is_empty(), "{ended:?}");
    let ask = rest.split_once("railproof ").unwrap().1.lines().next().unwrap();
    let ask = super::support::words(ask);
    let ask: Vec<&str> = ask.iter().map(String::as_str).collect();
    place.run(&ask).code(0);
}

/// Slips of the first hour, each with the words that mend it.
#[test]
fn slips_of_the_first_hour_have_their_help() {
    let place = Place::new();
    place.run(&["new", "lesson"]).code(0);
    place.run(&["bank", "--contact", "2", "--spin", "roll"]).code(2).says("`--roll 1`");
    place.run(&["run", "mine.lua"]).code(2).says("did you mean `lesson/mine.lua`?");
    let mine = place.read("lesson/mine.lua");
    let edited = |from: &str, to: &str, says: &str| {
        assert!(mine.contains(from), "{from}");
        place.write("lesson/edited.lua", &mine.replace(from, to));
        place.run(&["run", "lesson/edited.lua"]).code(2).says(says);
    };
    edited("= \"stun\"", "= 0.5", "roll = 0.5");
    let quotes = "text goes in quotes: equipment \"my-table.yaml\"";
    edited("equipment \"my-table.yaml\"", "equipment my-table.yaml", quotes);
    let shot = place.read("lesson/shot.yaml");
    place.write("lesson/edited.yaml", &shot.replace("{pocket: ", "{pocket "));
    place.run(&["shot", "lesson/edited.yaml"]).code(2).says("write `pocket: foot-right`");
    for field in ["stroke:", "  speed: 4 m/s", "equipment: my-table.yaml"] {
        let line = shot.lines().position(|line| line == field).unwrap() + 1;
        place.write("lesson/edited.yaml", &shot.replacen(field, &field.replacen(':', "", 1), 1));
        let ended = place.run(&["shot", "lesson/edited.yaml"]).code(2);
        let mended = format!("a colon is missing on line {line}: write `{}`", field.trim());
        assert!(ended.err.contains(&mended), "{ended:?}");
        assert!(ended.err.contains(&format!("edited.yaml:{line}:")), "{ended:?}");
    }
}

/// A copy of the first scenario without its stored map runs, draws, and says so in one line.
#[test]
fn a_copy_of_the_first_scenario_draws_in_another_folder() {
    let place = Place::with(include_str!("../../../../scenarios/first.lua"));
    let ended = place.run(&["run", "bank.lua"]).code(2);
    assert_eq!(ended.out.matches("there is no stored map").count(), 1, "{ended:?}");
    assert!(!ended.out.contains("FAILED") && place.path("out/bank/map.png").exists(), "{ended:?}");
}

/// The summary of the first scenario has ten lines, the finding first and the map's path last.
#[test]
fn the_first_summary_has_ten_lines() {
    let place = Place::new();
    place.write("first.lua", include_str!("../../../../scenarios/first.lua"));
    let baseline = include_str!("../../../../scenarios/baselines/first.baseline");
    place.write("baselines/first.baseline", baseline);
    let told = place.run(&["run", "first.lua"]).code(0).out;
    assert!(told.lines().count() <= 10, "{told}");
    assert!(told.starts_with("Frozen: nearly any speed."), "{told}");
    assert!(told.lines().last().unwrap().starts_with("out/first/map.png"), "{told}");
    for kept in ["through the diamonds", "shows: "] {
        assert!(
            place.run(&["run", "first.lua", "--full"]).out.contains(kept) != told.contains(kept)
        );
    }
}

/// Bank or cut is a picture too: the better way as it is meant, the other over it. In brief it tells the ways that are
/// made, in full every one.
#[test]
fn bank_or_cut_leaves_a_picture_of_both() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    let asked = ["shot", "shot.yaml", "--player", "club", "--bank-or-cut"];
    let told = place.run(&[&asked[..], &["--into", "out"]].concat()).code(0).out;
    let drawn = place.read("out/shot-bank-or-cut.svg");
    let first = told.lines().next().unwrap();
    let chance = first.split_once(" pocket ").unwrap().1.split_once(" times").unwrap().0;
    for words in ["Bank it: a club player", ">the cut<", "start 4.4", chance] {
        assert!(drawn.contains(words), "no {words:?}");
    }
    assert!(!std::fs::exists(place.path("out/shot.svg")).unwrap());
    let full = place.run(&[&asked[..], &["--full"]].concat()).code(0).out;
    assert!(told.lines().count() < full.lines().count(), "{told}");
    assert!(full.contains("Against each other, each by strokes of its own: the bank "), "{full}");
    assert!(!full.contains("bank -") && !full.contains("bank −"), "{full}");
    let ways = |text: &str| text.lines().filter(|line| line.contains(" off the ")).count();
    assert!(ways(&full) > ways(&told), "{full}");
}

/// A ball in the way is the reason, before throw or speed.
#[test]
fn a_ball_in_the_way_is_the_reason() {
    let place = Place::new();
    place.run(&["new", "."]).code(0);
    let shot = place.read("shot.yaml");
    let eight =
        "  eight: {between: [object, {pocket: foot-left}], share: 0.5}\n  # The object ball";
    let with = |eight: &str| shot.replacen("  # The object ball", eight, 1);
    place.write("free.yaml", &with(eight));
    assert!(
        place.run(&["shot", "free.yaml"]).code(0).out.starts_with("The object ball drops clean")
    );
    let eight = "  eight: {on_rail: left, number: 2}\n  # The object ball";
    place.write("blocked.yaml", &with(eight));
    let told = place.run(&["shot", "blocked.yaml"]).code(0).out;
    let first = told.lines().next().unwrap();
    assert!(first.to_lowercase().contains("the object ball meets eight on its way"), "{told}");
}

/// What a shot misses by is told in shares that add up, with the whole sum in full only.
#[test]
fn the_sum_of_a_miss_is_told_in_full() {
    let place = Place::new();
    let asked = ["bank", "--contact", "2", "--off-rail", "10 in", "--speed", "medium"];
    let told = place.run(&asked).code(0).out;
    assert!(told.lines().count() <= 6, "{told}");
    assert!(told.contains("; all else −") && !told.contains("In inches: "), "{told}");
    let full = place.run(&[&asked[..], &["--full"]].concat()).code(0).out;
    assert!(full.contains("In inches: ") && full.contains("the cushion's bounce "), "{full}");
    assert!(full.contains(" rail model") && !told.contains(" rail model"), "{full}");
}
