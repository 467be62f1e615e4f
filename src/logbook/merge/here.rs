//! The folders of one number here: where a history goes, what heals, and what gives way.

use crate::logbook::merge::candidate::Candidate;
use crate::logbook::merge::course::Step;
use crate::logbook::merge::files::{Files, History, whole_lines};
use crate::logbook::merge::heal::{absorbed, has_nothing_but, healed, of_another_seal};
use crate::logbook::merge::piece::TripKey;
use crate::record::{Mode, TripFault};
use std::collections::BTreeSet;

/// A history here, and in which folder it lies; in none yet where this merge makes the folder.
pub(super) struct Known {
    pub(super) history: History,
    pub(super) ours: Option<usize>,
}

/// The folders of one number here, on the way.
pub(super) struct Here<'a> {
    ours: &'a [Files],
    mode: Mode,
    /// Those without a journal where this trip may be completed.
    pub(super) free: BTreeSet<usize>,
    pub(super) known: Vec<Known>,
    /// Those that cannot be relied on, and are not healed yet.
    pub(super) damaged: BTreeSet<usize>,
    /// What can be relied on of them.
    pub(super) salvaged: Vec<(usize, Candidate)>,
    /// Those whose seal closes another history than the journal beside it tells, both of which have
    /// a place of their own.
    parted: BTreeSet<usize>,
}

impl<'a> Here<'a> {
    pub(super) fn of(
        key: &TripKey,
        ours: &'a [Files],
        mode: Mode,
        damaged: &[(usize, Vec<TripFault>)],
    ) -> Self {
        let damaged: BTreeSet<usize> = damaged.iter().map(|(at, _)| *at).collect();
        let salvaged = damaged.iter().filter_map(|at| {
            let one = Candidate::salvaged(ours.get(*at)?, mode)?;
            (one.history.key == *key).then_some((*at, one))
        });
        Self {
            ours,
            mode,
            free: BTreeSet::new(),
            known: Vec::new(),
            salvaged: salvaged.collect(),
            parted: BTreeSet::new(),
            damaged,
        }
    }

    /// Journals without a fault that lie under the seal of another history: each is a history.
    pub(super) fn part(&mut self, whole: &[&Candidate]) -> Vec<Candidate> {
        let mut parted = Vec::new();
        for (at, one) in &self.salvaged {
            let held = self.ours.get(*at).cloned().unwrap_or_default();
            let is_other = |whole: &&Candidate| {
                held.seal.is_some()
                    && whole.files.seal == held.seal
                    && !whole.history.lines.starts_with(&one.history.lines)
            };
            let is_spoilt = |whole: &&Candidate| whole.history.was_sealed_otherwise(&one.history);
            if whole.iter().any(is_spoilt) {
                continue;
            }
            let journal = held.journal.as_deref().map(whole_lines);
            if journal == one.files.journal.as_deref() && whole.iter().any(is_other) {
                self.parted.insert(*at);
                parted.push(one.clone());
            }
        }
        parted
    }

    /// Leaves of the damaged folders those that may be of this trip: by the first line, the seal or
    /// the name. What is in them decides whether they are.
    pub(super) fn keep_damaged_of(&mut self, key: &TripKey, named: &[usize]) {
        let ours = self.ours;
        self.damaged.retain(|at| {
            let says = ours.get(*at).map(Files::keys).unwrap_or_default();
            says.contains(key) || named.contains(at)
        });
    }

    fn healed(&self, at: usize, whole: &Candidate) -> Option<Files> {
        let held = self.ours.get(at)?;
        let parted = self.parted.contains(&at);
        (parted || has_nothing_but(held, &whole.history)).then(|| healed(held, whole, self.mode))?
    }

    pub(super) fn is_in_parts(&self, at: usize) -> bool {
        self.damaged.contains(&at) || self.free.contains(&at)
    }

    fn held(&self, at: Option<usize>) -> Option<(usize, &'a Files)> {
        at.and_then(|at| self.ours.get(at).map(|held| (at, held)))
    }

