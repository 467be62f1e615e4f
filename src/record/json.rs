//! The one spelling of JSON that records are written in, checked byte by byte.
//!
//! No blanks between tokens, no escape where none is needed, whole numbers of at most fifteen
//! digits, no key twice in one object. So every tool reads the same thing, and a text that passes
//! is the text any careful writer would write again.

mod typed;

pub(in crate::record) use typed::{Rest, Text, Whole, read};

use memchr::memchr;
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt;

/// Deepest nesting of objects and lists in a line.
pub(crate) const DEEPEST: usize = 8;

/// The same in a body, which is one level down.
const BODY_DEEPEST: usize = DEEPEST - 1;

/// Most digits of a number: below 2^53, so that readers which hold numbers as floats agree.
const DIGITS: usize = 15;

/// The content of a line: one JSON object in the one spelling.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Body(String);

/// Where and why a text is not JSON as records spell it. Places count bytes from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum JsonFault {
    /// A number with a point or an exponent; decimals are written as strings.
    Fraction(usize),
    /// A number of more than fifteen digits.
    LongNumber(usize),
    /// The same key twice in one object.
    Twice(usize, String),
    /// Nested too deep.
    Deep(usize),
    /// Anything else: not JSON, or spelt otherwise.
    Spelling(usize),
    /// A value that is not an object.
    NotAnObject,
    /// A value that JSON cannot hold.
    NotWritable,
}

impl Body {
    /// Takes a text that is one object in the one spelling.
    ///
    /// # Errors
    /// [`JsonFault`] with the place.
    pub fn read(text: &str) -> Result<Self, JsonFault> {
        check(text, BODY_DEEPEST)?;
        Self::checked(text)
    }

    /// Takes the body of a line that was checked as a whole.
    pub(crate) fn checked(text: &str) -> Result<Self, JsonFault> {
        if text.starts_with('{') {
            Ok(Self(text.to_owned()))
        } else {
            Err(JsonFault::NotAnObject)
        }
    }

    /// Writes a value whose fields stand in a fixed order.
    ///
    /// # Errors
    /// [`JsonFault`] when it is no object, or holds what records do not.
    pub fn write(value: &impl Serialize) -> Result<Self, JsonFault> {
        Self::read(&serde_json::to_string(value).map_err(|_| JsonFault::NotWritable)?)
    }

    /// The object as text.
    pub fn text(&self) -> &str {
        &self.0
    }
}

/// Checks that `text` is one JSON value in the one spelling, nested at most `deepest` deep.
pub(crate) fn check(text: &str, deepest: usize) -> Result<(), JsonFault> {
    let mut scan = Scan::of(text);
    scan.value(deepest)?;
    if scan.is_at_end() {
        Ok(())
    } else {
        Err(scan.spelling())
    }
}

