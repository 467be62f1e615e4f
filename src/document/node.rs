//! A value in a document, which tells what is wrong with it.

use crate::document::fault::{Loose, Tally, shown};
use crate::document::grow::{Content, Item};
use crate::document::{Document, Map, Shape, Spot, Told};

/// What reading gives: the thing read, or proof that its fault has been told.
///
/// To find every fault at once, read all parts first and put `?` behind them afterwards:
///
/// ```
/// use hames::document::{Document, Node, Read};
/// use hames::units::{Dimension, Quantity};
///
/// fn tire(node: Node<'_>) -> Read<(String, Quantity)> {
///     let map = node.map(&["size", "pressure"])?;
///     let size = map.required("size").and_then(Node::sentence);
///     let pressure = map.required("pressure").and_then(|node| node.quantity(Dimension::Pressure));
///     Ok((size?.to_owned(), pressure?))
/// }
///
/// let document = Document::parse("size: 4\npresure: 80 psi\n").unwrap();
/// let faults: Vec<String> = document.read(tire).unwrap_err().iter().map(ToString::to_string).collect();
/// assert_eq!(faults, [
///     "1:1: `pressure` is missing; add a line `pressure: …`",
///     "1:7: size: text is wanted here, not the number “4”; put it in quotes: \"4\"",
///     "2:1: presure: `presure` is not a key here; did you mean `pressure`?",
/// ]);
/// ```
pub type Read<T> = Result<T, Told>;

/// A value of a document being read.
#[derive(Clone, Copy, Debug)]
pub struct Node<'d> {
    document: &'d Document,
    tally: &'d Tally,
    spot: Spot,
}

impl<'d> Node<'d> {
    pub(crate) fn root(document: &'d Document, tally: &'d Tally) -> Self {
        let spot = Spot(0);
        Self {
            document,
            tally,
            spot,
        }
    }

    /// Where this value stands, to be kept beside what is built from it.
    pub fn spot(self) -> Spot {
        self.spot
    }

    /// Tells a fault of this value: what is wrong, and how to mend it.
    pub fn fault(self, what: impl Into<String>, fix: impl Into<String>) -> Told {
        self.tell(what.into(), fix.into(), false)
    }

    /// Tells that something is not there yet.
    pub fn lack(self, what: impl Into<String>, fix: impl Into<String>) -> Told {
        self.tell(what.into(), fix.into(), true)
    }

    fn tell(self, what: String, fix: String, lacking: bool) -> Told {
        self.tally.tell(Loose {
            spot: self.spot,
            what,
            fix,
            lacking,
        })
    }

    /// A map with no keys but the `known` ones. Unknown keys are told, and reading goes on.
    ///
    /// # Errors
    /// When this is not a map.
    pub fn map(self, known: &[&str]) -> Read<Map<'d>> {
        self.map_meaning(known, &[])
    }

    /// The same, where a slip may also have meant one of `others`, which are no keys here.
    fn map_meaning(self, known: &[&str], others: &[&str]) -> Read<Map<'d>> {
        let Some(Content::Map(entries)) = self.content() else {
            return Err(self.wanted(
                "a map of keys and values",
                "write keys below, each as `key: value`",
            ));
        };
        let map = Map::new(self, entries);
        map.tell_unknown(known, others);
        Ok(map)
    }

    /// A map of this shape: its keys are the known ones.
    ///
    /// # Errors
    /// When this is not a map.
    pub fn shaped(self, shape: &Shape) -> Read<Map<'d>> {
        let known: Vec<&str> = shape.names().collect();
        let early = shape.keys.iter().filter(|key| key.early);
        let early: Vec<&str> = early.map(|key| key.name).collect();
        self.map_meaning(&known, &early)
    }

    /// Whether this is a map, where a value may be written two ways.
    pub fn is_map(self) -> bool {
        matches!(self.content(), Some(Content::Map(_)))
    }

    /// Whether this is a map with this key, where that alone matters.
    pub fn holds(self, key: &str) -> bool {
        let Some(Content::Map(entries)) = self.content() else {
            return false;
        };
        Map::new(self, entries).optional(key).is_some()
    }

    /// The values of a list.
    ///
    /// # Errors
    /// When this is not a list.
    pub fn list(self) -> Read<Vec<Node<'d>>> {
        let Some(Content::List(spots)) = self.content() else {
            return Err(self.wanted("a list", "begin each entry on its own line with `- `"));
        };
        Ok(spots.iter().map(|&spot| self.beside(spot)).collect())
    }

    /// What `reader` makes of each value of a list. All are read, even behind a fault.
    ///
    /// # Errors
    /// When this is not a list, or a fault was told in any value of it.
    pub fn each<T>(self, reader: impl FnMut(Node<'d>) -> Read<T>) -> Read<Vec<T>> {
        let read: Vec<Read<T>> = self.list()?.into_iter().map(reader).collect();
        read.into_iter().collect()
    }

    /// Another value of the same document.
    pub(crate) fn beside(self, spot: Spot) -> Self {
        Self { spot, ..self }
    }

    pub(crate) fn content(self) -> Option<&'d Content> {
        self.document
            .item(self.spot)
            .map(|item: &Item| &item.content)
    }

    /// Tells that `wanted` should stand here instead.
    pub(crate) fn wanted(self, wanted: &str, fix: impl Into<String>) -> Told {
        let found = match self.content() {
            Some(Content::Text(text)) => format!("the text {}", shown(text)),
            Some(Content::Number(digits)) => format!("the number {}", shown(digits)),
            Some(Content::Flag(flag)) => format!("the bare word {flag}"),
            Some(Content::List(_)) => "a list".to_owned(),
            Some(Content::Map(_)) => "a map of keys and values".to_owned(),
            Some(Content::Nothing) | None => "nothing".to_owned(),
        };
        self.fault(format!("{wanted} is wanted here, not {found}"), fix)
    }
}
