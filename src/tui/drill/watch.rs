//! A worked run: the program plays it rightly, one thing at a time, and tells why.

use crate::checklist::PlannedAsk;
use crate::desk::told;
use crate::drill::{Doing, Vantage};
use crate::rules::Verdict;
use crate::tui::Model;
use crate::tui::drill::Drilling;
use crate::tui::page::{Page, Rank};
use crate::tui::text::escaped;
use crate::tui::theme::Ink;
use crate::tui::walk::{Walking, work};
use crate::walk::Act;

/// Writes where the run stands, and below it what is done next and why.
pub(super) fn body(walking: &Walking, drilling: &Drilling, model: &Model, page: &mut Page) {
    let Some(worked) = drilling.watched() else {
        return;
    };
    work(walking, &walking.walk.at_work(), model, page);
    page.take_keys();
    page.step_back();
    page.together(|page| {
        for why in &worked.why {
            page.say(Rank::Needed, Ink::Strong, &escaped(why));
        }
        let next = next(walking, &worked.doing);
        page.item(Rank::Needed, "d", Ink::Body, &escaped(&next));
    });
}

/// What the key does, in words.
fn next(walking: &Walking, doing: &Doing) -> String {
    let plan = walking.walk.plan();
    match doing {
        Doing::Look(Vantage::Hand) => "try it by hand".to_owned(),
        Doing::Look(from) => format!("look {}", from.label()),
        Doing::Use(id) => {
            let tool = plan.rig().instrument(id);
            let name = tool.map_or(id.as_str(), |tool| &tool.name);
            format!("put to it: {name}")
        }
        Doing::Call(verdict) => format!("call it {}", Verdict::word(*verdict)),
        Doing::Return(step) => format!("go on at: {}", told::step_name(plan, step)),
        Doing::Learn(words) => format!("write down: {words}"),
        Doing::Walk(act) => act_in_words(walking, act),
    }
}

fn act_in_words(walking: &Walking, act: &Act) -> String {
    match act {
        Act::Open => "begin the step".to_owned(),
        Act::See { state } | Act::SeeAs { state, .. } => {
            let planned = walking.at_hand().and_then(|at| walking.planned(at));
            let seen = planned.and_then(|planned| match &planned.ask {
                PlannedAsk::Sighting(ask) | PlannedAsk::Independent(ask) => {
                    let mut states = ask.states.iter();
                    states.find(|known| known.id == *state)
                }
                PlannedAsk::Reading { .. } => None,
            });
            format!("answer: {}", seen.map_or(state.as_str(), |seen| &seen.seen))
        }
        Act::Read { typed, .. } | Act::ReadAs { typed, .. } => format!("type {typed}"),
        Act::PutRight { .. } => "put it right".to_owned(),
        Act::Remark { words } => format!("write down: {words}"),
        Act::CloseSection => "state that the section is complete".to_owned(),
        Act::Hold { .. } => "hold the walk".to_owned(),
        Act::Resume => "take the walk up".to_owned(),
        Act::Settle { .. } => "go on, as it was settled".to_owned(),
        Act::End { outcome, .. } => {
            format!("end the drill as {}", outcome.word().replace('-', " "))
        }
        _ => "go on".to_owned(),
    }
}
