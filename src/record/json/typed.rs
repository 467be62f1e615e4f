//! One pass from text to struct: the fields in their order, in the one spelling, and nothing else.
//!
//! A struct says its fields in the order records have them, so what has to come next is known at
//! every byte, and nothing has to be written again to be compared. What is not taken here is not
//! judged here either: the caller reads it the long way, which tells every fault.

use crate::record::json::{BODY_DEEPEST, Scan};
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, Error, IgnoredAny, SeqAccess, VariantAccess, Visitor,
};
use serde::{Deserialize, Serialize, Serializer, forward_to_deserialize_any, ser};
use serde_json::value::RawValue;
use std::borrow::Cow;
use std::fmt;

/// The value of a text, where the text is just what the value is written as.
pub(in crate::record) fn read<'a, T: Deserialize<'a>>(text: &'a str) -> Option<T> {
    let mut reader = Reader(Scan::of(text));
    let value = T::deserialize(&mut reader).ok()?;
    reader.0.is_at_end().then_some(value)
}

/// A text of a record, borrowed where it stands there as itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(in crate::record) struct Text<'a>(Cow<'a, str>);

/// A value kept as it is spelt.
#[derive(Clone, Copy, Debug)]
pub(in crate::record) struct Whole<'a>(pub(in crate::record) &'a str);

/// What is left of a text before its last byte, whatever it is: nobody has looked at it yet.
#[derive(Clone, Copy, Debug)]
pub(in crate::record) struct Rest<'a>(pub(in crate::record) &'a str);

/// Not read here.
#[derive(Debug)]
struct Elsewhere;

struct Reader<'a>(Scan<'a>);

impl<'a> Reader<'a> {
    fn demand(&mut self, token: u8) -> Result<(), Elsewhere> {
        self.0.demand(token).map_err(|_| Elsewhere)
    }

    fn string(&mut self) -> Result<Cow<'a, str>, Elsewhere> {
        let spelt = self.0.string().map_err(|_| Elsewhere)?;
        if spelt.contains('\\') {
            unescaped(spelt).map(Cow::Owned).ok_or(Elsewhere)
        } else {
            Ok(Cow::Borrowed(spelt))
        }
    }
}