struct Scan<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Scan<'a> {
    const fn of(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    const fn is_at_end(&self) -> bool {
        self.at == self.text.len()
    }

    fn place(&self) -> usize {
        self.at + 1
    }

    fn spelling(&self) -> JsonFault {
        JsonFault::Spelling(self.place())
    }

    fn rest(&self) -> &'a [u8] {
        self.text.as_bytes().get(self.at..).unwrap_or_default()
    }

    fn take(&mut self, token: &[u8]) -> bool {
        let found = self.rest().starts_with(token);
        if found {
            self.at += token.len();
        }
        found
    }

    fn demand(&mut self, token: u8) -> Result<(), JsonFault> {
        if self.is_at(token) {
            self.at += 1;
            Ok(())
        } else {
            Err(self.spelling())
        }
    }

    fn is_at(&self, token: u8) -> bool {
        self.text.as_bytes().get(self.at) == Some(&token)
    }

    /// All that is left but the last byte, as spelt, and not looked at.
    fn all_but_one(&mut self) -> &'a str {
        let start = self.at;
        self.at = self.text.len().saturating_sub(1).max(start);
        self.text.get(start..self.at).unwrap_or_default()
    }

    /// What is passed over by `pass`, as spelt.
    fn spelt(
        &mut self,
        pass: impl FnOnce(&mut Self) -> Result<(), JsonFault>,
    ) -> Result<&'a str, JsonFault> {
        let start = self.at;
        pass(self)?;
        Ok(self.text.get(start..self.at).unwrap_or_default())
    }

    fn value(&mut self, deeper: usize) -> Result<(), JsonFault> {
        match self.rest().first() {
            Some(b'{') => self.object(deeper),
            Some(b'[') => self.list(deeper),
            Some(b'"') => self.string().map(drop),
            Some(b'-' | b'0'..=b'9') => self.number(),
            _ if self.take(b"true") || self.take(b"false") || self.take(b"null") => Ok(()),
            _ => Err(self.spelling()),
        }
    }

    fn object(&mut self, deeper: usize) -> Result<(), JsonFault> {
        let deeper = deeper.checked_sub(1).ok_or(JsonFault::Deep(self.place()))?;
        self.demand(b'{')?;
        let mut keys = Keys::default();
        if self.take(b"}") {
            return Ok(());
        }
        loop {
            let place = self.place();
            let key = self.string()?;
            // One spelling for every string, so equal keys are equal bytes.
            if !keys.insert(key) {
                return Err(JsonFault::Twice(place, key.to_owned()));
            }
            self.demand(b':')?;
            self.value(deeper)?;
            if self.is_at(b'}') {
                return self.demand(b'}');
            }
            self.demand(b',')?;
        }
    }

    fn list(&mut self, deeper: usize) -> Result<(), JsonFault> {
        let deeper = deeper.checked_sub(1).ok_or(JsonFault::Deep(self.place()))?;
        self.demand(b'[')?;
        if self.take(b"]") {
            return Ok(());
        }
        loop {
            self.value(deeper)?;
            if self.is_at(b']') {
                return self.demand(b']');
            }
            self.demand(b',')?;
        }
    }

    /// A string; gives what stands between the quotes, as spelt.
    fn string(&mut self) -> Result<&'a str, JsonFault> {
        self.demand(b'"')?;
        let plain = memchr(b'"', self.rest()).and_then(|end| self.text.get(self.at..self.at + end));
        let inside = match plain {
            Some(plain) if is_plain(plain) => {
                self.at += plain.len();
                plain
            }
            _ => self.spelt(Self::letters)?,
        };
        self.demand(b'"')?;
        Ok(inside)
    }

    /// Everything up to the quote that ends a string.
    fn letters(&mut self) -> Result<(), JsonFault> {
        loop {
            let rest = self.rest();
            let plain = rest
                .iter()
                .position(|byte| matches!(byte, b'"' | b'\\' | ..b' '));
            self.at += plain.unwrap_or(rest.len());
            match self.rest() {
                [b'"', ..] => return Ok(()),
                [b'\\', b'"' | b'\\' | b'b' | b'f' | b'n' | b'r' | b't', ..] => self.at += 2,
                [b'\\', b'u', b'0', b'0', high, low, ..] if needs_code(*high, *low) => self.at += 6,
                _ => return Err(self.spelling()),
            }
        }
    }

    fn number(&mut self) -> Result<(), JsonFault> {
        let place = self.place();
        let negative = self.take(b"-");
        let rest = self.rest();
        let digits = rest.iter().take_while(|byte| byte.is_ascii_digit()).count();
        match (rest, rest.get(digits)) {
            (_, Some(b'.' | b'e' | b'E')) => return Err(JsonFault::Fraction(place)),
            _ if digits > DIGITS => return Err(JsonFault::LongNumber(place)),
            ([b'0', ..], _) if negative || digits > 1 => return Err(JsonFault::Spelling(place)),
            _ if digits == 0 => return Err(JsonFault::Spelling(place)),
            _ => {}
        }
        self.at += digits;
        Ok(())
    }
}

/// Whether every letter stands for itself. All are looked at, which goes many at a time.
fn is_plain(text: &str) -> bool {
    let other = |byte| matches!(byte, b'\\' | ..b' ');
    !text.bytes().fold(false, |found, byte| found | other(byte))
}

/// The keys of an object so far. A record has a handful; what has more is told apart as quickly.
#[derive(Default)]
struct Keys<'a> {
    few: [&'a str; 8],
    count: usize,
    more: BTreeSet<&'a str>,
}

impl<'a> Keys<'a> {
    /// Whether this key was not there before.
    fn insert(&mut self, key: &'a str) -> bool {
        if self
            .few
            .iter()
            .take(self.count)
            .any(|before| *before == key)
        {
            return false;
        }
        if let Some(free) = self.few.get_mut(self.count) {
            *free = key;
            self.count += 1;
            return true;
        }
        self.more.insert(key)
    }
}

/// Whether `\u00hl` is a control character that has no short escape.
fn needs_code(high: u8, low: u8) -> bool {
    let short = high == b'0' && matches!(low, b'8' | b'9' | b'a' | b'c' | b'd');
    matches!(high, b'0' | b'1') && matches!(low, b'0'..=b'9' | b'a'..=b'f') && !short
}

