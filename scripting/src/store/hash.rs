//! A digest of everything a map is computed from, so that two results can be known to answer the same
//! question.

use crate::lua::plain_source;
use crate::plan::{canonical, sha256};
use railproof_engine::rule::NamedRule;
use railproof_engine::sweep::Plan;
use serde_json::{Value, json};

/// SHA-256, in hexadecimal, of the resolved inputs, the rules and the engine's version.
///
/// This is not a plan file's `plan_sha256`, which is of the very text that is played, names, shard
/// size and rows to keep included. The script's text does not count, nor do the names of equipment and rules:
/// the results are the same under another name. The text of a rule function does count, its comments and lines do
/// not.
pub fn question_sha256(plan: &Plan, rules: &[NamedRule]) -> String {
    let mut plan = json!(plan);
    let mut rules: Value = rules.iter().map(|named| json!(named.rule)).collect();
    drop_names(&mut plan);
    drop_names(&mut rules);
    for rule in rules.as_array_mut().into_iter().flatten() {
        if let Some(Value::String(source)) = rule.pointer_mut("/function/source") {
            *source = plain_source(source);
        }
    }
    let matters = json!({
        "engine": railproof_engine::VERSION,
        "plan": plan,
        "rules": rules,
    });
    sha256(canonical(&matters).as_bytes())
}

fn drop_names(value: &mut Value) {
    match value {
        Value::Object(fields) => {
            fields.remove("name");
            fields.values_mut().for_each(drop_names);
        }
        Value::Array(items) => items.iter_mut().for_each(drop_names),
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::testing;
    use railproof_engine::rail::Reading;
    use railproof_engine::rule::Rule;

    #[test]
    fn names_do_not_count_and_numbers_do() {
        let plan = testing::plan(&[1.0, 2.0], &[3.0]);
        let rule = |name: &str, slope| {
            NamedRule::new(
                Some(name.to_owned()),
                Rule::linear(slope, 0.0, Reading::Groove).unwrap(),
            )
        };
        let hash = question_sha256(&plan, &[rule("a", 2.2)]);
        assert_eq!(hash.len(), 64);
        assert_eq!(hash, question_sha256(&plan, &[rule("b", 2.2)]));
        assert_ne!(hash, question_sha256(&plan, &[rule("a", 2.25)]));
        let other = testing::plan(&[1.0, 2.0], &[3.5]);
        assert_ne!(hash, question_sha256(&other, &[rule("a", 2.2)]));
    }
}
