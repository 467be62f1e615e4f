//! Every event of a walk, by its kind.

use super::answer::{self, DOUBTED, READING, SIGHTING};
use super::word::{maybe_words, named, step, steps, text, texts, token, word, words};
use crate::checklist::StepKey;
use crate::record::json::Text;
use crate::record::strict::{self, Spelt};
use crate::record::{Body, Id, JsonFault, Unreadable, Version};
use crate::walk::{After, Ended, Event, Words};
use serde::{Deserialize, Serialize};

const OPENED: &str = "opened";
const REMARKED: &str = "remarked";
const PUT_RIGHT: &str = "put-right";
const SECTION_CLOSED: &str = "section-closed";
const DEFERRED: &str = "deferred";
const CORRECTED: &str = "corrected";
const NOTED: &str = "noted";
const HELD: &str = "held";
const RESUMED: &str = "resumed";
const HANDED_OVER: &str = "handed-over";
const UNSURE: &str = "unsure";
const SETTLED: &str = "settled";
const ENDED: &str = "ended";

/// A body of these fields, stored in this order.
macro_rules! bodies {
    ($( $name:ident { $( $field:ident: $kind:ty ),* } )*) => { $(
        #[derive(Deserialize, Serialize)]
        #[serde(deny_unknown_fields, bound(deserialize = "'de: 'a"))]
        struct $name<'a> { $( $field: $kind ),* }
    )* };
}

