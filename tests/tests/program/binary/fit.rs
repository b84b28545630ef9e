//! Measured banks: fitted, kept as a table, asked again.

use super::support::Place;
use std::path::Path;

const HEAD: &str = "contact,start,pocket,off_rail,speed,seen,number\n";
const SIX: &str = "2,4,foot-right,0,soft,short,0.35\n3.5,7,head-right,0,medium,short,0.4\n\
                   3,6,foot-right,0,firm,short,0.45\n3.5,7,head-right,4 in,firm,short,0.6\n\
                   2.5,5,foot-right,12 in,soft,long,0.65\n2.5,5,head-right,12 in,medium,holds,\n";

fn place(banks: &str) -> Place {
    let place = Place::new();
    place.write("banks.csv", &format!("{HEAD}{banks}"));
    place
}

/// The first number behind these words.
fn number_behind(text: &str, words: &str) -> f64 {
    let (_, behind) = text.split_once(words).unwrap_or_else(|| panic!("no `{words}` in {text}"));
    let number = behind.split([' ', ',', ';']).next().unwrap_or_default();
    number.trim_end_matches('.').parse().unwrap_or_else(|error| panic!("`{number}`: {error}"))
}

#[test]
fn a_table_is_fitted_kept_and_asked() {
    let place = place(SIX);
    let fitted = place.run(&["fit", "banks.csv", "--on", "harbour-hall", "--into", "out"]).code(0);
    for words in [
        "start = ",
        "Without the banks it is ",
        "Not determined by these banks: ",
        "  restitution at ",
        "contact time",
        "nose height",
        "seen short 0.45, expected short",
        "Measure next",
        "mind people nearby",
        "6 banks; --full tells more",
    ] {
        assert!(fitted.out.contains(words), "no `{words}` in {}", fitted.out);
    }
    let asked = ["bank", "--table", "out/table.json", "--contact", "2", "--off-rail", "10 in"];
    let told = place.run(&[&asked[..], &["--speed", "3 m/s"]].concat()).code(0);
    for words in ["of a hundred tables that your 6 banks allow: ", "nine times in ten from "] {
        assert!(told.out.contains(words), "no `{words}` in {}", told.out);
    }
    // JSON says the same.
    let json = place.run(&[&asked[..], &["--speed", "3 m/s", "--json"]].concat()).code(0);
    let answer: serde_json::Value = serde_json::from_str(&json.out).expect("JSON");
    let known = &answer["known_table"];
    assert_eq!(known["banks"], 6);
    let shares = known["verdicts"].as_object().expect("an object").values();
    let whole: f64 = shares.map(|share| share["share"].as_f64().expect("a number")).sum();
    assert!((whole - 1.0).abs() < 1e-9, "{known}");
    let start = known["start_diamonds"]["middle"].as_f64().expect("a number");
    let said = number_behind(&told.out, "through the middle of the mouth: ");
    assert!((start - said).abs() <= 0.005 + 1e-9, "{start} and {said}");
    // Each word of speed is another speed for every player.
    place.run(&asked).code(0);
    // The middle of the table is a profile like others.
    let words = [&["bank", "--on", "out/profile.yaml"][..], &asked[3..], &["--speed", "3 m/s"]];
    let middle = place.run(&words.concat()).code(0);
    let [alone, of_all] = [&middle, &told].map(|it| number_behind(&it.out, "Aim from "));
    assert!((alone - of_all).abs() < 0.05, "{alone} and {of_all}");
    // Of all tables the headline tells on how many the advice holds, which plays them again from there.
    let from = of_all.to_string();
    let there = place.run(&[&asked[..], &["--speed", "3 m/s", "--start", &from]].concat()).code(0);
    let holds = number_behind(&there.out, "allow: hold ");
    let said = number_behind(&told.out, "it holds on ");
    assert!(said > 90.0 && said == holds, "{said} and {holds}");
}