    /// Decides where one history goes.
    pub(super) fn place(&mut self, candidate: Candidate, steps: &mut Vec<Step>) {
        let Candidate { files, history } = &candidate;
        if let Some(one) = self.known.iter().find(|one| one.history.holds(history)) {
            if let Some((at, held)) = self.held(one.ours) {
                add(at, (held, files), self.mode, steps);
            }
            return;
        }
        let beginnings = self.known.iter().enumerate();
        let beginnings =
            beginnings.filter(|(_, one)| one.ours.is_some() && one.history.begins(history));
        let longest = beginnings.max_by_key(|(_, one)| one.history.lines.len());
        if let Some((place, one)) = longest {
            if let Some((at, held)) = self.held(one.ours) {
                let lines = files.lines_from(one.history.lines.len());
                if !lines.is_empty() {
                    steps.push(Step::Extend { ours: at, lines });
                }
                add(at, (held, files), self.mode, steps);
            }
            if let Some(one) = self.known.get_mut(place) {
                one.history = candidate.history;
            }
            return;
        }
        if self.heal(&candidate, &self.damaged.clone(), steps) {
            return;
        }
        let mut salvaged = self.salvaged.iter();
        if salvaged.any(|(_, one)| one.history.holds(history)) {
            // The lines are here already, and what is damaged beside them is told.
            return;
        }
        let fits = |at: &usize| {
            let held = self.ours.get(*at).cloned().unwrap_or_default();
            let same =
                |held: &Option<Vec<u8>>, new: &Option<Vec<u8>>| held.is_none() || held == new;
            same(&held.checklist, &files.checklist)
                && same(&held.rig, &files.rig)
                && same(&held.crew, &files.crew)
                && same(&held.scenario, &files.scenario)
                && same(&held.sights, &files.sights)
                && same(&held.seal, &files.seal)
        };
        let beside = !self.known.is_empty();
        let free = self.free.iter().copied().find(fits);
        let at = free.filter(|_| !beside);
        if at.is_none() && self.heal(&candidate, &self.free.clone(), steps) {
            return;
        }
        self.free.retain(|one| Some(*one) != at);
        match self.held(at) {
            Some((at, held)) => add(at, (held, files), self.mode, steps),
            None => steps.push(Step::Keep {
                files: files.clone(),
                history: history.clone(),
                beside,
            }),
        }
        self.known.push(Known {
            history: candidate.history,
            ours: at,
        });
    }

    /// Makes a damaged folder whole by this history, where it can lose nothing by that.
    fn heal(&mut self, whole: &Candidate, among: &BTreeSet<usize>, steps: &mut Vec<Step>) -> bool {
        let healed = among.iter().find_map(|at| {
            let held = self.ours.get(*at)?;
            Some((*at, held, self.healed(*at, whole)?))
        });
        let Some((at, held, healed)) = healed else {
            return false;
        };
        self.damaged.remove(&at);
        self.free.remove(&at);
        self.salvaged.retain(|(one, _)| *one != at);
        if let Some(history) = healed.history() {
            let left = clear(at, (held, &healed), self.mode, steps);
            steps.push(Step::Heal {
                ours: at,
                files: left.differs(&healed),
                history: history.clone(),
            });
            let ours = Some(at);
            self.known.push(Known { history, ours });
        }
        true
    }

    /// Moves aside what has nothing that another folder has not, when the other has it whole.
    pub(super) fn dissolve(&self, all: &[Candidate], steps: &mut Vec<Step>) {
        let mut gone = BTreeSet::new();
        for (at, held) in self.ours.iter().enumerate() {
            let others = self.known.iter().filter(|one| one.ours != Some(at));
            let found = others.filter_map(|other| {
                let into = other.ours.filter(|into| !gone.contains(into))?;
                let whole = all.iter().find(|one| one.history == other.history)?;
                let healed = match self.known.iter().find(|one| one.ours == Some(at)) {
                    None if self.is_in_parts(at) => self.healed(at, whole)?,
                    None => return None,
                    Some(one) => absorbed(held, &one.history, whole, into < at)?,
                };
                Some((into, healed))
            });
            let Some((into, healed)) = { found }.next() else {
                continue;
            };
            if let Some(whole) = self.ours.get(into) {
                add(into, (whole, &healed), self.mode, steps);
            }
            gone.insert(at);
            steps.push(Step::Dissolve { ours: at, into });
        }
    }
}

/// Puts there what a folder lacks. What lies there and signs another seal than the one that comes
/// gives way to it.
fn add(at: usize, (held, files): (&Files, &Files), mode: Mode, steps: &mut Vec<Step>) {
    let held = clear(at, (held, files), mode, steps);
    let whole = Files {
        seal: held.seal.clone().or_else(|| files.seal.clone()),
        ..files.clone()
    };
    let files = held.lacks(files);
    let strange = of_another_seal(&files, &whole, mode);
    let files = files.without_signatures(&strange);
    if !files.is_empty() {
        steps.push(Step::Add { ours: at, files });
    }
}

/// What is left of a folder when the signatures are gone that are not of the seal which comes.
fn clear(at: usize, (held, files): (&Files, &Files), mode: Mode, steps: &mut Vec<Step>) -> Files {
    let strange = match held.seal {
        None => of_another_seal(held, files, mode),
        Some(_) => Files::default(),
    };
    let step = Step::Clear {
        ours: at,
        files: strange.clone(),
    };
    if !strange.is_empty() && !steps.contains(&step) {
        steps.push(step);
    }
    held.clone().without_signatures(&strange)
}