impl fmt::Display for JsonFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Fraction(at) => write!(
                f,
                "the number at byte {at} has a point or an exponent; decimals are written as strings"
            ),
            Self::LongNumber(at) => {
                write!(f, "the number at byte {at} has more than {DIGITS} digits")
            }
            Self::Twice(at, key) => write!(f, "the key “{key}” at byte {at} stands there twice"),
            Self::Deep(at) => write!(f, "byte {at} is nested more than {DEEPEST} deep"),
            Self::Spelling(at) => {
                write!(f, "byte {at} is not JSON in the one spelling records have")
            }
            Self::NotAnObject => write!(f, "it is not a JSON object"),
            Self::NotWritable => write!(f, "it cannot be written as JSON"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use serde_json::Value;

    fn values() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            (-999_999_999_999_999i64..=999_999_999_999_999).prop_map(Value::from),
            any::<String>().prop_map(Value::from),
            "[\\x00-\\x20\"\\\\\\x7f]{0,6}".prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 40, 5, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..5).prop_map(Value::from),
                prop::collection::vec((any::<String>(), inner), 0..5)
                    .prop_map(|pairs| Value::Object(pairs.into_iter().collect())),
            ]
        })
    }

    #[test]
    fn there_is_one_spelling() {
        let ok = |text| check(text, DEEPEST);
        for right in [
            "{}",
            "[]",
            r#"{"a":1,"b":[true,false,null,-7,0],"c":{"a":"x"}}"#,
            "\"\\u0000\\u001f\\b\\t\\n\\f\\r\\\"\\\\/é\u{7f}\"",
            "999999999999999",
            "[[[[[[[[]]]]]]]]",
        ] {
            assert_eq!(ok(right), Ok(()), "{right}");
        }
        for (wrong, fault) in [
            ("1.0", JsonFault::Fraction(1)),
            ("[1e3]", JsonFault::Fraction(2)),
            ("[0E0]", JsonFault::Fraction(2)),
            ("1000000000000000", JsonFault::LongNumber(1)),
            ("-0", JsonFault::Spelling(1)),
            ("01", JsonFault::Spelling(1)),
            ("-", JsonFault::Spelling(1)),
            ("[1, 2]", JsonFault::Spelling(4)),
            (" 1", JsonFault::Spelling(1)),
            ("1 ", JsonFault::Spelling(2)),
            ("\"\\u0041\"", JsonFault::Spelling(2)),
            ("\"\\u000a\"", JsonFault::Spelling(2)),
            ("\"\\u001F\"", JsonFault::Spelling(2)),
            ("\"\\/\"", JsonFault::Spelling(2)),
            ("\"\n\"", JsonFault::Spelling(2)),
            ("\"", JsonFault::Spelling(2)),
            ("{\"a\":1,}", JsonFault::Spelling(8)),
            ("nul", JsonFault::Spelling(1)),
            ("NaN", JsonFault::Spelling(1)),
            ("", JsonFault::Spelling(1)),
            (
                "{\"a\":{\"b\":1,\"b\":1}}",
                JsonFault::Twice(13, "b".into()),
            ),
            ("[[[[[[[[[]]]]]]]]]", JsonFault::Deep(9)),
        ] {
            assert_eq!(ok(wrong), Err(fault), "{wrong}");
        }
        assert_eq!(Body::read("[]"), Err(JsonFault::NotAnObject));
        assert_eq!(Body::write(&f64::NAN), Err(JsonFault::NotAnObject));
    }

    proptest! {
        #[test]
        fn what_the_writer_writes_is_accepted(value in values()) {
            let written = serde_json::to_string(&value).unwrap();
            prop_assert_eq!(check(&written, DEEPEST), Ok(()));
        }

        #[test]
        fn what_is_accepted_is_what_the_writer_writes(
            value in values(), at: prop::sample::Index, byte: u8,
        ) {
            let mut bytes = serde_json::to_vec(&value).unwrap();
            let at = at.index(bytes.len());
            bytes[at] = byte;
            if let Ok(text) = String::from_utf8(bytes)
                && check(&text, DEEPEST).is_ok()
            {
                let again: Value = serde_json::from_str(&text).unwrap();
                // The library's own tree sorts keys; the count of bytes still has to agree.
                prop_assert_eq!(serde_json::to_string(&again).unwrap().len(), text.len());
            }
        }

        #[test]
        fn whatever_the_text_checking_it_does_not_panic(text in "\\PC{0,60}") {
            let _ = check(&text, DEEPEST);
        }
    }
}
