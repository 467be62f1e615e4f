//! The lines of the drill room, in their order: the key of each is its place.

use crate::checklist::{Section, Step};
use crate::desk::told::list_title;
use crate::desk::{
    Difference, DrillRoom, Learner, NOBODY_LEARNS, ScenarioCard, TripCard, WhichDrill,
};
use crate::drill::{self, Family, Tally, Weak};
use crate::tui::room::{Drills, Who};

/// The weakest steps that stand one key away.
const WEAKEST: usize = 3;

/// Most of the steps that changed since a check ride; the others come up once these are done.
const MOST_DIFFERENT: usize = 6;

/// Most of the steps that are due to be asked again; the others come up once these are done.
const MOST_DUE: usize = 4;

/// Most drills to be taken up; older ones are taken up after these.
const MOST_UNFINISHED: usize = 3;

/// A line of the front page.
#[derive(Clone, Debug)]
pub(super) enum Line<'d> {
    Learner(&'d Learner),
    Nobody,
    TakeUp(&'d TripCard),
    Different(&'d Difference),
    Weak(Weak),
    Due(String, String),
    Dice,
    Families,
    Titles,
    CheckRide(&'d Learner),
    Reached,
    OtherLearner,
    SomebodyLearns,
}

impl Line<'_> {
    /// The heading it stands under.
    pub(super) fn title(&self) -> &'static str {
        match self {
            Self::Learner(_) | Self::Nobody => "Who learns?",
            Self::TakeUp(_) => "Not finished",
            Self::Different(_) => "Changed since your check ride",
            Self::Weak(_) => "The weakest steps",
            Self::Due(..) => "Due to be asked again",
            Self::Dice | Self::Families | Self::Titles | Self::CheckRide(_) => "A drill",
            Self::Reached | Self::OtherLearner | Self::SomebodyLearns => "The learner",
        }
    }

    /// What is said, and what stands small behind it.
    pub(super) fn told(&self) -> (String, String) {
        match self {
            Self::Learner(learner) => (learner.who.name.clone(), String::new()),
            Self::Nobody => (NOBODY_LEARNS.to_owned(), String::new()),
            Self::TakeUp(card) => {
                let text = format!(
                    "{}, {}: {}, {}",
                    card.rig, card.checklist, card.stands, card.last
                );
                (text, String::new())
            }
            Self::Different(Difference {
                list,
                revision,
                step,
            }) => {
                let tail = format!("{}, revision {revision}", list_title(list));
                (format!("{},", step_name(list, step)), tail)
            }
            Self::Weak(weak) => {
                let tail = format!("{} of the last {} wrong", weak.wrong, weak.of);
                (format!("{}:", step_name(&weak.list, &weak.step)), tail)
            }
            Self::Due(list, step) => (format!("{},", step_name(list, step)), list_title(list)),
            Self::Dice => ("Any, by the dice".to_owned(), String::new()),
            Self::Families => ("By what it is about".to_owned(), String::new()),
            Self::Titles => ("By its title".to_owned(), String::new()),
            Self::CheckRide(Learner { examiners, .. }) => match examiners {
                Ok(_) => ("A check ride".to_owned(), String::new()),
                Err(_) => (
                    "A check ride:".to_owned(),
                    "nobody may examine you yet".to_owned(),
                ),
            },
            Self::Reached => ("How far each section is".to_owned(), String::new()),
            Self::OtherLearner => ("Somebody else learns".to_owned(), String::new()),
            Self::SomebodyLearns => ("Somebody learns".to_owned(), String::new()),
        }
    }

    /// The drill it begins, where it begins one.
    pub(super) fn begins(&self) -> Option<WhichDrill> {
        match self {
            Self::Different(Difference { list, step, .. })
            | Self::Weak(Weak { list, step, .. })
            | Self::Due(list, step) => Some(WhichDrill::OfStep {
                list: list.clone(),
                step: step.clone(),
            }),
            Self::Dice => Some(WhichDrill::Any),
            _ => None,
        }
    }
}

/// The lines of the front page: first who learns, then everything else. A check ride that begins
/// once it is said who learns is ridden by somebody.
pub(super) fn front<'d>(drills: &'d Drills, pending: Option<&WhichDrill>) -> Vec<Line<'d>> {
    let room = &drills.room;
    if !drills.is_ready() {
        let learners = room.learners.iter().map(Line::Learner);
        let rides = matches!(pending, Some(WhichDrill::CheckRide { .. }));
        let nobody = (!rides).then_some(Line::Nobody);
        return learners.chain(nobody).collect();
    }
    let mut lines: Vec<Line<'_>> = Vec::new();
    lines.extend(
        drills
            .learner()
            .into_iter()
            .flat_map(|one| asked(one, room)),
    );
    lines.extend([Line::Dice, Line::Families, Line::Titles]);
    let rider = drills.learner().filter(|_| !room.rides.is_empty());
    lines.extend(rider.map(Line::CheckRide));
    let unfinished = drills.learner().into_iter().flat_map(|one| &one.unfinished);
    lines.extend(unfinished.take(MOST_UNFINISHED).map(Line::TakeUp));
    match drills.who {
        Who::One(_) => lines.extend([Line::Reached, Line::OtherLearner]),
        Who::Nobody => lines.push(Line::SomebodyLearns),
        Who::Unsaid => {}
    }
    lines
}

/// The steps a learner is asked for by name, each once: what changed, what goes worst, what is due.
fn asked<'d>(learner: &'d Learner, room: &DrillRoom) -> Vec<Line<'d>> {
    let changed = learner.differences.iter().take(MOST_DIFFERENT);
    let weak = learner.progress.weakest(WEAKEST).into_iter();
    let due = learner.progress.due(room.today).into_iter();
    let mut lines: Vec<Line<'d>> = changed.map(Line::Different).collect();
    for line in weak.map(Line::Weak) {
        add(&mut lines, line);
    }
    let before = lines.len();
    for line in due.map(|(list, step)| Line::Due(list, step)) {
        if lines.len() < before + MOST_DUE {
            add(&mut lines, line);
        }
    }
    lines
}

/// Adds a line, where none before it begins the same drill.
fn add<'d>(lines: &mut Vec<Line<'d>>, line: Line<'d>) {
    if lines.iter().all(|one| one.begins() != line.begins()) {
        lines.push(line);
    }
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
