//! Describing a rig line by line: a question, where to look, the answer, and on.

mod told;

use crate::plain::describe::told::{evidence_asked, refused, told};
use crate::plain::{Options, Stop, Talk};
use crate::rig::describe::{Amends, Ask, Interview, Question, Refused};
use std::io::{self, BufRead, Write};

/// How the describing ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Described {
    /// The person stopped, the questions or the input came to their end. What was answered is
    /// saved.
    Saved,
    /// The disk refused an answer.
    NotSaved,
}

/// Saves the file's text; a sentence when the disk refused.
type Save<'a> = &'a mut dyn FnMut(&str) -> Result<(), String>;

/// Asks one question after another until all are answered or the person stops. After every answer
/// the file is saved.
///
/// # Errors
/// What the output or the input refused. What was answered before is saved.
pub fn describe(
    input: &mut dyn BufRead,
    output: &mut dyn Write,
    options: Options,
    interview: Interview,
    file: &str,
    save: Save<'_>,
) -> io::Result<Described> {
    let mut sitting = Sitting {
        talk: Talk::new(input, output, options),
        interview,
        save,
        title: String::new(),
        amends: None,
        file,
    };
    let stopped = match sitting.go() {
        Ok(()) => None,
        Err(Stop::Broken(error)) => return Err(error),
        Err(Stop::DiskFailed) => return Ok(Described::NotSaved),
        Err(Stop::InputEnded) => Some("The input has ended."),
        Err(Stop::Left) => Some("Stopped."),
    };
    sitting.end(stopped)?;
    Ok(Described::Saved)
}

struct Sitting<'a> {
    talk: Talk<'a>,
    interview: Interview,
    save: Save<'a>,
    /// The heading said last.
    title: String,
    /// The earlier answer that the last refused one does not go with.
    amends: Option<Amends>,
    file: &'a str,
}

/// What was typed where an answer was asked for.
enum Typed {
    Answer(Vec<String>, Option<(String, String)>),
    Skip,
    Back,
    Keep,
    /// The earlier answer is the wrong one.
    There(Amends),
}

/// What lacks is told one by one up to so many.
const MOST_TOLD: usize = 12;

