//! What stands on the sheet, before it is text or a page.

use crate::barn::Units;
use crate::checklist::{Ask, Ending, Plan, PlannedAsk, PlannedStep, SightingAsk};
use crate::figures::NotKnown;
use crate::rules::{Limit, Rung, Verdict};

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
    /// The sheet of a checklist laid on a rig, in these units. `standing` is a word such as
    /// UNAPPROVED, where the list needs one.
    pub fn of(plan: &Plan, units: Units, standing: Option<&str>) -> Self {
        let list = plan.checklist();
        let opened = Opened::on(plan, units);
        let mut limits = Vec::new();
        let sections = plan.sections().iter().map(|section| {
            let steps = plan.steps().iter().enumerate();
            let own = steps.skip(section.first).take(section.count);
            SheetSection {
                title: section.title.clone(),
                pause: section.pause,
                complete: section.complete.clone(),
                steps: own
                    .map(|(index, planned)| step(&opened, index + 1, planned, &mut limits))
                    .collect(),
            }
        });
        let sections = sections.collect();
        let known = opened.branches.iter().filter_map(|id| list.branch(id));
        let branches = (1..).zip(known).map(|(number, branch)| SheetBranch {
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

/// The branches this rig's steps open, in the order the sheet comes to them, and the units it is in.
struct Opened {
    branches: Vec<String>,
    units: Units,
}

impl Opened {
    fn on(plan: &Plan, units: Units) -> Self {
        let mut opened = Vec::new();
        for planned in plan.steps() {
            let of: Vec<&Option<String>> = match &planned.step.ask {
                Ask::Sighting(ask) | Ask::Independent(ask) => {
                    ask.states.iter().map(|state| &state.branch).collect()
                }
                Ask::Reading(ask) => ask.limits.iter().map(|rung| &rung.branch).collect(),
            };
            for branch in of.into_iter().flatten() {
                if !opened.contains(branch) {
                    opened.push(branch.clone());
                }
            }
        }
        Self {
            branches: opened,
            units,
        }
    }

    /// `STOP, see B3`; nothing for ok.
    fn leads(&self, verdict: Verdict, branch: Option<&str>) -> Option<String> {
        let word = verdict.word().to_uppercase();
        let place = branch.and_then(|id| self.branches.iter().position(|opened| opened == id));
        match (verdict, place) {
            (Verdict::Ok, _) => None,
            (_, Some(place)) => Some(format!("{word}, see B{}", place + 1)),
            (_, None) => Some(format!("{word}, write why")),
        }
    }
}

fn step(
    opened: &Opened,
    number: usize,
    planned: &PlannedStep,
    blind: &mut Vec<SheetLimits>,
) -> SheetStep {
    let wanted = match &planned.ask {
        PlannedAsk::Sighting(ask) => sighting(opened, ask, false),
        PlannedAsk::Independent(ask) => sighting(opened, ask, true),
        PlannedAsk::Reading {
            ask, limits, open, ..
        } => {
            let told = told(opened, &ask.limits, limits, open);
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
                unit: opened.units.unit_for(ask.unit).symbol().to_owned(),
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

fn sighting(opened: &Opened, ask: &SightingAsk, second: bool) -> Wanted {
    let choices = ask.states.iter().map(|state| Choice {
        seen: state.seen.clone(),
        leads: opened.leads(state.verdict, state.branch.as_deref()),
    });
    Wanted::Sighting {
        choices: choices.collect(),
        second,
    }
}

/// Limits in words; those that rest on what is read that day are said to be worked out later.
fn told(opened: &Opened, rungs: &[Rung], limits: &[Limit], open: &[NotKnown]) -> Vec<String> {
    let mut told: Vec<String> = limits
        .iter()
        .map(|limit| {
            let leads = opened.leads(limit.verdict, limit.branch.as_deref());
            format!(
                "{} {}: {} ({})",
                limit.side.word().replace('-', " "),
                opened.units.shown(&limit.bound),
                leads.unwrap_or_default(),
                limit.basis
            )
        })
        .collect();
    if !open.is_empty() {
        let drawn = |rung: &&Rung| limits.iter().all(|limit| limit.branch != rung.branch);
        let later = rungs.iter().filter(drawn);
        let leads = later.filter_map(|rung| opened.leads(rung.verdict, rung.branch.as_deref()));
        let mut leads: Vec<String> = leads.collect();
        leads.dedup();
        told.push(format!(
            "Held to what is read that day, when this is entered: {}",
            leads.join("; ")
        ));
    }
    told
}
