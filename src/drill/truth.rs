//! A drill: a scenario with its dice thrown, and so a rig as it truly is.

use crate::checklist::{Gap, Plan, PlannedAsk, PlannedStep, Together};
use crate::document::{Document, Fault as FileFault, Tree};
use crate::drill::measured::measured;
use crate::drill::{Differs, Fault, Patch, Scenario, Sights, Vantage};
use crate::rig::{Instrument, Rig};
use crate::rules::{Verdict, scale};
use crate::shown::{Dice, shows, sound};
use crate::units::Quantity;
use crate::walk::{Answer, Given, Round, Status, Walk};
use std::sync::Arc;

/// A scenario with its dice thrown.
#[derive(Clone, Debug)]
pub struct Drill {
    /// The scenario.
    pub scenario: Arc<Scenario>,
    /// What the dice were thrown by.
    pub seed: u64,
    /// The passage that is walked, laid on the rig as its file describes it.
    pub plan: Arc<Plan>,
    /// Its text.
    pub passage: String,
    /// What is wrong: nothing, one thing, or what a check ride hides.
    faults: Vec<usize>,
    /// The rig as it truly is.
    truly: Rig,
    /// The same once what is wrong was put right.
    well: Rig,
    sights: Arc<Sights>,
}

/// What there is at a step.
#[derive(Clone, Debug, PartialEq)]
pub enum There {
    /// This state.
    State(String),
    /// This value.
    Value(Quantity),
}

/// Why a scenario cannot be played.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unplayable {
    /// Its sections do not read as a passage.
    Passage(Vec<FileFault>),
    /// The rig is not one for this passage.
    Plan(Vec<Gap>),
    /// A value of the rig file that it changes is not there.
    NoSuchValue(String),
    /// The rig it comes to does not read.
    Rig(Vec<FileFault>),
    /// What was kept of the scenario, or of what is seen, does not read.
    Scenario(Vec<FileFault>),
}

/// A passage laid on a rig: what every drill of the same sections of one list begins with.
#[derive(Clone, Debug)]
pub struct Passage {
    plan: Arc<Plan>,
    text: String,
    rig: Arc<Tree>,
}

impl Passage {
    /// Lays the sections of a scenario on a rig, by its file.
    ///
    /// # Errors
    /// [`Unplayable`] where they do not fit.
    pub fn lay(scenario: &Scenario, list: &Together, rig: &str) -> Result<Self, Unplayable> {
        let passage = list
            .passage(&scenario.sections)
            .map_err(Unplayable::Passage)?;
        let document = Document::parse(rig).map_err(Unplayable::Rig)?;
        let described = Rig::read(rig).map_err(Unplayable::Rig)?;
        let plan = Plan::lay_for(passage.checklist, described, scenario.carries.clone())
            .map_err(Unplayable::Plan)?;
        Ok(Self::of(plan, passage.text, document.tree()))
    }

    pub(super) fn of(plan: Plan, text: String, rig: Tree) -> Self {
        Self {
            plan: Arc::new(plan),
            text,
            rig: Arc::new(rig),
        }
    }

    /// The passage laid on the rig as its file describes it.
    pub(super) fn plan(&self) -> &Plan {
        &self.plan
    }

    /// The rig with these values of its file otherwise.
    fn patched(&self, patches: &[&Patch]) -> Result<Rig, Unplayable> {
        if patches.is_empty() {
            return Ok(self.plan.rig().clone());
        }
        let mut tree = (*self.rig).clone();
        for patch in patches {
            let no_such = || Unplayable::NoSuchValue(patch.at.clone());
            let own = tree.at_mut(&patch.at).ok_or_else(no_such)?;
            let value = Tree::Text(patch.is.clone());
            match own {
                Tree::Map(entries) => {
                    let is = entries.iter_mut().find(|(key, _)| key == "is");
                    is.ok_or_else(no_such)?.1 = value;
                }
                own => *own = value,
            }
        }
        Rig::read(Document::of(&tree).text()).map_err(Unplayable::Rig)
    }
}

impl Drill {
    /// Throws the dice of a scenario, on its passage.
    ///
    /// # Errors
    /// [`Unplayable`] where the scenario does not fit it.
    pub fn throw(
        scenario: Arc<Scenario>,
        passage: Passage,
        sights: Arc<Sights>,
        seed: u64,
    ) -> Result<Self, Unplayable> {
        let fault = scenario.thrown(seed);
        Self::with(scenario, passage, sights, (seed, fault))
    }

    /// The same with this fault, or none, whatever the dice say.
    ///
    /// # Errors
    /// [`Unplayable`] where the scenario does not fit it.
    pub fn with(
        scenario: Arc<Scenario>,
        passage: Passage,
        sights: Arc<Sights>,
        (seed, fault): (u64, Option<usize>),
    ) -> Result<Self, Unplayable> {
        let faults = fault.into_iter().collect();
        Self::with_all(scenario, passage, sights, (seed, faults))
    }