impl<'de> Deserializer<'de> for &mut Reader<'de> {
    type Error = Elsewhere;

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Elsewhere> {
        self.demand(b'{')?;
        let value = visitor.visit_seq(Fields {
            reader: self,
            first: true,
            names: fields,
        })?;
        self.demand(b'}')?;
        Ok(value)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Elsewhere> {
        self.demand(b'[')?;
        let empty = self.0.take(b"]");
        visitor.visit_seq(Items {
            reader: self,
            ended: empty,
        })
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Elsewhere> {
        if self.0.take(b"null") {
            visitor.visit_none()
        } else {
            visitor.visit_some(self)
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Elsewhere> {
        match self.string()? {
            Cow::Borrowed(text) => visitor.visit_borrowed_str(text),
            Cow::Owned(text) => visitor.visit_string(text),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Elsewhere> {
        self.deserialize_str(visitor)
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Elsewhere> {
        let spelt = self.0.spelt(Scan::number).map_err(|_| Elsewhere)?;
        visitor.visit_u64(spelt.parse().map_err(|_| Elsewhere)?)
    }

    /// One of several words.
    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _words: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Elsewhere> {
        visitor.visit_enum(self)
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Elsewhere> {
        self.deserialize_str(visitor)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Elsewhere> {
        if name == Rest::NAME {
            return visitor.visit_borrowed_str(self.0.all_but_one());
        }
        if name != Whole::NAME {
            return visitor.visit_newtype_struct(self);
        }
        let value = |scan: &mut Scan<'de>| scan.value(BODY_DEEPEST);
        visitor.visit_borrowed_str(self.0.spelt(value).map_err(|_| Elsewhere)?)
    }

    fn deserialize_any<V: Visitor<'de>>(self, _visitor: V) -> Result<V::Value, Elsewhere> {
        Err(Elsewhere)
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u128 f32 f64 char bytes byte_buf unit unit_struct
        tuple tuple_struct map ignored_any
    }
}

impl<'de> EnumAccess<'de> for &mut Reader<'de> {
    type Error = Elsewhere;
    type Variant = Self;

    fn variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<(T::Value, Self), Elsewhere> {
        Ok((seed.deserialize(&mut *self)?, self))
    }
}

/// A word says all there is to say.
impl<'de> VariantAccess<'de> for &mut Reader<'de> {
    type Error = Elsewhere;

    fn unit_variant(self) -> Result<(), Elsewhere> {
        Ok(())
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(
        self,
        _seed: T,
    ) -> Result<T::Value, Elsewhere> {
        Err(Elsewhere)
    }

    fn tuple_variant<V: Visitor<'de>>(self, _len: usize, _: V) -> Result<V::Value, Elsewhere> {
        Err(Elsewhere)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        _fields: &'static [&'static str],
        _visitor: V,
    ) -> Result<V::Value, Elsewhere> {
        Err(Elsewhere)
    }
}

/// The fields of a struct, one after the other.
struct Fields<'r, 'a> {
    reader: &'r mut Reader<'a>,
    first: bool,
    names: &'static [&'static str],
}

impl<'de> SeqAccess<'de> for Fields<'_, 'de> {
    type Error = Elsewhere;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Elsewhere> {
        let Some((name, rest)) = self.names.split_first() else {
            return Ok(None);
        };
        self.names = rest;
        if !self.first {
            self.reader.demand(b',')?;
        }
        self.first = false;
        self.reader.demand(b'"')?;
        if !self.reader.0.take(name.as_bytes()) {
            return Err(Elsewhere);
        }
        self.reader.demand(b'"')?;
        self.reader.demand(b':')?;
        seed.deserialize(&mut *self.reader).map(Some)
    }
}

/// The items of a list, one after the other.
struct Items<'r, 'a> {
    reader: &'r mut Reader<'a>,
    ended: bool,
}

impl<'de> SeqAccess<'de> for Items<'_, 'de> {
    type Error = Elsewhere;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Elsewhere> {
        if self.ended {
            return Ok(None);
        }
        let item = seed.deserialize(&mut *self.reader)?;
        self.ended = self.reader.0.take(b"]");
        if !self.ended {
            self.reader.demand(b',')?;
        }
        Ok(Some(item))
    }
}

/// A string as meant, from its one spelling.
fn unescaped(spelt: &str) -> Option<String> {
    let mut letters = spelt.chars();
    let mut meant = String::with_capacity(spelt.len());
    while let Some(letter) = letters.next() {
        meant.push(match letter {
            '\\' => match letters.next()? {
                'b' => '\u{8}',
                'f' => '\u{c}',
                'n' => '\n',
                'r' => '\r',
                't' => '\t',
                'u' => {
                    let code = letters.as_str().get(..4)?;
                    letters = letters.as_str().get(4..)?.chars();
                    char::from_u32(u32::from_str_radix(code, 16).ok()?)?
                }
                itself => itself,
            },
            letter => letter,
        });
    }
    Some(meant)
}

impl Text<'_> {
    pub(in crate::record) fn into_string(self) -> String {
        self.0.into_owned()
    }
}

impl std::ops::Deref for Text<'_> {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

impl From<String> for Text<'_> {
    fn from(text: String) -> Self {
        Self(text.into())
    }
}

impl<'a> From<&'a str> for Text<'a> {
    fn from(text: &'a str) -> Self {
        Self(text.into())
    }
}

impl<'de: 'a, 'a> Deserialize<'de> for Text<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Kept;

        impl<'de> Visitor<'de> for Kept {
            type Value = Cow<'de, str>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a string")
            }

            fn visit_borrowed_str<E>(self, text: &'de str) -> Result<Self::Value, E> {
                Ok(text.into())
            }

            fn visit_str<E>(self, text: &str) -> Result<Self::Value, E> {
                Ok(text.to_owned().into())
            }
        }

        from.deserialize_str(Kept).map(Self)
    }
}

impl Whole<'_> {
    const NAME: &'static str = "value kept as it is spelt";
}

impl<'de: 'a, 'a> Deserialize<'de> for Whole<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_newtype_struct(Self::NAME, AsSpelt)
            .map(Self)
    }
}

impl Rest<'_> {
    const NAME: &'static str = "rest that nobody has looked at";
}

impl<'de: 'a, 'a> Deserialize<'de> for Rest<'a> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_newtype_struct(Self::NAME, AsSpelt)
            .map(Self)
    }
}

/// Takes a text as it is spelt.
struct AsSpelt;

impl<'de> Visitor<'de> for AsSpelt {
    type Value = &'de str;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    fn visit_borrowed_str<E>(self, text: &'de str) -> Result<Self::Value, E> {
        Ok(text)
    }

    /// Whoever reads the long way, to say what is wrong elsewhere, gets an empty text for it.
    fn visit_newtype_struct<D: Deserializer<'de>>(self, from: D) -> Result<Self::Value, D::Error> {
        IgnoredAny::deserialize(from).map(|_| "")
    }
}

