//! How far a learner is: a fold of the drills they played.

use crate::drill::stage::Reached;
use crate::drill::{Currency, Family, Score, Stage};
use crate::rig::HitchKind;
use chrono::{DateTime, FixedOffset, NaiveDate};
use std::collections::{BTreeMap, BTreeSet};

/// Right so many times in a row, and the hint of a step is withdrawn; one miss brings it back.
pub const HINT_GOES_AFTER: usize = 2;

/// Days until a step is asked again, right once more each time; then every last one. Ours: even
/// gaps do as well as growing ones, and any gap better than none, from memory.
pub const AGAIN_AFTER_DAYS: [i64; 4] = [2, 7, 21, 60];

/// So many of the last answers to a step say how weak it is.
const LAST: usize = 10;

/// What one drill came to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Played {
    /// When, where it was played.
    pub at: DateTime<FixedOffset>,
    /// The checklist.
    pub list: String,
    /// Its revision.
    pub revision: u32,
    /// The sections that were walked.
    pub sections: Vec<String>,
    /// What kind of fault it was about.
    pub family: Family,
    /// The stage it was played at.
    pub stage: Stage,
    /// How it went.
    pub score: Score,
    /// What came of it as a check ride, where it was one.
    pub ride: Option<Ridden>,
}

/// What came of a check ride.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ridden {
    /// Whether it was passed.
    pub passed: bool,
    /// Who examined.
    pub examiner: String,
    /// The revision of the checklist.
    pub revision: u32,
    /// The kind of rig.
    pub rigs: HitchKind,
}

/// How far a learner is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    sections: BTreeMap<(String, String), Reached>,
    /// When a drill with the section in it was last played.
    last: BTreeMap<(String, String), NaiveDate>,
    steps: BTreeMap<(String, String), Practised>,
    families: BTreeMap<Family, Tally>,
    resumed: Resumed,
    /// The revision at which a section was last played alone without a slip.
    alone: BTreeMap<(String, String), u32>,
    /// Check rides, in the order they were ridden: the checklist, the day, what came of it.
    rides: Vec<(String, NaiveDate, Ridden)>,
}

/// How one step goes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Practised {
    /// Whether each answer was right, oldest first; only the last ones.
    right: Vec<bool>,
    /// Right so many times in a row.
    in_a_row: usize,
    /// When it was last answered.
    last: Option<NaiveDate>,
    /// How often in a row it was right when it was due.
    held: usize,
}

/// Counts of one family of faults.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Faults caught.
    pub caught: usize,
    /// Faults missed.
    pub missed: usize,
    /// What was well and was called otherwise.
    pub false_alarms: usize,
    /// What was answered without looking or measuring.
    pub omissions: usize,
}

/// Whether work went on at the right step after being called away.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Resumed {
    /// At the right one, or before it.
    pub right: usize,
    /// Further on.
    pub wrong: usize,
}

/// A step that goes badly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weak {
    /// The checklist.
    pub list: String,
    /// The step.
    pub step: String,
    /// Of the last answers, so many were wrong.
    pub wrong: usize,
    /// Of so many.
    pub of: usize,
}

