//! What a drill rests on, as texts to keep beside its record, and the drill again from these.
//!
//! A file of scenarios is cut to the one that is played, and what is seen from where to the steps
//! that are walked: what is kept with a drill is read again by the same reader as any such file.

use crate::checklist::{Checklist, Plan};
use crate::document::{Document, Tree};
use crate::drill::format::{FORMAT, SIGHTS_FORMAT};
use crate::drill::{Drill, Passage, Scenario, Sights, Stage, Unplayable};
use crate::rig::Rig;
use std::collections::HashSet;
use std::sync::Arc;

/// The texts a drill rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DrillTexts<'t> {
    /// The passage of the checklist.
    pub checklist: &'t str,
    /// The rig as its file describes it.
    pub rig: &'t str,
    /// The scenario.
    pub scenario: &'t str,
    /// What is seen from where.
    pub sights: &'t str,
}

/// The scenario with this id of one of these files, as a file of its own.
pub fn scenario_of<'t>(files: impl IntoIterator<Item = &'t str>, id: &str) -> Option<String> {
    let mut files = files.into_iter();
    files.find_map(|text| Some(file(FORMAT, "scenarios", vec![entry(text, id)?])))
}

/// What these files say of steps that a plan has, as one file. Of two that tell of a step the first
/// is meant.
pub fn sights_of<'t>(files: impl IntoIterator<Item = &'t str>, plan: &Plan) -> String {
    let is_walked = |entry: &Tree| {
        let step = says(entry, "step");
        let mut steps = plan.steps().iter();
        steps.any(|planned| Some(planned.step.id.as_str()) == step)
    };
    let files = files.into_iter();
    let found = files.flat_map(|text| entries(text, "sights", is_walked));
    let mut told = HashSet::new();
    let first = found.filter(|entry| told.insert(says(entry, "step").map(str::to_owned)));
    file(SIGHTS_FORMAT, "sights", first.collect())
}

impl Drill {
    /// The drill that was played by these texts. A check ride has its faults whatever the dice say.
    ///
    /// # Errors
    /// [`Unplayable`], where this program cannot read them, or they do not fit each other.
    pub fn again(texts: DrillTexts<'_>, (seed, stage): (u64, Stage)) -> Result<Self, Unplayable> {
        let scenarios = Scenario::read_all(texts.scenario).map_err(Unplayable::Scenario)?;
        let Ok([scenario]) = <[Scenario; 1]>::try_from(scenarios) else {
            return Err(Unplayable::Scenario(Vec::new()));
        };
        // A passage may have no step of which a sight is described.
        let sights = Sights::read(texts.sights).map_err(Unplayable::Scenario)?;
        let passage = Passage::kept(texts.checklist, texts.rig, &scenario)?;
        let (scenario, sights) = (Arc::new(scenario), Arc::new(sights));
        if stage == Stage::CheckRide {
            Self::ride(scenario, passage, sights, seed)
        } else {
            Self::throw(scenario, passage, sights, seed)
        }
    }
}

impl Passage {
    /// A passage as it was kept, laid on the rig it was kept with.
    fn kept(checklist: &str, rig: &str, scenario: &Scenario) -> Result<Self, Unplayable> {
        let read = Checklist::read(checklist).map_err(Unplayable::Passage)?;
        let described = Rig::read(rig).map_err(Unplayable::Rig)?;
        let document = Document::parse(rig).map_err(Unplayable::Rig)?;
        let plan = Plan::lay_for(read, described, scenario.carries.clone());
        Ok(Self::of(
            plan.map_err(Unplayable::Plan)?,
            checklist.to_owned(),
            document.tree(),
        ))
    }
}

/// The entries of a list of a file that are to be kept.
fn entries(text: &str, key: &str, is_kept: impl Fn(&Tree) -> bool) -> Vec<Tree> {
    let tree = Document::parse(text).map(|document| document.tree());
    let Ok(Tree::Map(keys)) = tree else {
        return Vec::new();
    };
    let lists = keys.into_iter().filter(|(own, _)| own == key);
    let all = lists.flat_map(|(_, value)| match value {
        Tree::List(entries) => entries,
        _ => Vec::new(),
    });
    all.filter(|entry| is_kept(entry)).collect()
}

/// The scenario with this id, as it stands in a file.
pub(super) fn entry(text: &str, id: &str) -> Option<Tree> {
    // A file that has not got the words is not read.
    if !text.contains(id) {
        return None;
    }
    let found = entries(text, "scenarios", |entry| says(entry, "id") == Some(id));
    found.into_iter().next()
}

fn says<'t>(entry: &'t Tree, key: &str) -> Option<&'t str> {
    let Tree::Map(keys) = entry else {
        return None;
    };
    keys.iter().find_map(|(own, value)| match value {
        Tree::Text(text) if own == key => Some(text.as_str()),
        _ => None,
    })
}

pub(super) fn file(format: &str, key: &str, entries: Vec<Tree>) -> String {
    let format = ("format".to_owned(), Tree::Text(format.to_owned()));
    let tree = Tree::Map(vec![format, (key.to_owned(), Tree::List(entries))]);
    Document::of(&tree).text().to_owned()
}
