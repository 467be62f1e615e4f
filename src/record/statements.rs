//! Everything managers stated, verified together: the roster first, then each statement by the
//! crew file it names, then their order.

mod apart;
mod fault;
mod reach;

pub use fault::StatementFault;

use crate::record::{Crew, Digest, Id, Known, Mode, Revision, Roster, Says, Statement};
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

/// The files of one statement, as stored.
#[derive(Clone, Copy, Debug)]
pub struct StatementFiles<'a> {
    /// The statement.
    pub statement: &'a [u8],
    /// The manager's signature over it.
    pub signature: Option<&'a [u8]>,
    /// The crew file it puts in force, where it does.
    pub crew: Option<&'a [u8]>,
}

/// What managers stated, as far as it can be relied on.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Statements {
    /// Those named by others always before them.
    stated: Vec<Stated>,
    /// Where each stands.
    places: HashMap<Digest, usize>,
    /// Which crew statements each stands on, where a crew file was put in force more than once.
    crews_behind: reach::Reach,
    roster: Roster,
    faults: Vec<StatementFault>,
    /// Managers who signed apart: two of their statements have one number.
    apart: BTreeSet<Id>,
}

/// A statement whose signature was verified. Only [`Statements::read`] makes one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stated {
    statement: Statement,
    hash: Digest,
}

/// One that can be read, on its way.
struct Candidate<'a> {
    at: usize,
    files: StatementFiles<'a>,
    stated: Stated,
}

