//! What a file of scenarios or sights that reads without a fault can still have wrong with it.
//!
//! Each module below holds the rules of one kind; [`Rule`] says why each is one. A scenario that
//! breaks any of them is not played: a learner who did everything right must come out right.

mod blanks;
mod calls;
mod case;
mod example;
mod fit;
mod known;
mod names;
mod played;
mod rule;
mod shows;
mod sights;
mod steps;
mod words;

pub use known::Known;
pub use rule::Rule;

pub(super) use blanks::BLANK;

use crate::checklist::Remark as Loose;
use crate::document::{Document, Fault, Place};
use crate::drill::{Scenario, Sights};
use case::Case;
use std::collections::HashSet;
use std::sync::Arc;

/// One thing to mend in a file of scenarios or sights.
pub type Finding = crate::checklist::Finding<Rule>;

/// What a rule remarks on, its place still to be looked up.
type Remark = Loose<Rule>;

/// The scenarios of a file, where every one of them can be played and is right in itself.
///
/// # Errors
/// Every finding, in the order of the file.
pub fn check(text: &str, known: &Known) -> Result<Vec<Scenario>, Vec<Finding>> {
    let document = document(text)?;
    let blanks = blanks::remarks(&document);
    let scenarios = match Scenario::read_all(text) {
        Ok(scenarios) => scenarios,
        Err(faults) => return Err(with_faults(&document, blanks, faults)),
    };
    let sights = Arc::new(known.sights());
    let all: Vec<Arc<Scenario>> = scenarios.iter().cloned().map(Arc::new).collect();
    let own = all.iter().enumerate().flat_map(|(at, scenario)| {
        let case = Case::new(at, scenario, known, Arc::clone(&sights));
        case.remarks()
    });
    let twice = names::ids_twice(&scenarios, known);
    let remarks = blanks.into_iter().chain(twice).chain(own);
    let found = placed(&document, remarks);
    if found.is_empty() {
        Ok(scenarios)
    } else {
        Err(found)
    }
}

/// The sights of a file, where each tells every state of its step apart.
///
/// # Errors
/// Every finding, in the order of the file.
pub fn check_sights(text: &str, known: &Known) -> Result<Sights, Vec<Finding>> {
    let document = document(text)?;
    let blanks = blanks::remarks(&document);
    let sights = match Sights::read(text) {
        Ok(sights) => sights,
        Err(faults) => return Err(with_faults(&document, blanks, faults)),
    };
    let found = placed(
        &document,
        blanks.into_iter().chain(sights::remarks(&sights, known)),
    );
    if found.is_empty() {
        Ok(sights)
    } else {
        Err(found)
    }
}

fn document(text: &str) -> Result<Document, Vec<Finding>> {
    Document::parse(text).map_err(|faults| faults.into_iter().map(of_fault).collect())
}

fn of_fault(fault: Fault) -> Finding {
    Finding::of_fault(fault, Rule::File)
}

/// Faults of the shape beside the places that are not written yet. Where one of these is no word
/// or name as it stands, it is told as what it is.
fn with_faults(document: &Document, blanks: Vec<Remark>, faults: Vec<Fault>) -> Vec<Finding> {
    let mut found = placed(document, blanks);
    let unwritten: HashSet<Place> = found.iter().map(|finding| finding.place).collect();
    let others = faults.into_iter();
    let others = others.filter(|fault| !unwritten.contains(&fault.place));
    found.extend(others.map(of_fault));
    sorted(found)
}

fn placed(document: &Document, remarks: impl IntoIterator<Item = Remark>) -> Vec<Finding> {
    let place = |path: &str| {
        let spot = document.spot_at(path);
        let place = spot.map_or(Place::START, |spot| document.place_of(spot));
        (place, path.to_owned())
    };
    let found = remarks.into_iter().map(|remark| remark.placed(&place));
    sorted(found.collect())
}

fn sorted(mut found: Vec<Finding>) -> Vec<Finding> {
    found.sort_by(|one, other| {
        (one.place, one.rule, &one.what).cmp(&(other.place, other.rule, &other.what))
    });
    found.dedup();
    found
}
