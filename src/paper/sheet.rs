//! What stands on the sheet, before it is text or a page.

use crate::checklist::{Ending, Plan, PlannedAsk, PlannedStep, SightingAsk};
use crate::figures::NotKnown;
use crate::rules::{Limit, Verdict};

/// A checklist laid on a rig, ready to be printed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Title.
    pub title: String,
    /// Revision.
    pub revision: u32,
    /// How the list stands: nothing where it is approved.
    pub standing: Option<String>,
    /// The rig.
    pub rig: String,
    /// Cautions before the work.
    pub cautions: Vec<String>,
    /// The sections.
    pub sections: Vec<SheetSection>,
    /// Where bad answers lead.
    pub branches: Vec<SheetBranch>,
    /// Limits kept from the eye until the reading is written.
    pub limits: Vec<SheetLimits>,
    /// Steps this rig has no use for, with the reason.
    pub left: Vec<(String, String)>,
}

/// A section of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetSection {
    /// Title.
    pub title: String,
    /// Whether everything else stops.
    pub pause: bool,
    /// What is true once it is complete.
    pub complete: String,
    /// Its steps.
    pub steps: Vec<SheetStep>,
}

/// A step of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetStep {
    /// The number it has on the walk.
    pub number: usize,
    /// Name, with its part where it is repeated.
    pub name: String,
    /// Danger before the act.
    pub warning: Option<String>,
    /// What to do.
    pub act: String,
    /// When it applies, where an earlier answer decides.
    pub when: Option<String>,
    /// What is written down.
    pub wanted: Wanted,
}

/// What is written down at a step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// A value.
    Reading {
        /// The unit.
        unit: String,
        /// What it is read from.
        instrument: &'static str,
        /// Whether another person reads it.
        second: bool,
        /// Limits to be seen while reading; nothing on a blind step.
        limits: Vec<String>,
    },
    /// One of these.
    Sighting {
        /// The states.
        choices: Vec<Choice>,
        /// Whether another person looks.
        second: bool,
    },
}

/// A state to be ticked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What is seen.
    pub seen: String,
    /// What it comes to, and where it leads: `STOP, see B3`. Nothing for ok.
    pub leads: Option<String>,
}

/// A branch of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetBranch {
    /// What steps call it: `B3`.
    pub mark: String,
    /// What was found.
    pub found: String,
    /// What to do now.
    pub now: Vec<String>,
    /// How it ends.
    pub ends: &'static str,
}

/// The limits of a blind step, at the end of the sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SheetLimits {
    /// The step's number.
    pub number: usize,
    /// Its name.
    pub name: String,
    /// Its limits.
    pub limits: Vec<String>,
}

impl Sheet {
    /// The sheet of a checklist laid on a rig. `standing` is a word such as UNAPPROVED, where the
    /// list needs one.
    pub fn of(plan: &Plan, standing: Option<&str>) -> Self {
        let list = plan.checklist();
        let mut limits = Vec::new();
        let sections = plan.sections().iter().map(|section| {
            let steps = plan.steps().iter().enumerate();
            let own = steps.skip(section.first).take(section.count);
            SheetSection {
                title: section.title.clone(),
                pause: section.pause,
                complete: section.complete.clone(),
                steps: own
                    .map(|(index, planned)| step(plan, index + 1, planned, &mut limits))
                    .collect(),
            }
        });
        let sections = sections.collect();
        let branches = (1..).zip(&list.branches).map(|(number, branch)| SheetBranch {
            mark: format!("B{number}"),
            found: branch.found.clone(),
            now: branch.now.clone(),
            ends: match branch.ends {
                Ending::AnswerAfresh => "Then answer the step afresh, beside the first answer.",
                Ending::NotFitToGo => "The rig stays here: not fit to go.",
            },
        });
        Self {
            title: list.title.clone(),
            revision: list.revision,
            standing: standing.map(str::to_owned),
            rig: plan.rig().name.clone(),
            cautions: list.cautions.clone(),
            sections,
            branches: branches.collect(),
            limits,
            left: plan
                .left()
                .iter()
                .map(|left| (left.step.clone(), left.because.clone()))
                .collect(),
        }
    }
}

fn step(
    plan: &Plan,
    number: usize,
    planned: &PlannedStep,
    blind: &mut Vec<SheetLimits>,
) -> SheetStep {
    let wanted = match &planned.ask {
        PlannedAsk::Sighting(ask) => sighting(plan, ask, false),
        PlannedAsk::Independent(ask) => sighting(plan, ask, true),
        PlannedAsk::Reading {
            ask, limits, open, ..
        } => {
            let told = told(plan, limits, open);
            let shown = if planned.step.blind {
                blind.push(SheetLimits {
                    number,
                    name: planned.name(),
                    limits: told,
                });
                Vec::new()
            } else {
                told
            };
            Wanted::Reading {
                unit: ask.unit.symbol().to_owned(),
                instrument: ask.instrument.word(),
                second: ask.second,
                limits: shown,
            }
        }
    };
    SheetStep {
        number,
        name: planned.name(),
        warning: planned.step.warning.clone(),
        act: planned.step.act.clone(),
        when: planned.when_answered(),
        wanted,
    }
}

fn sighting(plan: &Plan, ask: &SightingAsk, second: bool) -> Wanted {
    let choices = ask.states.iter().map(|state| Choice {
        seen: state.seen.clone(),
        leads: leads(plan, state.verdict, state.branch.as_deref()),
    });
    Wanted::Sighting {
        choices: choices.collect(),
        second,
    }
}

/// `STOP, see B3`; nothing for ok.
fn leads(plan: &Plan, verdict: Verdict, branch: Option<&str>) -> Option<String> {
    let word = verdict.word().to_uppercase();
    let place = branch.and_then(|id| {
        let mut branches = plan.checklist().branches.iter();
        branches.position(|branch| branch.id == id)
    });
    match (verdict, place) {
        (Verdict::Ok, _) => None,
        (_, Some(place)) => Some(format!("{word}, see B{}", place + 1)),
        (_, None) => Some(format!("{word}, write why")),
    }
}

/// Limits in words; those that rest on what is read that day are said to be worked out later.
fn told(plan: &Plan, limits: &[Limit], open: &[NotKnown]) -> Vec<String> {
    let mut told: Vec<String> = limits
        .iter()
        .map(|limit| {
            let leads = leads(plan, limit.verdict, limit.branch.as_deref());
            format!(
                "{} {}: {} ({})",
                limit.side.word().replace('-', " "),
                limit.bound.shown(3),
                leads.unwrap_or_default(),
                limit.basis
            )
        })
        .collect();
    if !open.is_empty() {
        told.push("More limits rest on what is read that day: they are held when this is entered.".to_owned());
    }
    told
}