impl Statements {
    /// Reads and verifies statements found in a logbook of `mode`, in any order; the same one
    /// twice counts once. With crew files `trusted`, the roster has to lead to one of them.
    pub fn read(files: &[StatementFiles<'_>], mode: Mode, trusted: &[Crew]) -> Self {
        let mut all = Self::default();
        let mut waiting: Vec<Candidate<'_>> = Vec::new();
        for (at, files) in files.iter().enumerate() {
            match Statement::read(files.statement) {
                Ok(statement) if statement.mode != mode => {
                    let found = statement.mode;
                    all.faults.push(StatementFault::OtherMode { at, found });
                }
                Ok(statement) => {
                    let hash = Statement::hash(files.statement);
                    let stated = Stated { statement, hash };
                    let files = *files;
                    waiting.push(Candidate { at, files, stated });
                }
                Err(reason) => all.faults.push(StatementFault::Unreadable { at, reason }),
            }
        }
        // The same statement may lie here twice, one of them without its signature.
        waiting.sort_by_key(|one| (one.stated.hash, one.files.signature.is_none(), one.at));
        waiting.dedup_by_key(|one| one.stated.hash);
        let (crews, others): (Vec<_>, Vec<_>) = waiting
            .into_iter()
            .partition(|one| matches!(one.stated.statement.says, Says::Crew(_)));
        all.build_roster(crews);
        for one in others {
            all.take(&one);
        }
        all.anchor(trusted);
        all.put_in_order();
        all.forks();
        all.gaps();
        all.positions();
        all.signed_apart();
        all
    }

    /// The statements that can be relied on, those named by others always before them.
    pub fn stated(&self) -> &[Stated] {
        &self.stated
    }

    /// The crew files.
    pub const fn roster(&self) -> &Roster {
        &self.roster
    }

    /// Everything wrong.
    pub fn faults(&self) -> &[StatementFault] {
        &self.faults
    }

    /// The statement with this hash.
    pub fn find(&self, hash: &Digest) -> Option<&Stated> {
        self.places.get(hash).and_then(|at| self.stated.get(*at))
    }

    /// The newest of a manager.
    pub fn newest_of(&self, manager: &Id) -> Option<&Stated> {
        let own = self.stated.iter().filter(|one| one.is_by(manager));
        own.max_by_key(|one| (one.statement.number, one.hash))
    }

    /// The newest of each manager.
    pub fn newest_of_each(&self) -> BTreeMap<&Id, &Stated> {
        let mut newest: BTreeMap<&Id, &Stated> = BTreeMap::new();
        for one in &self.stated {
            let known = newest.entry(&one.statement.manager).or_insert(one);
            if (known.statement.number, known.hash) < (one.statement.number, one.hash) {
                *known = one;
            }
        }
        newest
    }

    /// The newest of every other manager, as a new statement of this one names them.
    pub fn known_to(&self, manager: &Id) -> Vec<Known> {
        let newest = self.newest_of_each().into_iter();
        newest
            .filter(|(other, _)| *other != manager)
            .map(|(_, one)| Known {
                manager: one.statement.manager.clone(),
                hash: one.hash,
            })
            .collect()
    }

    /// The one a new trip quotes: the end of the longest row of statements, each naming the one
    /// before. No clock decides.
    pub fn newest(&self) -> Option<&Stated> {
        self.stated.last()
    }

    /// This statement and everything it stands on, as far as it is here.
    pub fn behind(&self, hash: &Digest) -> HashSet<Digest> {
        let mut behind = HashSet::new();
        let mut open = vec![*hash];
        while let Some(hash) = open.pop() {
            if let Some(stated) = self.find(&hash)
                && behind.insert(hash)
            {
                open.extend(stated.names());
            }
        }
        behind
    }

    /// The crew file with this plain hash, for whoever quotes this statement. One that was put in
    /// force again, after somebody came back, is the last that the statement stands on.
    pub fn in_force_for(&self, crew: &Digest, quoted: Option<Digest>) -> Option<&Revision> {
        let revisions = self.roster.revisions().iter().enumerate();
        let mut same = revisions.filter(|(_, revision)| revision.change.file == *crew);
        let (_, first) = same.next()?;
        let quoted = quoted.and_then(|quoted| self.places.get(&quoted));
        let known = |(at, _): &(usize, &Revision)| {
            quoted.is_some_and(|quoted| self.crews_behind.holds(*quoted, *at))
        };
        let last = same.rfind(known).map(|(_, last)| last);
        Some(last.unwrap_or(first))
    }

    /// Whether the manager's key was taken out by a crew file, and this statement is not among
    /// those that one stands on.
    fn positions(&mut self) {
        // What a crew file stands on is asked again for each statement of whom it took out.
        let mut behind: HashMap<Digest, HashSet<Digest>> = HashMap::new();
        let mut late = |stated: &Stated| {
            let statement = &stated.statement;
            let since = self.in_force_for(&statement.crew, Some(stated.hash))?;
            let key = &since.crew.signer(&statement.manager)?.key;
            let (revision, how) = self.roster.taken_out(key, since)?;
            let by = revision.statement;
            let behind = behind.entry(by).or_insert_with(|| self.behind(&by));
            let in_time = behind.contains(&stated.hash);
            (!in_time).then(|| StatementFault::TakenOut {
                manager: statement.manager.clone(),
                number: statement.number,
                statement: stated.hash,
                how,
            })
        };
        let faults: Vec<_> = self.stated.iter().filter_map(&mut late).collect();
        self.faults.extend(faults);
    }

    /// Takes crew statements as soon as the one before is there, until no more can be taken.
    fn build_roster(&mut self, mut waiting: Vec<Candidate<'_>>) {
        loop {
            let ready = waiting.iter().position(|one| {
                let Says::Crew(change) = &one.stated.statement.says else {
                    return false;
                };
                change
                    .before
                    .is_none_or(|before| self.roster.put_in_force_by(&before).is_some())
            });
            let Some(ready) = ready else { break };
            let one = waiting.remove(ready);
            match self.revision(&one) {
                Ok(revision) => {
                    self.roster.push(revision);
                    self.stated.push(one.stated);
                }
                Err(fault) => self.faults.push(fault),
            }
        }
        self.faults.extend(waiting.iter().map(|one| {
            let (manager, number) = one.who();
            StatementFault::CrewBefore { manager, number }
        }));
    }

    fn revision(&self, one: &Candidate<'_>) -> Result<Revision, StatementFault> {
        let (manager, number) = one.who();
        let why = |why: String| StatementFault::CrewFile {
            manager: manager.clone(),
            number,
            why,
        };
        let Says::Crew(change) = &one.stated.statement.says else {
            return Err(why("it is no crew statement".to_owned()));
        };
        let file = one.files.crew;
        let file = file.ok_or_else(|| why("its crew file is not here".to_owned()))?;
        if Digest::of(file) != change.file {
            return Err(why("its crew file was changed".to_owned()));
        }
        let crew = Crew::read(file).map_err(|faults| why(faults.to_string()))?;
        let by = match change.before {
            None => &crew,
            Some(before) => {
                let before = self.roster.put_in_force_by(&before);
                let before = before.ok_or_else(|| why("the one before is not here".to_owned()))?;
                if before.change.number.saturating_add(1) != change.number {
                    return Err(why("its number does not follow the one before".to_owned()));
                }
                &before.crew
            }
        };
        if one.stated.statement.crew != by.revision() {
            return Err(why(
                "it is signed by another crew file than it follows".to_owned()
            ));
        }
        one.is_signed(by)?;
        if let Some(reason) = self.roster.refuses(&crew, change) {
            return Err(why(reason));
        }
        Ok(Revision {
            by: one.stated.statement.name.clone(),
            statement: one.stated.hash,
            change: change.clone(),
            crew,
        })
    }

    /// Takes a statement that is no crew statement.
    fn take(&mut self, one: &Candidate<'_>) {
        let Some(revision) = self.roster.crew(&one.stated.statement.crew) else {
            let (manager, number) = one.who();
            self.faults
                .push(StatementFault::UnknownCrew { manager, number });
            return;
        };
        match one.is_signed(&revision.crew) {
            Ok(()) => self.stated.push(one.stated.clone()),
            Err(fault) => self.faults.push(fault),
        }
    }

    /// Forks of the roster that no later statement has settled.
    fn forks(&mut self) {
        let mut roster = std::mem::take(&mut self.roster);
        let by = |one: &Digest| Some(self.find(one)?.statement.manager.clone());
        roster.settle(by, |statement| self.behind(statement));
        self.roster = roster;
        let numbers = self.roster.forks().into_iter();
        let forks = numbers.map(|number| StatementFault::RosterFork { number });
        self.faults.extend(forks);
    }

    /// Whether the roster leads to a crew file the verifier trusts.
    fn anchor(&mut self, trusted: &[Crew]) {
        let leads = |crew: &Crew| self.roster.crew(&crew.revision()).is_some();
        if !self.roster.revisions().is_empty() && !trusted.is_empty() && !trusted.iter().any(leads)
        {
            self.faults.push(StatementFault::NotTrusted);
        }
    }

    /// Puts each behind those it names: by the length of the longest row that leads to it.
    fn put_in_order(&mut self) {
        let known: HashMap<Digest, &Stated> =
            self.stated.iter().map(|one| (one.hash, one)).collect();
        let mut depths: HashMap<Digest, usize> = HashMap::new();
        for one in &self.stated {
            let mut open = vec![one];
            while let Some(top) = open.last().copied() {
                let named = top.names().filter_map(|hash| known.get(&hash).copied());
                let waiting: Vec<_> = named
                    .clone()
                    .filter(|one| !depths.contains_key(&one.hash))
                    .collect();
                if waiting.is_empty() {
                    let deepest = named.filter_map(|one| depths.get(&one.hash)).max();
                    let depth = deepest.map_or(0, |depth| depth + 1);
                    depths.insert(top.hash, depth);
                    open.pop();
                } else {
                    open.extend(waiting);
                }
            }
        }
        self.stated
            .sort_by_key(|one| (depths.get(&one.hash).copied(), one.hash));
        let places = self.stated.iter().enumerate();
        self.places = places.map(|(at, one)| (one.hash, at)).collect();
        self.crews_behind = reach::Reach::of(&self.stated, &self.places, &self.roster);
    }

    /// Gaps of each manager's own log, and what is named and not here.
    fn gaps(&mut self) {
        let mut logs: BTreeMap<&Id, BTreeSet<u64>> = BTreeMap::new();
        for one in &self.stated {
            let log = logs.entry(&one.statement.manager).or_default();
            log.insert(one.statement.number);
        }
        let mut faults = Vec::new();
        for (manager, log) in logs {
            let mut expected = 1;
            for number in log {
                if number > expected {
                    faults.push(StatementFault::Gap {
                        manager: manager.clone(),
                        from: expected,
                        to: number - 1,
                    });
                }
                expected = number.saturating_add(1);
            }
        }
        for one in &self.stated {
            for named in one.names().filter(|named| self.find(named).is_none()) {
                let (manager, number) = one.who();
                faults.push(StatementFault::Missing {
                    manager,
                    number,
                    named,
                });
            }
        }
        self.faults.extend(faults);
    }
}

impl Stated {
    /// What it says.
    pub const fn statement(&self) -> &Statement {
        &self.statement
    }

    /// What later statements and trips name it by.
    pub const fn hash(&self) -> Digest {
        self.hash
    }

    /// The statements it names.
    pub fn names(&self) -> impl Iterator<Item = Digest> + Clone {
        self.statement.names()
    }

    fn is_by(&self, manager: &Id) -> bool {
        self.statement.manager == *manager
    }

    fn who(&self) -> (Id, u64) {
        (self.statement.manager.clone(), self.statement.number)
    }
}

impl Candidate<'_> {
    fn who(&self) -> (Id, u64) {
        self.stated.who()
    }

    fn is_signed(&self, crew: &Crew) -> Result<(), StatementFault> {
        let (manager, number) = self.who();
        let Some(signature) = self.files.signature else {
            return Err(StatementFault::NoSignature { manager, number });
        };
        let armor = String::from_utf8_lossy(signature);
        let signed = self
            .stated
            .statement
            .is_signed(self.files.statement, &armor, crew);
        signed.map_err(|why| StatementFault::NotSigned {
            manager,
            number,
            why,
        })
    }
}
