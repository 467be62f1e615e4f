//! How a drill went: faults caught and missed, false alarms, what was answered without looking,
//! and whether the work went on at the right step. Time is never scored.

use crate::checklist::{PlannedAsk, PlannedStep, StepKey};
use crate::drill::run::is_same;
use crate::drill::{Drill, There, Vantage};
use crate::rules::{Limit, Outcome, Verdict, judge};
use crate::units::Quantity;
use crate::walk::{Event, Given, Walk};

/// How a drill went.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// The first answer to each step that says something, in order.
    pub steps: Vec<StepScore>,
    /// What was answered again after a repair, with nothing looked at or measured since.
    pub again: Vec<StepScore>,
    /// Whether the work went on at the right step; nothing where nobody was called away.
    pub resumed: Option<bool>,
}

/// How one step went, at its first answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepScore {
    /// The step.
    pub step: StepKey,
    /// What it truly comes to; nothing where the instrument leaves it open.
    pub truly: Option<Verdict>,
    /// What was said of it.
    pub said: Option<Verdict>,
    /// Whether it was looked at, or measured, so that it could be known.
    pub known: bool,
    /// Whether it can neither be put off nor left out.
    pub critical: bool,
}

impl Score {
    /// Faults that were seen as such.
    pub fn caught(&self) -> impl Iterator<Item = &StepScore> {
        self.steps.iter().filter(|step| step.is_caught())
    }

    /// Faults that were taken for well.
    pub fn missed(&self) -> impl Iterator<Item = &StepScore> {
        self.steps.iter().filter(|step| step.is_missed())
    }

    /// What was well and was called otherwise.
    pub fn false_alarms(&self) -> impl Iterator<Item = &StepScore> {
        self.steps.iter().filter(|step| step.is_false_alarm())
    }

    /// What was answered without looking or measuring.
    pub fn omissions(&self) -> impl Iterator<Item = &StepScore> {
        self.steps.iter().filter(|step| !step.known)
    }

    /// Whether nothing was missed, nothing called wrong, nothing left out.
    pub fn is_clean(&self) -> bool {
        self.resumed != Some(false)
            && self.missed().chain(self.false_alarms()).next().is_none()
            && self.omissions().next().is_none()
            && self.again.is_empty()
    }
}

impl StepScore {
    /// A fault that was seen as such: called as grave as it is, or graver.
    pub fn is_caught(&self) -> bool {
        self.both()
            .is_some_and(|(truly, said)| truly > Verdict::Ok && said >= truly)
    }

    /// A fault that was taken for well, or for less than it is.
    pub fn is_missed(&self) -> bool {
        self.both().is_some_and(|(truly, said)| said < truly)
    }

    /// What was well and was called otherwise.
    pub fn is_false_alarm(&self) -> bool {
        self.both()
            .is_some_and(|(truly, said)| truly == Verdict::Ok && said > truly)
    }

    fn both(&self) -> Option<(Verdict, Verdict)> {
        self.truly.zip(self.said)
    }
}

/// What the learner did before the answer: looked from, instruments used with what they showed,
/// and the call that counts.
type Before = (Vec<Vantage>, Vec<(String, Quantity)>, Option<Verdict>);

impl StepScore {
    /// What an answer comes to; nothing where it says that the step could not be seen.
    pub(super) fn of(
        drill: &Drill,
        walk: &Walk,
        (index, planned): (usize, &PlannedStep),
        event: &Event,
        (looked, used, called): Before,
    ) -> Option<Self> {
        let Event::Answered { given, .. } = event else {
            return None;
        };
        let (truly, said, known) = match (given, &planned.ask) {
            (
                Given::Seen { state, verdict, .. },
                PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask),
            ) => {
                let of = |id: &str| ask.states.iter().find(|one| one.id == id);
                if of(state)?.cannot_see {
                    return None;
                }
                let There::State(there) = drill.there(walk, index)? else {
                    return None;
                };
                let truly = of(&there)?.verdict;
                (Some(truly), *verdict, drill.is_known(walk, index, &looked))
            }
            (
                Given::Read {
                    typed, judgement, ..
                },
                PlannedAsk::Reading { limits, .. },
            ) => {
                let known = used.iter().any(|(_, showed)| is_same(typed, showed));
                let truly = truly(drill, walk, (index, planned), limits, &used);
                let judged = match judgement.outcome {
                    Outcome::Judged(verdict) => verdict,
                    Outcome::Again => Verdict::Ok,
                };
                (truly, called.unwrap_or(judged), known)
            }
            _ => return None,
        };
        Some(Self {
            step: planned.key.clone(),
            truly,
            said: Some(said),
            known,
            critical: planned.step.critical,
        })
    }
}

/// What a reading comes to by what the instrument showed; where none was used, by the true value.
fn truly(
    drill: &Drill,
    walk: &Walk,
    (index, planned): (usize, &PlannedStep),
    limits: &[Limit],
    used: &[(String, Quantity)],
) -> Option<Verdict> {
    if !matches!(planned.ask, PlannedAsk::Reading { .. }) {
        return None;
    }
    let rig = walk.plan().rig();
    let shown = used
        .last()
        .map(|(tool, showed)| judge(showed, rig.instrument(tool), limits).outcome);
    let outcome = shown.or_else(|| {
        let There::Value(value) = drill.there(walk, index)? else {
            return None;
        };
        Some(judge(&value, None, limits).outcome)
    });
    match outcome? {
        Outcome::Judged(verdict) => Some(verdict),
        Outcome::Again => None,
    }
}
