//! A drill played rightly to its end, and what its steps came to on the way.

use crate::checklist::StepKey;
use crate::drill::{Drill, Line, Run, Stage};
use crate::rules::{Outcome, Verdict};
use crate::walk::{Ended, Moment, Now, Words};
use std::sync::Arc;

/// More acts than any passage takes.
const MOST: u64 = 2000;

/// So long each act takes: short enough that nothing has to be looked at again.
const ACT_MS: u64 = 5_000;

/// How it went.
pub(super) struct Played {
    came: Vec<(StepKey, Verdict)>,
    ended: Option<Ended>,
    stuck: Option<String>,
}

impl Played {
    /// What a step came to when it was first answered for good.
    pub(super) fn came_to(&self, step: &StepKey) -> Option<Verdict> {
        let mut came = self.came.iter();
        came.find(|(key, _)| key == step)
            .map(|(_, verdict)| *verdict)
    }

    /// The first of the steps that came to the worst.
    pub(super) fn worst(&self) -> Option<(&StepKey, Verdict)> {
        let worst = self.came.iter().map(|(_, verdict)| *verdict).max()?;
        let (key, _) = self.came.iter().find(|(_, verdict)| *verdict == worst)?;
        Some((key, worst))
    }

    /// Whether it ended before its last step.
    pub(super) fn ended_early(&self) -> bool {
        matches!(self.ended, Some(Ended::NotFitToGo))
    }

    /// Why it came to no end.
    pub(super) fn stuck(&self) -> Option<&str> {
        self.stuck.as_deref()
    }
}

/// Plays a drill as whoever knows the work would.
pub(super) fn played(drill: &Arc<Drill>) -> Played {
    let Ok(who) = Words::read("Learner") else {
        return Played {
            came: Vec::new(),
            ended: None,
            stuck: Some("nobody plays it".to_owned()),
        };
    };
    let mut run = Run::begin(Arc::clone(drill), Stage::Watch, &who, moment(0));
    for count in 1..MOST {
        let (here, now) = (at(&run), moment(count * ACT_MS));
        let Some(worked) = run.worked() else {
            let stuck = run.walk().ended().is_none();
            return done(&run, stuck.then(|| format!("nothing answers `{here}`")));
        };
        match run.decide(&worked.doing, &now) {
            Err(refusal) => return done(&run, Some(format!("at `{here}`: {refusal}"))),
            Ok(did) => run.apply(&Line { at: now, did }),
        }
        // What leaves a reading open each time is not walked on from.
        if run.walk().ended() == Some(Ended::Incomplete) {
            return done(&run, Some(format!("`{here}` is asked again and again")));
        }
    }
    let stuck = format!("`{}` is asked again and again", at(&run));
    done(&run, Some(stuck))
}

fn moment(mono_ms: u64) -> Moment {
    Moment {
        wall: chrono::DateTime::default(),
        boot: "drill".to_owned(),
        mono_ms,
    }
}

/// The step at hand.
fn at(run: &Run) -> String {
    let (Now::Next(index) | Now::Open(index) | Now::Branch(index) | Now::Remark(index)) =
        run.walk().now()
    else {
        return "the end".to_owned();
    };
    let planned = run.walk().plan().steps().get(index);
    planned.map_or_else(String::new, |planned| planned.key.to_string())
}

fn done(run: &Run, stuck: Option<String>) -> Played {
    let walk = run.walk();
    let steps = walk.plan().steps().iter().zip(walk.steps());
    let came = steps.filter_map(|(planned, state)| {
        let mut outcomes = state.answers.iter().map(|answer| answer.given.outcome());
        let verdict = outcomes.find_map(|outcome| match outcome {
            Outcome::Judged(verdict) => Some(verdict),
            Outcome::Again => None,
        })?;
        Some((planned.key.clone(), verdict))
    });
    Played {
        came: came.collect(),
        ended: walk.ended(),
        stuck,
    }
}
