//! What was found on trips and was not well: each with the reading as typed, its limit and what it
//! means, the gravest first.

use crate::haul::Flagged;
use crate::report::page::{Row, Table};
use crate::report::trip::LimitTold;
use crate::review::Glance;
use crate::rules::{Limit, Verdict};
use crate::walk::Words;
use serde::Serialize;
use std::cmp::Reverse;

/// Something that was not well.
#[derive(Clone, Debug, Serialize)]
pub(super) struct FlaggedTold {
    trip: String,
    /// As commands name it: `barn-laptop/7`.
    named: String,
    rig: String,
    step: String,
    name: String,
    /// As typed, or what was seen.
    found: String,
    verdict: &'static str,
    limit: Option<LimitTold>,
    who: String,
    at: String,
    remark: Option<String>,
    /// Whether the step was found well at the end of that walk.
    well_at_end: bool,
    #[serde(skip)]
    shown_at: String,
    #[serde(skip)]
    weighs: Verdict,
}

/// All that was flagged on these trips, the gravest and newest first.
pub(super) fn told<'a>(
    trips: impl IntoIterator<Item = (&'a Glance, &'a [Flagged])>,
) -> Vec<FlaggedTold> {
    let trips = trips.into_iter();
    let all = trips.flat_map(|(trip, all)| all.iter().map(move |one| (trip, one)));
    let mut all: Vec<(&Glance, &Flagged)> = all.collect();
    all.sort_by_key(|(trip, one)| Reverse((one.found.verdict, trip.at, one.found.at)));
    let told = all
        .into_iter()
        .map(|(trip, one)| FlaggedTold::of(trip, one));
    told.collect()
}

impl FlaggedTold {
    fn of(trip: &Glance, flagged: &Flagged) -> Self {
        let found = &flagged.found;
        Self {
            trip: trip.trip.to_string(),
            named: format!("{}/{}", trip.device, trip.seq),
            rig: trip.rig.clone(),
            step: found.step.to_string(),
            name: found.name.clone(),
            found: found.found.clone(),
            verdict: found.verdict.word(),
            limit: found.limit.as_ref().map(held_to),
            who: found.who.to_string(),
            at: found.at.to_rfc3339(),
            remark: found.remark.as_ref().map(Words::to_string),
            well_at_end: flagged.well_at_end,
            shown_at: trip.at.format("%-d %b").to_string(),
            weighs: found.verdict,
        }
    }

    fn row(&self) -> Row {
        let limit = self
            .limit
            .as_ref()
            .map(|limit| format!("{} ({})", limit.bound, limit.authority));
        let verdict = match self.weighs {
            Verdict::Ok | Verdict::Note => self.verdict.to_owned(),
            Verdict::Fix | Verdict::Stop => self.verdict.to_uppercase(),
        };
        let end = if self.well_at_end { "well" } else { "not well" };
        Row {
            strong: self.weighs == Verdict::Stop,
            cells: vec![
                self.shown_at.clone(),
                self.rig.clone(),
                self.name.clone(),
                self.found.clone(),
                limit.unwrap_or_default(),
                verdict,
                end.to_owned(),
                self.who.clone(),
                self.named.clone(),
            ],
        }
    }
}

fn held_to(limit: &Limit) -> LimitTold {
    let side = limit.side.word().replace('-', " ");
    LimitTold {
        bound: format!("{side} {}", limit.bound.shown(3)),
        authority: limit.basis.authority.word(),
        source: limit.basis.source.clone(),
    }
}

/// The gravest of them, at most so many, and how many more there are.
pub(super) fn table(flagged: &[FlaggedTold], most: usize) -> Option<Table> {
    let more = match flagged.len().saturating_sub(most) {
        0 => String::new(),
        some => format!(" And {some} more, in the JSON of this report."),
    };
    (!flagged.is_empty()).then(|| Table {
        caption: format!(
            "Each step on which something was not well: the worst it was found to be, and whether \
             it was well at the end of that walk.{more}"
        ),
        heads: vec![
            "Walked",
            "Rig",
            "What",
            "Found",
            "Limit",
            "Verdict",
            "At its end",
            "Who",
            "Trip",
        ],
        rows: flagged.iter().take(most).map(FlaggedTold::row).collect(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_fit_is_counted_and_the_rest_has_a_row_each() {
        let one = FlaggedTold {
            trip: "9f0c11b2".to_owned(),
            named: "barn-laptop/7".to_owned(),
            rig: "juniper".to_owned(),
            step: "tire-cold@left-rear".to_owned(),
            name: "Tire, left rear".to_owned(),
            found: "57 psi".to_owned(),
            verdict: Verdict::Fix.word(),
            limit: Some(LimitTold {
                bound: "below 62.5 psi".to_owned(),
                authority: "plate",
                source: "tire label".to_owned(),
            }),
            who: "Tobias Fenn".to_owned(),
            at: String::new(),
            remark: None,
            well_at_end: false,
            shown_at: "3 Nov".to_owned(),
            weighs: Verdict::Fix,
        };
        assert_eq!(table(&[], 4), None);
        let few = table(&vec![one.clone(); 4], 4).unwrap();
        assert!(!few.caption.contains("more"), "{}", few.caption);
        let many = table(&vec![one; 9], 4).unwrap();
        assert_eq!(many.rows.len(), 4);
        assert!(
            many.caption
                .ends_with(" And 5 more, in the JSON of this report.")
        );
        assert_eq!(
            many.rows[0].cells.join("|"),
            "3 Nov|juniper|Tire, left rear|57 psi|below 62.5 psi (plate)|FIX|not well|Tobias Fenn|\
             barn-laptop/7"
        );
    }
}
