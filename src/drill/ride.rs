//! The check ride: a whole checklist on a rig on which several things are wrong, and when it is
//! passed.
//!
//! What is hidden is put together from scenarios that come with the program, by dice. It is kept
//! with the record as a scenario of its own, with a fault for each thing that is wrong; of a check
//! ride every fault is there.

use crate::checklist::{Ending, PlannedAsk};
use crate::document::Tree;
use crate::drill::format::FORMAT;
use crate::drill::pinned::{entry, file};
use crate::drill::{
    Call, Drill, Fault, Grading, Passage, Run, Scenario, Sights, Stage, Unplayable, list,
};
use crate::rules::Verdict;
use crate::shown::Dice;
use crate::walk::Ended;
use std::sync::Arc;

/// At least so many faults are hidden in a check ride. Ours, no source.
pub const LEAST_HIDDEN: usize = 2;

/// The dice are thrown so often for faults that go together.
const MOST_TRIES: usize = 20;

/// The id of every check ride as a scenario.
pub const CHECK_RIDE: &str = "check-ride";

/// Why there is no check ride.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoRide {
    /// There is no such checklist.
    NoList,
    /// The scenarios know too few faults of its critical steps on this rig.
    TooFew,
    /// It does not fit the rig.
    Unplayable(Unplayable),
}

/// A check ride as it is put together.
#[derive(Clone, Debug)]
pub struct Ride {
    /// The drill.
    pub drill: Drill,
    /// The scenario, as a file to keep.
    pub scenario: String,
}

/// Puts a check ride together: the whole of a checklist on a rig of the demo barn, by these dice.
///
/// # Errors
/// [`NoRide`].
pub fn ride(
    list_id: &str,
    (rig_id, rig): (&str, &str),
    (files, scenarios): (&[&str], &[Arc<Scenario>]),
    (sights, seed): (Arc<Sights>, u64),
) -> Result<Ride, NoRide> {
    let (blank, laid) = laid(list_id, (rig_id, rig))?;
    let offered = offered(&blank, &laid, scenarios);
    let mut dice = Dice::new(seed);
    let hidden = (0..MOST_TRIES).map(|_| hidden(&offered, &mut dice));
    let hidden = hidden.into_iter().find(|some| some.len() >= LEAST_HIDDEN);
    // Dice that never meet two that go together leave the first two that do.
    let hidden = hidden.or_else(|| pair(&offered)).ok_or(NoRide::TooFew)?;
    let text = composed(&blank, &hidden, files).ok_or(NoRide::TooFew)?;
    let read = Scenario::read_all(&text);
    let read = read.map_err(|faults| NoRide::Unplayable(Unplayable::Scenario(faults)))?;
    let scenario = read.into_iter().next().ok_or(NoRide::TooFew)?;
    let drill = Drill::ride(Arc::new(scenario), laid, sights, seed);
    Ok(Ride {
        drill: drill.map_err(NoRide::Unplayable)?,
        scenario: text,
    })
}

/// Whether a check ride of a checklist can be put together on this rig: of the faults that are
/// known, enough go together.
pub fn is_ridden(list_id: &str, rig: (&str, &str), scenarios: &[Arc<Scenario>]) -> bool {
    let Ok((blank, laid)) = laid(list_id, rig) else {
        return false;
    };
    pair(&offered(&blank, &laid, scenarios)).is_some()
}

/// The first two faults that go together.
fn pair<'s>(offered: &[Offered<'s>]) -> Option<Vec<Offered<'s>>> {
    let with_another = |one: &Offered<'s>| {
        let other = offered.iter().find(|other| go_together(one, other))?;
        Some(vec![*one, *other])
    };
    offered.iter().find_map(with_another)
}

/// The whole of a checklist laid on a rig, with nothing hidden yet.
fn laid(list_id: &str, (rig_id, rig): (&str, &str)) -> Result<(Scenario, Passage), NoRide> {
    let whole = list(list_id).ok_or(NoRide::NoList)?;
    let sections = whole.checklist.sections.iter();
    let sections: Vec<String> = sections.map(|one| one.id.clone()).collect();
    let blank = blank(list_id, &sections, rig_id);
    let laid = Passage::lay(&blank, whole, rig).map_err(NoRide::Unplayable)?;
    Ok((blank, laid))
}

