//! Which drill is played: the scenario that is named, or one by the dice among those that are meant.

use crate::cli::clerk::Trouble;
use crate::cli::clerk::drilled::unplayable;
use crate::desk::{AskedDrill, WhichDrill};
use crate::document::nearest;
use crate::drill::{
    Drill, Family, LEAST_HIDDEN, NoRide, Offered, Passage, SCENARIO_FILES, SIGHT_FILES, Scenario,
    Sights, ride, scenarios, sights_of,
};
use crate::record::MOST_SEED;
use crate::rig::demo;
use crate::shown::Dice;
use std::sync::Arc;

/// Seeds by the dice are short enough to be typed again.
const SEEDS: u64 = 100_000;

/// A drill with its dice thrown, and what it is kept with.
pub(super) struct Made {
    pub(super) drill: Arc<Drill>,
    /// The scenario, as a file of its own.
    pub(super) scenario: String,
    /// The rig, as its file describes it.
    pub(super) rig: String,
    /// What is seen from where, as a file of its own.
    pub(super) sights: String,
    /// Who is to examine, as named.
    pub(super) examiner: Option<String>,
}

/// The rigs of check rides, the first that a checklist fits.
pub(super) const RIGS: [(&str, &str); 2] =
    [("juniper", demo::JUNIPER), ("mesquite", demo::MESQUITE)];

/// The drill that is asked for among those that are offered, by these random bits.
///
/// # Errors
/// A sentence, where it cannot be played.
pub(super) fn made(asked: &AskedDrill, offered: &Offered, random: u64) -> Result<Made, Trouble> {
    if let WhichDrill::CheckRide { list, examiner } = &asked.which {
        let seed = seed(asked.seed, random)?;
        return ridden(list, examiner, seed);
    }
    let seed = seed(asked.seed, random)?;
    let scenario = chosen(&asked.which, offered, seed)?;
    let here = offered.list(&scenario.list).zip(offered.rig(&scenario.rig));
    let text = offered.scenario_to_keep(&scenario.id);
    let (Some((list, rig)), Some(text)) = (here, text) else {
        return Err(Trouble::NotHere(format!(
            "The scenario {} names a checklist or a rig that is not here. Choose another.",
            scenario.id
        )));
    };
    let passage = Passage::lay(&scenario, list, rig).map_err(unplayable)?;
    let drill = Drill::throw(scenario, passage, offered.sights(), seed).map_err(unplayable)?;
    Ok(Made {
        sights: offered.sights_to_keep(&drill.plan),
        drill: Arc::new(drill),
        scenario: text,
        rig: rig.to_owned(),
        examiner: None,
    })
}

/// A check ride, on the first rig that its checklist fits.
fn ridden(list: &str, examiner: &str, seed: u64) -> Result<Made, Trouble> {
    let mut why = NoRide::NoList;
    for (id, rig) in RIGS {
        match ride(
            list,
            (id, rig),
            (&SCENARIO_FILES, scenarios()),
            (Sights::shipped(), seed),
        ) {
            Ok(made) => {
                return Ok(Made {
                    sights: sights_of(SIGHT_FILES, &made.drill.plan),
                    drill: Arc::new(made.drill),
                    scenario: made.scenario,
                    rig: rig.to_owned(),
                    examiner: Some(examiner.to_owned()),
                });
            }
            // That faults are known too few of says more than that another rig does not fit.
            Err(other) if why != NoRide::TooFew => why = other,
            Err(_) => {}
        }
    }
    Err(match why {
        NoRide::NoList => Trouble::NotHere(format!(
            "There is no checklist “{}”. Every one: hames checklist list",
            list.escape_debug()
        )),
        NoRide::TooFew | NoRide::Unplayable(_) => Trouble::Said(format!(
            "The scenarios know fewer than {LEAST_HIDDEN} faults that could be hidden in {list}, \
             so there is no check ride of it yet. Choose another checklist."
        )),
    })
}

