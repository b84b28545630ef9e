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
        "contact 2.5 from 5, 12 in off, soft",
        "most likely",
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
        .filter_map(|line| line.split(" %").next()?.rsplit(' ').next()?.parse::<f64>().ok())
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
    for words in ["most likely", "nose-only true", "5 true true"] {
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
