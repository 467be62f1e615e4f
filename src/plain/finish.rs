//! After the end: the signature, and reading a record.

use crate::desk::{Barn, Errand, Reply, Tale, Weight, told};
use crate::plain::choose::pick;
use crate::plain::going::{Going, Session};
use crate::plain::stop::Stop;
use crate::record::meaning;
use crate::walk::Ended;

impl Session<'_> {
    /// The walk has ended: offers to sign it.
    pub(super) fn finish(&mut self, going: &Going, outcome: Ended) -> Result<(), Stop> {
        let tally = going.walk.tally();
        self.talk.head(&format!(
            "The walk has ended as {}.",
            outcome.word().replace('-', " ")
        ))?;
        self.talk.say(&format!(
            "Answers: {} ok, {} note, {} fix, {} stop.",
            tally.ok, tally.note, tally.fix, tally.stop
        ))?;
        let Some(barn) = self.look_around()? else {
            return Ok(());
        };
        if outcome == Ended::NotFitToGo {
            let call = told::whom_to_call(going.barn.call.as_ref(), &barn.crew);
            self.talk.say(&format!("{} {call}", told::NOT_FIT))?;
        }
        self.talk
            .say(&format!("Whoever signs states this: {}", meaning(outcome)))?;
        self.talk.say("Who signs?")?;
        for (number, person) in (1..).zip(&barn.crew) {
            let roles: Vec<&str> = person.roles.iter().map(|role| role.word()).collect();
            let part = if going.walk.is_walked_by(&person.name) {
                ""
            } else {
                ": neither read nor did it"
            };
            let roles = roles.join(", ");
            self.talk
                .say(&format!("{number}. {}, {roles}{part}", person.name))?;
        }
        self.sign(&barn)
    }

    fn sign(&mut self, barn: &Barn) -> Result<(), Stop> {
        loop {
            let typed = self
                .talk
                .ask("Type the number of who signs, or later to leave it unsigned for now.")?;
            match typed.as_str() {
                "later" | "l" => {
                    return Ok(self.talk.say(
                        "Not signed. The trip stands first on the start menu until it is.",
                    )?);
                }
                "quit" | "q" => return Err(Stop::Left),
                _ => {}
            }
            let Some(signer) = pick(&typed, barn.crew.len()).and_then(|at| barn.crew.get(at))
            else {
                self.no_choice(&typed, barn.crew.len())?;
                continue;
            };
            let (name, signer) = (&signer.name, signer.id.clone());
            let found = (self.perform)(Errand::FindKey {
                signer: signer.clone(),
            });
            let Reply::Key { lies, .. } = found else {
                self.cannot(found)?;
                continue;
            };
            let consent = match self.talk.consent(lies, (name, ""), barn.mode)? {
                Ok(consent) => consent,
                Err(sentence) => {
                    self.talk.say(&sentence)?;
                    continue;
                }
            };
            match (self.perform)(Errand::Seal { signer, consent }) {
                Reply::Sealed(sealed) => {
                    self.talk
                        .head(&format!("Sealed. Receipt: {}", sealed.receipt))?;
                    self.talk
                        .say("Read it out on the phone, or write it in the cab book.")?;
                    self.talk.say(&format!("Outcome: {}.", sealed.outcome))?;
                    self.talk
                        .say(&format!("Signed by: {}.", sealed.signed_by))?;
                    self.talk.say(&format!("Record: {}", sealed.folder))?;
                    return Ok(self
                        .talk
                        .say(&format!("Check it with: hames verify {}", sealed.typed))?);
                }
                other => self.cannot(other)?,
            }
        }
    }

    /// A record read out, exceptions by their word.
    pub(super) fn say_tale(&mut self, tale: &Tale) -> Result<(), Stop> {
        self.talk.head("Record:")?;
        for line in &tale.heading {
            self.talk.say(line)?;
        }
        self.talk.say("What verification found:")?;
        for finding in &tale.findings {
            self.talk.say(finding)?;
        }
        self.talk.say("What happened:")?;
        for line in &tale.lines {
            let mark = match line.weight {
                Weight::Plain => "",
                Weight::Exception => "Look: ",
            };
            self.talk
                .say(&format!("{} {mark}{}", line.time, line.what))?;
        }
        self.talk.say("Signatures:")?;
        if tale.signatures.is_empty() {
            self.talk.say("none")?;
        }
        for signature in &tale.signatures {
            self.talk.say(signature)?;
        }
        Ok(())
    }
}
