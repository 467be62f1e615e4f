//! What one manager signed on two laptops that did not know of each other, until a later statement
//! joins it.

use crate::record::{Digest, Id, Says, Stated, StatementFault, Statements};
use std::collections::{BTreeMap, BTreeSet, HashSet};

impl Statements {
    /// Those whose word counts: not what somebody signed with a key that had been taken out.
    pub fn counting(&self) -> impl Iterator<Item = &Stated> {
        let late = self.late();
        self.stated
            .iter()
            .filter(move |stated| !late.contains(&stated.hash))
    }

    /// The ends of the rows of a manager's statements: those that no other of theirs stands on. There
    /// is one, unless the manager signed apart.
    pub fn ends_of(&self, manager: &Id) -> Vec<&Stated> {
        let own: Vec<&Stated> = self.counting().filter(|one| one.is_by(manager)).collect();
        if !self.apart.contains(manager) {
            return own.last().copied().into_iter().collect();
        }
        let mut stood_on = HashSet::new();
        for one in &own {
            stood_on.extend(one.names().flat_map(|named| self.behind(&named)));
        }
        let is_end = |one: &&Stated| !stood_on.contains(&one.hash);
        own.into_iter().filter(is_end).collect()
    }

    /// Whether one manager's statement stands on an earlier one of the same.
    pub fn follows(&self, later: &Stated, earlier: &Stated) -> bool {
        let manager = &later.statement.manager;
        later.statement.number > earlier.statement.number
            && (!self.apart.contains(manager) || self.behind(&later.hash).contains(&earlier.hash))
    }

    /// Whether two statements of this manager have one number, joined or not.
    pub fn signed_apart_by(&self, manager: &Id) -> bool {
        self.apart.contains(manager)
    }

    fn late(&self) -> HashSet<Digest> {
        let faults = self.faults.iter();
        let late = faults.filter_map(|fault| match fault {
            StatementFault::TakenOut { statement, .. } => Some(*statement),
            _ => None,
        });
        late.collect()
    }

    /// Tells each number of a manager that several statements have, the first of a row of such, unless
    /// a manager joined them: states so, and stands on all of them.
    pub(super) fn signed_apart(&mut self) {
        let mut logs: BTreeMap<&Id, BTreeMap<u64, Vec<Digest>>> = BTreeMap::new();
        let mut joins: BTreeMap<&Id, Vec<HashSet<Digest>>> = BTreeMap::new();
        for one in self.counting() {
            let log = logs.entry(&one.statement.manager).or_default();
            log.entry(one.statement.number).or_default().push(one.hash);
            if let Says::Joined(joined) = &one.statement.says {
                let of_manager = joins.entry(&joined.manager).or_default();
                of_manager.push(self.behind(&one.hash));
            }
        }
        let (mut apart, mut faults) = (BTreeSet::new(), Vec::new());
        for (manager, log) in logs {
            let mut told = None;
            for (number, same) in log.into_iter().filter(|(_, same)| same.len() > 1) {
                apart.insert(manager.clone());
                let mut joins = joins.get(manager).into_iter().flatten();
                if joins.any(|behind| same.iter().all(|one| behind.contains(one))) {
                    continue;
                }
                if told != number.checked_sub(1) {
                    let manager = manager.clone();
                    faults.push(StatementFault::Fork { manager, number });
                }
                told = Some(number);
            }
        }
        self.apart = apart;
        self.faults.extend(faults);
    }
}
