//! Numbers gathered off a rig for a formula: every one that is missing is told, not only the first,
//! and every one that is there is kept for whoever asks why.

use crate::figures::{Fact, Input, Lack, Lacking, Today};
use crate::mechanics::NoNumber;
use crate::rig::Given;
use crate::units::{Quantity, Unit};

/// The numbers a formula needs, being gathered.
#[derive(Clone, Debug, Default)]
pub(crate) struct Gather {
    inputs: Vec<Input>,
    lacks: Vec<Lack>,
    unread: Option<Fact>,
    refused: Option<NoNumber>,
}

impl Gather {
    pub(crate) fn new() -> Self {
        Self::default()
    }

    /// The value of a field, in this unit. Where the rig file has none, any number stands in its
    /// place until [`done`](Self::done) says so: nothing is reckoned with it.
    pub(crate) fn number(
        &mut self,
        what: &str,
        field: &'static str,
        given: Option<&Given>,
        unit: Unit,
    ) -> f64 {
        let Some(given) = given else {
            self.lacks(what, field);
            return 1.0;
        };
        self.keep(what, given.quantity.to_string(), given.source.told());
        amount(&given.quantity, unit)
    }

    /// A value known already, with where it comes from.
    pub(crate) fn value(&mut self, what: &str, value: &Quantity, from: &str, unit: Unit) -> f64 {
        self.keep(what, value.to_string(), from.to_owned());
        amount(value, unit)
    }

    /// What is told of an input, where its number is taken otherwise.
    pub(crate) fn note(&mut self, what: &str, value: String, from: &str) {
        self.keep(what, value, from.to_owned());
    }

    fn keep(&mut self, what: &str, value: String, from: String) {
        let what = what.to_owned();
        self.inputs.push(Input { what, value, from });
    }

    /// What a formula made of inputs gathered so far. With something missing its answer means
    /// nothing, and its refusal neither.
    pub(crate) fn reckoned<T>(&mut self, result: Result<T, NoNumber>) -> Option<T> {
        if let Err(no) = &result
            && self.lacks.is_empty()
        {
            self.refused.get_or_insert_with(|| no.clone());
        }
        result.ok()
    }

    /// Something read on the walk.
    pub(crate) fn fact(&mut self, today: &Today<'_>, fact: Fact, unit: Unit) -> f64 {
        if let Some(read) = today.facts.get(fact) {
            return self.value(&fact.word().replace('-', " "), read, "read today", unit);
        }
        self.unread.get_or_insert(fact);
        1.0
    }

    /// A field without a number, of which it only matters that it is there.
    /// Told once, however many wheels or axles lack it.
    pub(crate) fn lacks(&mut self, what: &str, field: &'static str) {
        if self.lacks.iter().any(|lack| lack.field == field) {
            return;
        }
        self.lacks.push(Lack {
            field,
            what: what.to_owned(),
        });
    }

    /// What was gathered, if nothing is missing.
    pub(crate) fn done(self) -> Result<Vec<Input>, Lacking> {
        if !self.lacks.is_empty() {
            return Err(Lacking::Undescribed(self.lacks));
        }
        if let Some(fact) = self.unread {
            return Err(Lacking::Unread(fact));
        }
        match self.refused {
            Some(no) => Err(no.into()),
            None => Ok(self.inputs),
        }
    }
}

/// A value as a number of this unit. The reader of rig files has seen to it that each field has
/// its dimension.
pub(crate) fn amount(value: &Quantity, unit: Unit) -> f64 {
    let number = if value.unit == unit {
        value.value.to_f64()
    } else {
        value.in_unit(unit).and_then(|value| value.value.to_f64())
    };
    number.unwrap_or(1.0)
}