/// The faults that can be hidden in it.
fn offered<'s>(
    blank: &Scenario,
    laid: &Passage,
    scenarios: &'s [Arc<Scenario>],
) -> Vec<Offered<'s>> {
    let of_it = |one: &&Arc<Scenario>| one.list == blank.list && one.rig == blank.rig;
    let known = scenarios.iter().filter(of_it).filter(|one| is_plain(one));
    let all = known.flat_map(|one| one.faults.iter().map(move |fault| (&**one, fault)));
    all.filter(|(_, fault)| is_of_critical(laid, fault))
        .collect()
}

/// A fault with its scenario.
type Offered<'s> = (&'s Scenario, &'s Fault);

/// Two or three faults that go together, as the dice have it; perhaps fewer.
fn hidden<'s>(offered: &[Offered<'s>], dice: &mut Dice) -> Vec<Offered<'s>> {
    let wanted = LEAST_HIDDEN + usize::try_from(dice.below(2)).unwrap_or(0);
    let mut left = offered.to_vec();
    let mut hidden: Vec<Offered<'s>> = Vec::new();
    while hidden.len() < wanted && !left.is_empty() {
        let count = u64::try_from(left.len()).unwrap_or(1);
        let at = usize::try_from(dice.below(count)).unwrap_or(0);
        let one = left.swap_remove(at % left.len());
        if hidden.iter().all(|other| go_together(other, &one)) {
            hidden.push(one);
        }
    }
    hidden
}

impl Drill {
    /// A check ride: every fault of its scenario is there.
    pub(super) fn ride(
        scenario: Arc<Scenario>,
        passage: Passage,
        sights: Arc<Sights>,
        seed: u64,
    ) -> Result<Self, Unplayable> {
        let faults = (0..scenario.faults.len()).collect();
        Self::with_all(scenario, passage, sights, (seed, faults))
    }
}

impl Run {
    /// Whether a check ride that has ended was passed, by the [`Grading`] it was begun with; nothing of any other drill.
    pub fn is_passed(&self) -> Option<bool> {
        if self.stage() != Stage::CheckRide {
            return None;
        }
        let score = self.score();
        let caught = |call: &Call| {
            let mut steps = score.caught();
            steps.any(|one| one.step == call.step || one.step.step() == call.step.as_str())
        };
        let ended = self.walk().ended() == Some(Ended::Complete);
        // One that hides too little is none, whoever signed it.
        let hides = self.drill().faults().count() >= LEAST_HIDDEN;
        let all_caught = hides && self.drill().faults().all(|fault| caught(&fault.call));
        let missed = score.missed().any(|step| step.critical);
        let left_out = score.omissions().any(|step| step.critical);
        // The older rules grade no answer after a repair.
        let again = self.grading() == Grading::Shown && score.again.iter().any(|one| one.critical);
        Some(ended && all_caught && !missed && !left_out && !again && score.resumed != Some(false))
    }
}

/// Whether nothing of a scenario but its faults would show in a check ride.
fn is_plain(scenario: &Scenario) -> bool {
    scenario.carries.is_empty()
        && scenario.between.is_none()
        && scenario.hint.is_none()
        && scenario.always == crate::drill::Differs::default()
}

/// Whether a fault is called at a critical step, where it can be put right and the walk goes on.
fn is_of_critical(laid: &Passage, fault: &Fault) -> bool {
    let plan = laid.plan();
    let Some(planned) = plan
        .index(&fault.call.step)
        .and_then(|at| plan.steps().get(at))
    else {
        return false;
    };
    if !planned.step.critical || fault.call.verdict < Verdict::Fix {
        return false;
    }
    let goes_on = |branch: &str| {
        let branch = plan.branch(branch);
        branch.is_some_and(|branch| branch.ends != Ending::NotFitToGo)
    };
    match &planned.ask {
        PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask) => {
            let mut seen = fault.differs.seen.iter();
            let here = seen.find(|(step, _)| *step == planned.key);
            let state = here.and_then(|(_, id)| ask.states.iter().find(|one| one.id == *id));
            state.is_some_and(|state| state.branch.as_deref().is_none_or(goes_on))
        }
        PlannedAsk::Reading { limits, .. } => {
            let mut bad = limits
                .iter()
                .filter(|limit| limit.verdict == fault.call.verdict)
                .peekable();
            bad.peek().is_some() && bad.all(|limit| limit.branch.as_deref().is_none_or(goes_on))
        }
    }
}

