//! The JSON Schema of a file format, draft 2020-12, made of the same shapes the reader reads by.

mod json;

use crate::checklist::shapes;
use crate::document::{Fit, Key, Many, Rule, Shape, Takes, Then, Word, Words};
use json::Json;
use std::collections::BTreeMap;

/// What says which draft it is.
const DRAFT: &str = "https://json-schema.org/draft/2020-12/schema";

/// A name others refer to.
const NAME: &str = "^[a-z][a-z0-9-]*$";

/// One line of text.
const SENTENCE: &str = "^\\s*\\S([^\\n]*\\S)?\\s*$";

/// Whatever else it is, a quantity has a digit.
const DIGIT: &str = "[0-9]";

/// The schema of this file, as text.
pub(super) fn schema(file: &'static Shape, format: &str) -> String {
    let mut parts = Parts::default();
    let root = parts.shape(file);
    for shape in shapes(file).into_iter().skip(1) {
        let made = parts.shape(shape);
        parts.0.insert(shape.name, made);
    }
    let head = [
        ("$schema", Json::text(DRAFT)),
        (
            "$id",
            Json::text(&format!("urn:{}", format.replace('/', ":"))),
        ),
        ("title", Json::text(format)),
    ];
    let Json::Map(root) = root else {
        return String::new();
    };
    let defs = parts.0.into_iter();
    let defs = defs.map(|(name, part)| (name.to_owned(), part)).collect();
    let whole = head.map(|(key, value)| (key.to_owned(), value));
    let whole = whole.into_iter().chain(root);
    let whole = whole.chain([("$defs".to_owned(), Json::Map(defs))]);
    Json::Map(whole.collect()).page()
}

