//! What a step tells its reader to do: one act a line, warnings without acts, nothing to reckon.

use crate::checklist::Checklist;
use crate::checklist::lint::outline::{At, each, reading, steps};
use crate::checklist::lint::remark::Remark;
use crate::checklist::lint::{Rule, verbs, words};
use crate::rig::InstrumentKind;

/// Words an act may have. Ours.
const MOST_WORDS: usize = 20;

/// Words that ask for a sum.
const SUMS: [&str; 15] = [
    "add",
    "average",
    "calculate",
    "compute",
    "difference",
    "divide",
    "half",
    "minus",
    "multiply",
    "percent",
    "plus",
    "reckon",
    "subtract",
    "sum",
    "twice",
];

/// Steps and branches ask for one act a line.
pub(super) fn act_remarks(checklist: &Checklist) -> Vec<Remark> {
    let acts = steps(checklist).into_iter().map(|step| At {
        path: step.key("act"),
        part: &step.part.act,
    });
    let now = each("branches", &checklist.branches)
        .into_iter()
        .flat_map(|branch| each(&branch.key("now"), &branch.part.now));
    acts.chain(now).flat_map(act).collect()
}

fn act(line: At<&String>) -> Vec<Remark> {
    let mut remarks = Vec::new();
    let acts = verbs::acts(line.part);
    if acts > 1 {
        remarks.push(Remark::new(
            Rule::TwoActs,
            line.path.as_str(),
            format!("{acts} acts stand in one line"),
            "make a step or line of each",
        ));
    }
    let count = line.part.split_whitespace().count();
    if count > MOST_WORDS {
        remarks.push(Remark::new(
            Rule::LongAct,
            line.path,
            format!("this line has {count} words"),
            format!("say it in {MOST_WORDS}; the reason belongs behind `why`"),
        ));
    }
    remarks
}

/// Warnings name a danger and ask for nothing.
pub(super) fn warning_remarks(checklist: &Checklist) -> Vec<Remark> {
    steps(checklist)
        .iter()
        .filter(|step| step.part.warning.as_deref().is_some_and(verbs::orders))
        .map(|step| {
            Remark::new(
                Rule::ActingWarning,
                step.key("warning"),
                "this warning asks for an act",
                "name the danger here, and make a step of the act",
            )
        })
        .collect()
}

/// A reading is held to something, with an instrument that suits, and without a sum.
pub(super) fn reading_remarks(checklist: &Checklist) -> Vec<Remark> {
    let mut remarks = Vec::new();
    for step in steps(checklist) {
        let Some(reading) = reading(&step) else {
            continue;
        };
        // What is told to later steps is held to their limits.
        if reading.part.limits.is_empty() && reading.part.tells.is_none() {
            remarks.push(Remark::new(
                Rule::NoLimit,
                reading.key("dimension"),
                "this reading is held to no limit",
                "add `limits`, or ask for a sighting",
            ));
        }
        let ranged = matches!(
            reading.part.instrument,
            InstrumentKind::PressureGauge | InstrumentKind::TorqueWrench
        );
        if ranged && reading.part.target.is_none() {
            remarks.push(Remark::new(
                Rule::NoTarget,
                reading.key("instrument"),
                "this instrument is used without a value aimed at",
                "add `target`, a figure or a value",
            ));
        }
        if let Some(word) = words::first_of(&step.part.act, &SUMS) {
            remarks.push(Remark::new(
                Rule::Arithmetic,
                step.key("act"),
                format!("“{word}” asks the reader for a sum"),
                "ask for what the instrument shows",
            ));
        }
    }
    remarks
}
