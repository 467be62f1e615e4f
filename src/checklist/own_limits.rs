//! The barn's own limits among those of a checklist put together.
//!
//! A limit is only ever added, and the worst verdict counts, so no limit of a barn can loosen one
//! of a plate, a law or the list. One that would change nothing is refused with the reason: whoever
//! wrote it believes that it does.

use crate::barn::OwnLimit;
use crate::checklist::{Ask, Checklist, Plan, PlannedAsk, PlannedStep, ReadingAsk, Step, Together};
use crate::document::{Document, Fault, Remarks, Tree, nearest};
use crate::rules::{Authority, Basis, Bound, Limit, Rung, Side, Verdict};
use crate::units::Quantity;
use std::cmp::Ordering;

/// A checklist with the barn's limits for it among its own, and each that is refused, with why.
///
/// A refused limit is left away; the others hold.
pub fn held_to(put: Together, limits: &[OwnLimit]) -> (Together, Vec<Fault>) {
    let (mut held, mut refused) = (put, Vec::new());
    for own in limits {
        if own.checklist.text == held.checklist.id {
            match with(&held, own) {
                Ok(stricter) => held = stricter,
                Err(fault) => refused.push(fault),
            }
        }
    }
    (held, refused)
}

/// Each limit for a checklist that is none of the `known`.
pub fn for_no_list(limits: &[OwnLimit], known: &[&str]) -> Vec<Fault> {
    let strays = limits
        .iter()
        .filter(|own| !known.contains(&own.checklist.text.as_str()));
    let told = |own: &OwnLimit| {
        let word = &own.checklist.text;
        let fix = match nearest(word, known.iter().copied()) {
            Some(meant) => format!("did you mean {meant}?"),
            None => format!("the checklists are {}", known.join(", ")),
        };
        own.checklist
            .fault(format!("there is no checklist `{word}`"), fix)
    };
    strays.map(told).collect()
}

/// The checklist with one more limit.
fn with(put: &Together, own: &OwnLimit) -> Result<Together, Fault> {
    let step = step(&put.checklist, own)?;
    let Ask::Reading(ask) = &step.ask else {
        return Err(own.step.fault(
            format!(
                "`{}` is looked at, and a limit is for what is measured",
                step.id
            ),
            "name a step that asks for a reading",
        ));
    };
    let bound = own.bound_in(ask.dimension)?;
    plausible(own, ask, &bound)?;
    let mut stated = ask.limits.iter().filter_map(Drawn::stated);
    if let Some(stricter) = stated.find(|limit| limit.covers(own, &bound)) {
        return Err(stricter.refuses(own, ""));
    }
    let branch = branch(own, step, ask)?;
    let read = |text: String| {
        let checklist = Checklist::read(&text).map_err(|faults| unread(own, &faults))?;
        Ok(Together { checklist, text })
    };
    read(written(put, own, branch)?)
}

fn step<'c>(checklist: &'c Checklist, own: &OwnLimit) -> Result<&'c Step, Fault> {
    let word = &own.step.text;
    checklist
        .steps()
        .find(|step| step.id == *word)
        .ok_or_else(|| {
            let ids = checklist.steps().map(|step| step.id.as_str());
            let fix = match nearest(word, ids) {
                Some(meant) => format!("did you mean {meant}?"),
                None => "look the ids of its steps up in the list itself".to_owned(),
            };
            let what = format!("“{}” has no step `{word}`", checklist.title);
            own.step.fault(what, fix)
        })
}

/// A bound no plausible reading can reach would never be met, or always.
fn plausible(own: &OwnLimit, ask: &ReadingAsk, bound: &Quantity) -> Result<(), Fault> {
    let (low, high) = &ask.plausible;
    if bound.within(low, high) {
        return Ok(());
    }
    Err(own.bound.fault(
        format!("{bound} is outside the values this step takes for plausible, {low} to {high}"),
        "move the limit",
    ))
}

/// A limit of the step, at the value it is drawn at.
struct Drawn<'l> {
    verdict: Verdict,
    side: Side,
    at: &'l Quantity,
    basis: &'l Basis,
}

impl<'l> Drawn<'l> {
    /// A limit the file states itself; what follows the rig is drawn only there.
    fn stated(rung: &'l Rung) -> Option<Self> {
        let Bound::Fixed(at) = &rung.bound else {
            return None;
        };
        Some(Self {
            verdict: rung.verdict,
            side: rung.side,
            at,
            basis: &rung.basis,
        })
    }

    /// A limit that follows the rig.
    fn of_rig(limit: &'l Limit) -> Option<Self> {
        limit.derivation.as_ref()?;
        Some(Self {
            verdict: limit.verdict,
            side: limit.side,
            at: &limit.bound,
            basis: &limit.basis,
        })
    }

    /// Whether it takes everything the barn's would, and no less severely.
    fn covers(&self, own: &OwnLimit, bound: &Quantity) -> bool {
        let order = match bound.compare(self.at) {
            Some(order) if rises(own.side) => order.reverse(),
            Some(order) => order,
            None => return false,
        };
        let reaches = match order {
            Ordering::Less => true,
            Ordering::Equal => !takes_bound(own.side) || takes_bound(self.side),
            Ordering::Greater => false,
        };
        rises(self.side) == rises(own.side) && self.verdict >= own.verdict && reaches
    }