#[test]
fn the_same_banks_give_the_same_bytes_on_any_number_of_threads() {
    let place = place(SIX);
    let mut bytes = Vec::new();
    for (threads, folder) in [("1", "one"), ("2", "two"), ("3", "three")] {
        let mut fit = place.command(&["fit", "banks.csv", "--members", "256", "--into", folder]);
        let ended = fit.env("RAYON_NUM_THREADS", threads).output().expect("it runs");
        let out = String::from_utf8(ended.stdout).expect("text").replace(&format!("{folder}/"), "");
        bytes.push((out, place.read(&format!("{folder}/table.json"))));
    }
    assert!(bytes.iter().all(|other| *other == bytes[0]), "threads change something");
    assert!(bytes[0].0.contains("so the intervals are rough"), "{}", bytes[0].0);
}

#[test]
fn few_or_no_banks_are_answered_with_what_is_known_of_any_table() {
    let template = Place::new();
    let text = template.run(&["fit", "--template"]).code(0).out;
    template.write("banks.csv", &text);
    let few = ["fit", "banks.csv", "--members", "256"];
    let open = template.run(&few).code(0);
    for words in ["No bank was measured", "6 rows have no result yet"] {
        assert!(open.out.contains(words), "no `{words}` in {}", open.out);
    }
    let one = place("2,4,foot-right,0,soft,short,0.35\n").run(&few).code(0);
    assert!(one.out.contains("1 bank say"), "{}", one.out);
    assert!(one.out.contains("measure six"), "{}", one.out);
}

#[test]
fn a_gross_slip_is_named_and_the_others_are_not() {
    let slipped = SIX.replace("foot-right,0,firm,short,0.45", "foot-right,0,firm,long,3.5");
    let told = place(&slipped)
        .run(&["fit", "banks.csv", "--on", "harbour-hall", "--members", "512"])
        .code(0);
    let rows: Vec<&str> = told.out.lines().filter(|line| line.contains("likely a slip")).collect();
    assert_eq!(rows.len(), 1, "{}", told.out);
    assert!(rows[0].contains("line 4:"), "{}", rows[0]);
}

#[test]
fn banks_parted_by_semicolons_or_tabs_are_the_same_banks() {
    let plain = place(SIX).run(&["fit", "banks.csv", "--members", "64"]).code(0);
    for sign in [";", "\t"] {
        let other = Place::new();
        other.write("banks.csv", &format!("{HEAD}{SIX}").replace(',', sign));
        let told = other.run(&["fit", "banks.csv", "--members", "64"]).code(0);
        assert_eq!(told.out, plain.out);
    }
}

#[test]
fn what_is_no_measured_table_is_refused() {
    let place = place(SIX);
    let many = SIX.lines().cycle().take(501).fold(HEAD.to_owned(), |all, row| all + row + "\n");
    place.write("many.csv", &many);
    place.run(&["fit", "many.csv"]).code(2).says("more than 500 banks");
    place.run(&["fit", "none.csv"]).code(2).says("none.csv");
    place.run(&["fit", "banks.csv", "--members", "10"]).code(2).says("it must be from 64 to 65536");
    place.run(&["fit", "banks.csv", "--rail-model", "compliant"]).code(2).says("too slow");
    place.run(&["fit", "banks.csv", "--on", "harbor-hall"]).code(2).says("harbour-hall");
    place.run(&["fit", "banks.csv", "--members", "64", "--into", "out"]).code(0);
    let bank = |file: &str| {
        place.run(&["bank", "--table", file, "--contact", "2", "--speed", "3 m/s"]).code(2)
    };
    bank("none.json").says("`railproof fit` writes such a file");
    bank("banks.csv").says("is not a measured table");
    bank("out").says("out");
    let whole = place.read("out/table.json");
    for (what, from, to) in [
        ("not a measured table", "{\"kind\"", "{\"kynd\""),
        ("another kind or version", "railproof-table", "another-table"),
        ("another kind or version", "\"rolling_resistance\",", "\"rolling_resistanse\","),
        ("is damaged", "\"members\":[[0.", "\"members\":[[7."),
        ("is damaged", "\"members\":[[", "\"members\":[[0.5,"),
        ("is damaged", "\"length_m\":2.54", "\"length_m\":-2.54"),
        ("is damaged", "\"square_speeds\":[", "\"square_speeds\":[1e9,"),
        ("is damaged", "\"square_speeds\":[", "\"square_speeds\":[-1,"),
    ] {
        assert!(whole.contains(from), "no `{from}` in the file");
        place.write("spoilt.json", &whole.replacen(from, to, 1));
        bank("spoilt.json").says(what);
    }
    place.write("cut.json", &whole[..whole.len() / 2]);
    bank("cut.json").says("not a measured table");
    place
        .run(&["bank", "--table", "out/table.json", "--on", "nine-foot", "--contact", "2"])
        .code(2);
}