impl Progress {
    /// What these drills come to, in the order they were played.
    pub fn of<'p>(played: impl IntoIterator<Item = &'p Played>) -> Self {
        let mut progress = Self::default();
        for drill in played {
            progress.takes(drill);
        }
        progress
    }

    fn takes(&mut self, drill: &Played) {
        // What was watched was answered by nobody.
        if drill.stage != Stage::Watch {
            self.counts(drill);
        }
        if let Some(ride) = &drill.ride {
            let day = drill.at.date_naive();
            self.rides.push((drill.list.clone(), day, ride.clone()));
        }
        let hinted = drill.score.steps.iter();
        let hinted = hinted.filter(|step| self.hints(&drill.list, step.step.step()));
        let hints_left = hinted.count();
        for section in &drill.sections {
            let reached = self.reached(&drill.list, section);
            let reached = reached.after(drill.stage, &drill.score, hints_left);
            let key = (drill.list.clone(), section.clone());
            self.sections.insert(key.clone(), reached);
            if drill.stage >= Stage::Solo && drill.score.is_clean() {
                self.alone.insert(key.clone(), drill.revision);
            }
            self.last.insert(key, drill.at.date_naive());
        }
    }

    fn counts(&mut self, drill: &Played) {
        for step in &drill.score.steps {
            let key = (drill.list.clone(), step.step.step().to_owned());
            let again = drill.score.again.iter().any(|one| one.step == step.step);
            let right = step.known && !step.is_missed() && !step.is_false_alarm() && !again;
            let practised = self.steps.entry(key).or_default();
            practised.takes(right, drill.at.date_naive());
        }
        let tally = self.families.entry(drill.family).or_default();
        tally.caught += drill.score.caught().count();
        tally.missed += drill.score.missed().count();
        tally.false_alarms += drill.score.false_alarms().count();
        tally.omissions += drill.score.omissions().count() + drill.score.again.len();
        match drill.score.resumed {
            Some(true) => self.resumed.right += 1,
            Some(false) => self.resumed.wrong += 1,
            None => {}
        }
    }

    /// How far they are with a section.
    pub fn reached(&self, list: &str, section: &str) -> Reached {
        let key = (list.to_owned(), section.to_owned());
        self.sections.get(&key).copied().unwrap_or_default()
    }

    /// The same today: who has neither drilled the section nor walked since `walked` for long begins
    /// again with every hint.
    pub fn stands(
        &self,
        (list, section): (&str, &str),
        (today, walked): (NaiveDate, Option<NaiveDate>),
    ) -> Reached {
        let reached = self.reached(list, section);
        let lapsed = self.currency((list, section), (today, walked)) == Some(Currency::Lapsed);
        if lapsed && reached.stage > Stage::Guided {
            Reached::at(Stage::Guided)
        } else {
            reached
        }
    }

    /// Whether a section is still in the hands of whoever last drilled or walked it; nothing where
    /// they never drilled it.
    pub fn currency(
        &self,
        (list, section): (&str, &str),
        (today, walked): (NaiveDate, Option<NaiveDate>),
    ) -> Option<Currency> {
        let key = (list.to_owned(), section.to_owned());
        let drilled = *self.last.get(&key)?;
        Some(Currency::on(
            today,
            walked.map_or(drilled, |walked| walked.max(drilled)),
        ))
    }

    /// Every section that was drilled, by checklist, with how far they are.
    pub fn sections(&self) -> impl Iterator<Item = (&str, &str, Reached)> {
        let sections = self.sections.iter();
        sections.map(|((list, section), reached)| (list.as_str(), section.as_str(), *reached))
    }

    /// Whether a section was played alone without a slip at this revision of its checklist, or a
    /// later one.
    pub fn is_met(&self, list: &str, section: &str, revision: u32) -> bool {
        let key = (list.to_owned(), section.to_owned());
        self.alone.get(&key).is_some_and(|met| *met >= revision)
    }

    /// When a section was last drilled.
    pub fn last(&self, list: &str, section: &str) -> Option<NaiveDate> {
        self.last
            .get(&(list.to_owned(), section.to_owned()))
            .copied()
    }

    /// Check rides, in the order they were ridden: the checklist, the day, what came of it.
    pub fn rides(&self) -> &[(String, NaiveDate, Ridden)] {
        &self.rides
    }

    /// The steps of a checklist whose hints are withdrawn.
    pub fn unhinted(&self, list: &str) -> BTreeSet<String> {
        let known = self.steps.iter().filter(|((own, _), _)| own == list);
        let without = known.filter(|(_, known)| known.in_a_row >= HINT_GOES_AFTER);
        without.map(|((_, step), _)| step.clone()).collect()
    }

    /// Whether a step still has its hint.
    pub fn hints(&self, list: &str, step: &str) -> bool {
        let known = self.steps.get(&(list.to_owned(), step.to_owned()));
        known.is_none_or(|known| known.in_a_row < HINT_GOES_AFTER)
    }

    /// Counts by family.
    pub fn families(&self) -> impl Iterator<Item = (Family, Tally)> + '_ {
        self.families
            .iter()
            .map(|(family, tally)| (*family, *tally))
    }

    /// How coming back from being called away went.
    pub fn resumed(&self) -> Resumed {
        self.resumed
    }

    /// The steps that go worst, at most so many: those with a wrong answer among the last ones.
    pub fn weakest(&self, most: usize) -> Vec<Weak> {
        let weak = self.steps.iter().map(|((list, step), known)| Weak {
            list: list.clone(),
            step: step.clone(),
            wrong: known.right.iter().filter(|right| !**right).count(),
            of: known.right.len(),
        });
        let mut weak: Vec<Weak> = weak.filter(|weak| weak.wrong > 0).collect();
        // The greater share of wrong answers first; of equal shares, the more answers.
        weak.sort_by(|one, other| {
            let shares = (other.wrong * one.of).cmp(&(one.wrong * other.of));
            shares.then(other.of.cmp(&one.of))
        });
        weak.truncate(most);
        weak
    }

    /// The steps that are due to be asked again on that day, the longest overdue first.
    pub fn due(&self, today: NaiveDate) -> Vec<(String, String)> {
        let due = self.steps.iter().filter_map(|(key, known)| {
            let by = known.due()?;
            (by <= today).then_some((by, key.clone()))
        });
        let mut due: Vec<_> = due.collect();
        due.sort();
        due.into_iter().map(|(_, key)| key).collect()
    }
}

impl Practised {
    fn takes(&mut self, right: bool, day: NaiveDate) {
        let was_due = self.due().is_none_or(|by| by <= day);
        self.right.push(right);
        let more = self.right.len().saturating_sub(LAST);
        self.right.drain(..more);
        self.in_a_row = if right { self.in_a_row + 1 } else { 0 };
        self.held = match (right, was_due) {
            (false, _) => 0,
            (true, true) if self.last.is_some() => self.held + 1,
            (true, _) => self.held,
        };
        self.last = Some(day);
    }

    /// The day it is due; nothing where it was never answered.
    fn due(&self) -> Option<NaiveDate> {
        let last = AGAIN_AFTER_DAYS.len() - 1;
        let days = AGAIN_AFTER_DAYS.get(self.held.min(last))?;
        self.last?
            .checked_add_signed(chrono::TimeDelta::days(*days))
    }
}
