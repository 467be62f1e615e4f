//! The next crew file: a change as a manager means it, or why it cannot be made.

mod alike;
mod fault;

pub use fault::NotChanged;

use crate::record::roster::next::alike::reads_like;
use crate::record::{
    Change, Changed, Crew, Id, Mode, PrintedName, PublicKey, RideSignedOff, Role, Roster,
    SignedOff, Signer, has_same_parts,
};
use crate::walk::Words;

/// A change of the crew, as a manager means it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CrewAct {
    /// Someone is in the crew from now on.
    Add {
        /// Id in records.
        id: Id,
        /// Printed name.
        name: PrintedName,
        /// What they may sign as.
        roles: Vec<Role>,
        /// Their key.
        key: PublicKey,
        /// Anything to remember.
        words: Option<Words>,
    },
    /// Someone leaves; what they signed before stands.
    Retire(Id, Words),
    /// A key may be in other hands; only what was witnessed before stands. The same person goes on
    /// with another key, where one is given.
    Revoke(Id, Words, Option<PublicKey>),
    /// They may sign as something else.
    Roles(Id, Vec<Role>),
    /// The whole of what a person is signed off for, in place of what it was.
    SignOff(SignedOff),
    /// A person has passed a check ride, and is signed off for what it is good for besides.
    SignOffRide(Id, RideSignedOff),
    /// A person is signed off for nothing any more.
    Withdraw(Id),
}

/// The crew as it is after a change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NextCrew {
    /// The file.
    pub crew: Crew,
    /// What is new in it.
    pub changes: Vec<Change>,
    /// Everything people are signed off for.
    pub signed_off: Vec<SignedOff>,
}

/// The crew a change is made of, with all that was before it.
#[derive(Clone, Copy, Debug)]
pub struct CrewNow<'a> {
    /// The file in force.
    pub crew: &'a Crew,
    /// Every file there was; none in a logbook from before there were rosters.
    pub roster: &'a Roster,
    /// What the logbook is for.
    pub mode: Mode,
}

