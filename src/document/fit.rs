//! Holding a value to a shape alone, where what it means is read elsewhere.
//!
//! It tells what a reader of the same shape tells, in the same words; what names, dimensions and
//! other parts of the file have to say is the reader's.

use crate::document::{Key, Map, Node, Read, Rule, Shape, Takes};

impl Node<'_> {
    /// Tells whatever of this value does not fit what may stand here.
    ///
    /// # Errors
    /// When a fault was told.
    pub fn fit(self, takes: Takes) -> Read<()> {
        match takes {
            Takes::Exactly(_) => self.text().map(drop),
            Takes::Name => self.id().map(drop),
            Takes::Sentence => self.sentence().map(drop),
            Takes::Flag => self.flag().map(drop),
            Takes::Count => self.whole().map(drop),
            Takes::Word(words) => {
                let words = (words.all)();
                let words: Vec<(&str, ())> = words.iter().map(|word| (word.word, ())).collect();
                self.choice(&words)
            }
            Takes::List(many) => self.each(|entry| entry.fit(many.of)).map(drop),
            Takes::Map(shape) => self.fit_shape(shape),
            Takes::ByKey(by, last) => {
                let named = by.iter().find(|(key, _)| self.holds(key));
                self.fit_shape(named.map_or(last, |(_, shape)| *shape))
            }
            Takes::QuantityOr(map) if self.is_map() => self.fit(*map),
            Takes::Quantity | Takes::WordOf(_) | Takes::QuantityOr(_) => Ok(()),
        }
    }

    fn fit_shape(self, shape: &Shape) -> Read<()> {
        let known: Vec<&str> = shape.keys.iter().map(|key| key.name).collect();
        let map = self.map(&known)?;
        let mut fits = Ok(());
        // Of keys of which one may stand, nothing is told where another stands too.
        let mut clash: Vec<&str> = Vec::new();
        for rule in shape.rules {
            if let Rule::OneOf(keys) = rule {
                let one: Vec<(&str, ())> = keys.iter().map(|key| (*key, ())).collect();
                if let Err(told) = map.only_one_of(&one) {
                    fits = Err(told);
                    clash.extend(*keys);
                }
            }
        }
        for key in shape.keys.iter().filter(|key| !clash.contains(&key.name)) {
            fits = fit_key(map, key).and(fits);
        }
        fits
    }
}

fn fit_key(map: Map<'_>, key: &Key) -> Read<()> {
    let value = if key.must {
        Some(map.required(key.name)?)
    } else {
        map.optional(key.name)
    };
    value.map_or(Ok(()), |value| value.fit(key.takes))
}
