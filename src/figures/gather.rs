//! Numbers gathered off a rig for a formula: every one that is missing is told, not only the first,
//! and every one that is there is kept for whoever asks why.

use crate::figures::{Fact, Input, Lack, Lacking, Today};
use crate::rig::Given;
use crate::units::{Quantity, Unit};

/// The numbers a formula needs, being gathered.
#[derive(Clone, Debug, Default)]
pub(crate) struct Gather {
    inputs: Vec<Input>,
    lacks: Vec<Lack>,
    unread: Option<Fact>,
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
            self.lacks.push(Lack {
                field,
                what: what.to_owned(),
            });
            return 1.0;
        };
        let from = format!("{}, {}", given.source.by.word(), given.source.at);
        self.value(what, &given.quantity, &from, unit)
    }

    /// A value known already, with where it comes from.
    pub(crate) fn value(&mut self, what: &str, value: &Quantity, from: &str, unit: Unit) -> f64 {
        self.inputs.push(Input {
            what: what.to_owned(),
            value: value.to_string(),
            from: from.to_owned(),
        });
        value
            .in_unit(unit)
            .and_then(|value| value.value.to_f64())
            .unwrap_or(1.0)
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
    pub(crate) fn lacks(&mut self, what: &str, field: &'static str) {
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
        match self.unread {
            Some(fact) => Err(Lacking::Unread(fact)),
            None => Ok(self.inputs),
        }
    }
}
