//! The crew: who may sign, as what, with which key. The file is OpenSSH's `allowed_signers`.
//!
//! One person or device a line: the id, then its roles as further principals, so that
//! `ssh-keygen -Y verify -I role:driver` asks for a role as `-I wren.ashdown` asks for a person:
//!
//! ```text
//! wren.ashdown,role:driver namespaces="hames.performed.v1" ssh-ed25519 AAAA… Wren Ashdown
//! ```
//!
//! The stock tool skips a line it cannot read and lets patterns, certificate authorities and
//! dates in; here each of these is a fault, for a roster must not shrink or grow unseen.

mod fault;
mod parse;
mod role;

pub use fault::{CrewFault, CrewFaults, LineReason, Refused};
pub use role::Role;

use crate::record::{Digest, Id, Namespace, PrintedName, PublicKey};

/// A crew file, read without a fault.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Crew {
    text: String,
    revision: Digest,
    signers: Vec<Signer>,
}

/// One person or device of the crew.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signer {
    /// What records call them.
    pub id: Id,
    /// What they may sign as, at least one.
    pub roles: Vec<Role>,
    /// The namespaces their signatures count in, at least one.
    pub namespaces: Vec<Namespace>,
    /// Their key.
    pub key: PublicKey,
    /// Their name as printed.
    pub name: PrintedName,
}

impl Crew {
    /// Reads a crew file.
    ///
    /// # Errors
    /// [`CrewFaults`]: every fault, each with its line.
    pub fn read(file: &[u8]) -> Result<Self, CrewFaults> {
        parse::crew(file).map(|(text, signers)| Self {
            text: text.to_owned(),
            revision: Digest::of(file),
            signers,
        })
    }

    /// Everyone in the crew, in the order of the file.
    pub fn signers(&self) -> &[Signer] {
        &self.signers
    }

    /// The person or device with this id.
    pub fn signer(&self, id: &Id) -> Option<&Signer> {
        self.signers.iter().find(|signer| signer.id == *id)
    }

    /// The hash of the file, as `sha256sum` gives it; records name the crew by it.
    pub const fn revision(&self) -> Digest {
        self.revision
    }

    /// The file as text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The crew with one more in it; the lines before stay as they are, to the byte.
    ///
    /// # Errors
    /// [`CrewFaults`] when the id or the key is there already, or the roles do not go together.
    pub fn add(&self, signer: &Signer) -> Result<Self, CrewFaults> {
        Self::read(format!("{}{signer}\n", self.text).as_bytes())
    }

    /// Whether everyone of the earlier crew is in this one, under the same id, key, roles and name,
    /// and may sign whatever they might then. Whatever the earlier crew accepts, this one does too.
    pub fn grew_from(&self, earlier: &Self) -> bool {
        earlier.signers.iter().all(|before| {
            self.signer(&before.id).is_some_and(|now| {
                let same = now.key == before.key && now.name == before.name;
                let may = |one: &Namespace| now.namespaces.contains(one);
                same && now.roles == before.roles && before.namespaces.iter().all(may)
            })
        })
    }

    /// Whether `armor` is the signature over `bytes`, in `namespace`, of the one called `id`, who
    /// holds `role`.
    ///
    /// # Errors
    /// [`Refused`] with the first reason.
    pub fn verify(
        &self,
        (id, role): (&Id, Role),
        namespace: Namespace,
        bytes: &[u8],
        armor: &str,
    ) -> Result<&Signer, Refused> {
        let signer = self
            .signer(id)
            .ok_or_else(|| Refused::Unknown(id.clone()))?;
        if !signer.roles.contains(&role) {
            return Err(Refused::Role(id.clone(), role));
        }
        if !signer.namespaces.contains(&namespace) {
            return Err(Refused::Namespace(id.clone(), namespace));
        }
        signer
            .key
            .verify(namespace, bytes, armor)
            .map_err(|fault| Refused::Signature(id.clone(), fault))?;
        Ok(signer)
    }
}

impl std::fmt::Display for Signer {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.id)?;
        for role in &self.roles {
            write!(f, ",{}{role}", Role::PREFIX)?;
        }
        let namespaces: Vec<_> = self.namespaces.iter().map(|one| one.name()).collect();
        write!(
            f,
            " namespaces=\"{}\" {} {}",
            namespaces.join(","),
            self.key,
            self.name
        )
    }
}
