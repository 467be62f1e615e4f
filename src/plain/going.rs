//! A walk under way: what is next is said once, then one question is asked.

use crate::barn::ForWalk;
use crate::desk::{Answering, CrewCard, Errand, Reply, told};
use crate::drill::Run;
use crate::plain::Options;
use crate::plain::stop::Stop;
use crate::plain::talk::Talk;
use crate::plain::word::Word;
use crate::walk::{Act, Now, Walk};
use std::io;

/// The conversation, and the other side of the desk.
pub(super) struct Session<'a> {
    pub(super) talk: Talk<'a>,
    pub(super) perform: &'a mut dyn FnMut(Errand) -> Reply,
    pub(super) options: Options,
    /// Whether a walk is begun and not ended.
    pub(super) under_way: bool,
    /// Things to know that were said.
    pub(super) noticed: Vec<String>,
    /// What of the walk that is about to begin was said already.
    pub(super) foretold: Vec<String>,
    /// What managers asked whoever is named for the walk.
    pub(super) asked: Answering,
    /// Whether the last walk that was asked for was refused.
    pub(super) refused: bool,
    /// How the drill under way is played again, and whether it is recorded.
    pub(super) playing: Option<(Option<String>, bool)>,
    /// What stands behind `hames drill` to play what was asked for again.
    pub(super) again: Option<String>,
    /// Whose drills are recorded.
    pub(super) learners: Vec<CrewCard>,
    /// Whether everybody's passphrase is that of the demo.
    pub(super) secret_is_demo: bool,
}

/// A walk under way.
pub(super) struct Going {
    pub(super) walk: Walk,
    pub(super) trip: String,
    /// What the barn has set for its walks.
    pub(super) barn: ForWalk,
    /// What was said last, so that it is said once.
    pub(super) said: Option<Now>,
    /// The instrument in hand for the open step.
    pub(super) tool: Option<String>,
    /// Who reads a second time, named for the open step.
    pub(super) second: Option<String>,
    /// The drill it is the walk of, where it is one.
    pub(super) drill: Option<Run>,
    /// Whether whoever rode a check ride has signed it.
    pub(super) is_signed: bool,
    /// Whether what there was to say of the drill was said before its walk ended.
    pub(super) looked_back: bool,
}

/// What came of a question.
pub(super) enum Heard {
    /// An answer.
    Text(String),
    /// A word, which was done.
    Done,
}

impl<'a> Session<'a> {
    pub(super) fn new(
        talk: Talk<'a>,
        perform: &'a mut dyn FnMut(Errand) -> Reply,
        options: Options,
    ) -> Self {
        Self {
            talk,
            perform,
            options,
            under_way: false,
            noticed: Vec::new(),
            foretold: Vec::new(),
            asked: Answering::default(),
            refused: false,
            playing: None,
            again: None,
            learners: Vec::new(),
            secret_is_demo: false,
        }
    }
}

