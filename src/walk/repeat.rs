//! Walking a journal again: each event is held against what the machine answers to the act
//! behind it.
//!
//! A fold believes its events. Whoever can sign can also write a journal by hand, with every hash
//! in place; this is what tells such a journal from a walk.

use crate::rules::Judgement;
use crate::walk::{Act, After, Entry, Event, Given, Refusal, Walk};
use std::fmt;

/// Why an event is not what the machine would have answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Departure {
    /// The act behind it is refused here.
    Refused(Refusal),
    /// The act behind it comes to something else.
    Otherwise,
    /// It was written in the name of someone who did not have the walk.
    Actor,
    /// The walk was signed by someone who neither read nor did it.
    Signer,
    /// The checklist and the rig beside it cannot be read, or do not fit.
    NoPlan,
}

impl Walk {
    /// Takes in an event as [`apply`](Self::apply) does, provided that the machine answers so.
    ///
    /// # Errors
    /// [`Departure`]; the walk is as it was then.
    pub fn repeat(&mut self, entry: &Entry) -> Result<(), Departure> {
        if entry.actor != self.reader {
            return Err(Departure::Actor);
        }
        let decided = self
            .decide(&self.act_behind(&entry.event), &entry.at)
            .map_err(Departure::Refused)?;
        if without_prose(decided) != without_prose(entry.event.clone()) {
            return Err(Departure::Otherwise);
        }
        self.apply(entry);
        Ok(())
    }

    /// The act an event is the answer to. Who gave a second reading stands as its doer.
    fn act_behind(&self, event: &Event) -> Act {
        let second = |step| {
            let index = self.plan.index(step)?;
            Some(self.plan.steps().get(index)?.is_second_reading())
        };
        match (event, event.act()) {
            (Event::Answered { step, doer, .. }, Act::Read { typed, instrument })
                if second(step) == Some(true) =>
            {
                Act::ReadAs {
                    who: doer.to_string(),
                    typed,
                    instrument,
                }
            }
            (Event::Doubted { step, .. }, Act::Read { typed, instrument })
                if second(step) == Some(true) =>
            {
                // A doubt names nobody: any stranger to the work comes to the same.
                Act::ReadAs {
                    who: NOBODY.to_owned(),
                    typed,
                    instrument,
                }
            }
            (_, act) => act,
        }
    }
}

/// Stands for the second person where an event does not name one. No crew has it.
const NOBODY: &str = "?";

impl Event {
    /// The act this event is the answer to.
    pub fn act(&self) -> Act {
        let words = |words: &Option<_>| words.as_ref().map(ToString::to_string).unwrap_or_default();
        match self.clone() {
            Self::Opened { .. } => Act::Open,
            Self::Doubted {
                typed, instrument, ..
            } => Act::Read {
                typed: typed.to_string(),
                instrument,
            },
            Self::Answered { given, .. } => answering(given),
            Self::Remarked { words, .. } => Act::Remark {
                words: words.to_string(),
            },
            Self::PutRight { words: what, .. } => Act::PutRight {
                words: words(&what),
            },
            Self::SectionClosed { .. } => Act::CloseSection,
            Self::Deferred { words, .. } => Act::Defer {
                words: words.to_string(),
            },
            Self::Corrected { step, words } => Act::Correct {
                step,
                words: words.to_string(),
            },
            Self::Noted { words } => Act::Note {
                words: words.to_string(),
            },
            Self::Held { why, next } => Act::Hold {
                why: words(&why),
                next: words(&next),
            },
            Self::Resumed { after, .. } => match after {
                After::Hold => Act::Resume,
                After::Restart => Act::TakeUp,
            },
            Self::HandedOver { reader, doer, .. } => Act::HandOver {
                reader: reader.to_string(),
                doer: doer.to_string(),
            },
            Self::Unsure { words: what } => Act::Unsure {
                words: words(&what),
            },
            Self::Settled { words, .. } => Act::Settle {
                words: words.to_string(),
            },
            Self::Ended {
                outcome,
                words: why,
            } => Act::End {
                outcome,
                words: words(&why),
            },
        }
    }
}

fn answering(given: Given) -> Act {
    match given {
        Given::Read {
            typed, instrument, ..
        } => Act::Read {
            typed: typed.to_string(),
            instrument,
        },
        Given::Seen {
            state,
            by: Some(who),
            ..
        } => Act::SeeAs {
            who: who.to_string(),
            state,
        },
        Given::Seen { state, .. } => Act::See { state },
    }
}

/// An event without what the program words in its own way: how a bound came about. The figures
/// stay.
fn without_prose(mut event: Event) -> Event {
    if let Event::Answered {
        given: Given::Read {
            judgement: Judgement { held, .. },
            ..
        },
        ..
    } = &mut event
    {
        for held in held {
            held.limit.derivation = None;
        }
    }
    event
}

impl fmt::Display for Departure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(refusal) => write!(f, "the act is refused. {refusal}"),
            Self::Otherwise => f.write_str("the same act comes to something else"),
            Self::Actor => f.write_str("it names someone who did not have the walk then"),
            Self::Signer => f.write_str("it was signed by someone who neither read nor did it"),
            Self::NoPlan => {
                f.write_str("the checklist and the rig beside it cannot be read, or do not fit")
            }
        }
    }
}
