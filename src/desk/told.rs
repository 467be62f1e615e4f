//! How what happened is told: the same words on the screens, line by line, and in a record.

use crate::barn::{Call, Units};
use crate::checklist::{Plan, PlannedAsk, StepKey};
use crate::desk::{CrewCard, Weight, counts};
use crate::record::Role;
use crate::rules::{Judgement, Limit, Outcome};
use crate::units::{Quantity, Typed};
use crate::walk::{After, Event, Given, Round, Words};

/// Digits behind the point on a screen. Judging is exact; showing need not be.
const PLACES: usize = 3;

/// What it means for the rig that a walk ended as not fit to go.
pub const NOT_FIT: &str = "The rig stays where it is.";

/// Whom to call when something is not clear, as a sentence: whom the barn names, else the manager
/// of its crew.
pub fn whom_to_call(named: Option<&Call>, crew: &[CrewCard]) -> String {
    let in_role = |role| crew.iter().find(move |card| card.roles.contains(&role));
    let in_charge = || in_role(Role::Manager).or_else(|| in_role(Role::Driver));
    match (named, in_charge()) {
        (Some(call), _) => format!("Call {call}."),
        (None, Some(card)) => {
            let roles: Vec<&str> = card.roles.iter().map(|role| role.word()).collect();
            format!("Call {} ({}).", card.name, roles.join(", "))
        }
        (None, None) => "Call whoever is in charge.".to_owned(),
    }
}

/// What happened, in words, and how much it matters.
pub fn happened(event: &Event, plan: &Plan) -> (String, Weight) {
    let name = |step: &StepKey| step_name(plan, step);
    let what = match event {
        Event::Opened { step } => format!("{}: begun", name(step)),
        Event::Doubted {
            step, typed, doubt, ..
        } => {
            format!("{}: {typed} was typed. {doubt}", name(step))
        }
        Event::Answered {
            step, round, given, ..
        } => {
            format!(
                "{}: {}{}",
                name(step),
                found(plan, step, given),
                of_round(*round)
            )
        }
        Event::Remarked { step, words } => format!("{}: to be lived with: {words}", name(step)),
        Event::PutRight { step, words, .. } => {
            format!("{}: put right{}", name(step), after_colon(words.as_ref()))
        }
        Event::SectionClosed { section } => section_closed(plan, section),
        Event::Deferred {
            step,
            before,
            words,
        } => {
            format!(
                "{}: put off until “{}”: {words}",
                name(step),
                section_title(plan, before)
            )
        }
        Event::Corrected { step, words } => format!("{}: answer taken back: {words}", name(step)),
        Event::Noted { words } => format!("Note: {words}"),
        Event::Held { why, next } => {
            let next = next.as_ref().map(|next| format!("; next: {next}"));
            format!(
                "On hold{}{}",
                after_colon(why.as_ref()),
                next.unwrap_or_default()
            )
        }
        Event::Resumed {
            after,
            stood_ms,
            look_again,
        } => {
            let after = match after {
                After::Hold => "Resumed after",
                After::Restart => "Taken up again after",
            };
            format!(
                "{after} {}{}",
                span(*stood_ms),
                to_look_at(plan, look_again)
            )
        }
        Event::HandedOver {
            reader,
            doer,
            look_again,
        } => format!(
            "Handed over: {reader} reads, {doer} does the work{}",
            to_look_at(plan, look_again)
        ),
        Event::Unsure { words } => format!(
            "Stopped, something is not clear{}",
            after_colon(words.as_ref())
        ),
        Event::Settled {
            words,
            stood_ms,
            look_again,
        } => format!(
            "Settled after {}: {words}{}",
            span(*stood_ms),
            to_look_at(plan, look_again)
        ),
        Event::Ended { outcome, words } => {
            format!(
                "Ended as {}{}",
                outcome.word().replace('-', " "),
                after_colon(words.as_ref())
            )
        }
    };
    (what, weight(event))
}

