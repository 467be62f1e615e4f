//! The shape of a map in a file, as data: the keys it knows, what each takes, what each is for.
//!
//! The reader of a format takes its list of keys from here, and so does the schema that editors
//! read, so that the two cannot drift apart.

/// One kind of map.
#[derive(Clone, Copy, Debug)]
pub struct Shape {
    /// Its name in a schema, such as `step`.
    pub name: &'static str,
    /// What it is.
    pub about: &'static str,
    /// Its keys, in the order they are usually written.
    pub keys: &'static [Key],
    /// What holds between its keys.
    pub rules: &'static [Rule],
}

/// One key of a map.
#[derive(Clone, Copy, Debug)]
pub struct Key {
    /// The key.
    pub name: &'static str,
    /// Whether it has to be there.
    pub must: bool,
    /// Whether it is gone once the file is put together, so that no reader of the plain file
    /// meets it.
    pub early: bool,
    /// What stands behind it.
    pub takes: Takes,
    /// What it is for, in one line: what an editor shows.
    pub help: &'static str,
}

/// What stands behind a key or in a list.
#[derive(Clone, Copy, Debug)]
pub enum Takes {
    /// This text and no other.
    Exactly(&'static str),
    /// A name others refer to.
    Name,
    /// One line of text.
    Sentence,
    /// `true` or `false`.
    Flag,
    /// A whole number from 1.
    Count,
    /// A number with its unit.
    Quantity,
    /// One word of a closed list.
    Word(&'static Words),
    /// One key of a closed list, and behind it one word of the list of its own.
    WordOf(fn() -> Vec<(&'static str, Vec<Word>)>),
    /// Values in order.
    List(&'static Many),
    /// A map.
    Map(&'static Shape),
    /// A map of the first of these shapes whose key stands in it, else of the last shape.
    ByKey(&'static [(&'static str, &'static Shape)], &'static Shape),
    /// A number with its unit, or a map.
    QuantityOr(&'static Self),
}

/// A closed list of words, with the name it has in a schema.
#[derive(Clone, Copy, Debug)]
pub struct Words {
    /// Its name in a schema.
    pub name: &'static str,
    /// The words.
    pub all: fn() -> Vec<Word>,
}

/// One word of a closed list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// The word.
    pub word: &'static str,
    /// What it means, where the word alone does not say it.
    pub means: String,
}

/// A list.
#[derive(Clone, Copy, Debug)]
pub struct Many {
    /// What each entry is.
    pub of: Takes,
    /// Fewest entries.
    pub least: usize,
    /// Most entries, where there is a most.
    pub most: Option<usize>,
    /// Entries there have to be among them.
    pub among: &'static [Among],
}

/// Entries that have to be in a list: so many whose `key` says `is`.
#[derive(Clone, Copy, Debug)]
pub struct Among {
    /// The key.
    pub key: &'static str,
    /// What it says.
    pub is: &'static str,
    /// Fewest of them.
    pub least: usize,
    /// Most of them, where there is a most.
    pub most: Option<usize>,
}

/// What holds between the keys of a map.
#[derive(Clone, Copy, Debug)]
pub enum Rule {
    /// Exactly one of these keys stands in it.
    OneOf(&'static [&'static str]),
    /// The first key stands there only beside the second.
    Beside(&'static str, &'static str),
    /// Where the key says one of these, this holds.
    When(&'static str, &'static [&'static str], Then),
    /// Where the key says none of these, this holds.
    Unless(&'static str, &'static [&'static str], Then),
    /// Which words one key takes for each word of another.
    Fitting(fn() -> Vec<Fit>),
}

/// What holds where a key says something.
#[derive(Clone, Copy, Debug)]
pub enum Then {
    /// The key is there.
    With(&'static str),
    /// The key is not there.
    Without(&'static str),
    /// The key does not say this.
    Not(&'static str, &'static str),
}

/// Where `key` says `is`, the key `other` takes these words alone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fit {
    /// The key.
    pub key: &'static str,
    /// What it says.
    pub is: &'static str,
    /// The other key.
    pub other: &'static str,
    /// The words it then takes.
    pub words: Vec<&'static str>,
}

impl Shape {
    /// The keys a reader of the plain file knows.
    pub fn names(&self) -> impl Iterator<Item = &'static str> {
        let plain = self.keys.iter().filter(|key| !key.early);
        plain.map(|key| key.name)
    }
}

impl Key {
    /// A key that has to be there.
    pub const fn must(name: &'static str, takes: Takes, help: &'static str) -> Self {
        Self {
            name,
            must: true,
            early: false,
            takes,
            help,
        }
    }

    /// A key that may be left away.
    pub const fn may(name: &'static str, takes: Takes, help: &'static str) -> Self {
        Self {
            must: false,
            ..Self::must(name, takes, help)
        }
    }

    /// The same where it may be left away.
    #[must_use]
    pub const fn left_free(self) -> Self {
        Self {
            must: false,
            ..self
        }
    }

    /// The same, gone once the file is put together.
    #[must_use]
    pub const fn early(self) -> Self {
        Self {
            early: true,
            ..self
        }
    }
}

impl Many {
    /// A list with at least one entry.
    pub const fn some(of: Takes) -> Self {
        Self {
            of,
            least: 1,
            most: None,
            among: &[],
        }
    }

    /// A list that may be empty.
    pub const fn any(of: Takes) -> Self {
        Self {
            least: 0,
            ..Self::some(of)
        }
    }
}

impl Word {
    /// Words that say by themselves what they mean, as a type lists them.
    pub fn bare<T>(all: &[(&'static str, T)]) -> Vec<Self> {
        let word = |(word, _): &(&'static str, T)| Self {
            word,
            means: String::new(),
        };
        all.iter().map(word).collect()
    }
}