    /// The same with all of these faults. What of them changes the rig is put right together.
    ///
    /// # Errors
    /// [`Unplayable`] where the scenario does not fit it.
    pub(super) fn with_all(
        scenario: Arc<Scenario>,
        passage: Passage,
        sights: Arc<Sights>,
        (seed, faults): (u64, Vec<usize>),
    ) -> Result<Self, Unplayable> {
        let mut patches: Vec<&Patch> = scenario.always.rig.iter().collect();
        let well = passage.patched(&patches)?;
        let thrown = faults.iter().filter_map(|at| scenario.faults.get(*at));
        patches.extend(thrown.flat_map(|fault| &fault.differs.rig));
        let truly = passage.patched(&patches)?;
        Ok(Self {
            seed,
            plan: passage.plan,
            passage: passage.text,
            faults,
            truly,
            well,
            sights,
            scenario,
        })
    }

    /// What is wrong; nothing where all is well. Of a check ride the first.
    pub fn fault(&self) -> Option<&Fault> {
        self.faults().next()
    }

    /// Everything that is wrong.
    pub fn faults(&self) -> impl Iterator<Item = &Fault> {
        let faults = self.faults.iter();
        faults.filter_map(|at| self.scenario.faults.get(*at))
    }

    /// The rig as it truly is.
    pub fn truly(&self) -> &Rig {
        &self.truly
    }

    /// The rig as it stands now: as it truly is, and well once what was wrong is put right.
    pub fn stands(&self, walk: &Walk) -> &Rig {
        let mut moved = self.faults().filter(|fault| !fault.differs.rig.is_empty());
        if moved.any(|fault| !self.is_mended(walk, fault)) {
            &self.truly
        } else {
            &self.well
        }
    }

    /// What there is at the step that is asked with this index, as the walk stands. What was put
    /// right is well from then on.
    pub fn there(&self, walk: &Walk, index: usize) -> Option<There> {
        let planned = walk.asked(index)?;
        self.found(&planned, &|fault| self.is_mended(walk, fault))
    }

    /// What there was at a step before anything was put right; an empty state where a step asks
    /// for what nothing can be said of.
    pub fn there_at_first(&self, planned: &PlannedStep) -> There {
        let found = self.found(planned, &|_| false);
        found.unwrap_or_else(|| There::State(String::new()))
    }