bodies! {
    Step { step: Text<'a> }
    StepWords { step: Text<'a>, words: Text<'a> }
    PutRight { step: Text<'a>, branch: Text<'a>, words: Option<Text<'a>> }
    Section { section: Text<'a> }
    Deferred { step: Text<'a>, before: Text<'a>, words: Text<'a> }
    Said { words: Text<'a> }
    MaybeSaid { words: Option<Text<'a>> }
    Held { why: Option<Text<'a>>, next: Option<Text<'a>> }
    Resumed { after: Text<'a>, stood_ms: u64, look_again: Vec<Text<'a>> }
    HandedOver { reader: Text<'a>, doer: Text<'a>, look_again: Vec<Text<'a>> }
    Settled { words: Text<'a>, stood_ms: u64, look_again: Vec<Text<'a>> }
    End { outcome: Text<'a>, words: Option<Text<'a>> }
}

/// The kind of an event's line and its body.
pub(super) fn write(event: &Event) -> (&'static str, Result<Body, JsonFault>) {
    match event {
        Event::Opened { step } => (OPENED, one_step(step)),
        Event::Doubted {
            step,
            typed,
            instrument,
            doubt,
        } => (
            DOUBTED,
            answer::write_doubted(step, typed, instrument, doubt),
        ),
        Event::Answered {
            step,
            doer,
            round,
            given,
        } => answer::write(step, doer, *round, given),
        Event::Remarked { step, words } => (REMARKED, step_words(step, words)),
        Event::PutRight {
            step,
            branch,
            words,
        } => (PUT_RIGHT, put_right(step, branch, words.as_ref())),
        Event::SectionClosed { section } => {
            let section = section.as_str().into();
            (SECTION_CLOSED, Body::write(&Section { section }))
        }
        Event::Deferred {
            step,
            before,
            words,
        } => (DEFERRED, deferred(step, before, words)),
        Event::Corrected { step, words } => (CORRECTED, step_words(step, words)),
        Event::Noted { words } => {
            let words = words.as_str().into();
            (NOTED, Body::write(&Said { words }))
        }
        Event::Held { why, next } => {
            let (why, next) = (text(why.as_ref()), text(next.as_ref()));
            (HELD, Body::write(&Held { why, next }))
        }
        Event::Resumed {
            after,
            stood_ms,
            look_again,
        } => (RESUMED, resumed(*after, *stood_ms, look_again)),
        Event::HandedOver {
            reader,
            doer,
            look_again,
        } => (HANDED_OVER, handed_over(reader, doer, look_again)),
        Event::Unsure { words } => {
            let words = text(words.as_ref());
            (UNSURE, Body::write(&MaybeSaid { words }))
        }
        Event::Settled {
            words,
            stood_ms,
            look_again,
        } => (SETTLED, settled(words, *stood_ms, look_again)),
        Event::Ended { outcome, words } => {
            let outcome = outcome.word().into();
            let words = text(words.as_ref());
            (ENDED, Body::write(&End { outcome, words }))
        }
    }
}

/// The event a body of this kind tells.
pub(super) fn read(kind: &Id, body: Spelt<'_>) -> Result<Event, Unreadable> {
    match kind.as_str() {
        OPENED => {
            let stored: Step<'_> = strict::body(body)?;
            let step = step(&stored.step)?;
            Ok(Event::Opened { step })
        }
        DOUBTED => answer::doubted(body),
        READING => answer::reading(body),
        SIGHTING => answer::sighting(body),
        REMARKED => {
            let (step, words) = read_step_words(body)?;
            Ok(Event::Remarked { step, words })
        }
        CORRECTED => {
            let (step, words) = read_step_words(body)?;
            Ok(Event::Corrected { step, words })
        }
        PUT_RIGHT => {
            let stored: PutRight<'_> = strict::body(body)?;
            Ok(Event::PutRight {
                step: step(&stored.step)?,
                branch: token("branch", &stored.branch)?,
                words: maybe_words("words", stored.words.as_ref())?,
            })
        }
        SECTION_CLOSED => {
            let stored: Section<'_> = strict::body(body)?;
            let section = token("section", &stored.section)?;
            Ok(Event::SectionClosed { section })
        }
        DEFERRED => {
            let stored: Deferred<'_> = strict::body(body)?;
            Ok(Event::Deferred {
                step: step(&stored.step)?,
                before: token("before", &stored.before)?,
                words: words("words", &stored.words)?,
            })
        }
        _ => read_flow(kind, body),
    }
}

/// The events that stop a walk, set it going, or stand beside its steps.
fn read_flow(kind: &Id, body: Spelt<'_>) -> Result<Event, Unreadable> {
    match kind.as_str() {
        NOTED => {
            let stored: Said<'_> = strict::body(body)?;
            let words = words("words", &stored.words)?;
            Ok(Event::Noted { words })
        }
        HELD => {
            let stored: Held<'_> = strict::body(body)?;
            Ok(Event::Held {
                why: maybe_words("why", stored.why.as_ref())?,
                next: maybe_words("next", stored.next.as_ref())?,
            })
        }
        RESUMED => {
            let stored: Resumed<'_> = strict::body(body)?;
            Ok(Event::Resumed {
                after: named("after", &stored.after, &After::WORDS)?,
                stood_ms: stored.stood_ms,
                look_again: steps(&stored.look_again)?,
            })
        }
        HANDED_OVER => {
            let stored: HandedOver<'_> = strict::body(body)?;
            Ok(Event::HandedOver {
                reader: words("reader", &stored.reader)?,
                doer: words("doer", &stored.doer)?,
                look_again: steps(&stored.look_again)?,
            })
        }
        UNSURE => {
            let stored: MaybeSaid<'_> = strict::body(body)?;
            let words = maybe_words("words", stored.words.as_ref())?;
            Ok(Event::Unsure { words })
        }
        SETTLED => {
            let stored: Settled<'_> = strict::body(body)?;
            Ok(Event::Settled {
                words: words("words", &stored.words)?,
                stood_ms: stored.stood_ms,
                look_again: steps(&stored.look_again)?,
            })
        }
        ENDED => {
            let stored: End<'_> = strict::body(body)?;
            Ok(Event::Ended {
                outcome: named("outcome", &stored.outcome, &Ended::WORDS)?,
                words: maybe_words("words", stored.words.as_ref())?,
            })
        }
        _ => Err(Unreadable::Kind(Version::V1, kind.clone())),
    }
}

fn one_step(step: &StepKey) -> Result<Body, JsonFault> {
    let step = step.as_str().into();
    Body::write(&Step { step })
}

fn step_words(step: &StepKey, words: &Words) -> Result<Body, JsonFault> {
    let (step, words) = (step.as_str().into(), words.as_str().into());
    Body::write(&StepWords { step, words })
}

fn read_step_words(body: Spelt<'_>) -> Result<(StepKey, Words), Unreadable> {
    let stored: StepWords<'_> = strict::body(body)?;
    Ok((step(&stored.step)?, words("words", &stored.words)?))
}

fn put_right(step: &StepKey, branch: &str, words: Option<&Words>) -> Result<Body, JsonFault> {
    Body::write(&PutRight {
        step: step.as_str().into(),
        branch: branch.into(),
        words: text(words),
    })
}

fn deferred(step: &StepKey, before: &str, words: &Words) -> Result<Body, JsonFault> {
    Body::write(&Deferred {
        step: step.as_str().into(),
        before: before.into(),
        words: words.as_str().into(),
    })
}

fn resumed(after: After, stood_ms: u64, look_again: &[StepKey]) -> Result<Body, JsonFault> {
    Body::write(&Resumed {
        after: word(&after, &After::WORDS).into(),
        stood_ms,
        look_again: texts(look_again),
    })
}

fn handed_over(reader: &Words, doer: &Words, look_again: &[StepKey]) -> Result<Body, JsonFault> {
    Body::write(&HandedOver {
        reader: reader.as_str().into(),
        doer: doer.as_str().into(),
        look_again: texts(look_again),
    })
}

fn settled(words: &Words, stood_ms: u64, look_again: &[StepKey]) -> Result<Body, JsonFault> {
    Body::write(&Settled {
        words: words.as_str().into(),
        stood_ms,
        look_again: texts(look_again),
    })
}
