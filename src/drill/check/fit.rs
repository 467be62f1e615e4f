//! Whether list and rig go together, and whether the rig as it truly is can be read.

use crate::document::{Fault as FileFault, Tree, nearest};
use crate::drill::Unplayable;
use crate::drill::check::case::Case;
use crate::drill::check::{Remark, Rule};

/// Why the passage cannot be laid on the rig.
pub(super) fn unfit(case: &Case<'_>, not: &Unplayable) -> Vec<Remark> {
    let (list, rig) = (&case.scenario.list, &case.scenario.rig);
    match not {
        Unplayable::Plan(gaps) => {
            let one = |gap: &dyn ToString| {
                let what = format!("`{list}` cannot be walked with `{rig}`");
                Remark::new(Rule::Unfit, case.key("rig"), what, gap.to_string())
            };
            gaps.iter().map(|gap| one(gap)).collect()
        }
        Unplayable::Passage(faults) => {
            let what = "these sections do not stand by themselves";
            of_faults(&case.key("sections"), what, faults)
        }
        Unplayable::Rig(_) | Unplayable::NoSuchValue(_) | Unplayable::Scenario(_) => {
            unreadable(&case.key("rig"), not)
        }
    }
}

/// Why the rig as it truly is cannot be read.
pub(super) fn unreadable(path: &str, not: &Unplayable) -> Vec<Remark> {
    match not {
        Unplayable::Rig(faults) => of_faults(path, "the rig it comes to does not read", faults),
        // Told where the value is named, or before anything was laid.
        Unplayable::NoSuchValue(_)
        | Unplayable::Passage(_)
        | Unplayable::Plan(_)
        | Unplayable::Scenario(_) => Vec::new(),
    }
}

fn of_faults(path: &str, what: &str, faults: &[FileFault]) -> Vec<Remark> {
    let one = |fault: &FileFault| {
        let what = format!("{what}: {}: {}", fault.path, fault.what);
        Remark::new(Rule::Unfit, path, what, fault.fix.as_str())
    };
    faults.iter().map(one).collect()
}

/// Values that are changed and that the rig file does not have.
pub(super) fn values(case: &Case<'_>, rig: &Tree) -> Vec<Remark> {
    let mut remarks = Vec::new();
    for (part, differs) in case.differs() {
        for (at, patch) in differs.rig.iter().enumerate() {
            if holds_a_value(rig.at(&patch.at)) {
                continue;
            }
            remarks.push(Remark::new(
                Rule::NoSuchValue,
                format!("{part}.rig[{at}].at"),
                format!(
                    "the file of `{}` has no value at `{}`",
                    case.scenario.rig, patch.at
                ),
                there_is(rig, &patch.at),
            ));
        }
    }
    remarks
}

/// A scalar, or what is given as a map with its source beside it.
fn holds_a_value(there: Option<&Tree>) -> bool {
    there.is_some_and(|there| there.scalar().is_some() || there.at("is").is_some())
}

/// How far the path leads, and what stands there.
fn there_is(rig: &Tree, path: &str) -> String {
    let (mut known, mut rest) = (String::new(), path);
    loop {
        let (key, behind) = rest.split_once('.').unwrap_or((rest, ""));
        let next = match known.as_str() {
            "" => key.to_owned(),
            known => format!("{known}.{key}"),
        };
        if rig.at(&next).is_none() || behind.is_empty() {
            let here = if rig.at(&next).is_some() {
                &next
            } else {
                &known
            };
            return of_place(rig, here, key);
        }
        (known, rest) = (next, behind);
    }
}

fn of_place(rig: &Tree, here: &str, wanted: &str) -> String {
    let there = if here.is_empty() {
        Some(rig)
    } else {
        rig.at(here)
    };
    let keys: Vec<&str> = there.into_iter().flat_map(Tree::keys).collect();
    let place = if here.is_empty() { "the file" } else { here };
    let bare = wanted.split('[').next().unwrap_or_default();
    if let Some(count) = there.and_then(Tree::count) {
        return format!("`{place}` is a list of {count}; name one of them as `{place}[0]`");
    }
    let all = keys.join(", ");
    match nearest(bare, keys.iter().copied()) {
        Some(meant) if meant != bare => {
            format!("did you mean `{meant}`? {place} has {all}")
        }
        _ if keys.is_empty() => format!("`{place}` is a value; end the path there"),
        _ => format!("{place} has {all}"),
    }
}
