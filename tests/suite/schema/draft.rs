//! As much of JSON Schema, draft 2020-12, as our schemas use. A keyword it does not know stops the
//! test: what is not checked here may not be claimed there.

use serde_json::Value;
use std::collections::BTreeSet;

/// What was met on the way through a value.
#[derive(Default)]
pub(crate) struct Met {
    /// What is wrong, each with its place.
    pub(crate) faults: Vec<String>,
    /// The named parts of the schema and the places they were held against.
    pub(crate) parts: BTreeSet<(String, String)>,
}

/// Holds a value against a schema.
pub(crate) fn check(schema: &Value, value: &Value) -> Met {
    let mut met = Met::default();
    Draft { whole: schema }.held(schema, value, "", &mut met);
    met
}

struct Draft<'s> {
    whole: &'s Value,
}

impl Draft<'_> {
    fn held(&self, schema: &Value, value: &Value, at: &str, met: &mut Met) {
        let entries = match schema {
            Value::Bool(true) => return,
            Value::Bool(false) => return met.faults.push(format!("{at}: nothing may stand here")),
            Value::Object(entries) => entries,
            other => panic!("no schema: {other}"),
        };
        for (keyword, wanted) in entries {
            let fits = match keyword.as_str() {
                "$schema" | "$id" | "$defs" | "title" | "description" => true,
                "then" | "else" => schema.get("if").is_some(),
                "$ref" => {
                    let name = wanted.as_str().unwrap().strip_prefix("#/$defs/").unwrap();
                    met.parts.insert((name.to_owned(), at.to_owned()));
                    let part = &self.whole["$defs"][name];
                    assert!(part.is_object(), "no part {name}");
                    self.held(part, value, at, met);
                    true
                }
                "if" => {
                    let branch = if self.fits(wanted, value, at) {
                        "then"
                    } else {
                        "else"
                    };
                    if let Some(branch) = schema.get(branch) {
                        self.held(branch, value, at, met);
                    }
                    true
                }
                "allOf" => {
                    for part in wanted.as_array().unwrap() {
                        self.held(part, value, at, met);
                    }
                    true
                }
                "oneOf" => {
                    let parts = wanted.as_array().unwrap().iter();
                    parts.filter(|part| self.fits(part, value, at)).count() == 1
                }
                "not" => !self.fits(wanted, value, at),
                "const" => value == wanted,
                "enum" => wanted.as_array().unwrap().contains(value),
                "type" => is_of(wanted, value),
                "pattern" => value.as_str().is_none_or(|text| matches(wanted, text)),
                "minimum" => value
                    .as_i64()
                    .is_none_or(|number| number >= wanted.as_i64().unwrap()),
                _ => match value {
                    Value::Object(_) => self.map(keyword, wanted, schema, value, at, met),
                    Value::Array(_) => self.list(keyword, wanted, schema, value, at, met),
                    _ => true,
                },
            };
            if !fits {
                met.faults.push(format!("{at}: {keyword} {wanted}"));
            }
        }
    }

    fn map(
        &self,
        keyword: &str,
        wanted: &Value,
        schema: &Value,
        value: &Value,
        at: &str,
        met: &mut Met,
    ) -> bool {
        let map = value.as_object().unwrap();
        let there = |key: &Value| map.contains_key(key.as_str().unwrap());
        match keyword {
            "properties" => {
                for (key, part) in wanted.as_object().unwrap() {
                    if let Some(value) = map.get(key) {
                        self.held(part, value, &format!("{at}/{key}"), met);
                    }
                }
                true
            }
            "additionalProperties" => {
                assert_eq!(wanted, &Value::Bool(false));
                let known = schema["properties"].as_object().unwrap();
                map.keys().all(|key| known.contains_key(key))
            }
            "required" => wanted.as_array().unwrap().iter().all(there),
            "dependentRequired" => wanted.as_object().unwrap().iter().all(|(key, needs)| {
                !map.contains_key(key) || needs.as_array().unwrap().iter().all(there)
            }),
            "minProperties" => map.len() >= number(wanted),
            "maxProperties" => map.len() <= number(wanted),
            "items" | "minItems" | "maxItems" | "contains" | "minContains" | "maxContains" => true,
            other => panic!("no such keyword: {other}"),
        }
    }

    fn list(
        &self,
        keyword: &str,
        wanted: &Value,
        schema: &Value,
        value: &Value,
        at: &str,
        met: &mut Met,
    ) -> bool {
        let list = value.as_array().unwrap();
        match keyword {
            "items" => {
                for (index, value) in list.iter().enumerate() {
                    self.held(wanted, value, &format!("{at}/{index}"), met);
                }
                true
            }
            "minItems" => list.len() >= number(wanted),
            "maxItems" => list.len() <= number(wanted),
            "contains" => {
                let count = list
                    .iter()
                    .filter(|value| self.fits(wanted, value, at))
                    .count();
                let least = schema.get("minContains").map_or(1, number);
                let most = schema.get("maxContains").map_or(usize::MAX, number);
                (least..=most).contains(&count)
            }
            "minContains" | "maxContains" => schema.get("contains").is_some(),
            "properties"
            | "additionalProperties"
            | "required"
            | "dependentRequired"
            | "minProperties"
            | "maxProperties" => true,
            other => panic!("no such keyword: {other}"),
        }
    }

    fn fits(&self, schema: &Value, value: &Value, at: &str) -> bool {
        let mut met = Met::default();
        self.held(schema, value, at, &mut met);
        met.faults.is_empty()
    }
}

fn number(wanted: &Value) -> usize {
    usize::try_from(wanted.as_u64().unwrap()).unwrap()
}

fn is_of(wanted: &Value, value: &Value) -> bool {
    let is = |kind: &str| match kind {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "boolean" => value.is_boolean(),
        "number" => value.is_number(),
        "integer" => value.is_i64() || value.is_u64(),
        other => panic!("no such type: {other}"),
    };
    match wanted {
        Value::String(kind) => is(kind),
        Value::Array(kinds) => kinds.iter().any(|kind| is(kind.as_str().unwrap())),
        other => panic!("no type: {other}"),
    }
}

/// The patterns our schemas use, each as what it says.
fn matches(pattern: &Value, text: &str) -> bool {
    match pattern.as_str().unwrap() {
        "[0-9]" => text.chars().any(|letter| letter.is_ascii_digit()),
        "^[a-z][a-z0-9-]*$" => {
            let spelt = |letter: char| {
                letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '-'
            };
            text.starts_with(|first: char| first.is_ascii_lowercase()) && text.chars().all(spelt)
        }
        r"^\s*\S([^\n]*\S)?\s*$" => !text.trim().is_empty() && !text.trim().contains('\n'),
        other => panic!("no such pattern: {other}"),
    }
}
