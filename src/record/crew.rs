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
mod request;
mod role;

pub use fault::{CrewFault, CrewFaults, LineReason, Refused};
pub use request::Request;
pub use role::Role;

use crate::record::{Digest, Id, Mode, Namespace, PrintedName, PublicKey};

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

    /// Who examines by this printed name or id, and as what: an examiner or a manager who is not
    /// the person examined.
    pub fn examiner(&self, name: &str, person: &Signer) -> Option<(&Signer, Role)> {
        let is_named = |one: &&Signer| one.name.as_str() == name || one.id.as_str() == name;
        let who = self.signers().iter().find(is_named);
        let who = who.filter(|one| one.id != person.id)?;
        Some((who, Role::examining(&who.roles)?))
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

    /// The crew with this line in place of the one with the same id.
    ///
    /// # Errors
    /// [`CrewFaults`] as in [`add`](Self::add).
    pub fn with(&self, signer: &Signer) -> Result<Self, CrewFaults> {
        self.edited(&signer.id, &format!("{signer}\n"))
    }

    /// The crew without the one with this id; the other lines stay as they are, to the byte.
    ///
    /// # Errors
    /// [`CrewFaults`], which is not met with a file that had none.
    pub fn without(&self, id: &Id) -> Result<Self, CrewFaults> {
        self.edited(id, "")
    }

    fn edited(&self, id: &Id, new: &str) -> Result<Self, CrewFaults> {
        let is_theirs = |line: &str| line.split([',', ' ']).next() == Some(id.as_str());
        let lines = self.text.split_inclusive('\n');
        let lines = lines.map(|line| if is_theirs(line) { new } else { line });
        Self::read(lines.collect::<String>().as_bytes())
    }

    /// Whether everyone of the earlier crew is in this one, under the same id, key and name, and has
    /// the roles and may sign whatever they might then. Whatever the earlier crew accepts, this one
    /// does too.
    pub fn grew_from(&self, earlier: &Self) -> bool {
        earlier.signers.iter().all(|before| {
            self.signer(&before.id).is_some_and(|now| {
                let same = now.key == before.key && now.name == before.name;
                let may = |one: &Namespace| now.namespaces.contains(one);
                let has = |role: &Role| now.roles.contains(role);
                same && before.roles.iter().all(has) && before.namespaces.iter().all(may)
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

impl Signer {
    /// Someone who may sign all that these roles sign, in a logbook of `mode`; who signs for real
    /// may sign drills as well.
    pub fn enrolled(
        id: &Id,
        roles: Vec<Role>,
        key: &PublicKey,
        name: PrintedName,
        mode: Mode,
    ) -> Self {
        let modes: &[Mode] = match mode {
            Mode::Real => &[Mode::Real, Mode::Drill],
            Mode::Demo => &[Mode::Demo, Mode::Drill],
            Mode::Drill => &[Mode::Drill],
        };
        let mut namespaces: Vec<Namespace> = Vec::new();
        for deed in roles.iter().flat_map(|role| role.deeds()) {
            for mode in modes {
                let namespace = Namespace::new(*deed, *mode);
                if !namespaces.contains(&namespace) {
                    namespaces.push(namespace);
                }
            }
        }
        Self {
            id: id.clone(),
            roles,
            namespaces,
            key: key.clone(),
            name,
        }
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