fn seed(named: Option<u64>, random: u64) -> Result<u64, Trouble> {
    if named.is_some_and(|seed| seed > MOST_SEED) {
        return Err(Trouble::Said(format!(
            "A seed is at most {MOST_SEED}. Name a smaller one."
        )));
    }
    Ok(named.unwrap_or(random % SEEDS))
}

/// The scenario that is meant; of several one by the dice of this seed.
fn chosen(which: &WhichDrill, offered: &Offered, seed: u64) -> Result<Arc<Scenario>, Trouble> {
    let meant = meant(which, offered)?;
    let count = u64::try_from(meant.len()).unwrap_or(1).max(1);
    let place = usize::try_from(Dice::new(seed).below(count)).unwrap_or(0);
    let scenario = meant.get(place).copied().ok_or_else(|| {
        Trouble::NotHere("No scenario is about this. Every one: hames drill --list".to_owned())
    })?;
    Ok(Arc::clone(scenario))
}

/// Every scenario that is meant, of those that are offered.
///
/// # Errors
/// A sentence, where what is named is not there.
pub(in crate::cli) fn meant<'o>(
    which: &WhichDrill,
    offered: &'o Offered,
) -> Result<Vec<&'o Arc<Scenario>>, Trouble> {
    let mut all = offered.scenarios().iter();
    match which {
        WhichDrill::Any => Ok(all.collect()),
        WhichDrill::Named(id) => {
            let found = all.find(|known| known.id == *id);
            found
                .map(|one| vec![one])
                .ok_or_else(|| Trouble::NotHere(no_such(id)))
        }
        WhichDrill::About(family) => Ok(all.filter(|one| one.family == *family).collect()),
        WhichDrill::OfStep { list, step } => Ok(of_step(offered, list, step)),
        // It is put together from many.
        WhichDrill::CheckRide { .. } => Ok(Vec::new()),
    }
}

/// The scenarios in which a fault is called at this step; where there is none, those in which it is
/// walked.
fn of_step<'o>(offered: &'o Offered, wanted: &str, step: &str) -> Vec<&'o Arc<Scenario>> {
    let all = offered.scenarios();
    let of_list = || all.iter().filter(|one| one.list == wanted);
    let calls = |one: &&Arc<Scenario>| {
        let mut faults = one.faults.iter();
        faults.any(|fault| fault.call.step.step() == step)
    };
    let called: Vec<_> = of_list().filter(calls).collect();
    if !called.is_empty() {
        return called;
    }
    let list = offered.list(wanted);
    let sections = list.map_or(&[][..], |list| &list.checklist.sections);
    let has_step = |id: &String| {
        let mut own = sections.iter().filter(|section| section.id == *id);
        own.any(|section| section.steps.iter().any(|one| one.id == step))
    };
    of_list()
        .filter(|one| one.sections.iter().any(has_step))
        .collect()
}

fn no_such(id: &str) -> String {
    let known = scenarios().iter().map(|known| known.id.as_str());
    let meant =
        nearest(id, known).map_or_else(String::new, |meant| format!(" Did you mean {meant}?"));
    format!(
        "There is no scenario “{}”.{meant} Every one: hames drill --list",
        id.escape_debug()
    )
}

/// The family a word names: its own word, or one that stands in its label alone.
///
/// # Errors
/// A sentence with the nearest, and every one there is.
pub(in crate::cli) fn family(word: &str) -> Result<Family, String> {
    let is_labelled = |family: &Family| {
        let mut words = family.label().split([' ', ',']);
        words.any(|own| own == word)
    };
    let families = || Family::WORDS.into_iter().map(|(_, family)| family);
    if let Some(named) = families().find(|family| family.word() == word) {
        return Ok(named);
    }
    let labelled: Vec<Family> = families().filter(is_labelled).collect();
    if let [only] = labelled.as_slice() {
        return Ok(*only);
    }
    let known = Family::WORDS.map(|(known, _)| known);
    let meant =
        nearest(word, known).map_or_else(String::new, |meant| format!(" Did you mean {meant}?"));
    Err(format!(
        "No scenario is about “{}”.{meant} They are about {}.",
        word.escape_debug(),
        known.join(", ")
    ))
}