#[test]
fn a_fit_writes_over_nothing_that_it_reads() {
    let place = place(SIX);
    let banks = place.read("banks.csv");
    place.write("table.json", &banks);
    place
        .run(&["fit", "table.json", "--members", "64", "--into", "."])
        .code(2)
        .says("is read here and can't be written over");
    assert_eq!(place.read("table.json"), banks);
    assert!(!Path::new(&place.path("profile.yaml")).exists());
}

/// The height and width of a PNG.
fn png_size(bytes: &[u8]) -> (u32, u32) {
    assert_eq!(&bytes[..8], b"\x89PNG\r\n\x1a\n");
    let side = |at: usize| u32::from_be_bytes(bytes[at..at + 4].try_into().expect("four bytes"));
    (side(16), side(20))
}

#[test]
fn a_fit_is_drawn_with_every_bank_and_number() {
    let place = place(SIX);
    let fit =
        ["fit", "banks.csv", "--on", "harbour-hall", "--members", "512", "--into", "out", "--full"];
    let told = place.run(&fit).code(0);
    for name in ["banks", "numbers", "pairs", "next"] {
        assert!(told.out.contains(&format!("picture written: out/{name}.svg")), "{}", told.out);
        let (wide, high) =
            png_size(&std::fs::read(place.path(&format!("out/{name}.png"))).expect("a file"));
        assert!(wide > 1000 && high > 500, "{name}: {wide} by {high}");
    }
    // Each bank's words and what was seen of it stand in the picture as in the answer.
    let banks = place.read("out/banks.svg");
    let rows: Vec<&str> = told.out.lines().filter(|line| line.contains(": seen ")).collect();
    assert_eq!(rows.len(), 6, "{}", told.out);
    for row in rows {
        let (set_up, behind) = row.trim().split_once(": seen ").expect("a row");
        let seen = behind.split(", expected").next().expect("words");
        assert!(banks.contains(&format!(">{set_up}<")), "no `{set_up}`");
        assert!(banks.contains(&format!(">{seen}<")), "no `{seen}`");
    }
    // So do the numbers, and as many are undetermined as the answer says.
    let numbers = place.read("out/numbers.svg");
    let (_, untold) = told.out.split_once("Not determined by these banks: ").expect("some");
    let untold = untold.lines().next().expect("a line").trim_end_matches('.').split(", ").count();
    assert_eq!(numbers.matches(">not determined<").count(), untold + 1, "and once in the key");
    let of = numbers.matches(">not determined<").count() - 1;
    let title = |svg: &str| {
        let (_, behind) = svg.split_once("<title").expect("a title");
        behind.split_once('>').expect("open").1.split_once('<').expect("closed").0.to_owned()
    };
    // Thirteen of a member, and restitution at three speeds of the banks.
    let all = 16;
    let said = title(&numbers);
    assert!(
        said == format!("These 6 banks pin down {} of {all} numbers", all - of)
            || (of == all && said == format!("These 6 banks pin down none of {all} numbers")),
        "{said}"
    );
    assert!(place.read("out/pairs.svg").contains("correlation "));
}