/// The name of a step on screens; its key where the checklist has no such step.
pub fn step_name(plan: &Plan, step: &StepKey) -> String {
    let planned = plan.index(step).and_then(|index| plan.steps().get(index));
    planned.map_or_else(|| step.to_string(), crate::checklist::PlannedStep::name)
}

/// The name of a step of a checklist that drills know, with that of the checklist.
pub fn listed_step(list: &str, step: &str) -> String {
    let known = crate::drill::list(list);
    let found = known.and_then(|list| {
        let sections = list.checklist.sections.iter();
        let mut steps = sections.flat_map(|section| &section.steps);
        let found = steps.find(|one| one.id == step)?;
        Some(format!("{}, {}", list.checklist.title, found.name))
    });
    found.unwrap_or_else(|| format!("{list}, {step}"))
}

/// The title of a checklist that drills know; its id where there is none of that name.
pub fn list_title(list: &str) -> String {
    let found = crate::drill::list(list);
    found.map_or_else(|| list.to_owned(), |found| found.checklist.title.clone())
}

/// What whoever examines a check ride does, said before it begins.
pub fn beside_the_rider(examiner: &str) -> String {
    format!("{examiner} is beside the rider, helps with nothing, and signs too.")
}

/// A limit in one line: `stop below 58 psi. Plate: tire label. 95 % of …`.
pub fn limit(limit: &Limit, units: Units) -> String {
    let mut line = format!(
        "{} {} {}, by {}",
        limit.verdict.word(),
        limit.side.word().replace('-', " "),
        units.shown(&limit.bound),
        limit.basis
    );
    if let Some(derivation) = &limit.derivation {
        line.push_str("; ");
        line.push_str(derivation);
    }
    line
}

/// What a judgement rests on: the limit that decided, and how wrong the instrument may be.
pub fn rests_on(judgement: &Judgement, units: Units) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(deciding) = judgement.deciding() {
        lines.push(format!("Limit: {}.", limit(deciding, units)));
    }
    let (low, high) = (&judgement.band.low, &judgement.band.high);
    if low != high {
        let inside = match judgement.outcome {
            Outcome::Again => {
                " The limit lies inside this, so it cannot be judged: measure again with a finer instrument, or set it well inside the limit first."
            }
            Outcome::Judged(_) => "",
        };
        lines.push(format!(
            "With the instrument's error it is {} to {}.{inside}",
            units.shown(low),
            units.shown(high)
        ));
    }
    lines
}

/// The word for an outcome.
pub fn outcome_word(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Judged(verdict) => verdict.word(),
        Outcome::Again => "again",
    }
}

/// What a reading came to: the word, or why it could not be judged.
pub(super) fn came_to(judgement: &Judgement, typed: &Typed) -> String {
    match judgement.outcome {
        Outcome::Again => counts::not_judged(judgement, typed.quantity().unit),
        outcome @ Outcome::Judged(_) => outcome_word(outcome).to_owned(),
    }
}

/// A span of time as people say it.
pub fn span(ms: u64) -> String {
    let minutes = ms / 60_000;
    match (minutes / 60, minutes % 60) {
        (0, 0) => "less than a minute".to_owned(),
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}

/// A quantity as a screen shows it.
pub fn shown(quantity: &Quantity) -> String {
    quantity.shown(PLACES)
}

/// What was found, with what, and what it came to.
pub(super) fn found(plan: &Plan, step: &StepKey, given: &Given) -> String {
    match given {
        Given::Read {
            typed,
            instrument,
            judgement,
        } => {
            let tool = plan.rig().instrument(instrument);
            let tool = tool.map_or(instrument.as_str(), |tool| tool.name.as_str());
            format!("{typed} with {tool}: {}", came_to(judgement, typed))
        }
        Given::Seen { state, by, .. } => {
            let by = by.as_ref().map(|who| format!(", seen by {who}"));
            format!(
                "{}{}: {}",
                seen(plan, step, state),
                by.unwrap_or_default(),
                outcome_word(given.outcome())
            )
        }
    }
}

/// What a state's id stands for, in words.
fn seen(plan: &Plan, step: &StepKey, state: &str) -> String {
    let planned = plan.index(step).and_then(|index| plan.steps().get(index));
    let words = planned.and_then(|planned| match &planned.ask {
        PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask) => {
            ask.states.iter().find(|known| known.id == state)
        }
        PlannedAsk::Reading { .. } => None,
    });
    words.map_or_else(|| state.to_owned(), |known| known.seen.clone())
}

