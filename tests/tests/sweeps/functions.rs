//! Rules written as Lua functions, inside a plan that is played without its scenario.

use super::support::{Place, Recipe, digests, rows_of, text_of_file, words};
use parquet::record::Field;
use serde_json::Value;

const BANKS: &str = r#"grid {
  equipment = equipment "harbour-hall", contact = span(1, 4, 0.25),
  speed = span(mps(1.5), mps(4), mps(0.5)), name = "bent",
}"#;

/// A scenario with this function as its rule.
pub fn scenario(function: &str) -> String {
    format!(
        "local banks = {BANKS}\nplan(banks, rule.func {{ name = 'bent', start = {function} }})\n"
    )
}

fn digest_of(text: &str) -> String {
    let place = Place::new();
    place.write("bank.lua", text);
    place.run("plan bank.lua --out plan.json").code(0);
    let plan: Value = serde_json::from_str(&text_of_file(&place.path("plan.json"))).unwrap();
    plan["plan_sha256"].as_str().unwrap().to_owned()
}

const PLAIN: &str = "function(c) local k = 2.3 return c * k - 0.02 * c ^ 2 end";

#[test]
fn a_plan_with_a_function_needs_no_scenario() {
    let place = Place::new();
    place.write("bank.lua", scenario(PLAIN));
    place.run("plan bank.lua --out plan.json").code(0);
    place.run("sweep bank.lua --into by-script --quiet").code(0);
    let by_script = digests(&place.path("by-script"));
    std::fs::remove_file(place.path("bank.lua")).unwrap();
    place.run("sweep plan.json --into by-plan --quiet").code(0);
    assert_eq!(digests(&place.path("by-plan")), by_script);
    // The function answers with its own formula.
    for row in rows_of(&place.path("by-plan")) {
        let (Field::Double(contact), Field::Double(start)) =
            (&row["contact_diamonds"], &row["start_diamonds"])
        else {
            panic!("{row:?}");
        };
        let expected = contact * 2.3 - 0.02 * (contact * contact);
        assert!((start - expected).abs() < 1e-12, "{contact}: {start}, not {expected}");
    }
}

#[test]
fn comments_and_layout_do_not_change_the_digest_and_numbers_do() {
    let plain = digest_of(&scenario(PLAIN));
    let laid_out = "function( c ) -- the contact\n\n\t local k=2.3 --[[ a\n ratio ]]\n  \
                    return c*k - 0.02*c^2\nend";
    assert_eq!(digest_of(&scenario(laid_out)), plain);
    let commented = format!("-- Of the invented hall.\n\n{}\n-- the end\n", scenario(PLAIN));
    assert_eq!(digest_of(&commented), plain);
    for other in [
        PLAIN.replace("2.3", "2.31"),
        PLAIN.replace("0.02", "0.020001"),
        PLAIN.replace("^ 2", "^ 3"),
        PLAIN.replace("- 0.02", "+ 0.02"),
    ] {
        assert_ne!(digest_of(&scenario(&other)), plain, "{other}");
    }
    assert_ne!(digest_of(&scenario(PLAIN).replace("mps(1.5)", "mps(2)")), plain);
}

#[test]
fn a_scenario_laid_out_anew_goes_on_in_the_same_folder_with_the_same_bytes() {
    let place = Place::new();
    place.write("bank.lua", scenario(PLAIN));
    place.run("sweep bank.lua --into whole --quiet").code(0);
    place.run("sweep bank.lua --into out --shard 1/2 --quiet").code(0);
    place.write("bank.lua", scenario(&PLAIN.replace("local", "--[[ bent ]]\n  local")));
    place.run("sweep bank.lua --into out --quiet").code(0);
    assert_eq!(digests(&place.path("out")), digests(&place.path("whole")));
}

#[test]
fn words_in_strings_count_although_they_look_like_comments() {
    let with = |word: &str| format!("function(c) return #\"{word}\" * 0.1 + c * 2 end");
    assert_ne!(digest_of(&scenario(&with("-- a"))), digest_of(&scenario(&with("-- bc"))));
    assert_ne!(digest_of(&scenario(&with("a b"))), digest_of(&scenario(&with("a  b"))));
}

#[test]
fn contacts_without_an_answer_are_rows_that_say_why() {
    let place = Place::new();
    let function = "function(c) if c > 2 and c < 3 then error('no chart for this') end \
                    return c * 2.2 end";
    place.write("bank.lua", scenario(function));
    place.run("sweep bank.lua --into out").code(0);
    let rows = rows_of(&place.path("out"));
    // 13 contacts by 6 speeds; of the contacts 2.25, 2.5 and 2.75 have no answer.
    assert_eq!(rows.len(), 13 * 6);
    let (verdicts, failures) = (words(&rows, "verdict"), words(&rows, "failure"));
    for (row, (verdict, failure)) in rows.iter().zip(verdicts.iter().zip(&failures)) {
        let Field::Double(contact) = row["contact_diamonds"] else { panic!("{row:?}") };
        let fails = contact > 2.0 && contact < 3.0;
        assert_eq!(verdict == "failed", fails, "{row:?}");
        assert_eq!(failure.contains("no chart for this"), fails, "{failure}");
        assert_eq!(row["start_diamonds"] == Field::Null, fails, "{row:?}");
        assert_eq!(row["miss_m"] == Field::Null && fails, fails, "{row:?}");
        assert!(!failure.contains(&*place.path("").to_string_lossy()), "a path: {failure}");
    }
    assert_eq!(verdicts.iter().filter(|verdict| *verdict == "failed").count(), 3 * 6);
    let manifest: Value =
        serde_json::from_str(&text_of_file(&place.path("out/manifest.json"))).unwrap();
    assert_eq!(manifest["rules"][0]["failed"], 18);
    place
        .run("sweep bank.lua --into stopped --stop-on-error --quiet")
        .code(3)
        .says("can't be played")
        .says("no chart for this");
    assert!(!place.path("stopped/manifest.json").exists());
    // What was kept until then is of use without the flag.
    place.run("sweep bank.lua --into stopped --quiet").code(0);
    assert_eq!(digests(&place.path("stopped")), digests(&place.path("out")));
}

#[test]
fn a_stop_on_error_without_errors_changes_nothing() {
    let planned = Recipe::grid().placed();
    planned.place.run("sweep plan.json --into out --stop-on-error --quiet").code(0);
    assert_eq!(digests(&planned.place.path("out")), planned.uninterrupted("whole"));
}

#[test]
fn a_function_that_never_ends_ends_the_sweep() {
    for keep in ["rows", "map"] {
        let place = Place::new();
        let function = "function(c) while c > 3 do end return c * 2.2 end";
        place.write("bank.lua", scenario(function));
        let line = format!("sweep bank.lua --into out --keep {keep} --quiet");
        place.run(&line).code(4).says("bent").says("contact 3");
        let left = digests(&place.path("out"));
        assert!(!left.contains_key("manifest.json"), "{left:?}");
        assert!(super::support::unfinished(&left).is_empty(), "{left:?}");
    }
}
