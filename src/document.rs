//! Text with places: the one reader of YAML, which tells every fault with its line and column.
//!
//! [`Document::parse`] takes a plain subset of YAML: one document of maps, lists, text, numbers
//! and `true` or `false`. What would let a file mean other than it looks (anchors, aliases, merge
//! keys, tags, a key twice) is refused. [`Document::read`] then hands the root [`Node`] to a
//! reader and gives either what it built or every fault found on the way, in the file's order.
//!
//! A file that is still being made is held as a [`Tree`], which can be changed and written.

mod fault;
mod fit;
mod grow;
mod map;
mod nearest;
mod node;
mod place;
mod plant;
mod pointers;
mod remarks;
mod retrace;
mod scalar;
mod screen;
mod shape;
mod syntax;
mod tree;
mod write;

pub use fault::{Fault, Told};
pub use map::Map;
pub use nearest::nearest;
pub use node::{Node, Read};
pub use place::{Place, Spot};
pub use remarks::Remarks;
pub use shape::{Among, Fit, Key, Many, Rule, Shape, Takes, Then, Word, Words};
pub use tree::Tree;

use crate::document::fault::{Loose, Tally};
use crate::document::grow::Item;

/// Longest file read, in bytes. A checklist of five hundred steps is a tenth of this.
pub const MOST_BYTES: usize = 1_000_000;

/// Faults told one by one. Whoever made more has one cause for many of them.
const MOST_FAULTS: usize = 100;

/// A file's text, parsed, in which every value knows where it stands.
#[derive(Clone, Debug)]
pub struct Document {
    text: String,
    items: Vec<Item>,
    faults: Vec<Loose>,
}

impl Document {
    /// Parses one YAML document.
    ///
    /// # Errors
    /// The faults that keep the text from being read at all. Those that do not, such as a key
    /// given twice, come from [`read`](Self::read) with the reader's own.
    pub fn parse(text: &str) -> Result<Self, Vec<Fault>> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        screen::screen(text)?;
        let (items, faults) = grow::grow(text).map_err(|fault| vec![fault])?;
        let text = text.to_owned();
        Ok(Self {
            text,
            items,
            faults,
        })
    }

    /// Gives the root to `reader` and returns what it built, unless any fault was told.
    ///
    /// # Errors
    /// Every fault told while reading, in the order of the file.
    pub fn read<T>(&self, reader: impl FnOnce(Node<'_>) -> Read<T>) -> Result<T, Vec<Fault>> {
        let tally = Tally::new(self.faults.clone());
        let built = reader(Node::root(self, &tally));
        let faults = self.settle(tally.into_faults());
        match built {
            Ok(built) if faults.is_empty() => Ok(built),
            _ => Err(faults),
        }
    }

    /// Where the value of `spot` stands. It reads the text again, so ask for faults only.
    pub fn place_of(&self, spot: Spot) -> Place {
        retrace::place(&self.text, &self.items, spot)
    }

    /// The keys and list positions that lead to `spot`, such as `sections[0].steps[2].id`.
    pub fn path_of(&self, spot: Spot) -> String {
        grow::path(&self.items, spot)
    }

    /// The value that `path` leads to, as [`path_of`](Self::path_of) writes paths.
    pub fn spot_at(&self, path: &str) -> Option<Spot> {
        // A key and its value have one path, and the value stands behind its key.
        (0..self.items.len())
            .rev()
            .map(Spot)
            .find(|spot| grow::path(&self.items, *spot) == path)
    }

    /// The key that `path` leads to; its value has the same path and stands behind it.
    pub fn key_at(&self, path: &str) -> Option<Spot> {
        (0..self.items.len())
            .map(Spot)
            .find(|spot| grow::path(&self.items, *spot) == path)
    }

    /// A fault found later, when only the [`Spot`] of a value is left.
    pub fn fault_at(&self, spot: Spot, what: impl Into<String>, fix: impl Into<String>) -> Fault {
        Fault {
            place: self.place_of(spot),
            path: self.path_of(spot),
            what: what.into(),
            fix: fix.into(),
            lacking: false,
        }
    }

    fn item(&self, spot: Spot) -> Option<&Item> {
        self.items.get(spot.0)
    }

    /// Gives each fault its place. Spots count in the file's order, so places need no sorting.
    fn settle(&self, mut faults: Vec<Loose>) -> Vec<Fault> {
        faults.sort_by_key(|fault| fault.spot);
        let more = faults.split_off(faults.len().min(MOST_FAULTS));
        let mut settled: Vec<Fault> = faults
            .into_iter()
            .map(|fault| Fault {
                lacking: fault.lacking,
                ..self.fault_at(fault.spot, fault.what, fault.fix)
            })
            .collect();
        if let Some(next) = more.first() {
            settled.push(self.fault_at(
                next.spot,
                format!("{} more faults follow from here", more.len()),
                "mend the ones above first",
            ));
        }
        settled
    }
}
