//! Whether title and tale name what is wrong.

use crate::checklist::{Plan, PlannedAsk, PlannedStep, State};
use crate::drill::check::case::Case;
use crate::drill::check::{Remark, Rule};

/// So many words of what is seen, in a row, are more than chance.
const IN_A_ROW: usize = 4;

pub(super) fn remarks(case: &Case<'_>, plan: &Plan) -> Vec<Remark> {
    let told = [
        ("title", &case.scenario.title),
        ("tale", &case.scenario.tale),
    ];
    let seen = case.scenario.faults.iter();
    let seen: Vec<_> = seen.flat_map(|fault| &fault.differs.seen).collect();
    let mut remarks = Vec::new();
    for (key, text) in told {
        let text = words(text);
        let named = seen.iter().find(|(step, state)| {
            let mut steps = plan.steps().iter();
            let planned = steps.find(|planned| planned.step.id == step.step());
            planned.is_some_and(|planned| gives_away(&text, planned, state))
        });
        if let Some((step, state)) = named {
            remarks.push(Remark::new(
                Rule::GivesAway,
                case.key(key),
                format!("this names the state `{state}` of `{step}`, which is to be found"),
                "say what somebody knows who has not looked yet",
            ));
        }
    }
    remarks
}

/// A state of two words or more is named by them; one of a single word only beside the step's own
/// name, since it means many things by itself. What is seen is named by several words of it.
fn gives_away(text: &[String], planned: &PlannedStep, state: &str) -> bool {
    let named = words(state);
    let by_id = match named.as_slice() {
        [one] => words(&planned.step.name).iter().any(|own| {
            holds(text, &[own.clone(), one.clone()]) || holds(text, &[one.clone(), own.clone()])
        }),
        several => holds(text, several),
    };
    let (PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask)) = &planned.ask else {
        return by_id;
    };
    // What other states look like as well gives none of them away.
    let (own, others): (Vec<&State>, Vec<&State>) =
        ask.states.iter().partition(|one| one.id == state);
    let others: Vec<Vec<String>> = others.iter().map(|one| words(&one.seen)).collect();
    let own: Vec<String> = own.iter().flat_map(|one| words(&one.seen)).collect();
    let mut rows = own.windows(IN_A_ROW);
    by_id || rows.any(|row| holds(text, row) && !others.iter().any(|other| holds(other, row)))
}

fn holds(text: &[String], row: &[String]) -> bool {
    !row.is_empty() && text.windows(row.len()).any(|window| window == row)
}

fn words(text: &str) -> Vec<String> {
    let words = text.split(|letter: char| !letter.is_alphanumeric());
    let words = words.filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect()
}