fn of_round(round: Round) -> &'static str {
    match round {
        Round::First => "",
        Round::MeasuredAgain => " (measured again)",
        Round::PutRight => " (after it was put right)",
        Round::ReLook => " (looked at again)",
        Round::Correction => " (answered afresh)",
    }
}

fn section_closed(plan: &Plan, id: &str) -> String {
    let section = plan.sections().iter().find(|section| section.id == *id);
    section.map_or_else(
        || format!("Section {id} complete"),
        |section| format!("{} complete: {}", section.title, section.complete),
    )
}

fn section_title(plan: &Plan, id: &str) -> String {
    let section = plan.sections().iter().find(|section| section.id == *id);
    section.map_or_else(|| id.to_owned(), |section| section.title.clone())
}

fn to_look_at(plan: &Plan, steps: &[StepKey]) -> String {
    if steps.is_empty() {
        return String::new();
    }
    let names: Vec<String> = steps.iter().map(|step| step_name(plan, step)).collect();
    format!(". To look at again: {}", names.join("; "))
}

fn after_colon(words: Option<&Words>) -> String {
    words.map(|words| format!(": {words}")).unwrap_or_default()
}

fn weight(event: &Event) -> Weight {
    let plain = match event {
        Event::Opened { .. } | Event::SectionClosed { .. } => true,
        Event::Answered { given, .. } => {
            given.outcome() == Outcome::Judged(crate::rules::Verdict::Ok)
        }
        Event::Ended { outcome, .. } => *outcome == crate::walk::Ended::Complete,
        _ => false,
    };
    if plain {
        Weight::Plain
    } else {
        Weight::Exception
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::{Authority, Basis, Side, Verdict, judge};
    use crate::units::{Dimension, parse_quantity};

    fn pressure(text: &str) -> Quantity {
        parse_quantity(text, Dimension::Pressure).unwrap()
    }

    fn below(bound: &str, verdict: Verdict) -> Limit {
        Limit {
            verdict,
            side: Side::AtOrBelow,
            bound: pressure(bound),
            derivation: Some("95 % of tire cold pressure 65 psi".to_owned()),
            basis: Basis {
                authority: Authority::Plate,
                source: "left wall".to_owned(),
            },
            branch: None,
        }
    }

    #[test]
    fn a_limit_says_verdict_side_bound_authority_source_and_how_it_came_about() {
        assert_eq!(
            limit(&below("61.75 psi", Verdict::Fix), Units::Us),
            "fix at or below 61.75 psi, by plate: left wall; 95 % of tire cold pressure 65 psi"
        );
    }

    #[test]
    fn a_judgement_tells_the_limit_that_decided_and_no_other() {
        let limits = [
            below("61.75 psi", Verdict::Fix),
            below("52 psi", Verdict::Stop),
        ];
        let told = rests_on(&judge(&pressure("50 psi"), None, &limits), Units::Us);
        assert_eq!(told.len(), 1);
        assert!(
            told[0].starts_with("Limit: stop at or below 52 psi"),
            "{told:?}"
        );
        assert!(rests_on(&judge(&pressure("70 psi"), None, &limits), Units::Us).is_empty());
    }

    #[test]
    fn a_span_is_told_in_hours_and_minutes() {
        for (ms, told) in [
            (0, "less than a minute"),
            (59_999, "less than a minute"),
            (60_000, "1 min"),
            (3_599_999, "59 min"),
            (3_600_000, "1 h"),
            (5_400_000, "1 h 30 min"),
        ] {
            assert_eq!(span(ms), told);
        }
    }
}