/// Keys with what stands behind them.
type Entries = Vec<(&'static str, Json)>;

/// Shapes and lists of words that are named in the schema, by name.
#[derive(Default)]
struct Parts(BTreeMap<&'static str, Json>);

impl Parts {
    fn shape(&mut self, shape: &Shape) -> Json {
        let keys = shape.keys.iter();
        let properties = keys.map(|key| (key.name, self.key(key))).collect();
        let must = shape.keys.iter().filter(|key| key.must);
        let mut made = vec![
            ("description", Json::text(shape.about)),
            ("type", Json::text("object")),
            ("properties", Json::map(properties)),
            ("required", Json::texts(must.map(|key| key.name))),
            ("additionalProperties", Json::Flag(false)),
        ];
        let rules: Vec<Json> = shape
            .rules
            .iter()
            .flat_map(|rule| rules(shape, rule))
            .collect();
        if !rules.is_empty() {
            made.push(("allOf", Json::List(rules)));
        }
        Json::map(made)
    }

    fn key(&mut self, key: &Key) -> Json {
        let help = ("description", Json::text(key.help));
        Json::map([vec![help], self.takes(key.takes)].concat())
    }

    fn takes(&mut self, takes: Takes) -> Entries {
        match takes {
            Takes::Exactly(text) => vec![("const", Json::text(text))],
            Takes::Name => text(NAME),
            Takes::Sentence => text(SENTENCE),
            Takes::Flag => vec![("type", Json::text("boolean"))],
            Takes::Count => vec![("type", Json::text("integer")), ("minimum", Json::Whole(1))],
            Takes::Quantity => vec![
                ("type", Json::texts(["string", "number"])),
                ("pattern", Json::text(DIGIT)),
            ],
            Takes::Word(words) => self.word(words),
            Takes::WordOf(all) => word_of(all()),
            Takes::List(many) => self.list(many),
            Takes::Map(shape) => vec![reference(shape.name)],
            Takes::ByKey(by, last) => by_key(by, last),
            Takes::QuantityOr(map) => vec![
                ("if", Json::map(vec![("type", Json::text("object"))])),
                ("then", Json::map(self.takes(*map))),
                ("else", Json::map(self.takes(Takes::Quantity))),
            ],
        }
    }

    fn word(&mut self, words: &Words) -> Entries {
        let all = (words.all)();
        self.0
            .entry(words.name)
            .or_insert_with(|| Json::map(one_of(&all)));
        vec![reference(words.name)]
    }

    fn list(&mut self, many: &Many) -> Entries {
        let mut made = vec![
            ("type", Json::text("array")),
            ("items", Json::map(self.takes(many.of))),
        ];
        if many.least > 0 {
            made.push(("minItems", Json::Whole(many.least)));
        }
        made.extend(many.most.map(|most| ("maxItems", Json::Whole(most))));
        let among = many.among.iter().map(|among| {
            let says = says(among.key, value(many.of, among.key, among.is));
            let mut held = vec![
                ("contains", says),
                ("minContains", Json::Whole(among.least)),
            ];
            held.extend(among.most.map(|most| ("maxContains", Json::Whole(most))));
            Json::map(held)
        });
        let among: Vec<Json> = among.collect();
        if !among.is_empty() {
            made.push(("allOf", Json::List(among)));
        }
        made
    }
}

fn text(pattern: &str) -> Entries {
    vec![
        ("type", Json::text("string")),
        ("pattern", Json::text(pattern)),
    ]
}

fn reference(name: &str) -> (&'static str, Json) {
    ("$ref", Json::text(&format!("#/$defs/{name}")))
}

/// The words alone, or each with what it means.
fn one_of(all: &[Word]) -> Entries {
    if all.iter().all(|word| word.means.is_empty()) {
        return vec![("enum", Json::texts(all.iter().map(|word| word.word)))];
    }
    let meant = all.iter().map(|word| {
        Json::map(vec![
            ("const", Json::text(word.word)),
            ("description", Json::text(&word.means)),
        ])
    });
    vec![("oneOf", Json::List(meant.collect()))]
}

fn word_of(all: Vec<(&'static str, Vec<Word>)>) -> Entries {
    let properties = all.into_iter();
    let properties = properties.map(|(word, all)| (word, Json::map(one_of(&all))));
    vec![
        ("type", Json::text("object")),
        ("properties", Json::map(properties.collect())),
        ("additionalProperties", Json::Flag(false)),
        ("minProperties", Json::Whole(1)),
        ("maxProperties", Json::Whole(1)),
    ]
}

fn by_key(by: &'static [(&'static str, &'static Shape)], last: &'static Shape) -> Entries {
    match by {
        [] => vec![reference(last.name)],
        [(key, shape), rest @ ..] => vec![
            ("if", Json::map(vec![("required", Json::texts([*key]))])),
            ("then", Json::map(vec![reference(shape.name)])),
            ("else", Json::map(by_key(rest, last))),
        ],
    }
}

fn rules(shape: &Shape, rule: &Rule) -> Vec<Json> {
    let when = |key: &'static str, is: &[&str]| {
        let is = is.iter().map(|word| value_in(shape, key, word));
        says(key, Json::map(vec![("enum", Json::List(is.collect()))]))
    };
    match rule {
        Rule::OneOf(keys) => {
            let one = |key: &&str| Json::map(vec![("required", Json::texts([*key]))]);
            let keys = keys.iter().map(one).collect();
            vec![Json::map(vec![("oneOf", Json::List(keys))])]
        }
        Rule::Beside(key, other) => {
            let needs = Json::map(vec![(*key, Json::texts([*other]))]);
            vec![Json::map(vec![("dependentRequired", needs)])]
        }
        Rule::When(key, is, then) => vec![Json::map(vec![
            ("if", when(key, is)),
            ("then", held(shape, *then)),
        ])],
        Rule::Unless(key, is, then) => vec![Json::map(vec![
            ("if", when(key, is)),
            ("else", held(shape, *then)),
        ])],
        Rule::Fitting(fits) => fitting(fits()),
    }
}

fn held(shape: &Shape, then: Then) -> Json {
    let there = |key: &str| Json::map(vec![("required", Json::texts([key]))]);
    let not = |what: Json| Json::map(vec![("not", what)]);
    match then {
        Then::With(key) => there(key),
        Then::Without(key) => not(there(key)),
        Then::Not(key, word) => {
            let word = Json::map(vec![("const", value_in(shape, key, word))]);
            not(says(key, word))
        }
    }
}

/// The key is there and is so.
fn says(key: &'static str, so: Json) -> Json {
    Json::map(vec![
        ("properties", Json::map(vec![(key, so)])),
        ("required", Json::texts([key])),
    ])
}

fn fitting(fits: Vec<Fit>) -> Vec<Json> {
    let mut grouped: Vec<(&'static str, &'static str, Entries)> = Vec::new();
    for fit in fits {
        let words = if fit.words.is_empty() {
            Json::Flag(false)
        } else {
            Json::map(vec![("enum", Json::texts(fit.words))])
        };
        match grouped.last_mut() {
            Some((_, is, others)) if *is == fit.is => others.push((fit.other, words)),
            _ => grouped.push((fit.key, fit.is, vec![(fit.other, words)])),
        }
    }
    let made = grouped.into_iter().map(|(key, is, others)| {
        let is = Json::map(vec![("const", Json::text(is))]);
        let others = Json::map(vec![("properties", Json::map(others))]);
        Json::map(vec![("if", says(key, is)), ("then", others)])
    });
    made.collect()
}

/// A word as the key holds it: `true` of a flag is no text.
fn value_in(shape: &Shape, key: &str, word: &str) -> Json {
    let flag = |known: &&Key| known.name == key && matches!(known.takes, Takes::Flag);
    if shape.keys.iter().any(|known| flag(&known)) {
        Json::Flag(word == "true")
    } else {
        Json::text(word)
    }
}

/// What an entry's key says, where the entries are maps.
fn value(of: Takes, key: &str, word: &str) -> Json {
    let is = match of {
        Takes::Map(shape) => value_in(shape, key, word),
        _ => Json::text(word),
    };
    Json::map(vec![("const", is)])
}