#[test]
fn few_many_and_no_banks_are_drawn() {
    let open = place("2,4,foot-right,0,soft,,\n");
    open.run(&["fit", "banks.csv", "--members", "64", "--into", "out"]).code(0);
    assert!(open.read("out/banks.svg").contains("No bank was measured"));
    let one = place("2,4,foot-right,0,soft,short,0.35\n");
    one.run(&["fit", "banks.csv", "--members", "64", "--into", "out"]).code(0);
    assert!(one.read("out/numbers.svg").contains("This bank pins down "));
    let sixty = SIX.repeat(10);
    let many = place(&sixty);
    many.run(&["fit", "banks.csv", "--members", "64", "--into", "out"]).code(0);
    let svg = many.read("out/banks.svg");
    assert!(svg.contains("48 of 60 banks are drawn"));
    assert_eq!(svg.matches(">line ").count(), 48);
}

#[test]
fn hard_banks_are_met_with_the_usual_caution() {
    let caution = "Caution: balls hit at 5 m/s (11 mph)";
    let soft = place("2,4,foot-right,0,4.9 m/s,short,0.35\n");
    let told = soft.run(&["fit", "banks.csv", "--members", "64", "--into", "out"]).code(0);
    assert!(!told.out.contains(caution) && !soft.read("out/banks.svg").contains(caution));
    let hard = place("2,4,foot-right,0,5 m/s,short,0.35\n");
    let told = hard.run(&["fit", "banks.csv", "--members", "64", "--into", "out"]).code(0);
    assert_eq!(told.out.matches(caution).count(), 1, "{}", told.out);
    assert!(hard.read("out/banks.svg").contains(caution));
}

#[test]
fn a_table_stays_in_the_unit_of_its_profile() {
    let place = place("2,4,foot-right,0,soft,short,0.35\n");
    let first = ["fit", "banks.csv", "--members", "64", "--into"];
    // The nine-foot table that ships is in inches.
    place.run(&[&first[..], &["in"]].concat()).code(0);
    let kept = place.read("in/profile.yaml");
    assert!(kept.contains("  length: 100 in"), "{kept}");
    // A few lengths have no number of inches that reads back as the same.
    let (metres, inches) = (kept.matches(" m  #").count(), kept.matches(" in  #").count());
    assert!(inches >= 10 && 5 * metres <= inches, "{kept}");
    place.run(&["bank", "--on", "in/profile.yaml", "--contact", "2", "--speed", "3 m/s"]).code(0);
    // The same in metres.
    let mut metric = String::new();
    for line in kept.lines() {
        let number = line.split_once(": ").and_then(|(key, rest)| {
            let (value, unit) = rest.split_once(" in  #")?;
            Some(format!("{key}: {} m  #{unit}", value.parse::<f64>().ok()? * 0.0254))
        });
        metric += &number.unwrap_or_else(|| line.to_owned());
        metric.push('\n');
    }
    place.write("metric.yaml", &metric);
    place.run(&[&first[..], &["m", "--on", "metric.yaml"]].concat()).code(0);
    let kept = place.read("m/profile.yaml");
    assert!(kept.contains("  length: 2.54 m") && !kept.contains(" in  #"), "{kept}");
}

