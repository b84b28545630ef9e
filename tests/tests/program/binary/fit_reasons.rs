//! What a fit says beside its table: why a bank missed, which rail model the banks speak for, whether they agree.

use super::support::Place;

const BANKS: &str = "contact,start,pocket,off_rail,speed,seen,number\n\
                     2,4,foot-right,0,soft,short,0.35\n3.5,7,head-right,0,medium,short,0.4\n\
                     3,6,foot-right,0,firm,short,0.45\n3.5,7,head-right,4 in,firm,short,0.6\n\
                     2.5,5,foot-right,12 in,soft,long,0.65\n2.5,5,head-right,12 in,medium,holds,\n\
                     2.5,5,head-right,12 in,soft,stops,\n";

fn place() -> Place {
    let place = Place::new();
    place.write("banks.csv", BANKS);
    place
}

const FIT: [&str; 6] = ["fit", "banks.csv", "--on", "harbour-hall", "--members", "512"];

#[test]
fn a_miss_has_its_reason_and_a_bank_that_came_or_stopped_has_none() {
    let place = place();
    let why = |line: &str| place.run(&[&FIT[..], &["--why", line]].concat());
    let missed = why("6").code(0);
    for words in [
        "Contact 2.5 from 5, 12 in off, soft",
        "Most likely",
        "Odds that each is the main cause",
        "shoot the same bank again",
    ] {
        assert!(missed.out.contains(words), "no `{words}` in {}", missed.out);
    }
    // Odds are shares of one whole.
    let whole: f64 = missed
        .out
        .lines()
        .filter(|line| line.starts_with("  "))
        .filter_map(|line| line.split(" in 100").next()?.rsplit(' ').next()?.parse::<f64>().ok())
        .sum();
    assert!((whole - 100.0).abs() <= 4.0, "{whole} in {}", missed.out);
    assert!(why("7").code(0).out.contains("came to the pocket"));
    assert!(why("8").code(0).out.contains("too slow"));
    let nothing = why("99").code(2);
    for words in ["line 99 of the file holds no measured bank", "lines 2 to 8"] {
        assert!(nothing.err.contains(words), "no `{words}` in {}", nothing.err);
    }
}

#[test]
fn banks_speak_for_a_rail_model_or_do_not() {
    let place = place();
    let told = place.run(&[&FIT[..4], &["--compare-rail-models"]].concat()).code(0);
    for words in ["nose-and-cloth: ", "nose-only: ", "planar: ", "matters at the pocket"] {
        assert!(told.out.contains(words), "no `{words}` in {}", told.out);
    }
    place.write(
        "none.csv",
        "contact,start,pocket,off_rail,speed,seen,number\n2,4,foot-right,0,soft,,\n",
    );
    let none = place.run(&["fit", "none.csv", "--compare-rail-models"]).code(0);
    assert!(none.out.contains("No bank was measured"), "{}", none.out);
}

#[test]
fn a_script_has_the_same_words() {
    let place = place();
    place.write(
        "ask.lua",
        r#"scenario { shows = "reasons" }
           local hall = equipment "harbour-hall"
           local mine = fit { banks = "banks.csv", on = hall }
           local why = mine:why_missed(6)
           print(why.main, why.slip < 1, why.odds[why.main] > 0)
           print(why.text)
           print(mine.misfit.numbers, mine.misfit.chance <= 1, mine.misfit.smallest_shown > 0)
           for _, model in ipairs(mine:rail_models()) do print(model.name, model.slope.middle > 1) end"#,
    );
    let ran = place.run(&["run", "ask.lua"]).code(0);
    for words in ["Most likely", "nose-only true", "5 true true"] {
        assert!(ran.out.contains(words), "no `{words}` in {}", ran.out);
    }
    place.write(
        "file.lua",
        r#"scenario { shows = "a table that keeps no banks" }
           unmeasured_table(equipment "harbour-hall"):why_missed(6)"#,
    );
    let refused = place.run(&["run", "file.lua"]).code(2);
    assert!(refused.err.contains("needs the measured banks"), "{}", refused.err);
}

const SEEN: [&str; 7] = ["bank", "--contact", "2", "--speed", "medium", "--seen", "long 0.5"];