impl CrewNow<'_> {
    /// The crew after a change made by this manager.
    ///
    /// # Errors
    /// [`NotChanged`] with the reason.
    pub fn next(&self, act: &CrewAct, by: &Id) -> Result<NextCrew, NotChanged> {
        let before = self.signed_off();
        let next = match act {
            CrewAct::Add {
                id,
                name,
                roles,
                key,
                words,
            } => {
                self.is_new(id, name, roles)?;
                self.is_free(id, key)?;
                let signer = Signer::enrolled(id, roles.clone(), key, name.clone(), self.mode);
                NextCrew {
                    crew: self.crew.add(&signer)?,
                    changes: vec![changed(id, Changed::Added, words.as_ref())],
                    signed_off: before,
                }
            }
            CrewAct::Retire(id, words) => {
                self.known(id)?;
                self.without(id, Changed::Retired, words)?
            }
            CrewAct::Revoke(id, words, None) => {
                self.known(id)?;
                if id == by {
                    return Err(self.own_key(by));
                }
                self.without(id, Changed::Revoked, words)?
            }
            CrewAct::Revoke(id, words, Some(key)) => {
                let signer = self.may_replace_key(id, by)?;
                if signer.key.is_one_with(key) {
                    return Err(NotChanged::SameKey(signer.name.clone()));
                }
                self.is_free(id, key)?;
                let (roles, name) = (signer.roles.clone(), signer.name.clone());
                let signer = Signer::enrolled(id, roles, key, name, self.mode);
                NextCrew {
                    crew: self.crew.with(&signer)?,
                    changes: vec![
                        changed(id, Changed::Revoked, Some(words)),
                        changed(id, Changed::Added, None),
                    ],
                    signed_off: before,
                }
            }
            CrewAct::Roles(id, roles) => {
                let signer = self.known(id)?;
                let device = |roles: &[Role]| roles.contains(&Role::Device);
                if device(&signer.roles) != device(roles) {
                    return Err(NotChanged::PersonOrDevice(signer.name.clone()));
                }
                let same = |role: &Role| signer.roles.contains(role);
                if roles.len() == signer.roles.len() && roles.iter().all(same) {
                    return Err(NotChanged::SameRoles(signer.name.clone()));
                }
                let (key, name) = (&signer.key, signer.name.clone());
                let signer = Signer::enrolled(id, roles.clone(), key, name, self.mode);
                NextCrew {
                    crew: self.crew.with(&signer)?,
                    changes: vec![changed(id, Changed::Roles, None)],
                    signed_off: before,
                }
            }
            CrewAct::SignOff(line) => {
                let signer = self.known(&line.person)?;
                if signer.roles.contains(&Role::Device) {
                    return Err(NotChanged::PersonOrDevice(signer.name.clone()));
                }
                if before.contains(line) {
                    return Err(NotChanged::SameSignOff(signer.name.clone()));
                }
                let line = Self::with_rides(line, &before);
                self.signing_off(&line.person, Some(&line))
            }
            CrewAct::SignOffRide(id, ride) => self.riding(id, ride, &before)?,
            CrewAct::Withdraw(id) => {
                let signer = self.known(id)?;
                if before.iter().all(|line| line.person != *id) {
                    return Err(NotChanged::NotSignedOff(signer.name.clone()));
                }
                self.signing_off(id, None)
            }
        };
        let manager = |one: &Signer| one.roles.contains(&Role::Manager);
        if next.crew.signers().iter().any(manager) {
            Ok(next)
        } else {
            Err(NotChanged::LastManager)
        }
    }

    /// Whoever was signed off for nothing is then signed off for the ride alone.
    fn riding(
        &self,
        id: &Id,
        ride: &RideSignedOff,
        before: &[SignedOff],
    ) -> Result<NextCrew, NotChanged> {
        let signer = self.known(id)?;
        let own = before.iter().find(|own| own.person == *id);
        if own.is_some_and(|own| own.rides.contains(ride)) {
            return Err(NotChanged::SameSignOff(signer.name.clone()));
        }
        let mut line = own.cloned().unwrap_or_else(|| SignedOff {
            person: id.clone(),
            rigs: Some(Vec::new()),
            checklists: Some(Vec::new()),
            rides: Vec::new(),
        });
        line.rides
            .retain(|one| one.checklist != ride.checklist || one.rigs != ride.rigs);
        line.rides.push(ride.clone());
        line.rides.sort();
        Ok(self.signing_off(id, Some(&line)))
    }

    /// What a line says in place of the one before: what somebody rode stays theirs.
    fn with_rides(line: &SignedOff, before: &[SignedOff]) -> SignedOff {
        let own = before.iter().find(|own| own.person == line.person);
        SignedOff {
            rides: own.map_or_else(Vec::new, |own| own.rides.clone()),
            ..line.clone()
        }
    }

    /// Everything people are signed off for now.
    fn signed_off(&self) -> Vec<SignedOff> {
        let now = self.roster.in_force();
        now.map_or_else(Vec::new, |now| now.change.signed_off.clone())
    }

    fn known(&self, id: &Id) -> Result<&Signer, NotChanged> {
        let signer = self.crew.signer(id);
        signer.ok_or_else(|| NotChanged::Unknown(id.clone()))
    }

    /// Whose key this manager may revoke and replace, whatever the new one is.
    ///
    /// # Errors
    /// [`NotChanged`] with the reason.
    pub fn may_replace_key(&self, id: &Id, by: &Id) -> Result<&Signer, NotChanged> {
        let signer = self.known(id)?;
        if id == by && self.managers() > 1 {
            return Err(self.own_key(by));
        }
        Ok(signer)
    }

    fn managers(&self) -> usize {
        let manager = |one: &&Signer| one.roles.contains(&Role::Manager);
        self.crew.signers().iter().filter(manager).count()
    }

    /// A stolen key could have signed the same.
    fn own_key(&self, by: &Id) -> NotChanged {
        match self.managers() {
            1 => NotChanged::OnlyManagersKey(by.clone()),
            _ => NotChanged::OwnKey,
        }
    }

    /// Everyone there ever was.
    fn ever(&self) -> impl Iterator<Item = &Signer> {
        let before = self.roster.revisions().iter().map(|one| &one.crew);
        before
            .chain([self.crew])
            .flat_map(|crew| crew.signers().iter())
    }

    /// Whether somebody new may come in by this id and name, whatever key they bring.
    ///
    /// # Errors
    /// [`NotChanged`] with the reason.
    pub fn is_new(&self, id: &Id, name: &PrintedName, roles: &[Role]) -> Result<(), NotChanged> {
        if let Some(now) = self.crew.signer(id) {
            return Err(NotChanged::Here(id.clone(), now.name.clone()));
        }
        if roles.is_empty() {
            return Err(NotChanged::NoRole);
        }
        let device = |roles: &[Role]| roles.contains(&Role::Device);
        let other = |old: &&Signer| {
            old.id == *id && (old.name != *name || device(&old.roles) != device(roles))
        };
        match self.ever().find(other) {
            Some(old) => Err(NotChanged::IdOf(id.clone(), old.name.clone())),
            None => self.is_told_apart(id, name),
        }
    }

    /// Old records name whoever has left as well.
    fn is_told_apart(&self, id: &Id, name: &PrintedName) -> Result<(), NotChanged> {
        let alike = |old: &&Signer| {
            old.id != *id
                && (reads_like(old.name.as_str(), name.as_str())
                    || has_same_parts(old.name.as_str(), name.as_str())
                    || reads_like(old.id.as_str(), id.as_str()))
        };
        self.ever().find(alike).map_or(Ok(()), |old| {
            let new = (id.clone(), name.clone());
            Err(NotChanged::Alike(new, (old.id.clone(), old.name.clone())))
        })
    }

    /// One person per key, for good; and a key that was revoked is never anybody's again.
    fn is_free(&self, id: &Id, key: &PublicKey) -> Result<(), NotChanged> {
        let theirs = |old: &&Signer| old.key.is_one_with(key);
        if let Some(old) = self.ever().filter(theirs).find(|old| old.id != *id) {
            return Err(NotChanged::KeyOf(old.id.clone(), old.name.clone()));
        }
        let revoked = |old: &Signer| {
            let all = self.roster.revisions().iter();
            let mut out = all.filter_map(|one| self.roster.taken_out(&old.key, one));
            out.any(|(_, how)| how.is_for_good())
        };
        if self.ever().filter(theirs).any(revoked) {
            return Err(NotChanged::RevokedKey);
        }
        Ok(())
    }

    fn without(&self, id: &Id, how: Changed, words: &Words) -> Result<NextCrew, NotChanged> {
        let mut signed_off = self.signed_off();
        signed_off.retain(|line| line.person != *id);
        Ok(NextCrew {
            crew: self.crew.without(id)?,
            changes: vec![changed(id, how, Some(words))],
            signed_off,
        })
    }

    fn signing_off(&self, person: &Id, line: Option<&SignedOff>) -> NextCrew {
        let mut signed_off = self.signed_off();
        signed_off.retain(|other| other.person != *person);
        signed_off.extend(line.cloned());
        signed_off.sort_by(|one, next| one.person.cmp(&next.person));
        NextCrew {
            crew: self.crew.clone(),
            changes: vec![changed(person, Changed::SignedOff, None)],
            signed_off,
        }
    }
}

fn changed(who: &Id, what: Changed, words: Option<&Words>) -> Change {
    Change {
        who: who.clone(),
        what,
        words: words.cloned(),
    }
}