#[test]
fn a_scenario_draws_its_fit_in_its_own_words() {
    let place = place("2,4,foot-right,0,5 m/s,short,0.35\n3,6,foot-right,0,soft,holds,\n");
    place.write(
        "look.lua",
        "local mine = fit { banks = 'banks.csv', on = equipment 'nine-foot' }\n\
         mine:draw_banks {}\n\
         mine:draw_numbers { title = 'My numbers', legend = false, name = 'told' }\n\
         mine:draw_pairs { subtitle = 'Which go together?' }\n",
    );
    let told = place.run(&["run", "look.lua", "--into", "out"]).code(0);
    assert!(told.out.contains("Caution: balls hit at 5 m/s (11 mph)"), "{}", told.out);
    let banks = place.read("out/banks.svg");
    assert!(banks.contains(">line 2: contact 2 from 4, frozen, 5 m/s, foot-right<"), "{banks}");
    let numbers = place.read("out/told.svg");
    // A title of one's own; the finding stands under it.
    assert!(numbers.contains(">My numbers<") && numbers.contains("These 2 banks pin down "));
    assert!(!numbers.contains("the white line is the middle"), "it has no key");
    assert!(place.read("out/pairs.svg").contains(">Which go together?<"));
    for (call, says) in [
        ("mine:draw_banks { x = 'speed' }", "draw_banks has no option `x`"),
        ("mine:draw_numbers { size = 'huge' }", "size"),
    ] {
        let first = "local mine = fit { banks = 'banks.csv', on = equipment 'nine-foot' }\n";
        place.write("odd.lua", &format!("{first}{call}\n"));
        let told = place.run(&["run", "odd.lua", "--into", "odd"]).code(2);
        assert!(told.out.contains(says), "{}", told.out);
    }
    place.run(&["fit", "banks.csv", "--members", "64", "--into", "kept"]).code(0);
    place.write("file.lua", "measured_table('kept/table.json'):draw_pairs {}\n");
    let told = place.run(&["run", "file.lua", "--into", "odd"]).code(2);
    assert!(told.out.contains("`draw_pairs` needs the measured banks"), "{}", told.out);
}

#[test]
fn a_table_that_nobody_measured_is_answered_by_ranges_or_by_practice() {
    let place = Place::new();
    let asked = ["bank", "--on", "harbour-hall", "--contact", "2", "--speed", "3 m/s", "--json"];
    let start = |by: &str| {
        let told = place.run(&[&asked[..], &["--known-by", by]].concat()).code(0);
        let answer: serde_json::Value = serde_json::from_str(&told.out).expect("JSON");
        let known = &answer["known_table"];
        assert_eq!(known["banks"], 0);
        let ninety = known["start_diamonds"]["ninety"].as_array().expect("two ends").clone();
        ninety[1].as_f64().expect("a number") - ninety[0].as_f64().expect("a number")
    };
    // Practice leaves fewer tables, so the start is known better.
    let (ranges, practice) = (start("ranges"), start("practice"));
    assert!(practice < 0.7 * ranges, "{practice} and {ranges}");
    let told = place.run(&[&asked[..7], &["--known-by", "practice"]].concat()).code(0);
    assert!(told.out.contains("tables on which common practice comes true"), "{}", told.out);
    place.run(&[&asked[..7], &["--known-by", "practise"]].concat()).code(2).says("practice");
    place.run(&[&asked[..7], &["--known-by", "ranges", "--cushion", "x"]].concat()).code(2);
}

/// Of films restitution and its loss are known together far better than apart, whichever else goes with them.
#[test]
fn numbers_that_are_known_together_are_told_in_words() {
    let place = place(SIX);
    place.write("films.csv", include_str!("../../../../scenarios/measured/films.csv"));
    place.write(
        "tied.lua",
        "local mine = fit { films = 'films.csv', on = equipment 'harbour-hall' } \
         local found = false \
         for _, tied in ipairs(mine.tied) do \
           local names = table.concat(tied.numbers, ', ') \
           found = found or (names:find('restitution loss') ~= nil and tied.left < 0.3 and tied.told:find('of the width is left of them together') ~= nil) \
         end \
         expect_that('restitution and its loss', found)",
    );
    place.run(&["run", "tied.lua"]).code(0);
}

#[test]
fn a_table_from_a_file_tells_what_its_fit_told() {
    let place = place(SIX);
    place.run(&["fit", "banks.csv", "--on", "harbour-hall", "--into", "out"]).code(0);
    place.write(
        "same.lua",
        "local here = fit { banks = 'banks.csv', on = equipment 'harbour-hall' } \
         local file = measured_table 'out/table.json' \
         expect_that('slope', here.slope.middle == file.slope.middle and here.slope_before.from == file.slope_before.from) \
         for at, number in ipairs(here.numbers) do expect_that(number.name, number.from == file.numbers[at].from) end \
         expect_that('together', #here.tied == #file.tied) \
         for at, bank in ipairs(here.next) do expect_that(bank, bank == file.next[at]) end \
         expect_that('its own name', file.name == 'Harbour Hall (invented), measured' and file.middle.name == file.name)",
    );
    place.run(&["run", "same.lua"]).code(0);
}