impl Serialize for Whole<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        let value: &RawValue = serde_json::from_str(self.0).map_err(ser::Error::custom)?;
        value.serialize(to)
    }
}

impl Error for Elsewhere {
    fn custom<T: fmt::Display>(_words: T) -> Self {
        Self
    }
}

impl ser::StdError for Elsewhere {}

impl fmt::Display for Elsewhere {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("not read in one pass")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::json::{DEEPEST, check};
    use proptest::prelude::*;

    #[derive(Debug, PartialEq, Deserialize, Serialize)]
    #[serde(deny_unknown_fields)]
    struct Outer<'a> {
        number: u64,
        #[serde(borrow)]
        text: Text<'a>,
        maybe: Option<Text<'a>>,
        list: Vec<Inner<'a>>,
    }

    #[derive(Debug, PartialEq, Deserialize, Serialize)]
    #[serde(deny_unknown_fields)]
    struct Inner<'a> {
        #[serde(borrow)]
        text: Text<'a>,
        index: Option<usize>,
    }

    /// Checked, read and written again, as anyone would do it.
    fn the_long_way(text: &str) -> Option<Outer<'_>> {
        check(text, DEEPEST).ok()?;
        let read: Outer<'_> = serde_json::from_str(text).ok()?;
        (serde_json::to_string(&read).ok()? == text).then_some(read)
    }

    const RIGHT: &str = r#"{"number":7,"text":"a \"b\"\u0001\\\n\t","maybe":null,"list":[{"text":"é","index":0},{"text":"","index":null}]}"#;

    #[test]
    fn fields_stand_in_their_order_and_none_other() {
        let read: Outer<'_> = read(RIGHT).unwrap();
        assert_eq!(&*read.text, "a \"b\"\u{1}\\\n\t");
        assert_eq!(Some(read), the_long_way(RIGHT));
        for (part, other) in [
            ("{\"number\":7,", "{"),
            (
                "\"number\":7,\"text\":",
                "\"text\":\"x\",\"number\":7,\"x\":",
            ),
            ("\"maybe\":null,", ""),
            ("\"maybe\":null,", "\"maybe\":null,\"maybe\":null,"),
            ("\"maybe\":null", "\"maybe\": null"),
            ("7", "07"),
            ("7", "-7"),
            ("7", "7.0"),
            ("7", "1000000000000000"),
            ("7", "\"7\""),
            ("\\u0001", "\\u0041"),
            ("null}", "1.5}"),
            ("]}", ",]}"),
            ("]}", "]} "),
            ("]}", "]"),
        ] {
            assert!(RIGHT.contains(part), "{part}");
            let changed = RIGHT.replacen(part, other, 1);
            assert_eq!(super::read::<Outer<'_>>(&changed), None, "{changed}");
            assert_eq!(the_long_way(&changed), None, "{changed}");
        }
    }

    #[test]
    fn a_value_is_kept_as_it_is_spelt() {
        let kept = |text| read::<Whole<'_>>(text).map(|whole| whole.0);
        assert_eq!(kept(r#"{"a":[1,"b"]}"#), Some(r#"{"a":[1,"b"]}"#));
        assert_eq!(kept(r#"{"a":[1, "b"]}"#), None);
        assert_eq!(kept(r#"{"a":1,"a":1}"#), None);
    }

    proptest! {
        #[test]
        fn one_pass_reads_what_the_long_way_reads_and_nothing_else(
            number in 0u64..1_100_000_000_000_000,
            texts in prop::collection::vec(
                prop_oneof!["[\\x00-\\x20\"\\\\\\x7f]{0,6}", any::<String>()], 2..5),
            maybe: Option<String>,
            index in prop::option::of(0usize..1000),
            at: prop::sample::Index,
            byte in prop::option::of(any::<u8>()),
        ) {
            let inner = |text: &String| Inner { text: Text::from(text.clone()), index };
            let outer = Outer {
                number,
                text: Text::from(texts[0].clone()),
                maybe: maybe.map(Text::from),
                list: texts.iter().skip(1).map(inner).collect(),
            };
            let mut bytes = serde_json::to_vec(&outer).unwrap();
            if let Some(byte) = byte {
                let at = at.index(bytes.len());
                bytes[at] = byte;
            }
            if let Ok(text) = String::from_utf8(bytes) {
                prop_assert_eq!(read::<Outer<'_>>(&text), the_long_way(&text));
            }
        }
    }
}