/// Without any measurement, on a table of one's own, and of a cut; the odds are shares of one whole.
#[test]
fn one_bank_that_was_seen_has_its_reason() {
    let place = place();
    let told = place.run(&SEEN).code(0);
    for words in [
        "Most likely ",
        "Contact 2 from 4.4, frozen, medium, foot-right, seen: long 0.5.",
        "shoot the same bank again",
        "\"? ",
        "times in 100",
        "on which common practice comes true",
    ] {
        assert!(told.out.contains(words), "no `{words}` in {}", told.out);
    }
    assert!(told.out.starts_with("Most likely "), "{}", told.out);
    let odds = |args: &[&str]| -> serde_json::Value {
        let text = place.run(&[&SEEN[..], args, &["--json"]].concat()).code(0).out;
        serde_json::from_str(&text).expect("JSON")
    };
    let tip = odds(&[]);
    let causes = tip["odds"]["causes"].as_object().expect("causes").values();
    let whole: f64 = causes.map(|cause| cause["odds"].as_f64().expect("odds")).sum();
    assert!((whole - 1.0).abs() < 1e-9, "{whole}");
    // A cut is worse aimed and gives more side: what this one shot added is likelier the cause.
    let this_time = |answer: &serde_json::Value| -> f64 {
        let of = |name: &str| answer["odds"]["causes"][name]["odds"].as_f64().expect("odds");
        ["aim", "speed", "side", "roll", "placement"].map(of).iter().sum()
    };
    let cut = odds(&["--sent", "cut"]);
    assert!(this_time(&cut) > 0.2 + this_time(&tip), "{} {}", this_time(&cut), this_time(&tip));
    let wide = odds(&["--known-by", "ranges"]);
    assert!(wide["odds"]["main"].is_string() && wide["members"] == 1024, "{wide}");

    place.run(&[&FIT[..], &["--into", "mine"]].concat()).code(0);
    let mine = place.run(&[&SEEN[..5], &["--seen", "long", "--table", "mine/table.json"]].concat());
    assert!(mine.code(0).out.contains("that your 7 banks allow"), "a table of one's own");
    let far = place.run(&[&SEEN[..5], &["--seen", "long 3"]].concat()).code(0);
    assert!(far.out.contains("no careful shot at this line sends a ball there"), "{}", far.out);
    for seen in ["holds", "touches"] {
        let came = place.run(&[&SEEN[..5], &["--seen", seen]].concat()).code(0);
        assert!(came.out.contains("there is nothing to explain"), "{}", came.out);
        assert!(!came.out.contains("Caution"), "{}", came.out);
    }
    for seen in ["holds", "stops", "long 0.5"] {
        let hard = ["bank", "--contact", "2", "--speed", "9 m/s", "--seen", seen];
        let came = place.run(&hard).code(0);
        assert!(came.out.contains("Caution: balls hit at 5 m/s (11 mph)"), "{}", came.out);
    }
}

#[test]
fn what_was_seen_is_refused_where_it_can_not_be() {
    let place = place();
    for (args, words) in [
        (&["--speed", "soft", "--seen", "longish"][..], "must be `holds`, `touches`, `long`"),
        (&["--speed", "soft", "--seen", "long 0.01"], "is in the mouth"),
        (&["--speed", "soft", "--seen", "long 1 2"], "takes a word and at most a number"),
        (&["--speed", "soft", "--seen", ""], "takes a word and at most a number"),
        (&["--speed", "soft", "--seen", "long x"], "must be a plain number"),
        (&["--speed", "soft", "--seen", "holds 1"], "must be empty for a ball that came"),
        (&["--speed", "soft", "--seen", "long", "--sent", "thrown"], "`tip`, `full` or `cut`"),
        (&["--seen", "long"], "--speed"),
        (&["--speed", "soft", "--sent", "cut"], "--seen"),
        (&["--speed", "soft", "--seen", "long", "--into", "out"], "cannot be used with"),
    ] {
        let refused = place.run(&[&["bank", "--contact", "2"], args].concat()).code(2);
        assert!(refused.err.contains(words), "no `{words}` in {}", refused.err);
    }
}

#[test]
fn a_script_asks_of_a_bank_that_stands_in_no_file() {
    let place = place();
    let lua = |call: &str| {
        let text = format!(
            "scenario {{ shows = \"reasons\" }}\nlocal hall = equipment \"nine-foot\"\n\
             local why = practice_table(hall):why_missed {call}\n\
             print(why.main, why.odds[why.main] > 0.1, why.next ~= nil, why.chance)\nprint(why.text)"
        );
        place.write("why.lua", &text);
        place.run(&["run", "why.lua"])
    };
    let told = lua("{ bank = \"2, 4.4, 0, medium\", seen = \"long 0.5\" }").code(0);
    let flags = place.run(&SEEN).code(0).out;
    // The same question has the same words.
    assert!(told.out.contains(flags.lines().next().expect("an answer")), "{}", told.out);
    lua("{ bank = \"2, 4.4, 0, medium\", seen = \"long 0.5\", sent = \"cut\" }").code(0);
    for (call, words) in [
        ("{ bank = \"2, 4.4, 0, medium\" }", "needs `seen`"),
        ("{ seen = \"long\" }", "needs `bank`"),
        ("{ bank = \"2, 4.4, 0, medium\", seen = \"longish\" }", "must be `holds`"),
        ("{ bank = \"2, 4.4\", seen = \"long\" }", "takes contact, start"),
        ("{ bank = \"2, 4.4, 0, medium\", seen = \"long\", sent = \"thrown\" }", "sent"),
        ("\"long\"", "of one bank ask mine:why_missed {"),
    ] {
        let refused = lua(call).code(2);
        assert!(refused.err.contains(words), "no `{words}` in {}", refused.err);
    }
}