    /// That the barn's limit changes nothing beside it; `with` names the rig, where it takes one to
    /// say so.
    fn refuses(&self, own: &OwnLimit, with: &str) -> Fault {
        own.bound.fault(
            format!(
                "{with}this is no stricter than what the step has: {} {} {}, by {}",
                self.verdict.word(),
                self.side.word().replace('-', " "),
                self.at.shown(3),
                self.basis
            ),
            "a barn's own limit is stricter than plate, law and list; move it, or take it away",
        )
    }
}

/// Each limit of the barn that, on this rig, a limit of the step covers: what follows the rig's own
/// figures is known only there. It changes nothing, and whoever wrote it is told so.
pub fn no_stricter_on(plan: &Plan, limits: &[OwnLimit]) -> Vec<Fault> {
    let own = limits
        .iter()
        .filter(|own| own.checklist.text == plan.checklist().id);
    own.filter_map(|own| {
        let mut steps = plan.steps().iter();
        steps.find_map(|planned| covered_on(planned, plan, own))
    })
    .collect()
}

fn covered_on(planned: &PlannedStep, plan: &Plan, own: &OwnLimit) -> Option<Fault> {
    let PlannedAsk::Reading { ask, limits, .. } = &planned.ask else {
        return None;
    };
    if planned.step.id != own.step.text {
        return None;
    }
    let bound = own.bound_in(ask.dimension).ok()?;
    let mut drawn = limits.iter().filter_map(Drawn::of_rig);
    let stricter = drawn.find(|limit| limit.covers(own, &bound))?;
    Some(stricter.refuses(own, &format!("with {} ", plan.rig().name)))
}

fn rises(side: Side) -> bool {
    matches!(side, Side::Above | Side::AtOrAbove)
}

fn takes_bound(side: Side) -> bool {
    side.takes(Ordering::Equal)
}

/// Where a bad answer leads: as a limit of the list leads that is most like this one.
fn branch<'c>(own: &OwnLimit, step: &Step, ask: &'c ReadingAsk) -> Result<Option<&'c str>, Fault> {
    if !own.verdict.blocks() {
        return Ok(None);
    }
    let leads = |like: &dyn Fn(&Rung) -> bool| {
        let mut like = ask.limits.iter().filter(|rung| like(rung));
        like.find_map(|rung| rung.branch.as_deref())
    };
    let same_side = |rung: &Rung| rises(rung.side) == rises(own.side);
    leads(&|rung| same_side(rung) && rung.verdict == own.verdict)
        .or_else(|| leads(&same_side))
        .map(Some)
        .ok_or_else(|| {
            own.step.fault(
                format!(
                    "`{}` has no branch for a reading on this side, so a {} would lead nowhere",
                    step.id,
                    own.verdict.word()
                ),
                "make it a note, or write a checklist of your own with a branch for it",
            )
        })
}

/// The plain file with the limit behind the others of its step.
fn written(put: &Together, own: &OwnLimit, branch: Option<&str>) -> Result<String, Fault> {
    let unread = |faults: Vec<Fault>| unread(own, &faults);
    let mut tree = Document::parse(&put.text).map_err(unread)?.tree();
    if let Some(step) = step_of(&mut tree, &own.step.text) {
        if step.at("reading.limits").is_none()
            && let Some(Tree::Map(reading)) = step.at_mut("reading")
        {
            reading.push(("limits".to_owned(), Tree::List(Vec::new())));
        }
        if let Some(Tree::List(limits)) = step.at_mut("reading.limits") {
            limits.push(limit(own, branch));
        }
    }
    Ok(tree.written(&Remarks::default()))
}

fn step_of<'t>(tree: &'t mut Tree, id: &str) -> Option<&'t mut Tree> {
    let Some(Tree::List(sections)) = tree.at_mut("sections") else {
        return None;
    };
    let steps = sections
        .iter_mut()
        .filter_map(|section| match section.at_mut("steps") {
            Some(Tree::List(steps)) => Some(steps),
            _ => None,
        });
    steps
        .flatten()
        .find(|step| step.at("id").and_then(Tree::scalar) == Some(id))
}

fn limit(own: &OwnLimit, branch: Option<&str>) -> Tree {
    let text = |text: &str| Tree::Text(text.to_owned());
    let entries = [
        ("verdict", Some(text(own.verdict.word()))),
        (own.side.word(), Some(text(&own.bound.text))),
        ("authority", Some(text(Authority::Barn.word()))),
        ("source", Some(text(&own.why))),
        ("branch", branch.map(text)),
    ];
    let entries = entries.into_iter();
    Tree::Map(
        entries
            .filter_map(|(key, value)| Some((key.to_owned(), value?)))
            .collect(),
    )
}

/// The list with the limit in it does not read, which no rule above foresaw.
fn unread(own: &OwnLimit, faults: &[Fault]) -> Fault {
    let why = faults.first().map(|fault| fault.what.clone());
    own.step.fault(
        format!(
            "the step does not take this limit: {}",
            why.unwrap_or_default()
        ),
        "change the limit, or take it away",
    )
}
