//! The lines of the drill room, in their order: the key of each is its place.

use crate::checklist::{Section, Step};
use crate::desk::{Learner, ScenarioCard, TripCard, WhichDrill};
use crate::drill::{self, Family, Tally, Weak};
use crate::tui::room::Drills;

/// The weakest steps that stand one key away.
const WEAKEST: usize = 3;

/// Most of the steps that are due to be asked again; the others come up once these are done.
const MOST_DUE: usize = 4;

/// Most drills to be taken up; older ones are taken up after these.
const MOST_UNFINISHED: usize = 3;

/// A line of the front page.
#[derive(Clone, Debug)]
pub(super) enum Line<'d> {
    Learner(&'d Learner),
    TakeUp(&'d TripCard),
    Weak(Weak),
    Due(String, String),
    Dice,
    Families,
    Titles,
    Reached,
    OtherLearner,
}

impl Line<'_> {
    /// The heading it stands under.
    pub(super) fn title(&self) -> &'static str {
        match self {
            Self::Learner(_) => "Who learns?",
            Self::TakeUp(_) => "Not finished",
            Self::Weak(_) => "The weakest steps",
            Self::Due(..) => "Due to be asked again",
            Self::Dice | Self::Families | Self::Titles => "A drill",
            Self::Reached | Self::OtherLearner => "The learner",
        }
    }

    /// What is said, and what stands small behind it.
    pub(super) fn told(&self) -> (String, String) {
        match self {
            Self::Learner(learner) => (learner.who.name.clone(), String::new()),
            Self::TakeUp(card) => {
                let text = format!(
                    "{}, {}: {}, {}",
                    card.rig, card.checklist, card.stands, card.last
                );
                (text, String::new())
            }
            Self::Weak(weak) => {
                let tail = format!("{} of the last {} wrong", weak.wrong, weak.of);
                (format!("{}:", step_name(&weak.list, &weak.step)), tail)
            }
            Self::Due(list, step) => (format!("{},", step_name(list, step)), list_title(list)),
            Self::Dice => ("Any, by the dice".to_owned(), String::new()),
            Self::Families => ("By what it is about".to_owned(), String::new()),
            Self::Titles => ("By its title".to_owned(), String::new()),
            Self::Reached => ("How far each section is".to_owned(), String::new()),
            Self::OtherLearner => ("Somebody else learns".to_owned(), String::new()),
        }
    }

    /// The drill it begins, where it begins one.
    pub(super) fn begins(&self) -> Option<WhichDrill> {
        match self {
            Self::Weak(Weak { list, step, .. }) | Self::Due(list, step) => {
                Some(WhichDrill::OfStep {
                    list: list.clone(),
                    step: step.clone(),
                })
            }
            Self::Dice => Some(WhichDrill::Any),
            _ => None,
        }
    }
}

/// The lines of the front page: first who learns, then everything else.
pub(super) fn front(drills: &Drills) -> Vec<Line<'_>> {
    let room = &drills.room;
    let unfinished = room.unfinished.iter().take(MOST_UNFINISHED);
    let unfinished = unfinished.map(Line::TakeUp);
    if !drills.is_ready() {
        let learners = room.learners.iter().map(Line::Learner);
        return learners.chain(unfinished).collect();
    }
    let mut lines: Vec<Line<'_>> = Vec::new();
    let progress = drills.learner().map(|learner| &learner.progress);
    if let Some(progress) = progress {
        let weakest = progress.weakest(WEAKEST);
        let due = progress.due(room.today).into_iter();
        let is_weak = |(list, step): &(String, String)| {
            let mut weakest = weakest.iter();
            weakest.any(|weak| weak.list == *list && weak.step == *step)
        };
        let due: Vec<_> = due.filter(|key| !is_weak(key)).take(MOST_DUE).collect();
        lines.extend(weakest.into_iter().map(Line::Weak));
        lines.extend(due.into_iter().map(|(list, step)| Line::Due(list, step)));
    }
    lines.extend([Line::Dice, Line::Families, Line::Titles]);
    lines.extend(unfinished);
    if progress.is_some() {
        lines.extend([Line::Reached, Line::OtherLearner]);
    }
    lines
}

/// What drills here are about, each with how the learner does in it.
pub(super) fn families(drills: &Drills) -> Vec<(Family, Option<Tally>)> {
    let known = |family: Family| {
        let progress = &drills.learner()?.progress;
        let mut tallies = progress.families();
        tallies
            .find(|(own, _)| *own == family)
            .map(|(_, tally)| tally)
    };
    let there = |family: &Family| {
        let mut cards = drills.room.scenarios.iter();
        cards.any(|card| card.family == *family)
    };
    let families = Family::WORDS.into_iter().map(|(_, family)| family);
    let families = families.filter(there);
    families.map(|family| (family, known(family))).collect()
}

/// The scenarios of which title or kind hold these words.
pub(super) fn titled<'d>(drills: &'d Drills, words: &str) -> Vec<&'d ScenarioCard> {
    let words = words.trim().to_lowercase();
    let fits = |card: &&ScenarioCard| {
        card.title.to_lowercase().contains(&words) || card.family.label().contains(&words)
    };
    drills.room.scenarios.iter().filter(fits).collect()
}

/// The title of a checklist; its id where this program has none of that name.
pub(super) fn list_title(list: &str) -> String {
    let found = drill::list(list);
    found.map_or_else(|| list.to_owned(), |found| found.checklist.title.clone())
}

/// A section of a checklist.
pub(super) fn section(list: &str, section: &str) -> Option<&'static Section> {
    let mut sections = drill::list(list)?.checklist.sections.iter();
    sections.find(|known| known.id == section)
}

fn step_name(list: &str, step: &str) -> String {
    let sections = drill::list(list).map(|list| &list.checklist.sections);
    let mut steps = sections.into_iter().flatten().flat_map(|one| &one.steps);
    let found: Option<&Step> = steps.find(|known| known.id == step);
    found.map_or_else(|| step.to_owned(), |found| found.name.clone())
}
