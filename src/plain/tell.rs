//! Telling: where the walk stands, and what became of an act.

use crate::checklist::{Branch, Ending};
use crate::desk::told;
use crate::plain::going::{Going, Session};
use crate::rules::Verdict;
use crate::walk::{Entry, Event, Given, Moment, Now, Round, Status};
use std::io;

impl Session<'_> {
    /// What was recorded, and what it rests on.
    pub(super) fn tell(&mut self, going: &Going, entry: &Entry) -> io::Result<()> {
        if matches!(entry.event, Event::Opened { .. }) {
            return Ok(());
        }
        let (what, _) = told::happened(&entry.event, going.walk.plan());
        // Of a drill that is not kept nothing is recorded.
        let done = match going.drill {
            Some(_) if going.trip.is_empty() => "Taken",
            _ => "Recorded",
        };
        self.talk
            .say(&sentence(&format!("{done} {}. {what}", clock(&entry.at))))?;
        if let Event::Answered {
            given: Given::Read { judgement, .. },
            ..
        } = &entry.event
        {
            for line in told::rests_on(judgement, going.barn.units) {
                self.talk.say(&line)?;
            }
        }
        Ok(())
    }

    /// Where the walk stands, said once before the question.
    pub(super) fn say_where(&mut self, going: &Going, now: &Now) -> io::Result<()> {
        match now {
            Now::Next(_) | Now::Ended(_) => Ok(()),
            Now::Open(index) => self.say_step(going, *index),
            Now::Branch(index) => self.say_branch(going, *index),
            Now::Remark(index) => {
                let name = going.name(*index);
                self.talk.head(&format!(
                    "NOTE. {name} is outside what is wanted. You may go on with it."
                ))
            }
            Now::SectionEnd(at) => {
                let Some(section) = going.walk.plan().sections().get(*at) else {
                    return Ok(());
                };
                self.talk
                    .head(&format!("{}: every step is answered.", section.title))?;
                self.talk
                    .say(&format!("Complete means: {}", section.complete))
            }
            Now::Held => self.say_held(going),
            Now::Unsure => {
                let what = going.walk.unsure().map(|(at, words)| {
                    let words = words.map(|words| format!(": {words}"));
                    format!(" since {}{}", clock(at), words.unwrap_or_default())
                });
                self.talk.head(&format!(
                    "Stopped{}. Look together. Do not move the rig. {}",
                    what.unwrap_or_default(),
                    told::whom_to_call(going.barn.call.as_ref(), &[])
                ))
            }
            Now::Finished => {
                self.talk.head("Every section is complete.")?;
                self.say_place(going, None)
            }
        }
    }

    /// Place in the walk: what is open, what was put off, what was done last.
    pub(super) fn say_place(&mut self, going: &Going, index: Option<usize>) -> io::Result<()> {
        let walk = &going.walk;
        let plan = walk.plan();
        let step = index.map(|index| format!(" Step {} of {}.", index + 1, plan.steps().len()));
        let section = walk.section().and_then(|at| plan.sections().get(at));
        let section = section.map(|section| format!(" Section: {}.", section.title));
        self.talk.head(&format!(
            "{}, {}, revision {}.{}{}",
            plan.rig().name,
            plan.checklist().title,
            plan.checklist().revision,
            step.unwrap_or_default(),
            section.unwrap_or_default()
        ))?;
        let open = walk
            .steps()
            .iter()
            .filter(|step| matches!(step.status, Status::Bad { .. } | Status::NoteOwed))
            .count();
        let last = walk
            .last_done()
            .map(|(index, at)| format!("Last done: {}, {}. ", going.name(index), clock(at)));
        self.talk.say(&format!(
            "{}Open: {open}. Put off: {}. To look at again: {}.",
            last.unwrap_or_default(),
            walk.deferred().count(),
            walk.to_look_at_again().count()
        ))
    }

    fn say_held(&mut self, going: &Going) -> io::Result<()> {
        let Some((at, why, next)) = going.walk.held() else {
            return Ok(());
        };
        self.talk.head(&format!("On hold since {}.", clock(at)))?;
        if let Some(why) = why {
            self.talk.say(&format!("Why: {why}"))?;
        }
        if let Some(next) = next {
            self.talk.say(&format!("You were about to: {next}"))?;
        }
        if let Some((index, at)) = going.walk.last_done() {
            let name = going.name(index);
            self.talk
                .say(&format!("Last done: {name}, {}.", clock(at)))?;
        }
        Ok(())
    }

    fn say_branch(&mut self, going: &Going, index: usize) -> io::Result<()> {
        let Some((_, state)) = going.walk.step(index) else {
            return Ok(());
        };
        let Status::Bad { verdict, branch } = &state.status else {
            return Ok(());
        };
        let name = going.name(index);
        let word = verdict.word().to_uppercase();
        let moves = match verdict {
            Verdict::Stop => "The rig does not move until this is put right and answered afresh.",
            _ => "Put this right now, then answer the step afresh.",
        };
        self.talk.head(&format!("{word}. {name}. {moves}"))?;
        match going.walk.plan().branch(branch) {
            Some(branch) => self.say_way_out(branch),
            None => Ok(()),
        }
    }

    fn say_way_out(&mut self, branch: &Branch) -> io::Result<()> {
        self.talk.say(&format!("Found: {}", branch.found))?;
        self.talk.say("Do now:")?;
        for action in &branch.now {
            self.talk.say(&format!("- {action}"))?;
        }
        self.talk.say(match branch.ends {
            Ending::AnswerAfresh => "It ends when it is put right and the step is answered afresh.",
            Ending::NotFitToGo => "It cannot be put right here. The trip ends as not fit to go.",
        })
    }
}

/// With one full stop at its end.
fn sentence(text: &str) -> String {
    format!("{}.", text.trim_end_matches('.'))
}

/// The time of day.
pub(super) fn clock(at: &Moment) -> String {
    at.wall.format("%H:%M").to_string()
}

/// Why a step is asked, where it is not for the first time.
pub(super) fn asked_again(status: &Status) -> Option<&'static str> {
    let (Status::Open(round) | Status::Doubted(round, _)) = status else {
        return None;
    };
    match round {
        Round::First => None,
        Round::MeasuredAgain => Some("Measured again: the first reading could not be judged."),
        Round::PutRight => Some("Asked afresh, because it was put right."),
        Round::ReLook => Some("Looked at again, because time or people came between."),
        Round::Correction => Some("Asked afresh, because the answer was taken back."),
    }
}