    fn found(&self, planned: &PlannedStep, mended: &dyn Fn(&Fault) -> bool) -> Option<There> {
        let left: Vec<&Fault> = self.faults().filter(|fault| !mended(fault)).collect();
        let differs = left.iter().map(|fault| &fault.differs);
        let mut differs = differs.chain([&self.scenario.always]);
        match &planned.ask {
            PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask) => {
                let said = differs.find_map(|differs| state(differs, planned));
                let well = || ask.states.iter().find(|state| state.verdict == Verdict::Ok);
                let state = said.map(str::to_owned);
                let state = state.or_else(|| Some(well()?.id.clone()));
                state.map(There::State)
            }
            PlannedAsk::Reading { .. } => {
                let said = differs.find_map(|differs| value(differs, planned));
                let is_other = left.iter().any(|fault| !fault.differs.rig.is_empty());
                let rig = if is_other { &self.truly } else { &self.well };
                let reckoned = || {
                    let (step, item) = (planned.step.id.as_str(), planned.item.as_ref());
                    measured(step, item, rig, &self.scenario.air)
                };
                let value = said.cloned().or_else(reckoned);
                let value = value.or_else(|| Some(sound(planned, self.plan.rig())?.0));
                value.map(There::Value)
            }
        }
    }

    /// Whether a step at which the fault shows was put right.
    fn is_mended(&self, walk: &Walk, fault: &Fault) -> bool {
        let steps = walk.plan().steps().iter().enumerate();
        let mut mended = steps.filter(|(index, _)| was_put_right(walk, *index));
        mended.any(|(_, planned)| self.shows_at(fault, planned))
    }

    /// Whether a fault shows at a step: there is another state or value than without it.
    pub fn shows_at(&self, fault: &Fault, planned: &PlannedStep) -> bool {
        let said =
            state(&fault.differs, planned).is_some() || value(&fault.differs, planned).is_some();
        let reckoned = |rig: &Rig| {
            let (step, item) = (planned.step.id.as_str(), planned.item.as_ref());
            measured(step, item, rig, &self.scenario.air)
        };
        let moves = !fault.differs.rig.is_empty();
        said || moves && reckoned(&self.truly) != reckoned(&self.well)
    }

    /// What is seen at a step from there, in the state that is there; nothing where it is not to
    /// be seen from there.
    pub fn sees(&self, walk: &Walk, index: usize, from: Vantage) -> Option<String> {
        let There::State(state) = self.there(walk, index)? else {
            return None;
        };
        let planned = walk.plan().steps().get(index)?;
        if let Some(sight) = self.sights.of(&planned.step.id) {
            return sight.sees(from, &state).map(str::to_owned);
        }
        let (PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) = &planned.ask else {
            return None;
        };
        let state = ask.states.iter().find(|one| one.id == state)?;
        (from == Vantage::Close).then(|| state.seen.clone())
    }

    /// Where a step can be looked at from.
    pub fn vantages(&self, planned: &PlannedStep) -> Vec<Vantage> {
        match (&planned.ask, self.sights.of(&planned.step.id)) {
            (PlannedAsk::Reading { .. }, _) => Vec::new(),
            (_, Some(sight)) => sight.places().collect(),
            (_, None) => vec![Vantage::Close],
        }
    }

    /// From where a step shows itself, in whatever state it is: as few places as will do. None of a
    /// step that is measured.
    pub fn enough(&self, planned: &PlannedStep) -> Vec<Vantage> {
        let places = self.vantages(planned);
        let sight = self.sights.of(&planned.step.id);
        let tells = |from: &[Vantage]| {
            sight.is_none_or(|sight| {
                sight
                    .states()
                    .iter()
                    .all(|state| sight.is_known(state, from))
            })
        };
        let pairs = places.iter().enumerate().flat_map(|(at, one)| {
            let others = places.iter().skip(at + 1);
            others.map(move |other| vec![*one, *other])
        });
        let alone = places.iter().map(|one| vec![*one]);
        let enough = alone.chain(pairs).find(|from| tells(from));
        enough.unwrap_or_else(|| places.clone())
    }

    /// The same as a hint, in the words a look is typed by; nothing of a step that is measured.
    pub fn shows_from(&self, planned: &PlannedStep) -> Option<String> {
        self.shows_from_as(planned, &|from| format!("look {}", from.word()))
    }

    /// The same, with each place as it is called where the hint is read.
    pub fn shows_from_as(
        &self,
        planned: &PlannedStep,
        called: &dyn Fn(Vantage) -> String,
    ) -> Option<String> {
        let places = self.enough(planned).into_iter().map(called);
        match places.collect::<Vec<_>>().as_slice() {
            [] => None,
            [one] => Some(format!("It shows from one place: {one}.")),
            several => Some(format!(
                "It takes more than one look: {}.",
                several.join("; ")
            )),
        }
    }

    /// Whether whoever looked from there can know the state that is there.
    pub fn is_known(&self, walk: &Walk, index: usize, looked: &[Vantage]) -> bool {
        let (Some(There::State(state)), Some(planned)) =
            (self.there(walk, index), walk.plan().steps().get(index))
        else {
            return false;
        };
        match self.sights.of(&planned.step.id) {
            Some(sight) => sight.is_known(&state, looked),
            None => looked.contains(&Vantage::Close),
        }
    }

    /// What an instrument shows at a step, the so-many-th time it is put there. It shows nothing
    /// beyond its scale, and is wrong by a little.
    pub fn shows(
        &self,
        walk: &Walk,
        index: usize,
        tool: &Instrument,
        time: usize,
    ) -> Option<Quantity> {
        let There::Value(value) = self.there(walk, index)? else {
            return None;
        };
        let key = walk.plan().steps().get(index)?.key.as_str();
        let salt = key
            .bytes()
            .chain(tool.id.bytes())
            .fold(self.seed, |sum, byte| {
                sum.wrapping_mul(31).wrapping_add(u64::from(byte))
            });
        let time = u64::try_from(time).unwrap_or(0);
        let mut dice = Dice::new(salt.wrapping_add(time));
        let unit = value.unit;
        let shown = shows((value.value.to_f64()?, unit), tool, &mut dice)?;
        Some(match scale(tool) {
            Some((low, _)) if shown.compare(&low)?.is_lt() => low,
            Some((_, high)) if shown.compare(&high)?.is_gt() => high,
            _ => shown,
        })
    }
}

fn state<'d>(differs: &'d Differs, planned: &PlannedStep) -> Option<&'d str> {
    let found = differs
        .seen
        .iter()
        .find(|(step, _)| is_at(planned, step.as_str()));
    found.map(|(_, state)| state.as_str())
}

fn value<'d>(differs: &'d Differs, planned: &PlannedStep) -> Option<&'d Quantity> {
    let found = differs
        .read
        .iter()
        .find(|(step, _)| is_at(planned, step.as_str()));
    found.map(|(_, value)| value)
}

/// A step of several parts is named with its part, or without it for all of them.
fn is_at(planned: &PlannedStep, name: &str) -> bool {
    planned.key.as_str() == name || planned.step.id == name
}

fn was_put_right(walk: &Walk, index: usize) -> bool {
    let Some(step) = walk.steps().get(index) else {
        return false;
    };
    let rounds = step.answers.iter().map(|answer| answer.round);
    let next = match step.status {
        Status::Waiting(round) | Status::Open(round) => Some(round),
        _ => None,
    };
    let rounds = rounds.skip(1).chain(next);
    let mut after = step.answers.iter().zip(rounds);
    // Whoever could not see it repaired nothing: they only moved to where it can be seen.
    after.any(|(before, round)| {
        round == Round::PutRight && !walk.asked(index).is_some_and(|at| is_blind(&at, before))
    })
}

/// Whether an answer says that a step could not be seen.
fn is_blind(planned: &PlannedStep, answer: &Answer) -> bool {
    let (PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) = &planned.ask else {
        return false;
    };
    let Given::Seen { state, .. } = &answer.given else {
        return false;
    };
    let mut states = ask.states.iter();
    states.any(|one| one.id == *state && one.cannot_see)
}