impl Session<'_> {
    /// Goes on with a walk until it has ended.
    pub(super) fn go(&mut self, mut going: Going) -> Result<(), Stop> {
        self.under_way = true;
        loop {
            if self.watches(&mut going)? || self.comes_between(&mut going)? {
                continue;
            }
            let now = going.walk.now();
            if going.said.as_ref() != Some(&now) {
                (going.tool, going.second) = (None, None);
                self.say_where(&going, &now)?;
                going.said = Some(now.clone());
            }
            match now {
                Now::Next(_) => self.open(&mut going)?,
                Now::Open(index) => self.answer(&mut going, index)?,
                Now::Branch(index) => self.put_right(&mut going, index)?,
                Now::Remark(_) => self.remark(&mut going)?,
                Now::SectionEnd(_) => self.close_section(&mut going)?,
                Now::Held => self.resume(&mut going)?,
                Now::Unsure => self.settle(&mut going)?,
                Now::Finished => {
                    self.looks_back(&mut going)?;
                    self.complete(&mut going)?;
                }
                Now::Ended(outcome) => {
                    self.under_way = false;
                    return match &going.drill {
                        Some(_) => self.ends_drill(&going),
                        None => self.finish(&going, outcome),
                    };
                }
            }
        }
    }

    /// Has an act judged and recorded. Whether it was; what became of it is said either way.
    pub(super) fn record(&mut self, going: &mut Going, act: Act) -> Result<bool, Stop> {
        match (self.perform)(Errand::Record(act)) {
            Reply::Recorded(entry) => {
                going.walk.apply(&entry);
                self.tell(going, &entry)?;
                self.tell_in_drill(going, &entry)?;
                Ok(true)
            }
            Reply::Refused(refusal) => {
                // Who cannot read a second time is not kept: another is asked for.
                if refusal.is_of_second() {
                    going.second = None;
                }
                self.talk.say(&format!("Not recorded. {refusal}"))?;
                Ok(false)
            }
            Reply::ReadOnly(sentence) => self.on_paper(going, &sentence),
            other => self.cannot(other).map(|()| false),
        }
    }

    /// Asks; a word that is typed is done here.
    pub(super) fn hear(&mut self, going: &mut Going, question: &str) -> Result<Heard, Stop> {
        let typed = self.talk.ask(question)?;
        if self.does_in_drill(going, &typed)? {
            return Ok(Heard::Done);
        }
        let Some(word) = Word::read(&typed) else {
            return Ok(Heard::Text(typed));
        };
        if word.is_open(&going.walk) {
            self.act(going, word)?;
        } else {
            self.talk.say(&format!(
                "“{typed}” does nothing here. Type help for what does."
            ))?;
        }
        Ok(Heard::Done)
    }

    /// The step is begun as soon as it is said; that it was is recorded, and answers nothing.
    fn open(&mut self, going: &mut Going) -> Result<(), Stop> {
        if !self.record(going, Act::Open)? {
            self.hear(
                going,
                "The step could not be begun. Type again to try it, or hold.",
            )?;
        }
        going.said = None;
        Ok(())
    }

    /// Says why an errand could not be done.
    pub(super) fn cannot(&mut self, reply: Reply) -> Result<(), Stop> {
        match reply {
            Reply::Cannot(sentence) => Ok(self.talk.say(&sentence)?),
            Reply::ReadOnly(sentence) => {
                self.talk.say(&sentence)?;
                Err(Stop::DiskFailed)
            }
            Reply::Refused(refusal) => Ok(self.talk.say(&refusal.to_string())?),
            _ => Ok(self.talk.say("That could not be done. Try it again.")?),
        }
    }

    /// The disk failed: says what is not yet done, and leaves.
    fn on_paper(&mut self, going: &Going, sentence: &str) -> Result<bool, Stop> {
        self.talk.head(sentence)?;
        self.talk
            .say("Nothing more is recorded. Steps not recorded as done:")?;
        let walk = &going.walk;
        for (index, planned) in walk.plan().steps().iter().enumerate() {
            let done = walk
                .step(index)
                .is_some_and(|(_, state)| matches!(state.status, crate::walk::Status::Done(_)));
            if !done && walk.left_out(index).is_none() {
                self.talk
                    .say(&format!("{}. {}", index + 1, planned.name()))?;
            }
        }
        Err(Stop::DiskFailed)
    }

    /// What is said when the conversation ends in the middle of a walk.
    pub(super) fn left_as_it_is(&mut self, first: &str) -> io::Result<()> {
        if self.under_way {
            self.talk.head(&format!(
                "{first}The walk is left as it is. Everything recorded is in its journal; \
                 start Hames again to take it up at the same step."
            ))
        } else if first.is_empty() {
            Ok(())
        } else {
            self.talk.head(&format!("{first}No walk was under way."))
        }
    }
}

impl Going {
    pub(super) fn new(walk: Walk, trip: String, barn: ForWalk) -> Self {
        Self {
            walk,
            trip,
            barn,
            said: None,
            tool: None,
            second: None,
            drill: None,
            is_signed: false,
            looked_back: false,
        }
    }

    /// The name of a step of the plan.
    pub(super) fn name(&self, index: usize) -> String {
        let planned = self.walk.plan().steps().get(index);
        planned.map_or_else(String::new, |planned| {
            told::step_name(self.walk.plan(), &planned.key)
        })
    }
}
