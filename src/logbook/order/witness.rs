//! Managers as witnesses: which statement is told, and which of two knew of the other.

use crate::record::{Digest, Id, PrintedName, Stated, Statements, Wall};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::fmt;

/// A statement, as it is told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Witness {
    /// The manager's id.
    pub manager: Id,
    /// The name as printed.
    pub name: PrintedName,
    /// The statement's number.
    pub number: u64,
    /// Its hash.
    pub hash: Digest,
    /// What the manager's clock said.
    pub clock: Wall,
}

impl Witness {
    /// A statement as a witness.
    pub fn of(stated: &Stated) -> Self {
        let statement = stated.statement();
        Self {
            manager: statement.manager.clone(),
            name: statement.name.clone(),
            number: statement.number,
            hash: stated.hash(),
            clock: statement.wall,
        }
    }
}

impl fmt::Display for Witness {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "statement {} of {}", self.number, self.name)
    }
}

/// How far each statement knew the log of every manager.
#[derive(Debug)]
pub(super) struct Knowledge<'s> {
    statements: &'s Statements,
    known: HashMap<Digest, BTreeMap<&'s Id, u64>>,
}

impl<'s> Knowledge<'s> {
    pub(super) fn of(statements: &'s Statements) -> Self {
        let mut known: HashMap<Digest, BTreeMap<&'s Id, u64>> = HashMap::new();
        for stated in statements.stated() {
            let mut own =
                BTreeMap::from([(&stated.statement().manager, stated.statement().number)]);
            let before = stated.names();
            for (manager, number) in before.filter_map(|name| known.get(&name)).flatten() {
                let number = *number;
                let most = own.entry(*manager).or_insert(number);
                *most = number.max(*most);
            }
            known.insert(stated.hash(), own);
        }
        Self { statements, known }
    }

    pub(super) fn find(&self, hash: Digest) -> Option<&'s Stated> {
        self.statements.find(&hash)
    }

    /// This statement and everything it stands on.
    pub(super) fn behind(&self, hash: &Digest) -> HashSet<Digest> {
        self.statements.behind(hash)
    }

    /// Whether one stands on the other, or is it.
    pub(super) fn knows(&self, later: &Stated, earlier: &Stated) -> bool {
        let (hash, earlier) = (earlier.hash(), earlier.statement());
        let known = self.known.get(&later.hash());
        let number = known.and_then(|known| known.get(&earlier.manager));
        // Where the manager signed apart, a number does not tell which of two was known.
        number.is_some_and(|number| *number >= earlier.number)
            && (!self.statements.signed_apart_by(&earlier.manager)
                || self.behind(&later.hash()).contains(&hash))
    }
}
