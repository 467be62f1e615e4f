//! What a signature says, and of what kind of walk: the SSHSIG namespaces.

use std::fmt;

/// Whether a walk counts.
///
/// The mode is in the folder, in the signed bytes and in the namespace, and never in the rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Mode {
    /// A walk before a real trip.
    Real,
    /// A walk of the invented barn, to look around.
    Demo,
    /// A training run.
    Drill,
}

/// What the signer did.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Deed {
    /// A person walked the checklist.
    Performed,
    /// A device holds the trip at this place in its sequence.
    Witnessed,
    /// A manager has read a checklist and takes it for the barn's.
    Approved,
    /// A manager states something about the logbook.
    Stated,
}

/// The namespace a signature is made in. A signature made in one is refused in every other.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Namespace {
    /// What the signer did.
    pub deed: Deed,
    /// In what kind of walk.
    pub mode: Mode,
}

impl Mode {
    /// Every mode.
    pub const ALL: [Self; 3] = [Self::Real, Self::Demo, Self::Drill];

    /// The word in records and on screens.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Real => "real",
            Self::Demo => "demo",
            Self::Drill => "drill",
        }
    }

    /// The mode a word names.
    pub fn read(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|mode| mode.word() == word)
    }
}

impl Deed {
    /// Every deed.
    pub const ALL: [Self; 4] = [
        Self::Performed,
        Self::Witnessed,
        Self::Approved,
        Self::Stated,
    ];
}

impl Namespace {
    /// Of `deed` in a walk of `mode`.
    pub const fn new(deed: Deed, mode: Mode) -> Self {
        Self { deed, mode }
    }

    /// Every namespace.
    pub fn all() -> impl Iterator<Item = Self> {
        Deed::ALL
            .into_iter()
            .flat_map(|deed| Mode::ALL.map(|mode| Self { deed, mode }))
    }

    /// The name as given to `ssh-keygen -n`.
    pub const fn name(self) -> &'static str {
        match (self.deed, self.mode) {
            (Deed::Performed, Mode::Real) => "hames.performed.v1",
            (Deed::Performed, Mode::Demo) => "hames.performed.v1.demo",
            (Deed::Performed, Mode::Drill) => "hames.performed.v1.drill",
            (Deed::Witnessed, Mode::Real) => "hames.witnessed.v1",
            (Deed::Witnessed, Mode::Demo) => "hames.witnessed.v1.demo",
            (Deed::Witnessed, Mode::Drill) => "hames.witnessed.v1.drill",
            (Deed::Approved, Mode::Real) => "hames.approved.v1",
            (Deed::Approved, Mode::Demo) => "hames.approved.v1.demo",
            (Deed::Approved, Mode::Drill) => "hames.approved.v1.drill",
            (Deed::Stated, Mode::Real) => "hames.stated.v1",
            (Deed::Stated, Mode::Demo) => "hames.stated.v1.demo",
            (Deed::Stated, Mode::Drill) => "hames.stated.v1.drill",
        }
    }

    /// The namespace a name stands for.
    pub fn read(name: &str) -> Option<Self> {
        Self::all().find(|namespace| namespace.name() == name)
    }
}

impl fmt::Display for Mode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

impl fmt::Display for Namespace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_namespace_has_its_own_name_and_reads_back() {
        let names: HashSet<_> = Namespace::all().map(Namespace::name).collect();
        assert_eq!(names.len(), 12);
        for namespace in Namespace::all() {
            assert_eq!(Namespace::read(namespace.name()), Some(namespace));
        }
        assert_eq!(Namespace::read("hames.performed.v2"), None);
    }
}
