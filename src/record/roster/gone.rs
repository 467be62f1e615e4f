//! Where and how a key went out of the crew.

use crate::record::roster::holds;
use crate::record::{Changed, Finding, PublicKey, Revision, Roster, Signer};

/// How a crew file comes to be without a key that an earlier one had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gone {
    /// Its owner has left.
    Retired,
    /// It may be in other hands.
    Revoked,
    /// Nothing is said of it, and so it may have been taken out for cause.
    LeftOut,
    /// It was in the crew by a change alone that ended when it was settled which of several goes on.
    NotAdded,
}

impl Gone {
    /// What a later use of it amounts to.
    pub const fn finding(self) -> Finding {
        match self {
            Self::Retired => Finding::OutsideBracket,
            Self::Revoked | Self::LeftOut => Finding::RevokedSigner,
            Self::NotAdded => Finding::UnknownSigner,
        }
    }

    /// Whether the key is never taken again.
    pub const fn is_for_good(self) -> bool {
        matches!(self, Self::Revoked | Self::LeftOut)
    }
}

impl Roster {
    /// Where this key was taken out after it stood in that crew file, and how.
    pub fn taken_out(&self, key: &PublicKey, since: &Revision) -> Option<(&Revision, Gone)> {
        let mut signers = since.crew.signers().iter();
        let owner = signers.find(|signer| signer.key == *key)?;
        let mut after = self.after(since.statement);
        let later = after.find(|later| !holds(&later.crew, key))?;
        if !self.row(later).any(|one| holds(&one.crew, key)) {
            return Some((later, Gone::NotAdded));
        }
        let said = || {
            let changes = self.without(key, later).flat_map(|one| &one.change.changes);
            let of_owner = changes.filter(|change| change.who == owner.id);
            of_owner.map(|change| change.what)
        };
        let how = if said().any(|what| what == Changed::Revoked) {
            Gone::Revoked
        } else if said().any(|what| what == Changed::Retired) {
            Gone::Retired
        } else if said().next().is_some() {
            Gone::Revoked
        } else {
            Gone::LeftOut
        };
        Some((later, how))
    }

    /// Who is in one of these crew files and was never in this one or in those it was put in the
    /// place of: only the branches that end have added them.
    pub fn not_added<'r>(
        &'r self,
        goes_on: &'r Revision,
        ends: &[&'r Revision],
    ) -> Vec<&'r Signer> {
        let mut not_added: Vec<&Signer> = Vec::new();
        for signer in ends.iter().flat_map(|one| one.crew.signers()) {
            let known = not_added.iter().any(|one| one.key == signer.key);
            if !known && !self.row(goes_on).any(|one| holds(&one.crew, &signer.key)) {
                not_added.push(signer);
            }
        }
        not_added
    }

    /// Where this key went, of a crew file that has not got it: the file itself, or, where that
    /// settles a fork, the one of the branch it goes on with.
    pub fn went<'a>(&'a self, key: &PublicKey, later: &'a Revision) -> &'a Revision {
        let is_there = self.row(later).any(|one| holds(&one.crew, key));
        let went = self.without(key, later).last().filter(|_| is_there);
        went.unwrap_or(later)
    }

    /// This crew file, and those it was put in the place of, as far back as none has the key.
    fn without<'a>(
        &'a self,
        key: &PublicKey,
        later: &'a Revision,
    ) -> impl Iterator<Item = &'a Revision> {
        self.row(later).take_while(|one| !holds(&one.crew, key))
    }
}
