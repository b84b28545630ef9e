//! In what two plans differ, told so that a person finds it.

use serde_json::Value;

/// Differences that are told; the rest is counted.
const MOST: usize = 8;
/// Longest value that is shown.
const LONGEST: usize = 60;

/// The differences between the plan `before` and the plan `now` (both as from
/// [`super::SweepPlan::matters`]), a line each.
pub fn differences(before: &Value, now: &Value) -> Vec<String> {
    let mut found = Vec::new();
    differ("", before, now, &mut found);
    let more = found.len().saturating_sub(MOST);
    found.truncate(MOST);
    if more > 0 {
        found.push(format!("and {more} more"));
    }
    found
}

fn differ(path: &str, before: &Value, now: &Value, found: &mut Vec<String>) {
    match (before, now) {
        _ if before == now => {}
        (Value::Object(old), Value::Object(new)) => {
            let keys: std::collections::BTreeSet<&String> = old.keys().chain(new.keys()).collect();
            for key in keys {
                let step = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                let (one, other) = (old.get(key), new.get(key));
                differ(&step, one.unwrap_or(&Value::Null), other.unwrap_or(&Value::Null), found);
            }
        }
        (Value::Array(old), Value::Array(new)) => lists(path, old, new, found),
        _ => found.push(format!("{path}: {} there, {} now", shown(before), shown(now))),
    }
}

fn lists(path: &str, old: &[Value], new: &[Value], found: &mut Vec<String>) {
    let inputs = |list: &[Value]| -> Option<Vec<String>> {
        list.iter().map(|item| item["input"].as_str().map(str::to_owned)).collect()
    };
    // Axes are told by their inputs, whatever their order.
    if let (Some(before), Some(now)) = (inputs(old), inputs(new)) {
        for (name, item) in before.iter().zip(old) {
            match now.iter().position(|other| other == name) {
                Some(at) => {
                    differ(&format!("{path}.{name}"), &item["values"], &new[at]["values"], found);
                }
                None => found.push(format!("{path}.{name}: there, but not now")),
            }
        }
        for name in now.iter().filter(|name| !before.contains(name)) {
            found.push(format!("{path}.{name}: not there, but now"));
        }
        if before != now && found.is_empty() {
            found.push(format!("{path}: in another order"));
        }
        return;
    }
    if old.len() == new.len() {
        for (at, (one, other)) in old.iter().zip(new).enumerate() {
            differ(&format!("{path}[{}]", at + 1), one, other, found);
        }
    } else {
        found.push(format!("{path}: {} entries there, {} now", old.len(), new.len()));
    }
}

fn shown(value: &Value) -> String {
    let text = if value.is_null() { "nothing".to_owned() } else { value.to_string() };
    if text.chars().count() > LONGEST {
        let start: String = text.chars().take(LONGEST).collect();
        format!("{start}…")
    } else {
        text
    }
}