/// The rows of a plan in an answer: words and share.
fn planned(out: &str) -> Vec<(String, String)> {
    let (_, behind) = out.split_once("Measure next").expect("a plan");
    let rows = behind.lines().skip(1).take_while(|line| line.starts_with("  "));
    let row = |line: &str| {
        let (bank, share) = line.trim().split_once(": ").expect("a share");
        (bank.to_owned(), share.to_owned())
    };
    rows.map(row).collect()
}

#[test]
fn the_next_banks_are_written_as_a_sheet_and_as_rows_to_fill_in() {
    let place = place(SIX);
    let fit = ["fit", "banks.csv", "--on", "harbour-hall", "--members", "256", "--into", "out"];
    let told = place.run(&fit).code(0);
    let banks = planned(&told.out);
    assert_eq!(banks.len(), 6, "{}", told.out);
    let sheet = place.read("out/next.svg");
    let rows = place.read("out/next.csv");
    let (head, rows) = rows.split_once('\n').expect("a note");
    assert!(head.starts_with('#'), "{head}");
    assert_eq!(rows.lines().next().map(|line| format!("{line}\n")).as_deref(), Some(HEAD));
    for ((bank, _), row) in banks.iter().zip(rows.lines().skip(1)) {
        let cells: Vec<&str> = row.split(',').collect();
        let [contact, start, pocket, off, speed, "", ""] = cells[..] else { panic!("{row}") };
        let off = if off == "0 in" { "frozen".to_owned() } else { format!("{off} off") };
        assert_eq!(*bank, format!("contact {contact} from {start}, {off}, {speed}, {pocket}"));
        assert!(sheet.contains(&format!(">contact {contact} from {start}, {off}<")), "{row}");
        assert!(sheet.contains(&format!(">{speed}, into {pocket}<")), "{row}");
    }
    assert!(sheet.contains("mind people nearby"));
    // Filled in and put under the others they are measured banks.
    let filled: String =
        rows.lines().skip(1).map(|row| row.replace(",,", ",short,") + "\n").collect();
    place.write("more.csv", &format!("{HEAD}{SIX}{filled}"));
    let more = place.run(&["fit", "more.csv", "--on", "harbour-hall", "--members", "64"]).code(0);
    assert!(more.out.contains("12 banks; "), "{}", more.out);
    // As they stand they are open rows.
    let open = place.run(&["fit", "out/next.csv", "--members", "64"]).code(0);
    assert!(open.out.contains("6 rows have no result yet"), "{}", open.out);
    place
        .run(&["fit", "out/next.csv", "--members", "64", "--into", "out"])
        .code(2)
        .says("is read here and can't be written over");
}

