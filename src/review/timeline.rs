//! How a walk went: what was answered in one go, what came between, and where nothing happened.

use crate::walk::{After, Entry, Event, Moment, Round, Walk};
use chrono::{DateTime, FixedOffset};

/// Where nothing was typed for so long, it is told; ours, no source: a wheel of nuts takes one.
const GAP_MS: u64 = 5 * 60_000;

/// A stretch of a walk.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// When it begins, by the laptop's clock.
    pub from: DateTime<FixedOffset>,
    /// Milliseconds to its end.
    pub took_ms: u64,
    /// What it is.
    pub what: Went,
}

/// What a stretch is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Went {
    /// Answers of one section.
    Answers {
        /// The section, by its title.
        section: String,
        /// How many.
        answers: usize,
        /// How many of them not for the first time: measured again, put right, looked at again or
        /// corrected.
        again: usize,
    },
    /// Nothing was typed, and nobody had said so.
    Nothing,
    /// It was left by name.
    OnHold {
        /// Why.
        why: Option<String>,
        /// How many steps were to be looked at again.
        look_again: usize,
    },
    /// The program was not running.
    StoodStill {
        /// How many steps were to be looked at again.
        look_again: usize,
    },
    /// Something was not clear.
    NotClear {
        /// What.
        words: Option<String>,
        /// How it was settled.
        settled: String,
        /// How many steps were to be looked at again.
        look_again: usize,
    },
    /// Other people took over.
    HandedOver {
        /// Who reads and types.
        reader: String,
        /// Who does the work.
        doer: String,
        /// How many steps were to be looked at again.
        look_again: usize,
    },
}

/// How a walk went, in order.
pub fn timeline(walk: &Walk, (began, entries): (&Moment, &[Entry])) -> Vec<Stretch> {
    let mut line = Line {
        walk,
        before: began,
        left: None,
        stretches: Vec::new(),
    };
    for entry in entries {
        line.take(entry);
    }
    line.stretches
}

struct Line<'a> {
    walk: &'a Walk,
    before: &'a Moment,
    /// Since when it is on hold or not clear, and the words for it.
    left: Option<(&'a Moment, Option<String>)>,
    stretches: Vec<Stretch>,
}

impl<'a> Line<'a> {
    fn take(&mut self, entry: &'a Entry) {
        let since = entry.at.since(self.before);
        let stands = matches!(
            entry.event,
            Event::Resumed { .. } | Event::Settled { .. } | Event::HandedOver { .. }
        );
        if since >= GAP_MS && !stands {
            self.push(self.before, since, Went::Nothing);
        }
        match &entry.event {
            Event::Answered { step, round, .. } => {
                let gap = since >= GAP_MS;
                self.answered(step, *round, &entry.at, if gap { 0 } else { since });
            }
            Event::Held { why, .. } => {
                self.left = Some((&entry.at, why.as_ref().map(ToString::to_string)));
            }
            Event::Unsure { words } => {
                self.left = Some((&entry.at, words.as_ref().map(ToString::to_string)));
            }
            Event::Resumed {
                after,
                stood_ms,
                look_again,
            } => {
                let look_again = look_again.len();
                let (from, why) = self.left.take().unwrap_or((self.before, None));
                let what = match after {
                    After::Hold => Went::OnHold { why, look_again },
                    After::Restart => Went::StoodStill { look_again },
                };
                self.push(from, *stood_ms, what);
            }
            Event::Settled {
                words,
                stood_ms,
                look_again,
            } => {
                let (from, unclear) = self.left.take().unwrap_or((self.before, None));
                let what = Went::NotClear {
                    words: unclear,
                    settled: words.to_string(),
                    look_again: look_again.len(),
                };
                self.push(from, *stood_ms, what);
            }
            Event::HandedOver {
                reader,
                doer,
                look_again,
            } => {
                let what = Went::HandedOver {
                    reader: reader.to_string(),
                    doer: doer.to_string(),
                    look_again: look_again.len(),
                };
                self.push(self.before, since, what);
            }
            _ => {}
        }
        self.before = &entry.at;
    }

    fn answered(
        &mut self,
        step: &crate::checklist::StepKey,
        round: Round,
        at: &Moment,
        since: u64,
    ) {
        let planned = self
            .walk
            .plan()
            .index(step)
            .and_then(|at| self.walk.step(at));
        let sections = &self.walk.plan().checklist().sections;
        let section = planned.and_then(|(planned, _)| sections.get(planned.section));
        let title = section.map_or_else(|| step.to_string(), |section| section.title.clone());
        let more = usize::from(round != Round::First);
        if let Some(Stretch {
            from,
            took_ms,
            what:
                Went::Answers {
                    section,
                    answers,
                    again,
                },
        }) = self.stretches.last_mut()
            && *section == title
        {
            *answers += 1;
            *again += more;
            let to = at.wall.signed_duration_since(*from).num_milliseconds();
            *took_ms = (*took_ms + since).max(u64::try_from(to).unwrap_or(0));
            return;
        }
        let from = at.wall - chrono::TimeDelta::milliseconds(i64::try_from(since).unwrap_or(0));
        self.stretches.push(Stretch {
            from,
            took_ms: since,
            what: Went::Answers {
                section: title,
                answers: 1,
                again: more,
            },
        });
    }

    fn push(&mut self, from: &Moment, took_ms: u64, what: Went) {
        self.stretches.push(Stretch {
            from: from.wall,
            took_ms,
            what,
        });
    }
}
