//! Sealing: what the ended trip comes to, signed by the person and by this laptop.

use crate::cli::clerk::founding::{id, read_device_key};
use crate::cli::clerk::open::{Open, nothing_open};
use crate::cli::clerk::pen::Pen;
use crate::cli::clerk::{Books, Clerk, Trouble};
use crate::cli::command::quoted;
use crate::desk::{Consent, Reply, Sealed};
use crate::record::{Counts, Crew, Deed, Namespace, Receipt, Role, Seal, Signer, Wall, meaning_in};
use crate::store::{Disk, Logbook, Mode as For, keep};
use crate::walk::{Moment, Tally};

impl<D: Disk> Clerk<D> {
    /// Signs the ended trip and writes seal and signatures, each once and for all. Then the trip
    /// is let go.
    pub(super) fn seal(&mut self, signer: &str, consent: &Consent) -> Result<Reply, Trouble> {
        let now = self.world.now();
        let books = self.books_in_force()?;
        let open = self.open.as_ref().ok_or_else(nothing_open)?;
        let crew = open.crew(&books.logbook)?;
        let signer = open.signer(&crew, signer)?;
        let pen = self.pen(&books.logbook, signer)?;
        let by = (&pen, consent);
        let (sealed, waits) = if open.is_signed {
            (open.examine(&books, signer, by)?, false)
        } else {
            (open.seal(&books, signer, by, &now)?, open.has_examiner())
        };
        match &mut self.open {
            Some(open) if waits => open.is_signed = true,
            _ => self.open = None,
        }
        Ok(Reply::Sealed(sealed))
    }
}

impl<D: Disk> Open<D> {
    /// Who might sign when the trip began.
    pub(super) fn crew(&self, logbook: &Logbook<D>) -> Result<Crew, Trouble> {
        Ok(Crew::read(&logbook.read(&self.folder.crew())?)?)
    }

    fn seal(
        &self,
        books: &Books<D>,
        signer: &Signer,
        (pen, consent): (&Pen, &Consent),
        now: &Moment,
    ) -> Result<Sealed, Trouble> {
        let logbook = &books.logbook;
        let bytes = if logbook.is_sealed(&self.folder)? {
            logbook.read(&self.folder.seal())?
        } else {
            self.new_seal(signer, now)?.write()?
        };
        let seal = Seal::read(&bytes)?;
        if seal.person != signer.id {
            return Err(Trouble::Said(format!(
                "The seal is there already and names {}, who signs it.",
                seal.name
            )));
        }
        let performed = Namespace::new(Deed::Performed, seal.mode);
        let witnessed = Namespace::new(Deed::Witnessed, seal.mode);
        let by_person = pen.sign(consent, performed, &bytes)?;
        let by_device = read_device_key(logbook, &seal.device)?.sign(witnessed, &bytes)?;
        for (path, text) in [
            (self.folder.seal(), bytes.as_slice()),
            (self.folder.person_signature(), by_person.as_bytes()),
            (self.folder.device_signature(), by_device.as_bytes()),
        ] {
            // One that is there was written before a crash on the way; it is never replaced.
            keep(logbook.disk(), &path, text, For::Shared)?;
        }
        Ok(Sealed {
            receipt: Receipt::of(&Seal::hash(&bytes)),
            outcome: seal.outcome.word().replace('-', " "),
            signed_by: format!("{}, {}", seal.name, seal.role),
            folder: self.folder.path.display().to_string(),
            typed: quoted(&self.folder.path),
        })
    }

    /// Whether it is a check ride, which an examiner signs after the person.
    fn has_examiner(&self) -> bool {
        let drill = self.begun.drill.as_ref();
        drill.is_some_and(|drill| drill.examiner.is_some())
    }

    /// The examiner's signature over the seal that the person has signed.
    fn examine(
        &self,
        books: &Books<D>,
        signer: &Signer,
        (pen, consent): (&Pen, &Consent),
    ) -> Result<Sealed, Trouble> {
        let logbook = &books.logbook;
        let bytes = logbook.read(&self.folder.seal())?;
        let seal = Seal::read(&bytes)?;
        let performed = Namespace::new(Deed::Performed, seal.mode);
        let signature = pen.sign(consent, performed, &bytes)?;
        let path = self.folder.examiner_signature();
        keep(logbook.disk(), &path, signature.as_bytes(), For::Shared)?;
        Ok(Sealed {
            receipt: Receipt::of(&Seal::hash(&bytes)),
            outcome: seal.outcome.word().replace('-', " "),
            signed_by: format!("{}, who examined", signer.name),
            folder: self.folder.path.display().to_string(),
            typed: quoted(&self.folder.path),
        })
    }

    fn new_seal(&self, signer: &Signer, now: &Moment) -> Result<Seal, Trouble> {
        let Some(outcome) = self.walk.ended() else {
            return Err(Trouble::Said(
                "The walk has not ended. End it, then sign it.".to_owned(),
            ));
        };
        let role = role_of(signer)?;
        let wall = Wall::new(now.wall).ok_or_else(|| {
            Trouble::Said("The clock of this laptop cannot be right. Set it, then sign.".to_owned())
        })?;
        Ok(Seal {
            trip: self.begun.trip.clone(),
            mode: self.begun.mode,
            device: self.begun.device.clone(),
            seq: self.begun.seq,
            lines: self.tip.lines,
            last: self.tip.last,
            outcome,
            counts: counts(self.walk.tally()),
            meaning: meaning_in(self.begun.mode, outcome).to_owned(),
            name: signer.name.clone(),
            role,
            person: signer.id.clone(),
            wall,
        })
    }

    /// Who signs has to have read or done the walk: the signature states what was seen.
    pub(super) fn signer<'c>(&self, crew: &'c Crew, who: &str) -> Result<&'c Signer, Trouble> {
        let signer = crew.signer(&id(who)?).ok_or_else(|| {
            Trouble::Said(format!(
                "{who} was not in the crew file when this trip began, and cannot sign it."
            ))
        })?;
        let drill = self.begun.drill.as_ref();
        if let Some(examiner) = drill.and_then(|drill| drill.examiner.as_ref())
            && self.is_signed
        {
            if signer.name.as_str() == examiner.as_str() {
                return Ok(signer);
            }
            return Err(Trouble::Said(format!(
                "{examiner} examined this check ride, and signs it now."
            )));
        }
        if self.walk.is_walked_by(signer.name.as_str()) {
            return Ok(signer);
        }
        let (reader, doer) = (self.walk.reader().to_string(), self.walk.doer().to_string());
        let either = if reader == doer {
            reader
        } else {
            format!("{reader} or {doer}")
        };
        Err(Trouble::Said(format!(
            "{} neither read nor did this walk. {either} signs it.",
            signer.name
        )))
    }
}

/// The role a person signs a walk in: the driver's, where it is held.
fn role_of(signer: &Signer) -> Result<Role, Trouble> {
    [Role::Driver, Role::Groom, Role::Manager, Role::Examiner]
        .into_iter()
        .find(|role| signer.roles.contains(role))
        .ok_or_else(|| Trouble::Said(format!("{} has no role to sign a walk in.", signer.name)))
}

fn counts(tally: Tally) -> Counts {
    Counts {
        ok: tally.ok.into(),
        note: tally.note.into(),
        fix: tally.fix.into(),
        stop: tally.stop.into(),
    }
}