#[test]
fn the_next_banks_are_planned_for_what_is_asked() {
    let place = place(SIX);
    let fit = ["fit", "banks.csv", "--on", "harbour-hall", "--members", "256"];
    let told = |more: &[&str]| place.run(&[&fit[..], more].concat()).code(0).out;
    let usual = planned(&told(&[]));
    let settle = told(&["--settle", "2, 4.4, 12 in, 3 m/s"]);
    let wanted = "to settle where contact 2 from 4.4, 12 in off, 3 m/s, foot-right comes to";
    assert!(settle.contains(wanted), "{settle}");
    let settled = planned(&settle);
    assert_ne!(usual, settled);
    let shares = |banks: &[(String, String)]| -> Vec<u32> {
        let number = |share: &str| share.split(' ').next().expect("a share").parse().expect("one");
        banks.iter().map(|(_, share)| number(share)).collect()
    };
    // Each bank leaves no more than the one before it.
    assert!(shares(&settled).windows(2).all(|pair| pair[1] <= pair[0]), "{settled:?}");
    // A bank by its speed word may be sent itself.
    let itself = told(&["--settle", "1.5, 3.75, 8 in, soft, head-right"]);
    assert!(itself.contains("contact 1.5 from 3.75, 8 in off, soft, head-right: "), "{itself}");
    let apart = told(&["--tell-apart", "cushions/even-bounce", "cushions/steep-fading"]);
    let both = "to tell cushions/even-bounce and cushions/steep-fading apart";
    assert!(apart.contains(both), "{apart}");
    assert!(apart.contains("the chance of naming the right one"), "{apart}");
    // A script says the same.
    place.write(
        "next.lua",
        "local hall = equipment 'harbour-hall'\n\
         local mine = fit { banks = 'banks.csv', on = hall }\n\
         local settle = mine:next_for { settle = '2, 4.4, 12 in, 3 m/s' }\n\
         expect_that('six', #settle == 6 and settle[6].left <= settle[1].left)\n\
         local two = { hall:with(cushion 'cushions/even-bounce'), hall:with(cushion 'cushions/steep-fading') }\n\
         local apart = mine:next_for { tell_apart = two }\n\
         expect_that('surer', apart[6].chance >= apart[1].chance and apart[1].chance > 0.5)\n\
         for at, bank in ipairs(mine:next_for()) do expect_that(bank.bank, bank.bank == mine.next[at]) end\n\
         mine:draw_next {}\n\
         mine:draw_next { tell_apart = two, name = 'apart', title = 'Two cushions' }\n",
    );
    place.run(&["run", "next.lua", "--into", "drawn"]).code(0);
    assert!(place.read("drawn/next.svg").contains(">The next 6 banks, in this order<"));
    assert!(place.read("drawn/apart.svg").contains(">Two cushions<"));
}

#[test]
fn a_purpose_that_makes_no_plan_is_refused() {
    let place = place(SIX);
    let fit = |more: &[&str]| place.run(&[&["fit", "banks.csv"], more].concat()).code(2);
    fit(&["--settle", "2, 4.4"]).says("`--settle` takes contact, start");
    fit(&["--settle", "2, 4.4, 12, 3 m/s"]).says("`off_rail` needs a unit");
    fit(&["--settle", "2, 4.4, 12 in, soft, foot-lft"]).says("did you mean `foot-left`");
    fit(&["--settle", "2, nan, 12 in, soft"]).says("start");
    fit(&["--settle", "2, 4.4, 900 in, soft"]).says("off_rail");
    fit(&["--tell-apart", "cushions/even-bounce"]).says("2 values required");
    let same = ["--tell-apart", "cushions/even-bounce", "cushions/even-bounce"];
    fit(&same).says("are the same cushion in all that a bank shows");
    fit(&["--tell-apart", "even-bouncy", "nine-foot"]).says("even-bounc");
    fit(&["--why", "2", "--settle", "2, 4.4, 0, soft"]).says("cannot be used with");
    place.run(&["fit", "banks.csv", "--members", "64", "--into", "out"]).code(0);
    let first =
        "local hall = equipment 'nine-foot'\nlocal mine = measured_table 'out/table.json'\n";
    for (call, says) in [
        ("mine:next_for { settel = 'x' }", "did you mean `settle`"),
        ("mine:next_for { settle = '2, 4.4' }", "takes contact, start"),
        ("mine:next_for { settle = 3 }", "settle"),
        ("mine:next_for { tell_apart = { hall } }", "takes two tables"),
        ("mine:next_for { tell_apart = { hall, hall } }", "the same cushion"),
        ("mine:next_for { tell_apart = { hall, mine } }", "mine.middle"),
        (
            "mine:next_for { settle = '2, 4.4, 0, soft', tell_apart = { hall, hall } }",
            "one purpose",
        ),
    ] {
        place.write("odd.lua", &format!("{first}{call}\n"));
        let told = place.run(&["run", "odd.lua", "--into", "odd"]).code(2);
        let said = told.out + &told.err;
        assert!(said.contains(says) && said.contains("odd.lua:3"), "{call}: {said}");
    }
}