impl Sitting<'_> {
    fn go(&mut self) -> Result<(), Stop> {
        self.talk.head(&format!(
            "Describing a rig. After every answer {} is saved.",
            self.file
        ))?;
        self.help()?;
        while let Some(question) = self.interview.question() {
            self.ask(&question)?;
        }
        Ok(())
    }

    fn help(&mut self) -> io::Result<()> {
        self.talk.say(
            "At any question: skip leaves it out, back goes one question back, stop ends for \
             now, help says this again.",
        )
    }

    fn ask(&mut self, question: &Question) -> Result<(), Stop> {
        if self.title == question.title {
            self.talk.say("")?;
        } else {
            self.title.clone_from(&question.title);
            self.talk.head(&format!("{}.", question.title))?;
        }
        for line in told(question) {
            self.talk.say(&line)?;
        }
        match self.typed(question)? {
            Typed::Answer(typed, evidence) => {
                let known = evidence.as_ref();
                let known = known.map(|(by, at)| (by.as_str(), at.as_str()));
                match self.interview.answer(question, &typed, known) {
                    Ok(()) => self.save(question, &typed, known),
                    Err(refusal) => self.refuse(&refusal),
                }
            }
            Typed::Skip => {
                let follows = self.interview.skip(question);
                let said = match question.field.ask {
                    Ask::More(_) => "Done.",
                    _ => "Left out.",
                };
                self.talk.say(format!("{said} {follows}").trim_end())?;
                self.write()
            }
            Typed::Back => {
                if !self.interview.back() {
                    self.talk.say("There is no question before this one.")?;
                }
                Ok(())
            }
            Typed::Keep => {
                self.interview.keep(question);
                Ok(self.talk.say("Kept as it is.")?)
            }
            Typed::There(amends) => {
                self.interview.amend(&amends);
                Ok(())
            }
        }
    }

    /// Asks for everything an answer is made of.
    fn typed(&mut self, question: &Question) -> Result<Typed, Stop> {
        let mut typed = Vec::new();
        let slots = question.field.ask.slots();
        while let Some(slot) = slots.get(typed.len()) {
            let line = self.talk.ask(slot.ask)?;
            if let Some(word) = self.word(question, &line)? {
                return Ok(word);
            }
            if line.is_empty() {
                self.talk.say("Enter alone answers nothing.")?;
                continue;
            }
            if self.says_help(&line, question)? {
                continue;
            }
            typed.push(line);
            if let Err(refusal) = self.interview.hear(question, &typed) {
                typed.pop();
                self.refuse(&refusal)?;
            }
        }
        if !question.field.ask.has_evidence() {
            return Ok(Typed::Answer(typed, None));
        }
        match self.evidence(question)? {
            Ok(evidence) => Ok(Typed::Answer(typed, Some(evidence))),
            Err(word) => Ok(word),
        }
    }

    /// Asks by what a value is known, and where that stands.
    fn evidence(&mut self, question: &Question) -> Result<Result<(String, String), Typed>, Stop> {
        let same = self.interview.same();
        let same = same.map(|(by, at)| (by.to_owned(), at.to_owned()));
        let asked = evidence_asked(same.as_ref());
        let by = loop {
            let line = self.talk.ask(&asked)?;
            if let Some(word) = self.word(question, &line)? {
                return Ok(Err(word));
            }
            if let (Some(same), "same") = (&same, line.as_str()) {
                return Ok(Ok(same.clone()));
            }
            if line == "help" {
                for (word, meaning) in Interview::kinds_of_evidence() {
                    self.talk.say(&format!("{word}: {meaning}"))?;
                }
                continue;
            }
            match Interview::evidence(&line) {
                Ok(by) => break by,
                Err(refusal) => self.refuse(&refusal)?,
            }
        };
        loop {
            let line = self
                .talk
                .ask("Where does that stand, so that it can be read again?")?;
            if let Some(word) = self.word(question, &line)? {
                return Ok(Err(word));
            }
            if line.is_empty() {
                self.talk.say("Enter alone answers nothing.")?;
            } else if !self.says_help(&line, question)? {
                return Ok(Ok((by.to_owned(), line)));
            }
        }
    }

    /// A word that is no answer.
    fn word(&mut self, question: &Question, line: &str) -> Result<Option<Typed>, Stop> {
        Ok(match line {
            "skip" => Some(Typed::Skip),
            "done" if matches!(question.field.ask, Ask::More(_)) => Some(Typed::Skip),
            "back" => Some(Typed::Back),
            "stop" | "quit" => return Err(Stop::Left),
            "keep" if question.now.is_some() => Some(Typed::Keep),
            "there" => self.amends.take().map(Typed::There),
            _ => None,
        })
    }

    fn says_help(&mut self, line: &str, question: &Question) -> Result<bool, Stop> {
        if line != "help" {
            return Ok(false);
        }
        self.help()?;
        for line in told(question) {
            self.talk.say(&line)?;
        }
        Ok(true)
    }

    /// Says why an answer is not taken.
    fn refuse(&mut self, refusal: &Refused) -> Result<(), Stop> {
        let (lines, amends) = refused(refusal);
        for line in lines {
            self.talk.say(&line)?;
        }
        self.amends = amends;
        Ok(())
    }

    fn save(
        &mut self,
        question: &Question,
        typed: &[String],
        evidence: Option<(&str, &str)>,
    ) -> Result<(), Stop> {
        self.write()?;
        self.amends = None;
        let mut said: Vec<String> = typed.iter().map(|typed| question.word(typed)).collect();
        said.extend(
            evidence
                .into_iter()
                .flat_map(|(by, at)| [by.to_owned(), at.to_owned()]),
        );
        Ok(self.talk.say(&format!("Saved: {}.", said.join(", ")))?)
    }

    fn write(&mut self) -> Result<(), Stop> {
        if let Err(sentence) = (self.save)(&self.interview.text()) {
            self.talk.say(&sentence)?;
            self.talk
                .say("The last answer is not saved. What was saved before is there.")?;
            return Err(Stop::DiskFailed);
        }
        Ok(())
    }

    /// What the file is good for now.
    fn end(&mut self, stopped: Option<&str>) -> io::Result<()> {
        let file = self.file;
        let ended = stopped.unwrap_or("That was the last question.");
        let lacking = self.interview.lacking().to_vec();
        if lacking.is_empty() {
            self.talk
                .head(&format!("{ended} The rig in {file} can be walked."))?;
            self.talk
                .say(&format!("See every figure: hames rig {file}"))?;
            self.talk
                .say(&format!("Walk it: hames walk --rig {file}"))?;
        } else {
            self.talk.head(&format!(
                "{ended} The rig in {file} cannot be walked yet. This lacks:"
            ))?;
            for fault in lacking.iter().take(MOST_TOLD) {
                let path = if fault.path.is_empty() {
                    String::new()
                } else {
                    format!("{}: ", fault.path)
                };
                self.talk.say(&format!("{path}{}", fault.what))?;
            }
            if lacking.len() > MOST_TOLD {
                self.talk
                    .say(&format!("and {} more", lacking.len() - MOST_TOLD))?;
            }
        }
        let asks = self.interview.question().is_some() || !lacking.is_empty();
        if asks {
            self.talk
                .say(&format!("Go on with: hames rig {file} --describe"))?;
        }
        Ok(())
    }
}
