//! Which statements and crew files may be taken: those a signed chain leads to from the crew file
//! in force here. A stranger's crew file must not be able to unseat ours.

use crate::logbook::merge::why::{Awaited, Why};
use crate::record::{Crew, Digest, Mode, Role, Says, Signer, Statement};
use std::collections::{HashMap, HashSet};

/// A statement of theirs. Numbers are places in the pile.
#[derive(Clone, Debug)]
pub struct Offered {
    /// Its place.
    pub piece: usize,
    /// What it says.
    pub statement: Statement,
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// The signatures that hold for it by some crew file.
    pub signatures: Vec<(usize, Vec<u8>)>,
    /// The crew file it puts in force, where it does and the file is at hand.
    pub crew: Option<Vec<u8>>,
}

/// The crew files that count here, by their plain hash.
#[derive(Clone, Debug, Default)]
pub struct Trusted {
    crews: HashMap<Digest, Crew>,
    /// Whether a manager has put any of them in force by a statement.
    has_roster: bool,
    /// The statements that those here name.
    expected: HashSet<Digest>,
}

/// What is done with statements.
#[derive(Clone, Debug, Default)]
pub struct Taken {
    /// Those to keep, those before always first; each with the signature that counts.
    pub keep: Vec<(usize, usize)>,
    /// Those set aside, by their place in the list, and why.
    pub aside: Vec<(usize, Why)>,
}

impl Trusted {
    /// The crew file in force, and those of the roster.
    pub fn new(in_force: &Crew, roster: impl IntoIterator<Item = Crew>) -> Self {
        let mut trusted = Self::default();
        for crew in roster {
            trusted.has_roster = true;
            trusted.put(crew);
        }
        trusted.put(in_force.clone());
        trusted
    }

    /// Says which statements those here name: one of these is no stranger's, though it be the first.
    pub fn expect(&mut self, named: impl IntoIterator<Item = Digest>) {
        self.expected.extend(named);
    }

    fn put(&mut self, crew: Crew) {
        self.crews.insert(crew.revision(), crew);
    }

    /// The crew file with this hash.
    pub fn get(&self, revision: &Digest) -> Option<&Crew> {
        self.crews.get(revision)
    }

    /// Every crew file that counts.
    pub fn crews(&self) -> impl Iterator<Item = &Crew> {
        self.crews.values()
    }

    /// Whether it is the same barn's: one grew from the other, or a laptop of one is in the other.
    /// A person may drive for two barns with one key; a laptop has a key of its own in each.
    pub fn is_kin(&self, other: &Crew) -> bool {
        let is_device = |signer: &&Signer| signer.roles.contains(&Role::Device);
        self.crews().any(|crew| {
            let shared = crew.signers().iter().filter(is_device).any(|device| {
                let same = other.signer(&device.id);
                same.is_some_and(|same| same.key == device.key)
            });
            shared || crew.grew_from(other) || other.grew_from(crew)
        })
    }

    /// Takes statements as soon as what they stand on is here, until no more can be taken.
    pub fn take(&mut self, offered: &[Offered], mode: Mode) -> Taken {
        let mut taken = Taken::default();
        let mut waiting: Vec<usize> = Vec::new();
        for (at, one) in offered.iter().enumerate() {
            if one.statement.mode == mode {
                waiting.push(at);
            } else {
                let found = one.statement.mode;
                let why = format!("this is a {found} statement, and the logbook is a {mode} one");
                taken.aside.push((at, Why::Faults(vec![why])));
            }
        }
        loop {
            let before = taken.keep.len();
            waiting.retain(|at| {
                let signature = offered.get(*at).and_then(|one| self.accepts(one));
                taken
                    .keep
                    .extend(signature.map(|signature| (*at, signature)));
                signature.is_none()
            });
            if taken.keep.len() == before {
                break;
            }
        }
        let left = waiting.into_iter();
        let left = left.filter_map(|at| Some((at, self.why_not(offered.get(at)?))));
        taken.aside.extend(left);
        taken
    }

    /// The place of the signature it counts by; a crew file it puts in force counts from then on.
    fn accepts(&mut self, one: &Offered) -> Option<usize> {
        let file = one.new_crew();
        let by = match self.get(&one.statement.crew) {
            Some(crew) => crew,
            None => file.as_ref().filter(|file| self.founds(one, file))?,
        };
        let signed = one.signatures.iter().position(|(_, armor)| {
            let armor = String::from_utf8_lossy(armor);
            let who = (&one.statement.manager, Role::Manager);
            let namespace = Statement::namespace(one.statement.mode);
            by.verify(who, namespace, &one.bytes, &armor)
                .is_ok_and(|signer| signer.name == one.statement.name)
        })?;
        if let Says::Crew(_) = one.statement.says {
            self.put(file?);
            self.has_roster = true;
        }
        Some(signed)
    }

    /// Whether it is the first statement of a roster, of a barn that had none here, by somebody who
    /// is a manager here with the same key; or the one that statements here grew from.
    fn founds(&self, one: &Offered, file: &Crew) -> bool {
        let Says::Crew(change) = &one.statement.says else {
            return false;
        };
        let manager = &one.statement.manager;
        let is_manager_here = self.crews().filter_map(|crew| crew.signer(manager));
        let same = |here: &Signer| {
            let there = file.signer(manager);
            here.roles.contains(&Role::Manager) && there.is_some_and(|one| one.key == here.key)
        };
        change.before.is_none()
            && file.revision() == one.statement.crew
            && !self.has_roster
            && (self.expected.contains(&Statement::hash(&one.bytes))
                || is_manager_here.into_iter().any(same))
    }

    fn why_not(&self, one: &Offered) -> Why {
        if one.signatures.is_empty() {
            return Why::Waits(Awaited::Signatures);
        }
        match (&one.statement.says, &one.crew) {
            (Says::Crew(_), None) => Why::Waits(Awaited::Crew),
            (Says::Crew(_), Some(_)) if one.new_crew().is_none() => {
                Why::Faults(vec!["its crew file cannot be used".to_owned()])
            }
            (Says::Crew(change), Some(_)) if change.before.is_none() => Why::Crew,
            _ if self.get(&one.statement.crew).is_none() => Why::Waits(Awaited::Before),
            _ => Why::Faults(vec![
                "no manager of the crew file it names has signed it".to_owned(),
            ]),
        }
    }
}

impl Offered {
    /// The crew file it puts in force, where that is at hand and can be read.
    fn new_crew(&self) -> Option<Crew> {
        let Says::Crew(change) = &self.statement.says else {
            return None;
        };
        let crew = Crew::read(self.crew.as_deref()?).ok()?;
        (crew.revision() == change.file).then_some(crew)
    }
}
