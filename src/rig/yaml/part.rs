//! A part of the rig file: a map whose values say what they are, by what and where.

use crate::document::{Map, Node, Read, Told};
use crate::rig::{Evidence, Given, Position, Ratings, Source};
use crate::units::{Dimension, Exact, Quantity};
use std::cmp::Ordering;

/// A map of the file, being read.
#[derive(Clone, Copy)]
pub(super) struct Part<'d> {
    map: Map<'d>,
}

impl<'d> Part<'d> {
    /// The map at `node`, with no keys but these.
    pub(super) fn open(node: Node<'d>, keys: &[&str]) -> Read<Self> {
        Ok(Self {
            map: node.map(keys)?,
        })
    }

    /// The map below `key`.
    pub(super) fn part(self, key: &str, keys: &[&str]) -> Read<Self> {
        Self::open(self.required(key)?, keys)
    }

    /// The map below `key`, where the key stands there.
    pub(super) fn part_if_any(self, key: &str, keys: &[&str]) -> Option<Read<Self>> {
        self.optional(key).map(|node| Self::open(node, keys))
    }

    /// The value of `key`.
    pub(super) fn required(self, key: &str) -> Read<Node<'d>> {
        self.map.required(key)
    }

    /// The value of `key`, where it stands there.
    pub(super) fn optional(self, key: &str) -> Option<Node<'d>> {
        self.map.optional(key)
    }

    /// The one of several keys that stands there, with its value.
    pub(super) fn only_one_of<T: Copy>(self, choices: &[(&str, T)]) -> Read<(T, Node<'d>)> {
        self.map.only_one_of(choices)
    }

    /// One line of text.
    pub(super) fn words(self, key: &str) -> Read<String> {
        Ok(self.required(key)?.sentence()?.to_owned())
    }

    /// One word of a closed list.
    pub(super) fn choice<T: Copy>(self, key: &str, choices: &[(&str, T)]) -> Read<T> {
        self.required(key)?.choice(choices)
    }

    /// A value with its evidence, of any sign.
    pub(super) fn given(self, key: &str, dimension: Dimension) -> Read<Given> {
        given(self.required(key)?, dimension, Sign::Any)
    }

    /// A value with its evidence, more than nothing.
    pub(super) fn positive(self, key: &str, dimension: Dimension) -> Read<Given> {
        given(self.required(key)?, dimension, Sign::Positive)
    }

    /// As [`positive`](Self::positive), where the key stands there.
    pub(super) fn positive_if_any(self, key: &str, dimension: Dimension) -> Read<Option<Given>> {
        self.optional(key)
            .map(|node| given(node, dimension, Sign::Positive))
            .transpose()
    }

    /// One word of a closed list, where the key stands there.
    pub(super) fn choice_if_any<T: Copy>(
        self,
        key: &str,
        choices: &[(&str, T)],
    ) -> Read<Option<T>> {
        self.optional(key)
            .map(|node| node.choice(choices))
            .transpose()
    }

    /// As [`position`](Self::position), where the key stands there.
    pub(super) fn position_if_any(self, key: &str) -> Read<Option<Position>> {
        self.optional(key).map(|_| self.position(key)).transpose()
    }

    /// A point measured from the ball. Its three lengths share their evidence.
    pub(super) fn position(self, key: &str) -> Read<Position> {
        let part = self.part(key, &["behind", "right", "above", "by", "at"])?;
        let source = part.source();
        let behind = length(part, "behind", Sign::Any);
        let right = length(part, "right", Sign::Any);
        let above = length(part, "above", Sign::Positive);
        let source = source?;
        let of = |quantity| Given {
            quantity,
            source: source.clone(),
        };
        Ok(Position {
            behind: of(behind?),
            right: of(right?),
            above: of(above?),
        })
    }

    /// The two ratings of a hitch part. Nothing bears down with more than it weighs.
    pub(super) fn ratings(self, key: &str) -> Read<Ratings> {
        let part = self.part(key, &["total", "downward"])?;
        let total = part.positive("total", Dimension::Mass);
        let downward = part.positive("downward", Dimension::Mass);
        if exceeds(&downward, &total) {
            part.tell(
                "downward",
                "the downward rating is above the total rating, and no trailer presses down with \
                 more than it weighs",
                "read the stamp again; the smaller number is the downward rating",
            );
        }
        Ok(Ratings {
            total: total?,
            downward: downward?,
        })
    }

    /// Tells that the part as a whole lacks something.
    pub(super) fn lack(self, what: impl Into<String>, fix: impl Into<String>) -> Told {
        self.map.node().lack(what, fix)
    }

    /// Tells a fault of the value of `key`, or of the whole where it is missing.
    pub(super) fn tell(self, key: &str, what: impl Into<String>, fix: impl Into<String>) {
        let node = self.optional(key).unwrap_or(self.map.node());
        node.fault(what, fix);
    }

    /// The evidence that all values of this part share.
    pub(super) fn source(self) -> Read<Source> {
        let by = self.choice("by", &Evidence::WORDS);
        let at = self.words("at");
        Ok(Source { by: by?, at: at? })
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Sign {
    Any,
    Positive,
}

fn given(node: Node<'_>, dimension: Dimension, sign: Sign) -> Read<Given> {
    let part = Part::open(node, &["is", "by", "at"])?;
    let quantity = part
        .required("is")
        .and_then(|node| signed(node, dimension, sign));
    let source = part.source();
    Ok(Given {
        quantity: quantity?,
        source: source?,
    })
}

fn length(part: Part<'_>, key: &str, sign: Sign) -> Read<Quantity> {
    signed(part.required(key)?, Dimension::Length, sign)
}

/// A bare quantity, more than nothing.
pub(super) fn positive(node: Node<'_>, dimension: Dimension) -> Read<Quantity> {
    signed(node, dimension, Sign::Positive)
}

fn signed(node: Node<'_>, dimension: Dimension, sign: Sign) -> Read<Quantity> {
    let quantity = node.quantity(dimension)?;
    let positive = !quantity.value.is_negative() && !quantity.value.is_zero();
    if sign == Sign::Positive && !positive {
        return Err(node.fault(
            format!("{quantity} is not more than nothing"),
            format!(
                "read it again; a {} here is such as {}",
                dimension.word(),
                dimension.example()
            ),
        ));
    }
    Ok(quantity)
}

/// How two values compare, where both could be read.
pub(super) fn order(left: &Read<Given>, right: &Read<Given>) -> Option<Ordering> {
    let (left, right) = (left.as_ref().ok()?, right.as_ref().ok()?);
    left.quantity.compare(&right.quantity)
}

/// Whether a value is a whole number within these.
pub(super) fn is_whole_within(value: &Given, (least, most): (i64, i64)) -> bool {
    (least..=most).any(|whole| value.quantity.value == Exact::whole(whole))
}

/// Whether both values could be read and the first is the larger.
pub(super) fn exceeds(left: &Read<Given>, right: &Read<Given>) -> bool {
    order(left, right) == Some(Ordering::Greater)
}
