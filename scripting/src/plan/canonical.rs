//! JSON in one form only, and its digest.

use serde_json::{Map, Value};
use sha2::{Digest, Sha256};
use std::fmt::Write;

/// JSON without white space and with keys in order; numbers are the shortest text that reads back
/// the same.
pub fn canonical(value: &Value) -> String {
    let mut text = String::new();
    write_canonical(value, &mut text);
    text
}

fn write_canonical(value: &Value, out: &mut String) {
    match value {
        Value::Object(fields) => {
            let mut keys: Vec<&String> = Map::keys(fields).collect();
            keys.sort();
            out.push('{');
            for (index, key) in keys.into_iter().enumerate() {
                if index > 0 {
                    out.push(',');
                }
                let _ = write!(out, "{}:", Value::from(key.as_str()));
                write_canonical(&fields[key], out);
            }
            out.push('}');
        }
        Value::Array(items) => {
            out.push('[');
            for (index, item) in items.iter().enumerate() {
                if index > 0 {
                    out.push(',');
                }
                write_canonical(item, out);
            }
            out.push(']');
        }
        other => {
            let _ = write!(out, "{other}");
        }
    }
}

/// SHA-256 in hexadecimal.
pub fn sha256(bytes: &[u8]) -> String {
    hexadecimal(&Sha256::digest(bytes))
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(2 * bytes.len()), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn keys_are_in_order_whatever_order_they_came_in() {
        let text = canonical(&json!({"b": [1, 2.5, "x\"y"], "a": {"d": null, "c": true}}));
        assert_eq!(text, r#"{"a":{"c":true,"d":null},"b":[1,2.5,"x\"y"]}"#);
    }

    #[test]
    fn the_digest_is_the_standard_one() {
        // NIST FIPS 180-2, appendix B.1: SHA-256 of "abc".
        let expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(sha256(b"abc"), expected);
    }
}
