//! What can be done beside answering: the words, and the questions they ask.

use crate::checklist::Ending;
use crate::desk::{Errand, Reply};
use crate::plain::choose::pick;
use crate::plain::drill;
use crate::plain::going::{Going, Heard, Session};
use crate::plain::stop::Stop;
use crate::plain::word::Word;
use crate::walk::{Act, Ended, Status};

impl Session<'_> {
    /// Does what a word asks for.
    pub(super) fn act(&mut self, going: &mut Going, word: Word) -> Result<(), Stop> {
        match word {
            Word::Help => {
                let drills = going.drill.iter().flat_map(|_| drill::WORDS);
                for line in drills.map(str::to_owned).chain(Word::told(&going.walk)) {
                    self.talk.say(&line)?;
                }
                Ok(())
            }
            Word::Again => {
                going.said = None;
                Ok(())
            }
            Word::Why => Ok(self.say_why(going)?),
            Word::Last => Ok(self.say_last_why(going)?),
            Word::List => self.list(going),
            Word::Show => self.show(&going.trip),
            Word::Quit => Err(Stop::Left),
            Word::Note => {
                let words = self.talk.ask("What is to be written down?")?;
                self.record(going, Act::Note { words }).map(drop)
            }
            Word::Unsure => {
                let words = self
                    .talk
                    .ask("What is not clear? Enter alone leaves it out.")?;
                self.record(going, Act::Unsure { words }).map(drop)
            }
            Word::Hold => {
                let why = self
                    .talk
                    .ask("Why do you leave? Enter alone leaves it out.")?;
                let next = self
                    .talk
                    .ask("What were you about to do? Enter alone leaves it out.")?;
                self.record(going, Act::Hold { why, next }).map(drop)
            }
            Word::Later => {
                let words = self.talk.ask("Why is it put off?")?;
                self.record(going, Act::Defer { words }).map(drop)
            }
            Word::Correct => self.correct(going),
            Word::HandOver => self.hand_over(going),
            Word::End => self.end(going),
        }
    }

    /// Says the branch is worked through.
    pub(super) fn put_right(&mut self, going: &mut Going, index: usize) -> Result<(), Stop> {
        let stop = going.walk.step(index).is_some_and(|(_, state)| {
            matches!(&state.status, Status::Bad { verdict, .. } if *verdict == crate::rules::Verdict::Stop)
        });
        let ends = going.walk.step(index).and_then(|(_, state)| {
            let Status::Bad { branch, .. } = &state.status else {
                return None;
            };
            Some(going.walk.plan().branch(branch)?.ends)
        });
        let is_end = ends == Some(Ending::NotFitToGo);
        let question = if is_end {
            "This cannot be put right here. Type end, hold or unsure."
        } else {
            "Type done when it is put right; end, hold or unsure otherwise."
        };
        match self.hear(going, question)? {
            Heard::Text(typed) if typed.eq_ignore_ascii_case("done") && !is_end => {
                let words = self.talk.ask(if stop {
                    "What was repaired or replaced?"
                } else {
                    "What was done? Enter alone leaves it out."
                })?;
                self.record(going, Act::PutRight { words }).map(drop)
            }
            Heard::Text(_) if is_end => Ok(self.talk.say("Only end, hold or unsure lead on.")?),
            Heard::Text(_) => Ok(self
                .talk
                .say("Only the word done says that it is put right.")?),
            Heard::Done => Ok(()),
        }
    }

    pub(super) fn remark(&mut self, going: &mut Going) -> Result<(), Stop> {
        let question = "Type why this can be lived with, and by when it is closed.";
        match self.hear(going, question)? {
            Heard::Text(words) => self.record(going, Act::Remark { words }).map(drop),
            Heard::Done => Ok(()),
        }
    }

    pub(super) fn close_section(&mut self, going: &mut Going) -> Result<(), Stop> {
        self.on_word(
            going,
            "yes",
            "Type yes when this is true.",
            Act::CloseSection,
        )
    }

    pub(super) fn resume(&mut self, going: &mut Going) -> Result<(), Stop> {
        self.on_word(going, "resume", "Type resume to go on.", Act::Resume)
    }

    pub(super) fn complete(&mut self, going: &mut Going) -> Result<(), Stop> {
        let act = Act::End {
            outcome: Ended::Complete,
            words: String::new(),
        };
        self.on_word(
            going,
            "complete",
            "Type complete to end the walk as complete.",
            act,
        )
    }

    pub(super) fn settle(&mut self, going: &mut Going) -> Result<(), Stop> {
        match self.hear(going, "Type how it was settled, and with whom.")? {
            Heard::Text(words) => self.record(going, Act::Settle { words }).map(drop),
            Heard::Done => Ok(()),
        }
    }

    /// One act that wants one word of its own, so that no run of equal keys passes it.
    fn on_word(
        &mut self,
        going: &mut Going,
        word: &str,
        question: &str,
        act: Act,
    ) -> Result<(), Stop> {
        match self.hear(going, question)? {
            Heard::Text(typed) if typed.eq_ignore_ascii_case(word) => {
                self.record(going, act).map(drop)
            }
            Heard::Text(_) => Ok(self.talk.say(&format!(
                "Only the word {word} does that. Type help for other words."
            ))?),
            Heard::Done => Ok(()),
        }
    }

    fn hand_over(&mut self, going: &mut Going) -> Result<(), Stop> {
        let Some(barn) = self.look_around()? else {
            return Ok(());
        };
        let Some(reader) = self.person("Who reads and types from now on", &barn)? else {
            return Ok(());
        };
        let Some(doer) = self.person("Who does the work from now on", &barn)? else {
            return Ok(());
        };
        self.record(going, Act::HandOver { reader, doer }).map(drop)
    }

    fn correct(&mut self, going: &mut Going) -> Result<(), Stop> {
        self.talk.head("Done so far:")?;
        let mut done = Vec::new();
        for (index, planned) in going.walk.plan().steps().iter().enumerate() {
            let state = going.walk.steps().get(index).map(|state| &state.status);
            if matches!(state, Some(Status::Done(_))) {
                self.talk
                    .say(&format!("{}. {}", index + 1, planned.name()))?;
                done.push((index, planned.key.clone()));
            }
        }
        let typed = self
            .talk
            .ask("Which one is taken back? Type its number, or back.")?;
        let index = pick(&typed, going.walk.plan().steps().len());
        let Some((_, step)) = done.into_iter().find(|(at, _)| Some(*at) == index) else {
            return Ok(self.talk.say("No answer was taken back.")?);
        };
        let words = self
            .talk
            .ask("Why is it taken back? The old answer stays in the record.")?;
        self.record(going, Act::Correct { step, words }).map(drop)
    }

    /// Ends a walk that is not complete. The outcome is typed as a word, never a number.
    fn end(&mut self, going: &mut Going) -> Result<(), Stop> {
        self.talk.head("End the walk, as what?")?;
        self.talk.say("incomplete: left before the last step")?;
        self.talk
            .say("not fit to go: something cannot be put right here")?;
        self.talk.say("abandoned: given up")?;
        let typed = self.talk.ask("Type the outcome in full, or back.")?;
        let outcome = match typed.to_lowercase().replace('-', " ").as_str() {
            "incomplete" => Ended::Incomplete,
            "not fit to go" => Ended::NotFitToGo,
            "abandoned" => Ended::Abandoned,
            _ => return Ok(self.talk.say("The walk goes on.")?),
        };
        let words = self.talk.ask("Why does the trip end here?")?;
        self.record(going, Act::End { outcome, words }).map(drop)
    }

    fn list(&mut self, going: &Going) -> Result<(), Stop> {
        let walk = &going.walk;
        let mut section = None;
        for (index, planned) in walk.plan().steps().iter().enumerate() {
            if section != Some(planned.section) {
                section = Some(planned.section);
                if let Some(section) = walk.plan().sections().get(planned.section) {
                    self.talk.head(&section.title)?;
                }
            }
            let status = walk
                .steps()
                .get(index)
                .map_or("", |state| stands(&state.status));
            let status = walk
                .left_out(index)
                .map_or_else(|| status.to_owned(), |why| format!("left out: {why}"));
            self.talk
                .say(&format!("{}. {}: {status}", index + 1, planned.name()))?;
        }
        Ok(())
    }

    /// Reads a record out.
    pub(super) fn show(&mut self, trip: &str) -> Result<(), Stop> {
        let tale = match (self.perform)(Errand::Show {
            trip: trip.to_owned(),
        }) {
            Reply::Record(tale) => tale,
            other => return self.cannot(other),
        };
        self.say_tale(&tale)
    }
}

/// How a step stands, in a word or two.
fn stands(status: &Status) -> &'static str {
    match status {
        Status::Waiting(crate::walk::Round::First) => "to do",
        Status::Waiting(_) => "to do again",
        Status::Open(_) | Status::Doubted(..) => "here",
        Status::Bad { verdict, .. } if verdict.blocks() => "open, to be put right",
        Status::Bad { .. } | Status::NoteOwed => "open",
        Status::Done(crate::rules::Verdict::Ok) => "done",
        Status::Done(_) => "done, with a note",
        Status::Deferred { .. } => "put off",
    }
}