/// Whether two faults can be hidden in one rig: at steps of their own, and one of them at most
/// changes the rig, so that either is put right by itself.
fn go_together(one: &Offered<'_>, other: &Offered<'_>) -> bool {
    let (one_of, other_of) = (one.0, other.0);
    let (one, other) = (&one.1.differs, &other.1.differs);
    let steps = |differs: &crate::drill::Differs| {
        let seen = differs.seen.iter().map(|(step, _)| step.step().to_owned());
        let read = differs.read.iter().map(|(step, _)| step.step().to_owned());
        seen.chain(read).collect::<Vec<_>>()
    };
    let apart = steps(one).iter().all(|step| !steps(other).contains(step));
    let rigs = one.rig.is_empty() || other.rig.is_empty();
    one_of.id != other_of.id && one_of.air == other_of.air && apart && rigs
}

/// The check ride with nothing hidden yet.
fn blank(list: &str, sections: &[String], rig: &str) -> Scenario {
    Scenario {
        id: CHECK_RIDE.to_owned(),
        title: "Check ride".to_owned(),
        family: crate::drill::Family::HandedOver,
        list: list.to_owned(),
        sections: sections.to_vec(),
        rig: rig.to_owned(),
        tale: "The whole list, from its first step to its last, alone and with nobody helping."
            .to_owned(),
        air: crate::units::Quantity::whole(70, crate::units::Unit::Fahrenheit),
        always: crate::drill::Differs::default(),
        carries: Vec::new(),
        faults: Vec::new(),
        good: crate::drill::Good {
            slip: None,
            why: "Nothing was hidden.".to_owned(),
        },
        between: None,
        hurry: None,
        hint: None,
        graded: Grading::NEWEST,
        source: String::new(),
    }
}

/// The check ride as a file: its faults as they stand in the files of their scenarios, each with the
/// id of that before its own.
fn composed(blank: &Scenario, hidden: &[Offered<'_>], files: &[&str]) -> Option<String> {
    let text = |text: &str| Tree::Text(text.to_owned());
    let faults: Option<Vec<Tree>> = hidden
        .iter()
        .map(|(scenario, fault)| {
            let mut files = files.iter();
            let whole = files.find_map(|text| entry(text, &scenario.id))?;
            let mut own = fault_of(&whole, &fault.id)?;
            if let Tree::Map(keys) = &mut own
                && let Some(id) = keys.iter_mut().find(|(key, _)| key == "id")
            {
                id.1 = Tree::Text(format!("{}-{}", scenario.id, fault.id));
            }
            Some(own)
        })
        .collect();
    let mut sources: Vec<&str> = Vec::new();
    for (scenario, _) in hidden {
        if !sources.contains(&scenario.source.as_str()) {
            sources.push(&scenario.source);
        }
    }
    let sections = blank.sections.iter().map(|one| text(one)).collect();
    let air = hidden.first().map(|(one, _)| one.air.to_string())?;
    let good = vec![("why".to_owned(), text(&blank.good.why))];
    let keys = [
        ("id", text(&blank.id)),
        ("title", text(&blank.title)),
        ("family", text(hidden.first()?.0.family.word())),
        ("list", text(&blank.list)),
        ("sections", Tree::List(sections)),
        ("rig", text(&blank.rig)),
        ("tale", text(&blank.tale)),
        ("air", text(&air)),
        ("faults", Tree::List(faults?)),
        ("good", Tree::Map(good)),
        ("graded", text(blank.graded.word())),
        ("source", text(&sources.join("; "))),
    ];
    let keys = keys.map(|(key, value)| (key.to_owned(), value));
    Some(file(FORMAT, "scenarios", vec![Tree::Map(keys.into())]))
}

fn fault_of(scenario: &Tree, id: &str) -> Option<Tree> {
    let Tree::Map(keys) = scenario else {
        return None;
    };
    let faults = keys.iter().find(|(key, _)| key == "faults")?;
    let Tree::List(faults) = &faults.1 else {
        return None;
    };
    let is_it = |fault: &&Tree| match fault {
        Tree::Map(keys) => keys
            .iter()
            .any(|(key, value)| key == "id" && *value == Tree::Text(id.to_owned())),
        _ => false,
    };
    faults.iter().find(is_it).cloned()
}
