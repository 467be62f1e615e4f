//! Calls and slips, held to what the passage comes to for somebody who looks and measures.

use crate::drill::check::case::Case;
use crate::drill::check::played::{Played, played};
use crate::drill::check::{Remark, Rule};
use crate::drill::{Drill, Fault, Slip, There};
use crate::rules::Verdict;
use std::sync::Arc;

/// The rig with nothing wrong: nothing is found, and the commonest wrong call is one.
pub(super) fn of_good(case: &Case<'_>, good: &Arc<Drill>) -> Vec<Remark> {
    let played = played(good);
    let mut remarks = Vec::new();
    if let Some((step, verdict)) = played.worst().filter(|(_, worst)| *worst > Verdict::Ok) {
        let what = format!("with nothing wrong, `{step}` comes to {}", verdict.word());
        let fix = "let `always` say what is well there, or make it a fault";
        remarks.push(Remark::new(Rule::NotWell, case.key("good.why"), what, fix));
    } else if let Some(why) = played.stuck() {
        let what = format!("with nothing wrong, it cannot be walked to its end: {why}");
        let fix = "let `always` say what is well there";
        remarks.push(Remark::new(Rule::NotWell, case.key("good.why"), what, fix));
    }
    if let Some(slip) = &case.scenario.good.slip
        && played.came_to(&slip.step) == Some(slip.verdict)
    {
        let path = case.key("good.slip.verdict");
        remarks.push(right(
            path,
            &format!("`{}` truly comes to {}", slip.step, slip.verdict.word()),
        ));
    }
    remarks
}

/// The right call is what the step comes to, and the slip is another.
pub(super) fn of_fault(part: &str, fault: &Fault, drill: &Arc<Drill>) -> Vec<Remark> {
    let played = played(drill);
    let mut remarks = Vec::new();
    remarks.extend(right_call(part, fault, &played));
    let (step, path, is_right) = match &fault.slip {
        Slip::Seen(step, state) => {
            let mut steps = drill.plan.steps().iter();
            let there = steps.find(|planned| planned.key == *step);
            let there = there.map(|planned| drill.there_at_first(planned));
            (step, "state", there == Some(There::State(state.clone())))
        }
        Slip::Called(step, verdict) => (step, "verdict", played.came_to(step) == Some(*verdict)),
    };
    if is_right {
        let what = format!("that is what `{step}` truly is");
        remarks.push(right(format!("{part}.slip.{path}"), &what));
    }
    remarks
}

fn right_call(part: &str, fault: &Fault, played: &Played) -> Option<Remark> {
    let (step, verdict) = (&fault.call.step, fault.call.verdict);
    let came = played.came_to(step);
    if came == Some(verdict) && verdict > Verdict::Ok {
        return None;
    }
    let path = format!("{part}.call.verdict");
    let impossible =
        |what: String, fix: String| Remark::new(Rule::ImpossibleCall, &path, what, fix);
    Some(match came {
        Some(Verdict::Ok) => impossible(
            format!("`{step}` comes to ok with this fault"),
            match played.worst() {
                Some((other, worst)) if worst > Verdict::Ok => format!(
                    "name `{other}`, where it is found first and comes to {}",
                    worst.word()
                ),
                _ => "name a step that comes to more, or make the fault worse".to_owned(),
            },
        ),
        Some(came) => impossible(
            format!("`{step}` comes to {} with this fault", came.word()),
            format!(
                "write `verdict: {}`, or mend what truly is there",
                came.word()
            ),
        ),
        None => {
            let before = match played.worst() {
                Some((before, _)) if played.ended_early() => {
                    format!("`{step}` is never reached: the walk ends at `{before}`")
                }
                _ => format!("`{step}` is never answered with this fault"),
            };
            let why = played
                .stuck()
                .map_or_else(String::new, |why| format!(": {why}"));
            impossible(
                before + &why,
                "name the step at which it is found first".to_owned(),
            )
        }
    })
}

fn right(path: String, what: &str) -> Remark {
    let fix = "name the wrong call that is made there most often";
    Remark::new(
        Rule::RightSlip,
        path,
        format!("this slip is right: {what}"),
        fix,
    )
}
