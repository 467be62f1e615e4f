//! Order and length: what stands first, how the way round the rig runs, how much is in a section.

use crate::checklist::lint::outline::{At, sections, steps_of};
use crate::checklist::lint::remark::Remark;
use crate::checklist::lint::{Rule, words};
use crate::checklist::{Checklist, Section};

/// Steps of a section that are kept in mind at once. Ours.
const GOOD_STEPS: usize = 9;

/// Steps of a section beyond which it is not used. Ours.
const MOST_STEPS: usize = 12;

pub(super) fn remarks(checklist: &Checklist) -> Vec<Remark> {
    let rules = [late_critical, doubling_back, length, complete];
    let mut remarks: Vec<Remark> = sections(checklist)
        .iter()
        .flat_map(|section| rules.map(|rule| rule(section)))
        .flatten()
        .collect();
    if !checklist.sections.iter().any(|section| section.pause) {
        remarks.push(Remark::new(
            Rule::NoPause,
            "sections",
            "no section stops everything else",
            "give the one before the rig moves `pause: true`",
        ));
    }
    remarks
}

/// A critical step in the last third of its section with a lesser one before it. Where every step
/// is critical nothing could stand further back.
fn late_critical(section: &At<&Section>) -> Option<Remark> {
    let steps = steps_of(section);
    let late = steps.len() - steps.len() / 3;
    let lesser = steps.iter().position(|step| !step.part.critical)?;
    let step = steps
        .iter()
        .skip(late.max(lesser))
        .find(|step| step.part.critical)?;
    Some(Remark::new(
        Rule::LateCritical,
        step.key("critical"),
        "a critical step stands in the last third of its section, behind a lesser one",
        "move it forward, or the lesser one back",
    ))
}

/// A way that turns back more than once, told where it does so the second time.
fn doubling_back(section: &At<&Section>) -> Option<Remark> {
    let steps = steps_of(section);
    let mut turns = steps
        .iter()
        .zip(steps.iter().skip(1))
        .filter(|(from, to)| to.part.place < from.part.place);
    let (from, to) = turns.nth(1)?;
    Some(Remark::new(
        Rule::DoublingBack,
        to.key("place"),
        format!(
            "the way turns back a second time here, from {} to {}",
            from.part.place.word(),
            to.part.place.word()
        ),
        "put steps of one place together, in the order of a walk round the rig",
    ))
}

fn length(section: &At<&Section>) -> Option<Remark> {
    let count = section.part.steps.len();
    let rule = match count {
        0..=GOOD_STEPS => return None,
        _ if count <= MOST_STEPS => Rule::LongSection,
        _ => Rule::EndlessSection,
    };
    Some(Remark::new(
        rule,
        section.key("id"),
        format!("this section has {count} steps"),
        format!("cut it where the work pauses, into sections of at most {GOOD_STEPS}"),
    ))
}

fn complete(section: &At<&Section>) -> Option<Remark> {
    let complete = &section.part.complete;
    let says_nothing = words::is_bare(complete) || complete.split_whitespace().count() < 3;
    says_nothing.then(|| {
        Remark::new(
            Rule::BareComplete,
            section.key("complete"),
            "this line does not say what is now true",
            "write it as a sentence, such as “The coupler grips the ball.”",
        )
    })
}
