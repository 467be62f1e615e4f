//! Answers: that they say something, that they cannot be given in the sleep, where they lead.

use crate::checklist::lint::outline::{At, each, reading, sections, sighting, steps, steps_of};
use crate::checklist::lint::remark::Remark;
use crate::checklist::lint::{Rule, words};
use crate::checklist::{Checklist, Ending, Section};
use crate::rules::Verdict;

/// Lines a branch may ask for. Ours, no source.
const MOST_LINES: usize = 5;

pub(super) fn remarks(checklist: &Checklist) -> Vec<Remark> {
    let mut remarks = bare_answers(checklist);
    remarks.extend(sections(checklist).iter().filter_map(same_key));
    remarks.extend(wrong_endings(checklist));
    remarks.extend(long_branches(checklist));
    remarks
}

fn bare_answers(checklist: &Checklist) -> Vec<Remark> {
    let states = steps(checklist)
        .into_iter()
        .filter_map(|step| sighting(&step))
        .flat_map(|at| each(&at.key("states"), &at.part.states));
    states
        .filter(|state| words::is_bare(&state.part.seen))
        .map(|state| {
            Remark::new(
                Rule::BareAnswer,
                state.key("seen"),
                "this answer says nothing of what was seen",
                "name the condition, such as “lever flat down”",
            )
        })
        .collect()
}

/// A section that one key, pressed over and over, completes. Steps that may not apply are left
/// out, for they may not be there to break the run.
fn same_key(section: &At<&Section>) -> Option<Remark> {
    let sure: Vec<_> = steps_of(section)
        .into_iter()
        .filter(|step| step.part.when.is_none())
        .collect();
    let asks: Option<Vec<_>> = sure.iter().map(sighting).collect();
    let asks = asks.filter(|asks| asks.len() > 1)?;
    let most = asks.iter().map(|ask| ask.part.states.len()).max()?;
    let key = (0..most).find(|key| {
        asks.iter().all(|ask| {
            let state = ask.part.states.get(*key);
            state.is_some_and(|state| !state.verdict.blocks())
        })
    })?;
    Some(Remark::new(
        Rule::SameKey,
        section.key("id"),
        format!("key {} all the way completes this section", key + 1),
        "move the good state of one step to another position, or ask for a reading",
    ))
}

fn wrong_endings(checklist: &Checklist) -> Vec<Remark> {
    let mut remarks = Vec::new();
    let mut hold = |path: String, verdict: Verdict, branch: Option<&String>| {
        let ends = branch
            .and_then(|id| checklist.branch(id))
            .map(|branch| branch.ends);
        if verdict != Verdict::Stop && ends == Some(Ending::NotFitToGo) {
            remarks.push(Remark::new(
                Rule::WrongEnding,
                path,
                format!("a {} leads to the end of the trip", verdict.word()),
                "make it a stop, or let the branch end in `answer-afresh`",
            ));
        }
    };
    for step in steps(checklist) {
        if let Some(reading) = reading(&step) {
            for limit in each(&reading.key("limits"), &reading.part.limits) {
                hold(
                    limit.key("branch"),
                    limit.part.verdict,
                    limit.part.branch.as_ref(),
                );
            }
        }
        if let Some(sighting) = sighting(&step) {
            for state in each(&sighting.key("states"), &sighting.part.states) {
                hold(
                    state.key("branch"),
                    state.part.verdict,
                    state.part.branch.as_ref(),
                );
            }
        }
    }
    remarks
}

fn long_branches(checklist: &Checklist) -> Vec<Remark> {
    each("branches", &checklist.branches)
        .iter()
        .filter(|branch| branch.part.now.len() > MOST_LINES)
        .map(|branch| {
            Remark::new(
                Rule::LongBranch,
                branch.key("id"),
                format!("{} things to do at once", branch.part.now.len()),
                format!("keep to {MOST_LINES}, or make steps of the rest"),
            )
        })
        .collect()
}
